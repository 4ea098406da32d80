"""An access door on hinges.

Does the door clear its frame and the machine as it swings, do its hinges hold, and is the blade in sight?

In the trade's words: a door in the hood's side, to reach the blade. Its inner edge swings out past the frame, its
weight pulls at the upper hinge, and through the opening I want to see where the blade stands.

Picture: From above: the door on its hinge, half open, the way of its inner corner, and what it must not touch. From the
side: the eye, the opening in the hood, and the line of sight to the blade.

Assumptions:
- two hinges on one upright side, their axis before the door's outer face; the door opens outward
- the upper hinge takes the pull, the lower one the push; both share the weight
- the door's weight hangs at half its width
- the door is a flat board with square edges, and opens by at least a right angle

Sources:
- a circle about the hinge's axis
- equilibrium of a rigid body: moments about the lower hinge
- similar triangles along the line of sight

Notes: A door in a hood is no guard: whoever opens it waits until the blade stands, or has an interlock put in.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import DOOR

M = Model("fastening.door", __doc__)
w = M.given("width", "w", "300 ± 1 mm", (50, 2000), "from the hinge's axis to the door's free edge")
M.measured("tape")
t = M.given("thickness", "t", "12 ± 0.3 mm", (2, 60), "thickness of the door")
M.measured("calipers")
c = M.given("axis", "c", "4 ± 0.3 mm", (0, 60), "from the door's outer face out to the hinge's axis")
M.measured("calipers over the knuckle, halved")
gap = M.given("gap", "j", "2 ± 0.3 mm", (0, 40), "gap at the free edge")
M.measured("feeler gauge or cards")
near = M.given("obstacle", "D", "350 ± 5 mm", (50, 5000), "from the hinge's axis to the nearest thing on its way")
M.measured("tape, the machine in its nearest position")
margin = M.given("margin", "k", "15 mm", (0, 200), "clearance wanted there")
m = M.given("mass", "m", "1.5 ± 0.1 kg", (0.05, 200), "mass of the door with all that hangs on it")
M.measured("kitchen scale")
a = M.given("hinges", "a", "200 ± 1 mm", (20, 3000), "from one hinge to the other")
M.measured("tape")
n = M.count("screws", "n", 2, (1, 12), "screws of a hinge that stand in the frame")
allowed = M.given("screw_pull", r"F_{\mathrm{max}}", "100 N", (1, 20000), "what one screw may be pulled by")
M.measured("from the page on screws, or from the screw's maker")
eye = M.given("eye", r"z_{\mathrm{e}}", "550 ± 30 mm", (-500, 2500), "eye above the bench")
M.measured("tape, as you stand at work")
far = M.given("eye_distance", "y", "700 ± 50 mm", (50, 5000), "from the eye to the opening, level")
M.measured("tape")
deep = M.given("blade_distance", "d", "250 ± 5 mm", (0, 3000), "from the opening on to the blade, level")
M.measured("tape")
blade = M.given("blade", r"z_{\mathrm{b}}", "60 ± 2 mm", (-500, 2000), "height of what is to be seen of the blade")
M.measured("rule")
low = M.given("sill", r"z_{1}", "120 ± 1 mm", (-500, 2000), "lower edge of the opening above the bench")
M.measured("rule")
high = M.given("lintel", r"z_{2}", "320 ± 1 mm", (-500, 3000), "upper edge of the opening above the bench")
M.measured("rule")
g = M.constant("gravity", "g", "9.80665 m/s^2", "standard gravity", "3rd CGPM, 1901")

r = M.result("corner", "r", "mm", "way of the inner corner round the axis", resolution=0.1)
M.equals(sp.sqrt(w**2 + (t + c) ** 2), "it lies behind the axis by the door and the knuckle")
need = M.result("gap_needed", r"j_{0}", "mm", "gap that a square edge needs", resolution=0.01)
M.step(equal((w + need) ** 2, w**2 + (t + c) ** 2), "as it passes beside the axis, the corner reaches out farthest")
M.equals(r - w, "so much it swings past where it was")
M.mistake(t, "the whole thickness was taken for the gap")
M.result("bevel", r"\beta", "deg", "bevel of the free edge with which no gap is needed", resolution=0.1, setting=True)
M.equals(sp.atan((t + c) / w), "square to the line from the axis to the corner")
room = M.result(
    "room", "s", "mm", "what is left between the swinging door and the nearest thing", resolution=0.1, signed=True
)
M.equals(near - r, "from the axis to it, less the corner's way")
pull = M.result("pull", "P", "N", "pull at the upper hinge", resolution=0.1)
M.step(equal(pull * a, m * g * w / 2), "about the lower hinge, the pull holds the weight at half the width")
M.equals(m * g * w / (2 * a), "the nearer the hinges, the harder")
M.mistake(m * g / 2, "the weight was halved between the hinges: that is what they carry, not what they pull")
each = M.result("each", "F", "N", "pull at each screw", resolution=0.1)
M.equals(pull / n, "shared by the screws of the hinge")
see = M.result("sight", "z", "mm", "where the line of sight passes the opening", resolution=1, signed=True)
M.step(equal((see - eye) / far, (blade - eye) / (far + deep)), "the line falls evenly from the eye to the blade")
M.equals(eye + (blade - eye) * far / (far + deep), "as far down as the opening is of the whole way")

M.limit("gap", "the gap at the free edge is", gap, ">=", need)
M.mend("plane a bevel at that edge, or give it more gap")
M.limit("room", "the swinging door clears the nearest thing by", room, ">=", margin)
M.mend("hang it on the other side, make it narrower, or let it open upward")
M.limit("screws", "each screw of the upper hinge is pulled by", each, "<=", allowed)
M.mend("set the hinges farther apart, take more screws, or a lighter door")
M.limit("sight_low", "the line of sight passes the opening at", see, ">=", low)
M.mend("lower the sill, or stand farther back")
M.limit("sight_high", "the line of sight passes the opening at", see, "<=", high)
M.mend("raise the lintel")
M.caution(*DOOR)
MODEL = M.done()
