"""Scale calibrated by two test cuts.

What do two test cuts say about a scale's zero and length, and which readings can then be trusted?

In the trade's words: I set the stop by the scale, once short and once long, cut, and measured both parts. How far is
the zero off, is the scale itself too long, and what must I set for the next part?

Picture: Measured part over reading: a straight line through two test cuts and its band, narrow between them and opening
outside.

Assumptions:
- part and reading lie on a straight line
- both cuts have the same standard uncertainty, of setting and measuring together, independent of each other
- one rule measures all parts; its error grows with the length and is the same for all
- readings are taken as set

Sources:
- straight line through two points
- JCGM 100:2008 (GUM), 5.1.2 and 5.2.2: propagation of uncertainty, with covariance, from memory

Notes: It meets the upright at the zero error, its slope is the scale. Also: JCGM 100:2008 (GUM), 5.1.2 and 5.2.2,
propagation with covariance. For three and more cuts: least squares, `kit.subjects.scale.line_fit`.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.core.model.input_terms import amount, rows
from kit.subjects.safety import SCALE, TEST_CUT

M = Model("scale.calibration", __doc__)
R_1 = M.given("reading_1", "R_{1}", "300 mm", (0, 2000), "reading of the first test cut")
R_2 = M.given("reading_2", "R_{2}", "1100 mm", (0, 4000), "reading of the second test cut")
L_1 = M.given("part_1", "L_{1}", "300.25 ± 0.14 mm", (0, 2000), "length of the first part")
M.measured("calipers or a checked rule")
L_2 = M.given("part_2", "L_{2}", "1100.5 ± 0.14 mm", (0, 4000), "length of the second part")
M.measured("checked rule")
u = M.given("cut_u", "u", "0.08 mm", (0.005, 2), "standard uncertainty of one test cut, setting and measuring together")
M.measured("spread of five cuts at one setting, each set anew")
T = M.given("target", "T", "800 mm", (10, 4000), "length that is wanted next")
rule = M.given(
    "rule_error",
    r"e_{\mathrm{r}}",
    "0.05 mm/m",
    (0, 2),
    "half-width: error of the rule that measures the parts, for each meter; the same for all cuts",
)
M.measured("certificate of the rule; class I of Directive 2014/32/EU: 0.1 mm/m and 0.1 mm")
k = M.given("coverage", r"\kappa", "2.78", (1, 13), "coverage factor for 95 %, by Student's t")
M.source("Student's t with one degree of freedom less than the cuts behind u, any table")
M.pick("trials", "small_samples", "5 parts", {"coverage": "t95"}, "cuts from whose spread u is known")
allowed = M.given(
    "allowed", r"U_{\mathrm{max}}", "0.2 mm", (0.01, 5), "allowed expanded uncertainty of the calibrated scale"
)
worst = M.constant(
    "worst_scale",
    r"\sigma_{\mathrm{max}}",
    "50 mm/m",
    "error beyond which a reading or a part was mistaken",
    "common practice, no source; a strip printed to fit the page is off by some 30 mm/m",
)

far = M.relation("span", "S", "mm", "distance of the two readings")
M.equals(R_2 - R_1, "the farther apart, the surer the scale")
b = M.relation("slope", "b", "", "part's length for each unit read", resolution=1e-5)
M.equals((L_2 - L_1) / far, "between the cuts the part grew by this for what the reading grew")
z = M.result("zero", "z", "mm", "part's length at reading zero: the zero error", resolution=0.01, signed=True)
M.step(
    equal(sp.Matrix([z + R_1 * b, z + R_2 * b]), sp.Matrix([L_1, L_2])),
    "the line, zero error and slope, passes through both cuts",
)
M.step((L_1 * R_2 - L_2 * R_1) / far, "both cuts taken alike: the determinant over the distance")
M.equals(L_1 - b * R_1, "from the first cut back along the line")
s = M.result(
    "scale_error", r"\sigma", "mm/m", "what parts are longer for each meter read", resolution=0.01, signed=True
)
M.equals(b - 1, "a true scale has slope one")
u_b = M.result("scale_u", r"u_{b}", "mm/m", "standard uncertainty of the scale error", resolution=0.01)
M.step(sp.sqrt((u / far) ** 2 + (u / far) ** 2), "each cut moves the slope by its error over the distance")
M.equals(sp.sqrt(2) * u / sp.Abs(far), "two independent cuts, over their distance")
u_z = M.result("zero_u", r"u_{z}", "mm", "standard uncertainty of the zero error", resolution=0.01)
M.step(sp.sqrt((R_2 / far * u) ** 2 + (-R_1 / far * u) ** 2), "the determinant, by each part's length in turn")
M.equals(u * sp.sqrt(R_1**2 + R_2**2) / sp.Abs(far), "each cut moves the zero by the lever of the other reading")
r = M.result(
    "correlation", r"\varrho", "", "correlation of zero error and scale error", resolution=0.001, within=(-1, 1)
)
M.step(
    (R_2 / far * (-u / far) - R_1 / far * (u / far)) * u / (u_z * u_b),
    "the covariance, for each cut the product of its two levers, over both uncertainties",
)
M.equals(-(R_1 + R_2) / sp.sqrt(2 * (R_1**2 + R_2**2)), "a cut that comes out long lifts the one and lowers the other")
M.source("JCGM 100:2008, 5.2.2")
to = M.result("set_to", "R", "mm", "reading to set for the wanted length", resolution=0.01, setting=True)
M.equals((T - z) / b, "the line, solved for the reading")
mid = M.relation("middle", r"R_{\mathrm{m}}", "mm", "reading in the middle of the test cuts")
M.equals((R_1 + R_2) / 2, "there zero and scale errors balance")
line_u = M.result(
    "line_u", r"u_{R}", "mm", "standard uncertainty of the line at that reading, from the cuts", resolution=0.01
)
M.step(
    sp.sqrt(((R_2 - to) / far * u) ** 2 + ((to - R_1) / far * u) ** 2),
    "the line divides each cut's error by the lever rule",
)
M.step(sp.sqrt(u_z**2 + (to * u_b) ** 2 + 2 * r * to * u_z * u_b), "the same from zero, scale and their correlation")
M.equals(
    u * sp.sqrt(sp.Rational(1, 2) + 2 * ((to - mid) / far) ** 2),
    "it is least in the middle, a cut's over √2, and grows with the distance from there",
)
u_r = M.relation("rule_u", r"u_{\mathrm{r}}", "mm/m", "standard uncertainty of the rule", resolution=0.001)
M.equals(rule / sp.sqrt(3), "anywhere within its half-width it is equally likely")
M.source("JCGM 100:2008, 4.3.7")
v = M.result(
    "reading_u",
    r"u_{\mathrm{s}}",
    "mm",
    "standard uncertainty of the calibrated scale at that reading",
    resolution=0.01,
)
M.equals(
    sp.sqrt(line_u**2 + (to * u_r) ** 2),
    "the rule stretches or shrinks all parts alike: no number of cuts tells, and a scale near the truth reads the part",
)
M.result(
    "even_half",
    r"h_{\mathrm{s}}",
    "mm",
    "half-width of an even spread as unsure as that, for the page on accuracy: zero and scale are in it",
    resolution=0.01,
)
M.step(sp.sqrt(3 * (line_u**2 + (to * u_r) ** 2)), "both variances, times three")
M.equals(sp.sqrt(3) * v, "a half-width over √3 is its standard uncertainty")
U = M.result("expanded", "U", "mm", "expanded uncertainty of the calibrated scale at that reading", resolution=0.01)
M.equals(k * v, "the coverage factor widens it")
M.result(
    "next_u",
    r"u_{\mathrm{p}}",
    "mm",
    "standard uncertainty of the next part set by the calibrated scale",
    resolution=0.01,
)
M.equals(sp.sqrt(v**2 + u**2), "the next cut adds its own spread to that of the line")
A = M.relation("opening", "A", "mm^2/m^2", "how fast the variance grows with the square of the reading")
M.equals(2 * (u / far) ** 2 + u_r**2, "the cuts' lever and the rule both grow with the reading")
best = M.relation("surest", r"R_{\mathrm{s}}", "mm", "reading at which the scale is surest", resolution=1)
M.equals(
    2 * (u / far) ** 2 * mid / A, "the rule pulls it from the middle of the cuts toward zero, where it does not count"
)
reach = M.relation("reach", "w", "mm", "how far from there the scale can be trusted", resolution=1)
M.equals(
    sp.sqrt(sp.Max(0, ((allowed / k) ** 2 - u**2 / 2 - best * mid * u_r**2) / A)),
    "the variance, set to what is allowed and solved for the reading; zero where even that place is not enough",
)
M.result(
    "trust_from",
    r"R_{\mathrm{a}}",
    "mm",
    "least reading at which the calibrated scale is within the required uncertainty",
    resolution=1,
)
M.equals(sp.Max(0, best - reach), "down from the surest reading, but not below nothing")
M.result(
    "trust_to",
    r"R_{\mathrm{b}}",
    "mm",
    "largest reading at which the calibrated scale is within the required uncertainty",
    resolution=1,
)
M.equals(best + reach, "up from there")
M.result(
    "shift",
    r"\Delta c",
    "mm",
    "how far the cursor line moves out to make the scale true in the middle",
    resolution=0.01,
    signed=True,
)
M.step(z + (b - 1) * mid, "zero error and the scale's error as far as the middle")
M.equals((L_1 + L_2) / 2 - mid, "parts that come out long want a smaller stop distance for each reading")
M.limit(
    "believable",
    "parts are longer or shorter for each meter read by",
    sp.Abs(s),
    "<=",
    worst,
    in_unit="mm/m",
    resolution=0.01,
)
M.mend("read again: no scale is so far off; a reading or a part was mistaken or exchanged")
M.limit("reading", "the reading to set is", to, ">=", 0)
M.mend("want a longer part or move the scale: that length is not on it")
M.limit("sure", "at that reading the scale is known to", U, "<=", allowed)
M.mend("place the test cuts farther apart, make more of them, or measure them better")
M.caution(*SCALE)
M.caution(TEST_CUT)
M.caution(
    "The scale error is within twice its uncertainty: correct the zero only.",
    when=sp.Le(sp.Abs(s), 2 * sp.sqrt(u_b**2 + u_r**2)),
)
M.caution(
    "The wanted reading lies outside the test cuts, where the band opens fast: cut one more out there.",
    when=sp.Gt(sp.Abs(to - mid), sp.Abs(far) / 2),
)
M.ask(
    rows(
        "cuts",
        "test cuts beyond the two of this page",
        amount("reading", "the scale's reading", span=(0, 100_000), needed=True),
        amount("part", "the length of the part that was cut", span=(0, 100_000), needed=True),
        amount(
            "u", "standard uncertainty of its length; that of the page's cuts where none is stated", span=(0.001, 100)
        ),
    ),
    amount("step", "from one line of the table to the next; 100 mm or 4 in where none is stated", span=(0.1, 100_000)),
)

MODEL = M.done()
