"""How far does the cursor seem to move on the scale when the eye is not straight above it?

The question in the trade's words: the hairline rides a few millimeters above the tape. I stand a little to the side.
How wrong is what I read, and how near must line and tape be?

The picture, seen along the bench's depth: the scale at the bottom, the cursor line above it, the eye high above and
off to one side. The line of sight goes from the eye past the line down to the scale.

Assumptions: one eye; sight near the upright, so that a clear window above the gap shows the scale raised to its
thickness over its index of refraction (below 20° within 3 percent of that); the reading is estimated to a part of
a division, evenly spread.

Sources: similar triangles; Snell's law for small angles (any optics text); JCGM 100:2008 (GUM), 4.3.7 and 5.1.2.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import SCALE

M = Model(
    "scale.cursor",
    title="Parallax of a cursor line",
    question="How far is a reading off when the eye is not straight above the cursor line?",
    picture="The eye high above the bench and off to a side, the cursor line a gap above the scale, the line of "
    "sight from eye past the line down to the scale.",
    assumptions=(
        "one eye, near the upright: a window raises the scale by small-angle refraction",
        "the window is flat and lies parallel to the scale",
        "the reading is estimated to a part of a division, evenly spread",
    ),
    sources=(
        "similar triangles",
        "Snell's law for small angles: a layer looks as thick as its thickness over its index, from memory",
        "JCGM 100:2008 (GUM), 4.3.7 and 5.1.2, from memory",
    ),
)
H = M.given(
    "eye_height", "H", "mm", 550, span=(200, 1500), half=50, meaning="eye above the scale", how="tape",
)  # fmt: skip
e = M.given(
    "eye_offset", "e", "mm", 60, span=(0, 600), half=20,
    meaning="eye off to the side of the cursor line, along the scale", how="plumb line from the brow",
)  # fmt: skip
h = M.given(
    "gap", "h", "mm", 0.5, span=(0.05, 20), half=0.1,
    meaning="air between the scale and what lies above it: the line, or the window's underside", how="feeler gauge",
)  # fmt: skip
line = M.choice(
    "line", "j", ("underside", "top of window"), "underside",
    meaning="where the line is: on the window's underside (or a bare edge), or on its top",
)  # fmt: skip
thick = M.given(
    "window", "t", "mm", 3, span=(0, 12), half=0.1, meaning="thickness of the clear window", how="calipers"
)  # fmt: skip
n = M.given(
    "index", "n", "", 1.49, span=(1.3, 1.7), half=0.01, meaning="index of refraction of the window",
    source="acrylic sheet, common handbooks, from memory",
)  # fmt: skip
division = M.given(
    "division", "i", "mm", 1, span=(0.1, 10), meaning="division of the scale", how="printed on it"
)
part = M.given(
    "estimate", "q", "", 0.2, span=(0.05, 0.5), meaning="part of a division to which one reads, plus or minus",
    how="let three people read the same setting",
)  # fmt: skip
allowed = M.given("allowed", r"p_{\mathrm{max}}", "mm", 0.1, span=(0.005, 5), meaning="allowed parallax")
p_ = sp.Symbol("parallax", real=True)

g = M.relation(
    "apparent_gap", "g", "mm", sp.Piecewise((h, sp.Eq(line, 0)), (h + thick / n, True)),
    meaning="gap between line and scale as the eye sees it", resolution=0.01,
    because="seen through the window from above, its thickness counts over its index",
)  # fmt: skip
p = M.result(
    "parallax", "p", "mm", e * g / (H - g), meaning="shift of the reading, away from the eye", resolution=0.01,
    because="so far from the foot of the line does the line of sight meet the scale",
    lines=[(equal(p_ / g, (e + p_) / H),
            "the triangles from the scale to the line and from the scale to the eye have one slope")],
)  # fmt: skip
half = M.relation(
    "read_half", "r", "mm", part * division, meaning="half-width of the estimate", resolution=0.01,
    because="a reader places the line within so much of a division",
)  # fmt: skip
M.result(
    "u", "u", "mm", sp.sqrt(p**2 + half**2) / sp.sqrt(3), resolution=0.01,
    meaning="standard uncertainty of a reading with the eye anywhere within its offset, to either side",
    because="the two are independent and add by their squares",
    lines=[(sp.sqrt((p / sp.sqrt(3)) ** 2 + (half / sp.sqrt(3)) ** 2),
            "each is a rectangle between its limits, the limit over √3")],
    source="JCGM 100:2008, 4.3.7 and 5.1.2",
)  # fmt: skip
M.result(
    "offset_allowed", r"e_{\mathrm{max}}", "mm", allowed * (H - g) / g, resolution=1,
    meaning="offset of the eye that is still allowed", because="the shift, turned round for the eye",
)  # fmt: skip
M.result(
    "gap_allowed", r"g_{\mathrm{max}}", "mm", allowed * H / (e + allowed), resolution=0.01,
    meaning="apparent gap that is still allowed", because="the same slope, turned round for the gap",
)  # fmt: skip
M.limit(
    "parallax", "the reading shifts by", value=p, allowed=allowed,
    mend="bring the line nearer to the scale, or your eye above the line",
)  # fmt: skip
M.caution(*SCALE)
M.caution(
    "Lay a strip of mirror beside the scale: where the line hides its own image, the eye is straight above it.",
    when=sp.Gt(p, allowed / 2),
)
M.caution("Sight is steep: the window's thickness counts more than small angles say.",
          when=sp.And(sp.Eq(line, 1), sp.Gt(e, (H - g) * sp.Rational(36, 100))))  # fmt: skip
MODEL = M.done()
