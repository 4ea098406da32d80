"""What test cuts say.

Is the setting off, by how much and how surely, and do the parts scatter as predicted?

In the trade's words: I cut five parts at one setting and measured them. Their mean is a hair long. Is that the setting,
or chance? What do I set now, and do the parts scatter as the budget of the chain said?

Picture: Measured and predicted error with their bars, the two taken together, and the scatter with its ends.

Assumptions:
- the parts are cut at one setting and independent of each other
- the parts scatter like a normal distribution
- the measuring tool is off by the same for all of them
- prediction and test are independent

Sources:
- NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.2: confidence limits for the mean; 1.3.5.8: chi-square for the
  standard deviation
- JCGM 100:2008 (GUM), G.3: Student's t; from memory
- ISO/IEC 17043, B.3: normalized error; from memory

Notes: The scatter of the parts with the ends between which the true one lies. Also: weighted mean.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.core.model.input_terms import amounts, count
from kit.subjects.safety import PART_MEASURING

M = Model("accuracy.batch", __doc__)
T = M.given("target", "T", "600 mm", (20, 3000), "length that was set")
mean = M.given("mean", r"\bar{L}", "600.22 mm", (19, 3005), "mean length of the parts")
M.measured("calipers or checked rule, each part once")
s = M.given("deviation", "s", "0.06 mm", (0.001, 3), "standard deviation of the parts")
M.measured("root of the sum of squares about the mean over one less than the parts")
n = M.given("parts", "n", "5", (2, 100), "parts cut and measured")
t = M.given("student", r"t_{95}", "2.78", (1.9, 13), "Student's factor for 95 %")
M.source("Student's t with one degree of freedom less than parts, any table")
low = M.given("least", r"c_{1}", "0.5991", (0.4, 0.999), "least true deviation over the measured one, 95 %")
M.source("chi-square, any table")
high = M.given("most", r"c_{2}", "2.8736", (1, 32), "largest true deviation over the measured one, 95 %")
M.source("chi-square, any table")
M.pick(
    "cuts",
    "small_samples",
    "5 parts",
    {"parts": "parts", "student": "t95", "least": "least95", "most": "most95"},
    "how many parts were cut",
)
u_m = M.given(
    "tool_u", r"u_{\mathrm{m}}", "0.02 mm", (0, 1), "standard uncertainty of the measuring tool, the same for all parts"
)
M.measured("its certificate, or a gauge block")
d_p = M.given("predicted", r"\delta_{\mathrm{p}}", "0 mm", (-3, 3), "predicted error of the setting")
u_p = M.given(
    "predicted_u",
    r"u_{\mathrm{p}}",
    "0.19 mm",
    (0.005, 3),
    "predicted standard uncertainty that the whole batch shares",
)
M.measured("accuracy from scale to cut part")
s_p = M.given(
    "predicted_deviation", r"\sigma_{\mathrm{p}}", "0.054 mm", (0.001, 3), "predicted standard deviation of the parts"
)
M.measured("accuracy from scale to cut part")
allowed = M.given("allowed", r"\delta_{\mathrm{max}}", "0.5 mm", (0.02, 5), "tolerance, plus or minus")
i = sp.Symbol("i", integer=True)

b = M.result(
    "bias", "b", "mm", "measured error of the setting: parts longer (plus) or shorter", resolution=0.01, signed=True
)
M.equals(mean - T, "the mean stands for the setting: the scatter evens out")
s_b = M.relation("mean_u", r"s_{\bar{L}}", "mm", "standard deviation of the mean", resolution=0.001)
M.step(sp.sqrt(sp.Sum((s / n) ** 2, (i, 1, n))), "each part counts an n-th; their squares add")
M.equals(s / sp.sqrt(n), "the root of an n-th")
U_b = M.result(
    "bias_expanded", r"U_{b}", "mm", "expanded uncertainty of the measured error, about 95 %", resolution=0.01
)
M.equals(
    sp.sqrt((t * s_b) ** 2 + (2 * u_m) ** 2),
    "few parts know their own scatter badly, hence Student's factor for them and 2 for the tool",
)
M.source("JCGM 100:2008, G.3")
s_1 = M.result("scatter_from", r"\sigma_{1}", "mm", "least true deviation of the parts, 95 %", resolution=0.001)
M.equals(low * s, "the sum of squares over the true variance is a chi-square, cut off at its upper end")
s_2 = M.result("scatter_to", r"\sigma_{2}", "mm", "largest true deviation of the parts, 95 %", resolution=0.001)
M.equals(high * s, "the same, cut off at its lower end")
E_n = M.result(
    "normalized",
    r"E_{n}",
    "",
    "normalized error: measured less predicted, over the expanded uncertainties of both",
    resolution=0.01,
    signed=True,
)
M.equals((b - d_p) / sp.sqrt(U_b**2 + (2 * u_p) ** 2), "their difference is as uncertain as both together")
M.source("ISO/IEC 17043, B.3")
w = M.relation("weight", "w", "", "weight of the test against the prediction", resolution=0.01)
M.step((1 / (U_b / 2) ** 2) / (1 / (U_b / 2) ** 2 + 1 / u_p**2), "each counts by one over its variance")
M.equals(u_p**2 / (u_p**2 + (U_b / 2) ** 2), "the same, without fractions")
d = M.result(
    "estimate",
    r"\hat{\delta}",
    "mm",
    "error of the setting, prediction and test taken together",
    resolution=0.01,
    signed=True,
)
M.step(
    equal((d - d_p) / u_p**2, (b - d) / (U_b / 2) ** 2),
    "the two pull at it like springs, each as stiff as it is sure",
)
M.equals(d_p + w * (b - d_p), "from the prediction toward the test by its weight")
M.result("estimate_u", r"u_{\hat{\delta}}", "mm", "standard uncertainty of that error", resolution=0.001)
M.step(1 / sp.sqrt(1 / u_p**2 + 1 / (U_b / 2) ** 2), "one over the variance, each, add")
M.equals(u_p * sp.sqrt(1 - w), "the test takes its weight off the prediction's variance")
M.result("set_to", r"T_{\mathrm{s}}", "mm", "length to set now", resolution=0.01, setting=True)
M.equals(T - d, "what parts come out too long is taken off")
next_ = M.result(
    "next_within", r"w_{95}", "mm", "how far one more part at this setting may be from the mean, 95 %", resolution=0.01
)
M.step(t * sp.sqrt(s**2 + s_b**2), "its own variance and the mean's add")
M.equals(t * s * sp.sqrt(1 + 1 / n), "the parts' deviation stands in both")
off = M.result(
    "next_off",
    r"\delta_{95}",
    "mm",
    "how far one more part at this setting may be from the target, 95 %",
    resolution=0.01,
)
M.equals(sp.Abs(b) + next_, "the measured error, and that much more on its side")
M.limit("agrees", "prediction and test differ, over their uncertainties, by", sp.Abs(E_n), "<=", 1, resolution=0.01)
M.mend("look for what the budget leaves out, or for a slip in setting or measuring")
M.limit("scatter_less", "the predicted deviation is", s_p, "<=", s_2, resolution=0.001)
M.mend("believe the parts, which scatter less: shrink the half-widths that come anew with each part")
M.limit("scatter_more", "the predicted deviation is", s_p, ">=", s_1, resolution=0.001)
M.mend("find what moves from cut to cut and is missing in the budget")
M.limit("within", "without a new setting the next part may be off by", off, "<=", allowed)
M.mend("set the new length and cut again")
M.caution(*PART_MEASURING)
M.caution(
    "The measured error is within its own uncertainty: leave the setting, or cut more parts.",
    when=sp.Le(sp.Abs(b), U_b),
)
M.caution("Two or three parts know their scatter badly: cut five or more before you trust it.", when=sp.Lt(n, 4))
M.ask(
    amounts("lengths", "measured parts, one by one", span=(0, 100_000)),
    count("next", "how many more are cut at this setting; as many again where none is stated"),
)

MODEL = M.done()
