"""A blade that wobbles.

What does a blade's run-out do to the kerf, to the part's length and to the cut face?

In the trade's words: a dial stands against the plate near its rim, and the blade is turned by hand. What the dial moves
there, the teeth move more, as they stand farther out. The kerf gets wider by it, on both sides alike.

Picture: From above: the teeth in the two places where the plate leans farthest to either side, and the kerf that they
leave.

Assumptions:
- the plate is flat and stands a little askew on its arbor: it leans as a whole
- the teeth are alike; the feed is even
- the work does not give way

Sources:
- similar triangles from the arbor to the rim

Notes: A bent plate, play of the arbor and teeth that are not alike add to it; the dial sees only what it touches.
"""

from kit.core.model import Model, equal
from kit.subjects.safety import SAW

M = Model("alignment.runout", __doc__)
w = M.given("dial", "w", "0.06 ± 0.01 mm", (0, 5), "what the dial moves over one turn of the blade, in all")
M.measured("dial gauge against the plate, blade turned by hand, machine unplugged")
r = M.given("dial_radius", "r", "110 ± 1 mm", (10, 500), "from the arbor's middle to the dial's tip")
M.measured("rule")
R = M.given("radius", "R", "127 mm", (20, 600), "from the arbor's middle to the teeth")
M.measured("half of what is printed on the blade")
k = M.given("teeth", "k", "2.8 ± 0.05 mm", (0.5, 10), "width of the teeth")
M.measured("calipers over one tooth")
n = M.given("speed", "n", "4000 1/min", (100, 20000), "turns of the blade")
M.measured("printed on the machine")
v = M.given("feed", "v", "3 ± 1 m/min", (0.1, 100), "feed of the work, or of the blade")
M.measured("watch and tape")
allowed = M.given("allowed", r"w_{\mathrm{max}}", "0.1 mm", (0.005, 5), "allowed run-out at the teeth")

W = M.result("wobble", "W", "mm", "run-out at the teeth, in all", resolution=0.01)
M.step(equal(W / R, w / r), "the plate leans as a whole: what it moves grows with the distance from the arbor")
M.equals(w * R / r, "as much more as the teeth stand farther out")
M.mistake(w, "the dial's reading was taken for what the teeth do")
M.mistake(w * r / R, "the radii were swapped: the teeth move more than the dial, not less")
kerf = M.result("kerf", "K", "mm", "width of the kerf", resolution=0.01)
M.equals(k + W, "the teeth, and what they move from side to side")
M.mistake(k + 2 * W, "the whole run-out was counted on both sides")
M.result("shorter", "s", "mm", "how much shorter a part gets than by a blade that runs true", resolution=0.01)
M.step((kerf - k) / 2, "on each side half of what the kerf is wider")
M.equals(W / 2, "half the run-out; a scale set by a test cut has it in it")
M.result("marks", "p", "mm", "distance of the marks on the cut face", resolution=0.01)
M.equals(v / n, "the tooth that reaches out farthest cuts the face once each turn")

M.limit("runout", "the teeth run out by", W, "<=", allowed)
M.mend("clean arbor, flanges and bore, turn the blade a quarter on its arbor, or change it")
M.limit("dial", "the dial stands from the arbor's middle by", r, "<=", R)
M.mend("measure again: the dial stands against the plate, inside the teeth")
M.caution(*SAW)
M.caution("Never touch a moving blade, and never set a dial against one: turn it by hand, unplugged.")
MODEL = M.done()
