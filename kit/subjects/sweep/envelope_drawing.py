"""The room that a machine sweeps, drawn: outlines from three sides, a map of heights, and a section."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from math import atan2, ceil, cos, floor, pi, sin
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from kit.core.quantity import Display, show
from kit.drawing.layers import Layer
from kit.drawing.scene import Scene, View

if TYPE_CHECKING:
    import shapely

    from kit.geometry.envelope.envelope import Envelope

Array = NDArray[np.float64]
SQUARE = 10.0  # mm, of the silhouette of what stands: about the spacing of a scan's points
BANDS = 8  # of the map of heights, at most
SPECK = 400.0  # mm², a smaller hole is not drawn: it is one between cells


Rings = list[Array]
VIEWS = ("From above", "From the front", "From the left")


def silhouettes(points: Array) -> tuple[Rings, Rings, Rings]:
    """Return the outlines (n, 2) of points (n, 3) from above, from the front and from the left."""
    x, y, z = points.T
    return _silhouette(x, y), _silhouette(x, z), _silhouette(-y, z)


def draw_outlines(envelope: Envelope, standing: tuple[Rings, Rings, Rings], d: Display) -> Scene:
    """Draw the envelope from above, from the front and from the left, with its sizes; what stands in phantom."""
    outlines = outlines_of(envelope)
    left, low, right, high = outlines[0].bounds
    top = outlines[1].bounds[3]
    scene = Scene(
        "The swept envelope of the machine",
        f"From above the swept envelope is {show(right - left, 'mm', d)} wide and {show(high - low, 'mm', d)} deep, "
        f"from the front it is {show(top, 'mm', d)} high. What stands still is drawn beside it.",
        caption=VIEWS[0],
    )
    for number, (outline, still) in enumerate(zip(outlines, standing, strict=True)):
        view: View = scene.view(VIEWS[number]) if number else scene
        _outline(view, outline)
        for ring in still:
            view.polyline(ring, Layer.PHANTOM, closed=True)
        left, low, right, high = outline.bounds
        low = 0.0 if number else low
        if number:
            view.line((left - 20.0, 0.0), (right + 20.0, 0.0))
        else:
            view.line((left, 0.0), (right, 0.0), Layer.CENTER)
        view.line((0.0, low), (0.0, high), Layer.CENTER)
        view.dim((left, low), (right, low), -9, show(right - left, "mm", d), along="horizontal")
        view.dim((right, low), (right, high), 9, show(high - low, "mm", d), along="vertical")
    scene.explain(Layer.OUTLINE, "edge of the swept envelope; bed")
    scene.explain(Layer.CENTER, "through the swing axis")
    scene.explain(Layer.PHANTOM, "what stands still")
    return scene


@lru_cache(maxsize=8)
def outlines_of(envelope: Envelope) -> tuple[shapely.Geometry, shapely.Geometry, shapely.Geometry]:
    """Return the outlines from above, from the front and from the left; kept, for most givens change no envelope."""
    return envelope.plan(), envelope.front(), envelope.side()


@lru_cache(maxsize=8)
def _section_of(
    envelope: Envelope, point: tuple[float, ...], normal: tuple[float, ...]
) -> tuple[shapely.Geometry, Array]:
    return envelope.section(point, normal)


def draw_heights(envelope: Envelope, d: Display) -> Scene:
    """Draw how high the machine comes where, seen from above: areas above round heights, one over the other."""
    top = float(envelope.top().max())
    step = 25.4 if d.system == "in" else 25.0
    while ceil(top / step) > BANDS:
        step *= 2.0
    heights = [step * number for number in range(floor(top / step) + 1)]
    scene = Scene(
        "How high the machine comes",
        f"Seen from above, areas that the machine sweeps above {', '.join(show(h, 'mm', d) for h in heights)}; the "
        f"highest is {show(top, 'mm', d)}.",
        caption="From above",
    )
    for number, height in enumerate(heights):
        area = envelope.plan() if height == 0.0 else envelope.above(height)
        _outline(scene, area, Layer.OUTLINE if number == 0 else Layer.CONSTRUCTION)
        if number:
            _label(scene, area, number, show(height, "mm", d))
    left, low, right, high = envelope.plan().bounds
    scene.line((left, 0.0), (right, 0.0), Layer.CENTER)
    scene.line((0.0, low), (0.0, high), Layer.CENTER)
    scene.explain(Layer.OUTLINE, "outline of the swept envelope")
    scene.explain(Layer.CONSTRUCTION, "comes above the height written at the line")
    scene.explain(Layer.CENTER, "through the swing axis")
    return scene


def _label(view: View, area: shapely.Geometry, number: int, words: str) -> None:
    """Write the height at the farthest place of its line, turned a little from one line to the next."""
    points = np.concatenate([outer for outer, _ in _pieces(area)])
    toward = pi / 2.0 - 0.55 * number
    at = points[np.argmax(points @ [cos(toward), sin(toward)])]
    angle = atan2(at[1], at[0])
    view.leader((float(at[0]), float(at[1])), (12.0 * cos(angle) + 2.0, 12.0 * sin(angle)), f"above {words}")


def draw_section(
    envelope: Envelope,
    point: Array,
    normal: Array,
    cuts: Iterable[tuple[Array, Layer]],
    d: Display,
) -> Scene:
    """Draw the envelope cut at the plane through `point` (3,) square to `normal` (3,).

    `cuts` are the segments (n, 2, 3) [mm] in which the plane cuts what is scanned, each with its line.
    """
    area, frame = _section_of(envelope, tuple(point.tolist()), tuple(normal.tolist()))
    shown = ", ".join(show(float(part), "mm", d) for part in point)
    scene = Scene(
        "Section through the swept envelope",
        f"The swept envelope cut at a plane through {shown}, with the scanned machine in the position of its scan.",
        caption=f"Section through {shown}",
    )
    _outline(scene, area)
    for segments, layer in cuts:
        for a, b in (segments - point) @ frame.T:
            scene.line((float(a[0]), float(a[1])), (float(b[0]), float(b[1])), layer)
    if not area.is_empty:
        left, low, right, high = area.bounds
        scene.dim((left, low), (right, low), -10, show(right - left, "mm", d), along="horizontal")
        scene.dim((right, low), (right, high), 10, show(high - low, "mm", d), along="vertical")
    scene.explain(Layer.OUTLINE, "edge of the swept envelope")
    scene.explain(Layer.CONSTRUCTION, "moving parts as scanned")
    scene.explain(Layer.PHANTOM, "what stands still")
    return scene


def _outline(view: View, area: shapely.Geometry, layer: Layer = Layer.OUTLINE) -> None:
    """Draw an area with its holes; each piece is filled, but for one with a hole: fills cannot leave it out."""
    for outer, holes in _pieces(area):
        view.polyline(outer, layer, closed=True, fill=None if holes else "light")
        for hole in holes:
            view.polyline(hole, layer, closed=True)


def _pieces(area: shapely.Geometry) -> list[tuple[Array, list[Array]]]:
    """Return each piece's outer ring and its holes, straightened by less than a tenth of a millimeter."""
    import shapely

    pieces = [part for part in shapely.get_parts(area.simplify(0.1)) if part.geom_type == "Polygon"]
    return [
        (
            _open(piece.exterior),
            [_open(ring) for ring in piece.interiors if shapely.Polygon(ring).area > SPECK],
        )
        for piece in pieces
    ]


def _open(ring: shapely.LinearRing) -> Array:
    return np.asarray(ring.coords)[:-1]


def _silhouette(across: Array, up: Array) -> Rings:
    """Return the outlines of points seen from one side, counted in squares."""
    import shapely

    squares = np.unique(np.floor(np.column_stack([across, up]) / SQUARE).astype(int), axis=0) * SQUARE
    area = shapely.union_all(shapely.box(*squares.T, *(squares + SQUARE).T))
    closed = area.buffer(SQUARE / 2.0, join_style="mitre").buffer(-SQUARE / 2.0, join_style="mitre")
    return [outer for outer, _ in _pieces(closed)]
