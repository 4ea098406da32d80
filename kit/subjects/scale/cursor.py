"""Parallax of a cursor line.

How far is a reading off when the eye is not straight above the cursor line?

In the trade's words: the hairline rides a few millimeters above the tape. I stand a little to the side. How wrong is
what I read, and how near must line and tape be?

Picture: The eye high above the bench and off to a side, the cursor line a gap above the scale, the line of sight from
eye past the line down to the scale.

Assumptions:
- one eye, near the upright: a window raises the scale by small-angle refraction
- the window is flat and lies parallel to the scale
- the reading is estimated to a part of a division, evenly spread

Sources:
- similar triangles
- Snell's law for small angles: a layer looks as thick as its thickness over its index, from memory
- JCGM 100:2008 (GUM), 4.3.7 and 5.1.2, from memory

Notes: Sight near the upright, so that a clear window above the gap shows the scale raised to its thickness over its
index of refraction (below 20° within 3 percent of that).
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import SCALE

M = Model("scale.cursor", __doc__)
H = M.given("eye_height", "H", "550 ± 50 mm", (200, 1500), "eye above the scale")
M.measured("tape")
e = M.given("eye_offset", "e", "60 ± 20 mm", (0, 600), "eye off to the side of the cursor line, along the scale")
M.measured("plumb line from the brow")
h = M.given(
    "gap",
    "h",
    "0.5 ± 0.1 mm",
    (0.05, 20),
    "air between the scale and what lies above it: the line, or the window's underside",
)
M.measured("feeler gauge")
line = M.choice(
    "line",
    "j",
    ("underside", "top of window"),
    "underside",
    "where the line is: on the window's underside (or a bare edge), or on its top",
)
thick = M.given("window", "t", "3 ± 0.1 mm", (0, 12), "thickness of the clear window")
M.measured("calipers")
n = M.given("index", "n", "1.49 ± 0.01", (1.3, 1.7), "index of refraction of the window")
M.source("acrylic sheet, common handbooks, from memory")
division = M.given("division", "i", "1 mm", (0.1, 10), "division of the scale")
M.measured("printed on it")
part = M.given("estimate", "q", "0.2", (0.05, 0.5), "part of a division to which one reads, plus or minus")
M.measured("let three people read the same setting")
allowed = M.given("allowed", r"p_{\mathrm{max}}", "0.1 mm", (0.005, 5), "allowed parallax")

g = M.relation("apparent_gap", "g", "mm", "gap between line and scale as the eye sees it", resolution=0.01)
M.equals(
    sp.Piecewise((h, sp.Eq(line, 0)), (h + thick / n, True)),
    "seen through the window from above, its thickness counts over its index",
)
p = M.result("parallax", "p", "mm", "shift of the reading, away from the eye", resolution=0.01)
M.step(
    equal(p / g, (e + p) / H), "the triangles from the scale to the line and from the scale to the eye have one slope"
)
M.equals(e * g / (H - g), "so far from the foot of the line does the line of sight meet the scale")
half = M.relation("read_half", "r", "mm", "half-width of the estimate", resolution=0.01)
M.equals(part * division, "a reader places the line within so much of a division")
M.result(
    "u",
    "u",
    "mm",
    "standard uncertainty of a reading with the eye anywhere within its offset, to either side",
    resolution=0.01,
)
M.step(
    sp.sqrt((p / sp.sqrt(3)) ** 2 + (half / sp.sqrt(3)) ** 2),
    "each is a rectangle between its limits, the limit over √3",
)
M.equals(sp.sqrt(p**2 + half**2) / sp.sqrt(3), "the two are independent and add by their squares")
M.source("JCGM 100:2008, 4.3.7 and 5.1.2")
M.result("offset_allowed", r"e_{\mathrm{max}}", "mm", "offset of the eye that is still allowed", resolution=1)
M.equals(allowed * (H - g) / g, "the shift, solved for the eye")
M.result("gap_allowed", r"g_{\mathrm{max}}", "mm", "apparent gap that is still allowed", resolution=0.01)
M.equals(allowed * H / (e + allowed), "the same slope, solved for the gap")
M.limit("parallax", "the reading shifts by", p, "<=", allowed)
M.mend("bring the line nearer to the scale, or your eye above the line")
M.caution(*SCALE)
M.caution(
    "Lay a strip of mirror beside the scale: where the line hides its own image, the eye is straight above it.",
    when=sp.Gt(p, allowed / 2),
)
M.caution(
    "Sight is steep: the window's thickness counts more than small angles say.",
    when=sp.And(sp.Eq(line, 1), sp.Gt(e, (H - g) * sp.Rational(36, 100))),
)
MODEL = M.done()
