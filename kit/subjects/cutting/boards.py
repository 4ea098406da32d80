"""Equal pieces from a board.

How many equal pieces does a board give by ripping and cross-cutting, and what is left?

In the trade's words: I have boards or sheets of one size and need so many equal pieces. How many do I get from each if
the grain must run along, how many if they may lie either way, and what is left over?

Picture: A board with trimmed edge and end, strips with kerfs between them, pieces along each strip, and the rest.

Assumptions:
- strips are ripped the whole length, then cut to pieces
- one edge and one end are trimmed first; that kerf is in the trim
- the last piece needs no kerf beyond it
- all pieces of a board lie the same way

Sources:
- counting
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.safety import STOCK

M = Model("cutting.boards", __doc__)
S = M.given("length", "S", "2440 ± 2 mm", (300, 6000), "length of the board, along the grain")
M.measured("tape")
B = M.given("width", "B", "1220 ± 2 mm", (60, 3000), "width of the board")
M.measured("tape")
e = M.given("end_trim", "a", "10 mm", (0, 100), "taken off one end, kerf included")
f = M.given("edge_trim", "b", "5 mm", (0, 60), "taken off one edge, kerf included")
l = M.given("piece_length", "l", "400 mm", (30, 2500), "length of a piece, along the grain")
w = M.given("piece_width", "w", "160 mm", (10, 2500), "width of a piece")
k = M.given("kerf", "k", "3.2 ± 0.1 mm", (0, 8), "width of the kerf")
M.measured("a cut in scrap")
N = M.count("wanted", "N", 30, (1, 2000), "pieces that are wanted")
grain = M.choice("grain", "g", ("along the board", "either way"), "along the board", "how the grain may run")
price = M.given("price", "c", "48", (0, 2000), "price of one board")
at_hand = M.count("at_hand", r"n_{0}", 2, (1, 200), "boards at hand")
hair = M.constant(
    "hair", r"\epsilon", "0.001 mm", "a fit to within this counts as a fit", "less than a saw or a tape can resolve"
)
near = M.constant("near", "h", "150 mm", "hands stay this far from the blade", "common practice, no source")


def whole(room: sp.Expr, piece: sp.Expr) -> sp.Expr:
    """Return how many pieces a length gives when each but the last costs a kerf too."""
    return sp.Max(0, sp.floor((room + k + hair) / (piece + k)))


R, Q = S - e, B - f
i = sp.Symbol("i", integer=True)
m = M.relation("strips", "m", "", "strips with the grain along")
M.equals(whole(Q, w), "m strips and the kerfs between them fit: m w + (m − 1) k is no more than the trimmed width")
n = M.relation("rows", "n", "", "pieces from a strip, grain along")
M.equals(whole(R, l), "the same along the strip")
m_t = M.relation("strips_turned", r"m_{\mathrm{t}}", "", "strips with the pieces turned")
M.equals(whole(Q, l), "turned, a strip is as wide as a piece is long")
n_t = M.relation("rows_turned", r"n_{\mathrm{t}}", "", "pieces from a strip when turned")
M.equals(whole(R, w), "and a piece takes its width along the strip")
along = M.result("along", r"p_{\mathrm{a}}", "", "pieces from a board, grain along", whole=True)
M.step(sp.Sum(n, (i, 1, m)), "strip after strip")
M.equals(m * n, "strips times pieces of a strip")
turned = M.result("turned", r"p_{\mathrm{t}}", "", "pieces from a board, grain across", whole=True)
M.step(sp.Sum(n_t, (i, 1, m_t)), "strip after strip")
M.equals(m_t * n_t, "strips times pieces of a strip")
p = M.result("pieces", "p", "", "pieces from one board", whole=True)
M.equals(
    sp.Piecewise((along, sp.Eq(grain, 0)), (sp.Max(along, turned), True)),
    "the better way, where the grain leaves the choice",
)
bound = M.result("bound", r"p_{0}", "", "pieces that no layout can exceed", whole=True)
M.equals(
    sp.floor((R + k + hair) * (Q + k + hair) / ((l + k) * (w + k))),
    "each piece takes its area and half a kerf on every side",
)
boards = M.result("boards", r"n_{\mathrm{b}}", "", "boards for the wanted pieces", whole=True)
M.equals(sp.ceiling(N / sp.Max(1, p)), "a board that is begun counts whole")
M.result("strip_left", "v", "mm", "width left of the board, grain along", resolution=0.1)
M.step(sp.Max(0, Q - sp.Sum(w + k, (i, 1, m))), "strip after strip")
M.equals(sp.Max(0, Q - m * (w + k)), "each strip is cut off with its kerf; less is dust")
M.result("end_left", "u", "mm", "length left of a strip, grain along", resolution=0.1)
M.step(sp.Max(0, R - sp.Sum(l + k, (i, 1, n))), "piece after piece")
M.equals(sp.Max(0, R - n * (l + k)), "each piece is cut off with its kerf")
M.result("yield", "y", "%", "share of a board that becomes pieces", resolution=0.1)
M.equals(p * l * w / (S * B), "pieces over board")
cost = M.result("cost", "K", "", "cost of the boards, in the currency of the price", resolution=0.01)
M.equals(boards * price, "boards times price")
M.limit("some", "one board gives pieces:", p, ">=", 1)
M.mend("take a larger board, or let the grain run either way")
M.limit("at_hand", "boards that are needed:", boards, "<=", at_hand)
M.mend("buy more boards")
M.caution(*STOCK)
M.caution("Strips narrower than 150 mm (6 in) are ripped with a push stick.", when=sp.Lt(w, near))
M.wish("least cost", cost)
MODEL = M.done()
