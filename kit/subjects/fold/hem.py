"""Hems in cloth: how large is the panel after hemming, and how thick is it where two hems cross?

The picture: the edge of a panel seen on end. A single hem is turned once; a double hem is turned twice, so that
the cut edge lies hidden between two plies. At each fold the cloth runs round a half circle, and that takes cloth
which a rule laid along the faces does not see.

Assumptions: folds are pressed to half circles, the cloth's middle keeps its length (K = 1/2), plies lie flat.
Sources: a hem is a bend of 180°, counted as DIN 6935 counts it; plies by counting; common practice for staples.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.fold.neutral_axis import allowance, setback_factor, state_cloth

M = Model(
    "fold.hem",
    title="Hems and their bulk",
    question="What finished length does a cut panel keep after hemming, and how long must staples be at its corners?",
    picture="Section through a hem: single, turned once, two plies; or double, turned twice, three plies with the "
    "cut edge inside. At a corner two hems lie on each other.",
    assumptions=(
        "Every fold is a half circle whose middle line keeps its length; the cloth does not stretch or ease.",
        "Hem width and finished length are measured over the outside of the folds.",
        "At a corner every ply of one hem is folded with every ply of the other: nothing is cut away.",
        "The second fold of a double hem goes round the turned-in ply, which lies flat on the panel.",
    ),
    sources=(
        "a fold as a bend of 180° with the neutral fiber in the middle, legs over the outside, as in DIN 6935",
        "double hem: both turns of one width, half the hem allowance each, "
        "via www.blackwalnutstitch.com/double-fold-hem-with-3-corner-options",
        "staple legs for cloth: thickness and about 4 mm, a supplier’s rule, "
        "via encorefasteners.com/how-to-determine-the-correct-staple-leg-length",
    ),
)  # fmt: skip

kind = M.choice(
    "kind", "k", ("single", "double"), "double", meaning="hem on the edges of the measured direction"
)
across = M.choice(
    "across", "k_x", ("none", "single", "double"), "double", meaning="hem on the edges that cross it"
)
cut = M.given(
    "cut_length", "C", "mm", 680, span=(50, 5000), half=1,
    meaning="cut length of the panel", how="tape measure, cloth flat and not pulled",
)  # fmt: skip
edges = M.count("edges", "n", 2, span=(1, 2), meaning="hemmed edges along that length: one end or both")
b = M.given(
    "hem_width", "b", "mm", 25, span=(3, 100), half=1,
    meaning="width of the hem, over its folds", how="rule on the back of the hem",
)  # fmt: skip
u = M.given(
    "turn_in", "u", "mm", 24, span=(0, 100), half=1,
    meaning="turned-in ply of a double hem, from its fold to the cut edge", how="rule, before the second turn",
)  # fmt: skip
c = state_cloth(M, "hemmed")
rho = M.given(
    "crease_radius", r"\rho", "mm", 0, span=(0, 3),
    meaning="inside radius of a fold, zero for a pressed crease", how="half the gap that stays open in the fold",
)  # fmt: skip
lift = M.given(
    "foot_lift", r"B_{\mathrm{foot}}", "mm", 6, span=(1, 15),
    meaning="thickness that passes under the lifted foot", how="manual of the sewing machine, or stacked scraps",
)  # fmt: skip
grip = M.given(
    "grip", "g", "mm", 4, span=(2, 20),
    meaning="depth that the staple legs need in the wood", how="less in hardwood, more in softwood",
    source="supplier’s rule for cloth: thickness and about 4 mm",
)  # fmt: skip
leg = M.given("staple_leg", "s", "mm", 10, span=(4, 25), meaning="staple leg at hand", how="print on the box")

half = sp.Rational(1, 2)
one, two = sp.Symbol("phi", real=True), sp.Symbol("psi", real=True)


def fold(radius: sp.Expr) -> sp.Expr:
    """Return the deduction of a fold by 180° of that inside radius, both legs over the outside."""
    return 2 * setback_factor(sp.pi) * (radius + c) - allowance(sp.pi, radius, half, c)


arc = M.relation(
    "crease_cloth", "A", "mm", allowance(sp.pi, rho, half, c),
    because="the middle of the cloth runs round half a circle of radius ρ + c/2",
    lines=[(sp.Integral(rho + c / 2, (one, 0, sp.pi)), "each step of angle dφ takes (ρ + c/2) dφ")],
    meaning="cloth in a crease", resolution=0.01,
)  # fmt: skip
crease = M.relation(
    "crease_deduction", "v", "mm", fold(rho),
    because="over the outside the fold counts twice as ρ + c, but it holds only its half circle",
    lines=[(2 * (rho + c) - arc, "two setbacks less the cloth in the crease")],
    meaning="cloth that a crease saves against its outside widths", resolution=0.01,
)  # fmt: skip
wide = M.relation(
    "fold_radius", r"\rho_2", "mm", rho + c / 2,
    because="the outer fold of a double hem goes round the crease and the turned-in ply: 2 ρ and c on its diameter",
    meaning="inside radius of the outer fold of a double hem",
)  # fmt: skip
outer = M.relation(
    "fold_deduction", "v_2", "mm", fold(wide),
    because="the outer fold is counted like a crease, on its larger radius",
    lines=[(2 * (wide + c) - sp.Integral(wide + c / 2, (two, 0, sp.pi)), "two setbacks less the half circle")],
    meaning="cloth that the outer fold saves; negative: it takes more", resolution=0.01,
)  # fmt: skip
take = M.result(
    "take_up", "U", "mm", sp.Piecewise((b - crease, sp.Eq(kind, 0)), (b + u - crease - outer, True)),
    because="a hem takes its width, a double hem its turned-in ply as well, less what its folds save",
    meaning="cloth taken by one hem", resolution=0.1,
)  # fmt: skip
finished = M.result(
    "finished_length", "L", "mm", cut - edges * take,
    because="each hemmed edge takes its cloth from the cut length",
    meaning="finished length over the hems", resolution=0.5,
)  # fmt: skip
plies = M.result(
    "plies", "p", "", kind + 2,
    because="each turn lays one more ply on the panel", meaning="plies in the hem",
)  # fmt: skip
corner = M.result(
    "corner_plies", r"p_{\mathrm{corner}}", "", plies * (across + 1),
    because="the crossing hem folds all plies of the first one, turn by turn",
    lines=[(plies + plies * across, "the hem itself, and as many plies again with each turn of the crossing hem")],
    meaning="plies where the hems cross",
)  # fmt: skip
bulk = M.result(
    "bulk", "B", "mm", corner * c,
    because="plies lie on each other", meaning="thickness where the hems cross", resolution=0.1,
)  # fmt: skip
M.result(
    "hem_leg", r"s_{\mathrm{hem}}", "mm", plies * c + grip,
    because="the legs pass the plies of the hem before they grip",
    meaning="staple leg needed in the hem", resolution=0.5,
)  # fmt: skip
need = M.result(
    "corner_leg", r"s_{\mathrm{corner}}", "mm", bulk + grip,
    because="at a corner the legs pass all plies before they grip",
    meaning="staple leg needed at a corner", resolution=0.5,
)  # fmt: skip
TRIM = "miter the corners: cut the surplus away before folding"
M.limit("foot", "the corner is thick by", value=bulk, allowed=lift, mend=TRIM)
M.limit("staple", "the staple leg is", value=leg, allowed=need, sense=">=", in_unit="mm", resolution=0.5,
        mend=f"take longer staples, or {TRIM}")  # fmt: skip
tucked = M.relation(
    "tucked", r"u_{\mathrm{in}}", "mm", sp.Piecewise((0, sp.Eq(kind, 0)), (u, True)),
    because="only a double hem has a turned-in ply", meaning="turned-in ply to be held by the hem",
)  # fmt: skip
M.limit(
    "turn_in", "the turned-in ply is", value=tucked, allowed=b - c, in_unit="mm", resolution=0.1,
    mend="turn in less, or make the hem wider: the ply must end before the outer fold",
)  # fmt: skip
M.caution(
    "Sew a trial corner first: a needle that meets the bulk at speed can break and fly. Wear eye protection."
)
M.caution("A single hem in woven cloth frays: seal or overlock the cut edge first.", when=sp.Eq(kind, 0))
MODEL = M.done()
