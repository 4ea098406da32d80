"""A corner of two leaning boards: different slopes, different thicknesses, any convex angle in plan.

The question in the trade's words: one board leans in at 60°, its neighbor stands at 80° and is thicker, and seen
from above they meet at 110°. How are the two ends cut so that the miter meets both outside and inside?

The picture: seen from above the two bottom edges meet at the plan angle. Each outside face rises inward at its
slope. Looking along the corner line the boards are two bars that meet at the dihedral; the miter runs from the
outer to the inner corner and halves the dihedral only if the boards are equally thick.

Sources: vector geometry of two planes; the section square to the corner line is plane trigonometry.
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
    "bevel.corner",
    title="Corner of two leaning boards",
    question="How are the ends of two boards cut that meet at any angle, with different slopes and thicknesses?",
    picture=(
        "From above two bottom edges meet at the plan angle. Each board's outside face rises from its edge at its own "
        "slope. Along the corner line one sees two bars of different thickness with the miter between their corners."
    ),
    assumptions=(
        "both boards are flat; their bottom edges lie in one level plane",
        "slopes are counted from the horizontal, on the inside of the corner: 90° is upright, more leans outward",
        "the plan angle is the inside angle of the two bottom edges, seen from above, below 180°",
        "both boards are cut with the outside face on the saw table",
    ),
    sources=("vector geometry: normals, scalar product and intersection of planes",),
)

theta = M.given(
    "plan",
    r"\theta",
    "deg",
    110,
    span=(30, 165),
    meaning="inside angle of the bottom edges, in plan",
    how="bevel gauge on the floor plan",
    half=0.1,
)
s1 = M.given("slope_1", "s_{1}", "deg", 60, span=(15, 150), meaning="slope of board 1, from the horizontal",
             how="bevel gauge against a level", half=0.1)  # fmt: skip
s2 = M.given("slope_2", "s_{2}", "deg", 80, span=(15, 150), meaning="slope of board 2, from the horizontal",
             how="bevel gauge against a level", half=0.1)  # fmt: skip
t1 = M.given("thickness_1", "t_{1}", "mm", 15, span=(3, 60), meaning="thickness of board 1", how="caliper",
             half=0.1)  # fmt: skip
t2 = M.given("thickness_2", "t_{2}", "mm", 18, span=(3, 60), meaning="thickness of board 2", how="caliper",
             half=0.1)  # fmt: skip
tilt_most = M.given("tilt_reach", r"\beta_{\mathrm{max}}", "deg", 45, span=(0, 60),
                    meaning="greatest tilt of the saw, from vertical", how="saw's stop")  # fmt: skip
miter_most = M.given("miter_reach", r"\mu_{\mathrm{max}}", "deg", 60, span=(10, 75),
                     meaning="greatest miter of the gauge, from a square cut", how="gauge's scale")  # fmt: skip

phi = M.relation(
    "turn",
    r"\varphi",
    "deg",
    sp.pi - theta,
    because="going round, one turns at the corner by what the inside angle lacks of a half turn",
)
n1, n2 = outward(s1, sp.Integer(0)), outward(s2, phi)
between = corner_alignment(s1, s2, phi)
c = M.relation(
    "alignment",
    "c",
    "",
    between,
    because="the scalar product of two unit normals is the cosine of the angle between them",
    lines=[
        (times(n1.T, n2, sp.Matrix([[between]])), "the normals of a face that faces x and of one turned on")
    ],
)
delta = M.result(
    "dihedral", r"\delta", "deg", dihedral(c), resolution=0.01, meaning="inside angle between the faces",
    because="the inside angle of two faces and the angle of their normals make a half turn",
)  # fmt: skip

mu1 = unknown("miter_1")
M.result(
    "miter_1", r"\mu_{1}", "deg", corner_miter(s1, s2, phi),
    meaning="miter of board 1 from a square cut; above 0 the board narrows upward", resolution=0.01,
    because="up the slope by 1 the corner line runs back along board 1 by tan(miter); the second row, solved",
    lines=[
        (times(sp.Matrix.vstack(n1.T, n2.T), seam_direction(s1, mu1), sp.zeros(2, 1)),
         "the corner line lies in both faces, so it is square to both normals"),
    ],
)  # fmt: skip
mu2 = unknown("miter_2")
M.result(
    "miter_2",
    r"\mu_{2}",
    "deg",
    corner_miter(s2, s1, phi),
    meaning="miter of board 2 from a square cut; above 0 the board narrows upward",
    resolution=0.01,
    because="seen in a mirror the boards change places",
    lines=[
        (
            equal(sp.sin(s2) * sp.cos(mu2), sp.sin(s1) * sp.cos(mu1)),
            "both say how steeply the corner line rises",
        )
    ],
)
M.result(
    "corner_slope", r"\kappa", "deg", sp.asin(sp.sin(s1) * sp.cos(mu1)), resolution=0.01,
    meaning="slope of the corner line, from the horizontal",
    because="of the corner line only its part up the slope, cos(miter), rises",
)  # fmt: skip

inward = -((t1 - c * t2) * n1 + (t2 - c * t1) * n2) / (1 - c**2)
f = M.result(
    "seam_width",
    "f",
    "mm",
    sp.sqrt(t1**2 + t2**2 + 2 * t1 * t2 * sp.cos(delta)) / sp.sin(delta),
    resolution=0.1,
    meaning="width of the miter, from outer to inner corner",
    because="the inner corner lies one thickness behind each face, and straight behind the outer corner",
    lines=[
        (
            times(sp.Matrix.vstack(n1.T, n2.T), inward, -sp.Matrix([t1, t2])),
            "the step from the outer to the inner corner goes back by one thickness from each face",
        ),
        (sp.sqrt((t1**2 + t2**2 - 2 * c * t1 * t2) / (1 - c**2)), "the length of that step"),
    ],
)
beta1 = unknown("tilt_1")
M.result(
    "tilt_1", r"\beta_{1}", "deg", sp.atan((t2 + t1 * sp.cos(delta)) / (t1 * sp.sin(delta))), resolution=0.01,
    meaning="blade tilt from vertical for board 1; above 0 the outside stays longer",
    because="the miter plane holds both corner lines; its step leans out of the square cut by the tilt",
    lines=[(equal(f * sp.cos(beta1), t1), "the step crosses the thickness of board 1 at the tilt")],
)  # fmt: skip
beta2 = unknown("tilt_2")
M.result(
    "tilt_2", r"\beta_{2}", "deg", sp.atan((t1 + t2 * sp.cos(delta)) / (t2 * sp.sin(delta))), resolution=0.01,
    meaning="blade tilt from vertical for board 2; above 0 the outside stays longer",
    because="seen in a mirror the boards change places",
    lines=[
        (equal(f * sp.cos(beta2), t2), "the step crosses the thickness of board 2 at the tilt"),
        (sp.pi - delta - beta1, "the two tilts and the inside angle make a half turn"),
    ],
)  # fmt: skip
for number, slope in ((1, s1), (2, s2)):
    M.result(
        f"edge_bevel_{number}",
        rf"\gamma_{{{number}}}",
        "deg",
        square_of(slope),
        resolution=0.01,
        meaning=f"blade tilt from vertical for the level bottom edge of board {number}",
        because="a level edge makes the slope's angle with the face, and a square edge would make a right angle",
    )

M.limit("tilt", "the steeper of the two cuts needs a blade tilt of", value=sp.Max(sp.Abs(beta1), sp.Abs(beta2)),
        allowed=tilt_most, in_unit="deg", resolution=0.1,
        mend="cut that end on edge against a tall fence, or butt the joint")  # fmt: skip
M.limit(
    "miter",
    "the larger miter is",
    value=sp.Max(sp.Abs(mu1), sp.Abs(mu2)),
    allowed=miter_most,
    in_unit="deg",
    resolution=0.1,
    mend="cut on a sled that carries the board at the angle",
)
M.caution(*SAW)
M.caution("The boards differ in thickness: the tilts differ too, so mark each board with its own setting.",
          when=sp.Ne(t1, t2))  # fmt: skip
M.caution("A tilt below 0 undercuts the outside face: turn the board over or swap the side of the blade.",
          when=sp.Or(sp.Lt(beta1, 0), sp.Lt(beta2, 0)))  # fmt: skip

MODEL = M.done()
