"""A bed from above and in space: the plane through its measured gaps, and the feet under it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from kit.core.quantity import Display, show
from kit.drawing.primitives import Place
from kit.drawing.scene import Layer, Scene, ratio

if TYPE_CHECKING:
    from kit.drawing.space import View
    from kit.subjects.level.plane_fit import Plane

Point = tuple[float, float]


@dataclass(frozen=True)
class Spot:
    """A measured place or a foot, mm, and what is written beside it."""

    at: Point
    words: str
    depth: float = 0.0  # as measured, for a place


def draw_bed(plane: "Plane", places: Sequence[Spot], feet: Sequence[Spot], d: Display) -> Scene:
    """Return the bed from above: places and feet with their words, lines of equal depth under them."""
    left, low, right, top = _box([*places, *feet])
    size = max(right - left, top - low)
    scene = Scene(
        "Plane of the bed",
        f"From above: {len(places)} measured places, {len(feet)} feet, and lines along which the bed is equally deep.",
        caption="From above",
    )
    margin = 0.12 * size
    box = (left - margin, low - margin, right + margin, top + margin)
    scene.rectangle(box[:2], box[2:], Layer.PHANTOM)
    scene.explain(Layer.PHANTOM, "border of the drawing, not of the bed")
    corners = [(x, y) for x in (box[0], box[2]) for y in (box[1], box[3])]
    deep = [float(plane.depth(corner)) for corner in corners]
    step = ratio((max(deep) - min(deep)) / 6) if max(deep) > min(deep) else 0.0
    for level in np.arange(np.ceil(min(deep) / step), max(deep) / step) * step if step else ():
        _contour(scene, plane, box, float(level), d)
    scene.explain(Layer.CONSTRUCTION, "line of equal depth")
    for spot in places:
        scene.circle(spot.at, 0.012 * size, fill="strong")
        if spot.words:
            scene.text(spot.at, spot.words, "above", gap=2)
    cross = 0.025 * size
    for spot in feet:
        x, y = spot.at
        scene.line((x - cross, y), (x + cross, y), Layer.CENTER)
        scene.line((x, y - cross), (x, y + cross), Layer.CENTER)
        scene.circle(spot.at, 0.6 * cross)
        scene.text(spot.at, spot.words, "below", gap=3)
    scene.explain(Layer.CENTER, "foot")
    return scene


def _contour(scene: Scene, plane: "Plane", box: tuple[float, float, float, float], level: float, d: Display) -> None:
    """Draw the straight line along which the plane is `level` deep, as far as the box reaches."""
    left, low, right, top = box
    ends = []
    for p, q in (
        ((left, low), (right, low)),
        ((right, low), (right, top)),
        ((right, top), (left, top)),
        ((left, top), (left, low)),
    ):
        a, b = float(plane.depth(p)) - level, float(plane.depth(q)) - level
        if a * b < 0:
            part = a / (a - b)
            ends.append((p[0] + part * (q[0] - p[0]), p[1] + part * (q[1] - p[1])))
    if len(ends) == 2:
        scene.line(ends[0], ends[1], Layer.CONSTRUCTION)
        at = max(ends)
        side: Place = "right" if at[0] == right else "above" if at[1] == top else "below"
        scene.text(at, show(level, "mm", d, resolution=0.01), side, gap=1)


def bed_in_space(plane: "Plane", places: Sequence[Spot], feet: Sequence[Spot]) -> "View":
    """Return the bed below the line of the supports, depths drawn many times too large."""
    from kit.drawing.space import Line, Mark, Solid, View

    left, low, right, top = _box([*places, *feet])
    corners = [(left, low), (right, low), (right, top), (left, top)]
    deep = max(float(np.max(np.abs(plane.depth(corners)))), *(abs(spot.depth) for spot in places), 1e-3)
    times = ratio(0.3 * max(right - left, top - low) / deep)
    floor = [(x, y, -times * float(plane.depth((x, y)))) for x, y in corners]
    line = [(x, y, 0.0) for x, y in [*corners, corners[0]]]
    lines, marks = [Line("line of the supports", line, "gray", dashed=True)], []
    for spot in places:
        x, y = spot.at
        lines.append(Line(spot.words, [(x, y, 0.0), (x, y, -times * spot.depth)], "red", 0.5))
        marks.append(Mark(spot.words, (x, y, 0.0)))
    for spot in feet:
        x, y = spot.at
        marks.append(Mark(spot.words, (x, y, -times * float(plane.depth(spot.at)))))
    bed = Solid("bed", floor, np.array([[0, 1, 2], [0, 2, 3]]), "machine", opacity=0.8)
    return View([bed], lines, marks, title=f"Bed below the line of the supports, depths {times:g} times")


def _box(spots: Sequence[Spot]) -> tuple[float, float, float, float]:
    at = np.array([spot.at for spot in spots])
    (left, low), (right, top) = at.min(axis=0), at.max(axis=0)
    return float(left), float(low), float(right), float(top)
