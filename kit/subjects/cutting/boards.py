"""Equal rectangles from a board: ripped into strips, the strips cut into pieces; how many, and what is left?

The question in the trade's words: I have boards or sheets of one size and need so many equal pieces. How many do I
get from each if the grain must run along, how many if they may lie either way, and what is left over?

The picture: the board with its trimmed edge and end, the strips with a kerf between them, the pieces along each
strip, and what is left at the far edge and end.

Assumptions: all strips are ripped the whole length, then cut to pieces; one edge and one end are trimmed straight
first, the kerf of that cut included; the last piece needs no kerf beyond it; all pieces of a board lie the same way.

Sources: counting.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.safety import STOCK

M = Model(
    "cutting.boards",
    title="Equal pieces from a board",
    question="How many equal pieces does a board give by ripping and cross-cutting, and what is left?",
    picture="A board with trimmed edge and end, strips with kerfs between them, pieces along each strip, and the rest.",
    assumptions=(
        "strips are ripped the whole length, then cut to pieces",
        "one edge and one end are trimmed first; that kerf is in the trim",
        "the last piece needs no kerf beyond it",
        "all pieces of a board lie the same way",
    ),
    sources=("counting",),
)
S = M.given(
    "length",
    "S",
    "mm",
    2440,
    span=(300, 6000),
    half=2,
    meaning="length of the board, along the grain",
    how="tape",
)
B = M.given("width", "B", "mm", 1220, span=(60, 3000), half=2, meaning="width of the board", how="tape")
e = M.given("end_trim", "a", "mm", 10, span=(0, 100), meaning="taken off one end, kerf included")
f = M.given("edge_trim", "b", "mm", 5, span=(0, 60), meaning="taken off one edge, kerf included")
l = M.given("piece_length", "l", "mm", 400, span=(30, 2500), meaning="length of a piece, along the grain")  # noqa: E741
w = M.given("piece_width", "w", "mm", 160, span=(10, 2500), meaning="width of a piece")
k = M.given("kerf", "k", "mm", 3.2, span=(0, 8), half=0.1, meaning="width of the kerf", how="a cut in scrap")
N = M.count("wanted", "N", 30, span=(1, 2000), meaning="pieces that are wanted")
grain = M.choice(
    "grain", "g", ("along the board", "either way"), "along the board", meaning="how the grain may run"
)
price = M.given(
    "price", "c", "", 48, span=(0, 2000), meaning="price of one board", source="invented for the demo"
)
at_hand = M.count("at_hand", r"n_{0}", 2, span=(1, 200), meaning="boards at hand")
hair = M.constant("hair", r"\epsilon", "mm", 0.001, meaning="a fit to within this counts as a fit",
                  source="less than a saw or a tape can tell")  # fmt: skip
near = M.constant("near", "h", "mm", 150, meaning="hands stay this far from the blade",
                  source="common practice, no source")  # fmt: skip


def whole(room: sp.Expr, piece: sp.Expr) -> sp.Expr:
    """Return how many pieces a length gives when each but the last costs a kerf too."""
    return sp.Max(0, sp.floor((room + k + hair) / (piece + k)))


R, Q = S - e, B - f
i = sp.Symbol("i", integer=True)
m = M.relation(
    "strips", "m", "", whole(Q, w), meaning="strips with the grain along",
    because="m strips and the kerfs between them fit: m w + (m − 1) k is no more than the trimmed width",
)  # fmt: skip
n = M.relation(
    "rows",
    "n",
    "",
    whole(R, l),
    meaning="pieces from a strip, grain along",
    because="the same along the strip",
)
m_t = M.relation(
    "strips_turned", r"m_{\mathrm{t}}", "", whole(Q, l), meaning="strips with the pieces turned",
    because="turned, a strip is as wide as a piece is long",
)  # fmt: skip
n_t = M.relation(
    "rows_turned", r"n_{\mathrm{t}}", "", whole(R, w), meaning="pieces from a strip when turned",
    because="and a piece takes its width along the strip",
)  # fmt: skip
along = M.result(
    "along", r"p_{\mathrm{a}}", "", m * n, meaning="pieces from a board, grain along",
    because="strips times pieces of a strip", lines=[(sp.Sum(n, (i, 1, m)), "strip after strip")],
)  # fmt: skip
turned = M.result(
    "turned", r"p_{\mathrm{t}}", "", m_t * n_t, meaning="pieces from a board, grain across",
    because="strips times pieces of a strip", lines=[(sp.Sum(n_t, (i, 1, m_t)), "strip after strip")],
)  # fmt: skip
p = M.result(
    "pieces", "p", "", sp.Piecewise((along, sp.Eq(grain, 0)), (sp.Max(along, turned), True)),
    meaning="pieces from one board", because="the better way, where the grain leaves the choice",
)  # fmt: skip
bound = M.result(
    "bound", r"p_{0}", "", sp.floor((R + k + hair) * (Q + k + hair) / ((l + k) * (w + k))),
    meaning="pieces that no layout can exceed", because="each piece takes its area and half a kerf on every side",
)  # fmt: skip
boards = M.result("boards", r"n_{\mathrm{b}}", "", sp.ceiling(N / sp.Max(1, p)), meaning="boards for the wanted pieces",
                  because="a board that is begun counts whole")  # fmt: skip
M.result(
    "strip_left", "v", "mm", sp.Max(0, Q - m * (w + k)), resolution=0.1,
    meaning="width left of the board, grain along", because="each strip is cut off with its kerf; less is dust",
    lines=[(sp.Max(0, Q - sp.Sum(w + k, (i, 1, m))), "strip after strip")],
)  # fmt: skip
M.result(
    "end_left", "u", "mm", sp.Max(0, R - n * (l + k)), resolution=0.1,
    meaning="length left of a strip, grain along", because="each piece is cut off with its kerf",
    lines=[(sp.Max(0, R - sp.Sum(l + k, (i, 1, n))), "piece after piece")],
)  # fmt: skip
M.result("yield", "y", "%", p * l * w / (S * B), resolution=0.1, meaning="share of a board that becomes pieces",
         because="pieces over board")  # fmt: skip
M.result("cost", "K", "", boards * price, resolution=0.01, meaning="cost of the boards, in the currency of the price",
         because="boards times price")  # fmt: skip
M.limit("some", "one board gives pieces:", value=p, allowed=1, sense=">=",
        mend="take a larger board, or let the grain run either way")  # fmt: skip
M.limit("at_hand", "boards that are needed:", value=boards, allowed=at_hand, mend="buy more boards")
M.caution(*STOCK)
M.caution("Strips narrower than 150 mm (6 in) are ripped with a push stick.", when=sp.Lt(w, near))
MODEL = M.done()
