"""Repeated parts from a stock.

How many parts of one length does a stock give, what is lost and left, and how long is the stack?

In the trade's words: I have boards so long and need so many parts of one length. Each cut takes its kerf; the first end
must be squared; the last piece must be long enough to hold. How many do I get from a board?

Picture: A board: squaring cut, parts and kerfs in turn, the piece held last. Then the parts laid end to end.

Assumptions:
- all parts are cut against one stop: no error of marking adds up
- the kerf is that of the teeth with their run-out
- parts share a bias and have a spread of their own

Sources:
- counting
- JCGM 100:2008 (GUM), 5.1.2 and 5.2.2: sums of independent and of fully correlated quantities, from memory

Notes: The board with its squared end, parts and kerfs one after another, and at the end the piece that was held. Below,
the parts laid end to end: their lengths, with one error for all and another of each its own.
"""

import sympy as sp

from kit.core.model import Model
from kit.core.model.input_terms import amounts
from kit.subjects.safety import SCALE

M = Model("reading.cuts", __doc__)
S = M.given("stock", "S", "2400 ± 2 mm", (500, 6000), "length of a board")
M.measured("tape")
L = M.given("part", "L", "240 mm", (20, 1500), "length of a part")
N = M.count("wanted", "N", 24, (1, 200), "parts that are wanted")
k = M.given("kerf", "k", "3.3 ± 0.1 mm", (0, 8), "width of the kerf")
M.measured("a cut in scrap, feeler gauges or calipers in it")
trim = M.given("trim", "a", "15 mm", (0, 200), "taken off by the squaring cut, its kerf included")
end = M.choice(
    "last",
    "e",
    ("tail is held", "last piece is a part"),
    "tail is held",
    "whether every part is cut off a tail that is held, or the last piece may itself be a part",
)
h = M.given("tail_least", "h", "200 mm", (0, 500), "tail that must remain to be held")
M.source("common practice, no source")
bias = M.given("bias", r"\beta", "0.05 ± 0.02 mm", (-2, 2), "what all parts are longer (plus) than wanted")
M.measured("mean of measured parts less the length")
spread = M.given("spread", "u", "0.06 mm", (0, 1), "standard deviation of the parts")
M.measured("five parts measured")
allowed = M.given("allowed", r"\Delta_{\mathrm{max}}", "2 mm", (0.05, 50), "allowed error of the stack")
hair = M.constant(
    "hair", r"\epsilon", "0.001 mm", "a fit to within this counts as a fit", "less than a saw or a tape can resolve"
)
held = sp.Eq(end, 0)
i = sp.Symbol("i", integer=True)

use = M.relation("usable", "U", "mm", "length that whole pitches may fill", resolution=0.1)
M.equals(
    hair + sp.Piecewise((S - trim - h, held), (S - trim + k, True)),
    "less the trim and the tail; or, where the last piece is a part, with the kerf that it does not need",
)
pitch = M.relation("pitch", "P", "mm", "stock that a part takes", resolution=0.1)
M.equals(L + k, "each part costs its length and one kerf")
n = M.result("parts", "n", "", "parts from one board", whole=True)
M.equals(sp.Max(0, sp.floor(use / pitch)), "only whole parts count")
gone = M.relation("run", "r", "mm", "what remains beside the last part, before its cut", resolution=0.1)
M.step(
    sp.Max(0, S - trim - sp.Sum(L, (i, 1, n)) - sp.Max(0, sp.Sum(k, (i, 1, n - 1)))), "part after part, kerf after kerf"
)
M.equals(sp.Max(0, S - trim - n * L - sp.Max(0, n - 1) * k), "the parts and the kerfs between them are gone")
cuts = M.result("cuts", r"n_{\mathrm{c}}", "", "cuts to the parts of one board, without the squaring cut", whole=True)
M.equals(
    sp.Max(0, n - 1) + sp.Piecewise((1, sp.And(sp.Gt(gone, hair), sp.Gt(n, 0))), (0, True)),
    "one between two parts, and one more if anything remains beside the last",
)
left = M.result("offcut", "o", "mm", "what is left of a board", resolution=0.1)
M.equals(
    sp.Max(0, S - trim - n * L - cuts * k), "the board less trim, parts and kerfs; a sliver thinner than a kerf is dust"
)
M.result("kerf_loss", "K", "mm", "length of a board that becomes dust", resolution=0.1)
M.equals(S - trim - n * L - left, "what is neither trim nor part nor left")
M.result("boards", r"N_{\mathrm{b}}", "", "boards for the wanted parts", whole=True)
M.equals(sp.ceiling(N / sp.Max(1, n)), "a board that is begun counts whole")
M.result("stock_needed", r"S_{N}", "mm", "length of one board that gives all wanted parts", resolution=1)
M.equals(
    sp.Piecewise((trim + N * pitch + h, held), (trim + N * pitch - k, True)),
    "trim, a pitch for every part, and the tail; or a kerf less where the last piece is a part",
)
M.result(
    "longest",
    r"L_{\mathrm{max}}",
    "mm",
    "longest part of which one board gives the wanted number; zero: none",
    resolution=0.1,
)
M.equals(
    sp.Max(0, sp.Piecewise(((S - trim - h) / N - k, held), ((S - trim + k) / N - k, True))),
    "that length, solved for the part; where kerfs and tail take it all, none",
)
M.result("yield", r"\eta", "%", "part of a board that becomes parts", resolution=0.1)
M.equals(n * L / S, "parts over board")
M.result("stack", r"\Sigma", "mm", "length of all parts laid end to end, if they were true", resolution=0.1)
M.equals(N * L, "lengths add")
off = M.result(
    "stack_bias", r"\Delta", "mm", "what the stack is longer by the common bias", resolution=0.01, signed=True
)
M.step(sp.Sum(bias, (i, 1, N)), "part after part")
M.equals(N * bias, "what all parts share adds part by part")
u = M.result("stack_u", r"u_{\Sigma}", "mm", "standard uncertainty of the stack", resolution=0.01)
M.step(sp.sqrt(sp.Sum(spread**2, (i, 1, N))), "square after square")
M.equals(sp.sqrt(N) * spread, "what each part has of its own adds by squares")
M.source("JCGM 100:2008, 5.1.2")
M.limit(
    "stock",
    "the board is long",
    S,
    ">=",
    sp.Piecewise((trim + pitch + h, held), (trim + L, True)),
    in_unit="mm",
    resolution=1,
)
M.mend("take a longer board: this one gives no part")
M.limit("stack", "the stack is off by up to", sp.Abs(off) + 2 * u, "<=", allowed, in_unit="mm", resolution=0.01)
M.mend("correct the stop by the bias, then measure five parts again")
M.caution(*SCALE)
M.caution("Support a long board beyond the bench, and draw each part clear before the next cut.")
M.caution(
    "Without a tail the last piece is held by hand or not at all: clamp it, and cut it with a sled.", when=sp.Eq(end, 1)
)
M.ask(
    amounts("boards", "lengths of the boards at hand", span=(1, 100_000)),
)

MODEL = M.done()
