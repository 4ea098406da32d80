"""Accuracy from scale to cut part.

How far may a cut part be off, how likely is a whole batch within tolerance, and what must be improved?

In the trade's words: tape, cursor, block, key, fence, blade: each is off by a hair. What is left of my tolerance when
they meet in one part, and what are the chances of a whole batch that is cut at one setting?

Picture: A bar for each contributor, as long as it can be off either way; below, the bell of the parts between the two
lines of the tolerance.

Assumptions:
- each error lies evenly within its half-width and independent of the others
- errors act along the part's length and add
- the batch is cut at one setting: some errors stay for all of it, the others come anew with each part
- the sum is near normal; Monte Carlo shows how near

Sources:
- JCGM 100:2008 (GUM), 4.3.7, 5.1.2 and 6.2: evenly spread errors, their propagation, expanded uncertainty
- worst case and root sum of squares: common practice of tolerancing, from memory

Notes: A bar for each contributor, as long as it can be off either way, dark where one error stays for the whole batch,
light where it comes anew with every part. Also: the normal distribution's error function; Wood Handbook, FPL-GTR-190,
chapter 4.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.core.model.expressions import below
from kit.subjects.accuracy.contributors import Contributor, anew, shared
from kit.subjects.safety import PART_MEASURING
from kit.subjects.stop.season import ALONG_ASSUMPTION, ALONG_SOURCE

M = Model("accuracy.chain", __doc__, assumptions=(ALONG_ASSUMPTION,), sources=(ALONG_SOURCE,))
T = M.given("target", "T", "600 mm", (20, 3000), "length of the part that is wanted")
t = M.given("tolerance", "t", "0.5 mm", (0.05, 5), "tolerance, plus or minus")
n = M.count("parts", "n", 20, (1, 500), "parts cut at one setting")
b = M.given("bias", "b", "0 mm", (-3, 3), "known error of the setting: part longer (plus) or shorter")
M.measured("mean of test cuts less their target; its doubt belongs to the zero's half-width")
W = M.given(
    "face_distance", "W", "60 mm", (0, 600), "across the part, from where the stop touches to where it is measured"
)
M.measured("rule")
common, each = shared(M, T, W), anew(M, W)
U_w = M.given("wish", r"U_{\mathrm{w}}", "0.2 mm", (0.01, 5), "required expanded uncertainty")
kappa = M.given(
    "one_sided",
    r"\kappa",
    "1.645",
    (0, 4),
    "factor that guards against parts too short; 1.645 lets one in twenty through",
)
M.source("quantile of the normal distribution, any table")
P_min = M.given("batch_least", r"P_{\mathrm{min}}", "90 %", (1, 99.9), "chance that the whole batch must have")
x, i = sp.Symbol("x", real=True), sp.Symbol("i", integer=True)
halves = [c.half for c in (*common, *each)]


def _squares(name: str, label: str, contributors: tuple[Contributor, ...], meaning: str) -> sp.Symbol:
    """State the sum of squared half-widths of some contributors."""
    squares = M.relation(name, rf"\Sigma_{{\mathrm{{{label}}}}}", "mm^2", meaning, resolution=1e-5)
    M.equals(
        sp.Add(*(c.half**2 for c in contributors)),
        "independent errors add like the sides of a right angle, by their squares",
    )
    M.source("common practice of tolerancing")
    return squares


def _deviation(name: str, label: str, squares: sp.Expr, meaning: str) -> sp.Symbol:
    """State the standard deviation that belongs to a sum of squared half-widths."""
    deviation = M.result(name, rf"u_{{\mathrm{{{label}}}}}", "mm", meaning, resolution=0.001)
    M.step(
        sp.sqrt(squares * sp.Integral(x**2 / 2, (x, -1, 1))),
        "each chance x lies evenly from -1 to 1, which gives its mean square",
    )
    M.equals(sp.sqrt(squares / 3), "each is its half-width over √3, and independent errors add by their squares")
    M.source("JCGM 100:2008, 4.3.7 and 5.1.2")
    return deviation


chances = [
    c.half * M.chance(f"{c.half.name}_chance", rf"\xi_{{{c.label}}}", f"{c.words}; as a part of its half-width")
    for c in (*common, *each)
]
M.result("part_error", r"\delta", "mm", "part longer (plus) or shorter than wanted", resolution=0.01, signed=True)
M.equals(
    b + sp.Add(*chances), "each error is its half-width times where chance lets it lie, and they add along the part"
)
worst = M.result("worst", r"\delta_{\mathrm{w}}", "mm", "worst case", resolution=0.01)
M.equals(sp.Abs(b) + sp.Add(*halves), "at worst every error lies at its end and on the same side")
of_batch = _squares("common_squares", "c", common, "squares of what the whole batch shares, summed")
of_part = _squares("each_squares", "e", each, "squares of what comes anew with each part, summed")
M.result(
    "root_sum",
    r"\delta_{\mathrm{r}}",
    "mm",
    "root sum of squares of the half-widths: three standard deviations if each half-width is three",
    resolution=0.01,
)
M.step(sp.sqrt(sp.Add(*(h**2 for h in halves))), "all contributors at once")
M.equals(sp.sqrt(of_batch + of_part), "the root of all squares")
M.source("common practice of tolerancing")
u_c = _deviation("common_u", "c", of_batch, "standard uncertainty that the whole batch shares")
u_e = _deviation("each_u", "e", of_part, "standard deviation of the parts within the batch")
u = M.result("u", "u", "mm", "standard uncertainty of a part's length", resolution=0.001)
M.step(sp.sqrt((of_batch + of_part) / 3), "all squares at once")
M.equals(sp.sqrt(u_c**2 + u_e**2), "what is shared and what is not are independent of each other")
U = M.result("expanded", "U", "mm", "expanded uncertainty (k = 2, about 95 %)", resolution=0.01)
M.equals(2 * u, "two standard uncertainties")
M.source("JCGM 100:2008, 6.2")
P_1 = M.result("one_within", r"P_{1}", "%", "chance of one part within tolerance", resolution=0.1)
M.step(
    sp.Integral(sp.exp(-((x - b) ** 2) / (2 * u**2)), (x, -t, t)) / (sp.sqrt(2 * sp.pi) * u),
    "the bell of the parts, x from line to line",
)
M.equals(below(t - b, u) - below(-t - b, u), "what lies below the upper line, less what lies below the lower")
at = b + i * u_c / 10
P_n = M.result("batch_within", r"P_{n}", "%", "chance of the whole batch within tolerance", resolution=0.1)
M.equals(
    sp.Sum(sp.exp(-(i**2) / sp.Integer(200)) * (below(t - at, u_e) - below(-t - at, u_e)) ** n, (i, -60, 60))
    / (10 * sp.sqrt(2 * sp.pi)),
    "wherever the shared error lies, each part has its own chance, to the power of the parts; the integral over the "
    "shared bell is summed by tenths of its deviation, six deviations either way",
)
M.result(
    "batch_alone", r"P_{\mathrm{a}}", "%", "what it would be if nothing were shared; it says too little", resolution=0.1
)
M.equals(P_1**n, "chances of independent parts multiply")
g = M.result("guard", "g", "mm", "guard: how much longer to aim, as what is too long can be cut again", resolution=0.01)
M.equals(sp.Max(0, kappa * u - t), "so far the lower end of the parts would reach below the tolerance")
aim = M.result("aim", r"T_{\mathrm{s}}", "mm", "length to set: bias taken off, guard added", resolution=0.01)
M.step(equal(aim + b - T, g), "the mean of the parts then lies above the wanted length by the guard")
M.equals(T - b + g, "the bias comes back with the cut, the guard stays")
for name, label, other in (("common", "c", u_e), ("each", "e", u_c)):
    M.result(
        f"{name}_needed",
        rf"u_{{\mathrm{{{label},w}}}}",
        "mm",
        (
            f"what {'the shared part' if name == 'common' else 'the deviation within the batch'} must come down to "
            "for the required uncertainty, the rest as it is; 0: not enough alone"
        ),
        resolution=0.001,
    )
    M.equals(
        sp.Piecewise((sp.sqrt((U_w / 2) ** 2 - other**2), U_w > 2 * other), (0, True)),
        "the sum of squares, set to the required uncertainty and solved for the contribution",
    )

M.limit("tolerance", "parts are known to", U, "<=", t)
M.mend("shrink what stands first in the budget, or widen the tolerance")
M.limit("batch", "the whole batch is within tolerance with a chance of", P_n, ">=", P_min)
M.mend("take off the bias by a test cut, shrink what the batch shares, or cut fewer at one setting")
M.caution(*PART_MEASURING)
M.caution(
    "One contributor makes more than half of the variance: the normal distribution is only rough, see Monte Carlo.",
    when=sp.Gt(sp.Max(*halves) ** 2 / 3, u**2 / 2),
)
M.caution("Even the worst case is within tolerance: there is no need to improve.", when=sp.Le(worst, t))
M.caution(
    "The batch shares nearly all of its error: cut one, measure it, correct, then cut the rest.",
    when=sp.Lt(u_e, u_c / 4),
)
M.caution("Aim longer and cut again, but never trim a sliver or hold a short piece by hand.", when=sp.Gt(g, 0))
MODEL = M.done()
