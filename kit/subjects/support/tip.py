"""A bench that must not tip.

Does the bench stay on its feet with the machine drawn out, and what ballast would it need?

In the trade's words: the saw is drawn toward me on its slide, a long board hangs over the front, and I push. The bench
must not lift its back feet.

Picture: From the side: the bench on its feet, its own weight behind the front feet, machine and board drawn out before
them, a push at the height of the hands.

Assumptions:
- bench, machine and board are stiff and move slowly; nothing swings or drops
- the front feet neither slide nor sink in; casters are locked
- the push is level, toward the front, and comes on top of all weights

Sources:
- equilibrium of a rigid body: moments about the front feet
- factor 1.5 against tipping: common practice, no source

Notes: The same holds toward the back and to the sides: measure from the feet on that side.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import HEAVY_MACHINE

M = Model("support.tip", __doc__)
m_b = M.given("bench", r"m_{\mathrm{b}}", "45 ± 5 kg", (1, 2000), "mass of the bench and of what lies in it for good")
M.measured("bathroom scale under each end, or counted up")
c_b = M.given("bench_place", "c", "300 ± 20 mm", (10, 3000), "its center behind the front feet")
M.measured("balanced on a pipe, or counted up")
B = M.given("feet", "B", "600 ± 2 mm", (50, 4000), "from the front feet to the back feet")
M.measured("tape")
m = M.given("machine", "m", "28 ± 1 kg", (0, 1000), "mass of the machine, or of the part that is drawn out")
M.measured("bathroom scale")
x = M.given(
    "machine_place", "x", "-50 ± 20 mm", (-3000, 2000), "its center before the front feet, drawn out; behind: −"
)
M.measured("tape, from a plumb line at the front feet")
m_w = M.given("work", r"m_{\mathrm{w}}", "6 ± 1 kg", (0, 500), "mass of the heaviest board")
x_w = M.given("work_place", "w", "400 ± 50 mm", (0, 4000), "its center before the front feet")
M.measured("half of what hangs over")
P = M.given("push", "P", "60 ± 20 N", (1, 2000), "push toward the front")
M.measured("spring scale")
h = M.given("push_height", "h", "950 ± 20 mm", (50, 2500), "height of the push over the floor")
M.measured("tape")
back = M.given("ballast_place", "b", "550 ± 20 mm", (10, 3000), "where ballast would lie, behind the front feet")
nu = M.given("factor", r"\nu", "1.5", (1, 4), "least of what holds over what tips")
M.source("common practice, no source")
g = M.constant("gravity", "g", "9.80665 m/s^2", "standard gravity", "3rd CGPM, 1901")

hold = M.result("holds", r"M_{\mathrm{h}}", "N*m", "moment that holds the bench down", resolution=0.1)
M.equals(m_b * g * c_b + m * g * sp.Max(0, -x), "what weighs behind the front feet")
tilt = M.result("tips", r"M_{\mathrm{t}}", "N*m", "moment that tips it forward", resolution=0.1)
M.equals(m * g * sp.Max(0, x) + m_w * g * x_w + P * h, "what weighs before them, and the push with its height")
M.mistake(m * g * sp.Max(0, x) + m_w * g * x_w, "the push was forgotten: it tips as well")
left = M.result("back_load", "R", "N", "what the back feet still carry", resolution=1, signed=True)
M.step(
    equal(left * B, m_b * g * c_b - m * g * x - m_w * g * x_w - P * h),
    "about the front feet, the back feet hold what all the others leave",
)
M.equals((hold - tilt) / B, "what holds, less what tips, over the distance of the feet")
over = M.result("reserve", "n", "", "what holds over what tips", resolution=0.01)
M.equals(hold / tilt, "below 1 the back feet lift")
M.result("ballast", r"m_{\mathrm{a}}", "kg", "ballast that is needed at its place; 0 for none", resolution=0.1)
M.equals(sp.Max(0, nu * tilt - hold) / (g * back), "as much as is wanting, by its lever")

M.limit("stands", "what holds the bench over what tips it is", over, ">=", nu)
M.mend("add the ballast below, anchor it to the wall, set the feet farther out, or draw the machine out less")
M.limit("between", "the bench's center lies behind the front feet by", c_b, "<=", B)
M.mend("measure again: a bench whose center lies behind its back feet tips over backward")
M.limit("ballast", "ballast lies behind the front feet by", back, "<=", B)
M.mend("lay it before the back feet: beyond them it tips the bench backward")
M.caution(*HEAVY_MACHINE)
M.caution(
    "A bench that stands by ballast tips when the ballast is taken out: fix it, or anchor the bench to the wall.",
    when=sp.Lt(hold, nu * tilt),
)
M.caution("Board and machine are let down slowly: what drops weighs twice, and more.")
MODEL = M.done()
