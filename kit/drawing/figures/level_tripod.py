"""Three feet from above: their weights, the center of mass, and the side over which the machine tips."""

from collections.abc import Mapping

from kit.drawing.scene import Layer, Scene
from kit.quantity import Display, show


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
    middle = (sum(p[0] for p in feet) / 3, sum(p[1] for p in feet) / 3)
    for i, (x, y) in enumerate(feet, start=1):
        scene.line((x, y), center, Layer.CONSTRUCTION)
        scene.circle((x, y), 0.04 * size, fill="medium")
        scene.text((x, y), f"{i}")
        side = "left" if x < middle[0] else "right"
        level = "above" if y > middle[1] else "below"
        at = (x + (-0.04 if x < middle[0] else 0.04) * size, y + (0.04 if y > middle[1] else -0.04) * size)
        words = f"F_{{{i}}} = {show(v[f'force_{i}'], 'N', d, resolution=0.1)}, s_{{{i}}} = "
        f"{show(v[f'sink_{i}'], 'mm', d, resolution=0.01)}"
        scene.text(at, words, f"{level} {side}")  # type: ignore[arg-type]
    first = min((1, 2, 3), key=lambda i: v[f"tip_{i}"])
    p, q = (feet[i % 3] for i in (first, first + 1))
    scene.line(p, q, Layer.CUT)
    scene.explain(Layer.CUT, f"side over which it tips, P = {show(v['tip'], 'N', d, resolution=1)}")
    scene.explain(Layer.PHANTOM, "base of the machine")
    scene.circle(center, 0.015 * size, fill="strong")
    scene.leader(center, (10, 7), f"center of mass, W = {show(v['weight'], 'N', d, resolution=1)}")
    return scene
