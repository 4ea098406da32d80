"""A splayed frame of N equal boards: how to set the saw so that it closes.

The question in the trade's words: I want six boards that lean in at 70° and close to a hood frame. What miter,
what blade tilt, what bevel on the bottom edge, how long is each board?

The picture: seen from above a regular polygon; every side is a board that leans in, so that the frame narrows
upward like a cut-off pyramid. The slope is counted from the horizontal: 90° is an upright box, small angles are
almost flat. A frame that widens upward is the same frame standing on its head.

Sources: vector geometry of two planes. The two closed forms, tan(miter) = cos(slope) tan(180°/N) and
sin(tilt) = sin(slope) sin(180°/N), are common in handbooks of joinery (from memory).
"""

from __future__ import annotations

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.bevel.planes import (
    dihedral,
    outward,
    ring_miter,
    ring_tilt,
    seam_direction,
    square_of,
    times,
    unknown,
)
from kit.subjects.safety import SAW

M = Model(
    "bevel.frame",
    title="Splayed frame of equal boards",
    question="How are the saw and the boards set so that N leaning boards close to a regular frame?",
    picture=(
        "From above a regular polygon of N boards. Each board stands on its bottom edge and leans in; its outside "
        "face rises at the slope s from the horizontal. At every corner two ends meet in a line that leans in too."
    ),
    assumptions=(
        "all boards are alike, flat and of one thickness, and all slope alike",
        "the slope is counted from the horizontal: 90° is an upright box, 0° lies flat",
        "bottom and top edges are beveled level, so that the frame sits flat",
        "sizes are those of the outside face, which lies on the saw table or against the fence",
        "across flats means twice the distance from the middle to a side, also where N is odd",
        "butted boards run round like a pinwheel: each ends on the inside of the next and covers the last",
    ),
    sources=("vector geometry: normals, scalar product and intersection of planes",),
)

N = M.count("sides", "N", 6, span=(3, 24), meaning="number of boards", source="demo: hood frame")
s = M.given("slope", "s", "deg", 70, span=(5, 90), meaning="slope of the boards, from the horizontal",
            how="bevel gauge against a level, or rise over run", half=0.1)  # fmt: skip
joint = M.choice("joint", "j", ("mitered", "butted"), "mitered", meaning="how the ends meet")
size = M.given("base", "a", "mm", 360, span=(50, 3000), meaning="size of the frame at the bottom, outside",
               how="tape on the outside of the bottom edge", half=0.5)  # fmt: skip
kind = M.choice(
    "base_kind", "k", ("side", "across flats"), "side", meaning="what the size at the bottom tells"
)
w = M.given("width", "w", "mm", 180, span=(20, 600), meaning="width of the boards, up the slope", half=0.2,
            how="rule across the face, from bottom arris to top arris")  # fmt: skip
t = M.given("thickness", "t", "mm", 15, span=(3, 60), meaning="thickness of the boards", half=0.1,
            how="caliper")  # fmt: skip
tilt_most = M.given("tilt_reach", r"\beta_{\mathrm{max}}", "deg", 45, span=(0, 60),
                    meaning="greatest tilt of the saw, from vertical", how="saw's stop")  # fmt: skip
miter_most = M.given("miter_reach", r"\mu_{\mathrm{max}}", "deg", 60, span=(10, 75),
                     meaning="greatest miter of the gauge, from a square cut", how="gauge's scale")  # fmt: skip
shortest = M.given("short_reach", r"\ell_{\mathrm{min}}", "mm", 150, span=(0, 600),
                   meaning="shortest edge that is held safely",
                   source="common practice, no source")  # fmt: skip

psi = M.relation(
    "half_turn",
    r"\psi",
    "deg",
    sp.pi / N,
    because="seen from the middle, a corner stands half a side's angle from a side's middle",
)
L = M.relation(
    "side",
    "L",
    "mm",
    sp.Piecewise((size, sp.Eq(kind, 0)), (size * sp.tan(psi), True)),
    because="a side spans twice the half turn at half the distance across flats",
    meaning="bottom side",
)

n1, n2 = outward(s, sp.Integer(0)), outward(s, 2 * psi)
k = M.relation(
    "alignment",
    "c",
    "",
    1 - 2 * sp.sin(s) ** 2 * sp.sin(psi) ** 2,
    because="with cos 2ψ = 1 - 2 sin² ψ the scalar product becomes",
    lines=[
        (
            times(sp.rot_ccw_axis3(2 * psi), n1, n2),
            "a board's outward normal, turned by a full side, is the next board's",
        ),
        (
            times(n1.T, n2, sp.Matrix([[sp.sin(s) ** 2 * sp.cos(2 * psi) + sp.cos(s) ** 2]])),
            "the scalar product of two unit normals is the cosine of the angle between them",
        ),
    ],
)
delta = M.result(
    "dihedral", r"\delta", "deg", dihedral(k), resolution=0.01, meaning="inside angle between two boards",
    because="the inside angle of two faces and the angle of their normals make a half turn",
)  # fmt: skip
mu = unknown("miter")
M.result(
    "miter", r"\mu", "deg", ring_miter(s, psi), resolution=0.01, meaning="miter gauge, from a square cut",
    because="up the slope by 1 the corner line runs back along the board by tan(miter)",
    lines=[
        (times(sp.Matrix.vstack(n1.T, n2.T), seam_direction(s, mu), sp.zeros(2, 1)),
         "the corner line lies in both faces, so it is square to both normals"),
        (equal(sp.tan(mu), sp.cos(s) * (1 - sp.cos(2 * psi)) / sp.sin(2 * psi)), "the second row, solved"),
    ],
)  # fmt: skip
half_plane = sp.Matrix([-sp.sin(psi), sp.cos(psi), 0])
beta_m = unknown("miter_tilt")
M.relation(
    "miter_tilt",
    r"\beta_{\mathrm{m}}",
    "deg",
    ring_tilt(s, psi),
    because="with the face on the table, the tilt is what the cut's own normal leans out of that face",
    lines=[
        (
            equal(n2 - n1, 2 * sp.sin(s) * sp.sin(psi) * half_plane),
            "the miter plane stands upright and halves the corner: its normal points from one normal to the other",
        ),
        (
            times(n1.T, -half_plane, sp.Matrix([[sp.sin(beta_m)]])),
            "the sine of the tilt is the product of the normals",
        ),
        (square_of(delta / 2), "so the two tilts and the inside angle make a half turn"),
    ],
)
beta_b = M.relation(
    "butt_tilt", r"\beta_{\mathrm{b}}", "deg", sp.asin(k),
    because="a butted end lies on the inside of the next board, so its normal is that board's",
    lines=[(delta - sp.pi / 2, "that is what the inside angle has more than a right angle")],
)  # fmt: skip
beta = M.result(
    "tilt",
    r"\beta",
    "deg",
    sp.Piecewise((beta_m, sp.Eq(joint, 0)), (beta_b, True)),
    resolution=0.01,
    meaning="blade tilt from vertical; a butted end above 0 leaves the inside longer, below 0 the outside",
    because="the joint decides which plane the end lies in; both planes hold the corner line, so the miter is the same",
)
M.result(
    "edge_bevel", r"\gamma", "deg", square_of(s), resolution=0.01,
    meaning="blade tilt from vertical to rip the bottom and top edges, so that they lie level",
    because="a level edge makes the slope's angle with the face, and a square edge would make a right angle",
    lines=[(sp.asin((n1.T * sp.Matrix([0, 0, 1]))[0]), "the product of the face's normal and the upright")],
)  # fmt: skip
long_edge = M.result(
    "long_edge", r"\ell_{1}", "mm",
    sp.Piecewise((L, sp.Eq(joint, 0)), (L - t / (sp.sin(s) * sp.sin(2 * psi)), True)), resolution=0.1,
    meaning="bottom edge of each board, on the outside face",
    because="a butted board stops at the inside of the next, one thickness short, measured along the edge",
)  # fmt: skip
short_edge = M.result(
    "short_edge", r"\ell_{2}", "mm", long_edge - 2 * w * sp.tan(mu), resolution=0.1,
    meaning="top edge of each board, on the outside face",
    because="both ends run back by tan(miter) over the width",
    lines=[(long_edge - 2 * w * sp.cos(s) * sp.tan(psi), "that is the width's run in plan, at both ends")],
)  # fmt: skip
seam = M.result(
    "seam", "f", "mm", w / sp.cos(mu), resolution=0.1, meaning="length of the corner line, on the outside",
    because="the corner line crosses the width at the miter",
)  # fmt: skip
h = M.result("height", "h", "mm", w * sp.sin(s), resolution=0.1, meaning="height of the frame",
             because="the width rises at the slope")  # fmt: skip
M.result(
    "corner_slope",
    r"\kappa",
    "deg",
    sp.asin(sp.sin(s) * sp.cos(mu)),
    resolution=0.01,
    meaning="slope of the corner line, from the horizontal",
    because="the corner line rises over its own length",
    lines=[(sp.asin(h / seam), "the height over the length of the corner line")],
)

M.limit(
    "tilt",
    "the ends need a blade tilt of",
    value=sp.Abs(beta),
    allowed=tilt_most,
    in_unit="deg",
    resolution=0.1,
    mend="cut the ends on edge against a tall fence, or choose the other joint",
)
M.limit("edge", "the bottom edge needs a blade tilt of", value=square_of(s), allowed=tilt_most, in_unit="deg",
        resolution=0.1, mend="rip it with the board on edge against a tall fence, or plane it")  # fmt: skip
M.limit("miter", "the ends need a miter of", value=mu, allowed=miter_most, resolution=0.1,
        mend="cut on a sled that carries the board at the angle, or choose more sides")  # fmt: skip
M.limit("short", "the top edge is", value=short_edge, allowed=shortest, sense=">=", resolution=1,
        mend="make the base larger, the boards narrower or steeper, or cut on a sled with a clamp")  # fmt: skip
M.caution(*SAW)
M.caution("Boards as short as these are cut on a sled with a hold-down, or from a longer board.",
          when=sp.Lt(short_edge, shortest))  # fmt: skip

MODEL = M.done()
