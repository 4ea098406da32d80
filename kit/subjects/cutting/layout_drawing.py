"""Layouts of parts on rolls, boards and offcuts as drawings to scale: parts by number, grain, waste and defects."""

from collections.abc import Sequence
from math import ceil

import numpy as np
import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from kit.core.quantity import Display, show
from kit.drawing.paper import PaperPlan
from kit.drawing.pdf import fitted
from kit.drawing.scene import Layer, Scene, View
from kit.geometry.packing.stock import Layout, Placed, Roll, each, usable
from kit.subjects.cloth.pattern_drawing import side_by_side

MOST_REDUCED = 400  # 1:400, at which a board is a speck
LETTER = 0.02  # width of a letter of a name, as a share of the drawing's width
BETWEEN = 0.08  # between sheets, as a share of the longest side
THIN = 1e-3  # waste narrower than this is not hatched, mm


def layout_scene(layout: Layout, display: Display, *, title: str = "Layout", plain: bool = False) -> Scene:
    """Return the stock that is used with the parts on it, at full size.

    plain: outlines alone, for a machine that cuts along them.
    """
    pieces = stock_used(layout)
    label = f"{len(layout.placed)} parts on {_told(layout, display)}; {layout.density:.1%} of it becomes parts"
    missing = f"; {layout.missing} parts have no place" if layout.missing else ""
    scene = Scene(title, f"{label}{missing}.", caption="" if plain else f"{label}{missing}")
    shifts, (wide, high) = _places(layout)
    for (number, outline, defects), shift in zip(pieces, shifts, strict=True):
        _piece(scene, layout, number, outline, defects, shift, max(wide, 1.4 * high), plain)
        if not plain:
            _named(scene, layout, number, outline, shift, display)
    if not plain:
        scene.explain(Layer.OUTLINE, "stock and parts, numbered as in the cut list")
        scene.explain(Layer.HATCH, "waste")
        scene.explain(Layer.GRAIN, "grain of a part: one arrow, it may not be turned about")
        scene.explain(Layer.PHANTOM, "edge margin")
        scene.explain(Layer.CONSTRUCTION, "defect (dark)")
    return scene


def stock_used(layout: Layout) -> list[tuple[int, Polygon, tuple[Polygon, ...]]]:
    """Return number, outline and defects of every piece of stock that carries parts; a roll ends where parts end."""
    if isinstance(layout.stock, Roll):
        if not layout.placed:
            return []
        sheet = shapely.box(0, 0, layout.length, layout.stock.width)
        inside = [each_one.intersection(sheet) for each_one in layout.stock.defects]
        return [(0, sheet, tuple(part for part in inside if isinstance(part, Polygon) and part.area > 0))]
    sheets = each(layout.stock)
    return [(k, sheets[k].outline, sheets[k].defects) for k in layout.sheets_used]


def page_for(scene: Scene, layout: Layout, paper: PaperPlan) -> PaperPlan:
    """Return the plan with the largest scale 1:n at which a drawing of the layout fits on one sheet."""
    _, (wide, high) = _places(layout)
    least = min(max(wide / sheet.window[0], high / sheet.window[1]) for sheet in paper.sheets())
    return fitted(scene, paper, (1 / n for n in range(max(1, ceil(least)), MOST_REDUCED + 1)))


def _told(layout: Layout, display: Display) -> str:
    if isinstance(layout.stock, Roll):
        return f"{show(layout.length, 'mm', display, resolution=1)} of roll"
    count = len(layout.sheets_used)
    return f"{count} {'piece' if count == 1 else 'pieces'} of stock"


def _piece(
    scene: View,
    layout: Layout,
    number: int,
    outline: Polygon,
    defects: Sequence[Polygon],
    shift: tuple[float, float],
    widest: float,
    plain: bool,
) -> None:
    here = [(p, q) for p, q in zip(layout.placed, layout.polygons, strict=True) if p.sheet == number]
    _rings(scene, outline, shift, Layer.PHANTOM if plain else Layer.OUTLINE)
    for placed, polygon in here:
        scene.polyline(_moved(polygon.exterior.coords, shift), closed=True, fill=None if plain else "light")
        for hole in polygon.interiors:
            scene.polyline(_moved(hole.coords, shift), closed=True)
        if not plain:
            _labelled(scene, layout, placed, polygon, shift, widest)
    if plain:
        return
    for defect in defects:
        scene.polyline(_moved(defect.exterior.coords, shift), Layer.CONSTRUCTION, closed=True, fill="strong")
    clear = outline.difference(shapely.union_all([*defects, *(polygon for _, polygon in here)]))
    for waste in shapely.get_parts(clear):
        if isinstance(waste, Polygon) and waste.area > THIN * waste.length:
            scene.hatch(_moved(ring.coords, shift) for ring in (waste.exterior, *waste.interiors))
    if layout.cutting.margin:
        _margin(scene, usable(outline, defects, layout.cutting.margin), shift)


def _margin(scene: View, room: BaseGeometry, shift: tuple[float, float]) -> None:
    for part in shapely.get_parts(room):
        if isinstance(part, Polygon):
            _rings(scene, part, shift, Layer.PHANTOM)


def _labelled(
    scene: View, layout: Layout, placed: Placed, polygon: Polygon, shift: tuple[float, float], widest: float
) -> None:
    """Write a part's number, its name where there is room, and its grain."""
    part = layout.parts[placed.part]
    center = polygon.centroid if polygon.contains(polygon.centroid) else polygon.representative_point()
    at = (center.x + shift[0], center.y + shift[1])
    left, low, right, high = polygon.bounds
    words = f"{placed.part + 1} {part.name}"
    fits = right - left > LETTER * widest * len(words) and high - low > 5 * LETTER * widest
    has_grain = len(part.turns) <= 2 and min(right - left, high - low) > 3 * LETTER * widest
    short = str(placed.part + 1)
    if right - left > LETTER * widest * len(short) and high - low > LETTER * widest:
        scene.text(at, words if fits else short, "above" if has_grain else "center", gap=1.2, height=2.5)
    if has_grain:
        scene.arrow(at, placed.turn, length=6.0, grip="middle", both=len(part.turns) > 1, layer=Layer.GRAIN)


def _places(layout: Layout) -> tuple[list[tuple[float, float]], tuple[float, float]]:
    """Return how far each piece of stock is moved so that they lie in rows, and width and height of all."""
    boxes = [np.reshape(outline.bounds, (2, 2)) for _, outline, _ in stock_used(layout)]
    if not boxes:
        return [], (1.0, 1.0)
    gap = BETWEEN * max(float((box[1] - box[0]).max()) for box in boxes)
    shifts = side_by_side([(box[0], box[1]) for box in boxes], gap)
    corners = np.concatenate([box + shift for box, shift in zip(boxes, shifts, strict=True)])
    wide, high = np.ptp(corners, axis=0)
    return [(float(dx), float(dy)) for dx, dy in shifts], (float(wide), float(high))


def _named(
    scene: View,
    layout: Layout,
    number: int,
    outline: Polygon,
    shift: tuple[float, float],
    display: Display,
) -> None:
    left, low = (edge + move for edge, move in zip(outline.bounds[:2], shift, strict=True))
    right, high = (edge + move for edge, move in zip(outline.bounds[2:], shift, strict=True))
    if isinstance(layout.stock, Roll):
        scene.dim((left, low), (right, low), -9, show(right - left, "mm", display, resolution=1))
        scene.dim((right, low), (right, high), 9, show(high - low, "mm", display), along="vertical")
        return
    words = f"{number + 1}: {each(layout.stock)[number].name}"
    scene.text((left, high), words, "above right", height=2.5)


def _rings(scene: View, polygon: Polygon, shift: tuple[float, float], layer: Layer) -> None:
    for ring in (polygon.exterior, *polygon.interiors):
        scene.polyline(_moved(ring.coords, shift), layer, closed=True)


def _moved(points: Sequence[Sequence[float]], shift: tuple[float, float]) -> list[tuple[float, float]]:
    array = np.asarray(points)[:-1, :2] + shift
    return [(float(x), float(y)) for x, y in array]
