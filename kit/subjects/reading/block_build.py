"""The table for the wall: which way of the block for which length, what to read, and where the hand is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from kit.core.build import Build, BuildInput, Number, Picture, Table
from kit.core.errors import KitError
from kit.core.quantity import Display, Quantity, parse, show, unit
from kit.drawing.paper import paper_plan
from kit.drawing.scene import Layer, Scene
from kit.drawing.table_files import card_output, csv_output
from kit.subjects.reading.wall_table import WallRow, wall_rows

HEADS = ("Length", "Way", "Read", "Hand from the blade")
TITLE = "For the wall"
STEPS = {"mm": "50 mm", "in": "2 in"}


@dataclass(frozen=True, slots=True)
class BlockScale:
    """What a strip for this block must fit, mm: its length, and the readings between which its cursor is set."""

    block: float
    first: float
    last: float


def build(inputs: BuildInput) -> Build:
    """Return the table for the wall, as rows, picture and files.

    Raises:
        KitError: no whole step lies between the table's ends.
    """
    step = inputs.stated["step"] or parse(STEPS[inputs.display.system])
    first, last = (inputs.stated[key] or _end(inputs, key) for key in ("first", "last"))
    rows = wall_rows(inputs.case, step, first, last)
    if not rows:
        raise KitError(f"no whole step of {step} lies between {first} and {last}; take a smaller step or other ends")
    table = Table(TITLE, HEADS, tuple(row.cells(inputs.display) for row in rows))
    safe = [row for row in rows if row.way]
    without = len(rows) - len(safe)
    cautions = ["The table holds for this block: measure it again when its face was trued or its cursor moved."]
    if without:
        cautions.append(
            f"{without} of {len(rows)} lengths have no safe way: cut them from a longer piece, or clamp them to a sled."
        )
    paper = paper_plan(inputs.stated, inputs.printer)
    return Build(
        numbers=(
            Number("lengths", "lengths in the table", len(rows), "", resolution=1),
            *(
                Number(f"way_{n}", f"of these, read {way}", sum(row.way == way for row in rows), "", resolution=1)
                for n, way in enumerate(inputs.entry("way").given.options)
            ),
        ),
        cautions=tuple(cautions),
        pictures=(
            Picture(
                "ways",
                "Which way for which length",
                "a bar for each way: where it is the safer one it is filled",
                lambda display: _ways(inputs, rows, display),
            ),
        ),
        tables=(table,),
        outputs=(
            card_output("wall", "table for the wall, at full size", table, paper, _notes(inputs)),
            csv_output("wall_list", "table for the wall, for a spreadsheet", table),
        ),
        data=BlockScale(*(inputs.base[name] for name in ("block", "scale_from", "scale_to"))),
    )


def _notes(inputs: BuildInput) -> tuple[str, ...]:
    """Return what stands below the card: the block it holds for, and where hands stay."""
    block, keep = (show(inputs.base[name], "mm", inputs.display) for name in ("block", "keep_off"))
    return (
        f"Holds for the block of {block}. Say the row aloud, and check the first part.",
        f"Hands stay {keep} from the blade; guards on; draw the part back before the next cut.",
    )


def _end(inputs: BuildInput, key: str) -> Quantity:
    """Return where the table ends unless stated: at what fence and hold-down hold, and at what the scale reaches."""
    value = inputs.base
    held = value["held_least"] + value["fence_gap"]
    end = held if key == "first" else max(value["direct_to"], value["over_to"])
    return Quantity.from_base(end, unit("mm"))


def _ways(inputs: BuildInput, rows: Sequence[WallRow], display: Display) -> Scene:
    """Return the ranges that each way reaches and, filled, the lengths for which it is the safer."""
    value, ways = inputs.base, inputs.entry("way").given.options
    ends = [(value["direct_from"], value["direct_to"]), (value["over_from"], value["over_to"])]
    longest = max(end for _, end in ends)
    high = 0.06 * longest
    words = "; ".join(
        f"{way} reaches {show(low, 'mm', display, resolution=1)} to {show(end, 'mm', display, resolution=1)}"
        for way, (low, end) in zip(ways, ends, strict=True)
    )
    scene = Scene("Which way for which length", f"Lengths along a line: {words}.")
    for number, (way, (low, end)) in enumerate(zip(ways, ends, strict=True)):
        foot = -1.8 * number * high
        for left, right in _runs(rows, way, low, end):
            scene.rectangle((left, foot), (right, foot + high), Layer.CONSTRUCTION, fill="medium")
        if end > low:
            scene.rectangle((low, foot), (end, foot + high))
        scene.text((0.0, foot + high / 2), way, "left", gap=3.0)
    floor = -1.8 * high
    scene.line((0.0, floor - 0.5 * high), (0.0, 1.4 * high), Layer.CUT)
    for (low, end), offset in zip(ends, (-18.0, -10.0), strict=True):
        scene.dim(
            (low, floor),
            (end, floor),
            offset,
            f"{show(low, 'mm', display, resolution=1)} to {show(end, 'mm', display, resolution=1)}",
            along="horizontal",
        )
    scene.explain(Layer.CUT, "blade")
    scene.explain(Layer.OUTLINE, "lengths that a way reaches; filled where it is the safer one")
    return scene


def _runs(rows: Sequence[WallRow], way: str, low: float, end: float) -> Iterator[tuple[float, float]]:
    """Yield where runs of lengths begin and end for which a way is the safer one, half a step beyond either end."""
    half = (rows[1].target - rows[0].target) / 2 if len(rows) > 1 else 0.0
    for chosen, run in groupby(rows, lambda row: row.way):
        targets = [row.target for row in run]
        left, right = max(low, targets[0] - half), min(end, targets[-1] + half)
        if chosen == way and right > left:
            yield left, right
