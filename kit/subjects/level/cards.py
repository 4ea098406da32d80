"""How deep does the bed lie below the straightedge, if so many cards go in and one more does not?

The question in the trade's words: a straightedge lies over the bed from support to support. I slip cards under it
until one more will not go, then measure the stack with calipers. How deep is the gap, and how surely do I know it?

The picture, seen from the side: the straightedge rests on two supports and hangs through a little, by its own
weight and under the hand. At the place x the stack of n cards fills the gap but for less than one card.

Assumptions: nothing is known of the part of a card that is left over, so that every part is equally likely; the
stack gets thinner by the same amount each time the pressure is doubled, from the feel of the slipped-in card to
the jaws of the calipers; the straightedge is an even bar on two supports with equal ends over them, and its bow is
small; the spread of repeated readings is stated apart from the cards' part, which stays on the safe side.

Sources: JCGM 100:2008 (GUM) 4.3.7, 5.1.2, G.4.1, F.2.2.1; M. Abramowitz and I. Stegun, Handbook of Mathematical
Functions, 26.7.5, from memory; beams as in S. P. Timoshenko, Strength of Materials I, from memory.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.core.model.expressions import doublings_before
from kit.subjects.level.places import gravity
from kit.subjects.safety import HEAVY_MACHINE

M = Model(
    "level.cards",
    title="Gap from a stack of cards",
    question="How deep is the gap under a straightedge that so many cards fill, and how surely is it known?",
    picture="A straightedge lies over the bed from support to support, bowed a little by its weight and the hand; "
    "at one place a stack of cards fills the gap but for less than one card.",
    assumptions=(
        "any part of the next card is as likely as any other",
        "each doubling of the pressure makes the stack thinner by the same amount",
        "the straightedge is an even bar on two supports, with equal ends over them, and bows little",
        "a type B part is known as well as if from endless readings",
        "the spread of repeated readings is taken as due to other things than the cards' part: the safe side",
    ),
    sources=(
        "JCGM 100:2008 (GUM), 4.3.7 (rectangular), 5.1.2 (combining), G.4.1 (effective degrees of freedom)",
        "M. Abramowitz and I. Stegun, Handbook of Mathematical Functions, 26.7.5: Student's t, from memory",
        "S. P. Timoshenko, Strength of Materials I: simple beam, even load and single load, from memory",
    ),
)
n = M.count(
    "cards", "n", 12, span=(1, 60), meaning="cards that go in, one more does not", how="slip them in by hand"
)
H_1 = M.given("stack", "H_{1}", "mm", 2.41, span=(0.1, 30), half=0.005, meaning="the stack between the jaws, as read",
              how="calipers, lightly closed")  # fmt: skip
H_2 = M.given("stack_pressed", "H_{2}", "mm", 2.35, span=(0.1, 30), half=0.005,
              meaning="the same stack under the higher pressure, as read",
              how="calipers, weight on the stack")  # fmt: skip
z = M.given(
    "zero", "z", "mm", 0.01, span=(-0.5, 0.5), half=0.005, meaning="reading of the closed jaws", how="calipers",
)  # fmt: skip
d = M.given("step", "d", "mm", 0.01, span=(0.001, 0.5), meaning="step of the calipers' reading")
p_0 = M.given("feel", "p_{0}", "kPa", 2, span=(0.2, 10), half=1, meaning="pressure on the cards in the gap",
              how="the force that just slips the top card, over friction and area")  # fmt: skip
p_1 = M.given("pressure", "p_{1}", "kPa", 20, span=(10, 60), meaning="pressure of the first reading",
              how="weight over the area that it presses")  # fmt: skip
p_2 = M.given("pressure_high", "p_{2}", "kPa", 100, span=(80, 500), meaning="pressure of the second reading",
              how="weight over the area that it presses")  # fmt: skip
q = M.given(
    "feel_error", "q", "%", 50, span=(0, 90),
    meaning="how far the pressure in the gap may be off, in parts of it",
)  # fmt: skip
f = M.given("part", "f", "", 0.5, span=(0, 1), half=0.5, meaning="part of the next card that the gap has left over",
            how="nothing tells: half, give or take half")  # fmt: skip
s = M.given("spread", "s", "mm", 0.04, span=(0, 1), meaning="standard deviation of the repeated readings",
            how="from the readings, with their number less one below")  # fmt: skip
m = M.count("readings", "m", 5, span=(3, 30), meaning="repeated readings, cards taken out each time")
ell = M.given(
    "supports", r"\ell", "mm", 900, span=(200, 3000), half=2, meaning="from support to support", how="tape"
)
c = M.given(
    "overhang", "c", "mm", 50, span=(0, 1000), half=2, meaning="straightedge over each support", how="tape"
)
x = M.given(
    "place", "x", "mm", 400, span=(0, 3000), half=2, meaning="from the left support to the cards", how="tape"
)
h = M.given("edge_height", "h", "mm", 40, span=(10, 150), half=0.1, meaning="height of the straightedge, as it stands",
            how="calipers")  # fmt: skip
b = M.given(
    "edge_width", "b", "mm", 8, span=(1, 60), half=0.1, meaning="thickness of the straightedge", how="calipers",
)  # fmt: skip
E = M.given("modulus", "E", "GPa", 200, span=(5, 220), half=5, meaning="elastic modulus of the straightedge",
            how="table", source="typical handbook value, from memory")  # fmt: skip
rho = M.given("density", r"\varrho", "kg/m^3", 7850, span=(300, 9000), half=50, meaning="density of the straightedge",
              how="table, or a kitchen scale", source="typical handbook value, from memory")  # fmt: skip
F = M.given("hand", "F", "N", 3, span=(0, 30), half=1, meaning="push of the hand on the straightedge over the cards",
            how="try it on a kitchen scale")  # fmt: skip
e = M.given("edge_error", r"e_{0}", "mm", 0.02, span=(0, 1),
            meaning="how far the straightedge may be off true, either way",
            how="turn it end for end and over: half of what changes")  # fmt: skip
allowed = M.given(
    "allowed", r"U_{\mathrm{max}}", "mm", 0.15, span=(0.01, 2), meaning="uncertainty that you can allow"
)
M.pick("metal", table="metals", row="structural steel", fills={"modulus": "modulus", "density": "density"},
       meaning="metal of the straightedge")  # fmt: skip
g = gravity(M)
z95 = M.constant("normal_95", r"z_{95}", "", 1.959964, meaning="factor of the normal distribution for 95 %",
                 source="tables of the normal distribution")  # fmt: skip
p, v = sp.symbols("p v", positive=True)

k = M.relation(
    "compressibility", "k", "mm", (H_1 - H_2) / sp.log(p_2 / p_1), resolution=0.001,
    because="that turns the two readings into one figure",
    lines=[(equal(sp.Integral(sp.Symbol("compressibility", real=True) / p, (p, p_1, p_2)), H_1 - H_2),
            "each small step of pressure dp takes k dp/p: the same for each doubling")],
    meaning="loss of thickness for each e-fold of pressure",
)  # fmt: skip
lam = M.relation(
    "folds", r"\lambda", "", doublings_before(p_0, p_1, p_2),
    because="from the first reading it goes as far back, in the measure of the step between the two readings",
)  # fmt: skip
H = M.relation(
    "stack_free", "H", "mm", H_1 - z + lam * (H_1 - H_2), resolution=0.001,
    because="the zero is taken off, and what the pressure took is given back",
    lines=[(H_1 - z + sp.Integral(k / p, (p, p_0, p_1)), "back from the jaws to the feel of the gap, step by step")],
    meaning="thickness of the stack in the gap",
)  # fmt: skip
t = M.relation(
    "card", "t", "mm", H / n, because="all cards are alike", meaning="thickness of one card", resolution=0.001
)
gap = M.result(
    "gap", "G", "mm", H + f * t, resolution=0.001, meaning="gap at the cards",
    because="the stack fits in and one card more does not, so a part f of a card is left",
    lines=[(H * (1 - f) + H / n * (n + 1) * f, "it lies between n and n + 1 cards")],
)  # fmt: skip
w = M.relation(
    "weight", "w", "N/m", rho * g * b * h, because="weight of each length of the bar", resolution=0.01
)
EI = M.relation("stiffness", "E I", "N*m^2", E * b * h**3 / 12, because="a rectangle about its own middle",
                lines=[(E * sp.Integral(b * v**2, (v, -h / 2, h / 2)),
                "its fibers' squared distances are summed")])  # fmt: skip
moment = w * v * (ell - v) / 2 - w * c**2 / 2
one = [(sp.Integral(moment * v * (ell - x) / (ell * EI), (v, 0, x))
        + sp.Integral(moment * x * (ell - v) / (ell * EI), (v, x, ell)),
        "each slice turns by its moment over stiffness, w v (ℓ - v)/2 less w c²/2 from the ends, and lowers the "
        "place x as a load of 1 there would bend it")]  # fmt: skip
sag = M.result(
    "sag_weight", r"y_{\mathrm{w}}", "mm", w * x * (ell - x) * (ell**2 + ell * x - x**2 - 6 * c**2) / (24 * EI),
    resolution=0.001, lines=one, meaning="sag of the straightedge by its weight, at the cards",
    because="both integrals together have this common form",
)  # fmt: skip
push = M.result(
    "sag_hand", r"y_{\mathrm{F}}", "mm", F * x**2 * (ell - x) ** 2 / (3 * EI * ell), resolution=0.001,
    because="the moment grows in a straight line to the hand from either side, F x (ℓ - x)/ℓ at most",
    lines=[(sp.Integral(F * (v * (ell - x) / ell) ** 2 / EI, (v, 0, x))
            + sp.Integral(F * (x * (ell - v) / ell) ** 2 / EI, (v, x, ell)),
            "the same sum for the hand over the cards")],
    meaning="sag of the straightedge under the hand, at the cards",
)  # fmt: skip
depth = M.result(
    "depth", "D", "mm", gap + sag + push, resolution=0.001,
    meaning="depth of the bed below a true line from support to support",
    because="the bowed straightedge hangs below the true line by both sags",
)  # fmt: skip
u_c = M.result(
    "u_card", r"u_{\mathrm{c}}", "mm", t / sp.sqrt(12), resolution=0.001, source="JCGM 100:2008, 4.3.7",
    meaning="standard uncertainty from the part of a card left over",
    because="half the width over the root of three: a rectangular distribution",
    lines=[(equal(sp.Symbol("u_card", real=True) ** 2, sp.Integral(v**2 / t, (v, -t / 2, t / 2))),
            "the mean square distance from the middle, every place being equally likely")],
)  # fmt: skip
u_d = M.relation(
    "u_calipers", r"u_{\mathrm{d}}", "mm", (1 + f / n) * d / sp.sqrt(12) * sp.sqrt((1 + lam) ** 2 + lam**2 + 1),
    resolution=0.001, because="both readings and the zero are each rounded to the step, and count as often as "
    "they stand in G",
    meaning="standard uncertainty from the calipers' step",
)  # fmt: skip
u_p = M.relation(
    "u_feel", r"u_{\mathrm{p}}", "mm", (1 + f / n) * sp.Abs(k) * q / sp.sqrt(3), resolution=0.001,
    because="a part q more pressure makes the stack thinner by k q", meaning="standard uncertainty from the feel",
)  # fmt: skip
u_B = M.relation(
    "u_type_b", r"u_{\mathrm{B}}", "mm", sp.sqrt(u_c**2 + u_d**2 + u_p**2 + e**2 / 3), resolution=0.001,
    because="independent parts add by their squares; the straightedge's error is rectangular too",
    meaning="standard uncertainty of type B",
)  # fmt: skip
u_A = M.relation(
    "u_type_a", r"u_{\mathrm{A}}", "mm", s / sp.sqrt(m), because="a mean of m readings spreads by the root of m less",
    source="JCGM 100:2008, 4.2.3", meaning="standard uncertainty of type A", resolution=0.001,
)  # fmt: skip
u = M.result(
    "u", "u", "mm", sp.sqrt(u_A**2 + u_B**2), because="independent parts add by their squares", resolution=0.001,
    source="JCGM 100:2008, 5.1.2", meaning="standard uncertainty of the depth",
)  # fmt: skip
r = M.relation(
    "inverse_freedom", r"\nu^{-1}", "", (u_A / u) ** 4 / (m - 1), resolution=0.0001,
    because="of the Welch-Satterthwaite sum only type A remains: type B is as sure as endless readings",
    lines=[(equal(u**4 * sp.Symbol("inverse_freedom", real=True), u_A**4 / (m - 1)), "Welch and Satterthwaite")],
    source="JCGM 100:2008, G.4.1", meaning="one over the effective degrees of freedom",
)  # fmt: skip
terms = ((z95**3 + z95) / 4, (5 * z95**5 + 16 * z95**3 + 3 * z95) / 96,
         (3 * z95**7 + 19 * z95**5 + 17 * z95**3 - 15 * z95) / 384,
         (79 * z95**9 + 776 * z95**7 + 1482 * z95**5 - 1920 * z95**3 - 945 * z95) / 92160)  # fmt: skip
a = [
    M.relation(
        f"student_{i}",
        f"a_{{{i}}}",
        "",
        term,
        because=f"term {i} of the series for Student's factor",
        source="Abramowitz and Stegun, 26.7.5, from memory",
    )
    for i, term in enumerate(terms, start=1)
]
t95 = M.result(
    "student", r"t_{95}", "", z95 + sum(term * r**i for i, term in enumerate(a, start=1)), resolution=0.01,
    because="few readings may lie close together by luck: Student's factor for 95 % is larger than the normal one, "
    "here as a series in one over the degrees of freedom, low by 0.8 % at 2 and 0.2 % at 3",
    meaning="factor for 95 %",
)  # fmt: skip
U = M.result("expanded", "U", "mm", t95 * u, because="so wide is the interval that holds 95 %", resolution=0.001,
             meaning="uncertainty of the depth, for 95 %")  # fmt: skip
M.result("card_share", r"\sigma_{\mathrm{c}}", "%", u_c**2 / u**2, resolution=0.1,
         because="squares add, so squares are compared",
         meaning="part of the cards in the uncertainty: what thinner cards would save")  # fmt: skip

M.limit("sure", "the depth is known to", value=U, allowed=allowed,
        mend="take thinner cards, more readings, or a truer straightedge")  # fmt: skip
M.limit("place", "the cards lie at", value=x, allowed=ell, in_unit="mm", mend="measure between the supports")
M.limit("sag", "the straightedge sags by", value=sag + push, allowed=sp.Max(gap, 0), in_unit="mm", resolution=0.001,
        mend="stand a higher straightedge on edge, or bring the supports closer")  # fmt: skip
M.caution(*HEAVY_MACHINE)
M.caution("The stack is no thinner under the higher pressure: read both again.", when=sp.Ge(H_2, H_1))
M.caution("Three or four readings tell little of their own spread: take more.", when=sp.Lt(m, 5))
MODEL = M.done()
