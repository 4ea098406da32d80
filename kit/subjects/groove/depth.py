"""How deep will the router cut when its depth stop is set on a stack of blocks and cards, and how surely?

The question in the trade's words: I let the bit touch the work, put a stack between the depth rod and its stop,
lock the rod and take the stack away. The plunge is then as deep as the stack is high: less a paper under the bit,
more by what the stop gives way, and the cards of the stack were squeezed.

The picture: the router stands on the work, its bit touching the face (or a paper on it). Between the depth rod and
the turret stop below it stands a stack: solid blocks and a pile of cards. Without the stack the rod travels just
its height.

Assumptions: the base stands flat and the rod is parallel to the plunge; a pile of cards gets thinner by the same
amount each time the pressure is doubled; blocks do not; readings between limits are equally likely anywhere,
independent of each other; the calipers' error is the same in both readings of the pile.

Sources: geometry of the plunge; JCGM 100:2008 (GUM), 4.3.7 and 5.1.2; common practice for the depth of a pass.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.core.model.expressions import doublings_before
from kit.subjects.safety import ROUTER

M = Model(
    "groove.depth",
    title="Depth set by a stack against the plunge stop",
    question="How deep does a router cut that is set by a stack against its depth stop, and how surely?",
    picture="The bit touches the work; a stack of blocks and cards stands between the depth rod and its stop. With "
    "the stack away the router plunges by its height.",
    assumptions=(
        "the base stands flat, the depth rod is parallel to the plunge",
        "each doubling of the pressure makes the pile of cards thinner by the same amount; "
        "solid blocks keep their height",
        "readings between limits are equally likely anywhere between and independent; the calipers' error is common "
        "to both readings of the pile",
    ),
    sources=(
        "geometry of the plunge",
        "JCGM 100:2008 (GUM), 4.3.7 (rectangular distribution), 5.1.2 (independent errors), 6.2 (coverage factor)",
        "common practice for the depth of one pass, no source",
    ),
)
want = M.given("wanted", r"z_{\mathrm{w}}", "mm", 12.8, span=(0.5, 60), meaning="wanted depth of the groove",
               how="calipers on the track that goes in")  # fmt: skip
g = M.given("blocks", "g", "mm", 12, span=(0, 60), half=0.02, meaning="height of the solid blocks in the stack",
            how="calipers")  # fmt: skip
h_1 = M.given("pile_light", "h_{1}", "mm", 0.9, span=(0, 10), half=0.02,
              meaning="height of the pile of cards, lightly pressed", how="calipers, jaws just closed")  # fmt: skip
h_2 = M.given("pile_firm", "h_{2}", "mm", 0.86, span=(0, 10), half=0.02,
              meaning="height of the pile of cards, firmly pressed", how="calipers, jaws pressed")  # fmt: skip
p_1 = M.given("pressure_light", "p_{1}", "kPa", 20, span=(10, 60), half=5, meaning="pressure of the light reading",
              how="force of the jaws over their area")  # fmt: skip
p_2 = M.given("pressure_firm", "p_{2}", "kPa", 200, span=(80, 500), half=40, meaning="pressure of the firm reading",
              how="weight on the pile over the area that it presses")  # fmt: skip
F_r = M.given("rod_force", r"F_{\mathrm{r}}", "N", 6, span=(0.5, 100), half=2,
              meaning="force with which the rod rests on the stack when it is locked", how="kitchen scale",
)  # fmt: skip
d_r = M.given("rod", r"d_{\mathrm{r}}", "mm", 8, span=(3, 30), half=0.1,
              meaning="diameter of the rod's end, or of a coin laid between", how="calipers")  # fmt: skip
z_0 = M.given("paper", "z_{0}", "mm", 0.1, span=(0, 2), half=0.02,
              meaning="paper under the bit at its touch; 0 for none", how="calipers on ten folds, over ten",
)  # fmt: skip
F = M.given("push", "F", "N", 80, span=(0, 400), half=20, meaning="push with which the router is held on its stop",
            how="bathroom scale")  # fmt: skip
k = M.given("stop_stiffness", "k", "N/mm", 2000, span=(100, 50000), half=800,
            meaning="push on the stop over how far it gives way", how="push, read a dial gauge",
            source="invented demo value")  # fmt: skip
a_g = M.given(
    "blocks_limit", "a_{g}", "mm", 0.02, span=(0, 0.5), meaning="limit of the blocks' error, plus or minus"
)
a_h = M.given(
    "pile_limit", "a_{h}", "mm", 0.03, span=(0, 0.5), meaning="limit of the pile's error, plus or minus"
)
a_0 = M.given(
    "touch_limit", "a_{0}", "mm", 0.05, span=(0, 0.5), meaning="limit of the touch's error, plus or minus"
)
s = M.given("repeat", "s", "mm", 0.03, span=(0, 0.5), meaning="standard deviation of repeated plunges",
            how="five test plunges, calipers")  # fmt: skip
off_max = M.given(
    "allowed", r"\Delta z_{\mathrm{max}}", "mm", 0.2, span=(0.01, 2), meaning="most that the depth may be off"
)
T = M.given("board", "T", "mm", 24, span=(3, 120), half=0.2, meaning="thickness of the board", how="calipers")
floor_min = M.given("floor_least", r"f_{\mathrm{min}}", "mm", 6, span=(0, 50),
                    meaning="least wood to leave under the groove",
                    source="common practice, no source")  # fmt: skip
d = M.given("bit", "d", "mm", 12, span=(2, 50), half=0.03, meaning="diameter of the bit", how="calipers")
kappa = M.given("pass_share", r"\kappa", "%", 50, span=(10, 100), meaning="deepest pass, of the bit's diameter",
                source="common practice, no source")  # fmt: skip
x, v = sp.Symbol("x", real=True), sp.Symbol("v", positive=True)

p = M.relation("pressure", "p", "kPa", 4 * F_r / (sp.pi * d_r**2), because="force over the area of the rod's end",
               lines=[(F_r / sp.Integral(2 * sp.pi * x, (x, 0, d_r / 2)), "the round end is rings, each as long as its "
                       "circle")])  # fmt: skip
lam = M.relation("folds", r"\lambda", "", doublings_before(p, p_1, p_2),
                 because="so far the rod's pressure lies before the light reading's, in the measure of the step "
                 "between the readings")  # fmt: skip
h = M.result("pile", "h", "mm", h_1 + lam * (h_1 - h_2), resolution=0.01, meaning="height of the pile under the rod",
             because="for each step of pressure the pile gives way as it did between the readings",
             lines=[(h_1 - (h_1 - h_2) * sp.Integral(1 / v, (v, p_1, p)) / sp.Integral(1 / v, (v, p_1, p_2)),
                     "each small step of pressure takes its share: the same for each doubling")])  # fmt: skip
stack = M.result("stack", "H", "mm", g + h, resolution=0.01, meaning="height of the whole stack under the rod",
                 because="blocks and pile stand on each other")  # fmt: skip
give = M.relation("stop_give", r"\delta", "mm", F / k, because="the stop gives way in proportion to the push")
z = M.result("depth", "z", "mm", stack - z_0 + give, resolution=0.01, meaning="depth of the cut",
             because="the rod travels the stack's height and what the stop gives way; the first part of the travel "
             "only brings the bit through the paper")  # fmt: skip
M.result("blocks_wanted", r"g_{\mathrm{w}}", "mm", want + z_0 - give - h, resolution=0.01,
         meaning="height of blocks that makes the wanted depth with this pile",
         because="turned round for the blocks")  # fmt: skip
off = M.result("off", r"\Delta z", "mm", z - want, resolution=0.01, meaning="depth less the wanted depth",
               because="what is cut, less what is wanted")  # fmt: skip
u_h = M.relation("pile_u", "u_{h}", "mm", a_h / sp.sqrt(3), because="so much is the root of the mean square",
                 lines=[(equal(sp.Symbol("pile_u", real=True)**2, sp.Integral(x**2 / (2 * a_h), (x, -a_h, a_h))),
                         "anywhere between its limits the error is equally likely: its square is averaged")],
                 source="JCGM 100:2008, 4.3.7")  # fmt: skip
u = M.result("depth_u", "u", "mm", sp.sqrt((a_g**2 + a_0**2) / 3 + u_h**2 + s**2), resolution=0.01,
             meaning="standard uncertainty of the depth",
             because="blocks, pile, touch and the scatter of the plunge each count once, and independent errors add by "
             "their squares", source="JCGM 100:2008, 5.1.2")  # fmt: skip
U = M.result("depth_expanded", "U", "mm", 2 * u, resolution=0.01,
             meaning="expanded uncertainty of the depth, coverage factor 2",
             because="about 95 % of depths lie within it",
             source="JCGM 100:2008, 6.2")  # fmt: skip
floor = M.result("floor", "f", "mm", T - z, resolution=0.1, meaning="wood left under the groove",
                 because="the board's thickness is cut to the depth")  # fmt: skip
n = M.result("passes", "n", "", sp.Max(sp.ceiling(z / (kappa * d)), 1), resolution=1,
             meaning="number of passes, each deeper",
             because="no pass goes deeper than its share of the bit, and passes come whole")  # fmt: skip
M.result("pass_depth", "z_{1}", "mm", z / n, resolution=0.1, meaning="depth of each pass",
         because="equal passes share the depth")  # fmt: skip

M.limit("off", "the depth is off by", value=sp.Abs(off), allowed=off_max, in_unit="mm", resolution=0.01,
        mend="stack the height of blocks that is printed as wanted")  # fmt: skip
M.limit("sure", "the depth is sure to", value=U, allowed=off_max,
        mend="touch on a thin paper, measure the pile under the rod's own pressure, or use blocks only")  # fmt: skip
M.limit("floor", "under the groove the board keeps", value=floor, allowed=floor_min, sense=">=",
        mend="take a thicker board or a shallower track")  # fmt: skip
M.caution(*ROUTER)
M.caution("Cut a test groove in scrap and measure it before the work; lock the plunge for every pass.")
M.caution("The rod presses outside the two pressures of the readings: lay a coin under it, or read the pile again.",
          when=sp.Or(sp.Lt(p, p_1), sp.Gt(p, p_2)))  # fmt: skip
M.caution("The pile reads higher when pressed than when loose: read it again.", when=sp.Gt(h_2, h_1))
MODEL = M.done()
