"""What do a few test cuts say: is the setting off, how much do the parts scatter, and was the prediction right?

The question in the trade's words: I cut five parts at one setting and measured them. Their mean is a hair long. Is
that the setting, or chance? What do I set now, and do the parts scatter as the budget of the chain said?

The picture: the measured error with its bar, the predicted error with its own bar beside it, both taken together
below; the scatter of the parts with the ends between which the true one lies.

Assumptions: the parts are cut at one setting, one after the other, and independent; they scatter like a normal
distribution; the measuring tool's own error is the same for all of them; prediction and test are independent.

Sources: Student's t and chi-square for small samples as in the NIST/SEMATECH e-Handbook of Statistical Methods,
1.3.5.2 and 1.3.5.8; JCGM 100:2008 (GUM), G.3; normalized error as in ISO/IEC 17043, B.3 (from memory); weighted mean.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import PART_MEASURING

M = Model(
    "accuracy.batch",
    title="What test cuts say",
    question="Is the setting off, by how much and how surely, and do the parts scatter as predicted?",
    picture="Measured and predicted error with their bars, the two taken together, and the scatter with its ends.",
    assumptions=(
        "the parts are cut at one setting and independent of each other",
        "the parts scatter like a normal distribution",
        "the measuring tool is off by the same for all of them",
        "prediction and test are independent",
    ),
    sources=(
        "NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.2: confidence limits for the mean; 1.3.5.8: chi-square "
        "for the standard deviation",
        "JCGM 100:2008 (GUM), G.3: Student's t; from memory",
        "ISO/IEC 17043, B.3: normalized error; from memory",
    ),
)
T = M.given("target", "T", "mm", 600, span=(20, 3000), meaning="length that was set")
mean = M.given(
    "mean", r"\bar{L}", "mm", 600.22, span=(19, 3005), meaning="mean length of the parts",
    how="calipers or checked rule, each part once",
)  # fmt: skip
s = M.given(
    "deviation", "s", "mm", 0.06, span=(0.001, 3), meaning="standard deviation of the parts",
    how="root of the sum of squares about the mean over one less than the parts",
)  # fmt: skip
n = M.given("parts", "n", "", 5, span=(2, 100), meaning="parts cut and measured", source="count")
t = M.given(
    "student", r"t_{95}", "", 2.78, span=(1.9, 13), meaning="Student's factor for 95 %",
    source="Student's t with one degree of freedom less than parts, any table",
)  # fmt: skip
low = M.given(
    "least", r"c_{1}", "", 0.5991, span=(0.4, 0.999), source="chi-square, any table",
    meaning="least true deviation over the measured one, 95 %",
)  # fmt: skip
high = M.given(
    "most", r"c_{2}", "", 2.8736, span=(1, 32), source="chi-square, any table",
    meaning="largest true deviation over the measured one, 95 %",
)  # fmt: skip
M.pick(
    "cuts", table="small_samples", row="5 parts", meaning="how many parts were cut",
    fills={"parts": "parts", "student": "t95", "least": "least95", "most": "most95"},
)  # fmt: skip
u_m = M.given(
    "tool_u", r"u_{\mathrm{m}}", "mm", 0.02, span=(0, 1), how="its certificate, or a gauge block",
    meaning="standard uncertainty of the measuring tool, the same for all parts",
)  # fmt: skip
d_p = M.given(
    "predicted", r"\delta_{\mathrm{p}}", "mm", 0, span=(-3, 3), meaning="predicted error of the setting"
)
u_p = M.given(
    "predicted_u", r"u_{\mathrm{p}}", "mm", 0.19, span=(0.005, 3),
    meaning="predicted standard uncertainty that the whole batch shares", how="accuracy from scale to cut part",
)  # fmt: skip
s_p = M.given(
    "predicted_deviation", r"\sigma_{\mathrm{p}}", "mm", 0.054, span=(0.001, 3),
    meaning="predicted standard deviation of the parts", how="accuracy from scale to cut part",
)  # fmt: skip
allowed = M.given(
    "allowed", r"\delta_{\mathrm{max}}", "mm", 0.5, span=(0.02, 5), meaning="tolerance, plus or minus"
)
estimate_, i = sp.Symbol("estimate", real=True), sp.Symbol("i", integer=True)

b = M.result(
    "bias", "b", "mm", mean - T, resolution=0.01, because="the mean stands for the setting: the scatter evens out",
    meaning="measured error of the setting: parts longer (plus) or shorter",
)  # fmt: skip
s_b = M.relation(
    "mean_u", r"s_{\bar{L}}", "mm", s / sp.sqrt(n), resolution=0.001, meaning="standard deviation of the mean",
    because="the root of an n-th",
    lines=[(sp.sqrt(sp.Sum((s / n) ** 2, (i, 1, n))), "each part counts an n-th; their squares add")],
)  # fmt: skip
U_b = M.result(
    "bias_expanded", r"U_{b}", "mm", sp.sqrt((t * s_b) ** 2 + (2 * u_m) ** 2), resolution=0.01,
    meaning="expanded uncertainty of the measured error, about 95 %", source="JCGM 100:2008, G.3",
    because="few parts know their own scatter badly, hence Student's factor for them and 2 for the tool",
)  # fmt: skip
s_1 = M.result(
    "scatter_from", r"\sigma_{1}", "mm", low * s, resolution=0.001, meaning="least true deviation of the parts, 95 %",
    because="the sum of squares over the true variance is a chi-square, cut off at its upper end",
)  # fmt: skip
s_2 = M.result(
    "scatter_to", r"\sigma_{2}", "mm", high * s, resolution=0.001, meaning="largest true deviation of the parts, 95 %",
    because="the same, cut off at its lower end",
)  # fmt: skip
E_n = M.result(
    "normalized", r"E_{n}", "", (b - d_p) / sp.sqrt(U_b**2 + (2 * u_p) ** 2), resolution=0.01,
    meaning="normalized error: measured less predicted, over the expanded uncertainties of both",
    because="their difference is as uncertain as both together", source="ISO/IEC 17043, B.3",
)  # fmt: skip
w = M.relation(
    "weight", "w", "", u_p**2 / (u_p**2 + (U_b / 2) ** 2), resolution=0.01, because="the same, without fractions",
    meaning="weight of the test against the prediction",
    lines=[((1 / (U_b / 2) ** 2) / (1 / (U_b / 2) ** 2 + 1 / u_p**2), "each counts by one over its variance")],
)  # fmt: skip
d = M.result(
    "estimate", r"\hat{\delta}", "mm", d_p + w * (b - d_p), resolution=0.01,
    meaning="error of the setting, prediction and test taken together",
    because="from the prediction toward the test by its weight",
    lines=[(equal((estimate_ - d_p) / u_p**2, (b - estimate_) / (U_b / 2) ** 2),
            "the two pull at it like springs, each as stiff as it is sure")],
)  # fmt: skip
M.result(
    "estimate_u", r"u_{\hat{\delta}}", "mm", u_p * sp.sqrt(1 - w), resolution=0.001,
    meaning="standard uncertainty of that error", because="the test takes its weight off the prediction's variance",
    lines=[(1 / sp.sqrt(1 / u_p**2 + 1 / (U_b / 2) ** 2), "one over the variance, each, add")],
)  # fmt: skip
M.result(
    "set_to", r"T_{\mathrm{s}}", "mm", T - d, resolution=0.01, meaning="length to set now",
    because="what parts come out too long is taken off",
)  # fmt: skip
next_ = M.result(
    "next_within", r"w_{95}", "mm", t * s * sp.sqrt(1 + 1 / n), resolution=0.01,
    meaning="how far one more part at this setting may be from the mean, 95 %",
    because="the parts' deviation stands in both",
    lines=[(t * sp.sqrt(s**2 + s_b**2), "its own variance and the mean's add")],
)  # fmt: skip
off = M.result(
    "next_off", r"\delta_{95}", "mm", sp.Abs(b) + next_, resolution=0.01,
    meaning="how far one more part at this setting may be from the target, 95 %",
    because="the measured error, and that much more on its side",
)  # fmt: skip
M.limit(
    "agrees", "prediction and test differ, over their uncertainties, by", value=sp.Abs(E_n), allowed=1, resolution=0.01,
    mend="look for what the budget leaves out, or for a slip in setting or measuring",
)  # fmt: skip
M.limit(
    "scatter_less", "the predicted deviation is", value=s_p, allowed=s_2, resolution=0.001,
    mend="believe the parts, which scatter less: shrink the half-widths that come anew with each part",
)  # fmt: skip
M.limit(
    "scatter_more", "the predicted deviation is", value=s_p, allowed=s_1, sense=">=", resolution=0.001,
    mend="find what moves from cut to cut and is missing in the budget",
)  # fmt: skip
M.limit("within", "without a new setting the next part may be off by", value=off, allowed=allowed,
        mend="set the new length and cut again")  # fmt: skip
M.caution(*PART_MEASURING)
M.caution(
    "The measured error is within its own uncertainty: leave the setting, or cut more parts.",
    when=sp.Le(sp.Abs(b), U_b),
)
M.caution(
    "Two or three parts know their scatter badly: cut five or more before you trust it.", when=sp.Lt(n, 4)
)
MODEL = M.done()
