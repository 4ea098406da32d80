"""A tapered hood of four boards between two rectangles: the true shape of each board and every corner's setting.

The question in the trade's words: a hood is 600 by 420 at the bottom, 250 by 160 at the top, 320 high, and the top
sits off the middle. What shape is each board, and how are its ends cut?

The picture: seen from above a small rectangle inside (or beside) a large one, their corners joined by four corner
lines. The faces are called right (+x), back (+y), left (-x) and front (-y). Each is a trapezoid.

Sources: plane and vector geometry of a cut-off pyramid.
"""

from __future__ import annotations

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.bevel.planes import dihedral, outward, square_of, times, unknown
from kit.subjects.safety import SAW

FACES = ("right", "back", "left", "front")  # counterclockwise from x, seen from above
LETTER = {"right": "R", "back": "B", "left": "L", "front": "F"}
CORNERS = tuple(zip(FACES, (*FACES[1:], FACES[0]), strict=True))

M = Model(
    "bevel.hood",
    title="Tapered hood of four boards",
    question="What shape is each board of a tapered hood, and how are its corners cut?",
    picture=(
        "From above the top rectangle stands inside the bottom rectangle, moved by the offset. Four trapezoids, right, "
        "back, left and front, join them; each pair meets in a corner line."
    ),
    assumptions=(
        "bottom and top are level rectangles with parallel sides",
        "sizes are those of the outside faces",
        "all boards are equally thick, so that every miter halves its corner",
        "slopes are counted from the horizontal, on the inside: a slope above 90° leans outward",
    ),
    sources=("vector geometry: normals, scalar product and intersection of planes",),
)

a = M.given("base_x", "a_{x}", "mm", 600, span=(100, 2000), meaning="bottom, from left to right", half=0.5,
            how="tape, outside")  # fmt: skip
b = M.given("base_y", "a_{y}", "mm", 420, span=(100, 2000), meaning="bottom, from front to back", half=0.5,
            how="tape, outside")  # fmt: skip
p = M.given("top_x", "b_{x}", "mm", 250, span=(0, 1000), meaning="top, from left to right", half=0.5,
            how="tape, outside")  # fmt: skip
q = M.given("top_y", "b_{y}", "mm", 160, span=(0, 1000), meaning="top, from front to back", half=0.5,
            how="tape, outside")  # fmt: skip
h = M.given("height", "h", "mm", 320, span=(50, 1500), meaning="height from bottom to top", half=0.5,
            how="rule, upright")  # fmt: skip
dx = M.given(
    "offset_x",
    "o_{x}",
    "mm",
    40,
    span=(-400, 400),
    meaning="top's middle to the right of the bottom's",
    half=0.5,
    how="plumb line",
)
dy = M.given(
    "offset_y",
    "o_{y}",
    "mm",
    60,
    span=(-400, 400),
    meaning="top's middle to the back of the bottom's",
    half=0.5,
    how="plumb line",
)
tilt_most = M.given("tilt_reach", r"\beta_{\mathrm{max}}", "deg", 45, span=(0, 60),
                    meaning="greatest tilt of the saw, from vertical", how="saw's stop")  # fmt: skip
miter_most = M.given("miter_reach", r"\mu_{\mathrm{max}}", "deg", 60, span=(10, 75),
                     meaning="greatest miter of the gauge, from a square cut", how="gauge's scale")  # fmt: skip

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
    r[face] = M.relation(
        f"run_{face}", f"r_{{{i}}}", "mm", RUNS[face],
        because=f"the {face} face runs in by half the difference of the rectangles, less or more the offset",
    )  # fmt: skip
    w[face] = M.result(
        f"width_{face}",
        f"w_{{{i}}}",
        "mm",
        sp.sqrt(h**2 + r[face] ** 2),
        resolution=0.1,
        meaning=f"width of the {face} board, up its face",
        because="height and run are the legs of a right triangle",
    )
    s[face] = M.result(
        f"slope_{face}",
        f"s_{{{i}}}",
        "deg",
        sp.atan2(h, r[face]),
        resolution=0.01,
        meaning=f"slope of the {face} face, from the horizontal",
        because="the face rises by the height over its run",
        lines=[
            (
                equal(w[face] * sp.cos(unknown(f"slope_{face}")), r[face]),
                "the width's part in plan is the run",
            )
        ],
    )
    M.result(
        f"edge_bevel_{face}",
        rf"\gamma_{{{i}}}",
        "deg",
        square_of(s[face]),
        resolution=0.01,
        meaning=f"blade tilt from vertical for the level edges of the {face} board",
        because="a level edge makes the slope's angle with the face, and a square edge would make a right angle",
    )

tilts, miters = [], []
for number, (one, two) in enumerate(CORNERS):
    i, j = LETTER[one], LETTER[two]
    corner = f"{one}_{two}"
    edge = M.result(
        f"seam_{corner}", f"f_{{{i}{j}}}", "mm", sp.sqrt(h**2 + r[one] ** 2 + r[two] ** 2), resolution=0.1,
        meaning=f"corner line between {one} and {two}, outside", because="it climbs the height over both runs",
    )  # fmt: skip
    for board, other in ((one, two), (two, one)):
        k, m = LETTER[board], LETTER[other]
        miters.append(M.result(
            f"miter_{board}_{other}", rf"\mu_{{{k}{m}}}", "deg", sp.atan(r[other] / w[board]), resolution=0.01,
            meaning=f"miter of the {board} board where it meets {other}, from a square cut",
            because=f"over its width the {board} board draws in by the run of the {other} face",
            lines=[(equal(edge * sp.cos(unknown(f"miter_{board}_{other}")), w[board]),
                    "the corner line crosses the width at the miter")],
        ))  # fmt: skip
    n1, n2 = outward(s[one], number * sp.pi / 2), outward(s[two], (number + 1) * sp.pi / 2)
    product = sp.cos(s[one]) * sp.cos(s[two])
    delta = M.result(
        f"dihedral_{corner}",
        rf"\delta_{{{i}{j}}}",
        "deg",
        dihedral(product),
        resolution=0.01,
        meaning=f"inside angle between {one} and {two}",
        because="the inside angle of two faces and the angle of their normals make a half turn",
        lines=[
            (
                times(n1.T, n2, sp.Matrix([[product]])),
                "in plan the faces are square to each other: only z counts",
            )
        ],
    )
    tilts.append(M.result(
        f"tilt_{corner}", rf"\beta_{{{i}{j}}}", "deg", square_of(delta / 2), resolution=0.01,
        meaning=f"blade tilt from vertical for both ends at the {one}-{two} corner",
        because="the miter halves the inside angle; an uncut end stands square to its face",
    ))  # fmt: skip

M.limit(
    "tilt",
    "the sharpest corner needs a blade tilt of",
    value=sp.Max(*(sp.Abs(x) for x in tilts)),
    allowed=tilt_most,
    in_unit="deg",
    resolution=0.1,
    mend="make the hood higher or the top larger, or cut the ends on edge against a tall fence",
)
M.limit("miter", "the largest miter is", value=sp.Max(*(sp.Abs(x) for x in miters)), allowed=miter_most,
        in_unit="deg", resolution=0.1, mend="make the hood higher, or cut on a sled at the angle")  # fmt: skip
M.caution(*SAW)
M.caution("The four corners differ: write face and corner on every board before cutting, outside up.",
          when=sp.Or(sp.Ne(dx, 0), sp.Ne(dy, 0), sp.Ne(a - p, b - q)))  # fmt: skip

MODEL = M.done()
