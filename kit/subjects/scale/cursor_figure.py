"""Parallax: eye, cursor line and scale in one picture, and the gap at the line enlarged."""

from collections.abc import Mapping

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View, ratio


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `scale.cursor` at the values `v`: the line at x = 0, the scale at y = 0."""
    H, e, g, p = v["eye_height"], v["eye_offset"], v["apparent_gap"], v["parallax"]
    scene = Scene(
        "Parallax of a cursor line",
        f"The eye, {show(H, 'mm', d)} above the scale and {show(e, 'mm', d)} to the right of the line, sees the line "
        f"{show(p, 'mm', d, resolution=0.01)} to the left of where it is.",
        caption="Eye, line and scale",
    )
    wide = max(0.35 * H, 1.15 * e)
    scene.line((-0.25 * wide, 0.0), (wide, 0.0))
    scene.line((0.0, 0.0), (0.0, 0.75 * H), Layer.CENTER)
    scene.line((e, 0.0), (e, H), Layer.CONSTRUCTION)
    scene.circle((e, H), 0.018 * H, fill="strong")
    scene.line((e, H), (-p, 0.0), Layer.FORCE)
    scene.dim((e, 0.0), (e, H), 10, f"H = {show(H, 'mm', d)}", along="vertical")
    scene.dim((0.0, 0.0), (e, 0.0), -9, f"e = {show(e, 'mm', d)}")
    scene.explain(Layer.CONSTRUCTION, "plumb line from the eye; divisions of the scale")
    scene.explain(Layer.FORCE, "line of sight")
    scene.explain(Layer.CENTER, "upright through the line")
    across = max(2.2 * p, 2.2 * g, 2.2 * v["division"])
    _line(scene.view("At the line, as the eye sees it", magnify=ratio(0.5 * max(H, e) / across)), v, d, across)
    return scene


def _line(view: View, v: Mapping[str, float], d: Display, across: float) -> None:
    e, H, g, p, i = v["eye_offset"], v["eye_height"], v["apparent_gap"], v["parallax"], v["division"]
    left, right = -max(0.75 * across, 1.3 * p), 0.6 * across
    first, last = int(left / i), int(right / i)
    view.line((left, 0.0), (right, 0.0))
    if last - first <= 40:
        for n in range(first, last + 1):
            view.line((n * i, 0.0), (n * i, -0.12 * across), Layer.CONSTRUCTION)
    view.circle((0.0, g), 0.02 * across, fill="strong")
    view.line((0.0, -0.2 * across), (0.0, g + 0.5 * across), Layer.CENTER)
    top = g + 0.45 * across
    view.line((-p, 0.0), ((top - g) * e / (H - g), top), Layer.FORCE)
    view.dim((0.0, 0.0), (0.0, g), 10, f"g = {show(g, 'mm', d, resolution=0.01)}", along="vertical")
    view.dim(
        (-p, -0.12 * across),
        (0.0, -0.12 * across),
        -8,
        f"p = {show(p, 'mm', d, resolution=0.01)}",
        overflow="p",
    )
