"""Groove for a track through the seasons.

How wide is a groove for a metal track, and what happens to both when the air changes?

In the trade's words: an aluminum track goes into a groove in a wooden top. In a dry winter the groove closes on it, in
a damp summer it stands loose. How much play must I give, how far can the track wander on its screws, how far do the end
screws creep, and does a bed of adhesive follow?

Picture: In section, a track in a groove of a wooden top, held by screws in clearance holes or by adhesive. Along it,
wood and metal change their lengths by different laws.

Assumptions:
- the groove runs along the grain and moves like the wood it was cut from
- the track is held at the middle of its length and free to both ends
- an adhesive layer is sheared evenly through its thickness
- moisture does not move the metal, heat alone does not move the wood

Sources:
- thermal expansion: definition of the coefficient

Notes: Held at its middle, the track's ends slide in the groove. The groove runs along the grain, so that its width lies
across it. Wood at rest with the air, both times. Also: movement of wood as in 'Movement of a block with humidity'.
"""

import math

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import ROUTER
from kit.subjects.stop import season

M = Model(
    "groove.track",
    __doc__,
    assumptions=(
        *season.ASSUMPTIONS,
        season.ALONG_ASSUMPTION,
    ),
    sources=(
        *season.ACROSS_SOURCES,
        season.ALONG_SOURCE,
    ),
)
w = M.given("groove", "w", "30.4 ± 0.1 mm", (5, 150), "width of the groove when cut")
M.measured("calipers, at the ends and the middle")
b = M.given("track", "b", "30 ± 0.05 mm", (5, 150), "width of the track")
M.measured("calipers")
L = M.given("length", "L", "1500 ± 1 mm", (100, 4000), "length of the track")
M.measured("tape")
hold = M.choice("held", "k", ("screws", "adhesive"), "screws", "what holds the track in its groove")
D_h = M.given("hole", r"D_{\mathrm{h}}", "5 ± 0.05 mm", (2, 15), "diameter of the track's screw holes")
M.measured("calipers")
d_s = M.given("screw", r"d_{\mathrm{s}}", "4 ± 0.05 mm", (1.5, 12), "diameter of the screw's shank")
M.measured("calipers")
layer = M.given("layer", r"t_{\mathrm{a}}", "1 ± 0.1 mm", (0.05, 5), "thickness of the adhesive")
M.measured("track's depth in the groove, before and after")
shear_max = M.given(
    "shear_allowed", r"\gamma_{\mathrm{max}}", "100 %", (1, 500), "shear that the adhesive stands for years"
)
M.measured("maker's data sheet")
c_min = M.given("play_least", r"c_{\mathrm{min}}", "0.1 mm", (0, 2), "least play at which the track lies unpressed")
y_max = M.given(
    "wander_allowed", r"y_{\mathrm{max}}", "1 mm", (0.02, 5), "most that the track may wander from side to side"
)
rings = season.across_givens(M, "the grooved top")
S, f = season.along_givens(M)
alpha_t = M.given(
    "expansion", r"\alpha_{\mathrm{t}}", "23.4e-6 ± 1e-6 1/K", (1e-6, 40e-6), "thermal expansion of the track"
)
M.measured("table")
M.source("typical handbook value of aluminum, from memory")
M.pick("metal", "metals", "aluminum 6063-T5", {"expansion": "expansion"}, "metal of the track")
made, used = season.moistures(M)
T_1, T_2 = (M.givens[f"{when}_temperature"].symbol for when in ("made", "used"))

c_1 = M.result("play_made", "c_{1}", "mm", "play of the track when fitted", resolution=0.01)
M.equals(w - b, "the groove is that much wider than the track")
gain = season.gained(M, made, used)
C = season.coefficient_across(M, *rings)
dw = season.width_change(M, w, C, gain, "the groove")
c_2 = M.result("play_used", "c_{2}", "mm", "play in use; below zero: the groove squeezes the track", resolution=0.01)
M.step(w * (1 + C * gain) - b, "the groove's new width less the track's")
M.equals(c_1 + dw, "a groove swells as the strip would have swelled that was cut from it")
tight = M.result("play_tight", "c", "mm", "play in the tighter climate", resolution=0.01)
M.equals(sp.Min(c_1, c_2), "the track must go in and lie free in both")
groove_least = M.result(
    "groove_least", r"w_{\mathrm{min}}", "mm", "narrowest groove, cut now, that keeps the least play", resolution=0.01
)
M.step(
    equal(groove_least * (1 + sp.Min(C * gain, 0)) - b, c_min),
    "in the tighter climate the least play remains between groove and track",
)
M.equals(
    (b + c_min) / (1 + sp.Min(C * gain, 0)),
    "solved for the width: a drying groove must be cut wider by what it will lose",
)
loose = sp.Max(c_1, c_2, 0)
screw_play = M.relation("screw_play", r"c_{\mathrm{s}}", "mm")
M.equals(sp.Max(D_h - d_s, 0), "a shank moves in its hole by what the hole is wider")
wander = M.result("wander", "y", "mm", "most that the track can wander from side to side", resolution=0.01)
M.equals(
    sp.Piecewise((sp.Min(loose, screw_play), sp.Eq(hold, 0)), (0, True)),
    "the groove's walls or the screws stop it, whichever come first; adhesive holds it",
)
alpha = season.coefficient_along(M, S, f)
strain = M.relation("strain", r"\varepsilon", "")
M.equals(alpha * gain - alpha_t * (T_2 - T_1), "moisture lengthens the wood, warmth the metal, each per length")
x = sp.Symbol("x", real=True)
creep = M.result(
    "creep", r"\delta", "mm", "slip of the wood past the track's end; above 0 outward", resolution=0.01, signed=True
)
M.step(sp.Integral(strain, (x, 0, L / 2)), "every slice from the middle out adds its share")
M.equals(strain * L / 2, "held at the middle, half the length counts toward each end")
shear = M.result(
    "shear", r"\gamma", "%", "shear of the adhesive at the track's ends", resolution=1, within=(0, math.inf)
)
M.equals(sp.Abs(creep) / layer, "slip over thickness is shear; it is largest at the ends")

M.limit("fit", "in the tighter climate the track has play of", tight, ">=", c_min)
M.mend("cut the groove wider, or choose quarter-sawn wood for the top")
M.limit("wander", "the track wanders from side to side by", wander, "<=", y_max)
M.mend("use screws that fill their holes, countersink them, or bed the track in adhesive")
M.limit(
    "end_screws",
    "past the end screws the wood slips by",
    sp.Abs(creep),
    "<=",
    sp.Piecewise((screw_play / 2, sp.Eq(hold, 0)), (sp.Abs(creep), True)),
    in_unit="mm",
    resolution=0.01,
)
M.mend("slot the track's end holes along its length")
M.limit(
    "shear",
    "at its ends the adhesive is sheared by",
    sp.Piecewise((0, sp.Eq(hold, 0)), (shear, True)),
    "<=",
    shear_max,
    in_unit="%",
    resolution=1,
)
M.mend("lay it thicker, or take a softer one")
M.caution(*ROUTER)
M.caution("Drive screws by hand at the end, and none where it meets a rail or a blade below; set them flush.")
M.caution("Ventilate when you work with adhesive, wear gloves, and follow its maker's sheet.", when=sp.Eq(hold, 1))
M.caution("The track is wider than the groove: it does not go in.", when=sp.Lt(c_1, 0))
M.caution(
    "The hole is no wider than the screw: the screws hold the ends and will bow the track or split the wood.",
    when=sp.And(sp.Eq(hold, 0), sp.Le(D_h, d_s)),
)
season.moisture_cautions(M, made, used)
MODEL = M.done()
