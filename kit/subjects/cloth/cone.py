"""Cone or cylinder cut flat.

Which flat panel closes to a cone frustum, and how is it laid out with a trammel?

Picture: A frustum on its wide end; beside it the flat panel, a piece of a ring between two arcs about the tip.

Assumptions:
- The frustum is right: its axis stands square on both round ends.
- Cloth lies on a form of the given size; its middle, half a thickness out, keeps its length.
- All panels are equal; lines are sew lines, allowances come on top.

Sources:
- sector angle 360° r / s of a cone with base radius r and slant s, lateral area of a frustum 2 π s (r1 + r2)/2
  (textbooks of geometry)

Notes: Every ruling of a right cone meets the tip and makes the same angle with the axis, so that laid flat it turns
about one point: both rims become arcs about the tip. Cloth bends without stretching, and its middle keeps its length.
Also: geometry of a circle.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.fold.neutral_axis import state_cloth
from kit.subjects.safety import CLOTH_KNIFE

M = Model("cloth.cone", __doc__)

D = M.given("wide", "D", "300 ± 1 mm", (20, 2000), "diameter of the form at the wide end")
M.measured("tape round it, divided by π, or a rule across it")
d = M.given(
    "narrow",
    "d",
    "104 ± 1 mm",
    (0, 2000),
    "diameter of the form at the narrow end; zero for a tip, the same for a cylinder",
)
M.measured("caliper or tape")
h = M.given("height", "h", "260 ± 1 mm", (10, 2000), "height between the ends")
M.measured("rule, along the axis")
n = M.count("panels", "n", 1, (1, 12), "equal panels, sewn side by side")
c = state_cloth(M, "cut")
W = M.given("cloth_width", r"W", "1500 ± 5 mm", (100, 3500), "usable width of the cloth", changes="often")
M.measured("tape across the roll, without selvages")

t = M.relation("taper", "t", "mm")
M.equals((D - d) / 2, "over its height the frustum draws in by half the difference of the diameters")
s = M.result("slant", "s", "mm", "slant: length of every ruling", resolution=0.1)
M.equals(sp.sqrt(h**2 + t**2), "height and taper are the legs of a right triangle")
M.mistake(sp.sqrt(h**2 + (D - d) ** 2), "diameters were taken for radii")
M.mistake(h, "the height was taken for the slant")
r1 = M.relation("wide_radius", "r_1", "mm", "radius of the cloth's middle at the wide end")
M.step(D / 2 + c / 2 * sp.cos(sp.atan2(t, h)), "the normal rises by as much as the side leans")
M.equals(D / 2 + c * h / (2 * s), "the middle of the cloth lies c/2 out along the normal, and h/s of that goes outward")
r2 = M.relation("narrow_radius", "r_2", "mm", "radius of the cloth's middle at the narrow end")
M.step(d / 2 + c * h / (2 * s), "the same way up there")
M.equals(r1 - t, "the cloth draws in as the form does")
k = M.relation("share", "k", "")
M.step((r1 - r2) / s, "the two radii lie one slant apart")
M.equals(t / s, "of each step along a ruling this share goes inward: the sine of the angle between side and axis")
theta = M.result("sector", r"\theta", "deg", "angle of the whole sector", resolution=0.01)
M.step(equal(theta * r1, k * 2 * sp.pi * r1), "arc θ r / k = rim 2 π r, for the wide rim")
M.step(equal(theta * s, 2 * sp.pi * (r1 - r2)), "one slant out the arc is longer by both rims' gap")
M.equals(
    2 * sp.pi * k, "the rim 2 π r lies on an arc about the tip with radius r / k, and the arc is angle times radius"
)
panel = M.result("panel_angle", r"\theta_{n}", "deg", "angle of one panel's sector", resolution=0.01)
M.equals(theta / n, "the panels share the sector")


def arm(radius: sp.Expr) -> sp.Expr:
    """Return the trammel radius for a rim, zero where the rim is a straight line."""
    return sp.Piecewise((0, sp.Eq(t, 0)), (radius / k, True))


R1 = M.result("wide_arm", "R_1", "mm", "trammel radius of the wide arc; zero: a straight line", resolution=0.1)
M.step(equal(R1 * k, r1 * sp.sign(sp.Abs(t))), "its share k is the radius")
M.equals(arm(r1), "the wide rim is as far from the tip as rulings run from there")
R2 = M.result("narrow_arm", "R_2", "mm", "trammel radius of the narrow arc; zero: a straight line", resolution=0.1)
M.step(R1 - s * sp.sign(sp.Abs(t)), "one slant less")
M.equals(arm(r2), "the narrow rim lies one slant nearer to the tip")
p = M.relation("half_panel", r"\psi", "deg")
M.equals(panel / 2, "half a panel lies on each side of its middle line")
arc = M.result("wide_arc", "a_1", "mm", "wide edge of one panel, along its arc", resolution=0.1)
M.step(
    equal(sp.Abs(arc), sp.Piecewise((2 * sp.pi * r1 / n, sp.Eq(t, 0)), (R1 * panel, True))),
    "the arc is angle times radius",
)
M.equals(2 * sp.pi * r1 / n, "the panels share the rim")
arc2 = M.result("narrow_arc", "a_2", "mm", "narrow edge of one panel, along its arc", resolution=0.1)
M.equals(2 * sp.pi * r2 / n, "the panels share this rim too")


def chord_over(half: sp.Expr) -> sp.Expr:
    """Return the chord of an arc as a share of the arc, from half its angle."""
    return sp.Piecewise((1, sp.Eq(half, 0)), (sp.sin(half) / half, True))


chord = M.result("chord", "C", "mm", "chord between the ends of the wide edge", resolution=0.1)
M.step(sp.Piecewise((arc, sp.Eq(t, 0)), (2 * R1 * sp.sin(p), True)), "each is R₁ sin ψ wide")
M.equals(arc * chord_over(p), "the chord spans the arc: two right triangles with half the panel's angle at the tip")
M.result("rise", "f", "mm", "rise of the wide arc over its chord", resolution=0.1)
M.step(sp.Piecewise((0, sp.Eq(t, 0)), (R1 * (1 - sp.cos(p)), True)), "radius less the way from tip to chord")
M.equals(
    chord * sp.tan(p / 2) / 2,
    "the middle of the arc stands off the chord; a tangent of a quarter of the angle sees half the chord",
)
x = sp.Symbol("x", real=True)
A = M.result("area", "A", "m^2", "area of all panels without allowances", resolution=0.0001)
M.step(sp.Integral(2 * sp.pi * (r1 - k * x), (x, 0, s)), "the radius shrinks by k for each step up the side")
M.step(n * (arc + arc2) / 2 * s, "as if each panel were a straight trapezoid of mean width")
M.equals(
    sp.pi * (r1 + r2) * s, "a band of the cone at a distance x from the wide end is a ring 2 π r around and dx wide"
)
reach = M.relation("across", "w", "mm", "width of a panel laid with its middle line along the roll", resolution=1)
M.equals(
    sp.Piecewise((chord, 2 * p <= sp.pi), (2 * R1, True)),
    "up to half a turn the panel is as wide as its chord, beyond it as two trammel radii",
)
M.limit("fits", "a panel is wide by", reach, "<=", W)
M.mend("take more panels, wider cloth, or lay the middle line across the roll")
M.limit("ends", "the narrow end measures", d, "<=", D, in_unit="mm", resolution=1)
M.mend("name the two ends the other way round")
M.caution(*CLOTH_KNIFE)
MODEL = M.done()
