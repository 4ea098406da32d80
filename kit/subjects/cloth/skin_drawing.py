"""A skin on its frame: as a picture in space that turns, and beside its flat pattern with the same edge pointed out."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from kit.drawing.layers import Layer
from kit.drawing.scene import Scene
from kit.drawing.space import STANDARD, Line, Mark, Solid, View
from kit.subjects.cloth.geometry.covering import CoveredPanel
from kit.subjects.cloth.pattern_drawing import is_part

Floats = NDArray[np.float64]
RULINGS = 7  # drawn on a ruled panel, about


def skin_view(panels: Sequence[CoveredPanel], highlight: str | None, title: str) -> View:
    """Return the skin in space: panels, their edges, the edge pointed out bold, cuts dashed."""
    solids = [Solid(panel.asked.name, panel.vertices, panel.triangles, "cloth", 1.0, 180.0) for panel in panels]
    lines = []
    for name, line in _edges(panels).items():
        chosen = is_part(name, highlight)
        lines.append(Line(name, line, "blue" if chosen else "ink", 1.2 if chosen else 0.35))
    for panel in panels:
        lines += [
            Line(f"{panel.asked.name} {cut.kind} {k}", cut.points, "red", 0.6, True)
            for k, cut in enumerate(panel.cuts, 1)
        ]
        for line, _, _ in panel.creases:
            lines.append(Line(f"crease of {panel.asked.name}", line, "ink", 0.5, True))
    marks = [Mark(panel.asked.name, _center(panel)) for panel in panels]
    if highlight in _edges(panels):
        line = _edges(panels)[highlight]
        marks.append(Mark(highlight, line[len(line) // 2]))
    return View(solids, lines, marks, title)


def add_form(scene: Scene, panels: Sequence[CoveredPanel], highlight: str | None) -> None:
    """Add the skin on its frame, seen from the front right corner above, as another view of a flat pattern."""
    camera = STANDARD["corner"]
    view = scene.view("On the frame, from the front right")
    for panel in panels:
        strip = panel.development.strip if panel.development else None
        sides = [strip.a, strip.b[::-1]] if strip else [line[:-1] for line in panel.lines.values()]
        view.polyline(camera.project(np.vstack(sides))[:, :2], Layer.OUTLINE, closed=True, fill="light")
        if strip:
            for k in np.unique(np.linspace(0, len(strip.a) - 1, RULINGS + 2).astype(int)[1:-1]):
                view.polyline(camera.project(np.stack([strip.a[k], strip.b[k]]))[:, :2], Layer.CONSTRUCTION)
            for line, _, _ in panel.creases:
                view.polyline(camera.project(line)[:, :2], Layer.FOLD)
            for k in panel.asked.seams:
                view.polyline(camera.project(np.stack([strip.a[k], strip.b[k]]))[:, :2], Layer.SEAM)
        for cut in panel.cuts:
            view.polyline(camera.project(cut.points)[:, :2], Layer.DEFLECTED)
        at = camera.project(_center(panel))
        view.text((float(at[0]), float(at[1])), panel.asked.name)
    for name, line in _edges(panels).items():
        if is_part(name, highlight):
            view.polyline(camera.project(line)[:, :2], Layer.CHOSEN)
    scene.explain(Layer.CONSTRUCTION, "ruling: straight line on a panel")
    scene.explain(Layer.DEFLECTED, "dart or seam proposed")


def _edges(panels: Sequence[CoveredPanel]) -> dict[str, Floats]:
    return {name: line for panel in panels for name, line in panel.lines.items()}


def _center(panel: CoveredPanel) -> Floats:
    return np.asarray(panel.vertices.mean(axis=0))
