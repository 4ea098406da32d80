"""Stock for an order of parts: what they take with kerf, margin and gaps, what is wasted, and what it costs.

The question in the trade's words: My parts have so much area. How many meters of the roll, or how many boards, do I
buy; how much of that goes into the bin; and what would a tighter layout save?

The picture: the roll from its beginning, with a margin on both sides; the parts as one solid block, as if they had
no gaps; behind it the kerf as a block, then the gaps between parts as a hatched block: together the length to buy.

Assumptions: neighbors share a kerf, half to each; parts are convex or nearly so (in a hollow the kerf's two halves
overlap a little, so that the true loss is less); the density is that of the layout, parts with their kerf over the
stock between the margins; a board that is begun is paid whole.

Sources: Steiner's formula for the area near a convex outline; the circles' hexagonal layout as a check; counting.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.safety import STOCK

M = Model(
    "cutting.stock",
    title="Stock and cost for an order of parts",
    question="How much of a roll, or how many boards, do parts take, what is wasted, and what does it cost?",
    picture="A roll with margins: the parts as one block, the kerf as a block behind it, then the gaps, hatched.",
    assumptions=(
        "neighboring parts share a kerf, half to each",
        "parts are convex or nearly so",
        "density: parts with their kerf, over the stock between its margins",
        "a board that is begun is paid whole",
    ),
    sources=(
        "J. Steiner, Über parallele Flächen, 1840: area near a convex outline, from memory",
        "counting",
    ),
)
A = M.given("parts_area", "A", "m^2", 2.4, span=(0.01, 100), half=0.02, meaning="area of all parts together",
            how="cut list, or the packed layout")  # fmt: skip
C = M.given("outline", "C", "m", 32, span=(0.5, 2000), meaning="length of all outlines together",
            how="cut list, or the packed layout")  # fmt: skip
N = M.count("parts", "N", 20, span=(1, 1000), meaning="parts to be cut")
k = M.given("kerf", "k", "mm", 3, span=(0, 8), half=0.1, meaning="width of the kerf; 0 for a knife or shears",
            how="a cut in scrap, calipers in it")  # fmt: skip
m = M.given("margin", "m", "mm", 10, span=(0, 100), meaning="margin along every edge of the stock",
            how="selvage, bruised or crooked edge")  # fmt: skip
eta = M.given("density", r"\eta", "%", 72, span=(30, 100), half=3, meaning="density of the layout",
              how="the packed layout, or an earlier order", source="own layouts of curved parts")  # fmt: skip
kind = M.choice("stock", "s", ("roll", "boards"), "roll", meaning="what the parts are cut from")
W = M.given(
    "width", "W", "mm", 1500, span=(300, 3000), half=5, meaning="width of the roll or board", how="tape"
)
S = M.given("length", "S", "mm", 5000, span=(250, 30000), half=5, meaning="length of the roll at hand, or of one board",
            how="tape")  # fmt: skip
n = M.count("at_hand", r"n_{0}", 1, span=(1, 200), meaning="rolls or boards at hand")
c_m = M.given("price_meter", r"c_{\mathrm{m}}", "1/m", 14, span=(0, 500), meaning="price per length of roll",
              how="the seller's list", source="invented for the demo")  # fmt: skip
c_b = M.given("price_board", r"c_{\mathrm{b}}", "", 48, span=(0, 2000), meaning="price of one board",
              how="the seller's list", source="invented for the demo")  # fmt: skip
x = sp.Symbol("x", real=True)
cut_from_roll = sp.Eq(kind, 0)

A_k = M.relation(
    "with_kerf", r"A_{\mathrm{k}}", "m^2", A + C * k / 2 + sp.pi * N * k**2 / 4, resolution=0.001,
    meaning="area of all parts, each with half a kerf about it",
    because="half a kerf about a convex outline is a strip along it, and at the corners sectors that make one circle",
    lines=[(A + sp.Integral(C + 2 * sp.pi * N * x, (x, 0, k / 2)),
            "thread upon thread: a convex outline grows by one circle as the distance grows")],
    source="J. Steiner, 1840",
)  # fmt: skip
U = M.relation(
    "usable_width", "U", "mm", W - 2 * m, resolution=0.1, meaning="width between the margins",
    because="a margin is left on both sides",
)  # fmt: skip
B = M.relation(
    "usable_board", r"A_{\mathrm{b}}", "m^2", U * (S - 2 * m), resolution=0.001,
    meaning="area between the margins of one board", because="the ends have their margins too",
)  # fmt: skip
L_0 = M.result(
    "bound", r"L_{0}", "m", A_k / U + 2 * m, resolution=0.001,
    meaning="length of roll that no layout can do without", because="parts without any gap would fill the width",
)  # fmt: skip
L = M.result(
    "roll_length", "L", "m", A_k / (eta * U) + 2 * m, resolution=0.01, meaning="length of roll to buy",
    because="only a share η of what lies between the margins becomes parts and kerf",
    lines=[((L_0 - 2 * m) / eta + 2 * m, "the bound's length without margins, over the density")],
)  # fmt: skip
n_b = M.result(
    "boards", r"n_{\mathrm{b}}", "", sp.ceiling(A_k / (eta * B)), meaning="boards to buy",
    because="a board that is begun counts whole",
)  # fmt: skip
used = M.result(
    "stock_area", r"A_{\mathrm{s}}", "m^2", sp.Piecewise((W * L, cut_from_roll), (n_b * W * S, True)), resolution=0.01,
    meaning="stock that is used, margins included", because="width times length, of the roll or of every board",
)  # fmt: skip
lost = M.result(
    "kerf_loss", r"A_{\kappa}", "m^2", A_k - A, resolution=0.001, meaning="stock that becomes dust or crumbs",
    because="what the parts have grown by",
)  # fmt: skip
waste = M.result(
    "waste", r"A_{\mathrm{w}}", "m^2", used - A, resolution=0.01, meaning="stock that does not become parts",
    because="dust, margins and gaps together",
)  # fmt: skip
M.result(
    "yield", "y", "%", A / used, resolution=0.1, meaning="share of the stock that becomes parts",
    because="parts over stock", lines=[(1 - waste / used, "all but the waste")],
)  # fmt: skip
cost = M.result(
    "cost", "K", "", sp.Piecewise((c_m * L, cut_from_roll), (c_b * n_b, True)), resolution=0.01,
    meaning="cost of the stock, in the currency of the prices", because="length or boards times their price",
)  # fmt: skip
M.result(
    "cost_each", r"K_{1}", "", cost / N, resolution=0.01, meaning="cost of the stock for one part, on average",
    because="shared among the parts",
)  # fmt: skip
c = M.relation(
    "price_area", r"c_{A}", "1/m^2", sp.Piecewise((c_m / U, cut_from_roll), (c_b / B, True)), resolution=0.01,
    meaning="price of the area between the margins", because="the price of a length or board, over what it offers",
)  # fmt: skip
M.result(
    "point_saves", r"K_{\%}", "", c * A_k / eta**2 / 100, resolution=0.01,
    meaning="what one point of density more saves; of boards, on average over many orders",
    because="the cost falls with the density, by this slope", lines=[(-sp.Derivative(c * A_k / eta, eta) / 100,
    "one point is a hundredth")],
)  # fmt: skip
M.limit(
    "at_hand", "the stock that is needed is", value=used, allowed=n * W * S, in_unit="m^2", resolution=0.01,
    mend="buy more, pack more tightly, or let parts turn if the grain allows",
)  # fmt: skip
M.caution(*STOCK)
M.caution(
    "Curved parts seldom lie denser than 85 %: pack them before you buy.",
    when=sp.Gt(eta, sp.Rational(17, 20)),
)
MODEL = M.done()
