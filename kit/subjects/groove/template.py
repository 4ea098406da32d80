"""Template, guide bush and flush-trim bit.

How large is the template for a guide bush or a bearing, and what corners come out?

In the trade's words: I rout the recess for a plate inside a template, or a plate round a template. The bush runs on the
template, the bit cuts beside it: how much larger or smaller is the template, what radius do its corners get, and what
is left if the bearing is a little larger than the reground cutter?

Picture: A collar or a bearing runs along a template's edge; the bit cuts at a distance beside it, inside an opening or
round an outline.

Assumptions:
- the template's edges are true, and the collar or bearing always touches them
- corners are round; lines and circles keep their centers when the bit follows them
- a bush may lie off the bit's center, a bearing does not

Sources:
- plane geometry: parallel curves of lines and circles

Notes: The bit's edge lies half of the difference of their diameters away. A bearing on a flush-trim bit runs the same
way, with nearly no difference.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.drawing.paper import PAPER
from kit.subjects.groove.offsets import guide_offset, off_center
from kit.subjects.safety import ROUTER

M = Model("groove.template", __doc__)
follower = M.choice("follower", "k", ("guide bush", "bearing"), "guide bush", "what runs along the template")
work = M.choice(
    "work", "j", ("opening", "outline"), "opening", "whether the bit cuts inside an opening or round an outline"
)
w = M.given("width", "w", "60 ± 0.1 mm", (20, 800), "wanted width of recess or piece")
M.measured("calipers on the part that goes in")
length = M.given("length", r"\ell", "120 ± 0.1 mm", (20, 1500), "wanted length of recess or piece")
M.measured("calipers or rule")
D = M.given("running", "D", "24 ± 0.03 mm", (6, 60), "outside diameter of the bush or bearing")
M.measured("calipers")
d = M.given("bit", "d", "12 ± 0.03 mm", (2, 50), "diameter of the cut that the bit makes")
M.measured("calipers on a test groove: run-out is in it")
bore = M.given("bore", r"D_{\mathrm{i}}", "21 ± 0.05 mm", (3, 58), "bore of the bush")
M.measured("calipers")
R = M.given("corner", "R", "8 ± 0.2 mm", (0, 100), "wanted corner radius of recess or piece")
M.measured("radius gauge on the part that goes in")
e = M.given("eccentricity", "e", "0.1 ± 0.05 mm", (0, 2), "distance of the bit's center from the bush's center")
M.measured("half the difference of the widest and narrowest gap between bush and a rod in the collet")
collar = M.given("collar", "h", "9 ± 0.1 mm", (0, 30), "how far the bush stands below the base")
M.measured("depth rod of calipers; 0 for a bearing")
t = M.given("template", "t", "12 ± 0.1 mm", (3, 40), "thickness of the template")
M.measured("calipers")
depth = M.given("depth", "z", "10 ± 0.1 mm", (0.5, 60), "depth of the cut in the work")
reach = M.given(
    "reach",
    r"z_{\mathrm{b}}",
    "35 ± 0.5 mm",
    (5, 120),
    "reach of the bit below the base, shank held as deep as the maker states",
)
M.measured("rule")
off_max = M.given("allowed", r"\Delta w_{\mathrm{max}}", "0.5 mm", (0.05, 3), "most that the size may be off")

inside, bush = sp.Eq(work, 0), sp.Eq(follower, 0)
c = M.result(
    "offset",
    "c",
    "mm",
    "from the template's edge to the cut; below 0: the bit cuts into the template's side",
    resolution=0.01,
    signed=True,
)
M.step(D / 2 - d / 2, "both are measured from the bit's center")
M.equals(guide_offset(D, d), "the follower's half diameter reaches to the template, the bit's half toward it")
side = M.relation("side", r"\sigma", "")
M.equals(
    sp.Piecewise((1, inside), (-1, True)),
    "inside an opening the cut lies within the template's edge, round an outline without it",
)
w_t = M.result("template_width", r"w_{\mathrm{t}}", "mm", "width of the template's opening or outline", resolution=0.05)
M.step(equal(w_t - 2 * side * c, w), "from the template back to the cut")
M.equals(w + 2 * side * c, "the offset counts on both sides")
l_t = M.result(
    "template_length", r"\ell_{\mathrm{t}}", "mm", "length of the template's opening or outline", resolution=0.05
)
M.equals(length + 2 * side * c, "the same along it")
R_t = M.result(
    "template_corner",
    r"R_{\mathrm{t}}",
    "mm",
    "corner radius of the template; below 0 none gives the wanted one",
    resolution=0.05,
)
M.equals(R + side * c, "the bit's path keeps the corner's center, so that radii differ by the offset")
least = M.result(
    "corner_least", r"R_{\mathrm{min}}", "mm", "smallest corner radius that the cut can have", resolution=0.05
)
M.step(sp.Piecewise((d / 2, inside), (sp.Max(D - d, 0) / 2, True)), "inside that is the bit's own radius")
M.equals(
    sp.Piecewise((D / 2 - c, inside), (sp.Max(c, 0), True)),
    "into an inside corner of the template the follower just fits; round an outside corner, even a sharp one, the bit "
    "keeps the offset",
)
turned = M.relation("wobble", r"\Delta w", "mm")
M.equals(
    sp.Piecewise((off_center(e, sp.pi / 2) - off_center(e, -sp.pi / 2), bush), (0, True)),
    "with the router turned half round from one edge to the other, the bit's place under the bush counts on both",
)
M.result("size_most", r"w_{1}", "mm", "largest width that can come out", resolution=0.05)
M.equals(w + turned, "at the worst turns the bit cuts farther on both edges")
M.result("size_least", r"w_{2}", "mm", "least width that can come out", resolution=0.05)
M.equals(w - turned, "or less far on both")
plunge = M.result("plunge", "z_{0}", "mm", "plunge from the template's face", resolution=0.1)
M.equals(depth + t, "the base rides on the template")

M.limit("corner", "the wanted corner radius is", R, ">=", least)
M.mend("take a smaller bit with its bush, or square the corners with a chisel")
M.limit("round", "the wanted corner radius is", R, "<=", sp.Min(w, length) / 2, in_unit="mm")
M.mend("take a smaller corner radius: two corners do not fit on one side")
M.limit(
    "room",
    "the template's narrower way is",
    sp.Min(w_t, l_t),
    ">=",
    sp.Piecewise((D, inside), (0, True)),
    in_unit="mm",
)
M.mend("take a smaller bit or bush: it must fit into the opening, or the outline must leave a template")
M.limit("bore", "the bit is", d, "<=", sp.Piecewise((bore, bush), (d, True)), in_unit="mm")
M.mend("take a bush with a larger bore, or a smaller bit: it does not pass")
M.limit("collar", "the bush stands below the base by", collar, "<=", t)
M.mend("take a thicker template or file the bush shorter: it must not touch the work")
M.limit("size", "turning the router changes the width by", turned, "<=", off_max, resolution=0.05)
M.mend("center the bush on a cone or rod, or keep one handle forward all round")
M.limit("reach", "the bit plunges", plunge, "<=", reach)
M.mend("take a longer bit or a thinner template; pull no shank out past its mark")
M.caution(*ROUTER)
M.caution(
    "Round an outline travel counterclockwise seen from above, inside an opening clockwise; the other way the "
    "cut climbs and tears the router along."
)
M.caution("Let the bit stop before you lift the router: a running bit ruins the template.")
M.caution(
    "The bearing is smaller than the cutter: the bit cuts under the template by the offset, as for a rabbet.",
    when=sp.And(sp.Eq(follower, 1), sp.Lt(c, 0)),
)
M.caution(
    "The bearing is larger than the cutter, as after regrinding: the work stays that much larger than flush.",
    when=sp.And(sp.Eq(follower, 1), sp.Gt(c, 0)),
)
M.ask(
    *PAPER,
)

MODEL = M.done()
