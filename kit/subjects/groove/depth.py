"""Depth set by a stack against the plunge stop.

How deep does a router cut that is set by a stack against its depth stop, and how surely?

In the trade's words: I let the bit touch the work, put a stack between the depth rod and its stop, lock the rod and
take the stack away. The plunge is then as deep as the stack is high: less a paper under the bit, more by what the stop
gives way, and the cards of the stack were squeezed.

Picture: The bit touches the work; a stack of blocks and cards stands between the depth rod and its stop. With the stack
away the router plunges by its height.

Assumptions:
- the base stands flat, the depth rod is parallel to the plunge
- each doubling of the pressure makes the pile of cards thinner by the same amount; solid blocks keep their height
- readings between limits are equally likely anywhere between and independent; the calipers' error is common to both
  readings of the pile

Sources:
- geometry of the plunge
- JCGM 100:2008 (GUM), 4.3.7 (rectangular distribution), 5.1.2 (independent errors), 6.2 (coverage factor)
- common practice for the depth of one pass, no source

Notes: The router stands on the work, its bit touching the face (or a paper on it). Without the stack the rod travels
just its height.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.core.model.expressions import doublings_before
from kit.drawing.paper import PAPER
from kit.subjects.safety import ROUTER

M = Model("groove.depth", __doc__)
want = M.given("wanted", r"z_{\mathrm{w}}", "12.8 mm", (0.5, 60), "wanted depth of the groove")
M.measured("calipers on the track that goes in")
g = M.given("blocks", "g", "12 ± 0.02 mm", (0, 60), "height of the solid blocks in the stack")
M.measured("calipers")
h_1 = M.given("pile_light", "h_{1}", "0.9 ± 0.02 mm", (0, 10), "height of the pile of cards, lightly pressed")
M.measured("calipers, jaws just closed")
h_2 = M.given("pile_firm", "h_{2}", "0.86 ± 0.02 mm", (0, 10), "height of the pile of cards, firmly pressed")
M.measured("calipers, jaws pressed")
p_1 = M.given("pressure_light", "p_{1}", "20 ± 5 kPa", (10, 60), "pressure of the light reading")
M.measured("force of the jaws over their area")
p_2 = M.given("pressure_firm", "p_{2}", "200 ± 40 kPa", (80, 500), "pressure of the firm reading")
M.measured("weight on the pile over the area that it presses")
F_r = M.given(
    "rod_force",
    r"F_{\mathrm{r}}",
    "6 ± 2 N",
    (0.5, 100),
    "force with which the rod rests on the stack when it is locked",
)
M.measured("kitchen scale")
d_r = M.given("rod", r"d_{\mathrm{r}}", "8 ± 0.1 mm", (3, 30), "diameter of the rod's end, or of a coin laid between")
M.measured("calipers")
z_0 = M.given("paper", "z_{0}", "0.1 ± 0.02 mm", (0, 2), "paper under the bit at its touch; 0 for none")
M.measured("calipers on ten folds, over ten")
F = M.given("push", "F", "80 ± 20 N", (0, 400), "push with which the router is held on its stop")
M.measured("bathroom scale")
k = M.given("stop_stiffness", "k", "2000 ± 800 N/mm", (100, 50000), "push on the stop over how far it gives way")
M.measured("push, read a dial gauge")
a_g = M.given("blocks_limit", "a_{g}", "0.02 mm", (0, 0.5), "limit of the blocks' error, plus or minus")
a_h = M.given("pile_limit", "a_{h}", "0.03 mm", (0, 0.5), "limit of the pile's error, plus or minus")
a_0 = M.given("touch_limit", "a_{0}", "0.05 mm", (0, 0.5), "limit of the touch's error, plus or minus")
s = M.given("repeat", "s", "0.03 mm", (0, 0.5), "standard deviation of repeated plunges")
M.measured("five test plunges, calipers")
off_max = M.given("allowed", r"\Delta z_{\mathrm{max}}", "0.2 mm", (0.01, 2), "most that the depth may be off")
T = M.given("board", "T", "24 ± 0.2 mm", (3, 120), "thickness of the board")
M.measured("calipers")
floor_min = M.given("floor_least", r"f_{\mathrm{min}}", "6 mm", (0, 50), "least wood to leave under the groove")
M.source("common practice, no source")
d = M.given("bit", "d", "12 ± 0.03 mm", (2, 50), "diameter of the bit")
M.measured("calipers")
kappa = M.given("pass_share", r"\kappa", "50 %", (10, 100), "deepest pass, of the bit's diameter")
M.source("common practice, no source")
x, v = sp.Symbol("x", real=True), sp.Symbol("v", positive=True)

p = M.relation("pressure", "p", "kPa")
M.step(F_r / sp.Integral(2 * sp.pi * x, (x, 0, d_r / 2)), "the round end is rings, each as long as its circle")
M.equals(4 * F_r / (sp.pi * d_r**2), "force over the area of the rod's end")
lam = M.relation("folds", r"\lambda", "")
M.equals(
    doublings_before(p, p_1, p_2),
    "so far the rod's pressure lies before the light reading's, in the measure of the step between the readings",
)
h = M.result("pile", "h", "mm", "height of the pile under the rod", resolution=0.01)
M.step(
    h_1 - (h_1 - h_2) * sp.Integral(1 / v, (v, p_1, p)) / sp.Integral(1 / v, (v, p_1, p_2)),
    "each small step of pressure takes its share: the same for each doubling",
)
M.equals(h_1 + lam * (h_1 - h_2), "for each step of pressure the pile gives way as it did between the readings")
stack = M.result("stack", "H", "mm", "height of the whole stack under the rod", resolution=0.01)
M.equals(g + h, "blocks and pile stand on each other")
give = M.relation("stop_give", r"\delta", "mm")
M.equals(F / k, "the stop gives way in proportion to the push")
z = M.result("depth", "z", "mm", "depth of the cut", resolution=0.01)
M.equals(
    stack - z_0 + give,
    "the rod travels the stack's height and what the stop gives way; the first part of the travel only brings the bit "
    "through the paper",
)
M.result(
    "blocks_wanted",
    r"g_{\mathrm{w}}",
    "mm",
    "height of blocks that makes the wanted depth with this pile; below zero: the pile alone is too high",
    resolution=0.01,
    signed=True,
)
M.equals(want + z_0 - give - h, "solved for the blocks")
off = M.result("off", r"\Delta z", "mm", "depth less the wanted depth", resolution=0.01, signed=True)
M.equals(z - want, "what is cut, less what is wanted")
u_h = M.relation("pile_u", "u_{h}", "mm")
M.step(
    equal(u_h**2, sp.Integral(x**2 / (2 * a_h), (x, -a_h, a_h))),
    "anywhere between its limits the error is equally likely: its square is averaged",
)
M.equals(a_h / sp.sqrt(3), "so much is the root of the mean square")
M.source("JCGM 100:2008, 4.3.7")
u = M.result("depth_u", "u", "mm", "standard uncertainty of the depth", resolution=0.01)
M.equals(
    sp.sqrt((a_g**2 + a_0**2) / 3 + u_h**2 + s**2),
    "blocks, pile, touch and the scatter of the plunge each count once, and independent errors add by their squares",
)
M.source("JCGM 100:2008, 5.1.2")
U = M.result("depth_expanded", "U", "mm", "expanded uncertainty of the depth, coverage factor 2", resolution=0.01)
M.equals(2 * u, "about 95 % of depths lie within it")
M.source("JCGM 100:2008, 6.2")
floor = M.result("floor", "f", "mm", "wood left under the groove", resolution=0.1)
M.equals(T - z, "the board's thickness is cut to the depth")
n = M.result("passes", "n", "", "number of passes, each deeper", resolution=1, whole=True)
M.equals(sp.Max(sp.ceiling(z / (kappa * d)), 1), "no pass goes deeper than its share of the bit, and passes come whole")
M.result("pass_depth", "z_{1}", "mm", "depth of each pass", resolution=0.1)
M.equals(z / n, "equal passes share the depth")

M.limit("off", "the depth is off by", sp.Abs(off), "<=", off_max, in_unit="mm", resolution=0.01)
M.mend("stack the height of blocks that is printed as wanted")
M.limit("press", "firmly pressed the pile reads", h_2, "<=", h_1)
M.mend("read the pile again: it gets no higher when it is pressed")
M.limit("pile", "under the rod the pile is high by", h, ">=", 0, in_unit="mm", resolution=0.01)
M.mend("lay a coin under the rod: its pressure lies too far from those of the readings")
M.limit("cut", "the bit cuts as deep as", z, ">=", 0, in_unit="mm", resolution=0.01)
M.mend("take a thinner paper or a higher stack: the bit does not reach the wood")
M.limit("sure", "the depth is known to", U, "<=", off_max)
M.mend("touch on a thin paper, measure the pile under the rod's own pressure, or use blocks only")
M.limit("floor", "under the groove the board keeps", floor, ">=", floor_min)
M.mend("take a thicker board or a shallower track")
M.caution(*ROUTER)
M.caution("Cut a test groove in scrap and measure it before the work; lock the plunge for every pass.")
M.caution(
    "The rod presses outside the two pressures of the readings: lay a coin under it, or read the pile again.",
    when=sp.Or(sp.Lt(p, p_1), sp.Gt(p, p_2)),
)
M.ask(
    *PAPER,
)

MODEL = M.done()
