"""Tapered hood of four boards.

What shape is each board of a tapered hood, and how are its corners cut?

In the trade's words: a hood is 600 by 420 at the bottom, 250 by 160 at the top, 320 high, and the top sits off the
middle. What shape is each board, and how are its ends cut?

Picture: From above the top rectangle stands inside the bottom rectangle, moved by the offset. Four trapezoids, right,
back, left and front, join them; each pair meets in a corner line.

Assumptions:
- bottom and top are level rectangles with parallel sides
- sizes are those of the outside faces
- all boards are equally thick, so that every miter halves its corner
- slopes are counted from the horizontal, on the inside: a slope above 90° leans outward

Sources:
- vector geometry: normals, scalar product and intersection of planes

Notes: Seen from above a small rectangle inside (or beside) a large one, their corners joined by four corner lines.
"""

from __future__ import annotations

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.bevel.planes import dihedral, outward, square_of, times
from kit.subjects.safety import CARRIER, SAW

FACES = ("right", "back", "left", "front")  # counterclockwise from x, seen from above
LETTER = {"right": "R", "back": "B", "left": "L", "front": "F"}
CORNERS = tuple(zip(FACES, (*FACES[1:], FACES[0]), strict=True))

M = Model("bevel.hood", __doc__)

a = M.given("base_x", "a_{x}", "600 ± 0.5 mm", (100, 2000), "bottom, from left to right")
M.measured("tape, outside")
b = M.given("base_y", "a_{y}", "420 ± 0.5 mm", (100, 2000), "bottom, from front to back")
M.measured("tape, outside")
p = M.given("top_x", "b_{x}", "250 ± 0.5 mm", (0, 1000), "top, from left to right")
M.measured("tape, outside")
q = M.given("top_y", "b_{y}", "160 ± 0.5 mm", (0, 1000), "top, from front to back")
M.measured("tape, outside")
h = M.given("height", "h", "320 ± 0.5 mm", (50, 1500), "height from bottom to top")
M.measured("rule, upright")
dx = M.given("offset_x", "o_{x}", "40 ± 0.5 mm", (-400, 400), "top's middle to the right of the bottom's")
M.measured("plumb line")
dy = M.given("offset_y", "o_{y}", "60 ± 0.5 mm", (-400, 400), "top's middle to the back of the bottom's")
M.measured("plumb line")
tilt_most = M.given("tilt_reach", r"\beta_{\mathrm{max}}", "45 deg", (0, 60), "greatest tilt of the saw, from vertical")
M.measured("saw's stop")
miter_most = M.given(
    "miter_reach", r"\mu_{\mathrm{max}}", "60 deg", (10, 75), "greatest miter of the gauge, from a square cut"
)
M.measured("gauge's scale")

RUNS = {
    "right": (a - p) / 2 - dx,
    "back": (b - q) / 2 - dy,
    "left": (a - p) / 2 + dx,
    "front": (b - q) / 2 + dy,
}
r: dict[str, sp.Symbol] = {}
w: dict[str, sp.Symbol] = {}
s: dict[str, sp.Symbol] = {}
for face in FACES:
    i = LETTER[face]
    r[face] = M.relation(f"run_{face}", f"r_{{{i}}}", "mm")
    M.equals(RUNS[face], f"the {face} face runs in by half the difference of the rectangles, less or more the offset")
    w[face] = M.result(f"width_{face}", f"w_{{{i}}}", "mm", f"width of the {face} board, up its face", resolution=0.1)
    M.equals(sp.sqrt(h**2 + r[face] ** 2), "height and run are the legs of a right triangle")
    s[face] = M.result(
        f"slope_{face}", f"s_{{{i}}}", "deg", f"slope of the {face} face, from the horizontal", resolution=0.01
    )
    M.step(equal(w[face] * sp.cos(s[face]), r[face]), "the width's part in plan is the run")
    M.equals(sp.atan2(h, r[face]), "the face rises by the height over its run")
    M.result(
        f"edge_bevel_{face}",
        rf"\gamma_{{{i}}}",
        "deg",
        f"blade tilt from vertical for the level edges of the {face} board",
        resolution=0.01,
        setting=True,
    )
    M.equals(
        square_of(s[face]),
        "a level edge makes the slope's angle with the face, and a square edge would make a right angle",
    )

tilts, miters = [], []
for number, (one, two) in enumerate(CORNERS):
    i, j = LETTER[one], LETTER[two]
    corner = f"{one}_{two}"
    edge = M.result(
        f"seam_{corner}", f"f_{{{i}{j}}}", "mm", f"corner line between {one} and {two}, outside", resolution=0.1
    )
    M.equals(sp.sqrt(h**2 + r[one] ** 2 + r[two] ** 2), "it climbs the height over both runs")
    for board, other in ((one, two), (two, one)):
        k, m = LETTER[board], LETTER[other]
        miter = M.result(
            f"miter_{board}_{other}",
            rf"\mu_{{{k}{m}}}",
            "deg",
            f"miter of the {board} board where it meets {other}, from a square cut",
            resolution=0.01,
            setting=True,
        )
        M.step(equal(edge * sp.cos(miter), w[board]), "the corner line crosses the width at the miter")
        M.equals(
            sp.atan(r[other] / w[board]), f"over its width the {board} board draws in by the run of the {other} face"
        )
        miters.append(miter)
    n1, n2 = outward(s[one], number * sp.pi / 2), outward(s[two], (number + 1) * sp.pi / 2)
    product = sp.cos(s[one]) * sp.cos(s[two])
    delta = M.result(
        f"dihedral_{corner}", rf"\delta_{{{i}{j}}}", "deg", f"inside angle between {one} and {two}", resolution=0.01
    )
    M.step(times(n1.T, n2, sp.Matrix([[product]])), "in plan the faces are square to each other: only z counts")
    M.equals(dihedral(product), "the inside angle of two faces and the angle of their normals make a half turn")
    tilt = M.result(
        f"tilt_{corner}",
        rf"\beta_{{{i}{j}}}",
        "deg",
        f"blade tilt from vertical for both ends at the {one}-{two} corner",
        resolution=0.01,
        setting=True,
    )
    M.equals(square_of(delta / 2), "the miter halves the inside angle; an uncut end stands square to its face")
    tilts.append(tilt)

M.limit(
    "tilt",
    "the sharpest corner needs a blade tilt of",
    sp.Max(*(sp.Abs(x) for x in tilts)),
    "<=",
    tilt_most,
    in_unit="deg",
    resolution=0.1,
)
M.mend(f"make the hood higher or the top larger, or {CARRIER}")
M.limit(
    "miter",
    "the largest miter is",
    sp.Max(*(sp.Abs(x) for x in miters)),
    "<=",
    miter_most,
    in_unit="deg",
    resolution=0.1,
)
M.mend("make the hood higher, or cut on a sled at the angle")
M.caution(*SAW)
M.caution(
    "The four corners differ: write face and corner on every board before cutting, outside up.",
    when=sp.Or(sp.Ne(dx, 0), sp.Ne(dy, 0), sp.Ne(a - p, b - q)),
)

MODEL = M.done()
