"""What do two test cuts say about a scale, and at which readings can it be trusted afterward?

The question in the trade's words: I set the stop by the scale, once short and once long, cut, and measured both
parts. How far is the zero off, is the scale itself too long, and what must I set for the next part?

The picture: measured part over reading. Two points, a straight line through them; it meets the upright at the zero
error, its slope is the scale. Round the line a band: narrow between the test cuts, opening like a trumpet outside.

Assumptions: the scale is straight (no bend between the cuts); both cuts are equally and independently uncertain, in
reading and measuring together; the readings are as set.

Sources: the straight line through two points; JCGM 100:2008 (GUM), 5.1.2 and 5.2.2, propagation with covariance.
For three and more cuts: least squares, `kit.subjects.scale.line_fit`.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import SCALE, TEST_CUT

M = Model(
    "scale.calibration",
    title="Scale calibrated by two test cuts",
    question="What do two test cuts say about a scale's zero and length, and which readings can then be trusted?",
    picture="Measured part over reading: a straight line through two test cuts and its band, narrow between them and "
    "opening outside.",
    assumptions=(
        "part and reading lie on a straight line",
        "both cuts have the same standard uncertainty, of setting and measuring together, independent of each other",
        "readings are taken as set",
    ),
    sources=(
        "straight line through two points",
        "JCGM 100:2008 (GUM), 5.1.2 and 5.2.2: propagation of uncertainty, with covariance, from memory",
    ),
)
R_1 = M.given("reading_1", "R_{1}", "mm", 300, span=(0, 2000), meaning="reading of the first test cut")
R_2 = M.given("reading_2", "R_{2}", "mm", 1100, span=(0, 4000), meaning="reading of the second test cut")
L_1 = M.given(
    "part_1", "L_{1}", "mm", 300.25, span=(0, 2000), half=0.14, meaning="length of the first part",
    how="calipers or a checked rule"
)  # fmt: skip
L_2 = M.given(
    "part_2", "L_{2}", "mm", 1100.5, span=(0, 4000), half=0.14, meaning="length of the second part",
    how="checked rule"
)  # fmt: skip
u = M.given(
    "cut_u", "u", "mm", 0.08, span=(0.005, 2),
    meaning="standard uncertainty of one test cut, setting and measuring together",
    how="spread of five cuts at one setting, each set anew",
)  # fmt: skip
T = M.given("target", "T", "mm", 800, span=(10, 4000), meaning="length that is wanted next")
k = M.given("coverage", r"\kappa", "", 2, span=(1, 3), meaning="coverage factor: 2 for about 95 %")
allowed = M.given(
    "allowed", r"U_{\mathrm{max}}", "mm", 0.2, span=(0.01, 5),
    meaning="allowed expanded uncertainty of the calibrated scale"
)  # fmt: skip
zero_ = sp.Symbol("zero", real=True)

far = M.relation(
    "span", "S", "mm", R_2 - R_1, meaning="distance of the two readings",
    because="the farther apart, the surer the scale"
)  # fmt: skip
b = M.relation(
    "slope", "b", "", (L_2 - L_1) / far, meaning="part's length for each unit read", resolution=1e-5,
    because="between the cuts the part grew by this for what the reading grew",
)  # fmt: skip
z = M.result(
    "zero", "z", "mm", L_1 - b * R_1, resolution=0.01, meaning="part's length at reading zero: the zero error",
    because="from the first cut back along the line",
    lines=[(equal(sp.Matrix([zero_ + R_1 * b, zero_ + R_2 * b]), sp.Matrix([L_1, L_2])),
            "the line, zero error and slope, passes through both cuts"),
           ((L_1 * R_2 - L_2 * R_1) / far, "both cuts taken alike: the determinant over the distance")],
)  # fmt: skip
s = M.result(
    "scale_error", r"\sigma", "mm/m", b - 1, resolution=0.01, meaning="what parts are longer for each meter read",
    because="a true scale has slope one",
)  # fmt: skip
u_b = M.result(
    "scale_u", r"u_{b}", "mm/m", sp.sqrt(2) * u / sp.Abs(far), resolution=0.01,
    meaning="standard uncertainty of the scale error",
    because="two independent cuts, over their distance",
    lines=[(sp.sqrt((u / far) ** 2 + (u / far) ** 2), "each cut moves the slope by its error over the distance")],
)  # fmt: skip
u_z = M.result(
    "zero_u", r"u_{z}", "mm", u * sp.sqrt(R_1**2 + R_2**2) / sp.Abs(far), resolution=0.01,
    meaning="standard uncertainty of the zero error",
    because="each cut moves the zero by the lever of the other reading",
    lines=[(sp.sqrt((R_2 / far * u) ** 2 + (-R_1 / far * u) ** 2), "the determinant, by each part's length in turn")],
)  # fmt: skip
r = M.result(
    "correlation", r"\varrho", "", -(R_1 + R_2) / sp.sqrt(2 * (R_1**2 + R_2**2)), resolution=0.001,
    meaning="correlation of zero error and scale error",
    because="a cut that comes out long lifts the one and lowers the other",
    lines=[((R_2 / far * (-u / far) - R_1 / far * (u / far)) * u / (u_z * u_b),
            "the covariance, for each cut the product of its two levers, over both uncertainties")],
    source="JCGM 100:2008, 5.2.2",
)  # fmt: skip
to = M.result(
    "set_to", "R", "mm", (T - z) / b, resolution=0.01, meaning="reading to set for the wanted length",
    because="the line, turned round",
)  # fmt: skip
mid = M.relation(
    "middle", r"R_{\mathrm{m}}", "mm", (R_1 + R_2) / 2, meaning="reading in the middle of the test cuts",
    because="there zero and scale errors balance",
)  # fmt: skip
v = M.result(
    "line_u", r"u_{R}", "mm", u * sp.sqrt(sp.Rational(1, 2) + 2 * ((to - mid) / far) ** 2), resolution=0.01,
    meaning="standard uncertainty of the calibrated scale at that reading",
    because="it is least in the middle, a cut's over √2, and grows with the distance from there",
    lines=[(sp.sqrt(((R_2 - to) / far * u) ** 2 + ((to - R_1) / far * u) ** 2),
            "the line divides each cut's error by the lever rule"),
           (sp.sqrt(u_z**2 + (to * u_b) ** 2 + 2 * r * to * u_z * u_b),
           "the same from zero, scale and their correlation")],
)  # fmt: skip
U = M.result(
    "expanded", "U", "mm", k * v, resolution=0.01,
    meaning="expanded uncertainty of the calibrated scale at that reading",
    because="the coverage factor widens it",
)  # fmt: skip
M.result(
    "next_u", r"u_{\mathrm{p}}", "mm", sp.sqrt(v**2 + u**2), resolution=0.01,
    meaning="standard uncertainty of the next part set by the calibrated scale",
    because="the next cut adds its own spread to that of the line",
)  # fmt: skip
reach = M.relation(
    "reach", "w", "mm", sp.Abs(far) / 2 * sp.sqrt(sp.Max(0, 2 * (allowed / (k * u)) ** 2 - 1)), resolution=1,
    meaning="how far from the middle the scale can be trusted",
    because="the line's uncertainty, set to what is allowed and turned round; zero where the middle is not enough",
)  # fmt: skip
M.result("trust_from", r"R_{\mathrm{a}}", "mm", sp.Max(0, mid - reach), resolution=1,
         meaning="least reading at which the calibrated scale is sure enough",
         because="down from the middle, but not below nothing")  # fmt: skip
M.result("trust_to", r"R_{\mathrm{b}}", "mm", mid + reach, resolution=1,
         meaning="largest reading at which the calibrated scale is sure enough",
         because="up from the middle")  # fmt: skip
M.result(
    "shift", r"\Delta c", "mm", (L_1 + L_2) / 2 - mid, resolution=0.01,
    meaning="how far the cursor line moves out to make the scale true in the middle",
    because="parts that come out long want a smaller stop distance for each reading",
    lines=[(z + (b - 1) * mid, "zero error and the scale's error as far as the middle")],
)  # fmt: skip
M.limit(
    "sure", "at that reading the scale is sure to", value=U, allowed=allowed,
    mend="place the test cuts farther apart, make more of them, or measure them better",
)  # fmt: skip
M.caution(*SCALE)
M.caution(TEST_CUT)
M.caution(
    "The scale error is within twice its uncertainty: correct the zero only.", when=sp.Le(sp.Abs(s), 2 * u_b)
)
M.caution("The wanted reading lies outside the test cuts, where the band opens fast: cut one more out there.",
          when=sp.Gt(sp.Abs(to - mid), sp.Abs(far) / 2))  # fmt: skip
MODEL = M.done()
