"""Many parts of one length from a stock: how many, how much kerf, what is left, and how long is the stack?

The question in the trade's words: I have boards so long and need so many parts of one length. Each cut takes its
kerf; the first end must be squared; the last piece must be long enough to hold. How many do I get from a board?

The picture: the board with its squared end, parts and kerfs one after another, and at the end the piece that was
held. Below, the parts laid end to end: their lengths, with one error for all and another of each its own.

Assumptions: all parts are cut against one stop, so that no error of marking adds up; the kerf is that of the teeth
with their run-out; parts differ by a bias common to all and by a spread of their own, independent from part to part.

Sources: counting; JCGM 100:2008 (GUM), 5.1.2, sum of independent and of fully correlated parts.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.safety import SCALE

M = Model(
    "reading.cuts",
    title="Repeated parts from a stock",
    question="How many parts of one length does a stock give, what is lost and left, and how long is the stack?",
    picture="A board: squaring cut, parts and kerfs in turn, the piece held last. Then the parts laid end to end.",
    assumptions=(
        "all parts are cut against one stop: no error of marking adds up",
        "the kerf is that of the teeth with their run-out",
        "parts share a bias and have a spread of their own",
    ),
    sources=(
        "counting",
        "JCGM 100:2008 (GUM), 5.1.2 and 5.2.2: sums of independent and of fully correlated quantities, from memory",
    ),
)
S = M.given("stock", "S", "mm", 2400, span=(500, 6000), half=2, meaning="length of a board", how="tape")
L = M.given("part", "L", "mm", 240, span=(20, 1500), meaning="length of a part")
N = M.count("wanted", "N", 24, span=(1, 200), meaning="parts that are wanted")
k = M.given("kerf", "k", "mm", 3.3, span=(0, 8), half=0.1, meaning="width of the kerf",
            how="a cut in scrap, feeler gauges or calipers in it")  # fmt: skip
trim = M.given(
    "trim", "a", "mm", 15, span=(0, 200), meaning="taken off by the squaring cut, its kerf included"
)
end = M.choice(
    "last", "e", ("tail is held", "last piece is a part"), "tail is held",
    meaning="whether every part is cut off a tail that is held, or the last piece may itself be a part",
)  # fmt: skip
h = M.given("tail_least", "h", "mm", 200, span=(0, 500), meaning="tail that must remain to be held",
            source="common practice, no source")  # fmt: skip
bias = M.given("bias", r"\beta", "mm", 0.05, span=(-2, 2), half=0.02,
               meaning="what all parts are longer (plus) than wanted",
               how="mean of measured parts less the length")  # fmt: skip
spread = M.given("spread", "u", "mm", 0.06, span=(0, 1), meaning="standard deviation of the parts",
                 how="five parts measured")  # fmt: skip
allowed = M.given(
    "allowed", r"\Delta_{\mathrm{max}}", "mm", 2, span=(0.05, 50), meaning="allowed error of the stack"
)
hair = M.constant("hair", r"\epsilon", "mm", 0.001, meaning="a fit to within this counts as a fit",
                  source="less than a saw or a tape can tell")  # fmt: skip
held = sp.Eq(end, 0)
i = sp.Symbol("i", integer=True)

use = M.relation(
    "usable", "U", "mm", hair + sp.Piecewise((S - trim - h, held), (S - trim + k, True)), resolution=0.1,
    meaning="length that whole pitches may fill",
    because="less the trim and the tail; or, where the last piece is a part, with the kerf that it does not need",
)  # fmt: skip
pitch = M.relation(
    "pitch", "P", "mm", L + k, meaning="stock that a part takes", because="each part costs its length and one kerf",
    resolution=0.1,
)  # fmt: skip
n = M.result(
    "parts", "n", "", sp.Max(0, sp.floor(use / pitch)), meaning="parts from one board",
    because="only whole parts count",
)  # fmt: skip
gone = M.relation(
    "run", "r", "mm", sp.Max(0, S - trim - n * L - sp.Max(0, n - 1) * k), resolution=0.1,
    meaning="what remains beside the last part, before its cut",
    because="the parts and the kerfs between them are gone",
    lines=[(sp.Max(0, S - trim - sp.Sum(L, (i, 1, n)) - sp.Max(0, sp.Sum(k, (i, 1, n - 1)))),
    "part after part, kerf after kerf")],
)  # fmt: skip
cuts = M.result(
    "cuts", r"n_{\mathrm{c}}",
    "", sp.Max(0, n - 1) + sp.Piecewise((1, sp.And(sp.Gt(gone, hair), sp.Gt(n, 0))), (0, True)),
    meaning="cuts to the parts of one board, without the squaring cut",
    because="one between two parts, and one more if anything remains beside the last",
)  # fmt: skip
left = M.result(
    "offcut", "o", "mm", sp.Max(0, S - trim - n * L - cuts * k), resolution=0.1,
    meaning="what is left of a board",
    because="the board less trim, parts and kerfs; a sliver thinner than a kerf is dust",
)  # fmt: skip
M.result(
    "kerf_loss", "K", "mm", S - trim - n * L - left, meaning="length of a board that becomes dust", resolution=0.1,
    because="what is neither trim nor part nor left",
)  # fmt: skip
M.result(
    "boards", r"N_{\mathrm{b}}", "", sp.ceiling(N / sp.Max(1, n)), meaning="boards for the wanted parts",
    because="a board that is begun counts whole",
)  # fmt: skip
M.result(
    "stock_needed", r"S_{N}", "mm", sp.Piecewise((trim + N * pitch + h, held), (trim + N * pitch - k, True)),
    resolution=1, meaning="length of one board that gives all wanted parts",
    because="trim, a pitch for every part, and the tail; or a kerf less where the last piece is a part",
)  # fmt: skip
M.result(
    "longest", r"L_{\mathrm{max}}", "mm", sp.Piecewise(((S - trim - h) / N - k, held), ((S - trim + k) / N - k, True)),
    resolution=0.1, meaning="longest part of which one board gives the wanted number; below zero: none",
    because="that length, turned round for the part",
)  # fmt: skip
M.result(
    "yield", r"\eta", "%", n * L / S, resolution=0.1, meaning="part of a board that becomes parts",
    because="parts over board",
)  # fmt: skip
M.result(
    "stack", r"\Sigma", "mm", N * L, resolution=0.1, meaning="length of all parts laid end to end, if they were true",
    because="lengths add",
)  # fmt: skip
off = M.result(
    "stack_bias", r"\Delta", "mm", N * bias, resolution=0.01, meaning="what the stack is longer by the common bias",
    because="what all parts share adds part by part",
    lines=[(sp.Sum(bias, (i, 1, N)), "part after part")],
)  # fmt: skip
u = M.result(
    "stack_u", r"u_{\Sigma}", "mm", sp.sqrt(N) * spread, resolution=0.01, meaning="standard uncertainty of the stack",
    because="what each part has of its own adds by squares",
    lines=[(sp.sqrt(sp.Sum(spread**2, (i, 1, N))), "square after square")],
    source="JCGM 100:2008, 5.1.2",
)  # fmt: skip
M.limit("stock", "the board is long", value=S, allowed=sp.Piecewise((trim + pitch + h, held), (trim + L, True)),
        sense=">=", in_unit="mm", resolution=1, mend="take a longer board: this one gives no part")  # fmt: skip
M.limit("stack", "the stack is off by up to", value=sp.Abs(off) + 2 * u, allowed=allowed, in_unit="mm", resolution=0.01,
        mend="correct the stop by the bias, then measure five parts again")  # fmt: skip
M.caution(*SCALE)
M.caution("Support a long board beyond the bench, and draw each part clear before the next cut.")
M.caution("Without a tail the last piece is held by hand or not at all: clamp it, and cut it with a sled.",
          when=sp.Eq(end, 1))  # fmt: skip
MODEL = M.done()
