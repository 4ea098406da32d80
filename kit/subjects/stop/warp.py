"""Warp from a moisture difference.

How far does a block bow and cup when its two faces differ in moisture?

In the trade's words: the block was planed in one climate and hangs in another; its back has dried and its front has not
yet, or front and back are of two woods. How far from straight is it?

Picture: Two layers, front and back, glued along their common face; the one that has swelled more bulges.

Assumptions:
- the block is straight when both layers have one moisture; the glue line does not slip
- the block is free to bow; the bow is small against its length
- along the grain wood moves evenly from fiber saturation to ovendry
- across the grain both layers move by the front's coefficient; their moduli have the same ratio there

Sources:
- S. P. Timoshenko, Analysis of bi-metal thermostats, J. Opt. Soc. Am. 11 (1925) 233, from memory
- Wood Handbook, FPL-GTR-190, chapter 4 (shrinkage along the grain, fiber saturation), from memory
- Wood Handbook, FPL-GTR-190, table 13-5 (movement across the grain)

Notes: The front would like to be longer than the back by a small strain. Neither gives way alone, so both curve: the
face that has swelled more bulges.
"""

import sympy as sp

from kit.core.model import Model, equal

M = Model("stop.warp", __doc__)
L = M.given("length", "L", "1200 ± 1 mm", (200, 3000), "length of the block")
M.measured("tape")
w = M.given("width", "w", "60 ± 0.5 mm", (10, 300), "width of the faces across the grain")
M.measured("rule")
t_1 = M.given("front_thickness", "t_{1}", "20 ± 0.2 mm", (2, 100), "thickness of the front layer")
M.measured("calipers; half the block if it is one piece")
t_2 = M.given("back_thickness", "t_{2}", "20 ± 0.2 mm", (2, 100), "thickness of the back layer")
M.measured("calipers")
E_1 = M.given("front_modulus", "E_{1}", "13.88 ± 6 GPa", (1, 40), "front's modulus along the grain")
M.measured("table", spread="normal")
M.source("Wood Handbook, FPL-GTR-282, table 5-3b, sugar maple, raised by 10 %")
E_2 = M.given("back_modulus", "E_{2}", "13.88 ± 6 GPa", (1, 40), "back's modulus along the grain")
M.measured("table", spread="normal")
M.source("Wood Handbook, FPL-GTR-282, table 5-3b, sugar maple, raised by 10 %")
m_1 = M.given("front_moisture", "u_{1}", "9 ± 0.5 %", (4, 22), "moisture content of the front now")
M.measured("pin meter, pins short")
m_2 = M.given("back_moisture", "u_{2}", "8 ± 0.5 %", (4, 22), "moisture content of the back now")
M.measured("pin meter from the back")
S = M.given(
    "shrinkage_along", r"S_{\mathrm{L}}", "0.15 ± 0.05 %", (0.05, 2), "shrinkage along the grain, green to ovendry"
)
M.measured("table; reaction or juvenile wood up to 2 %")
M.source("Wood Handbook, FPL-GTR-190, chapter 4, 0.1 to 0.2 %, from memory")
f = M.given("fiber_saturation", r"u_{\mathrm{f}}", "30 ± 2 %", (20, 40), "moisture content at fiber saturation")
M.measured("table")
M.source("Wood Handbook, FPL-GTR-190, chapter 4, from memory")
C = M.given(
    "coefficient_across",
    "C",
    "0.00353 ± 0.0004 1/%",
    (0.0005, 0.006),
    "movement across the grain per percent of moisture",
)
M.measured("table; the radial figure for quarter-sawn wood")
M.source("Wood Handbook, FPL-GTR-190, table 13-5, sugar maple, tangential")
allowed = M.given("allowed", r"s_{\mathrm{max}}", "0.5 mm", (0.01, 10), "allowed bow over the length")
M.pick(
    "front_wood",
    "woods",
    "hard maple",
    {"front_modulus": "modulus_along", "coefficient_across": "tangential_coefficient"},
    "wood of the front",
)
M.pick("back_wood", "woods", "hard maple", {"back_modulus": "modulus_along"}, "wood of the back")

alpha = M.relation("coefficient_along", r"\alpha", "1/%")
M.equals(S / f, "the whole shrinkage is spread evenly down from fiber saturation")
e = M.relation("strain_along", r"\varepsilon", "")
M.equals(alpha * (m_1 - m_2), "only the difference of moisture bends: what both layers gain makes the block longer")
B = M.relation("layers_stiffness", "B", "N*mm")
M.equals(
    (E_1 * t_1**3 + E_2 * t_2**3) / 12,
    "per width, each layer resists bending about its own middle by modulus times thickness cubed over twelve",
)
H = M.relation("thickness", "H", "mm")
M.equals(t_1 + t_2, "the layers lie on each other")
x = sp.Symbol("x", real=True)
P = M.relation("glue_pull", "P", "N/mm")
M.step(
    equal(P / (E_1 * t_1) + P / (E_2 * t_2) + H / 2 * (P * H / 2 / B), e),
    "at the glue both layers are equally long: shortening, stretching and bending make up the strain",
)
M.equals(
    e / (1 / (E_1 * t_1) + 1 / (E_2 * t_2) + H**2 / (4 * B)),
    "solved for the force per width with which one layer holds the other",
)
m, n = t_1 / t_2, E_1 / E_2
kappa = M.relation("curvature", "k", "1/m")
M.step(
    e / H * 6 * (1 + m) ** 2 / (3 * (1 + m) ** 2 + (1 + m * n) * (m**2 + 1 / (m * n))),
    "so Timoshenko writes it, with the ratios of thicknesses and of moduli",
)
M.equals(P * H / (2 * B), "the two forces, half the thickness apart on the average, bend both layers")
bow = M.result("bow", "s", "mm", "bow over the length; positive: the front bulges", resolution=0.01, signed=True)
M.step(sp.Integral(kappa * x, (x, 0, L / 2)), "slope after slope, x from the middle")
M.equals(kappa * L**2 / 8, "an even curve falls off from its middle with the square of the distance")
cup = M.result(
    "cup", r"s_{\mathrm{w}}", "mm", "cup over the width; positive: the front bulges", resolution=0.01, signed=True
)
M.equals(
    kappa * C / alpha * w**2 / 8, "across the grain the same layers move by another coefficient, over another length"
)
M.limit("bow", "the block bows", sp.Abs(bow), "<=", allowed, in_unit="mm", resolution=0.01)
M.mend("let the block come to one moisture before planing, finish all faces alike, or make it thicker")
M.limit("shallow", "across its width the block cups by", sp.Abs(cup), "<=", w / 10, in_unit="mm", resolution=0.01)
M.mend("let the block come to one moisture: so deep a curve is beyond these formulas, and beyond use")
M.caution("Use straight-grained wood: reaction or juvenile wood can shrink along the grain ten times as much.")
M.caution(
    "Unplug the machine before you lay a straightedge against the stop; wear a mask when you sand: wood dust harms."
)
M.caution(
    "Along the grain this wood moves like reaction wood; take another piece.",
    when=sp.Gt(S, sp.Rational(1, 200)),
)
MODEL = M.done()
