"""Where do the straightedges go so that the router cuts the groove where, and as wide as, it should be?

The question in the trade's words: how far from the line do I clamp the straightedge, how far apart two of them so
that the base runs trapped between, how many passes does a groove wider than the bit take, and how much of the
width is at the mercy of a base that is not centered on the bit, or of a straightedge that is not straight?

The picture, seen from above: the groove runs across the picture; the router's round base runs along a straightedge
on the left hand of its travel, or between two. The bit is smaller than the groove, so the router shifts sideways
from pass to pass. The bit's center lies a little off the base's center.

Assumptions: a round base, always against a guide; the guides bow evenly, measured over the length of the groove;
passes of equal shift; the ridge is that of a flat bit in a base that tilts it, standing on an even floor.

Sources: plane geometry; common practice for overlap and travel.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.groove.offsets import guide_offset, off_center
from kit.subjects.safety import ROUTER

M = Model(
    "groove.guide",
    title="Router along one or between two straightedges",
    question="Where do the straightedges go for a groove, and how true does it come out?",
    picture="From above: the groove runs across the picture, a straightedge along one side of it or along both. The "
    "router's round base runs against them; the bit cuts the groove in one or more passes, side by side.",
    assumptions=(
        "the base is round and always lies against a guide",
        "the guides bow evenly; all passes along one guide copy the same bow",
        "all passes are shifted by the same step",
        "between two guides every turn of the router counts, from the pass along one to the pass along the other",
        "a tilted bit has a flat end; its ridges are those of neighboring passes",
    ),
    sources=("plane geometry of circles and chords", "common practice for overlap and travel, no source"),
)
guides = M.choice("guides", "k", ("one, moved for each pass", "two, base trapped between"),
                  "two, base trapped between", meaning="straightedges that guide the base")  # fmt: skip
w = M.given("width", "w", "mm", 30, span=(3, 120), half=0.1, meaning="width of the groove",
            how="calipers on the track that goes in, and its play")  # fmt: skip
B = M.given("base", "B", "mm", 150, span=(60, 300), half=0.1, meaning="diameter of the router's base",
            how="calipers or rule, across the bit")  # fmt: skip
d = M.given("bit", "d", "mm", 12, span=(2, 50), half=0.03, meaning="diameter of the cut that the bit makes",
            how="calipers on a test groove: run-out is in it")  # fmt: skip
share = M.given("overlap_least", r"\lambda", "%", 20, span=(5, 60),
                meaning="least overlap of neighboring passes, of the bit's diameter",
                source="common practice, no source")  # fmt: skip
e = M.given("eccentricity", "e", "mm", 0.3, span=(0, 3), half=0.1,
            meaning="distance of the bit's center from the base's center",
            how="cut half a groove, turn the router half a turn, cut on: at the worst turn the jog is 2 e",
)  # fmt: skip
phi = M.given("direction", r"\varphi", "deg", 30, span=(0, 360), half=10,
              meaning="direction of the bit's center off the base's, from the travel to the side away from the guide",
              how="mark the base where the jog is largest")  # fmt: skip
psi = M.given("turned", r"\psi", "deg", 0, span=(0, 180), half=5,
              meaning="turn of the router on its way or between the guides; 0: one handle kept forward")  # fmt: skip
s_1 = M.given("bow_near", "s_{1}", "mm", 0.1, span=(-2, 2), half=0.03,
              meaning="bow of the first guide over the groove's length; above 0: hollow toward the base",
              how="feeler gauges against a straight edge, or a taut thread")  # fmt: skip
s_2 = M.given("bow_far", "s_{2}", "mm", 0.1, span=(-2, 2), half=0.03,
              meaning="bow of the second guide, in the same sense", how="as for the first")  # fmt: skip
tilt = M.given("tilt", r"\tau", "deg", 0.2, span=(0, 3), half=0.1,
               meaning="tilt of the bit from square to the base", how="square on the base against a straight rod",
)  # fmt: skip
slide = M.given("slide", r"c_{0}", "mm", 0.1, span=(0, 2), meaning="least room that the trapped base needs to slide",
                source="common practice, no source")  # fmt: skip
w_off = M.given("width_allowed", r"\Delta w_{\mathrm{max}}", "mm", 0.5, span=(0.05, 5),
                meaning="most that the groove may be too wide or too narrow")  # fmt: skip
ridge_max = M.given(
    "ridge_allowed", r"r_{\mathrm{max}}", "mm", 0.1, span=(0.01, 1), meaning="highest ridge allowed"
)

two = sp.Eq(guides, 1)
more = sp.Max(w - d, 0)
a = M.result("offset", "a", "mm", guide_offset(B, d), resolution=0.05,
             meaning="from the first guide to the nearer edge of the groove",
             because="the bit's edge lies half a bit, the guide half a base, from their common center",
             lines=[(B / 2 - d / 2, "half the base reaches to the guide, half the bit toward it")])  # fmt: skip
n = M.result("passes", "n", "", 1 + sp.ceiling(more / (d * (1 - share))),
             meaning="number of passes, side by side", resolution=1,
             because="the first pass cuts a bit's width; each further one adds at most what the overlap leaves, and "
             "passes come whole")  # fmt: skip
p = M.result("step", "p", "mm", sp.Piecewise((more / (n - 1), sp.Gt(n, 1)), (0, True)), resolution=0.05,
             meaning="sideways shift from pass to pass",
             because="all passes but the first share what the groove is wider than the bit",
             lines=[(equal(sp.Symbol("step", real=True) * (n - 1), more), "the shifts add up to it")])  # fmt: skip
o = M.result("overlap", "o", "mm", d - p, resolution=0.05, meaning="overlap of neighboring passes",
             because="the passes are a bit wide and lie a step apart")  # fmt: skip
S = M.result("spacing", "S", "mm", B + w - d, resolution=0.05,
             meaning="spacing of two guides between which the base runs trapped",
             because="the base travels sideways by what the groove is wider than the bit",
             lines=[(w + 2 * a, "or the groove, and on both sides the distance to its guide")])  # fmt: skip
shift = M.result("shift", "y", "mm", off_center(e, phi), resolution=0.01,
                 meaning="shift of the whole groove from the first guide, router not turned",
                 because="the bit's center lies off the base's center; only its part square to the guide counts",
)  # fmt: skip
jog = M.result("jog", r"\Delta y", "mm", off_center(e, phi + psi) - shift, resolution=0.01,
               meaning="sideways jog of the cut when the router turns on its way; between two guides, change of width",
               because="turned, the bit's center has another part square to the guide",
               lines=[(2 * e * sp.cos(phi + psi / 2) * sp.sin(psi / 2), "the difference of two sines is a product")],
)  # fmt: skip
M.result("jog_most", r"\Delta y_{\mathrm{max}}", "mm", 2 * e * sp.sin(psi / 2), resolution=0.01,
         meaning="largest jog that such a turn can make, whatever the bit's direction",
         because="the bit's center moves along a chord of its small circle; the jog is largest where that "
         "stands square to the guide",
         lines=[(sp.sqrt((e * sp.cos(psi) - e)**2 + (e * sp.sin(psi))**2), "the chord's length from its two legs")],
)  # fmt: skip
drift = M.relation("drift", r"s", "mm", sp.Piecewise((s_1 + s_2 + jog, two), (sp.Abs(jog), True)),
                   because="hollow guides and a turn between them take the passes apart; along one guide, moved, both "
                   "passes copy one bow and only a turn parts them")  # fmt: skip
M.result("strip", "b", "mm", sp.Piecewise((sp.Max(drift - o, 0), sp.Gt(n, 1)), (0, True)), resolution=0.01,
                 meaning="width of a strip left standing if all drift falls between two passes",
                 because="where passes drift apart by more than they overlap, wood is left")  # fmt: skip
room = M.result("room", "c", "mm", sp.Piecewise((more + sp.Min(s_1 + s_2, 0), two), (more, True)), resolution=0.05,
                meaning="least sideways room of the base between two guides",
                because="guides that bulge take room at the middle of the groove")  # fmt: skip
widest = M.result("width_most", r"w_{\mathrm{1}}", "mm",
                  sp.Piecewise((w + jog + sp.Max(s_1 + s_2, 0), two), (w, True)), resolution=0.01,
                  meaning="width of the groove at its widest",
                  because="between two guides bows and a turn shift the edges against each other; along one both edges "
                  "shift alike")  # fmt: skip
clear = M.result("clear", r"w_{\mathrm{0}}", "mm",
                 sp.Piecewise((w + jog + sp.Min(s_1, 0) + sp.Min(s_2, 0), two), (w - sp.Abs(s_1) - sp.Abs(jog), True)),
                 resolution=0.01, meaning="widest straight strip that goes into the groove",
                 because="a guide that bulges bows its edge inward; along one guide the whole groove is bowed, and "
                 "what one edge gains the other loses")  # fmt: skip
ridge = M.result("ridge", "r", "mm", p * sp.tan(tilt), resolution=0.01,
                 meaning="step between passes if the bit tilts across the groove",
                 because="each pass leaves a floor at the bit's tilt, and the next begins a step further",
)  # fmt: skip
around = sp.Symbol("theta", real=True)
M.result("crest", "r'", "mm", sp.tan(tilt) * (d / 2 - sp.sqrt((d / 2)**2 - (p / 2)**2)), resolution=0.001,
         meaning="ridge between passes if the bit tilts along the groove",
         because="where two passes meet, half a step from each middle, the floor lies higher by that",
         lines=[(sp.tan(tilt) * sp.Integral(d / 2 * sp.sin(around), (around, 0, sp.asin(p / d))),
                 "tilted along its travel the bit's rim rises, round from its lowest point, to where the passes meet")],
)  # fmt: skip

M.limit(
    "bit_fits",
    "the bit cuts a width of",
    value=d,
    allowed=w,
    mend="take a bit that is no wider than the groove",
)
M.limit("room", "between the guides the base has sideways room of", value=room,
        allowed=sp.Piecewise((slide, two), (0, True)), sense=">=", in_unit="mm",
        mend="take straighter guides or a smaller bit: a bit of the groove's own width goes along one guide",
)  # fmt: skip
M.limit("wide", "at its widest the groove measures", value=widest, allowed=w + w_off, in_unit="mm", resolution=0.01,
        mend="keep one handle forward and take straighter guides")  # fmt: skip
M.limit("narrow", "the groove takes a straight strip of", value=clear, allowed=w - w_off, sense=">=", in_unit="mm",
        resolution=0.01, mend="keep one handle forward, take straighter guides, or set the groove wider")  # fmt: skip
M.limit("ridge", "passes leave a ridge of", value=ridge, allowed=ridge_max,
        mend="set the bit square to the base, or let the passes overlap more")  # fmt: skip
M.limit("drift", "the passes drift apart by", value=drift, allowed=o, resolution=0.01,
        mend="let the passes overlap by more than the guides bow, or take one more pass down the middle")  # fmt: skip
M.caution(*ROUTER)
M.caution("Travel with the guide on your left, facing the way you push (a bit that turns clockwise seen from above "
          "then presses the base to the guide). With the guide on your right the cut climbs: the router runs off.",
)  # fmt: skip
M.caution("Between two guides go out along one and come back along the other, each on your left; the way round would "
          "cut with the bit's rotation.", when=sp.And(two, sp.Gt(n, 1)))  # fmt: skip
M.caution("Cut the strip farthest from the straightedge first and move the straightedge away from it for the next "
          "pass, so that new wood lies on the guide's side.", when=sp.And(sp.Eq(guides, 0), sp.Gt(n, 1)))  # fmt: skip
M.caution("The bit lies off the base's center by more than the groove may be off: mark one handle and keep it forward.",
          when=sp.Gt(2 * e, w_off))  # fmt: skip
MODEL = M.done()
