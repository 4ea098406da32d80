"""How far and how high does a point of the machine come, while it turns, tilts and slides?

The question in the trade's words: the head swings about the upright axis of its turntable, rises about a level axis
behind, and slides on its rails. Where does the tip of the handle go, how far from the swing axis does it get, how
high, and in which position? So far the hood must stay away, before anything is scanned.

The picture: from the side the level tilt axis is a point; the arm stands out from it at an angle above level, and
its far end is the point asked for. Seen from above, the arm points out from the swing axis, the slide makes an angle
with it, and the swing turns all of it together. An arm that plunges slides the way it points (angle 0°); a head that
leans sideways slides along its own tilt axis (angle 90°).

Assumptions: the axes are fixed lines, the swing axis upright and the tilt axis level; nothing bends.

Sources: plane trigonometry; a turn keeps the distance from its axis.
"""

from __future__ import annotations

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import MOVING_MACHINE

M = Model(
    "sweep.point",
    title="Reach and height of a point that turns, tilts and slides",
    question="How far from the swing axis and how high does a point of the machine come, and in which position?",
    picture="From the side, an arm stands out from a level tilt axis at an angle above level. From above, it points "
    "out from the swing axis, slides, and turns with the swing.",
    assumptions=(
        "the swing axis is upright and the tilt axis level, and neither moves on its own",
        "nothing bends, and the joints have no play that matters",
        "the slide carries the tilt axis, and the swing carries both",
        "the point reaches farther before the swing axis than behind it: the limit says so",
    ),
    sources=("plane trigonometry; a turn keeps the distance from its axis",),
)

psi = M.given("swing", r"\psi", "deg", 30, span=(-90, 90), half=0.1, meaning="swing of the arm from its middle",
              how="the machine's own scale")  # fmt: skip
phi = M.given("tilt", r"\varphi", "deg", 15, span=(0, 90), half=0.3, meaning="tilt of the arm from its lowest",
              how="bevel gauge at the arm")  # fmt: skip
e = M.given("slide", "e", "mm", 40, span=(0, 600), half=0.5, meaning="slide of the head from its rear end",
            how="rule along the rails")  # fmt: skip
phi_most = M.given("tilt_most", r"\varphi_{\mathrm{max}}", "deg", 40, span=(0, 90), half=0.3,
                   meaning="tilt up to the stop", how="bevel gauge at the arm")  # fmt: skip
e_most = M.given("slide_most", r"e_{\mathrm{max}}", "mm", 60, span=(0, 600), half=0.5,
                 meaning="slide up to the stop", how="rule along the rails")  # fmt: skip
rho = M.given("arm", r"\rho", "mm", 446, span=(20, 1500), half=1, meaning="arm: from the tilt axis to the point",
              how="tape, square to the axis")  # fmt: skip
alpha_0 = M.given("arm_low", r"\alpha_{0}", "deg", 9, span=(-80, 80), half=0.3,
                  meaning="angle of the arm above level at no tilt", how="rise over run")  # fmt: skip
m_0 = M.given("axis_out", r"m_{0}", "mm", -205, span=(-800, 800), half=0.5,
              meaning="tilt axis out from the swing axis, the way the arm points; below 0 it lies behind",
              how="rule in plan")  # fmt: skip
h = M.given("axis_height", "h", "mm", 280, span=(0, 1500), half=0.5, meaning="height of the tilt axis over the bench",
            how="square and rule")  # fmt: skip
g = M.given("aside", "g", "mm", 17, span=(0, 500), half=0.5,
            meaning="point aside from the swing axis, along the tilt axis", how="rule in plan")  # fmt: skip
delta = M.given("slide_angle", r"\delta", "deg", 0, span=(0, 90), half=0.2,
                meaning="angle of the slide from the way the arm points, seen from above",
                how="0° if a plunging arm slides, 90° if the head leans sideways")  # fmt: skip
R_h = M.given("hood_reach", r"R_{\mathrm{h}}", "mm", 340, span=(50, 3000),
              meaning="inside of the hood from the swing axis")  # fmt: skip
H_h = M.given("hood_height", r"H_{\mathrm{h}}", "mm", 650, span=(50, 4000),
              meaning="inside of the hood over the bench")  # fmt: skip
margin = M.given("margin", "c", "mm", 20, span=(0, 200), meaning="clearance wished for",
                 source="common practice, no source")  # fmt: skip

alpha = M.relation("angle", r"\alpha", "deg", alpha_0 + phi, meaning="angle of the arm above level",
                   because="the tilt lifts the arm from where it was lowest")  # fmt: skip
m = M.relation("out", "m", "mm", m_0 + e * sp.cos(delta) + rho * sp.cos(alpha), resolution=0.1,
               meaning="how far out the point is before the swing",
               because="axis, slide and the level part of the arm add up")  # fmt: skip
n = M.relation("beside", "n", "mm", g + e * sp.sin(delta), resolution=0.1,
               meaning="how far aside the point is before the swing",
               because="only the slide moves the point along the tilt axis")  # fmt: skip
x = M.result("place_out", "x", "mm", m * sp.cos(psi) - n * sp.sin(psi), resolution=0.1,
             meaning="place of the point the way the arm points at no swing",
             because="the swing turns both lengths")  # fmt: skip
y = sp.Symbol("place_aside", real=True)
turn = sp.ImmutableMatrix([[sp.cos(psi), -sp.sin(psi)], [sp.sin(psi), sp.cos(psi)]])
M.result("place_aside", "y", "mm", m * sp.sin(psi) + n * sp.cos(psi), resolution=0.1,
         meaning="place of the point aside from there", because="the other row of the turn",
         lines=[(equal(sp.MatMul(turn, sp.ImmutableMatrix([m, n]), evaluate=False), sp.Matrix([x, y])),
                 "both rows of the turn about the swing axis")])  # fmt: skip
r = M.result("reach", "r", "mm", sp.sqrt(m**2 + n**2), resolution=0.1,
             meaning="distance of the point from the swing axis",
             because="both lengths and the reach make a right triangle in plan",
             lines=[(sp.sqrt(x**2 + y**2), "the swing changes both lengths, but not the distance: the reach does "
                     "not depend on the swing")])  # fmt: skip
z = M.result("height", "z", "mm", h + rho * sp.sin(alpha), resolution=0.1, meaning="height of the point over the bench",
             because="the upright part of the arm stands on the axis")  # fmt: skip
full = m_0 + e * sp.cos(delta) + rho * sp.cos(alpha_0 + phi)
M.result("reach_rate", r"r^{\prime}", "mm/deg", -rho * m * sp.sin(alpha) / r, resolution=0.01,
         meaning="by how much the reach changes with the tilt",
         because="the chain rule: it is 0 where the arm is level; above level, more tilt brings the point in",
         lines=[(sp.Derivative(sp.sqrt(full**2 + n**2), phi), "the reach as a function of the tilt"),
                (equal(sp.Derivative(full**2, phi), -2 * m * rho * sp.sin(alpha)),
                 "only the way out depends on the tilt")])  # fmt: skip

alpha_r = M.result("angle_reach", r"\alpha_{r}", "deg", sp.Max(alpha_0, sp.Min(0, alpha_0 + phi_most)), resolution=0.1,
                   meaning="angle of the arm at which the reach is greatest",
                   because="of the angles between the stops it is the nearest to level")  # fmt: skip
m_most = M.relation("out_most", r"m_{\mathrm{max}}", "mm", m_0 + e_most * sp.cos(delta) + rho * sp.cos(alpha_r),
                    resolution=0.1, meaning="farthest out",
                    because="the slide at its front stop and the arm nearest to level",
                    lines=[(equal(sp.Symbol("out_most", real=True) - m, (e_most - e) * sp.cos(delta)
                                  + 2 * rho * sp.sin((alpha + alpha_r) / 2) * sp.sin((alpha - alpha_r) / 2)),
                            "what is missing to it in any other position. It is never below 0: if level lies between "
                            "the stops, the product is the square of sin(α/2); if not, both sines have the same sign")],
                    )  # fmt: skip
n_most = M.relation("beside_most", r"n_{\mathrm{max}}", "mm", g + e_most * sp.sin(delta), resolution=0.1,
                    meaning="farthest aside", because="the slide at its front stop")  # fmt: skip
r_most = M.result("reach_most", r"r_{\mathrm{max}}", "mm", sp.sqrt(m_most**2 + n_most**2), resolution=0.1,
                  meaning="greatest reach of the point in all positions",
                  because="it is farthest out and farthest aside in the same position",
                  lines=[(equal(sp.Symbol("reach_most", real=True) ** 2 - r**2,
                                (m_most - m) * (m_most + m) + (n_most - n) * (n_most + n)),
                          "no position reaches farther: of each product neither factor is below 0")])  # fmt: skip
alpha_z = M.result("angle_height", r"\alpha_{z}", "deg", sp.Max(alpha_0, sp.Min(sp.pi / 2, alpha_0 + phi_most)),
                   resolution=0.1, meaning="angle of the arm at which the point is highest",
                   because="of the angles between the stops it is the nearest to upright")  # fmt: skip
z_most = M.result("height_most", r"z_{\mathrm{max}}", "mm", h + rho * sp.sin(alpha_z), resolution=0.1,
                  meaning="greatest height of the point in all positions",
                  because="slide and swing are level: only the tilt lifts",
                  lines=[(equal(sp.Symbol("height_most", real=True) - z,
                                2 * rho * sp.cos((alpha + alpha_z) / 2) * sp.sin((alpha_z - alpha) / 2)),
                          "what is missing to it at any other tilt: both factors change sign at upright, so that the "
                          "product is never below 0")])  # fmt: skip
m_least = M.relation("out_least", r"m_{\mathrm{min}}", "mm",
                     m_0 + rho * sp.Min(sp.cos(alpha_0), sp.cos(alpha_0 + phi_most)), resolution=0.1,
                     meaning="least far out; below 0 the point comes behind the swing axis",
                     because="the slide at its rear end, the arm at the stop farther from level")  # fmt: skip
gap = M.result("gap", "a", "mm", R_h - r_most, resolution=0.1, meaning="room between the point and the hood, level",
               because="the hood stands at its own radius")  # fmt: skip
room = M.result("headroom", "b", "mm", H_h - z_most, resolution=0.1, meaning="room over the point at its highest",
                because="the hood has its own height")  # fmt: skip

M.limit("gap", "between point and hood there are", value=gap, allowed=margin, sense=">=",
        mend="put the hood farther out, or stop the slide earlier")  # fmt: skip
M.limit("headroom", "over the point there are", value=room, allowed=margin, sense=">=",
        mend="make the hood higher, or stop the tilt earlier")  # fmt: skip
M.limit("tilt", "the tilt is", value=phi, allowed=phi_most, mend="state a tilt between the stops")  # fmt: skip
M.limit("slide", "the slide is", value=e, allowed=e_most, mend="state a slide between the stops")  # fmt: skip
M.limit("front", "before the swing axis the point stays at", value=m_least, allowed=-m_most, sense=">=",
        mend="state the lengths as seen from behind: there it reaches farther")  # fmt: skip
M.caution(*MOVING_MACHINE)
M.caution(
    "One point is not the machine: cords, hoses and handles reach too. Take the farthest point of each, or scan."
)
MODEL = M.done()
