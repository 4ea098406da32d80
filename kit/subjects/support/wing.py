"""A long wing beside the machine.

How far does a wing that is held at one end sag under a long board, with or without a leg at its far end?

In the trade's words: a wing runs out from the machine to carry long work. Held at the bench alone it hangs; with a leg
at its end it lies. Is it straight enough to measure along?

Picture: From the front: the wing reaches out from the bench, the board's weight lies on it, a person leans on its end;
in the second case a leg stands under the end.

Assumptions:
- the sag is small against the length, and the length is long against the height
- the bench holds the end fully; what its brackets give way comes on top, and is put in as a slope
- a leg is set so that the unloaded wing is straight, and does not give way
- all of it bends in its elastic range; nothing lies on it for years

Sources:
- S. P. Timoshenko, Strength of Materials I: cantilevers, the propped cantilever by superposition, from memory
- Wood Handbook, FPL-GTR-190, table 12-1, from memory

Notes: A wing that stays loaded goes on sagging: see the page on shelves.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.safety import SHELF

M = Model("support.wing", __doc__)
L = M.given("length", "L", "1200 ± 2 mm", (100, 6000), "how far the wing reaches out from the bench")
M.measured("tape")
end = M.choice("end", "e", ("free", "on a leg"), "on a leg", "how its far end is held")
b = M.given("width", "b", "40 ± 0.3 mm", (5, 1500), "width of the wing, or of its ribs together")
M.measured("calipers")
h = M.given("height", "h", "90 ± 0.5 mm", (3, 500), "height of the wing, or of its ribs")
M.measured("calipers")
E = M.given("modulus", "E", "7.8 ± 0.8 GPa", (0.5, 210), "modulus along the wing")
M.measured("from a table, or bend a strip between two trestles")
M.source("Wood Handbook, FPL-GTR-190, table 12-1, plywood, from memory")
rho = M.given("density", r"\rho", "500 ± 100 kg/m^3", (50, 8000), "density of the wing")
M.source("Wood Handbook, FPL-GTR-190, table 12-1, plywood, from memory")
m = M.given("work", "m", "6 ± 1 kg", (0, 500), "the board that lies along it")
M.measured("weighed")
F = M.given("lean", "F", "50 ± 10 N", (0, 2000), "what leans on its far end")
phi = M.given("bracket", r"\varphi", "0.02 ± 0.02 deg", (0, 5), "how far the held end turns under all that")
M.measured("straightedge and feeler gauge, loaded and not")
allowed = M.given("allowed", r"\delta_{\mathrm{max}}", "1 mm", (0.01, 50), "how far it may sag")
g = M.constant("gravity", "g", "9.80665 m/s^2", "standard gravity", "3rd CGPM, 1901")
x = sp.Symbol("x", real=True)
free = sp.Eq(end, 0)

I = M.relation("second_moment", "I", "mm^4", "second moment of area", resolution=100)
M.equals(b * h**3 / 12, "the wing bends about its own middle")
M.mistake(h * b**3 / 12, "width and height were swapped")
q = M.relation("spread", "q", "N/m", "what lies along the wing", resolution=1)
M.equals(rho * b * h * g + m * g / L, "the wing itself, and the board")
hang = M.relation("hang", r"\delta_{0}", "mm", "sag of the free end", resolution=0.01)
M.step(
    sp.Integral((q * (L - x) ** 2 / 2 + F * (L - x)) / (E * I) * (L - x), (x, 0, L)) + L * sp.tan(phi),
    "each slice turns all beyond it, and so do the brackets",
)
M.equals(q * L**4 / (8 * E * I) + F * L**3 / (3 * E * I) + L * sp.tan(phi), "spread, at its end, and by its brackets")
R = M.result("leg", "R", "N", "what the leg carries", resolution=1)
M.equals(
    sp.Piecewise((0, free), (hang * 3 * E * I / L**3, True)),
    "the leg pushes the end back to where it was: as much as a force there would bend it down",
)
sag = M.result(
    "sag", r"\delta", "mm", "sag: of the free end, or of the middle where a leg stands under the end", resolution=0.01
)
M.step(
    sp.Piecewise(
        (hang, free),
        (
            sp.Integral((q * (L - x) ** 2 / 2 + (F - R) * (L - x)) / (E * I) * (L / 2 - x), (x, 0, L / 2))
            + L / 2 * sp.tan(phi),
            True,
        ),
    ),
    "with a leg, slices up to the middle turn the middle",
)
M.equals(
    sp.Piecewise(
        (hang, free),
        (17 * q * L**4 / (384 * E * I) + 5 * (F - R) * L**3 / (48 * E * I) + L / 2 * sp.tan(phi), True),
    ),
    "at the middle of a cantilever, less what the leg lifts it",
)
Mx = M.result("moment", "M", "N*m", "moment that the bench must hold", resolution=0.1, signed=True)
M.equals(q * L**2 / 2 + (F - R) * L, "all beyond it, less the leg")

M.limit("sag", "the wing sags", sag, "<=", allowed)
M.mend("set a leg under its end, or make its ribs higher")
M.caution(*SHELF)
M.caution("The wing hangs free: whoever leans on its end may tip the bench. Work out the bench's tipping.", when=free)
M.caution("The length is less than twelve heights: shear adds to the sag.", when=sp.Lt(L, 12 * h))
MODEL = M.done()
