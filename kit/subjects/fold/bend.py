"""One bend in sheet metal.

How long must the flat piece be, and where does the bend go, so that both legs come out right?

Picture: A strip of sheet in two straight legs, joined by an arc of inside radius R that turns it by the bend angle;
legs are measured over the outside; a dash-dotted line inside the sheet keeps its length.

Assumptions:
- Legs stay straight, the bend is an arc, and the sheet keeps its thickness.
- The bend angle is how far the sheet is turned, 180° less the angle that opens between the legs.
- A leg is measured to the corner of the outside faces up to 90°, beyond that to the bend’s outermost point.
- DIN 6935 neglects the deduction of bends below 15°; here it is kept.

Notes: A strip of sheet turned through the bend angle round the nose of a tool. The inside face is pressed shorter, the
outside face drawn longer. Between them one fiber keeps its length. The flat piece is as long as that fiber: a straight
part, an arc, a straight part. Also: shop formulas of Machinery's Handbook; DIN 6935.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.fold.neutral_axis import DIN, MACHINERY, allowance, setback_factor, state_sheet

M = Model(
    "fold.bend",
    __doc__,
    sources=(
        MACHINERY,
        DIN,
    ),
)

T, R, K = state_sheet(M)
alpha = M.given("bend_angle", r"\alpha", "90 ± 0.5 deg", (0, 180), "bend angle, through which the sheet is turned")
M.measured("protractor: 180° less the angle between the legs")
a = M.given("leg_a", "a", "40 ± 0.2 mm", (0, 600), "first leg, over the outside")
M.measured("caliper or square, from the edge to the outside of the bend")
b = M.given("leg_b", "b", "25 ± 0.2 mm", (0, 600), "second leg, over the outside")
M.measured("caliper or square, from the edge to the outside of the bend")
least = M.given(
    "least_straight",
    r"s_{\mathrm{least}}",
    "8 mm",
    (0, 60),
    "straight part that the folding machine needs to hold a leg",
)
M.measured("manual of the folding machine")

M.result("opening_angle", r"\beta", "deg", "angle that opens between the legs", resolution=0.1)
M.equals(sp.pi - alpha, "the legs lay in one line before the bend")
rho = M.relation("neutral_radius", r"\rho", "mm", "radius of the neutral fiber")
M.equals(R + K * T, "the neutral fiber lies K T outside the inside face")
phi = sp.Symbol("phi", real=True)
BA = M.result("allowance", "A", "mm", "bend allowance: flat stock in the bend", resolution=0.01)
M.step(sp.Integral(rho, (phi, 0, alpha)), "each step of angle dφ adds ρ dφ to the arc of the neutral fiber")
M.step(
    2 * alpha / sp.pi * (sp.pi / 2 * R + sp.pi / 2 * K * T),
    "the handbook’s form: the part of a right-angle bend, which takes 1.57 R plus 1.57 K times T",
)
M.equals(
    allowance(alpha, R, K, T), "the flat stock in the bend is as long as the fiber that neither stretches nor shrinks"
)
M.source(MACHINERY)
f = M.relation("setback_factor", "f", "")
M.equals(
    setback_factor(alpha),
    "half the bend angle stands in the right triangle from the bend’s center over a tangent point to the outside "
    "corner; beyond 90° the outermost point of the bend takes the place of the corner",
)
M.source(DIN)
S = M.result("setback", "S", "mm", "outside setback: from the corner to where the bend begins", resolution=0.01)
M.equals(f * (R + T), "the outside face has radius R + T")
v = M.result(
    "deduction",
    "v",
    "mm",
    "bend deduction: outside legs less flat length; below zero: the bend takes more",
    resolution=0.01,
    signed=True,
)
M.step(2 * f * (R + T) - rho * alpha, "way round the corner less the arc of the neutral fiber")
M.equals(2 * S - BA, "both legs are measured to the corner, but the sheet cuts the corner along the arc")
M.source(DIN)
L = M.result("flat_length", "L", "mm", "length of the flat piece", resolution=0.05)
M.step((a - S) + BA + (b - S), "each leg gives up one setback to the bend")
M.equals(a + b - v, "straight part, bend and straight part laid flat")
M.mistake(a + b, "the bend was forgotten: the legs were only added")
M.mistake(a + b - 2 * S, "the allowance of the bend was forgotten: only the straight parts were added")
M.result(
    "bend_line",
    r"x_{\mathrm{bend}}",
    "mm",
    "middle of the bend, from the edge of the first leg on the flat piece",
    resolution=0.05,
)
M.step(a - S + BA / 2, "straight part of the first leg, then half the bend")
M.equals(a - v / 2, "the middle of the bend lies half an allowance past the end of the first straight part")
straight = M.relation("straight", r"s", "mm", "straight part of the shorter leg", resolution=0.1)
M.equals(sp.Min(a, b) - S, "the shorter leg has the least left to hold")
M.limit("straight", "the straight part of the shorter leg is", straight, ">=", least)
M.mend("make that leg longer, or the radius smaller, and trim after bending")
MODEL = M.done()
