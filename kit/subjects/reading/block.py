"""Reading of a reversible stop block.

What is read for a target, which targets does each way of the block reach, and where is the hand?

In the trade's words: the scale begins well away from the blade, and the knob needs room. For short parts I turn the
block round, so that its free end reaches toward the blade, and read at the knob's end: the reading is the target plus
the block's length. Which lengths can I set either way, and which way is safer?

Picture: From above: blade, fence and scale, the part against the block; below it the same block turned end for end, its
knob and cursor a block's length farther from the blade.

Assumptions:
- the cursor is true for the end of the block where the knob is
- that end must stay on the scale; the rest may stand out beyond the bench's end
- the hand is on the knob or on a hold-down beside it while the saw cuts
- the fence begins a gap away from the blade and holds the part only behind it

Sources:
- lengths along one line, added up
- hands 150 mm (6 in) from the blade: common practice, no source

Notes: The blade at the left, the scale beside the track from its first to its last mark, the block with knob and cursor
at one end. Direct: the knob's end meets the work, the rest of the block lies behind it.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.core.model.input_terms import amount
from kit.drawing.paper import PAPER
from kit.subjects.safety import SCALE

M = Model("reading.block", __doc__)
way = M.choice(
    "way",
    "j",
    ("direct", "over the block"),
    "over the block",
    "end that meets the work: the knob's end (direct), or the free end (read over the block)",
)
T = M.given("target", "T", "240 mm", (5, 3000), "length of the part that is wanted")
B = M.given("block", "B", "400 ± 0.05 mm", (50, 1500), "length of the block from face to face")
M.measured("calipers, or two test cuts one either way")
s_0 = M.given("scale_from", "s_{0}", "250 mm", (0, 800), "first reading at which the cursor can be set")
s_1 = M.given("scale_to", "s_{1}", "1500 mm", (900, 4000), "last reading at which the cursor can be set")
q = M.given("knob", "q", "60 ± 1 mm", (10, 800), "from the knob's end of the block to where the hand holds")
M.measured("rule")
f = M.given("fence_gap", "f", "25 ± 1 mm", (0, 200), "from the kerf to the end of the fence that holds the part")
M.measured("rule")
h = M.given("held_least", r"h_{\mathrm{min}}", "120 mm", (10, 500), "length of part that fence and hold-down must have")
M.source("common practice, no source")
keep = M.given("keep_off", r"a_{\mathrm{min}}", "150 mm", (100, 400), "hands keep this far from the blade")
M.source("common practice, no source; your machine's manual or local rules may ask for more")
direct = sp.Eq(way, 0)

R = M.result("reading", "R", "mm", "reading to set", resolution=0.1, setting=True)
M.step(
    equal(R - T, sp.Piecewise((0, direct), (B, True))),
    "between the part's end and the cursor lies nothing, or the block",
)
M.equals(
    sp.Piecewise((T, direct), (T + B, True)),
    "direct, the cursor's end is the part's end; over the block it lies a block's length farther out",
)
M.result("direct_from", r"T_{1}", "mm", "shortest part, direct", resolution=1)
M.equals(s_0, "direct, the least target is the scale's first reading")
M.result("direct_to", r"T_{2}", "mm", "longest part, direct", resolution=1)
M.equals(s_1, "direct, the largest target is the scale's last reading")
o_from = M.result("over_from", r"T_{3}", "mm", "shortest part, over the block", resolution=1)
M.equals(sp.Max(0, s_0 - B), "the scale's first reading, less the block; none is shorter than nothing")
o_to = M.result("over_to", r"T_{4}", "mm", "longest part, over the block", resolution=1)
M.equals(s_1 - B, "the scale's last reading, less the block")
both = M.result(
    "overlap",
    "o",
    "mm",
    "range of targets that both ways reach, from the shortest direct on; below zero: none reaches there",
    resolution=1,
)
M.step(s_1 - s_0 - B, "the scale's length, less the block")
M.equals(o_to - s_0, "it begins where the direct way begins and ends where the way over the block ends")
hand = M.result("hand", "a", "mm", "distance of the hand from the blade", resolution=1)
M.equals(
    sp.Piecewise((T + q, direct), (T + B - q, True)),
    "from the kerf the part's length, then to the knob, from the near or from the far end of the block",
)
gain = M.result(
    "hand_gain",
    r"\Delta a",
    "mm",
    "what the hand is farther away over the block than direct",
    resolution=1,
    signed=True,
)
M.step((T + B - q) - (T + q), "hand over the block less hand direct")
M.equals(B - 2 * q, "the target falls out")
held = M.result("held", "h", "mm", "length of the part that fence and hold-down have", resolution=1)
M.equals(T - f, "the part begins at the kerf, the fence its gap later")
M.result("shortest", r"T_{\mathrm{min}}", "mm", "shortest part that is safe to set this way", resolution=1)
M.equals(
    sp.Max(h + f, sp.Piecewise((sp.Max(keep - q, s_0), direct), (sp.Max(keep - B + q, o_from), True))),
    "it must be held, the hand must stay away, and the scale must reach",
)
M.result("stand_out", "b", "mm", "how far the block stands out beyond the scale's last reading", resolution=1)
M.equals(sp.Max(0, sp.Piecewise((T + B - s_1, direct), (0, True))), "direct, the whole block lies behind the part")
M.limit("begins", "the reading is", R, ">=", s_0, resolution=0.1)
M.mend("turn the block round and read over it, or take a longer block")
M.limit("ends", "the reading is", R, "<=", s_1, resolution=0.1)
M.mend("turn the block round and read direct, or take a shorter block")
M.limit("block", "the block is long", B, "<=", s_1 - s_0, resolution=1)
M.mend("take a block shorter than the scale on the bench: else some lengths are reached neither way")
M.limit("hand", "the hand's distance is", hand, ">=", keep, resolution=1)
M.mend("turn the block so that its knob lies farther out, or hold the part by a clamp")
M.limit("held", "the length held is", held, ">=", h, resolution=1)
M.mend("cut it from a longer piece, held on the other side of the blade, or clamp it to a sled")
M.caution(*SCALE)
M.caution("Let the cut-off end run free: work trapped between blade and stop is thrown. Draw the part back first.")
M.caution(
    "The way over the block reaches this length too, and the hand is farther from the blade that way.",
    when=sp.And(direct, sp.Ge(T, o_from), sp.Le(T, o_to), sp.Gt(gain, 0)),
)
M.caution(
    "Both ways reach this length: say aloud which row you read, and check with a rule before the first cut.",
    when=sp.And(sp.Ge(T, s_0), sp.Le(T, o_to)),
)
M.caution(
    "The block stands out beyond the bench: nobody may bump it, and its clamp must lie on the track.",
    when=sp.And(direct, sp.Gt(T + B, s_1)),
)
M.ask(
    *PAPER,
    amount(
        "step", "from one length of the table to the next; 50 mm or 2 in where none is stated", span=(0.01, 100_000)
    ),
    amount("first", "the table's first length; as far as the block goes where none is stated", span=(0, 100_000)),
    amount("last", "the table's last length; as far as the block goes where none is stated", span=(0, 100_000)),
)

MODEL = M.done()
