"""Corner of two leaning boards.

How are the ends of two boards cut that meet at any angle, with different slopes and thicknesses?

In the trade's words: one board leans in at 60°, its neighbor stands at 80° and is thicker, and seen from above they
meet at 110°. How are the two ends cut so that the miter meets both outside and inside?

Picture: From above two bottom edges meet at the plan angle. Each board's outside face rises from its edge at its own
slope. Along the corner line one sees two bars of different thickness with the miter between their corners.

Assumptions:
- both boards are flat; their bottom edges lie in one level plane
- slopes are counted from the horizontal, on the inside of the corner: 90° is upright, more leans outward
- the plan angle is the inside angle of the two bottom edges, seen from above, below 180°
- both boards are cut with the outside face on the saw table

Sources:
- vector geometry: normals, scalar product and intersection of planes

Notes: Looking along the corner line the boards are two bars that meet at the dihedral. The miter runs from the outer to
the inner corner and halves the dihedral only if the boards are equally thick. Also: the section square to the corner
line is plane trigonometry.
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
)
from kit.subjects.safety import CARRIER, SAW

M = Model("bevel.corner", __doc__)

theta = M.given("plan", r"\theta", "110 ± 0.1 deg", (30, 165), "inside angle of the bottom edges, in plan")
M.measured("bevel gauge on the floor plan")
s1 = M.given("slope_1", "s_{1}", "60 ± 0.1 deg", (15, 150), "slope of board 1, from the horizontal")
M.measured("bevel gauge against a level")
s2 = M.given("slope_2", "s_{2}", "80 ± 0.1 deg", (15, 150), "slope of board 2, from the horizontal")
M.measured("bevel gauge against a level")
t1 = M.given("thickness_1", "t_{1}", "15 ± 0.1 mm", (3, 60), "thickness of board 1")
M.measured("caliper")
t2 = M.given("thickness_2", "t_{2}", "18 ± 0.1 mm", (3, 60), "thickness of board 2")
M.measured("caliper")
tilt_most = M.given("tilt_reach", r"\beta_{\mathrm{max}}", "45 deg", (0, 60), "greatest tilt of the saw, from vertical")
M.measured("saw's stop")
miter_most = M.given(
    "miter_reach", r"\mu_{\mathrm{max}}", "60 deg", (10, 75), "greatest miter of the gauge, from a square cut"
)
M.measured("gauge's scale")

phi = M.relation("turn", r"\varphi", "deg")
M.equals(sp.pi - theta, "going round, one turns at the corner by what the inside angle lacks of a half turn")
n1, n2 = outward(s1, sp.Integer(0)), outward(s2, phi)
between = corner_alignment(s1, s2, phi)
c = M.relation("alignment", "c", "")
M.step(times(n1.T, n2, sp.Matrix([[between]])), "the normals of a face that faces x and of one turned on")
M.equals(between, "the scalar product of two unit normals is the cosine of the angle between them")
delta = M.result("dihedral", r"\delta", "deg", "inside angle between the faces", resolution=0.01)
M.equals(dihedral(c), "the inside angle of two faces and the angle of their normals make a half turn")

mu1 = M.result(
    "miter_1",
    r"\mu_{1}",
    "deg",
    "miter of board 1 from a square cut; above 0 the board narrows upward",
    resolution=0.01,
    setting=True,
)
M.step(
    times(sp.Matrix.vstack(n1.T, n2.T), seam_direction(s1, mu1), sp.zeros(2, 1)),
    "the corner line lies in both faces, so it is square to both normals",
)
M.equals(
    corner_miter(s1, s2, phi),
    "up the slope by 1 the corner line runs back along board 1 by tan(miter); the second row, solved",
)
mu2 = M.result(
    "miter_2",
    r"\mu_{2}",
    "deg",
    "miter of board 2 from a square cut; above 0 the board narrows upward",
    resolution=0.01,
    setting=True,
)
M.step(equal(sp.sin(s2) * sp.cos(mu2), sp.sin(s1) * sp.cos(mu1)), "both say how steeply the corner line rises")
M.equals(corner_miter(s2, s1, phi), "by symmetry, with the boards exchanged")
M.result("corner_slope", r"\kappa", "deg", "slope of the corner line, from the horizontal", resolution=0.01)
M.equals(sp.asin(sp.sin(s1) * sp.cos(mu1)), "of the corner line only its part up the slope, cos(miter), rises")

inward = -((t1 - c * t2) * n1 + (t2 - c * t1) * n2) / (1 - c**2)
f = M.result("seam_width", "f", "mm", "width of the miter, from outer to inner corner", resolution=0.1)
M.step(
    times(sp.Matrix.vstack(n1.T, n2.T), inward, -sp.Matrix([t1, t2])),
    "the step from the outer to the inner corner goes back by one thickness from each face",
)
M.step(sp.sqrt((t1**2 + t2**2 - 2 * c * t1 * t2) / (1 - c**2)), "the length of that step")
M.equals(
    sp.sqrt(t1**2 + t2**2 + 2 * t1 * t2 * sp.cos(delta)) / sp.sin(delta),
    "the inner corner lies one thickness behind each face, and straight behind the outer corner",
)
beta1 = M.result(
    "tilt_1",
    r"\beta_{1}",
    "deg",
    "blade tilt from vertical for board 1; above 0 the outside stays longer",
    resolution=0.01,
    setting=True,
)
M.step(equal(f * sp.cos(beta1), t1), "the step crosses the thickness of board 1 at the tilt")
M.equals(
    sp.atan((t2 + t1 * sp.cos(delta)) / (t1 * sp.sin(delta))),
    "the miter plane holds both corner lines; its step leans out of the square cut by the tilt",
)
beta2 = M.result(
    "tilt_2",
    r"\beta_{2}",
    "deg",
    "blade tilt from vertical for board 2; above 0 the outside stays longer",
    resolution=0.01,
    setting=True,
)
M.step(equal(f * sp.cos(beta2), t2), "the step crosses the thickness of board 2 at the tilt")
M.step(sp.pi - delta - beta1, "the two tilts and the inside angle make a half turn")
M.equals(sp.atan((t1 + t2 * sp.cos(delta)) / (t2 * sp.sin(delta))), "by symmetry, with the boards exchanged")
for number, slope in ((1, s1), (2, s2)):
    M.result(
        f"edge_bevel_{number}",
        rf"\gamma_{{{number}}}",
        "deg",
        f"blade tilt from vertical for the level bottom edge of board {number}",
        resolution=0.01,
        setting=True,
    )
    M.equals(
        square_of(slope),
        "a level edge makes the slope's angle with the face, and a square edge would make a right angle",
    )

M.limit(
    "tilt",
    "the steeper of the two cuts needs a blade tilt of",
    sp.Max(sp.Abs(beta1), sp.Abs(beta2)),
    "<=",
    tilt_most,
    in_unit="deg",
    resolution=0.1,
)
M.mend(f"butt the joint, or {CARRIER}")
M.limit(
    "miter", "the larger miter is", sp.Max(sp.Abs(mu1), sp.Abs(mu2)), "<=", miter_most, in_unit="deg", resolution=0.1
)
M.mend("cut on a sled that carries the board at the angle")
M.caution(*SAW)
M.caution(
    "The boards differ in thickness: the tilts differ too, so mark each board with its own setting.", when=sp.Ne(t1, t2)
)
M.caution(
    "A tilt below 0 undercuts the outside face: turn the board over or swap the side of the blade.",
    when=sp.Or(sp.Lt(beta1, 0), sp.Lt(beta2, 0)),
)

MODEL = M.done()
