"""Hood of leaning boards over a machine.

How are leaning boards set round a machine's travel, how are they cut, and how much stays open in front?

In the trade's words: the saw swings and plunges; how are boards set round its way so that they clear it by a margin,
how large is each board, at what angles is it cut, and how much is left open in front for the air?

Picture: On the bench a rectangle with both rear corners cut off at 45°. Each face leans in at its own slope up to a
level top. The front board has an opening from the bench to its brow, straight or arched.

Assumptions:
- lengths on the bench run from the turning axis to the outside bottom edges; the bench is level
- slopes are counted from the horizontal: 90° is upright, less leans over the machine
- all boards are flat, of one thickness, and mitered where they meet
- the rear corners take the same length off the side and off the back
- the arch is an arc of a circle on the board; the opening is sawn square to the board

Sources:
- vector geometry: normals, scalar product and intersection of planes
- plane geometry: circular segment as sector less triangle

Notes: Each face rises from its bottom edge and leans in over the machine at its own slope, up to a level top. Lengths
on the bench are counted from the machine's turning axis.
"""

from __future__ import annotations

import sympy as sp

from kit.core.model import Model, equal
from kit.core.model.input_terms import amount, choice, point, rows
from kit.drawing.paper import PAPER
from kit.subjects.bevel.planes import (
    corner_alignment,
    corner_miter,
    dihedral,
    outward,
    seam_direction,
    square_of,
    times,
)
from kit.subjects.hood.slopes import GIVEN, PROPOSED
from kit.subjects.safety import CARRIER, SAW

M = Model("hood.shape", __doc__)

FACES = {
    "front": "F",
    "right": "R",
    "rear": "C",
    "back": "B",
    "left": "L",
}  # the rear corners share one slope

AWAY = {}
for face, value in (("front", 350), ("back", 350), ("left", 360), ("right", 360)):
    AWAY[face] = M.given(
        face,
        f"a_{{{FACES[face]}}}",
        f"{value} ± 0.5 mm",
        (100, 900),
        f"turning axis to the {face} bottom edge, outside",
    )
    M.measured("tape on the bench")
c = M.given("chamfer", "c", "185 ± 0.5 mm", (20, 500), "what a rear corner takes off the side, and off the back")
M.measured("rule on the bench")
h = M.given("height", "h", "680 ± 0.5 mm", (100, 1200), "height of the top, outside, above the bench")
M.measured("tape")
S = {}
for (face, letter), value in zip(FACES.items(), (80, 82, 79, 80, 82), strict=True):
    S[face] = M.given(
        f"slope_{face}",
        f"s_{{{letter}}}",
        f"{value} ± 0.1 deg",
        (45, 100),
        "slope of the rear corners" if face == "rear" else f"slope of the {face} face",
    )
    M.measured("bevel gauge against a level")
t = M.given("thickness", "t", "12 ± 0.1 mm", (3, 40), "thickness of the boards")
M.measured("caliper")
dense = M.given("density", r"\varrho_{\mathrm{b}}", "680 ± 40 kg/m^3", (50, 1600), "density of the boards")
M.measured("weigh an offcut; birch plywood has about so much")
M.source("common practice, no source")
brow = M.choice("brow", "j", ("straight", "arched"), "arched", "lower edge of the brow")
W = M.given("brow_width", "W", "430 ± 0.5 mm", (50, 1500), "width of the front opening")
M.measured("tape")
hb = M.given("brow_height", r"h_{\mathrm{b}}", "480 ± 0.5 mm", (50, 1000), "height of the brow's ends above the bench")
M.measured("tape, upright")
f = M.given("brow_rise", "f", "50 ± 0.5 mm", (5, 300), "rise of the arch, measured up the board")
M.measured("rule on the board")
d = M.given("chute", r"d_{\mathrm{c}}", "100 ± 0.5 mm", (0, 400), "diameter of the hole for the chute, 0 for none")
M.measured("caliper on the pipe")
hc = M.given("chute_height", r"h_{\mathrm{c}}", "130 ± 1 mm", (0, 900), "height of the hole's middle above the bench")
M.measured("tape, upright")
ff = M.given(
    "fence_front", r"g_{\mathrm{F}}", "90 ± 1 mm", (0, 500), "side notches for fence and work: before the axis"
)
M.measured("rule")
fb = M.given("fence_back", r"g_{\mathrm{B}}", "60 ± 1 mm", (0, 500), "side notches for fence and work: behind the axis")
M.measured("rule")
fh = M.given("fence_height", r"g_{\mathrm{h}}", "150 ± 1 mm", (0, 500), "height of the side notches, 0 for none")
M.measured("rule")
margin = M.given("margin", "m", "20 mm", (0, 200), "clearance required between machine and boards")
M.source("common practice, no source")
toward = M.choice("toward", "k", ("front", "right", "back", "left"), "left", "face for the measured point")
rho = M.given(
    "reach", r"\rho", "268 ± 1 mm", (0, 900), "how far the measured point comes toward that face, from the axis"
)
M.measured("plumb line or square from the point to the bench, machine unplugged")
z = M.given("reach_height", "z", "230 ± 1 mm", (0, 1000), "height of that point above the bench")
M.measured("tape, upright, machine unplugged")
tilt_most = M.given("tilt_reach", r"\beta_{\mathrm{max}}", "45 deg", (0, 60), "greatest tilt of the saw, from vertical")
M.measured("saw's stop")
miter_most = M.given(
    "miter_reach", r"\mu_{\mathrm{max}}", "60 deg", (10, 75), "greatest miter of the gauge, from a square cut"
)
M.measured("gauge's scale")
land = M.given("land", "b", "40 mm", (0, 200), "least wood beside and above the front opening")
M.source("common practice, no source")
shortest = M.given("short_reach", r"\ell_{\mathrm{min}}", "80 mm", (0, 600), "shortest edge that is made")
M.source("common practice, no source")

# Sizes: each face is a right triangle of run, height and slant.
r: dict[str, sp.Symbol] = {}
w: dict[str, sp.Symbol] = {}
for face, letter in FACES.items():
    name = "rear corners" if face == "rear" else f"{face} face"
    r[face] = M.relation(f"run_{face}", f"r_{{{letter}}}", "mm")
    M.step(h * sp.tan(square_of(S[face])), "the same, counted from upright")
    M.equals(
        h * sp.cos(S[face]) / sp.sin(S[face]),
        f"the {name} lean{'' if face == 'rear' else 's'} in by the height over the slope's tangent",
    )
    w[face] = M.result(
        f"width_{face}",
        f"w_{{{letter}}}",
        "mm",
        f"width of the {'rear corner boards' if face == 'rear' else face + ' board'}, up the face",
        resolution=0.1,
    )
    M.step(sp.sqrt(h**2 + r[face] ** 2), "by Pythagoras")
    M.equals(h / sp.sin(S[face]), "the slant is the hypotenuse over height and run")
X = {face: AWAY[face] - r[face] for face in AWAY}  # from the axis to the top edge
cut = {}
for side in ("left", "right"):
    cut[side] = M.relation(
        f"cut_{side}", f"c_{{{FACES[side]}}}", "mm", f"what the {side} rear corner takes off at the top"
    )
    M.step(
        X[side] + X["back"] - (AWAY[side] + AWAY["back"] - c - sp.sqrt(2) * r["rear"]),
        "the corner stands where x + y has its value at the bench less √2 of its run",
    )
    M.equals(
        c - r[side] - r["back"] + sp.sqrt(2) * r["rear"],
        "going up, side and back come in by their runs, and the corner by its own, seen along the diagonal",
    )
top = {}
top["front"] = M.result("top_width", r"\ell_{F}", "mm", "top edge of the front board", resolution=0.1)
M.equals(X["left"] + X["right"], "at the top both sides have come in by their runs")
top["right"] = M.result("top_right", r"\ell_{R}", "mm", "top edge of the right board", resolution=0.1)
M.equals(X["front"] + X["back"] - cut["right"], "front and back have come in, and the rear corner is cut off")
top["left"] = M.result("top_left", r"\ell_{L}", "mm", "top edge of the left board", resolution=0.1)
M.equals(X["front"] + X["back"] - cut["left"], "as on the right")
top["back"] = M.result("top_back", r"\ell_{B}", "mm", "top edge of the back board", resolution=0.1)
M.equals(X["left"] + X["right"] - cut["left"] - cut["right"], "both rear corners are cut off")
top["rear right"] = M.result(
    "top_rear_right", r"\ell_{CR}", "mm", "top edge of the right rear corner board", resolution=0.1
)
M.equals(sp.sqrt(2) * cut["right"], "it is the diagonal of the square cut off")
top["rear left"] = M.result(
    "top_rear_left", r"\ell_{CL}", "mm", "top edge of the left rear corner board", resolution=0.1
)
M.equals(sp.sqrt(2) * cut["left"], "as on the right")

# Bevels: each corner between two walls, by the turn in plan from one to the next.
CORNERS = (
    ("front", "right", 2),
    ("left", "front", 2),
    ("right", "rear", 4),
    ("rear", "left", 4),
    ("rear", "back", 4),
)
miters, tilts = [], []
for one, two, part in CORNERS:
    i, k, turn = FACES[one], FACES[two], sp.pi / part
    product = corner_alignment(S[one], S[two], turn)
    delta = M.relation(
        f"dihedral_{one}_{two}", rf"\delta_{{{i}{k}}}", "deg", f"inside angle between {one} and {two}", resolution=0.01
    )
    M.step(
        times(outward(S[one], sp.Integer(0)).T, outward(S[two], turn), sp.Matrix([[product]])),
        "the scalar product of the two outward normals",
    )
    M.equals(dihedral(product), "the inside angle of two faces and the angle of their normals make a half turn")
    tilt = M.result(
        f"tilt_{one}_{two}",
        rf"\beta_{{{i}{k}}}",
        "deg",
        f"blade tilt from vertical, {one} with {two}",
        resolution=0.01,
        setting=True,
    )
    M.equals(square_of(delta / 2), "boards of one thickness meet in the plane that halves the inside angle")
    tilts.append(tilt)
    for board, other in ((one, two), (two, one)):
        normals = sp.Matrix.vstack(outward(S[board], sp.Integer(0)).T, outward(S[other], turn).T)
        miter = M.result(
            f"miter_{board}_{other}",
            rf"\mu_{{{FACES[board]}{FACES[other]}}}",
            "deg",
            f"miter from a square cut, {board} board at {other}; above 0 it narrows upward",
            resolution=0.01,
            setting=True,
        )
        M.step(
            times(normals, seam_direction(S[board], miter), sp.zeros(2, 1)),
            "the corner line lies in both faces, so it is square to both normals",
        )
        M.equals(
            corner_miter(S[board], S[other], turn),
            "up the slope by 1 the corner line runs back along the board by tan(miter)",
        )
        miters.append(miter)

M.result("face_mass", r"q_{\mathrm{b}}", "kg/m^2", "mass of the boards for each area of face", resolution=0.1)
M.equals(dense * t, "density times thickness")

# The front opening: a rectangle up to the brow, and under an arch a circular segment.
u = M.relation("brow_up", "u", "mm", "brow's ends above the bottom edge, up the board")
M.equals(hb / sp.sin(S["front"]), "the height is measured upright, the opening on the leaning board")
R = M.result("brow_radius", "R", "mm", "radius of the arch, if arched", resolution=0.1)
M.step(equal(R**2, (W / 2) ** 2 + (R - f) ** 2), "by Pythagoras, from the arch's center to its end")
M.equals((W**2 / 4 + f**2) / (2 * f), "half the width, and the radius less the rise, are the legs under the radius")
alpha = M.relation("brow_angle", r"\alpha", "deg", "half the arch's angle, seen from its center")
M.step(equal(R * sp.sin(alpha), W / 2), "half the width stands opposite the angle")
M.equals(2 * sp.atan(2 * f / W), "the chord from the crown to the end rises at half the angle of the arc between them")
phi = sp.Symbol("phi", real=True)
segment = M.relation("segment", r"A_{\mathrm{s}}", "mm^2", "area under the arch, above its ends")
M.step(
    sp.Integral(R**2 / 2, (phi, -alpha, alpha)) - W / 2 * R * sp.cos(alpha),
    "thin triangles from the center make the sector; the triangle is half the width times its height",
)
M.equals(R**2 * (alpha - sp.sin(alpha) * sp.cos(alpha)), "sector less triangle")
opening = M.result("opening", "A", "cm^2", "free area of the front opening, on the board", resolution=0.1)
M.equals(
    W * u + sp.Piecewise((segment, sp.Eq(brow, 1)), (0, True)), "a rectangle up to the brow, and the arch above it"
)
notches = M.relation("notches", r"A_{\mathrm{n}}", "cm^2", "area of both side notches")
M.equals(
    (ff + fb) * fh * (1 / sp.sin(S["left"]) + 1 / sp.sin(S["right"])),
    "each notch is its width times its height up the leaning board",
)
M.result("inlet", r"A_{\mathrm{in}}", "cm^2", "free area through which air comes in", resolution=0.1)
M.equals(opening + notches, "air comes in through front and side notches")
M.result("outlet", r"A_{\mathrm{out}}", "cm^2", "area of the hole for the chute", resolution=0.1)
M.equals(sp.pi * d**2 / 4, "the area of a circle")

jamb = M.relation("jamb", "e", "mm", "wood beside the brow's ends, narrower side")
M.equals(
    sp.Min(*(AWAY[s] - hb * sp.cos(S[s]) / sp.sin(S[s]) for s in ("left", "right"))) - W / 2,
    "at the brow's height the nearer side has come in, and half the opening is taken away",
)
band = M.relation("band", r"b_{\mathrm{top}}", "mm", "wood above the opening")
M.equals(w["front"] - u - sp.Piecewise((f, sp.Eq(brow, 1)), (0, True)), "what the front board has left above the brow")
least_top = M.relation("least_top", r"\ell_{\mathrm{least}}", "mm", "shortest top edge")
M.equals(sp.Min(*top.values()), "the shortest of the top edges")
hole_top = M.relation("hole_foot", "q", "mm", "wood below the hole for the chute")
M.equals(
    sp.Piecewise((hc / sp.sin(S["back"]) - d / 2, d > 0), (land, True)),
    "the hole's middle stands up the back board, its rim lower by half the diameter",
)

# The governing form of the clearance: one point before one leaning board.
slope = sp.Piecewise(*((S[s], sp.Eq(toward, k)) for k, s in enumerate(("front", "right", "back"))), (S["left"], True))
away = sp.Piecewise(
    *((AWAY[s], sp.Eq(toward, k)) for k, s in enumerate(("front", "right", "back"))), (AWAY["left"], True)
)
s = M.relation("slope_toward", "s", "deg")
M.equals(slope, "the face that the point comes near")
a = M.relation("away_toward", "a", "mm")
M.equals(away, "the same face on the bench")
gap = M.result("clear", "g", "mm", "distance of the measured point from the inside of that board", resolution=0.1)
M.step((a - z / sp.tan(s) - rho) * sp.sin(s) - t, "level, at the point's height, the face has come in by z / tan s")
M.step(
    sp.Matrix([[sp.sin(s), sp.cos(s)]]).dot(sp.Matrix([a - rho, -z])) - t,
    "the step from the point to the bottom edge, along the outward normal",
)
M.equals(
    (a - rho) * sp.sin(s) - z * sp.cos(s) - t,
    "the distance is counted square to the board, and the board takes its thickness off it",
)

M.limit("clear", "the measured point clears the board by", gap, ">=", margin, resolution=0.1)
M.mend("move that bottom edge out, or make that face steeper")
M.limit(
    "tilt",
    "the sharpest corner needs a blade tilt of",
    sp.Max(*(sp.Abs(x) for x in tilts)),
    "<=",
    tilt_most,
    in_unit="deg",
    resolution=0.1,
)
M.mend(f"let the faces at that corner lean less, or {CARRIER}")
M.limit(
    "miter",
    "the largest miter is",
    sp.Max(*(sp.Abs(x) for x in miters)),
    "<=",
    miter_most,
    in_unit="deg",
    resolution=0.1,
)
M.mend("let the neighboring face lean less")
M.limit("jamb", "the wood beside the brow is", jamb, ">=", land, resolution=0.1)
M.mend("make the opening narrower or the base wider")
M.limit("band", "the wood above the opening is", band, ">=", land, resolution=0.1)
M.mend("lower the brow or raise the top")
M.limit("hole", "the wood below the hole is", hole_top, ">=", land, resolution=0.1)
M.mend("raise the hole or make it smaller")
M.limit("short", "the shortest top edge is", least_top, ">=", shortest, resolution=0.1)
M.mend("let the faces lean less, or change the rear corners")
M.caution("Unplug the machine before measuring at it or moving it through its travel by hand.")
M.caution(
    "Guards stay on. The hood must never hinder a guard or its return: move the machine through its whole travel by "
    "hand, unplugged, and watch every guard close by itself before the first cut."
)
M.caution(
    "Fine dust burns and can explode: no sparks, no grinding and no metal sawing under a hood that holds wood dust; "
    "empty it every day."
)
M.caution("A hood of metal or plastic film charges up: ground it as the collector's maker says.")
M.caution(*SAW)
M.caution(
    "A face leans outward: what is thrown up slides past it, not back to the bench.",
    when=sp.Or(*(sp.Gt(S[x], sp.pi / 2) for x in FACES)),
)

FACE = choice("face", "the board", "front", "right", "rear right", "back", "rear left", "left", "top", needed=True)
ALONG = "along the board to the right of the axis, seen from outside"
M.ask(
    *PAPER,
    rows(
        "boxes",
        "the machine as boxes, if it is not scanned; x to the right, y to the back, z up from the bench",
        point("low", "its left, front and lower corner", needed=True),
        point("high", "its right, back and upper corner", needed=True),
    ),
    amount("rail", "width of rails and posts, where cloth is the skin", span=(1, 500)),
    choice("slopes", "the slopes when a hood is proposed", PROPOSED, GIVEN, default=PROPOSED),
    rows(
        "holes",
        "openings beyond the chute's, round, or rectangular with the height up the board",
        FACE,
        amount("width", "diameter, or width along the board", span=(1, 2000), needed=True),
        amount("height", "height of its middle above the bench", span=(-2000, 2000), needed=True),
        amount("along", f"its middle, {ALONG}", span=(-2000, 2000), default="0 mm"),
        amount("up", "height up the board, of a rectangle", span=(1, 2000)),
    ),
    rows(
        "notches",
        "notches at the foot of a board beyond those for fence and work",
        FACE,
        amount("begin", f"where it begins, {ALONG}", span=(-2000, 2000), needed=True),
        amount("end", f"where it ends, {ALONG}", span=(-2000, 2000), needed=True),
        amount("height", "its height above the bench", span=(1, 2000), needed=True),
    ),
)
M.wish("most open front", opening)
MODEL = M.done()
