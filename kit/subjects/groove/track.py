"""How wide must the groove be for a track, when the wood moves and the track does not, and what holds it in line?

The question in the trade's words: an aluminum track goes into a groove in a wooden top. In a dry winter the groove
closes on it, in a damp summer it stands loose. How much play must I give, how far can the track wander on its
screws, how far do the end screws creep, and does a bed of adhesive follow?

The picture: in section, a groove of width w with a track of width b in it, screws in clearance holes in its floor.
Along it, wood and metal lengthen by different laws; held at its middle, the track's ends slide in the groove.

Assumptions: the groove runs along the grain, so that its width lies across it; a groove is only a missing strip and
moves like the wood it was cut from; wood at rest with the air, both times; the track is held at the middle of its
length; an adhesive layer is sheared evenly through its thickness and yields nothing to its neighbors.

Sources: movement of wood as in 'Movement of a block with humidity'; thermal expansion of the track.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import ROUTER
from kit.subjects.stop import season

M = Model(
    "groove.track",
    title="Groove for a track through the seasons",
    question="How wide is a groove for a metal track, and what happens to both when the air changes?",
    picture="In section, a track in a groove of a wooden top, held by screws in clearance holes or by adhesive. Along "
    "it, wood and metal change their lengths by different laws.",
    assumptions=(
        "the groove runs along the grain and moves like the wood it was cut from",
        *season.ASSUMPTIONS,
        season.ALONG_ASSUMPTION,
        "the track is held at the middle of its length and free to both ends",
        "an adhesive layer is sheared evenly through its thickness",
        "moisture does not move the metal, heat alone does not move the wood",
    ),
    sources=(*season.ACROSS_SOURCES, season.ALONG_SOURCE, "thermal expansion: definition of the coefficient"),
)
w = M.given("groove", "w", "mm", 30.4, span=(5, 150), half=0.1, meaning="width of the groove when cut",
            how="calipers, at the ends and the middle")  # fmt: skip
b = M.given("track", "b", "mm", 30, span=(5, 150), half=0.05, meaning="width of the track", how="calipers")
L = M.given("length", "L", "mm", 1500, span=(100, 4000), half=1, meaning="length of the track", how="tape")
hold = M.choice("held", "k", ("screws", "adhesive"), "screws", meaning="what holds the track in its groove")
D_h = M.given("hole", r"D_{\mathrm{h}}", "mm", 5, span=(2, 15), half=0.05,
              meaning="diameter of the track's screw holes", how="calipers")  # fmt: skip
d_s = M.given("screw", r"d_{\mathrm{s}}", "mm", 4, span=(1.5, 12), half=0.05, meaning="diameter of the screw's shank",
              how="calipers")  # fmt: skip
layer = M.given("layer", r"t_{\mathrm{a}}", "mm", 1, span=(0.05, 5), half=0.1, meaning="thickness of the adhesive",
                how="track's depth in the groove, before and after")  # fmt: skip
shear_max = M.given("shear_allowed", r"\gamma_{\mathrm{max}}", "%", 100, span=(1, 500),
                    meaning="shear that the adhesive stands for years", how="maker's data sheet",
                    source="invented demo value")  # fmt: skip
c_min = M.given("play_least", r"c_{\mathrm{min}}", "mm", 0.1, span=(0, 2),
                meaning="least play at which the track lies unpressed")  # fmt: skip
y_max = M.given("wander_allowed", r"y_{\mathrm{max}}", "mm", 1, span=(0.02, 5),
                meaning="most that the track may wander from side to side")  # fmt: skip
rings = season.across_givens(M, "the grooved top")
S, f = season.along_givens(M)
alpha_t = M.given("expansion", r"\alpha_{\mathrm{t}}", "1/K", 23.4e-6, span=(1e-6, 40e-6), half=1e-6,
                  meaning="thermal expansion of the track", how="table",
                  source="typical handbook value of aluminum, from memory")  # fmt: skip
M.pick(
    "metal",
    table="metals",
    row="aluminum 6063-T5",
    fills={"expansion": "expansion"},
    meaning="metal of the track",
)
made, used = season.moistures(M)
T_1, T_2 = (M.givens[f"{when}_temperature"].symbol for when in ("made", "used"))

c_1 = M.result("play_made", "c_{1}", "mm", w - b, resolution=0.01, meaning="play of the track when fitted",
               because="the groove is that much wider than the track")  # fmt: skip
gain = season.gained(M, made, used)
C = season.coefficient_across(M, *rings)
dw = season.width_change(M, w, C, gain, "the groove")
c_2 = M.result("play_used", "c_{2}", "mm", c_1 + dw, resolution=0.01,
               meaning="play in use; below zero: the groove squeezes the track",
               because="a groove swells as the strip would have swelled that was cut from it",
               lines=[(w * (1 + C * gain) - b, "the groove's new width less the track's")])  # fmt: skip
tight = M.result("play_tight", "c", "mm", sp.Min(c_1, c_2), resolution=0.01, meaning="play in the tighter climate",
                 because="the track must go in and lie free in both")  # fmt: skip
M.result("groove_least", r"w_{\mathrm{min}}", "mm", (b + c_min) / (1 + sp.Min(C * gain, 0)), resolution=0.01,
         meaning="narrowest groove, cut now, that keeps the least play",
         because="turned round for the width: a drying groove must be cut wider by what it will lose",
         lines=[(equal(sp.Symbol("groove_least", real=True) * (1 + sp.Min(C * gain, 0)) - b, c_min),
                 "in the tighter climate the least play remains between groove and track")])  # fmt: skip
loose = sp.Max(c_1, c_2, 0)
screw_play = M.relation("screw_play", r"c_{\mathrm{s}}", "mm", sp.Max(D_h - d_s, 0),
                        because="a shank moves in its hole by what the hole is wider")  # fmt: skip
wander = M.result("wander", "y", "mm", sp.Piecewise((sp.Min(loose, screw_play), sp.Eq(hold, 0)), (0, True)),
                  resolution=0.01, meaning="most that the track can wander from side to side",
                  because="the groove's walls or the screws stop it, whichever come first; adhesive holds it",
)  # fmt: skip
alpha = season.coefficient_along(M, S, f)
strain = M.relation("strain", r"\varepsilon", "", alpha * gain - alpha_t * (T_2 - T_1),
                    because="moisture lengthens the wood, warmth the metal, each per length")  # fmt: skip
x = sp.Symbol("x", real=True)
creep = M.result("creep", r"\delta", "mm", strain * L / 2, resolution=0.01,
                 meaning="slip of the wood past the track's end; above 0 outward",
                 because="held at the middle, half the length counts toward each end",
                 lines=[(sp.Integral(strain, (x, 0, L / 2)), "every slice from the middle out adds its share")],
)  # fmt: skip
shear = M.result("shear", r"\gamma", "%", sp.Abs(creep) / layer, resolution=1,
                 meaning="shear of the adhesive at the track's ends",
                 because="slip over thickness is shear; it is largest at the ends")  # fmt: skip

M.limit("fit", "in the tighter climate the track has play of", value=tight, allowed=c_min, sense=">=",
        mend="cut the groove wider, or choose quarter-sawn wood for the top")  # fmt: skip
M.limit("wander", "the track wanders from side to side by", value=wander, allowed=y_max,
        mend="use screws that fill their holes, countersink them, or bed the track in adhesive")  # fmt: skip
M.limit("end_screws", "past the end screws the wood slips by", value=sp.Abs(creep),
        allowed=sp.Piecewise((screw_play / 2, sp.Eq(hold, 0)), (sp.Abs(creep), True)), in_unit="mm", resolution=0.01,
        mend="slot the track's end holes along its length")  # fmt: skip
M.limit("shear", "at its ends the adhesive is sheared by", value=sp.Piecewise((0, sp.Eq(hold, 0)), (shear, True)),
        allowed=shear_max, in_unit="%", resolution=1, mend="lay it thicker, or take a softer one")  # fmt: skip
M.caution(*ROUTER)
M.caution("Drive screws by hand at the end, and none where it meets a rail or a blade below; set them flush.")
M.caution(
    "Ventilate when you work with adhesive, wear gloves, and follow its maker's sheet.", when=sp.Eq(hold, 1)
)
M.caution("The track is wider than the groove: it does not go in.", when=sp.Lt(c_1, 0))
M.caution("The hole is no wider than the screw: the screws hold the ends and will bow the track or split the wood.",
          when=sp.And(sp.Eq(hold, 0), sp.Le(D_h, d_s)))  # fmt: skip
season.moisture_cautions(M, made, used)
MODEL = M.done()
