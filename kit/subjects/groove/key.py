"""How wide is a key for its track, so that it slides in every season and rattles in none?

The question in the trade's words: the wooden key under the stop must slide in its slot in August and not rattle in
February. How wide do I plane it today, what do the engineers' grades of fit say to that, and how much does what
play is left move the far end of the block?

The picture: in section, a key of width b in a slot of width B, one of them of wood. Wood brings its own moisture to
each climate; the play between them comes and goes. Seen from above, the key turns in the slot by its play over its
length, and the block's end swings.

Assumptions: wood at rest with the air, both times; the key's width lies across the grain; metal does not move; the
yardstick is a hole-basis fit: the slot's lower limit is the nominal size, the key lies below it.

Sources: movement of wood as in 'Movement of a block with humidity'; ISO 286-1 and -2, grades and deviations from
the table; between grades five steps make ten times.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.stop import season
from kit.subjects.stop.play import play_at_tip

GRADES = tuple(f"IT{number}" for number in range(6, 12))
LETTERS = ("h", "g", "f", "e", "d")

M = Model(
    "groove.key",
    title="Key in a slot: play through the seasons",
    question="How wide is a key that slides in its slot in every season and rattles in none?",
    picture="In section, a key in a slot, one of them of wood, with play between; from above, the key turns in the "
    "slot by its play and the far end of the block swings.",
    assumptions=(
        *season.ASSUMPTIONS,
        "the width lies across the grain; the other part is of metal and does not move",
        "the whole play counts, from the key standing straight to its corners touching",
        "the grades are a yardstick: a slot from its nominal size upward, a key below it by the letter's deviation",
    ),
    sources=(
        *season.ACROSS_SOURCES,
        "ISO 286-1: standard tolerance grades from the table; shaft deviations and the rule of five grades from memory",
    ),
)
part = M.choice("moving", "p", ("wooden key, metal slot", "wooden slot, metal key"), "wooden key, metal slot",
                meaning="which part of the fit is of wood")  # fmt: skip
B = M.given("slot", "B", "mm", 19.1, span=(3, 150), half=0.02, meaning="width of the slot now",
            how="calipers, at both ends; the narrowest counts")  # fmt: skip
b = M.given("key", "b", "mm", 18.75, span=(3, 150), half=0.02, meaning="width of the key now",
            how="calipers; the widest place counts")  # fmt: skip
c_min = M.given("play_least", r"c_{\mathrm{min}}", "mm", 0.05, span=(0, 1),
                meaning="least play at which the key slides",
                source="common practice, no source")  # fmt: skip
c_max = M.given("play_most", r"c_{\mathrm{max}}", "mm", 0.4, span=(0.02, 3), meaning="most play before the key rattles",
                source="common practice, no source")  # fmt: skip
rings = season.across_givens(M, "the moving part")
made, used = season.moistures(M)
k = M.given("key_length", r"\ell_{\mathrm{k}}", "mm", 300, span=(20, 1000), half=0.5,
            meaning="length of the key in the slot", how="rule")  # fmt: skip
reach = M.given("reach", "a", "mm", 600, span=(50, 2500), half=1,
                meaning="from the key's middle to the block's end", how="tape")  # fmt: skip
tip_max = M.given("tip_allowed", r"\delta_{\mathrm{max}}", "mm", 1.2, span=(0.01, 5),
                  meaning="most that the block's end may swing")  # fmt: skip
ISO = "ISO 286-1, range over 18 to 30 mm"
low = M.given("range_over", r"D_{1}", "mm", 18, span=(0, 400), meaning="the table's range begins above this size",
              how="table", source=ISO)  # fmt: skip
high = M.given("range_to", r"D_{2}", "mm", 30, span=(3, 500), meaning="the table's range ends with this size",
               how="table", source=ISO)  # fmt: skip
grades = [M.given(grade.lower(), rf"\mathrm{{{grade}}}", "µm", value, span=(4, 630),
                  meaning=f"tolerance of grade {grade} in this range", how="table", source=ISO)
          for grade, value in zip(GRADES, (13, 21, 33, 52, 84, 130), strict=True)]  # fmt: skip
lowered = [sp.Integer(0), *(
    M.given(f"shaft_{letter}", rf"e_{{\mathrm{{{letter}}}}}", "µm", value, span=(1, 300),
            meaning=f"how far a key of letter {letter} lies below the nominal size", how="table",
            source=f"{ISO}, from memory")
    for letter, value in zip(LETTERS[1:], (7, 20, 40, 65), strict=True)
)]  # fmt: skip
M.pick("sizes", table="iso286", row="over 18 to 30 mm", meaning="range of sizes that the slot's width lies in",
       fills={"range_over": "over", "range_to": "up_to", **{grade.lower(): grade for grade in GRADES},
              **{f"shaft_{letter}": f"shaft_{letter}" for letter in LETTERS[1:]}})  # fmt: skip
slot_grade = M.choice(
    "slot_grade", r"n_{\mathrm{B}}", GRADES, "IT11", meaning="grade of the slot, for comparison"
)
key_grade = M.choice(
    "key_grade", r"n_{\mathrm{b}}", GRADES, "IT11", meaning="grade of the key, for comparison"
)
letter = M.choice(
    "letter", r"\ell", LETTERS, "d", meaning="how far below nominal the key lies, for comparison"
)
micron = M.constant("micron", r"\mathrm{\mu m}", "µm", 1, meaning="one micrometer", source="unit")


def chosen(code: sp.Symbol, values: list[sp.Expr]) -> sp.Expr:
    """Return the value that a choice picks from a list."""
    return sp.Piecewise(*((value, sp.Eq(code, i)) for i, value in enumerate(values[:-1])), (values[-1], True))


wooden_key = sp.Eq(part, 0)
c_1 = M.result("play_made", "c_{1}", "mm", B - b, resolution=0.01, meaning="play now",
               because="the slot is that much wider than the key")  # fmt: skip
gain = season.gained(M, made, used)
C = season.coefficient_across(M, *rings)
wooden = M.relation("wooden", "w", "mm", sp.Piecewise((b, wooden_key), (B, True)),
                    because="only the wooden part's width changes")  # fmt: skip
dw = season.width_change(M, wooden, C, gain, "the wooden part")
c_2 = M.result("play_used", "c_{2}", "mm", sp.Piecewise((c_1 - dw, wooden_key), (c_1 + dw, True)), resolution=0.01,
               meaning="play in the other climate; below zero: it binds",
               because="a swelling key takes play, a swelling slot gives it")  # fmt: skip
tight = M.result("play_tight", "c_{3}", "mm", sp.Min(c_1, c_2), resolution=0.01, meaning="play in the tighter climate",
                 because="the key must slide in both")  # fmt: skip
loose = M.result("play_loose", "c_{4}", "mm", sp.Max(c_1, c_2), resolution=0.01, meaning="play in the looser climate",
                 because="and rattle in neither",
                 lines=[(c_1 + c_2 - tight, "of the two, it is the one that is not the tighter")])  # fmt: skip
best = M.result(
    "key_wanted", r"b_{\mathrm{w}}", "mm",
    sp.Piecewise(((B - c_min) / (1 + sp.Max(C * gain, 0)), wooden_key), (B * (1 + sp.Min(C * gain, 0)) - c_min, True)),
    resolution=0.01, meaning="width to plane the key to now: the least play remains in the tighter climate",
    because="turned round for the key",
    lines=[(equal(sp.Piecewise((B - sp.Symbol("key_wanted", real=True) * (1 + sp.Max(C * gain, 0)), wooden_key),
                               (B * (1 + sp.Min(C * gain, 0)) - sp.Symbol("key_wanted", real=True), True)), c_min),
            "in the climate in which the fit is tighter the least play remains between slot and key")],
)  # fmt: skip
plane = M.result("planing", r"\Delta b", "mm", b - best, resolution=0.01,
                 meaning="wood to plane off now; below zero: the key is already that much narrower",
                 because="what the key has, less what it should have")  # fmt: skip
window = M.result("window", r"\Delta c", "mm", c_max - c_min, resolution=0.01,
                  meaning="room between sliding and rattling", because="the play may take any value between",
)  # fmt: skip
fit_least = M.result("fit_least", r"P_{1}", "mm", chosen(letter, lowered), resolution=0.001,
                     meaning="least play of the compared fit",
                     because="the tightest key lies its letter's deviation below nominal, the slot on it",
                     source="ISO 286-1")  # fmt: skip
fit_most = M.result("fit_most", r"P_{2}", "mm", fit_least + chosen(slot_grade, grades) + chosen(key_grade, grades),
                    resolution=0.001, meaning="greatest play of the compared fit",
                    because="the widest slot and the narrowest key each add their tolerance", source="ISO 286-1",
)  # fmt: skip
number = sp.Symbol("season_grade", real=True)
moved = M.relation("moved", "m", "µm", sp.Max(dw, -dw, micron),
                   because="as a tolerance the season's movement has no sign; below a micrometer it counts as one",
)  # fmt: skip
M.result("season_grade", r"n", "", 6 + 5 * sp.log(moved / grades[0]) / sp.log(10), resolution=0.1,
         meaning="number of the grade whose tolerance is as wide as the season's movement",
         because="solved for the number", source="ISO 286-1, rule of five grades, from memory",
         lines=[(equal(number - 6, 5 * sp.log(moved / grades[0]) / sp.log(10)),
                 "from IT6 on every fifth grade is ten times as wide: the decimal logarithm counts the fives")],
)  # fmt: skip
_, tip = play_at_tip(
    M, sp.Max(loose, 0), k, reach, meaning="swing of the block's end, at the looser climate's play"
)

M.limit("slides", "in the tighter climate the play is", value=tight, allowed=c_min, sense=">=",
        mend="plane the key to the width wanted, or fit it in the climate of use")  # fmt: skip
M.limit("quiet", "in the looser climate the play is", value=loose, allowed=c_max,
        mend="make a new key of the width wanted, or glue a shaving to its side and plane again")  # fmt: skip
M.limit("season", "the season moves the fit by", value=sp.Abs(dw), allowed=window, in_unit="mm", resolution=0.01,
        mend="take quarter-sawn wood, a wood that moves less, or a key of metal or plastic")  # fmt: skip
M.limit("tip", "by its play the block's end swings", value=tip, allowed=tip_max,
        mend="make the key longer, or press it to one side of the slot with a spring")  # fmt: skip
M.caution(
    "Plane the key off the machine, a shaving at a time from both sides, and try it along the whole slot."
)
M.caution("Unplug the machine before you try a key in its slot; hands stay 150 mm (6 in) from the blade.")
M.caution("Rip keys from long stock with a push stick and the guard on; joint no piece shorter than the machine's "
          "manual allows; planing makes dust and shavings: extract them.")  # fmt: skip
M.caution("The slot's width lies outside the range of sizes picked: pick the range that holds it.",
          when=sp.Or(sp.Le(B, low), sp.Gt(B, high)))  # fmt: skip
M.caution("The key is wider than the slot: it does not go in.", when=sp.Lt(c_1, 0))
season.moisture_cautions(M, made, used)
MODEL = M.done()
