"""Strain in a bend and smallest radius.

How far is the outside face of the bend drawn, and how small may the inside radius be?

Picture: A bend cut across: inside arc of radius R, outside arc of radius R + T, and between them the neutral fiber,
which is as long as the flat sheet was.

Assumptions:
- Plane sections stay plane and the thickness stays, so that a fiber’s length follows from its radius alone.
- The outside face cracks at the strain at which a tensile test piece breaks.
- The smallest radius is computed with the neutral-axis factor of the radius given.

Sources:
- Kalpakjian and Schmid, Manufacturing Engineering and Technology, chapter on sheet metal: strain of the outer fiber
  1/(2R/T + 1), smallest R/T = 50/r - 1 (from memory)

Notes: A bend as a stack of thin curved strips. All were equally long when the sheet was flat. The outside strip now
runs round a larger circle and is drawn longer, the inside strip is pressed shorter. The strip on the neutral fiber has
kept its length and is the measure for the others. Also: shop formulas of Machinery's Handbook for the neutral fiber.
"""

import math

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.fold.neutral_axis import DIN, MACHINERY, allowance, outer_strain, state_sheet

M = Model(
    "fold.strain",
    __doc__,
    sources=(
        MACHINERY,
        DIN,
    ),
)

T, R, K = state_sheet(M)
alpha = M.given("bend_angle", r"\alpha", "90 ± 0.5 deg", (5, 180), "bend angle, through which the sheet is turned")
M.measured("protractor: 180° less the angle between the legs")
ductility = M.choice(
    "ductility",
    "d",
    ("reduction of area", "elongation"),
    "reduction of area",
    "tensile test figure that says how far the sheet can be drawn",
)
Z = M.given("reduction", "Z", "35 ± 5 %", (5, 80), "reduction of area at fracture")
M.measured("mill certificate, or the neck of a broken tensile test piece")
A50 = M.given(
    "elongation",
    "A_{50}",
    "12 ± 2 %",
    (1, 100),
    "elongation at fracture over 50 mm (2 in); it hides the neck and keeps far on the safe side",
)
M.measured("mill certificate or tensile test, along the direction that the bend stretches")
M.source("typical handbook value, from memory")
M.pick("metal", "metals", "aluminum 5052-H32", {"elongation": "elongation"}, "metal of the sheet")
share = M.given("share", "q", "0.8", (0.1, 1), "part of that strain which you are ready to use")
M.measured("less for bends along the grain or rough edges")

inner = M.relation("inner_length", r"\ell_{\mathrm{i}}", "mm", "length of the inside face in the bend")
M.equals(alpha * R, "the inside face lies on the arc of radius R")
middle = M.relation("neutral_length", r"\ell_0", "mm", "length of every fiber before the bend")
M.equals(allowance(alpha, R, K, T), "the neutral fiber is as long as every fiber was in the flat sheet")
outer = M.relation("outer_length", r"\ell_{\mathrm{o}}", "mm", "length of the outside face in the bend")
M.equals(alpha * (R + T), "the outside face lies on the arc of radius R + T")
strain = M.result(
    "outer_strain",
    r"\varepsilon_{\mathrm{o}}",
    "%",
    "strain of the outside face, drawn longer",
    resolution=0.1,
    within=(0, math.inf),
)
M.step((outer - middle) / middle, "the outside face against the neutral fiber")
M.step((alpha * (R + T) - alpha * (R + K * T)) / (alpha * (R + K * T)), "put as arcs of the same angle")
M.equals(outer_strain(R, K, T), "strain is the change of length over the length before; the bend angle cancels")
M.result(
    "inner_strain",
    r"\varepsilon_{\mathrm{i}}",
    "%",
    "strain of the inside face, pressed shorter",
    resolution=0.1,
    within=(-100, 0),
)
M.step((inner - middle) / middle, "the inside face against the neutral fiber")
M.equals(-K * T / (R + K * T), "the inside face lies K T inside the neutral fiber")
neck = M.relation(
    "neck_strain", r"\varepsilon_Z", "%", "strain in the neck of the tensile test piece at fracture", resolution=0.1
)
M.step(1 / (1 - Z) - 1, "length after over length before, less one")
M.equals(Z / (1 - Z), "volume is kept: where the section shrinks to 1 - Z, the length grows to 1/(1 - Z)")
allowed = M.result(
    "allowed_strain", r"\varepsilon_{\mathrm{a}}", "%", "strain that you allow", resolution=0.1, within=(0, math.inf)
)
M.equals(share * sp.Piecewise((neck, sp.Eq(ductility, 0)), (A50, True)), "a reserve is kept to the strain at fracture")
Ra = M.relation(
    "radius_at_limit", r"R_{\mathrm{a}}", "mm", "radius at which the strain is the allowed one", resolution=0.05
)
M.step(equal(allowed * (Ra + K * T), (1 - K) * T), "at this radius the outside face is drawn just so far")
M.equals(T * ((1 - K) / allowed - K), "the strain formula solved for the radius")
least = M.result("least_radius", r"R_{\mathrm{least}}", "mm", "smallest inside radius", resolution=0.05)
M.equals(sp.Max(Ra, 0), "where even a sharp crease stays within the allowed strain, any radius will do")
M.limit("strain", "the outside face is drawn by", sp.Abs(strain), "<=", allowed)
M.mend("bend to a larger radius, take thinner or softer sheet, or anneal it")
M.limit("radius", "the inside radius is", R, ">=", least, resolution=0.05)
M.mend("bend to a larger radius or take thinner sheet")
M.caution(
    "Bend across the rolling direction where you can, and round and polish the edges at the ends of the bend: "
    "cracks start there."
)
MODEL = M.done()
