"""One bend in a sheet: how long is the flat piece that becomes two legs and a bend?

The picture: a strip of sheet turned through the bend angle round the nose of a tool. The inside face is pressed
shorter, the outside face drawn longer; between them one fiber keeps its length. The flat piece is as long as
that fiber: a straight part, an arc, a straight part.

Assumptions: straight legs, a bend that is a true arc, no stretch of the legs, thickness kept in the bend.
Sources: shop formulas of Machinery's Handbook; DIN 6935.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.fold.neutral_axis import DIN, MACHINERY, allowance, setback_factor, state_sheet

M = Model(
    "fold.bend",
    title="One bend in sheet metal",
    question="How long must the flat piece be, and where does the bend go, so that both legs come out right?",
    picture="A strip of sheet in two straight legs, joined by an arc of inside radius R that turns it by the bend "
    "angle; legs are measured over the outside; a dash-dotted line inside the sheet keeps its length.",
    assumptions=(
        "Legs stay straight, the bend is an arc, and the sheet keeps its thickness.",
        "The bend angle is how far the sheet is turned, 180° less the angle that opens between the legs.",
        "A leg is measured to the corner of the outside faces up to 90°, beyond that to the bend’s outermost point.",
        "DIN 6935 neglects the deduction of bends below 15°; here it is kept.",
    ),
    sources=(MACHINERY, DIN),
)  # fmt: skip

T, R, K = state_sheet(M)
alpha = M.given(
    "bend_angle", r"\alpha", "deg", 90, span=(0, 180), half=0.5,
    meaning="bend angle, through which the sheet is turned", how="protractor: 180° less the angle between the legs",
)  # fmt: skip
a = M.given(
    "leg_a", "a", "mm", 40, span=(0, 600), half=0.2,
    meaning="first leg, over the outside", how="caliper or square, from the edge to the outside of the bend",
)  # fmt: skip
b = M.given(
    "leg_b", "b", "mm", 25, span=(0, 600), half=0.2,
    meaning="second leg, over the outside", how="caliper or square, from the edge to the outside of the bend",
)  # fmt: skip
least = M.given(
    "least_straight", r"s_{\mathrm{least}}", "mm", 8, span=(0, 60),
    meaning="straight part that the folding machine needs to hold a leg", how="manual of the folding machine",
)  # fmt: skip

M.result(
    "opening_angle", r"\beta", "deg", sp.pi - alpha,
    because="the legs lay in one line before the bend", meaning="angle that opens between the legs", resolution=0.1,
)  # fmt: skip
rho = M.relation(
    "neutral_radius", r"\rho", "mm", R + K * T,
    because="the neutral fiber lies K T outside the inside face", meaning="radius of the neutral fiber",
)  # fmt: skip
phi = sp.Symbol("phi", real=True)
BA = M.result(
    "allowance", "A", "mm", allowance(alpha, R, K, T),
    because="the flat stock in the bend is as long as the fiber that neither stretches nor shrinks",
    lines=[
        (sp.Integral(rho, (phi, 0, alpha)), "each step of angle dφ adds ρ dφ to the arc of the neutral fiber"),
        (2 * alpha / sp.pi * (sp.pi / 2 * R + sp.pi / 2 * K * T),
         "the handbook’s form: the part of a right-angle bend, which takes 1.57 R plus 1.57 K times T"),
    ],
    source=MACHINERY, meaning="bend allowance: flat stock in the bend", resolution=0.01,
)  # fmt: skip
f = M.relation(
    "setback_factor", "f", "", setback_factor(alpha),
    because="half the bend angle stands in the right triangle from the bend’s center over a tangent point to the "
    "outside corner; beyond 90° the outermost point of the bend takes the place of the corner",
    source=DIN,
)  # fmt: skip
S = M.result(
    "setback", "S", "mm", f * (R + T),
    because="the outside face has radius R + T",
    meaning="outside setback: from the corner to where the bend begins", resolution=0.01,
)  # fmt: skip
v = M.result(
    "deduction", "v", "mm", 2 * S - BA,
    because="both legs are measured to the corner, but the sheet cuts the corner along the arc",
    lines=[(2 * f * (R + T) - rho * alpha, "way round the corner less the arc of the neutral fiber")],
    source=DIN, meaning="bend deduction: outside legs less flat length", resolution=0.01,
)  # fmt: skip
L = M.result(
    "flat_length", "L", "mm", a + b - v,
    because="straight part, bend and straight part laid flat",
    lines=[((a - S) + BA + (b - S), "each leg gives up one setback to the bend")],
    meaning="length of the flat piece", resolution=0.05,
)  # fmt: skip
M.result(
    "bend_line", r"x_{\mathrm{bend}}", "mm", a - v / 2,
    because="the middle of the bend lies half an allowance past the end of the first straight part",
    lines=[(a - S + BA / 2, "straight part of the first leg, then half the bend")],
    meaning="middle of the bend, from the edge of the first leg on the flat piece", resolution=0.05,
)  # fmt: skip
straight = M.relation(
    "straight", r"s", "mm", sp.Min(a, b) - S,
    because="the shorter leg has the least left to hold", meaning="straight part of the shorter leg", resolution=0.1,
)  # fmt: skip
M.limit(
    "straight", "the straight part of the shorter leg is", value=straight, allowed=least, sense=">=",
    mend="make that leg longer, or the radius smaller, and trim after bending",
)  # fmt: skip
MODEL = M.done()
