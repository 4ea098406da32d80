"""Oblique cone by triangulation.

How long is each ruling of a leaning cone, and how far does the flat panel turn between rulings?

Picture: From above the rim and the tip's foot beside its middle, with rulings to equal divisions; beside it the
true-length triangle and the flat panel, triangle by triangle.

Assumptions:
- The rim is a circle, and the height is counted square to its plane.
- Angles round the rim start at the point nearest to the tip; the two halves of the panel are alike.
- The panel is measured on one surface: the middle of the cloth.

Sources:
- triangulation: true length from plan length and height (textbooks of pattern drafting)
- vector geometry: area of a triangle by the vector product; law of cosines

Notes: A circle on the table and a tip that does not stand over its middle. Straight rulings join the tip to the rim. No
two of them are alike, so the flat panel is no sector: it is built up from thin triangles, each laid beside the last. A
sharp corner of a square-to-round piece is a quarter of such a cone, standing on its tip. The cloth bends, nothing
stretches. Also: triangulation as sheet-metal workers do it (plan length against vertical height).
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import CLOTH_KNIFE

M = Model("cloth.oblique", __doc__)

r = M.given("radius", "r", "60 ± 0.5 mm", (10, 1000), "radius of the rim")
M.measured("rule or caliper")
e = M.given("offset", "e", "90 ± 0.5 mm", (0, 1000), "distance of the tip's foot from the middle of the rim, in plan")
M.measured("plumb line and rule")
h = M.given("height", "h", "240 ± 0.5 mm", (20, 1500), "height of the tip over the rim")
M.measured("rule")
N = M.count("divisions", "N", 24, (6, 96), "equal divisions of the rim")
i = M.count("ruling", "i", 4, (0, 96), "ruling asked for, counted from the nearest point of the rim")

phi = M.relation("turn", r"\varphi", "deg", "angle of the ruling's foot round the rim", resolution=0.01)
M.equals(2 * sp.pi * i / N, "the divisions share the full circle")
step = M.relation("step", r"\delta", "deg", resolution=0.01)
M.equals(2 * sp.pi / N, "one division")


def rim(angle: sp.Expr) -> sp.Matrix:
    """Return the point of the rim at an angle from the x axis, which points to the tip's foot."""
    return sp.Matrix([r * sp.cos(angle), r * sp.sin(angle), 0])


TIP = sp.Matrix([e, 0, h])


def plan_square(angle: sp.Expr) -> sp.Expr:
    """Return the square of the plan length from the tip's foot to a point of the rim."""
    return e**2 + r**2 - 2 * e * r * sp.cos(angle)


plan = M.result("plan_length", "p", "mm", "length of the ruling in plan", resolution=0.1)
M.step(sp.sqrt((r * sp.cos(phi) - e) ** 2 + (r * sp.sin(phi)) ** 2), "by its parts along and across")
M.equals(sp.sqrt(plan_square(phi)), "in plan, rim point, middle and tip's foot make a triangle: law of cosines")
L = M.result("true_length", r"\ell", "mm", "true length of the ruling", resolution=0.1)
M.step(equal(L**2, (TIP - rim(phi)).dot(TIP - rim(phi))), "the same, point to point")
M.equals(sp.sqrt(plan**2 + h**2), "plan length and height are the legs of the true-length triangle")
after = M.result("next_length", r"\ell_{+}", "mm", "true length of the next ruling", resolution=0.1)
M.equals(sp.sqrt(plan_square(phi + step) + h**2), "the next ruling stands one division on")
c = M.result("chord", "c", "mm", "chord of one division, stepped off along the edge", resolution=0.1)
M.step(sp.sqrt((rim(step) - rim(0)).dot(rim(step) - rim(0))), "from point to point")
M.equals(2 * r * sp.sin(step / 2), "the chord of a division spans half of it on each side")
element = M.result(
    "element", r"\Delta\psi", "deg", "angle at the tip between this ruling and the next", resolution=0.01
)
M.step(
    equal(L * after * sp.cos(element), (TIP - rim(phi)).dot(TIP - rim(phi + step))),
    "the scalar product of both rulings in space is the same: the triangle is laid flat as it is",
)
M.equals(
    sp.acos((L**2 + after**2 - c**2) / (2 * L * after)),
    "two true lengths and the chord are the sides of a flat triangle: law of cosines at the tip",
)
w = M.result(
    "slope_height", "w", "mm", "distance of the tip from the rim's tangent at the ruling's foot", resolution=0.1
)
M.step(
    equal(
        (r * w) ** 2,
        rim(phi).diff(phi).cross(TIP - rim(phi)).dot(rim(phi).diff(phi).cross(TIP - rim(phi))),
    ),
    "r dφ along the rim and the ruling span twice a triangle of height w",
)
M.equals(
    sp.sqrt(h**2 + (r - e * sp.cos(phi)) ** 2),
    "the tangent plane along the ruling climbs the height over what is left of the radius",
)
rate = M.result(
    "rate",
    r"\psi^{\prime}",
    "",
    "how fast the flat panel turns: angle at the tip per angle round the rim",
    resolution=0.0001,
)
M.step(
    equal(rate**2 * L**4 + (r * e * sp.sin(phi)) ** 2, r**2 * L**2),
    "of the step r dφ the part e sin φ / ℓ runs along the ruling; the rest, across it, is ℓ dψ",
)
M.equals(r * w / L**2, "a triangle of area r w dφ / 2 with both long sides ℓ has the angle dψ = r w dφ / ℓ² at the tip")
j = sp.Symbol("j", integer=True)
PARTS = 60  # of half the rim; ψ' repeats round it, so equal parts close in faster than any power of their number
at = sp.pi * (2 * j + 1) / (2 * PARTS)
longest = M.result("longest", r"\ell_{\mathrm{max}}", "mm", "longest ruling", resolution=0.1)
M.step(sp.sqrt(plan_square(sp.pi) + h**2), "half a turn round")
M.equals(sp.sqrt((e + r) ** 2 + h**2), "the farthest point of the rim lies in line with foot and middle")
shortest = M.result("shortest", r"\ell_{\mathrm{min}}", "mm", "shortest ruling", resolution=0.1)
M.step(sp.sqrt(plan_square(0) + h**2), "at the start")
M.equals(sp.sqrt((e - r) ** 2 + h**2), "the nearest point of the rim lies on the same line")
dense = M.relation("density", r"\kappa", "", "how close the parts lie at the shortest ruling", resolution=0.001)
M.equals(
    sp.sqrt(shortest / longest),
    "where rulings are short the panel turns fast, so parts are taken closer there: tan(φ/2) = κ tan(u/2), with equal "
    "parts of u",
)
spread = sp.cos(at / 2) ** 2 + dense**2 * sp.sin(at / 2) ** 2
cosine = (sp.cos(at / 2) ** 2 - dense**2 * sp.sin(at / 2) ** 2) / spread  # of φ
half = M.result(
    "half_sector",
    r"\psi",
    "deg",
    "angle of half the flat panel, from the shortest to the longest ruling",
    resolution=0.01,
)
turned = r * sp.sqrt(h**2 + (r - e * cosine) ** 2) / (e**2 + r**2 - 2 * e * r * cosine + h**2)
M.equals(
    sp.Sum(turned * dense / spread * sp.pi / PARTS, (j, 0, PARTS - 1)),
    "the flat panel's angle is the integral of ψ′ over half the rim; it is an elliptic one without a closed form, so "
    "it is summed in 60 parts, each taken at its middle, with dφ = κ du / (cos²(u/2) + κ² sin²(u/2))",
)
M.result("area", "A", "m^2", "area of the whole panel without allowances", resolution=0.0001)
M.equals(
    sp.Sum(r * sp.sqrt(h**2 + (r - e * sp.cos(at)) ** 2) * sp.pi / PARTS, (j, 0, PARTS - 1)),
    "two halves of thin triangles r w dφ / 2, summed in the same parts",
)
miss = M.result("chord_error", r"f", "mm", "how far the rim stands off the chord of a division", resolution=0.01)
M.step(c * sp.tan(step / 4) / 2, "half the chord seen under a quarter of the division")
M.equals(
    r * (1 - sp.cos(step / 2)),
    "the edge is cut as an arc but stepped off by chords; in its middle a chord stands off by this",
)
wish = M.given("chord_wish", r"f_{\mathrm{allow}}", "0.6 mm", (0.05, 5), "allowed chord error")
M.measured("less than you can cut to")
M.source("common practice, no source")
M.limit("ruling", "the ruling asked for is number", i, "<=", N)
M.mend("ask for one from 0 to the number of divisions")
M.limit("fine", "the rim stands off its chords by", miss, "<=", wish)
M.mend("take more divisions")
M.caution(*CLOTH_KNIFE)
MODEL = M.done()
