"""How much does a stop block move with the seasons, along the grain and across it, and does its key still fit?

The question in the trade's words: fitted in a dry winter shop, used in a damp summer: will the key bind in the
track or rattle, and is the block still as long as it was?

The picture: a block of length L along the grain with a groove (or a key) of width w across the grain. Each
climate brings the wood to its own moisture; the difference, times a coefficient, changes every size.

Assumptions: the wood has come to rest with the air both times; between 6 and 14 % moisture movement is in
proportion; along the grain the total longitudinal shrinkage is spread evenly from fiber saturation to ovendry;
metal does not move. A block that hangs a week in new air has moved only in part.

Sources: Wood Handbook, FPL-GTR-190, equation 4-5 and FPL-RN-0268 (1998) for the moisture; table 13-5 and equation
13-2 for movement across the grain; chapter 4 for shrinkage along the grain.
"""

import sympy as sp

from kit.model import Model, equal
from kit.topics.stop.moisture import MODEL as MOISTURE

M = Model(
    "stop.movement",
    title="Movement of a block with humidity",
    question="How much do a block's length and the fit of its key change when the air changes?",
    picture="A block with a groove or a key across the grain, fitted in one climate and used in another.",
    assumptions=(
        "the wood has come to rest with the air both times",
        "between 6 and 14 % moisture the movement is in proportion to the change of moisture",
        "along the grain wood moves evenly from fiber saturation to ovendry",
        "metal does not move",
    ),
    sources=(
        "Wood Handbook, FPL-GTR-190, equation 4-5, and FPL-RN-0268 (1998): equilibrium moisture",
        "Wood Handbook, FPL-GTR-190, table 13-5 and (from memory) equation 13-2: movement across the grain",
        "Wood Handbook, FPL-GTR-190, chapter 4, from memory: shrinkage along the grain, fiber saturation",
    ),
)
L = M.given(
    "length", "L", "mm", 1200, span=(100, 4000), half=0.5,
    meaning="length of the block along the grain when fitted", how="tape",
)  # fmt: skip
w = M.given(
    "width", "w", "mm", 19, span=(3, 300), half=0.05,
    meaning="width of the groove or key across the grain when fitted", how="calipers",
)  # fmt: skip
c = M.given(
    "play_made", r"c_{1}", "mm", 0.4, span=(0, 2), half=0.02,
    meaning="play of the fit when fitted", how="feeler gauge",
)  # fmt: skip
c_min = M.given(
    "play_least", r"c_{\mathrm{min}}", "mm", 0.05, span=(0, 1),
    meaning="least play at which the block still slides",
)  # fmt: skip
dL_max = M.given(
    "allowed", r"\Delta L_{\mathrm{max}}", "mm", 0.5, span=(0.01, 5), meaning="allowed change of length"
)
part = M.choice(
    "moving", r"p", ("wooden groove, metal key", "wooden key, metal track"), "wooden key, metal track",
    meaning="which part of the fit is of wood",
)  # fmt: skip
cut = M.choice(
    "cut", "q", ("flat-sawn", "quarter-sawn"), "flat-sawn",
    meaning="how the growth rings lie: the width runs along them (flat-sawn) or across",
)  # fmt: skip
C_T = M.given(
    "tangential", r"C_{\mathrm{T}}", "1/%", 0.00353, span=(0.001, 0.006), half=0.0004,
    meaning="movement along the growth rings per percent of moisture", how="table",
    source="Wood Handbook, FPL-GTR-190, table 13-5, sugar maple",
)  # fmt: skip
C_R = M.given(
    "radial", r"C_{\mathrm{R}}", "1/%", 0.00165, span=(0.0005, 0.004), half=0.0002,
    meaning="movement across the growth rings per percent of moisture", how="table",
    source="Wood Handbook, FPL-GTR-190, table 13-5, sugar maple",
)  # fmt: skip
S = M.given(
    "shrinkage_along", r"S_{\mathrm{L}}", "%", 0.15, span=(0.05, 2), half=0.05,
    meaning="shrinkage along the grain, green to ovendry", how="table; reaction or juvenile wood up to 2 %",
    source="Wood Handbook, FPL-GTR-190, chapter 4, 0.1 to 0.2 %, from memory",
)  # fmt: skip
f = M.given(
    "fiber_saturation", r"u_{\mathrm{f}}", "%", 30, span=(20, 40), half=2,
    meaning="moisture content at fiber saturation", how="table",
    source="Wood Handbook, FPL-GTR-190, chapter 4, from memory",
)  # fmt: skip
M.pick(
    "wood", table="woods", row="hard maple",
    fills={"tangential": "tangential_coefficient", "radial": "radial_coefficient"},
    meaning="wood of the moving part",
)  # fmt: skip
zero = M.constant(
    "ice", "T_{0}", "K", 273.15, meaning="zero of the Celsius scale", source="definition of the scale"
)
degree = M.constant("degree", r"\mathrm{K}", "K", 1, meaning="one degree", source="unit")
climates = {}
for when, told, humidity, temperature in (("made", "when fitted", 40, 18), ("used", "in use", 65, 22)):
    H = M.given(
        f"{when}_humidity", rf"H_{{\mathrm{{{when}}}}}", "%", humidity, span=(5, 95), half=3,
        meaning=f"relative humidity of the air {told}", how="hygrometer, checked over wet salt",
    )  # fmt: skip
    T = M.given(
        f"{when}_temperature", rf"T_{{\mathrm{{{when}}}}}", "degC", temperature, span=(0, 60), half=1,
        meaning=f"temperature of the air {told}", how="thermometer",
    )  # fmt: skip
    air = {"humidity": H, "temperature": T, "ice": zero, "degree": degree}
    climates[when] = M.include(MOISTURE, prefix=when, label=when, bind=air)
made, used = climates["made"]["moisture"], climates["used"]["moisture"]

gain = M.result(
    "moisture_change", r"\Delta u", "%", used - made, resolution=0.1,
    meaning="change of moisture content", because="only the difference of the two climates moves the wood",
)  # fmt: skip
C = M.relation(
    "coefficient", "C", "1/%", sp.Piecewise((C_T, sp.Eq(cut, 0)), (C_R, True)),
    because="the width runs along or across the growth rings"
)  # fmt: skip
dw = M.result(
    "width_change", r"\Delta w", "mm", w * C * gain, resolution=0.001,
    meaning="change of the width of groove or key", because="each percent moves each millimeter by the coefficient",
)  # fmt: skip
play = M.result(
    "play_used", "c_{2}", "mm", sp.Piecewise((c + dw, sp.Eq(part, 0)), (c - dw, True)), resolution=0.01,
    meaning="play of the fit in use; below zero: it binds",
    because="a swelling groove gives room, a swelling key takes it",
)  # fmt: skip
alpha = M.relation(
    "coefficient_along", r"\alpha", "1/%", S / f,
    because="the whole shrinkage is spread evenly down from fiber saturation"
)  # fmt: skip
u = sp.Symbol("u", real=True)
dL = M.result(
    "length_change", r"\Delta L", "mm", L * alpha * gain, resolution=0.001,
    meaning="change of the block's length", because="the same along the grain, with its own coefficient",
    lines=[(sp.Integral(L * S / f, (u, made, used)), "every step of moisture adds its share")],
)  # fmt: skip
M.result(
    "across_over_along", r"\rho", "", C / alpha, resolution=1,
    meaning="how many times more wood moves across the grain than along it",
    because="moisture and size fall out",
    lines=[(equal(sp.Symbol("across_over_along", real=True) * dL / L, dw / w),
            "it turns the strain along into the strain across")],
)  # fmt: skip

M.limit(
    "fit", "in use the play is", value=play, allowed=c_min, sense=">=",
    mend="give more play, use quarter-sawn wood, or fit in the climate of use",
)  # fmt: skip
M.limit(
    "length", "the length changes by", value=sp.Abs(dL), allowed=dL_max, in_unit="mm", resolution=0.001,
    mend="use straight-grained wood or set zero anew with the season",
)  # fmt: skip
M.caution("Check the stop against a rule at each change of season; unplug the machine before you measure.")
M.caution("Ease a key that binds off the machine, never with the blade running.")
low, high = sp.Rational(6, 100), sp.Rational(14, 100)
for told, moisture in (("when fitted", made), ("in use", used)):
    outside = sp.Or(sp.Lt(moisture, low), sp.Gt(moisture, high))
    M.caution(f"The moisture {told} leaves 6 to 14 %: the coefficients are less sure there.", when=outside)
MODEL = M.done()
