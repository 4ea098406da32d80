"""What a job tells of parts and stock to be packed, and what other works give to be cut."""

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
from kit.core.errors import KitError, near_misses
from kit.drawing.raster import read_rubbing
from kit.geometry.outline.trace import trace
from kit.geometry.packing.stock import ONE_WAY, TWO_WAY, Part, Sheet, any_of, board
from kit.subjects.cloth.geometry.pattern import Pattern
from kit.subjects.told import check_keys, found, length, listed, quantity, whole

SHAPED = ("length", "width", "outline", "picture", "bar", "holes")
PART = ("name", *SHAPED, "count", "turns", "over")
STOCK = ("name", *SHAPED, "count", "defects", "price")
SMOOTH = 0.5  # how far a traced outline may be simplified, mm
TURNS = {"one way": ONE_WAY, "two way": TWO_WAY, "any": any_of(8)}


def parts_of(shape: Mapping[str, Any], takes: Mapping[str, Build], folder: Path) -> tuple[Part, ...]:
    """Return the parts that are told, then those taken from other works.

    Raises:
        KitError: a part that cannot be read, or taken from what has none.
    """
    turns = turns_of(shape, "turns", "two way")
    told = [_part(each, n, shape, folder) for n, each in enumerate(listed(shape, "parts"), 1)]
    taken = [part for name, made in takes.items() for part in _taken(name, made, turns)]
    parts = (*told, *taken)
    names = [part.name for part in parts]
    for name in names:
        if names.count(name) > 1:
            raise KitError(f"two parts are called {name!r}; give each its own name, or one a count")
    return parts


def turns_of(told: Mapping[str, Any], key: str, otherwise: str) -> tuple[float, ...]:
    """Return the angles [rad] to which a part may be turned.

    Raises:
        KitError: neither one of the words nor a number of angles.
    """
    way = told.get(key, otherwise)
    if isinstance(way, int) and not isinstance(way, bool):
        return any_of(way)
    if way not in TURNS:
        hint = near_misses(str(way), list(TURNS))
        raise KitError(f"turns is {way!r}; write one of {', '.join(TURNS)}, or a number of angles{hint}")
    return TURNS[way]


def sheets_of(shape: Mapping[str, Any], folder: Path) -> tuple[tuple[Sheet, ...], dict[str, float]]:
    """Return the boards and offcuts that are told, and the price of a piece of each by its name.

    Raises:
        KitError: stock that cannot be read.
    """
    sheets, prices = [], {}
    for n, told in enumerate(listed(shape, "stock"), 1):
        told = _table(told, f"stock, number {n}", STOCK)
        name = str(told.get("name", f"stock {n}"))
        defects = [_ring(each, f"a defect of {name}") for each in listed(told, "defects")]
        count = whole(told, "count", 1)
        sheets.append(Sheet(name, _shaped(told, f"the stock {name}", folder), count, tuple(defects)))
        if name in prices:
            raise KitError(f"two pieces of stock are called {name!r}; give each its own name, or one a count")
        prices[name] = quantity(told.get("price", 0), f"price of {name}", "").base
    return tuple(sheets), prices


def defects_of(shape: Mapping[str, Any]) -> tuple[Polygon, ...]:
    """Return the defects of a roll, at their place from its beginning. Raises KitError where one is no outline."""
    return tuple(_ring(each, "a defect of the roll") for each in listed(shape, "defects"))


def _part(told: Any, number: int, shape: Mapping[str, Any], folder: Path) -> Part:
    told = _table(told, f"parts, number {number}", PART)
    name = str(told.get("name", f"part {number}"))
    outline = _shaped(told, f"the part {name}", folder)
    turns = turns_of({"turns": shape.get("turns", "two way"), **told}, "turns", "two way")
    over = told.get("over", False)
    if not isinstance(over, bool):
        raise KitError(f"the part {name}: over is {over!r}; write true if it may be turned over, or false")
    return Part(name, outline, whole(told, "count", 1), turns, over)


def _table(told: Any, where: str, keys: Sequence[str]) -> Mapping[str, Any]:
    if not isinstance(told, Mapping):
        raise KitError(
            f'the shape\'s {where} is {told!r}; write a table such as {{ name = "rail", length = "600 mm", '
            'width = "90 mm", count = 2 }'
        )
    check_keys(told, keys)
    return told


def _shaped(told: Mapping[str, Any], what: str, folder: Path) -> Polygon:
    """Return an outline told by its corners, by a picture with a bar of known length, or by length and width."""
    if "picture" in told:
        if "bar" not in told:
            raise KitError(f'the picture of {what} has no bar; write the length of the one beside it, bar = "300 mm"')
        path = found(folder, str(told["picture"]))
        outline = _traced(path, path.stat().st_mtime_ns, quantity(told["bar"], f"bar of {what}").base)
    elif "outline" in told:
        outline = _ring(told["outline"], what)
    else:
        for side in ("length", "width"):
            if side not in told:
                raise KitError(f"{what} has no {side}; give length and width, an outline, or a picture")
        outline = board(what, length(told, "length", 0.0), length(told, "width", 0.0)).outline
    holes = [_ring(each, f"a hole of {what}").exterior.coords for each in listed(told, "holes")]
    return Polygon(outline.exterior.coords, holes)


@lru_cache(maxsize=16)
def _traced(path: Path, _changed: int, bar: float) -> Polygon:
    return Polygon(trace(read_rubbing(path), bar, tolerance=SMOOTH).outline)


def _ring(told: Any, what: str) -> Polygon:
    if not isinstance(told, list) or len(told) < 3:
        raise KitError(f'{what} needs three corners or more, such as [["0 mm", "0 mm"], ["90 mm", "0 mm"], …]')
    corners = []
    for n, corner in enumerate(told, 1):
        if not isinstance(corner, list) or len(corner) != 2:
            raise KitError(f"corner {n} of {what} is {corner!r}; write its x and its y")
        corners.append(tuple(quantity(each, f"corner {n} of {what}").base for each in corner))
    return Polygon(corners)


def _taken(name: str, made: Build, turns: tuple[float, ...]) -> list[Part]:
    """Return the parts of a pattern, or the boards of a hood."""
    data = made.data
    pattern = data if isinstance(data, Pattern) else getattr(data, "pattern", None)
    if isinstance(pattern, Pattern):
        return [
            Part(
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
            blanks.append(Part(f"{each.name} board", shapely.union_all(sides).convex_hull, 1, turns))
        return blanks
    raise KitError(f"nothing to cut comes from {name}; name a part that makes a cloth pattern or boards")


def _along(outline: Polygon, grain: np.ndarray[Any, Any]) -> Polygon:
    """Return an outline turned so that its grain arrow points along x."""
    (tail_x, tail_y), (head_x, head_y) = grain
    return affinity.rotate(outline, -atan2(head_y - tail_y, head_x - tail_x), origin=(0, 0), use_radians=True)
