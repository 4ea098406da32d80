"""A view in space as a still: SVG text painted from back to front, black edges on shaded faces, ground of the page."""

import re
from collections.abc import Iterator
from functools import cache
from html import escape
from itertools import pairwise

import numpy as np

from kit.core.errors import KitError
from kit.drawing.space.labels import INK, PAPER, labels
from kit.drawing.space.lines import layer_after, parts
from kit.drawing.space.painter_order import Flags, Floats, Index, Pieces, painting_order
from kit.drawing.space.scene import Camera, Line, Solid, View, camera_of, described, paint

FINE = 10
"""User units in a pixel, so that coordinates are whole numbers."""
MARGIN = 12
"""Pixels around the picture; words get more."""
MOST_STILL = 6_000
"""Faces in a still; a mesh with more is thinned for it."""
TALLEST = 0.75
"""Height as a share of the width where none is asked for."""
PIXELS_PER_MM = 96 / 25.4
_LIGHT = np.array([-0.40, 0.55, 0.73])  # over the left shoulder
_DARKEST, _SHADES = 0.55, 24
_SEAM, _EDGE = 0.8, 0.9  # px
_LINE_PARTS = 60  # of the picture's size, so that a line is hidden piece by piece


def view_svg(
    view: View,
    camera: str | Camera = "corner",
    width_px: float = 640,
    height_px: float | None = None,
    *,
    ids: str,
) -> str:
    """Return a still of a view as inline SVG, `width_px` wide; the same inputs give the same text.

    Without `height_px` the height follows the picture, up to three quarters of the width. `ids` begins every id:
    give each picture on a page its own. Parallel projection; a white ground and dark words, or what the page gives by
    the variables `--fw-paper` and `--fw-ink` of its style sheet.

    Raises:
        KitError: no such standard view, the box has no size, or `ids` is no plain name.
    """
    for name, given in (("width", width_px), ("height", height_px)):
        if given is not None and not 0 < given < 1e5:
            raise KitError(f"The {name} of a view was given as {given:g} px; it must be above 0 and below 100000 px.")
    if not re.fullmatch(r"[A-Za-z][A-Za-z0-9_-]*", ids):
        raise KitError(f"A view's ids were to begin with {ids!r}; use a letter, then letters, digits, '-', '_'.")
    eye, view = camera_of(camera), view.lighter(MOST_STILL)
    frame = _Frame(view, eye, width_px, height_px)
    body = "".join(_painted(view, eye, frame))
    words = labels([(m.text, frame.at(eye.project(m.point))) for m in view.marks], frame.width, frame.height)
    return (
        f'<svg class="fw-space-still" width="{frame.width:g}" height="{frame.height:g}" '
        f'viewBox="0 0 {frame.width * FINE:.0f} {frame.height * FINE:.0f}" '
        f'role="img" aria-labelledby="{ids}-title {ids}-desc">'
        f'<title id="{ids}-title">{escape(view.title or "View in space")}</title>'
        f'<desc id="{ids}-desc">{described(view, eye)}</desc>'
        f'<rect width="100%" height="100%" style="fill:{PAPER}"/>'
        f'<g fill="currentColor" stroke="currentColor" stroke-width="{_SEAM * FINE:g}" stroke-linejoin="round" '
        f'stroke-linecap="round">{body}</g>{words}</svg>'
    )


class _Frame:
    """Where the picture lies on the page: pixels per millimeter, size, and the shift."""

    def __init__(self, view: View, eye: Camera, width: float, height: float | None) -> None:
        points = [eye.project(solid.shape.corners)[:, :2] for solid in view.solids]
        points += [eye.project(line.points)[:, :2] for line in view.lines]
        points += [eye.project(mark.point)[None, :2] for mark in view.marks]
        every = np.concatenate(points)
        low, high = every.min(axis=0), every.max(axis=0)
        self.size = float(np.hypot(*(high - low))) or 1.0
        wide, tall = np.maximum(high - low, 1e-3 * self.size)
        side = 2 * (MARGIN + (24 if view.marks else 0))
        room = max(width - side, 0.3 * width)
        if height is None:
            height = float(np.ceil(min(TALLEST * width, max(room * tall / wide + side, 0.2 * width))))
        self.width, self.height = float(width), float(height)
        self.scale = float(min(room / wide, max(height - side, 0.3 * height) / tall))
        self.middle = (low + high) / 2

    def at(self, projected: Floats) -> Floats:
        """Return projected points (..., 2 or 3) in pixels, down the page."""
        flat = (projected[..., :2] - self.middle) * self.scale
        return np.asarray(flat * (1, -1) + (self.width / 2, self.height / 2))

    def whole(self, projected: Floats) -> Index:
        """Return projected points in whole user units."""
        return np.asarray(np.round(self.at(projected) * FINE), dtype=np.int64)


def _painted(view: View, eye: Camera, frame: _Frame) -> Iterator[str]:
    """Yield the painted layers, farthest first."""
    parts = [_seen(solid, eye) for solid in view.solids]
    first = np.cumsum([0, *(len(corners) for corners, _, _ in parts)])
    corners = np.concatenate([corners for corners, _, _ in parts] or [np.zeros((0, 3, 3))])
    drawn = np.concatenate([sides for _, sides, _ in parts] or [np.zeros((0, 3), dtype=bool)])
    shade = np.concatenate([tones for _, _, tones in parts] or [np.zeros(0, dtype=np.int64)])
    owner = np.repeat(np.arange(len(parts)), np.diff(first))
    ghosts = sorted(
        (number for number, solid in enumerate(view.solids) if solid.opacity < 1),
        key=lambda number: float(np.mean(_extent(view.solids[number]) @ eye.axes[2])),
    )  # the farthest first
    rank = np.zeros(len(view.solids), dtype=np.int64)
    rank[ghosts] = np.arange(1, len(ghosts) + 1)
    group = rank[owner]
    pieces = Pieces(corners, np.arange(len(corners)), drawn)
    pieces, layers = painting_order(pieces, group, frame.size)
    _draw_once(pieces, layers)
    whole = frame.whole(pieces.corners)
    opened = 0
    strokes = _Strokes(view.lines, eye, frame, pieces, layers)
    yield strokes.before(0)
    for number, layer in enumerate(layers):
        now = int(group[pieces.source[layer[0]]])
        if now != opened:
            yield "</g>" if opened else ""
            yield f'<g opacity="{view.solids[ghosts[now - 1]].opacity:g}">' if now else ""
            opened = now
        yield _faces(whole, layer, owner[pieces.source], shade[pieces.source], view.solids)
        yield _edges(whole, layer, pieces.drawn)
        if strokes.any_before(number + 1):
            yield "</g>" if opened else ""
            opened = 0
            yield strokes.before(number + 1)
    yield "</g>" if opened else ""


def _extent(solid: Solid) -> Floats:
    """Return the lowest and the highest corner of the box around a solid (2, 3)."""
    corners = solid.shape.corners
    return np.stack([corners.min(axis=0), corners.max(axis=0)])


def _seen(solid: Solid, eye: Camera) -> tuple[Floats, Flags, Index]:
    """Return what of a solid may be seen: projected faces (k, 3, 3), the sides to draw (k, 3) and the shades (k,)."""
    shape = solid.shape
    facing = shape.normals @ eye.axes[2]
    front = facing > 1e-9
    shown = front if shape.closed else np.abs(facing) > 1e-9
    a, b = shape.beside[:, 0], shape.beside[:, 1]
    sides = shape.sharp | (front[a] != front[b])
    corners = eye.project(shape.corners)[shape.faces[shown]]
    drawn = sides[shape.sides[shown]]
    away = ~front[shown]
    corners[away] = corners[away][:, ::-1]
    drawn[away] = drawn[away][:, [1, 0, 2]]
    normals = shape.normals[shown] @ eye.axes.T
    normals[away] *= -1
    lit = np.clip(normals @ _LIGHT, 0, 1)
    return corners, drawn, np.round(lit * (_SHADES - 1)).astype(np.int64)


def _draw_once(pieces: Pieces, layers: list[Index]) -> None:
    """Leave a side that two faces share to the one painted later, so that neither covers half the line."""
    if not layers:
        return
    faces = np.concatenate(layers)[::-1]
    sides = pieces.drawn[faces]
    corners = np.round(pieces.corners[faces] * 1e4).astype(np.int64)
    ends = np.stack([corners, np.roll(corners, -1, axis=1)], axis=2)[sides]
    swap = (ends[:, 0] > ends[:, 1])[:, 0] | (
        (ends[:, 0, 0] == ends[:, 1, 0])
        & ((ends[:, 0, 1] > ends[:, 1, 1]) | ((ends[:, 0, 1] == ends[:, 1, 1]) & (ends[:, 0, 2] > ends[:, 1, 2])))
    )
    ends[swap] = ends[swap][:, ::-1]
    keys = np.ascontiguousarray(ends.reshape(-1, 6)).view("V48").reshape(-1)
    _, kept = np.unique(keys, return_index=True)
    once = np.zeros(len(keys), dtype=bool)
    once[kept] = True
    sides[sides] = once
    pieces.drawn[faces] = sides


def _faces(whole: Index, layer: Index, owner: Index, shade: Index, solids: tuple[Solid, ...] | list[Solid]) -> str:
    """Return a layer's faces, those of one color as one path."""
    color = owner[layer] * _SHADES + shade[layer]
    order = np.argsort(color, kind="stable")
    layer, color = layer[order], color[order]
    points = whole[layer]
    moves = np.concatenate([points[:, :1], np.diff(points, axis=1)], axis=1).reshape(len(layer), 6)
    starts = np.flatnonzero(np.diff(color, prepend=-1))
    written = []
    for start, end in zip(starts, [*starts[1:], len(layer)], strict=True):
        solid, tone = solids[color[start] // _SHADES], color[start] % _SHADES
        path = ("M%d %dl%d %d %d %dz" * (end - start)) % tuple(moves[start:end].reshape(-1).tolist())
        written.append(f'<path color="{shaded(solid.fill, tone)}" d="{path}"/>')
    return "".join(written)


@cache
def shaded(fill: str, tone: int) -> str:
    """Return a fill as it looks under the light; `tone` from 0 (turned away) to 23 (full light)."""
    light = _DARKEST + (1 - _DARKEST) * int(tone) / (_SHADES - 1)
    red, green, blue = bytes.fromhex(paint(fill)[1:])
    return f"#{round(red * light):02x}{round(green * light):02x}{round(blue * light):02x}"


def _edges(whole: Index, layer: Index, drawn: Flags) -> str:
    sides = drawn[layer]
    if not sides.any():
        return ""
    points = whole[layer]
    ends = np.concatenate([points, np.roll(points, -1, axis=1) - points], axis=2)[sides]
    path = ("M%d %dl%d %d" * len(ends)) % tuple(ends.reshape(-1).tolist())
    return f'<path fill="none" color="#111" stroke-width="{_EDGE * FINE:g}" d="{path}"/>'


class _Strokes:
    """Lines cut into short parts, each painted after the last face that lies behind it."""

    def __init__(
        self,
        lines: tuple[Line, ...] | list[Line],
        eye: Camera,
        frame: _Frame,
        pieces: Pieces,
        layers: list[Index],
    ) -> None:
        self._by_layer: dict[int, list[str]] = {}
        level = np.zeros(len(pieces), dtype=np.int64)
        for number, layer in enumerate(layers):
            level[layer] = number
        for line in lines:
            cut = parts(eye.project(line.points), frame.size / _LINE_PARTS)
            after = layer_after(cut, pieces.corners, level, frame.size)
            points = frame.whole(cut)
            dashes = f' stroke-dasharray="{4 * FINE} {3 * FINE}"' if line.dashed else ""
            looks = f'style="color:{INK}"' if line.ink == "ink" else f'color="{paint(line.ink)}"'
            kind = f'fill="none" {looks} stroke-width="{line.width_mm * PIXELS_PER_MM * FINE:.1f}"{dashes}'
            starts = [0, *(np.flatnonzero(np.diff(after)) + 1).tolist(), len(after)]
            for start, end in pairwise(starts):
                run = points[start : end + 1].copy()
                run[1:] = np.diff(run, axis=0)
                path = ("M%d %dl" + "%d %d " * (end - start)) % tuple(run.reshape(-1).tolist())
                self._by_layer.setdefault(int(after[start]), []).append(f'<path {kind} d="{path.strip()}"/>')

    def any_before(self, layer: int) -> bool:
        """Say whether something is to be drawn just before this layer."""
        return layer in self._by_layer

    def before(self, layer: int) -> str:
        """Return the parts to draw just before this layer."""
        return "".join(self._by_layer.get(layer, ()))
