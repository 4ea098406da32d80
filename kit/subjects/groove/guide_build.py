"""The passes of a groove one by one: where the guide stands, what spacer lies at the base, what is cut."""

from __future__ import annotations

from typing import TYPE_CHECKING

from kit.core.build import Build, BuildInput, Number, Picture, Table
from kit.core.quantity import Display, show
from kit.drawing.paper import paper_plan
from kit.drawing.table_files import card_output
from kit.subjects.groove.passes_drawing import Pass, draw_passes

if TYPE_CHECKING:
    from kit.drawing.scene import Scene

MOST = 40  # passes: more would be no set-up
ONE = 0  # the choice of one guide, moved for each pass


def build(inputs: BuildInput) -> Build:
    """Return the table of passes, and where the guides stand so that the groove lies where it should."""
    v, plan = inputs.base, paper_plan(inputs.stated, inputs.printer)
    count, width = round(v["passes"]), v["width"]
    if count > MOST:
        return Build(cautions=(f"{count} passes are more than a table is for: take a larger bit.",))
    near = -v["offset"] - v["shift"]  # the bit lies that much farther from the first guide than the base's center
    far = None if v["guides"] == ONE else width + v["offset"] - v["shift"]
    passes = _one(inputs, count, near) if far is None else _two(inputs, count, near)
    numbers = [
        Number(
            "first",
            "from the groove's near edge to the first guide, the bit's place in the base taken out",
            -near,
            resolution=0.05,
        ),
    ]
    if far is not None:
        numbers.append(Number("second", "from the groove's far edge to the second guide", far - width, resolution=0.05))
    table = _table(inputs, passes)

    def draw(d: Display) -> Scene:
        return draw_passes(passes, width, v["base"], far, d)

    words = "guides, spacer, base and cut of every pass, in their order"
    return Build(
        tuple(numbers),
        pictures=(Picture("passes", "The passes, one by one", words, draw),),
        tables=(table,),
        outputs=(card_output("passes", "a card of the passes, to hang at the bench", table, plan),),
    )


def _cut(inputs: BuildInput, number: int) -> tuple[float, float]:
    """Return where pass `number`, from 0 at the near edge, begins and ends to cut."""
    start = number * inputs.base["step"]
    return start, start + inputs.base["bit"]


def _one(inputs: BuildInput, count: int, near: float) -> list[Pass]:
    """Return the passes along one guide, the farthest first: new wood stays on the guide's side."""
    guides = [near + number * inputs.base["step"] for number in range(count)]
    return [
        Pass(guides[number], guides[number], False, _cut(inputs, number), "guide on the left")
        for number in reversed(range(count))
    ]


def _two(inputs: BuildInput, count: int, near: float) -> list[Pass]:
    """Return the passes between two guides: out along the first, back along the second, the middle on a spacer."""
    ways = {0: "out along the first guide", count - 1: "back along the second guide"}
    ways |= dict.fromkeys(range(1, count - 1), "out, spacer at the first guide")
    if count == 1:
        ways = {0: "out along the first guide"}
    return [
        Pass(near, near + number * inputs.base["step"], 0 < number < count - 1, _cut(inputs, number), label)
        for number, label in ways.items()
    ]


def _table(inputs: BuildInput, passes: list[Pass]) -> Table:
    d = inputs.display
    rows = []
    for number, one in enumerate(passes, start=1):
        spacer = show(one.base - one.guide, "mm", d, resolution=0.05) if one.spacer else "none"
        guide, start, end = (show(size, "mm", d, resolution=0.05) for size in (-one.guide, *one.cut))
        rows.append((str(number), one.along, guide, spacer, start, end))
    return Table("Passes", ("Pass", "How", "Guide from the near edge", "Spacer", "Cut from", "Cut to"), tuple(rows))
