"""Laying a scene out on paper: the scale that fills a box, the places of the views, captions and the legend."""

from math import pi
from typing import NamedTuple

from kit.drawing.annotate import notes
from kit.drawing.hatching import hatch_lines
from kit.drawing.legend import legend_marks, used_layers
from kit.drawing.marks import Box, Curve, Label, Mark, Stroke, curve_extremes, extent, shifted, text_width
from kit.drawing.primitives import (
    TEXT,
    Arc,
    Arrow,
    Circle,
    Dimension,
    Hatch,
    Leader,
    Line,
    Note,
    Point,
    Polyline,
    Primitive,
    Text,
)
from kit.drawing.scene import Scene, View

# All in paper mm.
MARGIN = 2.5
BETWEEN = 9.0  # views
CAPTION = 6.0  # height kept above a view that has a caption
LEAST = 0.2  # of the box is kept for the geometry, however much its notes ask for


class Page(NamedTuple):
    """A drawing ready to be written: marks in paper mm from the lower left corner, size, scale (paper mm per model mm)."""

    marks: list[Mark]
    width: float
    height: float
    scale: float


def model_box(view: View) -> Box | None:
    """Return the box around what a view draws to scale and the points its notes hang on, model mm; None if empty."""
    xs: list[float] = []
    ys: list[float] = []
    for item in view.items:
        for x, y in _anchors(item):
            xs.append(x)
            ys.append(y)
    return Box(min(xs), min(ys), max(xs), max(ys)) if xs else None


def _anchors(item: Primitive) -> tuple[tuple[float, float], ...]:
    if isinstance(item, Polyline):
        return item.points
    if isinstance(item, Line):
        return (item.p, item.q)
    if isinstance(item, Circle):
        return curve_extremes(item.center, item.radius, 0.0, 2 * pi)
    if isinstance(item, Arc):
        return curve_extremes(item.center, item.radius, item.start, item.sweep)
    if isinstance(item, Hatch):
        return tuple(point for ring in item.rings for point in ring)
    if isinstance(item, Dimension):
        return (item.p, item.q)
    if isinstance(item, Text | Arrow):
        return (item.at,)
    if isinstance(item, Leader):
        return (item.tip,)
    return (item.center,)


class _Spot:
    """A view on its way to paper: its geometry's box (model mm) and, at the scale last tried, its box on paper."""

    def __init__(self, view: View, model: Box) -> None:
        self.view = view
        self.model = model
        self.notes = [item for item in view.items if isinstance(item, Note)]
        self.caption = caption(view)
        self.box = model

    def try_scale(self, scale: float) -> None:
        factor = scale * self.view.magnify
        m = self.model
        self.box = Box(m.left * factor, m.bottom * factor, m.right * factor, m.top * factor)
        noted = extent(mark for note in self.notes for mark in notes(note, factor))
        if noted:
            self.box = self.box.join(noted)

    @property
    def width(self) -> float:
        return max(self.box.right - self.box.left, text_width(self.caption, TEXT))

    @property
    def height(self) -> float:
        return self.box.top - self.box.bottom + (CAPTION if self.caption else 0.0)


def caption(view: View) -> str:
    """Return the words above a view: its caption and how much larger or smaller it is drawn than the scene's scale."""
    if not view.caption or view.magnify == 1:
        return view.caption
    word, times = ("enlarged", view.magnify) if view.magnify > 1 else ("reduced", 1 / view.magnify)
    return f"{view.caption} ({word} {times:.4g}×)"


def lay_out(scene: Scene, width: float, height: float, *, legend: bool, scale: float | None = None) -> Page:
    """Place a scene in a box of `width` × `height` paper mm, at the largest scale that fits or at the `scale` given.

    The page is as wide as the box and as high as its content; where notes alone ask for more than the box it grows.
    """
    rows: list[list[_Spot]] = []
    for view in scene.views:
        model = model_box(view)
        if model is None:
            continue
        if view.below or not rows:
            rows.append([])
        rows[-1].append(_Spot(view, model))
    kinds = used_layers(scene) if legend else []
    key, key_height = legend_marks(kinds, scene.words, width - 2 * MARGIN)
    if scale is None:
        scale = _fit(rows, width - 2 * MARGIN, height - 2 * MARGIN - key_height)
    for row in rows:
        for spot in row:
            spot.try_scale(scale)

    widest = max((_row_width(row) for row in rows), default=0.0)
    key_width = max((mark_box.right for mark_box in [extent(key)] if mark_box), default=0.0)
    page_width = max(width, max(widest, key_width) + 2 * MARGIN)
    page_height = _height(rows) + 2 * MARGIN + key_height
    marks: list[Mark] = [shifted(mark, MARGIN, MARGIN) for mark in key]
    top = page_height - MARGIN
    for row in rows:
        left = (page_width - _row_width(row)) / 2
        row_height = max(spot.height for spot in row)
        for spot in row:
            middle = left + spot.width / 2
            high = top - (row_height - spot.height) / 2
            if spot.caption:
                marks.append(Label((middle, high - TEXT - 0.5), spot.caption, "middle", bold=True))
                high -= CAPTION
            x = middle - (spot.box.left + spot.box.right) / 2
            y = high - spot.box.top
            marks += [shifted(mark, x, y) for mark in view_marks(spot.view, scale * spot.view.magnify)]
            left += spot.width + BETWEEN
        top -= row_height + BETWEEN
    return Page(marks, page_width, page_height, scale)


def _row_width(row: list[_Spot]) -> float:
    return sum(spot.width for spot in row) + BETWEEN * (len(row) - 1)


def _height(rows: list[list[_Spot]]) -> float:
    return sum(max(spot.height for spot in row) for row in rows) + BETWEEN * max(len(rows) - 1, 0)


def _fit(rows: list[list[_Spot]], width: float, height: float) -> float:
    """Return the scale at which the rows fill the box.

    Sizes are the scale times the geometry plus notes of fixed size, nearly: a few Newton steps settle it.
    """

    def across(spot: _Spot) -> float:
        return spot.view.magnify * (spot.model.right - spot.model.left)

    def up(spot: _Spot) -> float:
        return spot.view.magnify * (spot.model.top - spot.model.bottom)

    widths = [sum(across(spot) for spot in row) for row in rows]
    high = sum(max(up(spot) for spot in row) for row in rows)
    bare = [width / wide for wide in widths if wide > 0]
    if high > 0:
        bare.append(max(height, 1.0) / high)
    if not bare:
        return 1.0
    least = LEAST * min(bare)
    scale = 0.7 * min(bare)
    for _ in range(4):
        for row in rows:
            for spot in row:
                spot.try_scale(scale)
        steps = [(width - _row_width(row)) / wide for row, wide in zip(rows, widths, strict=True) if wide > 0]
        if high > 0:
            steps.append((height - _height(rows)) / high)
        better = max(least, scale + min(steps))
        if abs(better - scale) < 1e-4 * scale:
            return better
        scale = better
    return scale


def view_marks(view: View, scale: float) -> list[Mark]:
    """Return all marks of a view at `scale` paper mm per model mm, about the view's own origin."""
    marks: list[Mark] = []
    for item in view.items:
        if isinstance(item, Line):
            marks.append(Stroke(item.layer, (_at(item.p, scale), _at(item.q, scale))))
        elif isinstance(item, Polyline):
            marks.append(
                Stroke(
                    item.layer, tuple((x * scale, y * scale) for x, y in item.points), item.closed, item.fill
                )
            )
        elif isinstance(item, Arc):
            marks.append(
                Curve(item.layer, _at(item.center, scale), item.radius * scale, item.start, item.sweep)
            )
        elif isinstance(item, Circle):
            marks.append(
                Curve(item.layer, _at(item.center, scale), item.radius * scale, 0.0, 2 * pi, item.fill)
            )
        elif isinstance(item, Hatch):
            rings = [[_at(point, scale) for point in ring] for ring in item.rings]
            marks += [Stroke(item.layer, piece) for piece in hatch_lines(rings, item.angle, item.spacing)]
        else:
            marks += notes(item, scale)
    return marks


def _at(point: Point, scale: float) -> Point:
    return (point[0] * scale, point[1] * scale)
