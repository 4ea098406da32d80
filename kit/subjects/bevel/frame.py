"""Splayed frame of equal boards.

How are the saw and the boards set so that N leaning boards close to a regular frame?

In the trade's words: I want six boards that lean in at 70° and close to a hood frame. What miter, what blade tilt, what
bevel on the bottom edge, how long is each board?

Picture: From above a regular polygon of N boards. Each board stands on its bottom edge and leans in; its outside face
rises at the slope s from the horizontal. At every corner two ends meet in a line that leans in too.

Assumptions:
- all boards are alike, flat and of one thickness, and all slope alike
- the slope is counted from the horizontal: 90° is an upright box, 0° lies flat
- bottom and top edges are beveled level, so that the frame sits flat
- sizes are those of the outside face, which lies on the saw table or against the fence
- across flats means twice the distance from the middle to a side, also where N is odd
- butted boards run round like a pinwheel: each ends on the inside of the next and covers the last

Sources:
- vector geometry: normals, scalar product and intersection of planes

Notes: Every side is a board that leans in, so that the frame narrows upward like a cut-off pyramid. The slope is
counted from the horizontal: 90° is an upright box, small angles are almost flat. A frame that widens upward is the same
frame standing on its head. Also: vector geometry of two planes. The two closed forms, tan(miter) = cos(slope)
tan(180°/N) and sin(tilt) = sin(slope) sin(180°/N), are common in handbooks of joinery (from memory).
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
)
from kit.subjects.safety import CARRIER, SAW

M = Model("bevel.frame", __doc__)

N = M.count("sides", "N", 6, (3, 24), "number of boards")
s = M.given("slope", "s", "70 ± 0.1 deg", (5, 90), "slope of the boards, from the horizontal")
M.measured("bevel gauge against a level, or rise over run")
joint = M.choice("joint", "j", ("mitered", "butted"), "mitered", "how the ends meet")
size = M.given("base", "a", "360 ± 0.5 mm", (50, 3000), "size of the frame at the bottom, outside")
M.measured("tape on the outside of the bottom edge")
kind = M.choice("base_kind", "k", ("side", "across flats"), "side", "what the size at the bottom measures")
w = M.given("width", "w", "180 ± 0.2 mm", (20, 600), "width of the boards, up the slope")
M.measured("rule across the face, from bottom arris to top arris")
t = M.given("thickness", "t", "15 ± 0.1 mm", (3, 60), "thickness of the boards")
M.measured("caliper")
tilt_most = M.given("tilt_reach", r"\beta_{\mathrm{max}}", "45 deg", (0, 60), "greatest tilt of the saw, from vertical")
M.measured("saw's stop")
miter_most = M.given(
    "miter_reach", r"\mu_{\mathrm{max}}", "60 deg", (10, 75), "greatest miter of the gauge, from a square cut"
)
M.measured("gauge's scale")
shortest = M.given("short_reach", r"\ell_{\mathrm{min}}", "150 mm", (0, 600), "shortest edge that is held safely")
M.source("common practice, no source")

psi = M.relation("half_turn", r"\psi", "deg")
M.equals(sp.pi / N, "seen from the middle, a corner stands half a side's angle from a side's middle")
L = M.relation("side", "L", "mm", "bottom side")
M.equals(
    sp.Piecewise((size, sp.Eq(kind, 0)), (size * sp.tan(psi), True)),
    "a side spans twice the half turn at half the distance across flats",
)

n1, n2 = outward(s, sp.Integer(0)), outward(s, 2 * psi)
k = M.relation("alignment", "c", "")
M.step(times(sp.rot_ccw_axis3(2 * psi), n1, n2), "a board's outward normal, turned by a full side, is the next board's")
M.step(
    times(n1.T, n2, sp.Matrix([[sp.sin(s) ** 2 * sp.cos(2 * psi) + sp.cos(s) ** 2]])),
    "the scalar product of two unit normals is the cosine of the angle between them",
)
M.equals(1 - 2 * sp.sin(s) ** 2 * sp.sin(psi) ** 2, "with cos 2ψ = 1 - 2 sin² ψ the scalar product becomes")
delta = M.result("dihedral", r"\delta", "deg", "inside angle between two boards", resolution=0.01)
M.equals(dihedral(k), "the inside angle of two faces and the angle of their normals make a half turn")
mu = M.result("miter", r"\mu", "deg", "miter gauge, from a square cut", resolution=0.01, setting=True)
M.step(
    times(sp.Matrix.vstack(n1.T, n2.T), seam_direction(s, mu), sp.zeros(2, 1)),
    "the corner line lies in both faces, so it is square to both normals",
)
M.step(equal(sp.tan(mu), sp.cos(s) * (1 - sp.cos(2 * psi)) / sp.sin(2 * psi)), "the second row, solved")
M.equals(ring_miter(s, psi), "up the slope by 1 the corner line runs back along the board by tan(miter)")
M.mistake(ring_tilt(s, psi), "miter and tilt were swapped: this is the blade tilt")
M.mistake(psi, "the boards were taken as upright on a flat frame: this is half the corner's turn")
half_plane = sp.Matrix([-sp.sin(psi), sp.cos(psi), 0])
beta_m = M.relation("miter_tilt", r"\beta_{\mathrm{m}}", "deg")
M.step(
    equal(n2 - n1, 2 * sp.sin(s) * sp.sin(psi) * half_plane),
    "the miter plane stands upright and halves the corner: its normal points from one normal to the other",
)
M.step(times(n1.T, -half_plane, sp.Matrix([[sp.sin(beta_m)]])), "the sine of the tilt is the product of the normals")
M.step(square_of(delta / 2), "so the two tilts and the inside angle make a half turn")
M.equals(ring_tilt(s, psi), "with the face on the table, the tilt is what the cut's own normal leans out of that face")
beta_b = M.relation("butt_tilt", r"\beta_{\mathrm{b}}", "deg")
M.step(delta - sp.pi / 2, "that is what the inside angle has more than a right angle")
M.equals(sp.asin(k), "a butted end lies on the inside of the next board, so its normal is that board's")
beta = M.result(
    "tilt",
    r"\beta",
    "deg",
    "blade tilt from vertical; a butted end above 0 leaves the inside longer, below 0 the outside",
    resolution=0.01,
    setting=True,
)
M.equals(
    sp.Piecewise((beta_m, sp.Eq(joint, 0)), (beta_b, True)),
    "the joint decides which plane the end lies in; both planes hold the corner line, so the miter is the same",
)
M.mistake(mu, "tilt and miter were swapped: this is the miter")
M.mistake(psi, "the boards were taken as upright: this is half the corner's turn")
M.result(
    "edge_bevel",
    r"\gamma",
    "deg",
    "blade tilt from vertical to rip the bottom and top edges, so that they lie level",
    resolution=0.01,
    setting=True,
)
M.step(sp.asin((n1.T * sp.Matrix([0, 0, 1]))[0]), "the product of the face's normal and the upright")
M.equals(square_of(s), "a level edge makes the slope's angle with the face, and a square edge would make a right angle")
long_edge = M.result("long_edge", r"\ell_{1}", "mm", "bottom edge of each board, on the outside face", resolution=0.1)
M.equals(
    sp.Piecewise((L, sp.Eq(joint, 0)), (L - t / (sp.sin(s) * sp.sin(2 * psi)), True)),
    "a butted board stops at the inside of the next, one thickness short, measured along the edge",
)
short_edge = M.result("short_edge", r"\ell_{2}", "mm", "top edge of each board, on the outside face", resolution=0.1)
M.step(long_edge - 2 * w * sp.cos(s) * sp.tan(psi), "that is the width's run in plan, at both ends")
M.equals(long_edge - 2 * w * sp.tan(mu), "both ends run back by tan(miter) over the width")
seam = M.result("seam", "f", "mm", "length of the corner line, on the outside", resolution=0.1)
M.equals(w / sp.cos(mu), "the corner line crosses the width at the miter")
h = M.result("height", "h", "mm", "height of the frame", resolution=0.1)
M.equals(w * sp.sin(s), "the width rises at the slope")
M.result("corner_slope", r"\kappa", "deg", "slope of the corner line, from the horizontal", resolution=0.01)
M.step(sp.asin(h / seam), "the height over the length of the corner line")
M.equals(sp.asin(sp.sin(s) * sp.cos(mu)), "the corner line rises over its own length")

M.limit("tilt", "the ends need a blade tilt of", sp.Abs(beta), "<=", tilt_most, in_unit="deg", resolution=0.1)
M.mend(f"choose the other joint, or {CARRIER}")
M.limit("edge", "the bottom edge needs a blade tilt of", square_of(s), "<=", tilt_most, in_unit="deg", resolution=0.1)
M.mend("plane it, or rip it with the board clamped upright in a carrier that rides along the fence")
M.limit("miter", "the ends need a miter of", mu, "<=", miter_most, resolution=0.1)
M.mend("cut on a sled that carries the board at the angle, or choose more sides")
M.limit("short", "the top edge is", short_edge, ">=", shortest, resolution=1)
M.mend("make the base larger, the boards narrower or steeper, or cut on a sled with a clamp")
M.caution(*SAW)
M.caution(
    "Boards as short as these are cut on a sled with a hold-down, or from a longer board.",
    when=sp.Lt(short_edge, shortest),
)

MODEL = M.done()
