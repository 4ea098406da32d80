"""A layout as rows, and back: what a search found once need not be found again, but is judged again."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from kit.core.errors import KitError, near_misses
from kit.geometry.packing.check import faults
from kit.geometry.packing.stock import CutPart, Cutting, Layout, Placed, Stock

KEPT = "kept"
"""What is said to have found a layout that was restored."""


@dataclass(frozen=True, slots=True)
class Row:
    """Where one part lies: on which piece of stock, at which of the turns that it may have, both counted from 1.

    `x` and `y` are in mm, as those of a `Placed`.
    """

    part: str
    piece: int
    turn: int
    over: bool
    x: float
    y: float


def to_rows(layout: Layout) -> list[Row]:
    """Return a row for each part that lies."""
    parts = layout.parts
    return [
        Row(parts[p.part].name, p.sheet + 1, parts[p.part].turns.index(p.turn) + 1, p.over, p.x, p.y)
        for p in layout.placed
    ]


def restored(rows: Sequence[Row], parts: Sequence[CutPart], stock: Stock, cutting: Cutting) -> Layout:
    """Return the layout of these rows on the parts and the stock as they are now; parts without a row are left.

    Raises:
        KitError: a layout that does not hold for these parts.
    """
    names = [part.name for part in parts]
    placed = tuple(_placed(row, parts, names) for row in rows)
    lying = Counter(p.part for p in placed)
    left = tuple(max(0, part.count - lying[k]) for k, part in enumerate(parts))
    layout = Layout(tuple(parts), stock, cutting, placed, KEPT, left)
    if wrong := faults(layout):
        raise KitError(f"the layout that was kept no longer holds: {wrong[0]}; pack again")
    return layout


def _placed(row: Row, parts: Sequence[CutPart], names: list[str]) -> Placed:
    if row.part not in names:
        near = near_misses(row.part, names)
        raise KitError(f"the layout that was kept lays {row.part!r}, which is no part any more{near}; pack again")
    part = parts[names.index(row.part)]
    if not 1 <= row.turn <= len(part.turns):
        raise KitError(
            f"the layout that was kept gives {row.part} its turn number {row.turn}, of {len(part.turns)} that it "
            "may have; pack again"
        )
    return Placed(names.index(row.part), row.piece - 1, part.turns[row.turn - 1], row.over, row.x, row.y)
