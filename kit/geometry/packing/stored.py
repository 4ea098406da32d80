"""A layout as plain data, and back: what a search found once need not be found again, but is judged again."""

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

from kit.core.errors import KitError, near_misses
from kit.geometry.packing.check import faults
from kit.geometry.packing.stock import CutPart, Cutting, Layout, Placed, Stock

ROW = "part, piece of stock from 1, number of the turn from 1, turned over, x and y in mm"


def to_data(layout: Layout) -> dict[str, Any]:
    """Return what found the layout and a row for each part that lies, of text, whole numbers, bools and floats alone.

    A row holds the part's name, its piece of stock from 1, the number of its turn among those that it may have from 1,
    whether it is turned over, and x and y [mm]. Floats written in full (as JSON and TOML do) come back the same.
    """
    rows = []
    for p in layout.placed:
        part = layout.parts[p.part]
        rows.append([part.name, p.sheet + 1, part.turns.index(p.turn) + 1, p.over, p.x, p.y])
    return {"by": layout.by, "placed": rows}


def restored(data: Mapping[str, Any], parts: Sequence[CutPart], stock: Stock, cutting: Cutting) -> Layout:
    """Return the layout that `to_data` wrote, on the parts and the stock as they are now; parts without a row are left.

    Raises: KitError for rows that cannot be read, and for a layout that no longer holds for these parts.
    """
    names = [part.name for part in parts]
    placed = []
    rows = data.get("placed")
    if not isinstance(rows, Sequence) or isinstance(rows, str):
        raise KitError(f"the stored layout has no list 'placed'; it holds rows of {ROW}")
    for number, row in enumerate(rows, 1):
        placed.append(_placed(number, row, parts, names))
    lying = Counter(p.part for p in placed)
    left = tuple(max(0, part.count - lying[k]) for k, part in enumerate(parts))
    layout = Layout(tuple(parts), stock, cutting, tuple(placed), str(data.get("by", "")), left)
    if wrong := faults(layout):
        raise KitError(f"the stored layout no longer holds: {wrong[0]}; pack again")
    return layout


def _placed(number: int, row: Any, parts: Sequence[CutPart], names: list[str]) -> Placed:
    if not isinstance(row, Sequence) or isinstance(row, str) or len(row) != 6 or not _sound(row):
        raise KitError(f"row {number} of the stored layout is {row!r}; it holds {ROW}")
    name, sheet, turn, over, x, y = row
    if name not in names:
        raise KitError(
            f"row {number} of the stored layout lays {name!r}, which is no part{near_misses(name, names)}; pack again"
        )
    k = names.index(name)
    if not 1 <= turn <= len(parts[k].turns):
        raise KitError(
            f"row {number} of the stored layout gives {name} its turn number {turn}, of {len(parts[k].turns)} that it "
            "may have; pack again"
        )
    return Placed(k, sheet - 1, parts[k].turns[turn - 1], over, float(x), float(y))


def _sound(row: Sequence[Any]) -> bool:
    name, sheet, turn, over, x, y = row
    whole = all(isinstance(each, int) and not isinstance(each, bool) for each in (sheet, turn))
    return (
        isinstance(name, str)
        and whole
        and isinstance(over, bool)
        and all(isinstance(each, int | float) and math.isfinite(each) for each in (x, y))
    )
