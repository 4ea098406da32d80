"""Three feet from above: their weights, the center of mass, and the side over which the machine tips."""

from collections.abc import Mapping

from kit.core.quantity import Display, show
from kit.drawing.primitives import Place
from kit.drawing.scene import Layer, Scene

SIDES: tuple[Place, ...] = ("below left", "below right", "above")
OUT = ((-1, -1), (1, -1), (0, 1))
"""Where the words at the feet stand: the spans of the model keep the feet so to one another."""


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `level.tripod` at the values `v` in plan."""
    feet = [(v[f"x_{i}"], v[f"y_{i}"]) for i in (1, 2, 3)]
    center = (v["center_x"], v["center_y"])
    scene = Scene(
        "Three feet",
        f"Three feet carry {', '.join(show(v[f'force_{i}'], 'N', d, resolution=0.1) for i in (1, 2, 3))}; a push of "
        f"{show(v['tip'], 'N', d, resolution=1)} at {show(v['push_height'], 'mm', d)} lifts the first.",
        caption="From above",
    )
    scene.polyline(feet, Layer.PHANTOM, closed=True, fill="light")
    size = max(max(p[i] for p in feet) - min(p[i] for p in feet) for i in (0, 1))
    for i, (x, y) in enumerate(feet, start=1):
        scene.line((x, y), center, Layer.CONSTRUCTION)
        scene.circle((x, y), 0.04 * size, fill="medium")
        scene.text((x, y), f"{i}")
        at = (x + OUT[i - 1][0] * 0.04 * size, y + OUT[i - 1][1] * 0.04 * size)
        force, sink = (
            show(v[f"force_{i}"], "N", d, resolution=0.1),
            show(v[f"sink_{i}"], "mm", d, resolution=0.01),
        )
        words = f"F_{{{i}}} = {force}, s_{{{i}}} = {sink}"
        scene.text(at, words, SIDES[i - 1])
    first = min((1, 2, 3), key=lambda i: v[f"tip_{i}"])
    p, q = (feet[i % 3] for i in (first, first + 1))
    scene.line(p, q, Layer.CUT)
    scene.explain(Layer.CUT, f"side over which it tips, P = {show(v['tip'], 'N', d, resolution=1)}")
    scene.explain(Layer.PHANTOM, "base of the machine")
    scene.circle(center, 0.015 * size, fill="strong")
    scene.leader(center, (10, 7), f"center of mass, W = {show(v['weight'], 'N', d, resolution=1)}")
    return scene
