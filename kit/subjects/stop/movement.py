"""Movement of a block with humidity.

How much do a block's length and the fit of its key change when the air changes?

In the trade's words: fitted in a dry winter shop, used in a damp summer: will the key bind in the track or rattle, and
is the block still as long as it was?

Picture: A block with a groove or a key across the grain, fitted in one climate and used in another.

Assumptions:
- metal does not move

Notes: Each climate brings the wood to its own moisture. The difference, times a coefficient, changes every size. The
wood has come to rest with the air both times. Between 6 and 14 % moisture movement is in proportion. Along the grain
the total longitudinal shrinkage is spread evenly from fiber saturation to ovendry. A block that hangs a week in new air
has moved only in part. Also: Wood Handbook, FPL-GTR-190, equation 4-5 and FPL-RN-0268 (1998) for the moisture; table
13-5 and equation 13-2 for movement across the grain; chapter 4 for shrinkage along the grain.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.stop.season import (
    ACROSS_SOURCES,
    ALONG_ASSUMPTION,
    ALONG_SOURCE,
    ASSUMPTIONS,
    across_givens,
    along_givens,
    coefficient_across,
    coefficient_along,
    gained,
    moisture_cautions,
    moistures,
    width_change,
)

M = Model(
    "stop.movement",
    __doc__,
    assumptions=(
        *ASSUMPTIONS,
        ALONG_ASSUMPTION,
    ),
    sources=(
        *ACROSS_SOURCES,
        ALONG_SOURCE,
    ),
)
L = M.given("length", "L", "1200 ± 0.5 mm", (100, 4000), "length of the block along the grain when fitted")
M.measured("tape")
w = M.given("width", "w", "19 ± 0.05 mm", (3, 300), "width of the groove or key across the grain when fitted")
M.measured("calipers")
c = M.given("play_made", r"c_{1}", "0.4 ± 0.02 mm", (0, 2), "play of the fit when fitted")
M.measured("feeler gauge")
c_min = M.given("play_least", r"c_{\mathrm{min}}", "0.05 mm", (0, 1), "least play at which the block still slides")
dL_max = M.given("allowed", r"\Delta L_{\mathrm{max}}", "0.5 mm", (0.01, 5), "allowed change of length")
part = M.choice(
    "moving",
    r"p",
    ("wooden groove, metal key", "wooden key, metal track"),
    "wooden key, metal track",
    "which part of the fit is of wood",
)
rings = across_givens(M, "the moving part")
S, f = along_givens(M)
made, used = moistures(M)

gain = gained(M, made, used)
C = coefficient_across(M, *rings)
dw = width_change(M, w, C, gain, "groove or key")
play = M.result("play_used", "c_{2}", "mm", "play of the fit in use; below zero: it binds", resolution=0.01)
M.equals(
    sp.Piecewise((c + dw, sp.Eq(part, 0)), (c - dw, True)), "a swelling groove gives room, a swelling key takes it"
)
alpha = coefficient_along(M, S, f)
u = sp.Symbol("u", real=True)
dL = M.result("length_change", r"\Delta L", "mm", "change of the block's length", resolution=0.001, signed=True)
M.step(sp.Integral(L * S / f, (u, made, used)), "every step of moisture adds its share")
M.equals(L * alpha * gain, "the same along the grain, with its own coefficient")
across_over_along = M.result(
    "across_over_along", r"\rho", "", "how many times more wood moves across the grain than along it", resolution=1
)
M.step(equal(across_over_along * dL / L, dw / w), "it turns the strain along into the strain across")
M.equals(C / alpha, "moisture and size fall out")

M.limit("fit", "in use the play is", play, ">=", c_min)
M.mend("give more play, use quarter-sawn wood, or fit in the climate of use")
M.limit("length", "the length changes by", sp.Abs(dL), "<=", dL_max, in_unit="mm", resolution=0.001)
M.mend("use straight-grained wood or set zero anew with the season")
M.caution("Check the stop against a rule at each change of season; unplug the machine before you measure.")
M.caution("Ease a key that binds off the machine, never with the blade running.")
moisture_cautions(M, made, used)
MODEL = M.done()
