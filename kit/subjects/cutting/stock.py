"""Stock and cost for an order of parts.

How much of a roll, or how many boards, do parts take, what is wasted, and what does it cost?

In the trade's words: My parts have so much area. How many meters of the roll, or how many boards, do I buy; how much of
that goes into the bin; and what would a tighter layout save?

Picture: A roll with margins: the parts as one block, the kerf as a block behind it, then the gaps, hatched.

Assumptions:
- neighboring parts share a kerf, half to each
- parts are convex or nearly so
- density: parts with their kerf, over the stock between its margins
- a board that is begun is paid whole

Sources:
- J. Steiner, Über parallele Flächen, 1840: area near a convex outline, from memory
- counting

Notes: The roll from its beginning, with a margin on both sides. Parts are convex or nearly so (in a hollow the kerf's
two halves overlap a little, so that the true loss is less). Also: the circles' hexagonal layout as a check.
"""

import sympy as sp

from kit.core.model import Model
from kit.core.model.input_terms import amount, choice, count, file, flag, many, outline, rows, text
from kit.drawing.paper import PAPER
from kit.subjects.safety import STOCK

M = Model("cutting.stock", __doc__)
A = M.given("parts_area", "A", "2.4 ± 0.02 m^2", (0.01, 100), "area of all parts together")
M.measured("cut list, or the packed layout")
C = M.given("outline", "C", "32 m", (0.5, 2000), "length of all outlines together")
M.measured("cut list, or the packed layout")
N = M.count("parts", "N", 20, (1, 1000), "parts to be cut")
k = M.given("kerf", "k", "3 ± 0.1 mm", (0, 8), "width of the kerf; 0 for a knife or shears")
M.measured("a cut in scrap, calipers in it")
m = M.given("margin", "m", "10 mm", (0, 100), "margin along every edge of the stock")
M.measured("selvage, bruised or crooked edge")
eta = M.given("density", r"\eta", "72 ± 3 %", (30, 100), "density of the layout")
M.measured("the packed layout, or an earlier order")
kind = M.choice("stock", "s", ("roll", "boards"), "roll", "what the parts are cut from")
W = M.given("width", "W", "1500 ± 5 mm", (300, 3000), "width of the roll or board")
M.measured("tape")
S = M.given("length", "S", "5000 ± 5 mm", (250, 30000), "length of the roll at hand, or of one board")
M.measured("tape")
n = M.count("at_hand", r"n_{0}", 1, (1, 200), "rolls or boards at hand")
c_m = M.given("price_meter", r"c_{\mathrm{m}}", "14 1/m", (0, 500), "price per length of roll")
M.measured("the seller's list")
c_b = M.given("price_board", r"c_{\mathrm{b}}", "48", (0, 2000), "price of one board")
M.measured("the seller's list")
x = sp.Symbol("x", real=True)
cut_from_roll = sp.Eq(kind, 0)

A_k = M.relation(
    "with_kerf", r"A_{\mathrm{k}}", "m^2", "area of all parts, each with half a kerf about it", resolution=0.001
)
M.step(
    A + sp.Integral(C + 2 * sp.pi * N * x, (x, 0, k / 2)),
    "thread upon thread: a convex outline grows by one circle as the distance grows",
)
M.equals(
    A + C * k / 2 + sp.pi * N * k**2 / 4,
    "half a kerf about a convex outline is a strip along it, and at the corners sectors that make one circle",
)
M.source("J. Steiner, 1840")
U = M.relation("usable_width", "U", "mm", "width between the margins", resolution=0.1)
M.equals(W - 2 * m, "a margin is left on both sides")
B = M.relation("usable_board", r"A_{\mathrm{b}}", "m^2", "area between the margins of one board", resolution=0.001)
M.equals(U * (S - 2 * m), "the ends have their margins too")
L_0 = M.result("bound", r"L_{0}", "m", "length of roll that no layout can do without", resolution=0.001)
M.equals(A_k / U + 2 * m, "parts without any gap would fill the width")
L = M.result("roll_length", "L", "m", "length of roll to buy", resolution=0.01)
M.step((L_0 - 2 * m) / eta + 2 * m, "the bound's length without margins, over the density")
M.equals(A_k / (eta * U) + 2 * m, "only a share η of what lies between the margins becomes parts and kerf")
n_b = M.result("boards", r"n_{\mathrm{b}}", "", "boards to buy", whole=True)
M.equals(sp.ceiling(A_k / (eta * B)), "a board that is begun counts whole")
used = M.result("stock_area", r"A_{\mathrm{s}}", "m^2", "stock that is used, margins included", resolution=0.01)
M.equals(sp.Piecewise((W * L, cut_from_roll), (n_b * W * S, True)), "width times length, of the roll or of every board")
lost = M.result("kerf_loss", r"A_{\kappa}", "m^2", "stock that becomes dust or crumbs", resolution=0.001)
M.equals(A_k - A, "what the parts have grown by")
waste = M.result("waste", r"A_{\mathrm{w}}", "m^2", "stock that does not become parts", resolution=0.01)
M.equals(used - A, "dust, margins and gaps together")
M.result("yield", "y", "%", "share of the stock that becomes parts", resolution=0.1)
M.step(1 - waste / used, "all but the waste")
M.equals(A / used, "parts over stock")
cost = M.result("cost", "K", "", "cost of the stock, in the currency of the prices", resolution=0.01)
M.equals(sp.Piecewise((c_m * L, cut_from_roll), (c_b * n_b, True)), "length or boards times their price")
M.result("cost_each", r"K_{1}", "", "cost of the stock for one part, on average", resolution=0.01)
M.equals(cost / N, "shared among the parts")
c = M.relation("price_area", r"c_{A}", "1/m^2", "price of the area between the margins", resolution=0.01)
M.equals(sp.Piecewise((c_m / U, cut_from_roll), (c_b / B, True)), "the price of a length or board, over what it offers")
M.result(
    "point_saves",
    r"K_{\%}",
    "",
    "what one point of density more saves; of boards, on average over many orders",
    resolution=0.01,
)
M.step(-sp.Derivative(c * A_k / eta, eta) / 100, "one point is a hundredth")
M.equals(c * A_k / eta**2 / 100, "the cost falls with the density, by this slope")
M.limit("at_hand", "the stock that is needed is", used, "<=", n * W * S, in_unit="m^2", resolution=0.01)
M.mend("buy more, pack more tightly, or let parts turn if the grain allows")
M.caution(*STOCK)
M.caution(
    "Curved parts seldom lie denser than 85 %: pack them before you buy.",
    when=sp.Gt(eta, sp.Rational(17, 20)),
)
TURNS = ("one way", "two way", "any")
SHAPED = (
    amount("length", "length of a rectangle", span=(1, 100_000)),
    amount("width", "width of a rectangle", span=(1, 100_000)),
    outline("outline", "its corners, in turn, where it is no rectangle"),
    file(
        "picture",
        "a picture from which its outline is traced",
        ".png",
        ".jpg",
        ".jpeg",
        ".tif",
        ".tiff",
        ".bmp",
        ".pgm",
    ),
    amount("bar", "length of the bar in the picture", span=(1, 100_000)),
    many("holes", "holes in it", outline("hole", "an outline")),
)
WAYS = (("length", "width"), ("outline",), ("picture", "bar"))

M.ask(
    *PAPER,
    rows(
        "parts",
        "parts to cut",
        text("name", "what the part is called; its number where nothing is stated"),
        *SHAPED,
        count("count", "how many of it", 1),
        choice("turns", "how it may be turned; as all parts where nothing is stated", *TURNS, number=True),
        flag("over", "it may be turned over"),
        one_of=WAYS,
    ),
    rows(
        "stock",
        "boards and offcuts at hand, beside the board of this page",
        text("name", "what it is called; its number where nothing is stated"),
        *SHAPED,
        count("count", "how many of it", 1),
        many("defects", "places that no part may cover", outline("defect", "an outline")),
        amount("price", "price of a piece", "", default="0"),
        one_of=WAYS,
    ),
    many("defects", "places of the roll that no part may cover, from its beginning", outline("defect", "an outline")),
    choice("turns", "how parts may be turned, or to how many angles", *TURNS, default="two way", number=True),
    count("effort", "moves of a part that packing may take", 1500),
    count("seed", "the number that a search for a layout begins with", 1),
    rows(
        "layout",
        "where each part lies, as a search found it and it was kept",
        text("part", "the part"),
        count("piece", "the piece of stock on which it lies, counted from 1", 1),
        count("turn", "which of the turns that it may have, counted from 1", 1),
        flag("over", "it lies turned over"),
        amount("x", "how far it is moved along the stock", span=(-1_000_000, 1_000_000)),
        amount("y", "how far it is moved across the stock", span=(-1_000_000, 1_000_000)),
        found=True,
    ),
    flag("tiled", "outlines are wanted at full size on sheets to tape"),
)

M.wish("least cost", cost)
M.wish("least waste", waste)
MODEL = M.done()
