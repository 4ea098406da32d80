"""An oblique cone cut flat: how long is a ruling, and by what angle does the flat panel turn from one to the next?

The picture: a circle on the table and a tip that does not stand over its middle. Straight rulings join the tip to the
rim. No two of them are alike, so the flat panel is no sector: it is built up from thin triangles, each laid beside
the last. A sharp corner of a square-to-round piece is a quarter of such a cone, standing on its tip.

Assumptions: the rim is a circle in a plane; height is counted square to that plane; the cloth bends, nothing stretches.
Sources: triangulation as sheet-metal workers do it (plan length against vertical height); vector geometry.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.cloth.ruling import unknown
from kit.subjects.safety import CLOTH_KNIFE

M = Model(
    "cloth.oblique",
    title="Oblique cone by triangulation",
    question="How long is each ruling of a leaning cone, and how far does the flat panel turn between rulings?",
    picture="From above the rim and the tip's foot beside its middle, with rulings to equal divisions; beside it the "
    "true-length triangle and the flat panel, triangle by triangle.",
    assumptions=(
        "The rim is a circle, and the height is counted square to its plane.",
        "Angles round the rim start at the point nearest to the tip; the two halves of the panel are alike.",
        "The panel is measured on one surface: the middle of the cloth.",
    ),
    sources=(
        "triangulation: true length from plan length and height, "
        "via gotthisnow.com/how-do-you-calculate-the-development-of-a-transition-piece",
        "vector geometry: area of a triangle by the vector product; law of cosines",
    ),
)  # fmt: skip

r = M.given(
    "radius", "r", "mm", 60, span=(10, 1000), half=0.5, meaning="radius of the rim", how="rule or caliper"
)
e = M.given(
    "offset", "e", "mm", 90, span=(0, 1000), half=0.5,
    meaning="distance of the tip's foot from the middle of the rim, in plan", how="plumb line and rule",
)  # fmt: skip
h = M.given(
    "height", "h", "mm", 240, span=(20, 1500), half=0.5, meaning="height of the tip over the rim", how="rule"
)
N = M.count("divisions", "N", 24, span=(6, 96), meaning="equal divisions of the rim")
i = M.count(
    "ruling", "i", 4, span=(0, 96), meaning="ruling asked for, counted from the nearest point of the rim"
)

phi = M.relation(
    "turn", r"\varphi", "deg", 2 * sp.pi * i / N,
    because="the divisions share the full circle", meaning="angle of the ruling's foot round the rim", resolution=0.01,
)  # fmt: skip
step = M.relation("step", r"\delta", "deg", 2 * sp.pi / N, because="one division", resolution=0.01)


def rim(angle: sp.Expr) -> sp.Matrix:
    """Return the point of the rim at an angle from the x axis, which points to the tip's foot."""
    return sp.Matrix([r * sp.cos(angle), r * sp.sin(angle), 0])


TIP = sp.Matrix([e, 0, h])


def plan_square(angle: sp.Expr) -> sp.Expr:
    """Return the square of the plan length from the tip's foot to a point of the rim."""
    return e**2 + r**2 - 2 * e * r * sp.cos(angle)


plan = M.result(
    "plan_length", "p", "mm", sp.sqrt(plan_square(phi)),
    because="in plan, rim point, middle and tip's foot make a triangle: law of cosines",
    lines=[(sp.sqrt((r * sp.cos(phi) - e) ** 2 + (r * sp.sin(phi)) ** 2), "by its parts along and across")],
    meaning="length of the ruling in plan", resolution=0.1,
)  # fmt: skip
L = M.result(
    "true_length", r"\ell", "mm", sp.sqrt(plan**2 + h**2),
    because="plan length and height are the legs of the true-length triangle",
    lines=[(equal(unknown("true_length") ** 2, (TIP - rim(phi)).dot(TIP - rim(phi))), "the same, point to point")],
    meaning="true length of the ruling", resolution=0.1,
)  # fmt: skip
after = M.result(
    "next_length", r"\ell_{+}", "mm", sp.sqrt(plan_square(phi + step) + h**2),
    because="the next ruling stands one division on", meaning="true length of the next ruling", resolution=0.1,
)  # fmt: skip
c = M.result(
    "chord", "c", "mm", 2 * r * sp.sin(step / 2),
    because="the chord of a division spans half of it on each side",
    lines=[(sp.sqrt((rim(step) - rim(0)).dot(rim(step) - rim(0))), "from point to point")],
    meaning="chord of one division, stepped off along the edge", resolution=0.1,
)  # fmt: skip
element = M.result(
    "element", r"\Delta\psi", "deg", sp.acos((L**2 + after**2 - c**2) / (2 * L * after)),
    because="two true lengths and the chord are the sides of a flat triangle: law of cosines at the tip",
    lines=[
        (
            equal(L * after * sp.cos(unknown("element")), (TIP - rim(phi)).dot(TIP - rim(phi + step))),
            "the scalar product of both rulings in space is the same: the triangle is laid flat as it is",
        )
    ],
    meaning="angle at the tip between this ruling and the next", resolution=0.01,
)  # fmt: skip
w = M.result(
    "slope_height", "w", "mm", sp.sqrt(h**2 + (r - e * sp.cos(phi)) ** 2),
    because="the tangent plane along the ruling climbs the height over what is left of the radius",
    lines=[
        (
            equal(
                (r * unknown("slope_height")) ** 2,
                rim(phi).diff(phi).cross(TIP - rim(phi)).dot(rim(phi).diff(phi).cross(TIP - rim(phi))),
            ),
            "r dφ along the rim and the ruling span twice a triangle of height w",
        ),
    ],
    meaning="distance of the tip from the rim's tangent at the ruling's foot", resolution=0.1,
)  # fmt: skip
M.result(
    "rate", r"\psi^{\prime}", "", r * w / L**2,
    because="a triangle of area r w dφ / 2 with both long sides ℓ has the angle dψ = r w dφ / ℓ² at the tip",
    lines=[
        (
            equal(unknown("rate") ** 2 * L**4 + (r * e * sp.sin(phi)) ** 2, r**2 * L**2),
            "of the step r dφ the part e sin φ / ℓ runs along the ruling; the rest, across it, is ℓ dψ",
        )
    ],
    meaning="how fast the flat panel turns: angle at the tip per angle round the rim", resolution=0.0001,
)  # fmt: skip
j = sp.Symbol("j", integer=True)
PARTS = (
    60  # of half the rim; ψ' repeats round it, so equal parts close in faster than any power of their number
)
at = sp.pi * (2 * j + 1) / (2 * PARTS)
half = M.result(
    "half_sector", r"\psi", "deg",
    sp.Sum(r * sp.sqrt(h**2 + (r - e * sp.cos(at)) ** 2) / (plan_square(at) + h**2) * sp.pi / PARTS, (j, 0, PARTS - 1)),
    because="the flat panel's angle is the integral of ψ′ over half the rim; it is an elliptic one without a closed "
    "form, so it is summed in 60 equal parts, each taken at its middle",
    meaning="angle of half the flat panel, from the shortest to the longest ruling", resolution=0.01,
)  # fmt: skip
longest = M.result(
    "longest", r"\ell_{\mathrm{max}}", "mm", sp.sqrt((e + r) ** 2 + h**2),
    because="the farthest point of the rim lies in line with foot and middle",
    lines=[(sp.sqrt(plan_square(sp.pi) + h**2), "half a turn round")], meaning="longest ruling", resolution=0.1,
)  # fmt: skip
shortest = M.result(
    "shortest", r"\ell_{\mathrm{min}}", "mm", sp.sqrt((e - r) ** 2 + h**2),
    because="the nearest point of the rim lies on the same line",
    lines=[(sp.sqrt(plan_square(0) + h**2), "at the start")], meaning="shortest ruling", resolution=0.1,
)  # fmt: skip
M.result(
    "area", "A", "m^2",
    sp.Sum(r * sp.sqrt(h**2 + (r - e * sp.cos(at)) ** 2) * sp.pi / PARTS, (j, 0, PARTS - 1)),
    because="two halves of thin triangles r w dφ / 2, summed in the same parts",
    meaning="area of the whole panel without allowances", resolution=0.0001,
)  # fmt: skip
miss = M.result(
    "chord_error", r"f", "mm", r * (1 - sp.cos(step / 2)),
    because="the edge is cut as an arc but stepped off by chords; in its middle a chord stands off by this",
    lines=[(c * sp.tan(step / 4) / 2, "half the chord seen under a quarter of the division")],
    meaning="how far the rim stands off the chord of a division", resolution=0.01,
)  # fmt: skip
wish = M.given(
    "chord_wish", r"f_{\mathrm{allow}}", "mm", 0.6, span=(0.05, 5),
    meaning="allowed chord error", how="less than you can cut to", source="common practice, no source",
)  # fmt: skip
M.limit("fine", "the rim stands off its chords by", value=miss, allowed=wish,
        mend="take more divisions")  # fmt: skip
M.caution(*CLOTH_KNIFE)
MODEL = M.done()
