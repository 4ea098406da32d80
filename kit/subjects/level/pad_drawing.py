"""A pad's drawing, to make it from wood: from above, and cut through its lip."""

from collections.abc import Sequence
from math import pi
from typing import TYPE_CHECKING

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene

if TYPE_CHECKING:
    from shapely import Polygon

    from kit.subjects.level.pad_solid import Pad


def draw_pad(pad: "Pad", d: Display) -> Scene:
    """Return the drawing of a pad from any outline: plate, lip and foot from above, and a section through it."""
    left, low, right, top = pad.plate.bounds
    height, lip = show(pad.height, "mm", d, resolution=0.01), show(pad.lip_height, "mm", d)
    scene = Scene(
        "Pad to make from wood",
        f"A plate {show(right - left, 'mm', d, resolution=0.1)} by {show(top - low, 'mm', d, resolution=0.1)} and "
        f"{height} "
        f"thick; a lip {lip} high stands on two sides.",
        caption="From above",
    )
    scene.polyline(_ring(pad.plate), closed=True, fill="light")
    for part in pad.lip.geoms:
        scene.polyline(_ring(part), closed=True)
        scene.hatch([_ring(part)])
    scene.polyline(_ring(pad.foot), Layer.PHANTOM, closed=True)
    scene.dim((left, low), (right, low), -10, show(right - left, "mm", d, resolution=0.1))
    scene.dim((right, low), (right, top), 10, show(top - low, "mm", d, resolution=0.1), along="vertical")
    scene.arrow(
        ((left + right) / 2, low + 0.25 * (top - low)),
        0.0,
        "grain",
        grip="middle",
        both=True,
        layer=Layer.GRAIN,
    )
    level = (pad.foot.bounds[1] + pad.foot.bounds[3]) / 2
    scene.line((left - 0.05 * (right - left), level), (right + 0.05 * (right - left), level), Layer.CUT)
    scene.text((left - 0.05 * (right - left), level), "A", "left", gap=1.5)
    scene.explain(Layer.PHANTOM, "foot")
    scene.explain(Layer.CUT, "cutting plane A–A")
    section = scene.view("Section A–A", below=True)
    for n, (start, end, floor, rise) in enumerate(_cuts(pad, level)):
        box = ((start, floor), (end, floor), (end, rise), (start, rise))
        section.polyline(box, closed=True)
        section.hatch([box], angle=pi / 4 if n == 0 else -pi / 4)
        if n:
            section.dim((start, rise), (end, rise), 8, show(end - start, "mm", d, resolution=0.1))
    section.dim((left, 0), (left, pad.height), -9, height, along="vertical")
    section.dim((right, pad.height), (right, pad.height + pad.lip_height), 9, lip, along="vertical")
    return scene


def _ring(shape: "Polygon") -> Sequence[tuple[float, float]]:
    return [(x, y) for x, y in shape.exterior.coords[:-1]]


def _cuts(pad: "Pad", level: float) -> list[tuple[float, float, float, float]]:
    """Return what the plane y = level cuts, plate before lip, each from x to x and from height to height."""
    from shapely import LineString, get_parts

    left, _, right, _ = pad.plate.bounds
    knife = LineString([(left - 1, level), (right + 1, level)])
    found = []
    top = pad.height + pad.lip_height
    for shape, floor, rise in ((pad.plate, 0.0, pad.height), (pad.lip, pad.height, top)):
        for part in get_parts(shape.intersection(knife)):
            if part.length > 0:
                xs = sorted(x for x, _ in part.coords)
                found.append((xs[0], xs[-1], floor, rise))
    return found
