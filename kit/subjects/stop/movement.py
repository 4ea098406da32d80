"""How much does a stop block move with the seasons, along the grain and across it, and does its key still fit?

The question in the trade's words: fitted in a dry winter shop, used in a damp summer: will the key bind in the
track or rattle, and is the block still as long as it was?

The picture: a block of length L along the grain with a groove (or a key) of width w across the grain. Each
climate brings the wood to its own moisture; the difference, times a coefficient, changes every size.

Assumptions: the wood has come to rest with the air both times; between 6 and 14 % moisture movement is in
proportion; along the grain the total longitudinal shrinkage is spread evenly from fiber saturation to ovendry;
metal does not move. A block that hangs a week in new air has moved only in part.

Sources: Wood Handbook, FPL-GTR-190, equation 4-5 and FPL-RN-0268 (1998) for the moisture; table 13-5 and equation
13-2 for movement across the grain; chapter 4 for shrinkage along the grain.
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
    title="Movement of a block with humidity",
    question="How much do a block's length and the fit of its key change when the air changes?",
    picture="A block with a groove or a key across the grain, fitted in one climate and used in another.",
    assumptions=(
        *ASSUMPTIONS,
        ALONG_ASSUMPTION,
        "metal does not move",
    ),
    sources=(*ACROSS_SOURCES, ALONG_SOURCE),
)
L = M.given(
    "length", "L", "mm", 1200, span=(100, 4000), half=0.5,
    meaning="length of the block along the grain when fitted", how="tape",
)  # fmt: skip
w = M.given(
    "width", "w", "mm", 19, span=(3, 300), half=0.05,
    meaning="width of the groove or key across the grain when fitted", how="calipers",
)  # fmt: skip
c = M.given(
    "play_made", r"c_{1}", "mm", 0.4, span=(0, 2), half=0.02,
    meaning="play of the fit when fitted", how="feeler gauge",
)  # fmt: skip
c_min = M.given(
    "play_least", r"c_{\mathrm{min}}", "mm", 0.05, span=(0, 1),
    meaning="least play at which the block still slides",
)  # fmt: skip
dL_max = M.given(
    "allowed", r"\Delta L_{\mathrm{max}}", "mm", 0.5, span=(0.01, 5), meaning="allowed change of length"
)
part = M.choice(
    "moving", r"p", ("wooden groove, metal key", "wooden key, metal track"), "wooden key, metal track",
    meaning="which part of the fit is of wood",
)  # fmt: skip
rings = across_givens(M, "the moving part")
S, f = along_givens(M)
made, used = moistures(M)

gain = gained(M, made, used)
C = coefficient_across(M, *rings)
dw = width_change(M, w, C, gain, "groove or key")
play = M.result(
    "play_used", "c_{2}", "mm", sp.Piecewise((c + dw, sp.Eq(part, 0)), (c - dw, True)), resolution=0.01,
    meaning="play of the fit in use; below zero: it binds",
    because="a swelling groove gives room, a swelling key takes it",
)  # fmt: skip
alpha = coefficient_along(M, S, f)
u = sp.Symbol("u", real=True)
dL = M.result(
    "length_change", r"\Delta L", "mm", L * alpha * gain, resolution=0.001,
    meaning="change of the block's length", because="the same along the grain, with its own coefficient",
    lines=[(sp.Integral(L * S / f, (u, made, used)), "every step of moisture adds its share")],
)  # fmt: skip
M.result(
    "across_over_along", r"\rho", "", C / alpha, resolution=1,
    meaning="how many times more wood moves across the grain than along it",
    because="moisture and size fall out",
    lines=[(equal(sp.Symbol("across_over_along", real=True) * dL / L, dw / w),
            "it turns the strain along into the strain across")],
)  # fmt: skip

M.limit(
    "fit", "in use the play is", value=play, allowed=c_min, sense=">=",
    mend="give more play, use quarter-sawn wood, or fit in the climate of use",
)  # fmt: skip
M.limit(
    "length", "the length changes by", value=sp.Abs(dL), allowed=dL_max, in_unit="mm", resolution=0.001,
    mend="use straight-grained wood or set zero anew with the season",
)  # fmt: skip
M.caution("Check the stop against a rule at each change of season; unplug the machine before you measure.")
M.caution("Ease a key that binds off the machine, never with the blade running.")
moisture_cautions(M, made, used)
MODEL = M.done()
