"""A hood of leaning boards over a machine: sizes, bevels, front opening, and how far one point stays clear.

The question in the trade's words: the saw swings and plunges; how are boards set round its way so that they clear
it by a margin, how large is each board, at what angles is it cut, and how much is left open in front for the air?

The picture: on the bench a rectangle whose two rear corners are cut off at 45°. Each face rises from its bottom
edge and leans in over the machine at its own slope, up to a level top. The front board has an opening from the
bench up to the brow, straight or arched. Lengths on the bench are counted from the machine's turning axis.

Sources: vector geometry of planes; plane geometry of the circular segment.
"""

from __future__ import annotations

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.bevel.planes import (
    corner_alignment,
    corner_miter,
    dihedral,
    outward,
    seam_direction,
    square_of,
    times,
    unknown,
)
from kit.subjects.safety import SAW

M = Model(
    "hood.shape",
    title="Hood of leaning boards over a machine",
    question="How are leaning boards set round a machine's way, how are they cut, and how much stays open in front?",
    picture=(
        "On the bench a rectangle with both rear corners cut off at 45°. Each face leans in at its own slope up to a "
        "level top. The front board has an opening from the bench to its brow, straight or arched."
    ),
    assumptions=(
        "lengths on the bench run from the turning axis to the outside bottom edges; the bench is level",
        "slopes are counted from the horizontal: 90° is upright, less leans over the machine",
        "all boards are flat, of one thickness, and mitered where they meet",
        "the rear corners take the same length off the side and off the back",
        "the arch is an arc of a circle on the board; the opening is sawn square to the board",
    ),
    sources=(
        "vector geometry: normals, scalar product and intersection of planes",
        "plane geometry: circular segment as sector less triangle",
    ),
)

FACES = {
    "front": "F",
    "right": "R",
    "rear": "C",
    "back": "B",
    "left": "L",
}  # the rear corners share one slope

AWAY = {
    face: M.given(
        face, f"a_{{{FACES[face]}}}", "mm", value, span=(100, 900), half=0.5,
        meaning=f"turning axis to the {face} bottom edge, outside", how="tape on the bench",
    )
    for face, value in (("front", 350), ("back", 350), ("left", 360), ("right", 360))
}  # fmt: skip
c = M.given("chamfer", "c", "mm", 185, span=(20, 500), half=0.5,
            meaning="what a rear corner takes off the side, and off the back", how="rule on the bench")  # fmt: skip
h = M.given("height", "h", "mm", 680, span=(100, 1200), half=0.5, meaning="height of the top, outside, above the bench",
            how="tape")  # fmt: skip
S = {
    face: M.given(
        f"slope_{face}", f"s_{{{letter}}}", "deg", value, span=(45, 100), half=0.1,
        meaning="slope of the rear corners" if face == "rear" else f"slope of the {face} face",
        how="bevel gauge against a level",
    )
    for (face, letter), value in zip(FACES.items(), (80, 82, 79, 80, 82), strict=True)
}  # fmt: skip
t = M.given(
    "thickness", "t", "mm", 12, span=(3, 40), meaning="thickness of the boards", how="caliper", half=0.1
)
brow = M.choice("brow", "j", ("straight", "arched"), "arched", meaning="lower edge of the brow")
W = M.given(
    "brow_width", "W", "mm", 430, span=(50, 1500), half=0.5, meaning="width of the front opening", how="tape"
)
hb = M.given("brow_height", r"h_{\mathrm{b}}", "mm", 480, span=(50, 1000), half=0.5,
             meaning="height of the brow's ends above the bench", how="tape, upright")  # fmt: skip
f = M.given("brow_rise", "f", "mm", 50, span=(5, 300), half=0.5,
            meaning="rise of the arch, measured up the board", how="rule on the board")  # fmt: skip
d = M.given("chute", r"d_{\mathrm{c}}", "mm", 100, span=(0, 400), half=0.5,
            meaning="diameter of the hole for the chute, 0 for none", how="caliper on the pipe")  # fmt: skip
hc = M.given("chute_height", r"h_{\mathrm{c}}", "mm", 130, span=(0, 900), half=1,
             meaning="height of the hole's middle above the bench", how="tape, upright")  # fmt: skip
ff = M.given("fence_front", r"g_{\mathrm{F}}", "mm", 90, span=(0, 500), half=1,
             meaning="side notches for fence and work: before the axis", how="rule")  # fmt: skip
fb = M.given("fence_back", r"g_{\mathrm{B}}", "mm", 60, span=(0, 500), half=1,
             meaning="side notches for fence and work: behind the axis", how="rule")  # fmt: skip
fh = M.given("fence_height", r"g_{\mathrm{h}}", "mm", 150, span=(0, 500), half=1,
             meaning="height of the side notches, 0 for none", how="rule")  # fmt: skip
margin = M.given("margin", "m", "mm", 20, span=(0, 200), meaning="clearance wished between machine and boards",
                 source="common practice, no source")  # fmt: skip
toward = M.choice(
    "toward", "k", ("front", "right", "back", "left"), "left", meaning="face for the measured point"
)
rho = M.given("reach", r"\rho", "mm", 268, span=(0, 900), half=1,
              meaning="how far the measured point comes toward that face, from the axis",
              how="plumb line or square from the point to the bench, machine unplugged")  # fmt: skip
z = M.given("reach_height", "z", "mm", 230, span=(0, 1000), half=1, meaning="height of that point above the bench",
            how="tape, upright, machine unplugged")  # fmt: skip
tilt_most = M.given("tilt_reach", r"\beta_{\mathrm{max}}", "deg", 45, span=(0, 60),
                    meaning="greatest tilt of the saw, from vertical", how="saw's stop")  # fmt: skip
miter_most = M.given("miter_reach", r"\mu_{\mathrm{max}}", "deg", 60, span=(10, 75),
                     meaning="greatest miter of the gauge, from a square cut", how="gauge's scale")  # fmt: skip
land = M.given("land", "b", "mm", 40, span=(0, 200), meaning="least wood beside and above the front opening",
               source="common practice, no source")  # fmt: skip
shortest = M.given("short_reach", r"\ell_{\mathrm{min}}", "mm", 80, span=(0, 600), meaning="shortest edge that is made",
                   source="common practice, no source")  # fmt: skip

# Sizes: each face is a right triangle of run, height and slant.
r: dict[str, sp.Symbol] = {}
w: dict[str, sp.Symbol] = {}
for face, letter in FACES.items():
    name = "rear corners" if face == "rear" else f"{face} face"
    r[face] = M.relation(
        f"run_{face}", f"r_{{{letter}}}", "mm", h * sp.cos(S[face]) / sp.sin(S[face]),
        because=f"the {name} lean{'' if face == 'rear' else 's'} in by the height over the slope's tangent",
        lines=[(h * sp.tan(square_of(S[face])), "the same, counted from upright")],
    )  # fmt: skip
    w[face] = M.result(
        f"width_{face}", f"w_{{{letter}}}", "mm", h / sp.sin(S[face]), resolution=0.1,
        meaning=f"width of the {'rear corner boards' if face == 'rear' else face + ' board'}, up the face",
        because="the slant is the hypotenuse over height and run",
        lines=[(sp.sqrt(h**2 + r[face] ** 2), "by Pythagoras")],
    )  # fmt: skip
X = {face: AWAY[face] - r[face] for face in AWAY}  # from the axis to the top edge
cut = {
    side: M.relation(
        f"cut_{side}", f"c_{{{FACES[side]}}}", "mm", c - r[side] - r["back"] + sp.sqrt(2) * r["rear"],
        meaning=f"what the {side} rear corner takes off at the top",
        because="going up, side and back come in by their runs, and the corner by its own, seen along the diagonal",
        lines=[(X[side] + X["back"] - (AWAY[side] + AWAY["back"] - c - sp.sqrt(2) * r["rear"]),
                "the corner stands where x + y has its value at the bench less √2 of its run")],
    )
    for side in ("left", "right")
}  # fmt: skip
top = {
    "front": M.result(
        "top_width", r"\ell_{F}", "mm", X["left"] + X["right"], resolution=0.1, meaning="top edge of the front board",
        because="at the top both sides have come in by their runs",
    ),
    "right": M.result(
        "top_right", r"\ell_{R}", "mm", X["front"] + X["back"] - cut["right"], resolution=0.1,
        meaning="top edge of the right board", because="front and back have come in, and the rear corner is cut off",
    ),
    "left": M.result(
        "top_left", r"\ell_{L}", "mm", X["front"] + X["back"] - cut["left"], resolution=0.1,
        meaning="top edge of the left board", because="as on the right",
    ),
    "back": M.result(
        "top_back", r"\ell_{B}", "mm", X["left"] + X["right"] - cut["left"] - cut["right"], resolution=0.1,
        meaning="top edge of the back board", because="both rear corners are cut off",
    ),
    "rear right": M.result(
        "top_rear_right", r"\ell_{CR}", "mm", sp.sqrt(2) * cut["right"], resolution=0.1,
        meaning="top edge of the right rear corner board", because="it is the diagonal of the square cut off",
    ),
    "rear left": M.result(
        "top_rear_left", r"\ell_{CL}", "mm", sp.sqrt(2) * cut["left"], resolution=0.1,
        meaning="top edge of the left rear corner board", because="as on the right",
    ),
}  # fmt: skip

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
        f"dihedral_{one}_{two}", rf"\delta_{{{i}{k}}}", "deg", dihedral(product), resolution=0.01,
        meaning=f"inside angle between {one} and {two}",
        because="the inside angle of two faces and the angle of their normals make a half turn",
        lines=[(times(outward(S[one], sp.Integer(0)).T, outward(S[two], turn), sp.Matrix([[product]])),
                "the scalar product of the two outward normals")],
    )  # fmt: skip
    tilts.append(M.result(
        f"tilt_{one}_{two}", rf"\beta_{{{i}{k}}}", "deg", square_of(delta / 2), resolution=0.01,
        meaning=f"blade tilt from vertical, {one} with {two}",
        because="boards of one thickness meet in the plane that halves the inside angle",
    ))  # fmt: skip
    for board, other in ((one, two), (two, one)):
        mu = unknown(f"miter_{board}_{other}")
        normals = sp.Matrix.vstack(outward(S[board], sp.Integer(0)).T, outward(S[other], turn).T)
        miters.append(M.result(
            f"miter_{board}_{other}", rf"\mu_{{{FACES[board]}{FACES[other]}}}", "deg",
            corner_miter(S[board], S[other], turn), resolution=0.01,
            meaning=f"miter from a square cut, {board} board at {other}; above 0 it narrows upward",
            because="up the slope by 1 the corner line runs back along the board by tan(miter)",
            lines=[(times(normals, seam_direction(S[board], mu), sp.zeros(2, 1)),
                    "the corner line lies in both faces, so it is square to both normals")],
        ))  # fmt: skip

# The front opening: a rectangle up to the brow, and under an arch a circular segment.
u = M.relation("brow_up", "u", "mm", hb / sp.sin(S["front"]), because="the height is measured upright, the opening on "
               "the leaning board", meaning="brow's ends above the bottom edge, up the board")  # fmt: skip
R = M.result(
    "brow_radius", "R", "mm", (W**2 / 4 + f**2) / (2 * f), resolution=0.1, meaning="radius of the arch, if arched",
    because="half the width, and the radius less the rise, are the legs under the radius",
    lines=[(equal(unknown("brow_radius") ** 2, (W / 2) ** 2 + (unknown("brow_radius") - f) ** 2),
            "by Pythagoras, from the arch's center to its end")],
)  # fmt: skip
alpha = M.relation(
    "brow_angle", r"\alpha", "deg", 2 * sp.atan(2 * f / W), meaning="half the arch's angle, seen from its center",
    because="the chord from the crown to the end rises at half the angle of the arc between them",
    lines=[(equal(R * sp.sin(unknown("brow_angle")), W / 2), "half the width stands opposite the angle")],
)  # fmt: skip
phi = sp.Symbol("phi", real=True)
segment = M.relation(
    "segment", r"A_{\mathrm{s}}", "mm^2", R**2 * (alpha - sp.sin(alpha) * sp.cos(alpha)),
    because="sector less triangle",
    meaning="area under the arch, above its ends",
    lines=[(sp.Integral(R**2 / 2, (phi, -alpha, alpha)) - W / 2 * R * sp.cos(alpha),
            "thin triangles from the center make the sector; the triangle is half the width times its height")],
)  # fmt: skip
opening = M.result(
    "opening", "A", "cm^2", W * u + sp.Piecewise((segment, sp.Eq(brow, 1)), (0, True)), resolution=0.1,
    meaning="free area of the front opening, on the board", because="a rectangle up to the brow, and the arch above it",
)  # fmt: skip
notches = M.relation(
    "notches", r"A_{\mathrm{n}}", "cm^2", (ff + fb) * fh * (1 / sp.sin(S["left"]) + 1 / sp.sin(S["right"])),
    because="each notch is its width times its height up the leaning board", meaning="area of both side notches",
)  # fmt: skip
M.result(
    "inlet", r"A_{\mathrm{in}}", "cm^2", opening + notches, resolution=0.1,
    meaning="free area through which air comes in", because="air comes in through front and side notches",
)  # fmt: skip
M.result(
    "outlet", r"A_{\mathrm{out}}", "cm^2", sp.pi * d**2 / 4, resolution=0.1, meaning="area of the hole for the chute",
    because="the area of a circle",
)  # fmt: skip

jamb = M.relation(
    "jamb", "e", "mm", sp.Min(*(AWAY[s] - hb * sp.cos(S[s]) / sp.sin(S[s]) for s in ("left", "right"))) - W / 2,
    meaning="wood beside the brow's ends, narrower side",
    because="at the brow's height the nearer side has come in, and half the opening is taken away",
)  # fmt: skip
band = M.relation(
    "band", r"b_{\mathrm{top}}", "mm", w["front"] - u - sp.Piecewise((f, sp.Eq(brow, 1)), (0, True)),
    meaning="wood above the opening", because="what the front board has left above the brow",
)  # fmt: skip
least_top = M.relation("least_top", r"\ell_{\mathrm{least}}", "mm", sp.Min(*top.values()),
                       because="the shortest of the top edges", meaning="shortest top edge")  # fmt: skip
hole_top = M.relation(
    "hole_foot", "q", "mm", sp.Piecewise((hc / sp.sin(S["back"]) - d / 2, d > 0), (land, True)),
    because="the hole's middle stands up the back board, its rim lower by half the diameter",
    meaning="wood below the hole for the chute",
)  # fmt: skip

# The governing form of the clearance: one point before one leaning board.
slope = sp.Piecewise(
    *((S[s], sp.Eq(toward, k)) for k, s in enumerate(("front", "right", "back"))), (S["left"], True)
)
away = sp.Piecewise(
    *((AWAY[s], sp.Eq(toward, k)) for k, s in enumerate(("front", "right", "back"))), (AWAY["left"], True)
)
s = M.relation("slope_toward", "s", "deg", slope, because="the face that the point comes near")
a = M.relation("away_toward", "a", "mm", away, because="the same face on the bench")
M.result(
    "clear", "g", "mm", (a - rho) * sp.sin(s) - z * sp.cos(s) - t, resolution=0.1,
    meaning="distance of the measured point from the inside of that board",
    because="the distance is counted square to the board, and the board takes its thickness off it",
    lines=[
        ((a - z / sp.tan(s) - rho) * sp.sin(s) - t, "level, at the point's height, the face has come in by z / tan s"),
        (sp.Matrix([[sp.sin(s), sp.cos(s)]]).dot(sp.Matrix([a - rho, -z])) - t,
         "the step from the point to the bottom edge, along the outward normal"),
    ],
)  # fmt: skip

M.limit("clear", "the measured point clears the board by", value=unknown("clear"), allowed=margin, sense=">=",
        resolution=0.1, mend="move that bottom edge out, or make that face steeper")  # fmt: skip
M.limit("tilt", "the sharpest corner needs a blade tilt of", value=sp.Max(*(sp.Abs(x) for x in tilts)),
        allowed=tilt_most, in_unit="deg", resolution=0.1,
        mend="let the faces at that corner lean less, or cut its ends on edge against a tall fence")  # fmt: skip
M.limit("miter", "the largest miter is", value=sp.Max(*(sp.Abs(x) for x in miters)), allowed=miter_most,
        in_unit="deg", resolution=0.1, mend="let the neighboring face lean less")  # fmt: skip
M.limit("jamb", "the wood beside the brow is", value=jamb, allowed=land, sense=">=", resolution=0.1,
        mend="make the opening narrower or the base wider")  # fmt: skip
M.limit("band", "the wood above the opening is", value=band, allowed=land, sense=">=", resolution=0.1,
        mend="lower the brow or raise the top")  # fmt: skip
M.limit("hole", "the wood below the hole is", value=hole_top, allowed=land, sense=">=", resolution=0.1,
        mend="raise the hole or make it smaller")  # fmt: skip
M.limit("short", "the shortest top edge is", value=least_top, allowed=shortest, sense=">=", resolution=0.1,
        mend="let the faces lean less, or change the rear corners")  # fmt: skip
M.caution("Unplug the machine before measuring at it or moving it through its way by hand.")
M.caution(
    "Guards stay on. The hood must never hinder a guard or its return: move the machine through its whole way by hand, "
    "unplugged, and watch every guard close by itself before the first cut."
)
M.caution(
    "Fine dust burns and can explode: no sparks, no grinding and no metal sawing under a hood that holds wood dust; "
    "empty it every day."
)
M.caution("A hood of metal or plastic film charges up: ground it as the collector's maker says.")
M.caution(*SAW)
M.caution("A face leans outward: what is thrown up slides past it, not back to the bench.",
          when=sp.Or(*(sp.Gt(S[x], sp.pi / 2) for x in FACES)))  # fmt: skip

MODEL = M.done()
