"""Router along one or between two straightedges.

Where do the straightedges go for a groove, and how true does it come out?

In the trade's words: how far from the line do I clamp the straightedge, how far apart two of them so that the base runs
trapped between, how many passes does a groove wider than the bit take, and how much of the width is at the mercy of a
base that is not centered on the bit, or of a straightedge that is not straight?

Picture: From above: the groove runs across the picture, a straightedge along one side of it or along both. The router's
round base runs against them; the bit cuts the groove in one or more passes, side by side.

Assumptions:
- the base is round and always lies against a guide
- the guides bow evenly; all passes along one guide copy the same bow
- all passes are shifted by the same step
- between two guides every turn of the router counts, from the pass along one to the pass along the other
- a tilted bit has a flat end; its ridges are those of neighboring passes

Sources:
- plane geometry of circles and chords
- common practice for overlap and travel, no source

Notes: The bit is smaller than the groove, so the router shifts sideways from pass to pass. The bit's center lies a
little off the base's center. The guides bow evenly, measured over the length of the groove. Passes of equal shift. The
ridge is that of a flat bit in a base that tilts it, standing on an even floor.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.drawing.paper import PAPER
from kit.subjects.groove.offsets import guide_offset, off_center
from kit.subjects.safety import ROUTER

M = Model("groove.guide", __doc__)
guides = M.choice(
    "guides",
    "k",
    ("one, moved for each pass", "two, base trapped between"),
    "two, base trapped between",
    "straightedges that guide the base",
)
w = M.given("width", "w", "30 ± 0.1 mm", (3, 120), "width of the groove")
M.measured("calipers on the track that goes in, and its play")
B = M.given("base", "B", "150 ± 0.1 mm", (60, 300), "diameter of the router's base")
M.measured("calipers or rule, across the bit")
d = M.given("bit", "d", "12 ± 0.03 mm", (2, 50), "diameter of the cut that the bit makes")
M.measured("calipers on a test groove: run-out is in it")
share = M.given(
    "overlap_least", r"\lambda", "20 %", (5, 60), "least overlap of neighboring passes, of the bit's diameter"
)
M.source("common practice, no source")
e = M.given("eccentricity", "e", "0.3 ± 0.1 mm", (0, 3), "distance of the bit's center from the base's center")
M.measured("cut half a groove, turn the router half a turn, cut on: at the worst turn the jog is 2 e")
phi = M.given(
    "direction",
    r"\varphi",
    "30 ± 10 deg",
    (0, 360),
    "direction of the bit's center off the base's, from the travel to the side away from the guide",
)
M.measured("mark the base where the jog is largest")
psi = M.given(
    "turned",
    r"\psi",
    "0 ± 5 deg",
    (0, 180),
    "turn of the router on its way or between the guides; 0: one handle kept forward",
)
s_1 = M.given(
    "bow_near",
    "s_{1}",
    "0.1 ± 0.03 mm",
    (-2, 2),
    "bow of the first guide over the groove's length; above 0: hollow toward the base",
)
M.measured("feeler gauges against a straight edge, or a taut thread")
s_2 = M.given("bow_far", "s_{2}", "0.1 ± 0.03 mm", (-2, 2), "bow of the second guide, in the same sense")
M.measured("as for the first")
tilt = M.given("tilt", r"\tau", "0.2 ± 0.1 deg", (0, 3), "tilt of the bit from square to the base")
M.measured("square on the base against a straight rod")
slide = M.given("slide", r"c_{0}", "0.1 mm", (0, 2), "least room that the trapped base needs to slide")
M.source("common practice, no source")
w_off = M.given(
    "width_allowed",
    r"\Delta w_{\mathrm{max}}",
    "0.5 mm",
    (0.05, 5),
    "most that the groove may be too wide or too narrow",
)
ridge_max = M.given("ridge_allowed", r"r_{\mathrm{max}}", "0.1 mm", (0.01, 1), "highest ridge allowed")

two = sp.Eq(guides, 1)
more = sp.Max(w - d, 0)
a = M.result("offset", "a", "mm", "from the first guide to the nearer edge of the groove", resolution=0.05)
M.step(B / 2 - d / 2, "half the base reaches to the guide, half the bit toward it")
M.equals(guide_offset(B, d), "the bit's edge lies half a bit, the guide half a base, from their common center")
n = M.result("passes", "n", "", "number of passes, side by side", resolution=1, whole=True)
M.equals(
    1 + sp.ceiling(more / (d * (1 - share))),
    "the first pass cuts a bit's width; each further one adds at most what the overlap leaves, and passes come whole",
)
p = M.result("step", "p", "mm", "sideways shift from pass to pass", resolution=0.05)
M.step(equal(p * (n - 1), more), "the shifts add up to it")
M.equals(
    sp.Piecewise((more / (n - 1), sp.Gt(n, 1)), (0, True)),
    "all passes but the first share what the groove is wider than the bit",
)
o = M.result("overlap", "o", "mm", "overlap of neighboring passes", resolution=0.05)
M.equals(d - p, "the passes are a bit wide and lie a step apart")
S = M.result("spacing", "S", "mm", "spacing of two guides between which the base runs trapped", resolution=0.05)
M.step(w + 2 * a, "or the groove, and on both sides the distance to its guide")
M.equals(B + w - d, "the base travels sideways by what the groove is wider than the bit")
shift = M.result(
    "shift",
    "y",
    "mm",
    "shift of the whole groove from the first guide, router not turned",
    resolution=0.01,
    signed=True,
)
M.equals(off_center(e, phi), "the bit's center lies off the base's center; only its part square to the guide counts")
jog = M.result(
    "jog",
    r"\Delta y",
    "mm",
    "sideways jog of the cut when the router turns on its way; between two guides, change of width",
    resolution=0.01,
    signed=True,
)
M.step(2 * e * sp.cos(phi + psi / 2) * sp.sin(psi / 2), "the difference of two sines is a product")
M.equals(off_center(e, phi + psi) - shift, "turned, the bit's center has another part square to the guide")
M.result(
    "jog_most",
    r"\Delta y_{\mathrm{max}}",
    "mm",
    "largest jog that such a turn can make, whatever the bit's direction",
    resolution=0.01,
)
M.step(sp.sqrt((e * sp.cos(psi) - e) ** 2 + (e * sp.sin(psi)) ** 2), "the chord's length from its two legs")
M.equals(
    2 * e * sp.sin(psi / 2),
    "the bit's center moves along a chord of its small circle; the jog is largest where that stands square to the "
    "guide",
)
drift = M.relation("drift", r"s", "mm")
M.equals(
    sp.Piecewise((s_1 + s_2 + jog, two), (sp.Abs(jog), True)),
    "hollow guides and a turn between them take the passes apart; along one guide, moved, both passes copy one bow and "
    "only a turn parts them",
)
M.result("strip", "b", "mm", "width of a strip left standing if all drift falls between two passes", resolution=0.01)
M.equals(
    sp.Piecewise((sp.Max(drift - o, 0), sp.Gt(n, 1)), (0, True)),
    "where passes drift apart by more than they overlap, wood is left",
)
room = M.result("room", "c", "mm", "least sideways room of the base between two guides", resolution=0.05)
M.equals(
    sp.Piecewise((more + sp.Min(s_1 + s_2, 0), two), (more, True)),
    "guides that bulge take room at the middle of the groove",
)
widest = M.result("width_most", r"w_{\mathrm{1}}", "mm", "width of the groove at its widest", resolution=0.01)
M.equals(
    sp.Piecewise((w + jog + sp.Max(s_1 + s_2, 0), two), (w, True)),
    "between two guides bows and a turn shift the edges against each other; along one both edges shift alike",
)
clear = M.result("clear", r"w_{\mathrm{0}}", "mm", "widest straight strip that goes into the groove", resolution=0.01)
M.equals(
    sp.Piecewise((w + jog + sp.Min(s_1, 0) + sp.Min(s_2, 0), two), (w - sp.Abs(s_1) - sp.Abs(jog), True)),
    "a guide that bulges bows its edge inward; along one guide the whole groove is bowed, and what one edge gains the "
    "other loses",
)
ridge = M.result("ridge", "r", "mm", "step between passes if the bit tilts across the groove", resolution=0.01)
M.equals(p * sp.tan(tilt), "each pass leaves a floor at the bit's tilt, and the next begins a step further")
around = sp.Symbol("theta", real=True)
M.result("crest", "r'", "mm", "ridge between passes if the bit tilts along the groove", resolution=0.001)
M.step(
    sp.tan(tilt) * sp.Integral(d / 2 * sp.sin(around), (around, 0, sp.asin(p / d))),
    "tilted along its travel the bit's rim rises, round from its lowest point, to where the passes meet",
)
M.equals(
    sp.tan(tilt) * (d / 2 - sp.sqrt((d / 2) ** 2 - (p / 2) ** 2)),
    "where two passes meet, half a step from each middle, the floor lies higher by that",
)

M.limit("bit_fits", "the bit cuts a width of", d, "<=", w)
M.mend("take a bit that is no wider than the groove")
M.limit(
    "room",
    "between the guides the base has sideways room of",
    room,
    ">=",
    sp.Piecewise((slide, two), (0, True)),
    in_unit="mm",
)
M.mend("take straighter guides or a smaller bit: a bit of the groove's own width goes along one guide")
M.limit("wide", "at its widest the groove measures", widest, "<=", w + w_off, in_unit="mm", resolution=0.01)
M.mend("keep one handle forward and take straighter guides")
M.limit("narrow", "the groove takes a straight strip of", clear, ">=", w - w_off, in_unit="mm", resolution=0.01)
M.mend("keep one handle forward, take straighter guides, or set the groove wider")
M.limit("ridge", "passes leave a ridge of", ridge, "<=", ridge_max)
M.mend("set the bit square to the base, or let the passes overlap more")
M.limit("drift", "the passes drift apart by", drift, "<=", o, resolution=0.01)
M.mend("let the passes overlap by more than the guides bow, or take one more pass down the middle")
M.caution(*ROUTER)
M.caution(
    "Travel with the guide on your left, facing the way you push (a bit that turns clockwise seen from above "
    "then presses the base to the guide). With the guide on your right the cut climbs: the router runs off.",
)
M.caution(
    "Between two guides go out along one and come back along the other, each on your left; the way round would "
    "cut with the bit's rotation.",
    when=sp.And(two, sp.Gt(n, 1)),
)
M.caution(
    "Cut the strip farthest from the straightedge first and move the straightedge away from it for the next "
    "pass, so that new wood lies on the guide's side.",
    when=sp.And(sp.Eq(guides, 0), sp.Gt(n, 1)),
)
M.caution(
    "The bit lies off the base's center by more than the groove may be off: mark one handle and keep it forward.",
    when=sp.Gt(2 * e, w_off),
)
M.ask(
    *PAPER,
)

MODEL = M.done()
