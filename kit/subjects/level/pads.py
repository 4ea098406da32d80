"""Height of a pad under a foot.

How high must a pad be so that the bed comes in line or a little above, and how likely does it?

In the trade's words: the bed is so deep at this foot, give or take. The bed must not lie low, for then work catches at
its edge; it may stand proud, but no more than so much. How high do I make the pad, what height can the printer or the
planer make, and how often will it come out low, or too proud?

Picture: From the side: the line of the supports, the machine's foot on its pad, and the bell curve in which the bed's
height comes out against the line.

Assumptions:
- the errors of depth and pad are independent, and their sum spreads normally
- raising a foot raises the bed above it by as much
- what foot, pad and floor give way under the weight, beyond what they did when measured, is stated

Sources:
- M. Abramowitz and I. Stegun, Handbook of Mathematical Functions, 7.1.1 and 26.2.29, from memory
- JCGM 100:2008 (GUM), 4.3.7 and 5.1.2

Notes: After the pad is in, the bed's height against the line scatters in a bell curve: its tail below the line is
'low', its tail above the allowed band is 'too proud'.
"""

import sympy as sp

from kit.core.model import Model
from kit.core.model.expressions import below
from kit.core.model.input_terms import amount, rows, text
from kit.subjects.safety import HEAVY_MACHINE

M = Model("level.pads", __doc__)
D = M.given("depth", "D", "3.1 ± 0.14 mm", (0, 50), "depth of the bed below the line at this foot")
M.measured("from the plane of the bed", spread="normal")
u_D = M.given("u_depth", r"u_{D}", "0.07 mm", (0.001, 2), "standard uncertainty of that depth")
M.measured("from the plane of the bed")
band = M.given("band", "b", "0.4 mm", (0.01, 3), "how far the bed may stand proud; it may not lie low")
M.source("common practice, no source")
aim = M.given("aim", "a", "0.2 mm", (0, 3), "how far above the line you aim")
y = M.given("sink", "y", "0 ± 0.02 mm", (0, 5), "how much more foot and pad give way than when you measured")
M.measured("weight on the foot over its stiffness")
r = M.given("step", "r", "0.1 mm", (0.01, 2), "step in which the pad can be made: layer, card or planer's stop")
e = M.given("made_error", r"e_{\mathrm{h}}", "0.05 mm", (0, 1), "how far the pad may come out wrong, either way")
M.measured("calipers on pads made before")
wanted = M.given("wanted", r"P_{\mathrm{min}}", "90 %", (50, 99.9), "likelihood that you ask for")
thin = M.constant(
    "thin", r"h_{\mathrm{thin}}", "1 mm", "thinnest pad that keeps its shape", "common practice, no source"
)
v = sp.Symbol("v", real=True)

T = M.relation("height_wanted", "T", "mm", "height wanted", resolution=0.01)
M.equals(D + aim + y, "the pad fills the depth, lifts to the aim, and makes up for what gives way")
h = M.result("height", "h", "mm", "height of the pad to make", resolution=0.01)
M.equals(r * sp.floor(T / r + sp.Rational(1, 2)), "the nearest whole number of steps")
rounding = M.relation("rounding", r"\Delta_{\mathrm{r}}", "mm", "what the step adds or takes", resolution=0.01)
M.equals(h - T, "the step decides")
mu = M.result("proud", r"\mu", "mm", "how proud the bed will stand, at best knowledge", resolution=0.01)
M.step(aim + rounding, "the aim, and what the step added or took")
M.equals(h - D - y, "the pad lifts by its height; the depth and what gives way go off")
u = M.result("u", "u", "mm", "standard uncertainty of how proud the bed will stand", resolution=0.001)
M.equals(sp.sqrt(u_D**2 + e**2 / 3), "independent errors add by their squares; the pad's is rectangular")
M.source("JCGM 100:2008, 4.3.7 and 5.1.2")
bell = sp.exp(-(v**2) / 2) / sp.sqrt(2 * sp.pi)
low = M.result("chance_low", r"P_{\mathrm{low}}", "%", "likelihood that the bed lies low", resolution=0.1)
M.step(sp.Integral(bell, (v, -sp.oo, -mu / u)), "everything more than μ below what is expected, in units of u")
M.equals(below(-mu, u), "the tail of the bell curve below the line, by the error function")
high = M.result("chance_high", r"P_{\mathrm{high}}", "%", "likelihood that the bed stands too proud", resolution=0.1)
M.step(sp.Integral(bell, (v, (band - mu) / u, sp.oo)), "everything above the band")
M.equals(below(mu - band, u), "the tail above the band, by the error function")
inside = M.result("chance", "P", "%", "likelihood that the bed comes in line or within the band", resolution=0.1)
M.step(sp.Integral(bell, (v, -mu / u, (band - mu) / u)), "the bell curve over the band")
M.equals(1 - low - high, "neither tail")
best = M.result("chance_best", r"P_{\mathrm{best}}", "%", "best likelihood that any pad can have", resolution=0.1)
M.step(sp.Integral(bell, (v, -band / (2 * u), band / (2 * u))), "half the band to either side")
M.equals(
    sp.erf(band / (2 * sp.sqrt(2) * u)),
    "the bell curve is even and highest at its middle: aimed at half the band, both tails are equal",
)

M.limit("chance", "the bed comes in line or within the band with", inside, ">=", wanted)
M.mend("aim at half the band, measure the depth more surely, or make the pad in finer steps")
M.limit("step", "the step moves the pad by", sp.Abs(rounding), "<=", band / 2, in_unit="mm", resolution=0.01)
M.mend("make the pad in finer steps, or lay a card under it")
M.caution(*HEAVY_MACHINE)
M.caution(
    "A pad of no height is wanted here: the bed stands high enough; lower the supports or plane the bench.",
    when=sp.Le(h, 0),
)
M.caution(
    "A pad thinner than 1 mm breaks or curls: use card, shim or veneer instead.",
    when=sp.And(sp.Gt(h, 0), sp.Lt(h, thin)),
)
M.ask(
    rows(
        "feet",
        "the machine's feet, in turn round it",
        text("name", "what the foot is called", needed=True),
        amount("x", "place along the bed", span=(-5000, 5000), needed=True),
        amount("y", "place across the bed", span=(-5000, 5000), needed=True),
        key="name",
        most=4,
    ),
)

MODEL = M.done()
