"""How large must a template be for a guide bush, or a flush-trim bit, to cut the size that is wanted?

The question in the trade's words: I rout the recess for a plate inside a template, or a plate round a template.
The bush runs on the template, the bit cuts beside it: how much larger or smaller is the template, what radius do
its corners get, and what is left if the bearing is a little larger than the reground cutter?

The picture: the router's bush, a collar round the bit, runs along the template's edge; the bit's edge lies half of
the difference of their diameters away. A bearing on a flush-trim bit runs the same way, with nearly no difference.

Assumptions: the template's edge is true and square; the bush always touches it; round corners; the bush may lie
off the bit's center, a bearing does not.

Sources: plane geometry: parallel curves of straight lines and circles.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.groove.offsets import guide_offset, off_center
from kit.subjects.safety import ROUTER

M = Model(
    "groove.template",
    title="Template, guide bush and flush-trim bit",
    question="How large is the template for a guide bush or a bearing, and what corners come out?",
    picture="A collar or a bearing runs along a template's edge; the bit cuts at a distance beside it, inside an "
    "opening or round an outline.",
    assumptions=(
        "the template's edges are true, and the collar or bearing always touches them",
        "corners are round; lines and circles keep their centers when the bit follows them",
        "a bush may lie off the bit's center, a bearing does not",
    ),
    sources=("plane geometry: parallel curves of lines and circles",),
)
follower = M.choice("follower", "k", ("guide bush", "bearing"), "guide bush",
                    meaning="what runs along the template")  # fmt: skip
work = M.choice("work", "j", ("opening", "outline"), "opening",
                meaning="whether the bit cuts inside an opening or round an outline")  # fmt: skip
w = M.given("width", "w", "mm", 60, span=(20, 800), half=0.1, meaning="wanted width of recess or piece",
            how="calipers on the part that goes in")  # fmt: skip
length = M.given("length", r"\ell", "mm", 120, span=(20, 1500), half=0.1,
                 meaning="wanted length of recess or piece", how="calipers or rule")  # fmt: skip
D = M.given("running", "D", "mm", 24, span=(6, 60), half=0.03,
            meaning="outside diameter of the bush or bearing", how="calipers")  # fmt: skip
d = M.given("bit", "d", "mm", 12, span=(2, 50), half=0.03, meaning="diameter of the cut that the bit makes",
            how="calipers on a test groove: run-out is in it")  # fmt: skip
bore = M.given("bore", r"D_{\mathrm{i}}", "mm", 21, span=(3, 58), half=0.05, meaning="bore of the bush",
               how="calipers")  # fmt: skip
R = M.given("corner", "R", "mm", 8, span=(0, 100), half=0.2, meaning="wanted corner radius of recess or piece",
            how="radius gauge on the part that goes in")  # fmt: skip
e = M.given("eccentricity", "e", "mm", 0.1, span=(0, 2), half=0.05,
            meaning="distance of the bit's center from the bush's center",
            how="half the difference of the widest and narrowest gap between bush and a rod in the collet",
)  # fmt: skip
collar = M.given("collar", "h", "mm", 9, span=(0, 30), half=0.1, meaning="how far the bush stands below the base",
                 how="depth rod of calipers; 0 for a bearing")  # fmt: skip
t = M.given("template", "t", "mm", 12, span=(3, 40), half=0.1, meaning="thickness of the template", how="calipers",
)  # fmt: skip
depth = M.given("depth", "z", "mm", 10, span=(0.5, 60), half=0.1, meaning="depth of the cut in the work")
reach = M.given("reach", r"z_{\mathrm{b}}", "mm", 35, span=(5, 120), half=0.5,
                meaning="reach of the bit below the base, shank held as deep as the maker states", how="rule",
)  # fmt: skip
off_max = M.given("allowed", r"\Delta w_{\mathrm{max}}", "mm", 0.5, span=(0.05, 3),
                  meaning="most that the size may be off")  # fmt: skip

inside, bush = sp.Eq(work, 0), sp.Eq(follower, 0)
c = M.result("offset", "c", "mm", guide_offset(D, d), resolution=0.01,
             meaning="from the template's edge to the cut; below 0: the bit cuts into the template's side",
             because="the follower's half diameter reaches to the template, the bit's half toward it",
             lines=[(D / 2 - d / 2, "both are measured from the bit's center")])  # fmt: skip
side = M.relation("side", r"\sigma", "", sp.Piecewise((1, inside), (-1, True)),
                  because="inside an opening the cut lies within the template's edge, round an outline without it",
)  # fmt: skip
w_t = M.result("template_width", r"w_{\mathrm{t}}", "mm", w + 2 * side * c, resolution=0.05,
               meaning="width of the template's opening or outline",
               because="the offset counts on both sides",
               lines=[(equal(sp.Symbol("template_width", real=True) - 2 * side * c, w),
                       "from the template back to the cut")])  # fmt: skip
M.result("template_length", r"\ell_{\mathrm{t}}", "mm", length + 2 * side * c, resolution=0.05,
         meaning="length of the template's opening or outline", because="the same along it")  # fmt: skip
R_t = M.result("template_corner", r"R_{\mathrm{t}}", "mm", R + side * c, resolution=0.05,
               meaning="corner radius of the template; below 0 none gives the wanted one",
               because="the bit's path keeps the corner's center, so that radii differ by the offset")  # fmt: skip
least = M.result("corner_least", r"R_{\mathrm{min}}", "mm", sp.Piecewise((D / 2 - c, inside), (sp.Max(c, 0), True)),
                 resolution=0.05, meaning="smallest corner radius that the cut can have",
                 because="into an inside corner of the template the follower just fits; round an outside corner, even "
                 "a sharp one, the bit keeps the offset",
                 lines=[(sp.Piecewise((d / 2, inside), (sp.Max(D - d, 0) / 2, True)),
                         "inside that is the bit's own radius")])  # fmt: skip
turned = M.relation("wobble", r"\Delta w", "mm",
                    sp.Piecewise((off_center(e, sp.pi / 2) - off_center(e, -sp.pi / 2), bush), (0, True)),
                    because="with the router turned half round from one edge to the other, the bit's place under the "
                    "bush counts on both")  # fmt: skip
M.result("size_most", r"w_{1}", "mm", w + turned, resolution=0.05, meaning="largest width that can come out",
         because="at the worst turns the bit cuts farther on both edges")  # fmt: skip
M.result("size_least", r"w_{2}", "mm", w - turned, resolution=0.05, meaning="least width that can come out",
         because="or less far on both")  # fmt: skip
plunge = M.result("plunge", "z_{0}", "mm", depth + t, resolution=0.1,
                  meaning="plunge from the template's face", because="the base rides on the template")  # fmt: skip

M.limit("corner", "the wanted corner radius is", value=R, allowed=least, sense=">=",
        mend="take a smaller bit with its bush, or square the corners with a chisel")  # fmt: skip
M.limit("room", "the template is wide", value=w_t, allowed=sp.Piecewise((D, inside), (0, True)), sense=">=",
        in_unit="mm", mend="take a smaller bit or bush")  # fmt: skip
M.limit("collar", "the bush stands below the base by", value=collar, allowed=t,
        mend="take a thicker template or file the bush shorter: it must not touch the work")  # fmt: skip
M.limit("size", "turning the router changes the width by", value=turned, allowed=off_max, resolution=0.05,
        mend="center the bush on a cone or rod, or keep one handle forward all round")  # fmt: skip
M.limit("reach", "the bit plunges", value=plunge, allowed=reach,
        mend="take a longer bit or a thinner template; pull no shank out past its mark")  # fmt: skip
M.caution(*ROUTER)
M.caution("Round an outline travel counterclockwise seen from above, inside an opening clockwise; the other way the "
          "cut climbs and tears the router along.")  # fmt: skip
M.caution("Let the bit stop before you lift the router: a running bit ruins the template.")
M.caution("The bit does not pass the bore of the bush.", when=sp.And(bush, sp.Ge(d, bore)))
M.caution("The bearing is smaller than the cutter: the bit cuts under the template by the offset, as for a rabbet.",
          when=sp.And(sp.Eq(follower, 1), sp.Lt(c, 0)))  # fmt: skip
M.caution("The bearing is larger than the cutter, as after regrinding: the work stays that much larger than flush.",
          when=sp.And(sp.Eq(follower, 1), sp.Gt(c, 0)))  # fmt: skip
MODEL = M.done()
