"""A chute of cloth, cut across: its walls, drawn in between their staples."""

from collections.abc import Mapping

import numpy as np

from kit.core.quantity import Display, show, unit
from kit.drawing.dimension_text import length_words
from kit.drawing.scene import Layer, Scene

ARROWS = 5  # of the suction on a wall
PLACES = np.linspace(-0.5, 0.5, 41)


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `air.pull` at the values `v`: across the chute, its cloth drawn in."""
    s, h, w = v["span"], v["depth"], v["sag"]
    two = round(v["walls"]) == 1
    pull = show(v["pull"], "N/mm", d, resolution=0.01)
    scene = Scene(
        "Cloth of a chute, drawn in by suction",
        f"Across a chute {show(h, 'mm', d)} deep: {'two walls' if two else 'one wall'} of cloth between staples "
        f"{show(s, 'mm', d)} apart {'are' if two else 'is'} drawn in by {show(w, 'mm', d, resolution=0.1)} and "
        f"pull{'' if two else 's'} with {pull}.",
        caption="Across the chute",
    )
    thick = 0.08 * min(s, h) if min(s, h) > 0 else 1.0
    for side in (-1, 1):
        edge = side * s / 2
        scene.rectangle((edge, 0), (edge + side * thick, h), fill="medium")
    for wall, (y, way) in enumerate(((h, -1), (0.0, 1))):
        if wall == 0 or two:
            scene.line((-s / 2, y), (s / 2, y), Layer.PHANTOM)
            scene.polyline(np.column_stack([s * PLACES, y + way * w * (1 - 4 * PLACES**2)]), Layer.DEFLECTED)
            for i in range(ARROWS):
                at = s * ((i + 0.5) / ARROWS - 0.5)
                scene.arrow((at, y), np.pi / 2 * way, length=7)
        else:
            scene.line((-s / 2, y), (s / 2, y))
    scene.explain(Layer.DEFLECTED, "cloth under suction, true to scale")
    scene.explain(Layer.PHANTOM, "cloth at rest, pulled straight")
    scene.explain(Layer.FORCE, "air outside, which presses it in")
    scene.dim((-s / 2, 0), (s / 2, 0), -16, f"s = {show(s, 'mm', d)}", along="horizontal")
    scene.dim((s / 2 + thick, 0), (s / 2 + thick, h), 10, f"h = {show(h, 'mm', d)}", along="vertical")
    scene.leader((0, h - w), (6, -11), length_words("w", w, d))
    scene.leader((-s / 2, h), (-10, 9), f"N = {pull}", end="dot")
    scene.leader((s / 2 + thick / 2, h), (10, 10), f"p = {_pascal(v['suction'], d)}", end="dot")
    return scene


def _pascal(value: float, d: Display) -> str:
    return show(value, "Pa", d, resolution=10 * unit("Pa").factor)
