"""Outlines of arcs and lines, drawn with true arcs."""

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from kit.drawing.layers import Layer
from kit.drawing.scene import View
from kit.geometry.outline.arc_outline import Arc, Line, Outline
from kit.geometry.outline.arcs import parts_of


def draw_outline(view: View, outline: Outline, layer: Layer = Layer.OUTLINE) -> None:
    """Add every arc and line of `outline` to `view`."""
    draw_parts(view, outline.parts, layer)


def draw_parts(view: View, parts: Iterable[Arc | Line], layer: Layer = Layer.OUTLINE) -> None:
    """Add arcs and lines to `view`, lines that follow each other as one polyline."""
    run: list[tuple[float, float]] = []
    for part in parts:
        if isinstance(part, Line) and (not run or run[-1] == part.p):
            run += [part.q] if run else [part.p, part.q]
            continue
        _draw_run(view, run, layer)
        run = [part.p, part.q] if isinstance(part, Line) else []
        if isinstance(part, Arc):
            start, end = sorted((part.start, part.start + part.sweep))
            view.arc(part.center, part.radius, start, end, layer)
    _draw_run(view, run, layer)


def _draw_run(view: View, run: list[tuple[float, float]], layer: Layer) -> None:
    if run:
        is_ring = len(run) > 3 and run[0] == run[-1]
        view.polyline(run[:-1] if is_ring else run, layer, closed=is_ring)


def draw_points(view: View, points: NDArray[np.float64], layer: Layer = Layer.OUTLINE, *, closed: bool = False) -> None:
    """Add a line through points (n, 2), mm, with true arcs where its points lie on them."""
    draw_parts(view, parts_of(points, closed=closed), layer)
