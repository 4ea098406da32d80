"""Bowed bar glued to a rib.

What bow remains when a bowed bar is glued to a straight rib, clamped flat, and released?

In the trade's words: the bar for the stop has a bow. Clamped flat on a true bench while a straight rib is glued on, it
will stay nearly straight: but how nearly, and how hard must the clamps press?

Picture: The bar lies hollow down on a true face, pressed flat, and a straight rib is glued to it; released, both spring
back together to a flatter bow.

Assumptions:
- the wood is elastic and the glue line does not slip
- the bow is an even curve, small against the length, in the direction of the section's push
- the rib is straight; the glue's moisture moves nothing
- the section is as in 'Stop block with a rib', the block being the bar

Sources:
- S. P. Timoshenko, Strength of Materials I: bending by a locked-in moment, simple beam, from memory

Notes: Near the ends the glue line also carries tearing stress, which the even curve leaves out. Also: the force of one
clamp at mid-span from the deflection of a simple beam, F l³/(48 E I) (any table of beams).
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.stop.section import MODEL as SECTION

M = Model("stop.bow", __doc__, sources=SECTION.sources)
L = M.given("length", "L", "1200 ± 1 mm", (200, 3000), "length over which the bow is measured")
M.measured("tape")
s_0 = M.given("bow", "s_{0}", "3 ± 0.1 mm", (0, 20), "bow of the loose bar at the middle of its length")
M.measured("feeler gauges under a straightedge")
allowed = M.given("allowed", r"s_{\mathrm{max}}", "0.5 mm", (0.01, 10), "allowed bow")
force = M.given(
    "clamp_force", r"F_{\mathrm{c}}", "400 ± 100 N", (10, 5000), "force that one clamp gives", changes="often"
)
M.measured("known from the clamp")
section = M.include(SECTION, prefix="", label="")
EI, E_b, b, h = (section[name] for name in ("bending_stiffness", "block_modulus", "block_width", "block_height"))
x, v = sp.symbols("x v", real=True)

bar = M.relation("bar_stiffness", r"(EI)_{\mathrm{b}}", "N*m^2")
M.step(E_b * sp.Integral(h * v**2, (v, -b / 2, b / 2)), "its fibers' squared distances are summed")
M.equals(E_b * h * b**3 / 12, "the bar alone is a rectangle, bent about its own middle")
kappa_0 = M.relation("bar_curvature", "k_{0}", "1/m")
M.step(
    equal(sp.Integral(kappa_0 * x, (x, 0, L / 2)), s_0),
    "an even curve, level at its middle, rises slope after slope, x from the middle, to the bow",
)
M.equals(8 * s_0 / L**2, "so much curvature makes the bow that was measured")
moment = M.result("locked_moment", r"M_{0}", "N*m", "moment that holds the bar flat", resolution=0.1)
M.equals(bar * kappa_0, "the bar is bent back by its whole curvature")
kappa = M.relation("left_curvature", "k", "1/m")
M.step(
    equal(EI * kappa - bar * kappa_0, sp.Integer(0)),
    "no moment is left from outside: what the whole takes up by bending, the bar's locked-in moment gives",
)
M.equals(moment / EI, "released, the moment that the clamps held bends bar and rib as one")
left = M.result("bow_left", "s", "mm", "bow that remains after release", resolution=0.01)
M.step(sp.Integral(kappa * x, (x, 0, L / 2)), "slope after slope, as before")
M.step(s_0 * bar / EI, "lengths cancel: the bow shrinks as the stiffness grows")
M.equals(kappa * L**2 / 8, "curvature makes bow as it did in the loose bar")
M.result("part_left", r"\beta", "%", "part of the bow that remains", resolution=0.1)
M.equals(bar / EI, "bow is proportional to curvature")
press = M.result("press", "F", "N", "force at mid-length that presses the loose bar flat", resolution=1)
M.step(
    equal(sp.Integral(press / 2 * (L / 2 - x) / bar * (L / 2 - x), (x, 0, L / 2)), s_0),
    "a simple beam is two cantilevers from its middle, each with half the force at its end",
)
M.equals(48 * bar * s_0 / L**3, "solved for the force that gives the bow")
M.result("bar_stress", r"\sigma", "MPa", "bending stress in the bar's faces while it is flat", resolution=0.1)
M.step(E_b * kappa_0 * b / 2, "or modulus times strain, and strain is curvature times half the bar's width")
M.equals(moment * b / 2 / (h * b**3 / 12), "stress is moment times distance over second moment")

M.limit("bow_left", "after release the bar bows", left, "<=", allowed)
M.mend("glue on a higher rib or straighten the bar first")
M.limit("press", "one clamp at the middle must press with", press, "<=", force)
M.mend("use more clamps or a thinner bar")
M.caution("Glue up on a true, waxed face and leave the clamps on until the glue has its full strength.")
M.caution("Work that is bent by clamps can spring: keep your face out of its way when you release it.")
M.caution("Unplug the machine before you try the bar on it; hands stay 150 mm (6 in) from the blade.")
M.caution("The bow is more than a hundredth of the length: take another bar.", when=sp.Gt(s_0, L / 100))
MODEL = M.done()
