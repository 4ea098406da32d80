"""Small maps side by side: the same map for several values of a third given, or for each of some choices."""

from __future__ import annotations

from collections.abc import Mapping
from html import escape

import numpy as np

from kit.core.errors import KitError
from kit.core.model import Case
from kit.core.model.grid import Ends, grid
from kit.core.quantity import Display
from kit.drawing.axes_svg import opened
from kit.drawing.map_svg import HEIGHT, WIDTH, map_svg, round_levels
from kit.drawing.plots import relation_of, shown_unit

POINTS = 64  # each way
COLUMNS, WIDE, HEAD = 3, 300.0, 24.0  # in a row; width of one; room for what stands above it, CSS pixels


def strip_svg(
    cases: Mapping[str, Case],
    axes: tuple[str, str],
    name: str,
    display: Display,
    *,
    ends: tuple[Ends | None, Ends | None] = (None, None),
    ids: str = "strip",
) -> str:
    """Return a small map of each case under its name, all with the same bands. Limits have the numbers of a large map.

    Raises:
        KitError: no case at all, or as `grid`.
    """
    if not cases:
        raise KitError("there is nothing to put side by side; take another given")
    made = {label: grid(case, *axes, name, points=POINTS, ends=ends) for label, case in cases.items()}
    unit = shown_unit(relation_of(next(iter(cases.values())), name), display)
    levels = round_levels(np.concatenate([np.ravel(unit.from_base(each.result)) for each in made.values()]))
    rows, high = -(-len(cases) // COLUMNS), WIDE * HEIGHT / WIDTH + HEAD
    parts = [opened(COLUMNS * WIDE, rows * high, f"small maps: {', '.join(cases)}")]
    for number, (label, case) in enumerate(cases.items()):
        left, top = number % COLUMNS * WIDE, number // COLUMNS * high
        parts.append(f'<text x="{left + 8:g}" y="{top + 16:g}" font-weight="bold">{escape(label)}</text>')
        place = (left, top + HEAD, WIDE - 8)
        parts.append(map_svg(case, made[label], display, levels=levels, place=place, ids=f"{ids}-{number}"))
    return "".join(parts) + "</svg>"
