"""A fence that is not straight.

How far does a bowed fence turn a part, and does a plain arc explain its gaps?

In the trade's words: a straightedge lies along the fence, feeler gauges go into the gap at a quarter, at the middle
and at three quarters. A part follows the fence where it lies, and is cut out of square.

Picture: From above: the straightedge along the fence with the three gaps, drawn larger, and a part against the fence.

Assumptions:
- the straightedge is straight and touches the fence at its two ends (a fence that bulges is measured by what is left of
  blocks of one thickness under those ends, and its gaps are negative)
- the fence follows a shallow arc; what the gaps are off it is told
- a part rests on the fence with two places near its ends: in a hollow with its ends

Sources:
- method of least squares
- a shallow arc is a parabola, to within the square of its height over its length

Notes: Straightness is judged for the parts that are cut, not by a figure for the whole fence.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import SAW

M = Model("alignment.bow", __doc__)
L = M.given("length", "L", "1000 ± 2 mm", (100, 6000), "length of the straightedge that lies along the fence")
M.measured("tape")
GAUGE = "feeler gauge"
g_1 = M.given("gap_first", "g_{1}", "0.15 ± 0.03 mm", (-20, 20), "gap at a quarter of its length")
M.measured(GAUGE)
g_2 = M.given("gap_middle", "g_{2}", "0.2 ± 0.03 mm", (-20, 20), "gap at its middle")
M.measured(GAUGE)
g_3 = M.given("gap_last", "g_{3}", "0.15 ± 0.03 mm", (-20, 20), "gap at three quarters of its length")
M.measured(GAUGE)
x_p = M.given("place", "x", "300 ± 5 mm", (-3000, 3000), "middle of the part, from the middle of the straightedge")
M.measured("tape")
p = M.given("part", "p", "200 ± 0.5 mm", (20, 3000), "length of the part that lies against the fence")
w = M.given("width", "w", "150 mm", (5, 2000), "width of the part, across which it is to be square")
M.measured("tape")
allowed = M.given("allowed", r"e_{\mathrm{max}}", "0.1 mm", (0.005, 10), "allowed out of square across the part")
rough = M.given("plain", r"r_{\mathrm{max}}", "0.1 mm", (0.005, 10), "how far the gaps may be off a plain arc")

t = sp.Symbol("t", real=True)
h = M.result("bow", "h", "mm", "gap of the arc that fits best, at the middle", resolution=0.01, signed=True)
quarter = sp.Rational(3, 4)
M.step(
    equal(quarter * (quarter * h - g_1) + (h - g_2) + quarter * (quarter * h - g_3), 0),
    "a quarter along, the arc's gap is three quarters of that in the middle; the sum of squares is least here",
)
M.equals((12 * g_1 + 16 * g_2 + 12 * g_3) / 34, "the three gaps, each by its weight")
M.mistake((g_1 + g_2 + g_3) / 3, "the plain mean was taken: the outer gaps of an arc are smaller")
M.result("depth", "|h|", "mm", "depth of that arc, hollow or bulging", resolution=0.01)
M.equals(sp.Abs(h), "whichever way it bends")
off = M.result("off", "r", "mm", "farthest that a gap is off that arc", resolution=0.01)
M.equals(sp.Max(sp.Abs(g_1 - quarter * h), sp.Abs(g_2 - h), sp.Abs(g_3 - quarter * h)), "what the arc does not explain")
phi = M.result("turn", r"\varphi", "deg", "turn of the part where it lies", resolution=0.001, signed=True)
M.step(
    equal(sp.tan(phi), sp.Integral(8 * h * t / L**2, (t, x_p - p / 2, x_p + p / 2)) / p),
    "the part rests on its ends: it follows the arc's mean slope between them",
)
M.equals(sp.atan(8 * h * x_p / L**2), "for a parabola that is the slope at the part's middle, however long it is")
e = M.result("across", "e", "mm", "out of square across the part", resolution=0.01, signed=True)
M.equals(w * sp.tan(phi), "the cut is square to the fence's mean line, the part is not")
M.mistake(h, "the gap itself was taken for the error of the part")
under = M.result("under", "c", "mm", "gap between part and fence, at the part's middle", resolution=0.001, signed=True)
M.step(
    4 * h / L**2 * (((x_p + p / 2) ** 2 + (x_p - p / 2) ** 2) / 2 - x_p**2),
    "the line between its two ends, less the arc, at the middle",
)
M.equals(h * (p / L) ** 2, "with the square of its share of the straightedge")

M.limit("square", "across the part a cut is out of square by", sp.Abs(e), "<=", allowed, in_unit="mm", resolution=0.01)
M.mend("plane or shim the fence, or cut nearer to the middle of the arc")
M.limit("plain", "the gaps are off a plain arc by", off, "<=", rough)
M.mend("measure at more places with a shorter straightedge, and treat each stretch by itself")
M.limit("inside", "the part reaches from the straightedge's middle", sp.Abs(x_p) + p / 2, "<=", L / 2, in_unit="mm")
M.mend("measure the fence where the part lies")
M.caution(*SAW)
M.caution(
    "The fence bulges: a part rocks on it. Hold or clamp it so that the same end touches each time.",
    when=sp.Lt(h, 0),
)
MODEL = M.done()
