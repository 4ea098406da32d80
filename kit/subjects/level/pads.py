"""How high must the pad under a foot be, so that the bed comes in line or a hair above, and how likely is that?

The question in the trade's words: the bed is so deep at this foot, give or take. The bed must not lie low, for then
work catches at its edge; it may stand proud, but no more than so much. How high do I make the pad, what height can
the printer or the planer make, and how often will it come out low, or too proud?

The picture, seen from the side: the line of the supports; below it, the machine's foot on its pad. After the pad is
in, the bed's height against the line scatters in a bell curve: its tail below the line is 'low', its tail above
the allowed band is 'too proud'.

Assumptions: the depth at the foot and the pad's height err independently, and their sum spreads normally; raising a
foot raises the bed above it by as much; foot and floor are hard, or what they give way is stated.

Sources: the normal distribution and its error function (M. Abramowitz and I. Stegun, Handbook of Mathematical
Functions, 7.1.1 and 26.2.29, from memory); JCGM 100:2008 (GUM), 4.3.7 and 5.1.2.
"""

import sympy as sp

from kit.core.model import Model
from kit.core.model.expressions import below
from kit.subjects.safety import HEAVY_MACHINE

M = Model(
    "level.pads",
    title="Height of a pad under a foot",
    question="How high must a pad be so that the bed comes in line or a little above, and how likely does it?",
    picture="From the side: the line of the supports, the machine's foot on its pad, and the bell curve in which the "
    "bed's height comes out against the line.",
    assumptions=(
        "the errors of depth and pad are independent, and their sum spreads normally",
        "raising a foot raises the bed above it by as much",
        "what foot, pad and floor give way under the weight, beyond what they did when measured, is stated",
    ),
    sources=(
        "M. Abramowitz and I. Stegun, Handbook of Mathematical Functions, 7.1.1 and 26.2.29, from memory",
        "JCGM 100:2008 (GUM), 4.3.7 and 5.1.2",
    ),
)
D = M.given("depth", "D", "mm", 3.1, span=(0, 50), half=0.14, spread="normal",
            meaning="depth of the bed below the line at this foot", how="from the plane of the bed")  # fmt: skip
u_D = M.given("u_depth", r"u_{D}", "mm", 0.07, span=(0.001, 2), meaning="standard uncertainty of that depth",
              how="from the plane of the bed")  # fmt: skip
band = M.given("band", "b", "mm", 0.4, span=(0.01, 3), meaning="how far the bed may stand proud; it may not lie low",
               source="common practice, no source")  # fmt: skip
aim = M.given("aim", "a", "mm", 0.2, span=(0, 3), meaning="how far above the line you aim")
y = M.given("sink", "y", "mm", 0, span=(0, 5), half=0.02,
            meaning="how much more foot and pad give way than when you measured",
            how="weight on the foot over its stiffness")  # fmt: skip
r = M.given(
    "step", "r", "mm", 0.1, span=(0.01, 2),
    meaning="step in which the pad can be made: layer, card or planer's stop",
)  # fmt: skip
e = M.given("made_error", r"e_{\mathrm{h}}", "mm", 0.05, span=(0, 1),
            meaning="how far the pad may come out wrong, either way",
            how="calipers on pads made before")  # fmt: skip
wanted = M.given(
    "wanted", r"P_{\mathrm{min}}", "%", 90, span=(50, 99.9), meaning="likelihood that you ask for"
)
thin = M.constant("thin", r"h_{\mathrm{thin}}", "mm", 1, meaning="thinnest pad that keeps its shape",
                  source="common practice, no source")  # fmt: skip
v = sp.Symbol("v", real=True)

T = M.relation("height_wanted", "T", "mm", D + aim + y, resolution=0.01, meaning="height wanted",
               because="the pad fills the depth, lifts to the aim, and makes up for what gives way")  # fmt: skip
h = M.result("height", "h", "mm", r * sp.floor(T / r + sp.Rational(1, 2)), resolution=0.01,
             meaning="height of the pad to make",
             because="the nearest whole number of steps")  # fmt: skip
rounding = M.relation("rounding", r"\Delta_{\mathrm{r}}", "mm", h - T, because="the step decides", resolution=0.01,
                      meaning="what the step adds or takes")  # fmt: skip
mu = M.result("proud", r"\mu", "mm", h - D - y, resolution=0.01,
              meaning="how proud the bed will stand, at best knowledge",
              because="the pad lifts by its height; the depth and what gives way go off",
              lines=[(aim + rounding, "the aim, and what the step added or took")])  # fmt: skip
u = M.result("u", "u", "mm", sp.sqrt(u_D**2 + e**2 / 3), resolution=0.001, source="JCGM 100:2008, 4.3.7 and 5.1.2",
             meaning="standard uncertainty of how proud the bed will stand",
             because="independent errors add by their squares; the pad's is rectangular")  # fmt: skip
bell = sp.exp(-(v**2) / 2) / sp.sqrt(2 * sp.pi)
low = M.result("chance_low", r"P_{\mathrm{low}}", "%", below(-mu, u), resolution=0.1,
               meaning="likelihood that the bed lies low",
               because="the tail of the bell curve below the line, by the error function",
               lines=[(sp.Integral(bell, (v, -sp.oo, -mu / u)),
               "everything more than μ below what is expected, in units of u")])  # fmt: skip
high = M.result("chance_high", r"P_{\mathrm{high}}", "%", below(mu - band, u), resolution=0.1,
                meaning="likelihood that the bed stands too proud",
                because="the tail above the band, by the error function",
                lines=[(sp.Integral(bell, (v, (band - mu) / u, sp.oo)), "everything above the band")])  # fmt: skip
inside = M.result("chance", "P", "%", 1 - low - high, resolution=0.1,
                  meaning="likelihood that the bed comes in line or within the band",
                  because="neither tail",
                  lines=[(sp.Integral(bell, (v, -mu / u, (band - mu) / u)),
                  "the bell curve over the band")])  # fmt: skip
best = M.result("chance_best", r"P_{\mathrm{best}}", "%", sp.erf(band / (2 * sp.sqrt(2) * u)), resolution=0.1,
                meaning="best likelihood that any pad can have",
                because="the bell curve is even and highest at its middle: aimed at half the band, both tails are "
                "equal",
                lines=[(sp.Integral(bell, (v, -band / (2 * u), band / (2 * u))),
                "half the band to either side")])  # fmt: skip

M.limit("chance", "the bed comes in line or within the band with", value=inside, allowed=wanted, sense=">=",
        mend="aim at half the band, measure the depth more surely, or make the pad in finer steps")  # fmt: skip
M.limit("step", "the step moves the pad by", value=sp.Abs(rounding), allowed=band / 2, in_unit="mm", resolution=0.01,
        mend="make the pad in finer steps, or lay a card under it")  # fmt: skip
M.caution(*HEAVY_MACHINE)
M.caution("A pad of no height is wanted here: the bed stands high enough; lower the supports or plane the bench.",
          when=sp.Le(h, 0))  # fmt: skip
M.caution("A pad thinner than 1 mm breaks or curls: use card, shim or veneer instead.",
          when=sp.And(sp.Gt(h, 0), sp.Lt(h, thin)))  # fmt: skip
MODEL = M.done()
