"""What a job states of parts and stock to be packed, and what other builds give to be cut."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from math import atan2
from pathlib import Path
from typing import Any

import numpy as np
import shapely
from shapely import Polygon, affinity

from kit.core.build import Build
from kit.core.errors import KitError
from kit.core.files import MOST_BYTES, beside, content_digest
from kit.core.quantity import Quantity
from kit.drawing.raster import read_rubbing
from kit.geometry.outline.trace import trace
from kit.geometry.packing.stock import ONE_WAY, TWO_WAY, CutPart, Layout, Sheet, any_of, board
from kit.geometry.packing.stored import Row, to_rows
from kit.subjects.cloth.geometry.pattern import Pattern

SMOOTH = 0.5  # how far a traced outline may be simplified, mm
TURNS = {"one way": ONE_WAY, "two way": TWO_WAY, "any": any_of(8)}


def parts_of(stated: Mapping[str, Any], takes: Mapping[str, Build], folder: Path) -> tuple[CutPart, ...]:
    """Return the parts that are stated, then those taken from other builds.

    Raises:
        KitError: an outline that cannot be one, or parts taken from what has none.
    """
    turns = turns_of(stated["turns"])
    own = [_part(row, n, turns, folder) for n, row in enumerate(stated["parts"], 1)]
    taken = [part for name, made in takes.items() for part in _taken(name, made, turns)]
    parts = (*own, *taken)
    names = [part.name for part in parts]
    for name in names:
        if names.count(name) > 1:
            raise KitError(f"two parts are called {name!r}; give each its own name, or one a count")
    return parts


def turns_of(way: str | int) -> tuple[float, ...]:
    """Return the angles [rad] to which a part may be turned, by a word or by their number."""
    return any_of(way) if isinstance(way, int) else TURNS[way]


def sheets_of(rows: Sequence[Mapping[str, Any]], folder: Path) -> tuple[tuple[Sheet, ...], dict[str, float]]:
    """Return the boards and offcuts that are stated, and the price of a piece of each by its name.

    Raises:
        KitError: an outline that cannot be one, or two of one name.
    """
    sheets, prices = [], {}
    for n, row in enumerate(rows, 1):
        name = row["name"] or f"stock {n}"
        defects = tuple(Polygon(ring(each)) for each in row["defects"])
        sheets.append(Sheet(name, _shaped(row, f"the stock {name}", folder), row["count"], defects))
        if name in prices:
            raise KitError(f"two pieces of stock are called {name!r}; give each its own name, or one a count")
        prices[name] = row["price"].base
    return tuple(sheets), prices


def layout_of(rows: Sequence[Mapping[str, Any]]) -> list[Row]:
    """Return the places of a layout that was kept."""
    return [Row(r["part"], r["piece"], r["turn"], r["over"], r["x"].base, r["y"].base) for r in rows]


def kept(layout: Layout) -> list[dict[str, Any]]:
    """Return the rows that keep a layout, as a job's file has them: in mm, far finer than a layout is judged."""
    return [
        {"part": row.part, "piece": row.piece, "turn": row.turn, "x": f"{row.x:.9f} mm", "y": f"{row.y:.9f} mm"}
        | ({"over": True} if row.over else {})
        for row in to_rows(layout)
    ]


def ring(corners: Sequence[Sequence[Quantity]]) -> list[tuple[float, float]]:
    """Return the corners of an outline, mm."""
    return [(x.base, y.base) for x, y in corners]


def _part(row: Mapping[str, Any], number: int, turns: tuple[float, ...], folder: Path) -> CutPart:
    name = row["name"] or f"part {number}"
    outline = _shaped(row, f"the part {name}", folder)
    return CutPart(name, outline, row["count"], turns_of(row["turns"]) if row["turns"] else turns, row["over"])


def _shaped(row: Mapping[str, Any], what: str, folder: Path) -> Polygon:
    """Return an outline by its corners, by a picture with a bar of known length, or by length and width."""
    if row["picture"]:
        path = beside(folder, row["picture"])
        outline = _traced(path, content_digest(path, MOST_BYTES), row["bar"].base)
    elif row["outline"]:
        outline = Polygon(ring(row["outline"]))
    else:
        outline = board(what, row["length"].base, row["width"].base).outline
    return Polygon(outline.exterior.coords, [ring(each) for each in row["holes"]])


@lru_cache(maxsize=16)
def _traced(path: Path, _content: str, bar: float) -> Polygon:
    return Polygon(trace(read_rubbing(path), bar, tolerance=SMOOTH).outline)


def _taken(name: str, made: Build, turns: tuple[float, ...]) -> list[CutPart]:
    """Return the parts of a pattern, or the boards of a hood."""
    data = made.data
    pattern = data if isinstance(data, Pattern) else getattr(data, "pattern", None)
    if isinstance(pattern, Pattern):
        return [
            CutPart(
                f"{pattern.name} {piece.name}",
                _along(Polygon(piece.cut, piece.holes), piece.grain),
                piece.count,
                turns,
            )
            for piece in pattern.pieces
        ]
    boards = getattr(data, "boards", None)
    if boards:
        blanks = []
        for each in boards:
            sides = [Polygon(each.outline(side)) for side in ("outside", "inside")]
            blanks.append(CutPart(f"{each.name} board", shapely.union_all(sides).convex_hull, 1, turns))
        return blanks
    raise KitError(f"nothing to cut comes from {name}; name a part that makes a cloth pattern or boards")


def _along(outline: Polygon, grain: np.ndarray[Any, Any]) -> Polygon:
    """Return an outline turned so that its grain arrow points along x."""
    (tail_x, tail_y), (head_x, head_y) = grain
    return affinity.rotate(outline, -atan2(head_y - tail_y, head_x - tail_x), origin=(0, 0), use_radians=True)
