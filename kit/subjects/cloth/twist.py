"""A twisted ruling: how far is a ruled surface from one that cloth can make, and what strain does it ask for?

The picture: a straight edge below, a circle above it, and one straight ruling between them. The plane of ruling and
edge touches the surface at the lower end, the plane of ruling and rim at the upper end. Where both are one plane, cloth
lies there without force; where they make an angle, cloth has to stretch or pleat.

Assumptions: a level straight side, a level circle above it; between near rulings both ends move as far.
Sources: a ruled surface is developable where one plane touches it along each ruling (differential geometry).
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.cloth.ruling import tolerated_twist, unknown
from kit.subjects.safety import CLOTH_KNIFE

M = Model(
    "cloth.twist",
    title="Twist of a ruling and the strain it asks for",
    question="Does cloth lie on this ruled surface without force, and if not, how far must it stretch?",
    picture="From above the straight side and the circle with one ruling between them; beside it the two tangent "
    "planes seen along the ruling, and the strain over the twist.",
    assumptions=(
        "Side and circle are level; the side runs square to the line from its middle to the circle's axis.",
        "Between two near rulings both ends are moved as far, each in its own tangent plane.",
        "Cloth is as wide in the middle of the ruling as at its ends.",
    ),
    sources=(
        "a ruled surface is developable where one plane touches it all along each ruling (textbooks of differential "
        "geometry, from memory)",
        "vector geometry: normals and the angle between them",
    ),
)  # fmt: skip

a = M.given(
    "side", "a", "mm", 150, span=(20, 1000), half=0.5,
    meaning="distance of the straight side from the circle's axis, in plan", how="rule, square to the side",
)  # fmt: skip
u = M.given(
    "along", "u", "mm", 60, span=(-1000, 1000), half=0.5,
    meaning="foot of the ruling along the side, from the point nearest to the axis", how="rule",
)  # fmt: skip
r = M.given("radius", "r", "mm", 50, span=(10, 500), half=0.5, meaning="radius of the circle", how="caliper")
h = M.given(
    "height",
    "h",
    "mm",
    250,
    span=(20, 1500),
    half=0.5,
    meaning="height of the circle over the side",
    how="rule",
)
phi = M.given(
    "turn", r"\varphi", "deg", 15, span=(-90, 90), half=0.5,
    meaning="head of the ruling round the circle, from the point nearest to the side", how="protractor, in plan",
)  # fmt: skip
epsilon = M.given(
    "tolerated", r"\varepsilon_{\mathrm{c}}", "%", 1, span=(0.1, 10),
    meaning="strain that the cloth takes without showing it", how="pull an offcut along and across its threads",
)  # fmt: skip
M.pick("cloth", table="cloths", row="PVC-coated polyester, 18 oz", fills={"tolerated": "tolerated_strain"},
       meaning="cloth that is to lie on it")  # fmt: skip

FOOT = sp.Matrix([a, u, 0])
HEAD = sp.Matrix([r * sp.cos(phi), r * sp.sin(phi), h])
RULING = HEAD - FOOT
SIDE = sp.Matrix([0, 1, 0])
RIM = sp.Matrix([-sp.sin(phi), sp.cos(phi), 0])

L = M.result(
    "length", r"\ell", "mm", sp.sqrt((r * sp.cos(phi) - a) ** 2 + (r * sp.sin(phi) - u) ** 2 + h**2),
    because="its parts along three square directions", lines=[(sp.sqrt(RULING.dot(RULING)), "from foot to head")],
    meaning="length of the ruling", resolution=0.1,
)  # fmt: skip
w1 = M.relation(
    "low_height", "w_1", "mm", sp.sqrt((a - r * sp.cos(phi)) ** 2 + h**2),
    because="the lower plane holds the side and the ruling: from the side to the head it is as wide as this",
    lines=[(sp.sqrt(SIDE.cross(RULING).dot(SIDE.cross(RULING))), "the vector product of side and ruling")],
    meaning="distance of the head from the side", resolution=0.1,
)  # fmt: skip
w2 = M.relation(
    "high_height", "w_2", "mm", sp.sqrt((a * sp.cos(phi) + u * sp.sin(phi) - r) ** 2 + h**2),
    because="the upper plane holds the rim's tangent and the ruling",
    lines=[(sp.sqrt(RIM.cross(RULING).dot(RIM.cross(RULING))), "the vector product of tangent and ruling")],
    meaning="distance of the foot from the rim's tangent", resolution=0.1,
)  # fmt: skip
flat = M.relation(
    "scalar", "p", "mm^2", h**2 * sp.cos(phi) + (a - r * sp.cos(phi)) * (a * sp.cos(phi) + u * sp.sin(phi) - r),
    because="the planes' normals are the vector products of side and of tangent with the ruling: their scalar product",
    lines=[(SIDE.cross(RULING).dot(RIM.cross(RULING)), "part by part")],
    meaning="scalar product of the two planes' normals",
)  # fmt: skip
box = M.relation(
    "vector", "v", "mm^2", sp.Abs(L * h * sp.sin(phi)),
    because="their vector product lies along the ruling; it is as long as the ruling times their box",
    lines=[(sp.Abs(L * SIDE.cross(RIM).dot(RULING)), "side times tangent is upright and sin φ long")],
    meaning="size of the vector product of the two planes' normals",
)  # fmt: skip
delta = M.result(
    "twist", r"\delta", "deg", sp.atan2(box, flat),
    because="the normals stand square on the ruling; their angle is that of the planes",
    lines=[
        (equal(w1 * w2 * sp.cos(unknown("twist")), flat), "the normals are as long as w₁ and w₂"),
        (equal(w1 * w2 * sp.sin(unknown("twist")), box), "and so is their vector product with the sine"),
    ],
    meaning="twist: angle between the two tangent planes", resolution=0.1,
)  # fmt: skip
middle = M.relation(
    "middle", r"m", "", sp.cos(delta / 2),
    because="halfway up, the next ruling is away by the mean of two equal steps that make the angle δ",
    lines=[(sp.sqrt(((1 + sp.cos(delta)) / 2) ** 2 + (sp.sin(delta) / 2) ** 2), "mean of both unit steps")],
    meaning="width halfway up, per width at the ends",
)  # fmt: skip
strain = M.result(
    "strain", r"\varepsilon", "%", 1 - middle,
    because="cloth is there as wide as at the ends; what the surface lacks, cloth has too much",
    lines=[(2 * sp.sin(delta / 4) ** 2, "half-angle formula")],
    meaning="strain that the twist asks for", resolution=0.01,
)  # fmt: skip
M.result(
    "strain_estimate", r"\varepsilon_{8}", "%", delta**2 / 8,
    because="for a small angle a sine is its angle: 2 (δ/4)²", meaning="the rule of thumb δ²/8", resolution=0.01,
)  # fmt: skip
greatest = M.result(
    "greatest_twist", r"\delta_{\mathrm{c}}", "deg", tolerated_twist(epsilon),
    because="the strain set to what the cloth takes",
    lines=[(equal(1 - sp.cos(unknown("greatest_twist") / 2), epsilon), "solved for the angle")],
    meaning="twist that the cloth takes", resolution=0.1,
)  # fmt: skip
M.limit("developable", "the twist asks for a strain of", value=strain, allowed=epsilon,
        mend="lead the ruling to the point of the rim whose tangent is parallel to the side (φ = 0)")  # fmt: skip
M.caution(*CLOTH_KNIFE[1:])
MODEL = M.done()
