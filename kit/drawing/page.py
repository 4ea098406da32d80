"""Laying a scene out on paper: the scale that fills a box, the places of views, captions and legend."""

from collections.abc import Iterator
from itertools import product
from math import pi
from typing import NamedTuple

from kit.drawing.hatching import hatch_lines
from kit.drawing.legend import legend_marks, used_layers
from kit.drawing.marks import (
    Box,
    Curve,
    Label,
    Mark,
    Stroke,
    around,
    curve_extremes,
    extent,
    shifted,
    text_width,
)
from kit.drawing.placing import placed
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
from kit.geometry.ties import rough

# All in paper mm.
MARGIN = 2.5
BETWEEN = 9.0  # views
CAPTION = 6.0  # height kept above a view that has a caption
LEAST = 0.2  # of the box is kept for the geometry, however much its notes ask for
NEAR = 0.5  # of the scale without notes: there it is measured what these add to a view
WORTH = 1.2  # times larger must a figure become for its views to stand in other rows than stated


class Page(NamedTuple):
    """A drawing ready to be written: marks and size in paper mm; scale in paper mm per model mm."""

    marks: list[Mark]
    width: float
    height: float
    scale: float


def model_box(view: View) -> Box | None:
    """Return the box around a view's geometry and the points its notes hang on, model mm; None if empty."""
    return around([point for item in view.items for point in _anchors(item)])


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
    """A view on its way to paper: its box in model mm and, at the scale last tried, in paper mm."""

    def __init__(self, view: View, model: Box) -> None:
        self.view = view
        self.model = model
        self.notes = [item for item in view.items if isinstance(item, Note)]
        self.noted: list[Mark] = []
        self.caption = caption(view)
        self.box = model
        self.drawn: list[Mark] = []  # at `factor`, paper mm per model mm
        self.factor = 0.0

    def outline(self, factor: float) -> list[Mark]:
        if factor != self.factor:
            self.drawn, self.factor = outline_marks(self.view, factor), factor
        return self.drawn

    def try_scale(self, scale: float) -> None:
        factor = scale * self.view.magnify
        m = self.model
        self.box = Box(m.left * factor, m.bottom * factor, m.right * factor, m.top * factor)
        self.noted = placed(self.notes, factor, lambda: self.outline(factor))
        noted = extent(self.noted)
        if noted:
            self.box = self.box.join(noted)

    @property
    def width(self) -> float:
        return max(self.box.right - self.box.left, text_width(self.caption, TEXT, bold=True))

    @property
    def height(self) -> float:
        return self.box.top - self.box.bottom + (CAPTION if self.caption else 0.0)

    def placed(self, left: float, top: float, scale: float) -> list[Mark]:
        """Return all marks of the view and its caption, the upper left corner of both at (left, top)."""
        marks: list[Mark] = []
        middle = left + self.width / 2
        if self.caption:
            marks.append(Label((middle, top - TEXT - 0.5), self.caption, "middle", bold=True))
            top -= CAPTION
        x, y = middle - (self.box.left + self.box.right) / 2, top - self.box.top
        drawn = self.outline(scale * self.view.magnify)
        return marks + [shifted(mark, x, y) for mark in (*drawn, *self.noted)]


Rows = list[list[_Spot]]
"""Views beside and below each other, as they stand on paper."""


def caption(view: View) -> str:
    """Return the words above a view: its caption and how many times the scene's scale it is drawn."""
    if not view.caption or view.magnify == 1:
        return view.caption
    word, times = ("enlarged", view.magnify) if view.magnify > 1 else ("reduced", 1 / view.magnify)
    return f"{view.caption} ({word} {times:.4g}×)"


def lay_out(
    scene: Scene,
    width: float,
    height: float,
    *,
    legend: bool,
    exact: bool = False,
    scale: float | None = None,
    measured: Rows | None = None,
) -> Page:
    """Place a scene in a box of `width` × `height` paper mm, at the largest scale that fits or at `scale`.

    `measured` is the scene as `measure` gives it at that scale, where it is laid out several times.

    The page is as wide as the box and as high as its content, or as the box where that is to be `exact`.
    Where the notes alone ask for more than the box the page grows. In a box the views stand in other rows than stated,
    in their order, where the figure becomes much larger by it.
    """
    rows = measured or (_rows(scene) if scale is None else measure(scene, scale))
    key, key_size = legend_marks(used_layers(scene) if legend else [], scene.words, width - 2 * MARGIN)
    room = height - 2 * MARGIN - (key_size[1] if exact else 0.0)
    if scale is None:
        rows = _arranged(rows, width - 2 * MARGIN, room)
        scale = _fit(rows, width - 2 * MARGIN, room)

    content_width = max([key_size[0], *map(_row_width, rows)]) + 2 * MARGIN
    content_height = _height(rows) + 2 * MARGIN + key_size[1]
    page_width, page_height = max(width, content_width), content_height
    if exact:
        grow = max(1.0, content_width / width, content_height / height)
        page_width, page_height = grow * width, grow * height
    marks = [shifted(mark, MARGIN, MARGIN) for mark in key]
    top = page_height - MARGIN - (page_height - content_height) / 2
    for row in rows:
        left = (page_width - _row_width(row)) / 2
        row_height = max(spot.height for spot in row)
        for spot in row:
            marks += spot.placed(left, top - (row_height - spot.height) / 2, scale)
            left += spot.width + BETWEEN
        top -= row_height + BETWEEN
    return Page(marks, page_width, page_height, scale)


def measure(scene: Scene, scale: float) -> Rows:
    """Return the views of a scene in their rows, their notes placed at `scale` paper mm per model mm."""
    rows = _rows(scene)
    _try(rows, scale)
    return rows


def _rows(scene: Scene) -> Rows:
    rows: Rows = []
    for view in scene.views:
        model = model_box(view)
        if model is None:
            continue
        if view.below or not rows:
            rows.append([])
        rows[-1].append(_Spot(view, model))
    return rows


def _try(rows: Rows, scale: float) -> None:
    for row in rows:
        for spot in row:
            spot.try_scale(scale)


def _row_width(row: list[_Spot]) -> float:
    return sum(spot.width for spot in row) + BETWEEN * (len(row) - 1)


def _height(rows: Rows) -> float:
    return sum(max(spot.height for spot in row) for row in rows) + BETWEEN * max(len(rows) - 1, 0)


def _arranged(rows: Rows, width: float, height: float) -> Rows:
    """Return the views in the rows in which they come out largest, or as they are where little is gained.

    What the notes add to each view is measured once, at a scale near the one to come.
    """
    spots = [spot for row in rows for spot in row]
    guess = NEAR * _bare(rows, width, height)
    if len(spots) < 2 or not guess:
        return rows
    _try(rows, guess)
    beside = {id(spot): (spot.width - guess * _across(spot), spot.height - guess * _up(spot)) for spot in spots}

    def scale(rows: Rows) -> float:
        """About how large the views come out in these rows; below zero where the notes alone ask for more."""
        most = float("inf")
        for row in rows:
            spare = width - sum(beside[id(spot)][0] for spot in row) - BETWEEN * (len(row) - 1)
            most = min(most, spare / max(sum(map(_across, row)), 1e-12))
        spare = height - sum(max(beside[id(spot)][1] for spot in row) for row in rows) - BETWEEN * (len(rows) - 1)
        return min(most, spare / max(sum(max(map(_up, row)) for row in rows), 1e-12))

    best = max(_in_rows(spots), key=lambda rows: rough(scale(rows)))
    return best if scale(best) > WORTH * max(scale(rows), 0.0) else rows


def _in_rows(spots: list[_Spot]) -> Iterator[Rows]:
    """Every way to set views in rows, in their order."""
    for ends in product((False, True), repeat=len(spots) - 1):
        rows = [spots[:1]]
        for end, spot in zip(ends, spots[1:], strict=True):
            if end:
                rows.append([spot])
            else:
                rows[-1].append(spot)
        yield rows


def _across(spot: _Spot) -> float:
    return spot.view.magnify * (spot.model.right - spot.model.left)


def _up(spot: _Spot) -> float:
    return spot.view.magnify * (spot.model.top - spot.model.bottom)


def _bare(rows: Rows, width: float, height: float) -> float:
    """Return the scale at which the rows would fill the box without notes; 0 where there is nothing but notes."""
    wide = max((sum(map(_across, row)) for row in rows), default=0.0)
    tall = sum(max(map(_up, row)) for row in rows)
    bare = [*([width / wide] if wide > 0 else []), *([max(height, 1.0) / tall] if tall > 0 else [])]
    return min(bare, default=0.0)


def _fit(rows: Rows, width: float, height: float) -> float:
    """Return the scale at which the rows fill the box.

    Sizes are the scale times the geometry plus notes of fixed size, but for words that change places when a
    dimension gets short: Newton steps, kept between a scale that fits and one that does not.
    The spots are left measured at the scale returned.
    """
    widths = [sum(map(_across, row)) for row in rows]
    tall = sum(max(map(_up, row)) for row in rows)
    bare = _bare(rows, width, height)
    if not bare:
        _try(rows, 1.0)
        return 1.0
    low, high = LEAST * bare, bare
    scale = 0.75 * high
    for _ in range(8):
        _try(rows, scale)
        steps = [(width - _row_width(row)) / wide for row, wide in zip(rows, widths, strict=True) if wide > 0]
        if tall > 0:
            steps.append((height - _height(rows)) / tall)
        spare = min(steps)
        if abs(spare) < 1e-3 * scale:
            return scale
        if spare > 0:
            low = scale
        else:
            high = scale
        newton = scale + spare
        scale = newton if low < newton < high else (low + high) / 2
    _try(rows, low)
    return low


def outline_marks(view: View, scale: float) -> list[Mark]:
    """Return the marks of a view, all but its notes, at `scale` paper mm per model mm, about the view's own origin."""
    marks: list[Mark] = []
    for item in view.items:
        if isinstance(item, Line):
            marks.append(Stroke(item.layer, (_at(item.p, scale), _at(item.q, scale))))
        elif isinstance(item, Polyline):
            marks.append(
                Stroke(item.layer, tuple((x * scale, y * scale) for x, y in item.points), item.closed, item.fill)
            )
        elif isinstance(item, Arc):
            marks.append(Curve(item.layer, _at(item.center, scale), item.radius * scale, item.start, item.sweep))
        elif isinstance(item, Circle):
            marks.append(Curve(item.layer, _at(item.center, scale), item.radius * scale, 0.0, 2 * pi, item.fill))
        elif isinstance(item, Hatch):
            rings = [[_at(point, scale) for point in ring] for ring in item.rings]
            marks += [Stroke(item.layer, piece) for piece in hatch_lines(rings, item.angle, item.spacing)]
    return marks


def _at(point: Point, scale: float) -> Point:
    return (point[0] * scale, point[1] * scale)
