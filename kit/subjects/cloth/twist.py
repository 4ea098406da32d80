"""Twist of a ruling and the strain it asks for.

Does cloth lie on this ruled surface without force, and if not, how far must it stretch?

Picture: From above the straight side and the circle with one ruling between them; beside it the two tangent planes seen
along the ruling, and the strain over the twist.

Assumptions:
- Side and circle are level; the side runs square to the line from its middle to the circle's axis.
- Between two near rulings both ends are moved as far, each in its own tangent plane.
- Cloth is as wide in the middle of the ruling as at its ends.

Sources:
- a ruled surface is developable where one plane touches it all along each ruling (textbooks of differential geometry,
  from memory)
- vector geometry: normals and the angle between them

Notes: The plane of ruling and edge touches the surface at the lower end, the plane of ruling and rim at the upper end.
Where both are one plane, cloth lies there without force. Where they make an angle, cloth has to stretch or pleat.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.cloth.ruling import tolerated_twist
from kit.subjects.safety import CLOTH_KNIFE

M = Model("cloth.twist", __doc__)

a = M.given("side", "a", "150 ± 0.5 mm", (20, 1000), "distance of the straight side from the circle's axis, in plan")
M.measured("rule, square to the side")
u = M.given(
    "along", "u", "60 ± 0.5 mm", (-1000, 1000), "foot of the ruling along the side, from the point nearest to the axis"
)
M.measured("rule")
r = M.given("radius", "r", "50 ± 0.5 mm", (10, 500), "radius of the circle")
M.measured("caliper")
h = M.given("height", "h", "250 ± 0.5 mm", (20, 1500), "height of the circle over the side")
M.measured("rule")
phi = M.given(
    "turn",
    r"\varphi",
    "15 ± 0.5 deg",
    (-90, 90),
    "head of the ruling round the circle, from the point nearest to the side",
)
M.measured("protractor, in plan")
epsilon = M.given(
    "tolerated", r"\varepsilon_{\mathrm{c}}", "1 %", (0.1, 10), "strain that the cloth takes without showing it"
)
M.measured("pull an offcut along and across its threads")
M.pick(
    "cloth", "cloths", "PVC-coated polyester, 18 oz", {"tolerated": "tolerated_strain"}, "cloth that is to lie on it"
)

FOOT = sp.Matrix([a, u, 0])
HEAD = sp.Matrix([r * sp.cos(phi), r * sp.sin(phi), h])
RULING = HEAD - FOOT
SIDE = sp.Matrix([0, 1, 0])
RIM = sp.Matrix([-sp.sin(phi), sp.cos(phi), 0])

L = M.result("length", r"\ell", "mm", "length of the ruling", resolution=0.1)
M.step(sp.sqrt(RULING.dot(RULING)), "from foot to head")
M.equals(
    sp.sqrt((r * sp.cos(phi) - a) ** 2 + (r * sp.sin(phi) - u) ** 2 + h**2), "its parts along three square directions"
)
w1 = M.relation("low_height", "w_1", "mm", "distance of the head from the side", resolution=0.1)
M.step(sp.sqrt(SIDE.cross(RULING).dot(SIDE.cross(RULING))), "the vector product of side and ruling")
M.equals(
    sp.sqrt((a - r * sp.cos(phi)) ** 2 + h**2),
    "the lower plane holds the side and the ruling: from the side to the head it is as wide as this",
)
w2 = M.relation("high_height", "w_2", "mm", "distance of the foot from the rim's tangent", resolution=0.1)
M.step(sp.sqrt(RIM.cross(RULING).dot(RIM.cross(RULING))), "the vector product of tangent and ruling")
M.equals(
    sp.sqrt((a * sp.cos(phi) + u * sp.sin(phi) - r) ** 2 + h**2),
    "the upper plane holds the rim's tangent and the ruling",
)
flat = M.relation("scalar", "p", "mm^2", "scalar product of the two planes' normals")
M.step(SIDE.cross(RULING).dot(RIM.cross(RULING)), "part by part")
M.equals(
    h**2 * sp.cos(phi) + (a - r * sp.cos(phi)) * (a * sp.cos(phi) + u * sp.sin(phi) - r),
    "the planes' normals are the vector products of side and of tangent with the ruling: their scalar product",
)
box = M.relation("vector", "v", "mm^2", "size of the vector product of the two planes' normals")
M.step(sp.Abs(L * SIDE.cross(RIM).dot(RULING)), "side times tangent is upright and sin φ long")
M.equals(
    sp.Abs(L * h * sp.sin(phi)),
    "their vector product lies along the ruling; it is as long as the ruling times their box",
)
delta = M.result("twist", r"\delta", "deg", "twist: angle between the two tangent planes", resolution=0.1)
M.step(equal(w1 * w2 * sp.cos(delta), flat), "the normals are as long as w₁ and w₂")
M.step(equal(w1 * w2 * sp.sin(delta), box), "and so is their vector product with the sine")
M.equals(sp.atan2(box, flat), "the normals stand square on the ruling; their angle is that of the planes")
middle = M.relation("middle", r"m", "", "width halfway up, per width at the ends")
M.step(sp.sqrt(((1 + sp.cos(delta)) / 2) ** 2 + (sp.sin(delta) / 2) ** 2), "mean of both unit steps")
M.equals(sp.cos(delta / 2), "halfway up, the next ruling is away by the mean of two equal steps that make the angle δ")
strain = M.result("strain", r"\varepsilon", "%", "strain that the twist asks for", resolution=0.01)
M.step(2 * sp.sin(delta / 4) ** 2, "half-angle formula")
M.equals(1 - middle, "cloth is there as wide as at the ends; what the surface lacks, cloth has too much")
M.result("strain_estimate", r"\varepsilon_{8}", "%", "the rule of thumb δ²/8", resolution=0.01)
M.equals(delta**2 / 8, "for a small angle a sine is its angle: 2 (δ/4)²")
greatest = M.result("greatest_twist", r"\delta_{\mathrm{c}}", "deg", "twist that the cloth takes", resolution=0.1)
M.step(equal(1 - sp.cos(greatest / 2), epsilon), "solved for the angle")
M.equals(tolerated_twist(epsilon), "the strain set to what the cloth takes")
M.limit("developable", "the twist asks for a strain of", strain, "<=", epsilon)
M.mend("lead the ruling to the point of the rim whose tangent is parallel to the side (φ = 0)")
M.caution(*CLOTH_KNIFE[1:])
MODEL = M.done()
