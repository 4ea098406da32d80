"""A bowed bar is glued to a rib while clamped flat: what bow remains when the clamps come off?

The question in the trade's words: the bar for the stop has a bow. Clamped flat on a true bench while a straight
rib is glued on, it will stay nearly straight: but how nearly, and how hard must the clamps press?

The picture: the bar lies with its hollow down on a true face, pressed flat; the rib is glued to its back (or on
top, beside the bow). Released, bar and rib spring back together to a flatter bow.

Assumptions: elastic wood, no slip in the glue line, no moisture taken up from the glue, the bar's bow is an even
curve, small against its length; the rib is straight. Near the ends the glue line also carries tearing stress,
which the even curve leaves out.

Sources: beam theory, superposition of a locked-in moment (S. P. Timoshenko, Strength of Materials I); the force
of one clamp at mid-span from the deflection of a simple beam, F l³/(48 E I) (any table of beams); from memory.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.stop.section import MODEL as SECTION

M = Model(
    "stop.bow",
    title="Bowed bar glued to a rib",
    question="What bow remains when a bowed bar is glued to a straight rib, clamped flat, and released?",
    picture="The bar lies hollow down on a true face, pressed flat, and a straight rib is glued to it; released, "
    "both spring back together to a flatter bow.",
    assumptions=(
        "the wood is elastic and the glue line does not slip",
        "the bow is an even curve, small against the length, in the direction of the section's push",
        "the rib is straight; the glue's moisture moves nothing",
        "the section is as in 'Stop block with a rib', the block being the bar",
    ),
    sources=(
        "S. P. Timoshenko, Strength of Materials I: bending by a locked-in moment, simple beam, from memory",
        *SECTION.sources,
    ),
)
L = M.given(
    "length", "L", "mm", 1200, span=(200, 3000), half=1,
    meaning="length over which the bow is measured", how="tape",
)  # fmt: skip
s_0 = M.given(
    "bow", "s_{0}", "mm", 3, span=(0, 20), half=0.1,
    meaning="bow of the loose bar at the middle of its length", how="feeler gauges under a straightedge",
)  # fmt: skip
allowed = M.given("allowed", r"s_{\mathrm{max}}", "mm", 0.5, span=(0.01, 10), meaning="allowed bow")
force = M.given(
    "clamp_force", r"F_{\mathrm{c}}", "N", 400, span=(10, 5000), half=100,
    meaning="force that one clamp gives", how="known from the clamp",
)  # fmt: skip
section = M.include(SECTION, prefix="", label="")
EI, E_b, b, h = (
    section[name] for name in ("bending_stiffness", "block_modulus", "block_width", "block_height")
)
x, v, here = sp.symbols("x v bar_curvature", real=True)

bar = M.relation(
    "bar_stiffness", r"(EI)_{\mathrm{b}}", "N*m^2", E_b * h * b**3 / 12,
    because="the bar alone is a rectangle, bent about its own middle",
    lines=[(E_b * sp.Integral(h * v**2, (v, -b / 2, b / 2)), "its fibers' squared distances are summed")],
)  # fmt: skip
kappa_0 = M.relation(
    "bar_curvature", "k_{0}", "1/m", 8 * s_0 / L**2,
    because="so much curvature makes the bow that was measured",
    lines=[(equal(sp.Integral(here * x, (x, 0, L / 2)), s_0),
            "an even curve, level at its middle, rises slope after slope, x from the middle, to the bow")],
)  # fmt: skip
moment = M.result(
    "locked_moment", r"M_{0}", "N*m", bar * kappa_0, resolution=0.1,
    meaning="moment that holds the bar flat", because="the bar is bent back by its whole curvature",
)  # fmt: skip
kappa = M.relation(
    "left_curvature", "k", "1/m", moment / EI,
    because="released, the moment that the clamps held bends bar and rib as one",
    lines=[(equal(EI * sp.Symbol("left_curvature", real=True) - bar * kappa_0, sp.Integer(0)),
            "no moment is left from outside: what the whole takes up by bending, the bar's locked-in moment gives")],
)  # fmt: skip
left = M.result(
    "bow_left", "s", "mm", kappa * L**2 / 8, meaning="bow that remains after release", resolution=0.01,
    because="curvature makes bow as it did in the loose bar",
    lines=[(sp.Integral(kappa * x, (x, 0, L / 2)), "slope after slope, as before"),
           (s_0 * bar / EI, "lengths fall out: the bow shrinks as the stiffness grows")],
)  # fmt: skip
M.result(
    "part_left", r"\beta", "%", bar / EI, meaning="part of the bow that remains", resolution=0.1,
    because="bows go with their curvatures",
)  # fmt: skip
press = M.result(
    "press", "F", "N", 48 * bar * s_0 / L**3, meaning="force at mid-length that presses the loose bar flat",
    resolution=1, because="turned round, that is the force for the bow",
    lines=[(equal(sp.Integral(sp.Symbol("press", real=True) / 2 * (L / 2 - x) / bar * (L / 2 - x), (x, 0, L / 2)), s_0),
            "a simple beam is two cantilevers from its middle, each with half the force at its end")],
)  # fmt: skip
M.result(
    "bar_stress", r"\sigma", "MPa", moment * b / 2 / (h * b**3 / 12), resolution=0.1,
    meaning="bending stress in the bar's faces while it is flat",
    because="stress is moment times distance over second moment",
    lines=[(E_b * kappa_0 * b / 2, "or modulus times strain, and strain is curvature times half the bar's width")],
)  # fmt: skip

M.limit(
    "bow_left", "after release the bar bows", value=left, allowed=allowed,
    mend="glue on a higher rib or straighten the bar first",
)  # fmt: skip
M.limit(
    "press", "one clamp at the middle must press with", value=press, allowed=force,
    mend="use more clamps or a thinner bar",
)  # fmt: skip
M.caution("Glue up on a true, waxed face and leave the clamps on until the glue has its full strength.")
M.caution("Work that is bent by clamps can spring: keep your face out of its way when you release it.")
M.caution("Unplug the machine before you try the bar on it; hands stay 150 mm (6 in) from the blade.")
M.caution("The bow is more than a hundredth of the length: take another bar.", when=sp.Gt(s_0, L / 100))
MODEL = M.done()
