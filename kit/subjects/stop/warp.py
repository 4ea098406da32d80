"""A block whose faces differ in moisture warps: how much does it bow over its length, and cup over its width?

The question in the trade's words: the block was planed in one climate and hangs in another; its back has dried
and its front has not yet, or front and back are of two woods. How far from straight is it?

The picture: two layers, front and back, glued along their common face. The front would like to be longer than the
back by a small strain. Neither gives way alone, so both curve: the face that has swelled more bulges.

Assumptions: two layers, straight when of one moisture, each with a moisture of its own; elastic wood, no slip;
both layers bow freely. Along the grain the total longitudinal shrinkage is spread evenly from fiber saturation to
ovendry; across the grain both layers take the front's coefficient, and the ratio of their moduli is taken as
along the grain.

Sources: S. P. Timoshenko, Analysis of bi-metal thermostats, Journal of the Optical Society of America 11 (1925)
233, from memory; Wood Handbook, FPL-GTR-190, chapter 4 (longitudinal shrinkage 0.1 to 0.2 %, fiber saturation
about 30 %), from memory, and table 13-5 for the coefficients across the grain.
"""

import sympy as sp

from kit.core.model import Model, equal

M = Model(
    "stop.warp",
    title="Warp from a moisture difference",
    question="How far does a block bow and cup when its two faces differ in moisture?",
    picture="Two layers, front and back, glued along their common face; the one that has swelled more bulges.",
    assumptions=(
        "the block is straight when both layers have one moisture; the glue line does not slip",
        "the block is free to bow; the bow is small against its length",
        "along the grain wood moves evenly from fiber saturation to ovendry",
        "across the grain both layers move by the front's coefficient; their moduli have the same ratio there",
    ),
    sources=(
        "S. P. Timoshenko, Analysis of bi-metal thermostats, J. Opt. Soc. Am. 11 (1925) 233, from memory",
        "Wood Handbook, FPL-GTR-190, chapter 4 (shrinkage along the grain, fiber saturation), from memory",
        "Wood Handbook, FPL-GTR-190, table 13-5 (movement across the grain)",
    ),
)
L = M.given("length", "L", "mm", 1200, span=(200, 3000), half=1, meaning="length of the block", how="tape")
w = M.given(
    "width", "w", "mm", 60, span=(10, 300), half=0.5,
    meaning="width of the faces across the grain", how="rule",
)  # fmt: skip
t_1 = M.given(
    "front_thickness", "t_{1}", "mm", 20, span=(2, 100), half=0.2,
    meaning="thickness of the front layer", how="calipers; half the block if it is one piece",
)  # fmt: skip
t_2 = M.given(
    "back_thickness", "t_{2}", "mm", 20, span=(2, 100), half=0.2,
    meaning="thickness of the back layer", how="calipers",
)  # fmt: skip
E_1 = M.given(
    "front_modulus", "E_{1}", "GPa", 13.88, span=(1, 40), half=6, spread="normal",
    meaning="front's modulus along the grain", how="table",
    source="Wood Handbook, FPL-GTR-282, table 5-3b, sugar maple, raised by 10 %",
)  # fmt: skip
E_2 = M.given(
    "back_modulus", "E_{2}", "GPa", 13.88, span=(1, 40), half=6, spread="normal",
    meaning="back's modulus along the grain", how="table",
    source="Wood Handbook, FPL-GTR-282, table 5-3b, sugar maple, raised by 10 %",
)  # fmt: skip
m_1 = M.given(
    "front_moisture", "u_{1}", "%", 9, span=(4, 22), half=0.5,
    meaning="moisture content of the front now", how="pin meter, pins short",
)  # fmt: skip
m_2 = M.given(
    "back_moisture", "u_{2}", "%", 8, span=(4, 22), half=0.5,
    meaning="moisture content of the back now", how="pin meter from the back",
)  # fmt: skip
S = M.given(
    "shrinkage_along", r"S_{\mathrm{L}}", "%", 0.15, span=(0.05, 2), half=0.05,
    meaning="shrinkage along the grain, green to ovendry", how="table; reaction or juvenile wood up to 2 %",
    source="Wood Handbook, FPL-GTR-190, chapter 4, 0.1 to 0.2 %, from memory",
)  # fmt: skip
f = M.given(
    "fiber_saturation", r"u_{\mathrm{f}}", "%", 30, span=(20, 40), half=2,
    meaning="moisture content at fiber saturation", how="table",
    source="Wood Handbook, FPL-GTR-190, chapter 4, from memory",
)  # fmt: skip
C = M.given(
    "coefficient_across", "C", "1/%", 0.00353, span=(0.0005, 0.006), half=0.0004,
    meaning="movement across the grain per percent of moisture",
    how="table; the radial figure for quarter-sawn wood",
    source="Wood Handbook, FPL-GTR-190, table 13-5, sugar maple, tangential",
)  # fmt: skip
allowed = M.given(
    "allowed", r"s_{\mathrm{max}}", "mm", 0.5, span=(0.01, 10), meaning="allowed bow over the length"
)
M.pick(
    "front_wood", table="woods", row="hard maple",
    fills={"front_modulus": "modulus_along", "coefficient_across": "tangential_coefficient"},
    meaning="wood of the front",
)  # fmt: skip
M.pick(
    "back_wood", table="woods", row="hard maple", fills={"back_modulus": "modulus_along"},
    meaning="wood of the back",
)  # fmt: skip

alpha = M.relation(
    "coefficient_along", r"\alpha", "1/%", S / f,
    because="the whole shrinkage is spread evenly down from fiber saturation"
)  # fmt: skip
e = M.relation(
    "strain_along", r"\varepsilon", "", alpha * (m_1 - m_2),
    because="only the difference of moisture bends: what both layers gain makes the block longer",
)  # fmt: skip
B = M.relation(
    "layers_stiffness", "B", "N*mm", (E_1 * t_1**3 + E_2 * t_2**3) / 12,
    because="per width, each layer resists bending about its own middle by modulus times thickness cubed over twelve",
)  # fmt: skip
H = M.relation("thickness", "H", "mm", t_1 + t_2, because="the layers lie on each other")
pull, x = sp.Symbol("glue_pull", real=True), sp.Symbol("x", real=True)
P = M.relation(
    "glue_pull", "P", "N/mm", e / (1 / (E_1 * t_1) + 1 / (E_2 * t_2) + H**2 / (4 * B)),
    because="solved for the force per width with which one layer holds the other",
    lines=[(equal(pull / (E_1 * t_1) + pull / (E_2 * t_2) + H / 2 * (pull * H / 2 / B), e),
            "at the glue both layers are equally long: shortening, stretching and bending make up the strain")],
)  # fmt: skip
m, n = t_1 / t_2, E_1 / E_2
kappa = M.relation(
    "curvature", "k", "1/m", P * H / (2 * B),
    because="the two forces, half the thickness apart on the average, bend both layers",
    lines=[(e / H * 6 * (1 + m) ** 2 / (3 * (1 + m) ** 2 + (1 + m * n) * (m**2 + 1 / (m * n))),
            "so Timoshenko writes it, with the ratios of thicknesses and of moduli")],
)  # fmt: skip
bow = M.result(
    "bow", "s", "mm", kappa * L**2 / 8, resolution=0.01,
    meaning="bow over the length; positive: the front bulges",
    because="an even curve falls off from its middle with the square of the distance",
    lines=[(sp.Integral(kappa * x, (x, 0, L / 2)), "slope after slope, x from the middle")],
)  # fmt: skip
M.result(
    "cup", r"s_{\mathrm{w}}", "mm", kappa * C / alpha * w**2 / 8, resolution=0.01,
    meaning="cup over the width; positive: the front bulges",
    because="across the grain the same layers move by another coefficient, over another length",
)  # fmt: skip
M.limit(
    "bow", "the block bows", value=sp.Abs(bow), allowed=allowed, in_unit="mm", resolution=0.01,
    mend="let the block come to one moisture before planing, finish all faces alike, or make it thicker",
)  # fmt: skip
M.caution(
    "Use straight-grained wood: reaction or juvenile wood can shrink along the grain ten times as much."
)
M.caution(
    "Unplug the machine before you lay a straightedge against the stop; wear a mask when you sand: wood dust harms."
)
M.caution(
    "Along the grain this wood moves like reaction wood; take another piece.",
    when=sp.Gt(S, sp.Rational(1, 200)),
)
MODEL = M.done()
