"""Strain in a bend: how far is the outside face drawn, and how sharp may the bend be before it cracks?

The picture: a bend as a stack of thin curved strips. All were equally long when the sheet was flat; the outside
strip now runs round a larger circle and is drawn longer, the inside strip is pressed shorter. The strip on the
neutral fiber has kept its length and is the measure for the others.

Assumptions: plane sections stay plane, the thickness stays, and cracks begin on the outside face when its strain
reaches that of a tensile test at fracture: in its neck, by the reduction of area, or over the gauge length.
Sources: textbook formula for the strain in bending (Kalpakjian and Schmid, from memory); shop formulas of
Machinery's Handbook for the neutral fiber.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.fold.neutral_axis import DIN, MACHINERY, allowance, outer_strain, state_sheet

M = Model(
    "fold.strain",
    title="Strain in a bend and smallest radius",
    question="How far is the outside face of the bend drawn, and how small may the inside radius be?",
    picture="A bend cut across: inside arc of radius R, outside arc of radius R + T, and between them the neutral "
    "fiber, which is as long as the flat sheet was.",
    assumptions=(
        "Plane sections stay plane and the thickness stays, so that a fiber’s length follows from its radius alone.",
        "The outside face cracks at the strain at which a tensile test piece breaks.",
        "The smallest radius is worked with the neutral-axis factor of the radius given.",
    ),
    sources=(
        "Kalpakjian and Schmid, Manufacturing Engineering and Technology, chapter on sheet metal: "
        "strain of the outer fiber 1/(2R/T + 1), smallest R/T = 50/r - 1 (from memory)",
        MACHINERY,
        DIN,
    ),
)  # fmt: skip

T, R, K = state_sheet(M)
alpha = M.given(
    "bend_angle", r"\alpha", "deg", 90, span=(5, 180), half=0.5,
    meaning="bend angle, through which the sheet is turned", how="protractor: 180° less the angle between the legs",
)  # fmt: skip
ductility = M.choice(
    "ductility", "d", ("reduction of area", "elongation"), "reduction of area",
    meaning="tensile test figure that says how far the sheet can be drawn",
)  # fmt: skip
Z = M.given(
    "reduction", "Z", "%", 35, span=(5, 80), half=5,
    meaning="reduction of area at fracture", how="mill certificate, or the neck of a broken tensile test piece",
    source="invented demo value",
)  # fmt: skip
A50 = M.given(
    "elongation", "A_{50}", "%", 12, span=(1, 100), half=2,
    meaning="elongation at fracture over 50 mm (2 in); it hides the neck and keeps far on the safe side",
    how="mill certificate or tensile test, along the direction that the bend stretches",
    source="typical handbook value, from memory",
)  # fmt: skip
M.pick(
    "metal", table="metals", row="aluminum 5052-H32", fills={"elongation": "elongation"},
    meaning="metal of the sheet",
)  # fmt: skip
share = M.given(
    "share", "q", "", 0.8, span=(0.1, 1),
    meaning="part of that strain which you are ready to use", how="less for bends along the grain or rough edges",
)  # fmt: skip

inner = M.relation(
    "inner_length", r"\ell_{\mathrm{i}}", "mm", alpha * R,
    because="the inside face lies on the arc of radius R", meaning="length of the inside face in the bend",
)  # fmt: skip
middle = M.relation(
    "neutral_length", r"\ell_0", "mm", allowance(alpha, R, K, T),
    because="the neutral fiber is as long as every fiber was in the flat sheet",
    meaning="length of every fiber before the bend",
)  # fmt: skip
outer = M.relation(
    "outer_length", r"\ell_{\mathrm{o}}", "mm", alpha * (R + T),
    because="the outside face lies on the arc of radius R + T", meaning="length of the outside face in the bend",
)  # fmt: skip
strain = M.result(
    "outer_strain", r"\varepsilon_{\mathrm{o}}", "%", outer_strain(R, K, T),
    because="strain is the change of length over the length before; the bend angle cancels",
    lines=[
        ((outer - middle) / middle, "the outside face against the neutral fiber"),
        ((alpha * (R + T) - alpha * (R + K * T)) / (alpha * (R + K * T)), "put as arcs of the same angle"),
    ],
    meaning="strain of the outside face, drawn longer", resolution=0.1,
)  # fmt: skip
M.result(
    "inner_strain", r"\varepsilon_{\mathrm{i}}", "%", -K * T / (R + K * T),
    because="the inside face lies K T inside the neutral fiber",
    lines=[((inner - middle) / middle, "the inside face against the neutral fiber")],
    meaning="strain of the inside face, pressed shorter", resolution=0.1,
)  # fmt: skip
neck = M.relation(
    "neck_strain", r"\varepsilon_Z", "%", Z / (1 - Z),
    because="volume is kept: where the section shrinks to 1 - Z, the length grows to 1/(1 - Z)",
    lines=[(1 / (1 - Z) - 1, "length after over length before, less one")],
    meaning="strain in the neck of the tensile test piece at fracture", resolution=0.1,
)  # fmt: skip
allowed = M.result(
    "allowed_strain", r"\varepsilon_{\mathrm{a}}", "%",
    share * sp.Piecewise((neck, sp.Eq(ductility, 0)), (A50, True)),
    because="a reserve is kept to the strain at fracture", meaning="strain that you allow", resolution=0.1,
)  # fmt: skip
here = sp.Symbol("radius_at_limit", real=True)
Ra = M.relation(
    "radius_at_limit", r"R_{\mathrm{a}}", "mm", T * ((1 - K) / allowed - K),
    because="the strain formula solved for the radius",
    lines=[(equal(allowed * (here + K * T), (1 - K) * T), "at this radius the outside face is drawn just so far")],
    meaning="radius at which the strain is the allowed one", resolution=0.05,
)  # fmt: skip
least = M.result(
    "least_radius", r"R_{\mathrm{least}}", "mm", sp.Max(Ra, 0),
    because="where even a sharp crease stays within the allowed strain, any radius will do",
    meaning="smallest inside radius", resolution=0.05,
)  # fmt: skip
M.limit(
    "strain", "the outside face is drawn by", value=strain, allowed=allowed,
    mend="bend to a larger radius, take thinner or softer sheet, or anneal it",
)  # fmt: skip
M.limit(
    "radius", "the inside radius is", value=R, allowed=least, sense=">=", resolution=0.05,
    mend="bend to a larger radius or take thinner sheet",
)  # fmt: skip
M.caution(
    "Bend across the rolling direction where you can, and round and polish the edges at the ends of the bend: "
    "cracks start there."
)
MODEL = M.done()
