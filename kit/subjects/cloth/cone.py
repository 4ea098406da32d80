"""A cone or cylinder cut flat: which sector is it, and how is it laid out with a trammel?

The picture: a frustum, wide end below, and beside it the flat panel. Every ruling of a right cone meets the tip and
makes the same angle with the axis, so that laid flat it turns about one point: both rims become arcs about the tip.

Assumptions: the axis stands square on both rims; cloth bends without stretching, and its middle keeps its length.
Sources: sector angle of a cone (Dr. Math archive, 61472); area of a frustum (calculus texts); geometry of a circle.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.cloth.ruling import unknown
from kit.subjects.fold.neutral_axis import state_cloth
from kit.subjects.safety import CLOTH_KNIFE

M = Model(
    "cloth.cone",
    title="Cone or cylinder cut flat",
    question="Which flat panel closes to a cone frustum, and how is it laid out with a trammel?",
    picture="A frustum on its wide end; beside it the flat panel, a piece of a ring between two arcs about the tip.",
    assumptions=(
        "The frustum is right: its axis stands square on both round ends.",
        "Cloth lies on a form of the given size; its middle, half a thickness out, keeps its length.",
        "All panels are equal; lines are sew lines, allowances come on top.",
    ),
    sources=(
        "sector angle 360° r / s of a cone with base radius r and slant s (Dr. Math archive, "
        "mathforum.org/library/drmath/view/61472.html)",
        "lateral area of a frustum 2 π s (r1 + r2)/2 (calculus text, via essaylux.com/homework/637727)",
    ),
)  # fmt: skip

D = M.given(
    "wide", "D", "mm", 300, span=(20, 2000), half=1,
    meaning="diameter of the form at the wide end", how="tape round it, divided by π, or a rule across it",
)  # fmt: skip
d = M.given(
    "narrow", "d", "mm", 104, span=(0, 2000), half=1,
    meaning="diameter of the form at the narrow end; zero for a tip, the same for a cylinder", how="caliper or tape",
)  # fmt: skip
h = M.given(
    "height", "h", "mm", 260, span=(10, 2000), half=1,
    meaning="height between the ends", how="rule, along the axis",
)  # fmt: skip
n = M.count("panels", "n", 1, span=(1, 12), meaning="equal panels, sewn side by side")
c = state_cloth(M, "cut")
W = M.given(
    "cloth_width", r"W", "mm", 1500, span=(100, 3500), half=5,
    meaning="usable width of the cloth", how="tape across the roll, without selvages",
)  # fmt: skip

t = M.relation(
    "taper", "t", "mm", (D - d) / 2,
    because="over its height the frustum draws in by half the difference of the diameters",
)  # fmt: skip
s = M.result(
    "slant", "s", "mm", sp.sqrt(h**2 + t**2),
    because="height and taper are the legs of a right triangle",
    meaning="slant: length of every ruling", resolution=0.1,
)  # fmt: skip
r1 = M.relation(
    "wide_radius", "r_1", "mm", D / 2 + c * h / (2 * s),
    because="the middle of the cloth lies c/2 out along the normal, and h/s of that goes outward",
    lines=[(D / 2 + c / 2 * sp.cos(sp.atan2(t, h)), "the normal rises by as much as the side leans")],
    meaning="radius of the cloth's middle at the wide end",
)  # fmt: skip
r2 = M.relation(
    "narrow_radius", "r_2", "mm", r1 - t,
    because="the cloth draws in as the form does", lines=[(d / 2 + c * h / (2 * s), "the same way up there")],
    meaning="radius of the cloth's middle at the narrow end",
)  # fmt: skip
k = M.relation(
    "share", "k", "", t / s,
    because="of each step along a ruling this share goes inward: the sine of the angle between side and axis",
    lines=[((r1 - r2) / s, "the two radii lie one slant apart")],
)  # fmt: skip
theta = M.result(
    "sector", r"\theta", "deg", 2 * sp.pi * k,
    because="the rim 2 π r lies on an arc about the tip with radius r / k, and the arc is angle times radius",
    lines=[
        (equal(unknown("sector") * r1, k * 2 * sp.pi * r1), "arc θ r / k = rim 2 π r, for the wide rim"),
        (equal(unknown("sector") * s, 2 * sp.pi * (r1 - r2)), "one slant out the arc is longer by both rims' gap"),
    ],
    meaning="angle of the whole sector", resolution=0.01,
)  # fmt: skip
panel = M.result(
    "panel_angle", r"\theta_{n}", "deg", theta / n, because="the panels share the sector",
    meaning="angle of one panel's sector", resolution=0.01,
)  # fmt: skip


def arm(radius: sp.Expr) -> sp.Expr:
    """Return the trammel radius for a rim, zero where the rim is a straight line."""
    return sp.Piecewise((0, sp.Eq(t, 0)), (radius / k, True))


R1 = M.result(
    "wide_arm", "R_1", "mm", arm(r1),
    because="the wide rim is as far from the tip as rulings run from there",
    lines=[(equal(unknown("wide_arm") * k, r1 * sp.sign(sp.Abs(t))), "its share k is the radius")],
    meaning="trammel radius of the wide arc; zero: a straight line", resolution=0.1,
)  # fmt: skip
R2 = M.result(
    "narrow_arm", "R_2", "mm", arm(r2),
    because="the narrow rim lies one slant nearer to the tip",
    lines=[(R1 - s * sp.sign(sp.Abs(t)), "one slant less")],
    meaning="trammel radius of the narrow arc; zero: a straight line", resolution=0.1,
)  # fmt: skip
p = M.relation(
    "half_panel", r"\psi", "deg", panel / 2,
    because="half a panel lies on each side of its middle line",
)  # fmt: skip
arc = M.result(
    "wide_arc", "a_1", "mm", 2 * sp.pi * r1 / n, because="the panels share the rim",
    lines=[(equal(sp.Abs(unknown("wide_arc")), sp.Piecewise((2 * sp.pi * r1 / n, sp.Eq(t, 0)), (R1 * panel, True))),
            "the arc is angle times radius")],
    meaning="wide edge of one panel, along its arc", resolution=0.1,
)  # fmt: skip
arc2 = M.result(
    "narrow_arc", "a_2", "mm", 2 * sp.pi * r2 / n, because="the panels share this rim too",
    meaning="narrow edge of one panel, along its arc", resolution=0.1,
)  # fmt: skip


def chord_over(half: sp.Expr) -> sp.Expr:
    """Return the chord of an arc as a share of the arc, from half its angle."""
    return sp.Piecewise((1, sp.Eq(half, 0)), (sp.sin(half) / half, True))


chord = M.result(
    "chord", "C", "mm", arc * chord_over(p),
    because="the chord spans the arc: two right triangles with half the panel's angle at the tip",
    lines=[(sp.Piecewise((arc, sp.Eq(t, 0)), (2 * R1 * sp.sin(p), True)), "each is R₁ sin ψ wide")],
    meaning="chord between the ends of the wide edge", resolution=0.1,
)  # fmt: skip
M.result(
    "rise", "f", "mm", chord * sp.tan(p / 2) / 2,
    because="the middle of the arc stands off the chord; a tangent of a quarter of the angle sees half the chord",
    lines=[(sp.Piecewise((0, sp.Eq(t, 0)), (R1 * (1 - sp.cos(p)), True)), "radius less the way from tip to chord")],
    meaning="rise of the wide arc over its chord", resolution=0.1,
)  # fmt: skip
x = sp.Symbol("x", real=True)
A = M.result(
    "area", "A", "m^2", sp.pi * (r1 + r2) * s,
    because="a band of the cone at a distance x from the wide end is a ring 2 π r around and dx wide",
    lines=[
        (sp.Integral(2 * sp.pi * (r1 - k * x), (x, 0, s)), "the radius shrinks by k for each step up the side"),
        (n * (arc + arc2) / 2 * s, "as if each panel were a straight trapezoid of mean width"),
    ],
    meaning="area of all panels without allowances", resolution=0.0001,
)  # fmt: skip
reach = M.relation(
    "across", "w", "mm", sp.Piecewise((chord, 2 * p <= sp.pi), (2 * R1, True)),
    because="up to half a turn the panel is as wide as its chord, beyond it as two trammel radii",
    meaning="width of a panel laid with its middle line along the roll", resolution=1,
)  # fmt: skip
M.limit("fits", "a panel is wide by", value=reach, allowed=W,
        mend="take more panels, wider cloth, or lay the middle line across the roll")  # fmt: skip
M.limit("ends", "the narrow end measures", value=d, allowed=D, in_unit="mm", resolution=1,
        mend="name the two ends the other way round")  # fmt: skip
M.caution(*CLOTH_KNIFE)
MODEL = M.done()
