"""Gap from a stack of cards.

How deep is the gap under a straightedge that so many cards fill, and how surely is it known?

In the trade's words: a straightedge lies over the bed from support to support. I slip cards under it until one more
will not go, then measure the stack with calipers. How deep is the gap, and how surely do I know it?

Picture: A straightedge lies over the bed from support to support, bowed a little by its weight and the hand; at one
place a stack of cards fills the gap but for less than one card.

Assumptions:
- any part of the next card is as likely as any other
- each doubling of the pressure makes the stack thinner by the same amount
- the straightedge is an even bar on two supports, with equal ends over them, and bows little
- a type B part is known as well as if from endless readings
- the spread of repeated readings is taken as due to other things than the cards' part: the safe side

Sources:
- JCGM 100:2008 (GUM), 4.3.7 (rectangular), 5.1.2 (combining), G.4.1 (effective degrees of freedom)
- M. Abramowitz and I. Stegun, Handbook of Mathematical Functions, 26.7.5: Student's t, from memory
- S. P. Timoshenko, Strength of Materials I: simple beam, even load and single load, from memory

Notes: The straightedge rests on two supports and hangs through a little, by its own weight and under the hand. Nothing
is known of the part of a card that is left over, so that every part is equally likely. The stack gets thinner by the
same amount each time the pressure is doubled, from the feel of the slipped-in card to the jaws of the calipers.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.core.model.expressions import doublings_before
from kit.subjects.level.places import gravity
from kit.subjects.safety import HEAVY_MACHINE

M = Model("level.cards", __doc__)
n = M.count("cards", "n", 12, (1, 60), "cards that go in, one more does not")
M.measured("slip them in by hand")
H_1 = M.given("stack", "H_{1}", "2.41 ± 0.005 mm", (0.1, 30), "the stack between the jaws, as read")
M.measured("calipers, lightly closed")
H_2 = M.given(
    "stack_pressed", "H_{2}", "2.35 ± 0.005 mm", (0.1, 30), "the same stack under the higher pressure, as read"
)
M.measured("calipers, weight on the stack")
z = M.given("zero", "z", "0.01 ± 0.005 mm", (-0.5, 0.5), "reading of the closed jaws")
M.measured("calipers")
d = M.given("step", "d", "0.01 mm", (0.001, 0.5), "step of the calipers' reading")
p_0 = M.given("feel", "p_{0}", "2 ± 1 kPa", (0.2, 10), "pressure on the cards in the gap")
M.measured("the force that just slips the top card, over friction and area")
p_1 = M.given("pressure", "p_{1}", "20 kPa", (10, 60), "pressure of the first reading")
M.measured("weight over the area that it presses")
p_2 = M.given("pressure_high", "p_{2}", "100 kPa", (80, 500), "pressure of the second reading")
M.measured("weight over the area that it presses")
q = M.given("feel_error", "q", "50 %", (0, 90), "how far the pressure in the gap may be off, in parts of it")
f = M.given("part", "f", "0.5 ± 0.5", (0, 1), "part of the next card that the gap has left over")
M.measured("not known: half, give or take half")
s = M.given("spread", "s", "0.04 mm", (0, 1), "standard deviation of the repeated readings")
M.measured("from the readings, with their number less one below")
m = M.count("readings", "m", 5, (3, 30), "repeated readings, cards taken out each time")
ell = M.given("supports", r"\ell", "900 ± 2 mm", (200, 3000), "from support to support")
M.measured("tape")
c = M.given("overhang", "c", "50 ± 2 mm", (0, 1000), "straightedge over each support")
M.measured("tape")
x = M.given("place", "x", "400 ± 2 mm", (0, 3000), "from the left support to the cards")
M.measured("tape")
h = M.given("edge_height", "h", "40 ± 0.1 mm", (10, 150), "height of the straightedge, as it stands")
M.measured("calipers")
b = M.given("edge_width", "b", "8 ± 0.1 mm", (1, 60), "thickness of the straightedge")
M.measured("calipers")
E = M.given("modulus", "E", "200 ± 5 GPa", (5, 220), "elastic modulus of the straightedge")
M.measured("table")
M.source("typical handbook value, from memory")
rho = M.given("density", r"\varrho", "7850 ± 50 kg/m^3", (300, 9000), "density of the straightedge")
M.measured("table, or a kitchen scale")
M.source("typical handbook value, from memory")
F = M.given("hand", "F", "3 ± 1 N", (0, 30), "push of the hand on the straightedge over the cards")
M.measured("try it on a kitchen scale")
e = M.given("edge_error", r"e_{0}", "0.02 mm", (0, 1), "how far the straightedge may be off true, either way")
M.measured("turn it end for end and over: half of what changes")
allowed = M.given("allowed", r"U_{\mathrm{max}}", "0.15 mm", (0.01, 2), "uncertainty that you can allow")
M.pick("metal", "metals", "structural steel", {"modulus": "modulus", "density": "density"}, "metal of the straightedge")
g = gravity(M)
z95 = M.constant(
    "normal_95",
    r"z_{95}",
    "1.959964",
    "factor of the normal distribution for 95 %",
    "tables of the normal distribution",
)
p, v = sp.symbols("p v", positive=True)

k = M.relation("compressibility", "k", "mm", "loss of thickness for each e-fold of pressure", resolution=0.001)
M.step(
    equal(sp.Integral(k / p, (p, p_1, p_2)), H_1 - H_2),
    "each small step of pressure dp takes k dp/p: the same for each doubling",
)
M.equals((H_1 - H_2) / sp.log(p_2 / p_1), "that turns the two readings into one figure")
lam = M.relation("folds", r"\lambda", "")
M.equals(
    doublings_before(p_0, p_1, p_2),
    "from the first reading it goes as far back, in the measure of the step between the two readings",
)
H = M.relation("stack_free", "H", "mm", "thickness of the stack in the gap", resolution=0.001)
M.step(H_1 - z + sp.Integral(k / p, (p, p_0, p_1)), "back from the jaws to the feel of the gap, step by step")
M.equals(H_1 - z + lam * (H_1 - H_2), "the zero is taken off, and what the pressure took is given back")
t = M.relation("card", "t", "mm", "thickness of one card", resolution=0.001)
M.equals(H / n, "all cards are alike")
gap = M.result("gap", "G", "mm", "gap at the cards", resolution=0.001)
M.step(H * (1 - f) + H / n * (n + 1) * f, "it lies between n and n + 1 cards")
M.equals(H + f * t, "the stack fits in and one card more does not, so a part f of a card is left")
w = M.relation("weight", "w", "N/m", resolution=0.01)
M.equals(rho * g * b * h, "weight of each length of the bar")
EI = M.relation("stiffness", "E I", "N*m^2")
M.step(E * sp.Integral(b * v**2, (v, -h / 2, h / 2)), "its fibers' squared distances are summed")
M.equals(E * b * h**3 / 12, "a rectangle about its own middle")
moment = w * v * (ell - v) / 2 - w * c**2 / 2
sag = M.result(
    "sag_weight",
    r"y_{\mathrm{w}}",
    "mm",
    "sag of the straightedge by its weight, at the cards; below zero: the overhangs lift it",
    resolution=0.001,
    signed=True,
)
M.step(
    sp.Integral(moment * v * (ell - x) / (ell * EI), (v, 0, x))
    + sp.Integral(moment * x * (ell - v) / (ell * EI), (v, x, ell)),
    "each slice turns by its moment over stiffness, w v (ℓ - v)/2 less w c²/2 from the ends, and lowers the place x as "
    "a load of 1 there would bend it",
)
M.equals(
    w * x * (ell - x) * (ell**2 + ell * x - x**2 - 6 * c**2) / (24 * EI),
    "both integrals together have this common form",
)
push = M.result(
    "sag_hand", r"y_{\mathrm{F}}", "mm", "sag of the straightedge under the hand, at the cards", resolution=0.001
)
M.step(
    sp.Integral(F * (v * (ell - x) / ell) ** 2 / EI, (v, 0, x))
    + sp.Integral(F * (x * (ell - v) / ell) ** 2 / EI, (v, x, ell)),
    "the same sum for the hand over the cards",
)
M.equals(
    F * x**2 * (ell - x) ** 2 / (3 * EI * ell),
    "the moment grows in a straight line to the hand from either side, F x (ℓ - x)/ℓ at most",
)
depth = M.result("depth", "D", "mm", "depth of the bed below a true line from support to support", resolution=0.001)
M.equals(gap + sag + push, "the bowed straightedge hangs below the true line by both sags")
u_c = M.result(
    "u_card", r"u_{\mathrm{c}}", "mm", "standard uncertainty from the part of a card left over", resolution=0.001
)
M.step(
    equal(u_c**2, sp.Integral(v**2 / t, (v, -t / 2, t / 2))),
    "the mean square distance from the middle, every place being equally likely",
)
M.equals(t / sp.sqrt(12), "half the width over the root of three: a rectangular distribution")
M.source("JCGM 100:2008, 4.3.7")
u_d = M.relation(
    "u_calipers", r"u_{\mathrm{d}}", "mm", "standard uncertainty from the calipers' step", resolution=0.001
)
M.equals(
    (1 + f / n) * d / sp.sqrt(12) * sp.sqrt((1 + lam) ** 2 + lam**2 + 1),
    "both readings and the zero are each rounded to the step, and count as often as they stand in G",
)
u_p = M.relation("u_feel", r"u_{\mathrm{p}}", "mm", "standard uncertainty from the feel", resolution=0.001)
M.equals((1 + f / n) * sp.Abs(k) * q / sp.sqrt(3), "a part q more pressure makes the stack thinner by k q")
u_B = M.relation("u_type_b", r"u_{\mathrm{B}}", "mm", "standard uncertainty of type B", resolution=0.001)
M.equals(
    sp.sqrt(u_c**2 + u_d**2 + u_p**2 + e**2 / 3),
    "independent parts add by their squares; the straightedge's error is rectangular too",
)
u_A = M.relation("u_type_a", r"u_{\mathrm{A}}", "mm", "standard uncertainty of type A", resolution=0.001)
M.equals(s / sp.sqrt(m), "a mean of m readings spreads by the root of m less")
M.source("JCGM 100:2008, 4.2.3")
u = M.result("u", "u", "mm", "standard uncertainty of the depth", resolution=0.001)
M.equals(sp.sqrt(u_A**2 + u_B**2), "independent parts add by their squares")
M.source("JCGM 100:2008, 5.1.2")
r = M.relation("inverse_freedom", r"\nu^{-1}", "", "one over the effective degrees of freedom", resolution=0.0001)
M.step(equal(u**4 * r, u_A**4 / (m - 1)), "Welch and Satterthwaite")
M.equals(
    (u_A / u) ** 4 / (m - 1),
    "of the Welch-Satterthwaite sum only type A remains: type B is as sure as endless readings",
)
M.source("JCGM 100:2008, G.4.1")
terms = (
    (z95**3 + z95) / 4,
    (5 * z95**5 + 16 * z95**3 + 3 * z95) / 96,
    (3 * z95**7 + 19 * z95**5 + 17 * z95**3 - 15 * z95) / 384,
    (79 * z95**9 + 776 * z95**7 + 1482 * z95**5 - 1920 * z95**3 - 945 * z95) / 92160,
)
a = []
for i, term in enumerate(terms, start=1):
    a_i = M.relation(f"student_{i}", f"a_{{{i}}}", "")
    M.equals(term, f"term {i} of the series for Student's factor")
    M.source("Abramowitz and Stegun, 26.7.5, from memory")
    a.append(a_i)
t95 = M.result("student", r"t_{95}", "", "factor for 95 %", resolution=0.01)
M.equals(
    z95 + sum(term * r**i for i, term in enumerate(a, start=1)),
    "few readings may lie close together by luck: Student's factor for 95 % is larger than the normal one, here as a "
    "series in one over the degrees of freedom, low by 0.8 % at 2 and 0.2 % at 3",
)
U = M.result("expanded", "U", "mm", "uncertainty of the depth, for 95 %", resolution=0.001)
M.equals(t95 * u, "so wide is the interval that holds 95 %")
M.result(
    "card_share",
    r"\sigma_{\mathrm{c}}",
    "%",
    "part of the cards in the uncertainty: what thinner cards would save",
    resolution=0.1,
)
M.equals(u_c**2 / u**2, "squares add, so squares are compared")

M.limit("sure", "the depth is known to", U, "<=", allowed)
M.mend("take thinner cards, more readings, or a truer straightedge")
M.limit("place", "the cards lie at", x, "<=", ell, in_unit="mm")
M.mend("measure between the supports")
M.limit("stack", "under the higher pressure the stack reads", H_2, "<=", H_1)
M.mend("read both again: a stack gets no thicker when it is pressed")
M.limit("zero", "the closed jaws read", z, "<=", H_2)
M.mend("clean the jaws, set the calipers to zero and read the stack again")
M.limit("sag", "the straightedge bends by", sp.Abs(sag + push), "<=", sp.Max(gap, 0), in_unit="mm", resolution=0.001)
M.mend("stand a higher straightedge on edge, or bring the supports closer")
M.caution(*HEAVY_MACHINE)
M.caution("Three or four readings say little of their own spread: take more.", when=sp.Lt(m, 5))
MODEL = M.done()
