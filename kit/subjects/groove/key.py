"""Key in a slot: play through the seasons.

How wide is a key that slides in its slot in every season and rattles in none?

In the trade's words: the wooden key under the stop must slide in its slot in August and not rattle in February. How
wide do I plane it today, what do the engineers' grades of fit say to that, and how much does what play is left move the
far end of the block?

Picture: In section, a key in a slot, one of them of wood, with play between; from above, the key turns in the slot by
its play and the far end of the block swings.

Assumptions:
- the width lies across the grain; the other part is of metal and does not move
- the whole play counts, from the key standing straight to its corners touching
- the grades are a yardstick: a slot from its nominal size upward, a key below it by the letter's deviation

Sources:
- ISO 286-1: standard tolerance grades from the table; shaft deviations and the rule of five grades from memory

Notes: Wood brings its own moisture to each climate. Wood at rest with the air, both times. The yardstick is a
hole-basis fit: the slot's lower limit is the nominal size, the key lies below it. Also: movement of wood as in
'Movement of a block with humidity'; between grades five steps make ten times.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.stop import season
from kit.subjects.stop.play import play_at_tip

GRADES = tuple(f"IT{number}" for number in range(6, 12))
LETTERS = ("h", "g", "f", "e", "d")

M = Model("groove.key", __doc__, assumptions=season.ASSUMPTIONS, sources=season.ACROSS_SOURCES)
part = M.choice(
    "moving",
    "p",
    ("wooden key, metal slot", "wooden slot, metal key"),
    "wooden key, metal slot",
    "which part of the fit is of wood",
)
B = M.given("slot", "B", "19.1 ± 0.02 mm", (3, 150), "width of the slot now")
M.measured("calipers, at both ends; the narrowest counts")
b = M.given("key", "b", "18.75 ± 0.02 mm", (3, 150), "width of the key now")
M.measured("calipers; the widest place counts")
c_min = M.given("play_least", r"c_{\mathrm{min}}", "0.05 mm", (0, 1), "least play at which the key slides")
M.source("common practice, no source")
c_max = M.given("play_most", r"c_{\mathrm{max}}", "0.4 mm", (0.02, 3), "most play before the key rattles")
M.source("common practice, no source")
rings = season.across_givens(M, "the moving part")
made, used = season.moistures(M)
k = M.given("key_length", r"\ell_{\mathrm{k}}", "300 ± 0.5 mm", (20, 1000), "length of the key in the slot")
M.measured("rule")
reach = M.given("reach", "a", "600 ± 1 mm", (50, 2500), "from the key's middle to the block's end")
M.measured("tape")
tip_max = M.given("tip_allowed", r"\delta_{\mathrm{max}}", "1.2 mm", (0.01, 5), "most that the block's end may swing")
ISO = "ISO 286-1, range over 18 to 30 mm"
low = M.given("range_over", r"D_{1}", "18 mm", (0, 400), "the table's range begins above this size")
M.measured("table")
M.source(ISO)
high = M.given("range_to", r"D_{2}", "30 mm", (3, 500), "the table's range ends with this size")
M.measured("table")
M.source(ISO)
grades = []
for grade, value in zip(GRADES, (13, 21, 33, 52, 84, 130), strict=True):
    widest = M.given(
        grade.lower(), rf"\mathrm{{{grade}}}", f"{value} µm", (4, 630), f"tolerance of grade {grade} in this range"
    )
    M.measured("table")
    M.source(ISO)
    grades.append(widest)
lowered = [sp.Integer(0)]
for letter, value in zip(LETTERS[1:], (7, 20, 40, 65), strict=True):
    lowered_i = M.given(
        f"shaft_{letter}",
        rf"e_{{\mathrm{{{letter}}}}}",
        f"{value} µm",
        (1, 300),
        f"how far a key of letter {letter} lies below the nominal size",
    )
    M.measured("table")
    M.source(f"{ISO}, from memory")
    lowered.append(lowered_i)
M.pick(
    "sizes",
    "iso286",
    "over 18 to 30 mm",
    {
        "range_over": "over",
        "range_to": "up_to",
        **{grade.lower(): grade for grade in GRADES},
        **{f"shaft_{letter}": f"shaft_{letter}" for letter in LETTERS[1:]},
    },
    "range of sizes that the slot's width lies in",
)
slot_grade = M.choice("slot_grade", r"n_{\mathrm{B}}", GRADES, "IT11", "grade of the slot, for comparison")
key_grade = M.choice("key_grade", r"n_{\mathrm{b}}", GRADES, "IT11", "grade of the key, for comparison")
letter = M.choice("letter", r"\ell", LETTERS, "d", "how far below nominal the key lies, for comparison")
micron = M.constant("micron", r"\mathrm{\mu m}", "1 µm", "one micrometer", "unit")


def chosen(code: sp.Symbol, values: list[sp.Expr]) -> sp.Expr:
    """Return the value that a choice picks from a list."""
    return sp.Piecewise(*((value, sp.Eq(code, i)) for i, value in enumerate(values[:-1])), (values[-1], True))


wooden_key = sp.Eq(part, 0)
c_1 = M.result("play_made", "c_{1}", "mm", "play now", resolution=0.01)
M.equals(B - b, "the slot is that much wider than the key")
gain = season.gained(M, made, used)
C = season.coefficient_across(M, *rings)
wooden = M.relation("wooden", "w", "mm")
M.equals(sp.Piecewise((b, wooden_key), (B, True)), "only the wooden part's width changes")
dw = season.width_change(M, wooden, C, gain, "the wooden part")
c_2 = M.result("play_used", "c_{2}", "mm", "play in the other climate; below zero: it binds", resolution=0.01)
M.equals(sp.Piecewise((c_1 - dw, wooden_key), (c_1 + dw, True)), "a swelling key takes play, a swelling slot gives it")
tight = M.result("play_tight", "c_{3}", "mm", "play in the tighter climate", resolution=0.01)
M.equals(sp.Min(c_1, c_2), "the key must slide in both")
loose = M.result("play_loose", "c_{4}", "mm", "play in the looser climate", resolution=0.01)
M.step(c_1 + c_2 - tight, "of the two, it is the one that is not the tighter")
M.equals(sp.Max(c_1, c_2), "and rattle in neither")
best = M.result(
    "key_wanted",
    r"b_{\mathrm{w}}",
    "mm",
    "width to plane the key to now: the least play remains in the tighter climate",
    resolution=0.01,
)
M.step(
    equal(
        sp.Piecewise((B - best * (1 + sp.Max(C * gain, 0)), wooden_key), (B * (1 + sp.Min(C * gain, 0)) - best, True)),
        c_min,
    ),
    "in the climate in which the fit is tighter the least play remains between slot and key",
)
M.equals(
    sp.Piecewise(((B - c_min) / (1 + sp.Max(C * gain, 0)), wooden_key), (B * (1 + sp.Min(C * gain, 0)) - c_min, True)),
    "solved for the key",
)
plane = M.result(
    "planing",
    r"\Delta b",
    "mm",
    "wood to plane off now; below zero: the key is already that much narrower",
    resolution=0.01,
    signed=True,
)
M.equals(b - best, "what the key has, less what it should have")
window = M.result("window", r"\Delta c", "mm", "room between sliding and rattling", resolution=0.01)
M.equals(c_max - c_min, "the play may take any value between")
fit_least = M.result("fit_least", r"P_{1}", "mm", "least play of the compared fit", resolution=0.001)
M.equals(chosen(letter, lowered), "the tightest key lies its letter's deviation below nominal, the slot on it")
M.source("ISO 286-1")
fit_most = M.result("fit_most", r"P_{2}", "mm", "greatest play of the compared fit", resolution=0.001)
M.equals(
    fit_least + chosen(slot_grade, grades) + chosen(key_grade, grades),
    "the widest slot and the narrowest key each add their tolerance",
)
M.source("ISO 286-1")
moved = M.relation("moved", "m", "µm")
M.equals(
    sp.Max(dw, -dw, micron), "as a tolerance the season's movement has no sign; below a micrometer it counts as one"
)
number = M.result(
    "season_grade",
    r"n",
    "",
    "number of the grade whose tolerance is as wide as the season's movement; below 1: finer than any grade",
    resolution=0.1,
    signed=True,
)
M.step(
    equal(number - 6, 5 * sp.log(moved / grades[0]) / sp.log(10)),
    "from IT6 on every fifth grade is ten times as wide: the decimal logarithm counts the fives",
)
M.equals(6 + 5 * sp.log(moved / grades[0]) / sp.log(10), "solved for the number")
M.source("ISO 286-1, rule of five grades, from memory")
_, tip = play_at_tip(M, sp.Max(loose, 0), k, reach, meaning="swing of the block's end, at the looser climate's play")

M.limit("slides", "in the tighter climate the play is", tight, ">=", c_min)
M.mend("plane the key to the width wanted, or fit it in the climate of use")
M.limit("quiet", "in the looser climate the play is", loose, "<=", c_max)
M.mend("make a new key of the width wanted, or glue a shaving to its side and plane again")
M.limit("season", "the season moves the fit by", sp.Abs(dw), "<=", window, in_unit="mm", resolution=0.01)
M.mend("take quarter-sawn wood, a wood that moves less, or a key of metal or plastic")
M.limit("tip", "by its play the block's end swings", tip, "<=", tip_max)
M.mend("make the key longer, or press it to one side of the slot with a spring")
M.caution("Plane the key off the machine, a shaving at a time from both sides, and try it along the whole slot.")
M.caution("Unplug the machine before you try a key in its slot; hands stay 150 mm (6 in) from the blade.")
M.caution(
    "Rip keys from long stock with a push stick and the guard on; joint no piece shorter than the machine's "
    "manual allows; planing makes dust and shavings: extract them."
)
M.caution(
    "The slot's width lies outside the range of sizes picked: pick the range that holds it.",
    when=sp.Or(sp.Le(B, low), sp.Gt(B, high)),
)
M.caution("The key is wider than the slot: it does not go in.", when=sp.Lt(c_1, 0))
season.moisture_cautions(M, made, used)
MODEL = M.done()
