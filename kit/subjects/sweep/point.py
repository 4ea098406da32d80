"""Reach and height of a point that turns, tilts and slides.

How far from the swing axis and how high does a point of the machine come, and in which position?

In the trade's words: the head swings about the upright axis of its turntable, rises about a level axis behind, and
slides on its rails. Where does the tip of the handle go, how far from the swing axis does it get, how high, and in
which position? So far the hood must stay away, before anything is scanned.

Picture: From the side, an arm stands out from a level tilt axis at an angle above level. From above, it points out from
the swing axis, slides, and turns with the swing.

Assumptions:
- the swing axis is upright and the tilt axis level, and neither moves on its own
- nothing bends, and the joints have no play that matters
- the slide carries the tilt axis, and the swing carries both
- the point reaches farther before the swing axis than behind it: the limit says so

Sources:
- plane trigonometry; a turn keeps the distance from its axis

Notes: A head that leans sideways slides along its own tilt axis (angle 90°).
"""

from __future__ import annotations

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import MOVING_MACHINE

M = Model("sweep.point", __doc__)

psi = M.given("swing", r"\psi", "30 ± 0.1 deg", (-90, 90), "swing of the arm from its middle")
M.measured("the machine's own scale")
phi = M.given("tilt", r"\varphi", "15 ± 0.3 deg", (0, 90), "tilt of the arm from its lowest")
M.measured("bevel gauge at the arm")
e = M.given("slide", "e", "40 ± 0.5 mm", (0, 600), "slide of the head from its rear end")
M.measured("rule along the rails")
phi_most = M.given("tilt_most", r"\varphi_{\mathrm{max}}", "40 ± 0.3 deg", (0, 90), "tilt up to the stop")
M.measured("bevel gauge at the arm")
e_most = M.given("slide_most", r"e_{\mathrm{max}}", "60 ± 0.5 mm", (0, 600), "slide up to the stop")
M.measured("rule along the rails")
rho = M.given("arm", r"\rho", "446 ± 1 mm", (20, 1500), "arm: from the tilt axis to the point")
M.measured("tape, square to the axis")
alpha_0 = M.given("arm_low", r"\alpha_{0}", "9 ± 0.3 deg", (-80, 80), "angle of the arm above level at no tilt")
M.measured("rise over run")
m_0 = M.given(
    "axis_out",
    r"m_{0}",
    "-205 ± 0.5 mm",
    (-800, 800),
    "tilt axis out from the swing axis, the way the arm points; below 0 it lies behind",
)
M.measured("rule in plan")
h = M.given("axis_height", "h", "280 ± 0.5 mm", (0, 1500), "height of the tilt axis over the bench")
M.measured("square and rule")
g = M.given("aside", "g", "17 ± 0.5 mm", (0, 500), "point aside from the swing axis, along the tilt axis")
M.measured("rule in plan")
delta = M.given(
    "slide_angle", r"\delta", "0 ± 0.2 deg", (0, 90), "angle of the slide from the way the arm points, seen from above"
)
M.measured("0° if a plunging arm slides, 90° if the head leans sideways")
R_h = M.given("hood_reach", r"R_{\mathrm{h}}", "340 mm", (50, 3000), "inside of the hood from the swing axis")
H_h = M.given("hood_height", r"H_{\mathrm{h}}", "650 mm", (50, 4000), "inside of the hood over the bench")
margin = M.given("margin", "c", "20 mm", (0, 200), "required clearance")
M.source("common practice, no source")

alpha = M.relation("angle", r"\alpha", "deg", "angle of the arm above level")
M.equals(alpha_0 + phi, "the tilt lifts the arm from where it was lowest")
m = M.relation("out", "m", "mm", "how far out the point is before the swing", resolution=0.1)
M.equals(m_0 + e * sp.cos(delta) + rho * sp.cos(alpha), "axis, slide and the level part of the arm add up")
n = M.relation("beside", "n", "mm", "how far aside the point is before the swing", resolution=0.1)
M.equals(g + e * sp.sin(delta), "only the slide moves the point along the tilt axis")
x = M.result(
    "place_out", "x", "mm", "place of the point the way the arm points at no swing", resolution=0.1, signed=True
)
M.equals(m * sp.cos(psi) - n * sp.sin(psi), "the swing turns both lengths")
turn = sp.ImmutableMatrix([[sp.cos(psi), -sp.sin(psi)], [sp.sin(psi), sp.cos(psi)]])
y = M.result("place_aside", "y", "mm", "place of the point aside from there", resolution=0.1, signed=True)
M.step(
    equal(sp.MatMul(turn, sp.ImmutableMatrix([m, n]), evaluate=False), sp.Matrix([x, y])),
    "both rows of the turn about the swing axis",
)
M.equals(m * sp.sin(psi) + n * sp.cos(psi), "the other row of the turn")
r = M.result("reach", "r", "mm", "distance of the point from the swing axis", resolution=0.1)
M.step(
    sp.sqrt(x**2 + y**2), "the swing changes both lengths, but not the distance: the reach does not depend on the swing"
)
M.equals(sp.sqrt(m**2 + n**2), "both lengths and the reach make a right triangle in plan")
z = M.result("height", "z", "mm", "height of the point over the bench", resolution=0.1, signed=True)
M.equals(h + rho * sp.sin(alpha), "the upright part of the arm stands on the axis")
full = m_0 + e * sp.cos(delta) + rho * sp.cos(alpha_0 + phi)
M.result("reach_rate", r"r^{\prime}", "mm/deg", "by how much the reach changes with the tilt", resolution=0.01)
M.step(sp.Derivative(sp.sqrt(full**2 + n**2), phi), "the reach as a function of the tilt")
M.step(equal(sp.Derivative(full**2, phi), -2 * m * rho * sp.sin(alpha)), "only the way out depends on the tilt")
M.equals(
    -rho * m * sp.sin(alpha) / r,
    "the chain rule: it is 0 where the arm is level; above level, more tilt brings the point in",
)

alpha_r = M.result(
    "angle_reach", r"\alpha_{r}", "deg", "angle of the arm at which the reach is greatest", resolution=0.1
)
M.equals(sp.Max(alpha_0, sp.Min(0, alpha_0 + phi_most)), "of the angles between the stops it is the nearest to level")
m_most = M.relation("out_most", r"m_{\mathrm{max}}", "mm", "farthest out", resolution=0.1)
M.step(
    equal(
        m_most - m,
        (e_most - e) * sp.cos(delta) + 2 * rho * sp.sin((alpha + alpha_r) / 2) * sp.sin((alpha - alpha_r) / 2),
    ),
    "what is missing to it in any other position. It is never below 0: if level lies between the stops, the product is "
    "the square of sin(α/2); if not, both sines have the same sign",
)
M.equals(
    m_0 + e_most * sp.cos(delta) + rho * sp.cos(alpha_r), "the slide at its front stop and the arm nearest to level"
)
n_most = M.relation("beside_most", r"n_{\mathrm{max}}", "mm", "farthest aside", resolution=0.1)
M.equals(g + e_most * sp.sin(delta), "the slide at its front stop")
r_most = M.result(
    "reach_most", r"r_{\mathrm{max}}", "mm", "greatest reach of the point in all positions", resolution=0.1
)
M.step(
    equal(r_most**2 - r**2, (m_most - m) * (m_most + m) + (n_most - n) * (n_most + n)),
    "no position reaches farther: of each product neither factor is below 0",
)
M.equals(sp.sqrt(m_most**2 + n_most**2), "it is farthest out and farthest aside in the same position")
alpha_z = M.result(
    "angle_height", r"\alpha_{z}", "deg", "angle of the arm at which the point is highest", resolution=0.1
)
M.equals(
    sp.Max(alpha_0, sp.Min(sp.pi / 2, alpha_0 + phi_most)),
    "of the angles between the stops it is the nearest to upright",
)
z_most = M.result(
    "height_most",
    r"z_{\mathrm{max}}",
    "mm",
    "greatest height of the point in all positions",
    resolution=0.1,
    signed=True,
)
M.step(
    equal(z_most - z, 2 * rho * sp.cos((alpha + alpha_z) / 2) * sp.sin((alpha_z - alpha) / 2)),
    "what is missing to it at any other tilt: both factors change sign at upright, so that the product is never below "
    "0",
)
M.equals(h + rho * sp.sin(alpha_z), "slide and swing are level: only the tilt lifts")
m_least = M.relation(
    "out_least",
    r"m_{\mathrm{min}}",
    "mm",
    "least far out; below 0 the point comes behind the swing axis",
    resolution=0.1,
)
M.equals(
    m_0 + rho * sp.Min(sp.cos(alpha_0), sp.cos(alpha_0 + phi_most)),
    "the slide at its rear end, the arm at the stop farther from level",
)
gap = M.result("gap", "a", "mm", "room between the point and the hood, level", resolution=0.1)
M.equals(R_h - r_most, "the hood stands at its own radius")
room = M.result("headroom", "b", "mm", "room over the point at its highest", resolution=0.1)
M.equals(H_h - z_most, "the hood has its own height")

M.limit("gap", "between point and hood there are", gap, ">=", margin)
M.mend("put the hood farther out, or stop the slide earlier")
M.limit("headroom", "over the point there are", room, ">=", margin)
M.mend("make the hood higher, or stop the tilt earlier")
M.limit("tilt", "the tilt is", phi, "<=", phi_most)
M.mend("state a tilt between the stops")
M.limit("slide", "the slide is", e, "<=", e_most)
M.mend("state a slide between the stops")
M.limit("front", "before the swing axis the point stays at", m_least, ">=", -m_most)
M.mend("state the lengths as seen from behind: there it reaches farther")
M.caution(*MOVING_MACHINE)
M.caution("One point is not the machine: cords, hoses and handles reach too. Take the farthest point of each, or scan.")
MODEL = M.done()
