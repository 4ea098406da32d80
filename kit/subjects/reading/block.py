"""A stop block of exactly known length, used from both ends: what do I read, what can I reach, where is my hand?

The question in the trade's words: the scale begins well away from the blade, and the knob needs room. For short
parts I turn the block round, so that its free end reaches toward the blade, and read at the knob's end: the reading
is the target plus the block's length. Which lengths can I set either way, and which way is safer?

The picture, seen from above: the blade at the left, the scale beside the track from its first to its last mark, the
block with knob and cursor at one end. Direct: the knob's end meets the work, the rest of the block lies behind it.
Over the block: the free end meets the work, knob and cursor lie a block's length farther out.

Assumptions: the cursor line is true for the end where the knob is; the knob's end must stay on the scale; the hand
holds the knob (or the hold-down beside it) while the saw cuts; the block may stand out beyond the bench's end.

Sources: lengths along one line, added up; 150 mm (6 in) from the blade: common practice, no source.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import SCALE

M = Model(
    "reading.block",
    title="Reading of a reversible stop block",
    question="What is read for a target, which targets does each way of the block reach, and where is the hand?",
    picture="From above: blade, fence and scale, the part against the block; below it the same block turned end for "
    "end, its knob and cursor a block's length farther from the blade.",
    assumptions=(
        "the cursor is true for the end of the block where the knob is",
        "that end must stay on the scale; the rest may stand out beyond the bench's end",
        "the hand is on the knob or on a hold-down beside it while the saw cuts",
        "the fence begins a gap away from the blade and holds the part only behind it",
    ),
    sources=(
        "lengths along one line, added up",
        "hands 150 mm (6 in) from the blade: common practice, no source",
    ),
)
way = M.choice(
    "way", "j", ("direct", "over the block"), "over the block",
    meaning="end that meets the work: the knob's end (direct), or the free end (read over the block)",
)  # fmt: skip
T = M.given("target", "T", "mm", 240, span=(5, 3000), meaning="length of the part that is wanted")
B = M.given(
    "block", "B", "mm", 400, span=(50, 1500), half=0.05,
    meaning="length of the block from face to face", how="calipers, or two test cuts one either way",
)  # fmt: skip
s_0 = M.given(
    "scale_from", "s_{0}", "mm", 250, span=(0, 800), meaning="first reading at which the cursor can be set"
)
s_1 = M.given(
    "scale_to", "s_{1}", "mm", 1500, span=(900, 4000), meaning="last reading at which the cursor can be set"
)
q = M.given(
    "knob", "q", "mm", 60, span=(10, 800), half=1, meaning="from the knob's end of the block to where the hand holds",
    how="rule",
)  # fmt: skip
f = M.given(
    "fence_gap", "f", "mm", 25, span=(0, 200), half=1,
    meaning="from the kerf to the end of the fence that holds the part",
    how="rule",
)  # fmt: skip
h = M.given(
    "held_least", r"h_{\mathrm{min}}", "mm", 120, span=(10, 500),
    meaning="length of part that fence and hold-down must have", source="common practice, no source",
)  # fmt: skip
keep = M.given(
    "keep_off", r"a_{\mathrm{min}}", "mm", 150, span=(100, 400), meaning="hands keep this far from the blade",
    source="common practice, no source; your machine's manual or local rules may ask for more",
)  # fmt: skip
direct = sp.Eq(way, 0)
reading_ = sp.Symbol("reading", real=True)

R = M.result(
    "reading", "R", "mm", sp.Piecewise((T, direct), (T + B, True)), resolution=0.1,
    meaning="reading to set",
    because="direct, the cursor's end is the part's end; over the block it lies a block's length farther out",
    lines=[(equal(reading_ - T, sp.Piecewise((0, direct), (B, True))),
            "between the part's end and the cursor lies nothing, or the block")],
)  # fmt: skip
M.result("direct_from", r"T_{1}", "mm", s_0, meaning="shortest part, direct", resolution=1,
         because="direct, the least target is the scale's first reading")  # fmt: skip
M.result("direct_to", r"T_{2}", "mm", s_1, meaning="longest part, direct", resolution=1,
                because="direct, the largest target is the scale's last reading")  # fmt: skip
o_from = M.result(
    "over_from", r"T_{3}", "mm", sp.Max(0, s_0 - B), meaning="shortest part, over the block", resolution=1,
    because="the scale's first reading, less the block; none is shorter than nothing",
)  # fmt: skip
o_to = M.result(
    "over_to", r"T_{4}", "mm", s_1 - B, meaning="longest part, over the block", resolution=1,
    because="the scale's last reading, less the block",
)  # fmt: skip
both = M.result(
    "overlap", "o", "mm", o_to - s_0, resolution=1,
    meaning="range of targets that both ways reach, from the shortest direct on; below zero: none reaches there",
    because="it begins where the direct way begins and ends where the way over the block ends",
    lines=[(s_1 - s_0 - B, "the scale's length, less the block")],
)  # fmt: skip
hand = M.result(
    "hand", "a", "mm", sp.Piecewise((T + q, direct), (T + B - q, True)), resolution=1,
    meaning="distance of the hand from the blade",
    because="from the kerf the part's length, then to the knob, from the near or from the far end of the block",
)  # fmt: skip
gain = M.result(
    "hand_gain", r"\Delta a", "mm", B - 2 * q, resolution=1,
    meaning="what the hand is farther away over the block than direct",
    because="the target falls out",
    lines=[((T + B - q) - (T + q), "hand over the block less hand direct")],
)  # fmt: skip
held = M.result(
    "held", "h", "mm", T - f, resolution=1, meaning="length of the part that fence and hold-down have",
    because="the part begins at the kerf, the fence its gap later",
)  # fmt: skip
M.result(
    "shortest", r"T_{\mathrm{min}}", "mm",
    sp.Max(h + f, sp.Piecewise((sp.Max(keep - q, s_0), direct), (sp.Max(keep - B + q, o_from), True))), resolution=1,
    meaning="shortest part that is safe to set this way",
    because="it must be held, the hand must stay away, and the scale must reach",
)  # fmt: skip
M.result(
    "stand_out", "b", "mm", sp.Max(0, sp.Piecewise((T + B - s_1, direct), (0, True))), resolution=1,
    meaning="how far the block stands out beyond the scale's last reading",
    because="direct, the whole block lies behind the part",
)  # fmt: skip
M.limit("begins", "the reading is", value=R, allowed=s_0, sense=">=", resolution=0.1,
        mend="turn the block round and read over it, or take a longer block")  # fmt: skip
M.limit("ends", "the reading is", value=R, allowed=s_1, resolution=0.1,
        mend="turn the block round and read direct, or take a shorter block")  # fmt: skip
M.limit("block", "the block is long", value=B, allowed=s_1 - s_0, resolution=1,
        mend="take a block shorter than the scale on the bench: else some lengths are reached neither way")  # fmt: skip
M.limit("hand", "the hand's distance is", value=hand, allowed=keep, sense=">=", resolution=1,
        mend="turn the block so that its knob lies farther out, or hold the part by a clamp")  # fmt: skip
M.limit("held", "the length held is", value=held, allowed=h, sense=">=", resolution=1,
        mend="cut it from a longer piece, held on the other side of the blade, or clamp it to a sled")  # fmt: skip
M.caution(*SCALE)
M.caution(
    "Let the cut-off end run free: work trapped between blade and stop is thrown. Draw the part back first."
)
M.caution(
    "The way over the block reaches this length too, and the hand is farther from the blade that way.",
    when=sp.And(direct, sp.Ge(T, o_from), sp.Le(T, o_to), sp.Gt(gain, 0)),
)
M.caution("Both ways reach this length: say aloud which row you read, and check with a rule before the first cut.",
          when=sp.And(sp.Ge(T, s_0), sp.Le(T, o_to)))  # fmt: skip
M.caution("The block stands out beyond the bench: nobody may bump it, and its clamp must lie on the track.",
          when=sp.And(direct, sp.Gt(T + B, s_1)))  # fmt: skip
MODEL = M.done()
