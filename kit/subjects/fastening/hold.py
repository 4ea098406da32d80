"""Hold-down of a machine.

Does this machine stay on its bench when the work pulls at it, and how hard do its bolts pull?

In the trade's words: so heavy, so wide a stand, and a hand that leans on the arm drawn out, or a board that snatches.
Does it tip or slide without bolts? With bolts, what does each have to hold?

Picture: The machine from the side on its feet: its weight inside them, a pull at the height of the work, a push down
beyond the edge about which it would tip. At the far feet, the bolts that hold it down.

Assumptions:
- machine and bench are stiff: it tips about the line of its near feet, and all bolts of the far row pull alike
- bolts at the near feet hold nothing against tipping; against sliding all bolts help alike
- friction is that of the feet on the bench under the machine's own weight: neither what bolts pull nor a push down,
  which comes and goes, is counted on to press the feet harder
- pull and push come at their worst together and slowly; a snatching blade is a blow, which the safety covers

Sources:
- equilibrium of moments and of forces about the tipping edge: textbook of mechanics, from memory
- Coulomb's friction: textbook of mechanics, from memory

Notes: What a bolt or screw holds comes from a page of its own, or from its maker.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import HEAVY_MACHINE

M = Model("fastening.hold", __doc__)

m = M.given("mass", "m", "25 ± 1 kg", (1, 2000), "mass of the machine")
M.measured("scale, or its plate")
b = M.given(
    "inside", "b", "160 ± 10 mm", (-500, 2000), "from the tipping edge inward to the center of mass, at the worst"
)
M.measured("lift one side on a scale, the arm drawn out; negative beyond the edge")
F = M.given("pull", "F", "80 ± 20 N", (0, 20000), "level pull at the work")
M.measured("spring scale: what a hand pulls, or a feed")
h = M.given("height", "h", "180 ± 5 mm", (0, 2500), "height of that pull above the feet")
M.measured("tape")
V = M.given("push", "V", "60 ± 20 N", (0, 20000), "push down beyond the edge: a hand that leans, a board that hangs")
M.measured("scale")
r = M.given("reach", "r", "200 ± 10 mm", (0, 3000), "how far beyond the edge that push is")
M.measured("tape")
mu = M.given("friction", r"\mu", "0.3 ± 0.1", (0, 1), "friction of the feet on the bench")
M.measured("spring scale at the machine: pull over weight, just before it slides")
M.source("rubber on wood more, dusty steel less: common practice, no source")
n = M.count("bolts", "n", 4, (0, 40), "bolts or screws in all")
n_t = M.count("far", r"n_{\mathrm{t}}", 2, (0, 40), "of these, in the row that is farthest from the tipping edge")
d = M.given("row", "d", "300 ± 3 mm", (10, 3000), "from the tipping edge to that row")
M.measured("tape")
T_a = M.given("bolt_pull", r"T_{\mathrm{a}}", "500 ± 50 N", (0, 100000), "pull that one of them may take")
M.measured("from the page of its screws, or its maker")
Z_a = M.given("bolt_push", r"Z_{\mathrm{a}}", "400 ± 50 N", (0, 100000), "push across that one of them may take")
M.measured("the same")
S = M.given("safety", "S", "2", (1, 10), "by how much pull and push may be more than thought")
M.source("snatching work and leaning people: common practice, no source")
g = M.constant("gravity", "g", "9.80665 m/s^2", "standard gravity", "3rd CGPM, 1901")

tip = M.result("tipping", r"M_{\mathrm{t}}", "N*m", "moment that tips it", resolution=0.1)
M.equals(S * (F * h + V * r), "pull at its height and push at its reach, as much more as may come")
stay = M.result(
    "standing", r"M_{\mathrm{g}}", "N*m", "moment of its weight that keeps it standing", resolution=0.1, signed=True
)
M.equals(m * g * b, "its weight inside the edge")
hold = M.relation("hold", r"M_{\mathrm{b}}", "N*m", "moment that the bolts must hold", resolution=0.1)
M.step(equal(hold, sp.Max(0, tip - stay)), "what tips, less what keeps it standing, about the edge")
M.equals(sp.Max(tip, stay) - stay, "nothing, where its weight is enough")
held = M.relation("held", r"M_{\mathrm{a}}", "N*m", "moment that they may hold", resolution=0.1)
M.equals(n_t * T_a * d, "each bolt of the far row, at its distance")
T = M.result("each", "T", "N", "pull at each bolt of the far row", resolution=1)
M.equals(hold / (d * sp.Max(1, n_t)), "they share it alike; one at least is counted")
slide = M.result("sliding", r"F_{\mathrm{s}}", "N", "level pull that the bolts must hold against sliding", resolution=1)
grip = mu * m * g
M.step(sp.Max(0, S * F - grip), "the pull, less the friction under its weight")
M.equals(sp.Max(S * F, grip) - grip, "nothing, where friction is enough")

M.limit("tip", "the bolts must hold a moment of", hold, "<=", held)
M.mend("set bolts at the far feet, stronger ones or more; or a wider stand, or weight low down at the far side")
M.limit("slide", "against sliding the bolts must hold", slide, "<=", n * Z_a)
M.mend("bolt it down, or lay rubber under its feet")
M.limit("rows", "bolts in the far row are", n_t, "<=", n, resolution=1)
M.mend("count again: the row has no more bolts than there are in all")
M.limit("wide", "the center of mass lies inside by", b, "<=", d)
M.mend("measure again: weight beyond the far bolts does not keep the machine down at its edge")
M.caution(*HEAVY_MACHINE)
M.caution("Without its bolts this machine tips: let nobody work at it before it is bolted down.", when=sp.Gt(tip, stay))
M.caution("Without its bolts it slides.", when=sp.Gt(S * F, grip))
MODEL = M.done()
