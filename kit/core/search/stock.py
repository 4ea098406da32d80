"""Sizes that one can buy or set: rows of tables, inch fractions, whole millimeters and degrees."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from kit.core.errors import KitError
from kit.core.quantity import parse, unit
from kit.core.tables import table

if TYPE_CHECKING:
    from kit.core.model import Given

ANY = "any size"
_STEPS = {
    "whole millimeters": "1 mm",
    "steps of 5 mm": "5 mm",
    "steps of 10 mm": "10 mm",
    "sixteenths of an inch": "1/16 in",
    "eighths of an inch": "1/8 in",
    "quarters of an inch": "1/4 in",
    "half degrees": "0.5 deg",
    "whole degrees": "1 deg",
}
_TABLES = {
    "boards and panels": ("stock_thicknesses", "thickness"),
    "drills": ("drills", "diameter"),
    "bolts": ("fasteners", "diameter"),
    "clearance holes": ("fasteners", "clearance_hole"),
    "tracks": ("tracks", "width"),
}
SIZES = (ANY, *_STEPS, *_TABLES)
"""What the sizes are called; a table's rows stand in data/tables."""
_MOST = 20_000


def fitting(given: Given) -> tuple[str, ...]:
    """Return the kinds of sizes that a given can take."""
    if given.kind != "real":
        return (ANY,)
    length, angle = given.unit.dim == unit("mm").dim and not given.unit.angle, given.unit.angle
    steps = [name for name, step in _STEPS.items() if angle == step.endswith("deg") and (length or angle)]
    return (ANY, *steps, *(_TABLES if length else ()))


def sizes(given: Given, kind: str) -> tuple[float, ...]:
    """Return the sizes of a kind that lie within a given's span, in base units; empty where any size will do.

    Raises:
        KitError: an unknown kind, one that does not fit the given, or one of which the span holds no size.

    >>> from kit import model
    >>> width = model("stop.section").free["block_width"]
    >>> sizes(width, "steps of 10 mm")[:3]
    (10.0, 20.0, 30.0)
    """
    if kind not in fitting(given):
        raise KitError(f"{given.name} has no sizes {kind!r}; take one of {', '.join(fitting(given))}")
    low, high = given.span
    if given.kind in ("count", "choice"):
        return tuple(np.arange(math.ceil(low), math.floor(high) + 1.0).tolist())
    if kind == ANY:
        return ()
    if kind in _TABLES:
        name, column = _TABLES[kind]
        found = {float(row.entry(column).base) for row in table(name) if column in row}
    else:
        step = parse(_STEPS[kind], None).base
        first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
        if last - first > _MOST:
            raise KitError(f"{given.name} spans {last - first:,} sizes of {kind}; take coarser ones")
        found = {number * step for number in range(first, last + 1)}
    kept = tuple(sorted(size for size in found if low <= size <= high))
    if not kept:
        raise KitError(f"none of {kind} lies within {given.span_text()} of {given.name}; take other sizes")
    return kept
