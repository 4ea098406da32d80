"""Hems and their bulk.

What finished length does a cut panel keep after hemming, and how long must staples be at its corners?

Picture: Section through a hem: single, turned once, two plies; or double, turned twice, three plies with the cut edge
inside. At a corner two hems lie on each other.

Assumptions:
- Every fold is a half circle whose middle line keeps its length; the cloth does not stretch or ease.
- Hem width and finished length are measured over the outside of the folds.
- At a corner every ply of one hem is folded with every ply of the other: nothing is cut away.
- The second fold of a double hem goes round the turned-in ply, which lies flat on the panel.

Sources:
- a fold as a bend of 180° with the neutral fiber in the middle, legs over the outside, as in DIN 6935
- double hem: both turns of one width, half the hem allowance each, via
  www.blackwalnutstitch.com/double-fold-hem-with-3-corner-options
- staple legs for cloth: thickness and about 4 mm, a supplier’s rule, via
  encorefasteners.com/how-to-determine-the-correct-staple-leg-length

Notes: The edge of a panel seen on end. A double hem is turned twice, so that the cut edge lies hidden between two
plies. At each fold the cloth runs round a half circle, and that takes cloth which a rule laid along the faces does not
see. Also: a hem is a bend of 180°, counted as DIN 6935 counts it; plies by counting.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.fold.neutral_axis import allowance, setback_factor, state_cloth

M = Model("fold.hem", __doc__)

kind = M.choice("kind", "k", ("single", "double"), "double", "hem on the edges of the measured direction")
across = M.choice("across", "k_x", ("none", "single", "double"), "double", "hem on the edges that cross it")
cut = M.given("cut_length", "C", "680 ± 1 mm", (50, 5000), "cut length of the panel")
M.measured("tape measure, cloth flat and not pulled")
edges = M.count("edges", "n", 2, (1, 2), "hemmed edges along that length: one end or both")
b = M.given("hem_width", "b", "25 ± 1 mm", (3, 100), "width of the hem, over its folds")
M.measured("rule on the back of the hem")
u = M.given("turn_in", "u", "24 ± 1 mm", (0, 100), "turned-in ply of a double hem, from its fold to the cut edge")
M.measured("rule, before the second turn")
c = state_cloth(M, "hemmed")
rho = M.given("crease_radius", r"\rho", "0 mm", (0, 3), "inside radius of a fold, zero for a pressed crease")
M.measured("half the gap that stays open in the fold")
lift = M.given("foot_lift", r"B_{\mathrm{foot}}", "6 mm", (1, 15), "thickness that passes under the lifted foot")
M.measured("manual of the sewing machine, or stacked scraps")
grip = M.given("grip", "g", "4 mm", (2, 20), "depth that the staple legs need in the wood")
M.measured("less in hardwood, more in softwood")
M.source("supplier’s rule for cloth: thickness and about 4 mm")
leg = M.given("staple_leg", "s", "10 mm", (4, 25), "staple leg at hand")
M.measured("print on the box")

half = sp.Rational(1, 2)
one, two = sp.Symbol("phi", real=True), sp.Symbol("psi", real=True)


def fold(radius: sp.Expr) -> sp.Expr:
    """Return the deduction of a fold by 180° of that inside radius, both legs over the outside."""
    return 2 * setback_factor(sp.pi) * (radius + c) - allowance(sp.pi, radius, half, c)


arc = M.relation("crease_cloth", "A", "mm", "cloth in a crease", resolution=0.01)
M.step(sp.Integral(rho + c / 2, (one, 0, sp.pi)), "each step of angle dφ takes (ρ + c/2) dφ")
M.equals(allowance(sp.pi, rho, half, c), "the middle of the cloth runs round half a circle of radius ρ + c/2")
crease = M.relation(
    "crease_deduction", "v", "mm", "cloth that a crease saves against its outside widths", resolution=0.01
)
M.step(2 * (rho + c) - arc, "two setbacks less the cloth in the crease")
M.equals(fold(rho), "over the outside the fold counts twice as ρ + c, but it holds only its half circle")
wide = M.relation("fold_radius", r"\rho_2", "mm", "inside radius of the outer fold of a double hem")
M.equals(
    rho + c / 2, "the outer fold of a double hem goes round the crease and the turned-in ply: 2 ρ and c on its diameter"
)
outer = M.relation(
    "fold_deduction", "v_2", "mm", "cloth that the outer fold saves; negative: it takes more", resolution=0.01
)
M.step(2 * (wide + c) - sp.Integral(wide + c / 2, (two, 0, sp.pi)), "two setbacks less the half circle")
M.equals(fold(wide), "the outer fold is counted like a crease, on its larger radius")
take = M.result("take_up", "U", "mm", "cloth taken by one hem", resolution=0.1)
M.equals(
    sp.Piecewise((b - crease, sp.Eq(kind, 0)), (b + u - crease - outer, True)),
    "a hem takes its width, a double hem its turned-in ply as well, less what its folds save",
)
finished = M.result("finished_length", "L", "mm", "finished length over the hems", resolution=0.5)
M.equals(cut - edges * take, "each hemmed edge takes its cloth from the cut length")
M.mistake(cut - edges * b, "the turned-in cloth was forgotten: only the hem's width was taken off")
M.mistake(cut + edges * take, "the hem was added to the cut length, and it takes from it")
plies = M.result("plies", "p", "", "plies in the hem", whole=True)
M.equals(kind + 2, "each turn lays one more ply on the panel")
corner = M.result("corner_plies", r"p_{\mathrm{corner}}", "", "plies where the hems cross", whole=True)
M.step(plies + plies * across, "the hem itself, and as many plies again with each turn of the crossing hem")
M.equals(plies * (across + 1), "the crossing hem folds all plies of the first one, turn by turn")
bulk = M.result("bulk", "B", "mm", "thickness where the hems cross", resolution=0.1)
M.equals(corner * c, "plies lie on each other")
M.result("hem_leg", r"s_{\mathrm{hem}}", "mm", "staple leg needed in the hem", resolution=0.5)
M.equals(plies * c + grip, "the legs pass the plies of the hem before they grip")
need = M.result("corner_leg", r"s_{\mathrm{corner}}", "mm", "staple leg needed at a corner", resolution=0.5)
M.equals(bulk + grip, "at a corner the legs pass all plies before they grip")
TRIM = "miter the corners: cut the surplus away before folding"
M.limit("foot", "the corner is thick by", bulk, "<=", lift)
M.mend(TRIM)
M.limit("keeps", "over its hems the panel is long", finished, ">=", edges * b, in_unit="mm", resolution=0.5)
M.mend("cut the panel longer or hem it narrower: its hems would meet")
M.limit("staple", "the staple leg is", leg, ">=", need, in_unit="mm", resolution=0.5)
M.mend(f"take longer staples, or {TRIM}")
tucked = M.relation("tucked", r"u_{\mathrm{in}}", "mm", "turned-in ply to be held by the hem")
M.equals(sp.Piecewise((0, sp.Eq(kind, 0)), (u, True)), "only a double hem has a turned-in ply")
M.limit("turn_in", "the turned-in ply is", tucked, "<=", b - wide - c, in_unit="mm", resolution=0.1)
M.mend("turn in less, or make the hem wider: it must end before the outer fold bends")
M.caution("Sew a trial corner first: a needle that meets the bulk at speed can break and fly. Wear eye protection.")
M.caution("A single hem in woven cloth frays: seal or overlock the cut edge first.", when=sp.Eq(kind, 0))
MODEL = M.done()
