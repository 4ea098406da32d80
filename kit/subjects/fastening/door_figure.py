"""A door from above, half open, and the line of sight through its opening from the side."""

from collections.abc import Mapping
from math import cos, pi, sin

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View, ratio

OPEN = pi / 4


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `fastening.door` at the values `v`: the hinge's axis at the origin, outside below."""
    w, t, c, D = v["width"], v["thickness"], v["axis"], v["obstacle"]
    scene = Scene(
        "An access door on hinges",
        f"The door's inner corner swings {show(v['corner'], 'mm', d, resolution=0.1)} round the hinge's axis and needs "
        f"a gap of {show(v['gap_needed'], 'mm', d, resolution=0.01)}; the blade is seen through the opening at "
        f"{show(v['sight'], 'mm', d, resolution=1)}.",
        caption="From above, inside at the top",
    )
    scene.polyline(_door(w, t, c, 0.0), closed=True, fill="medium")
    scene.polyline(_door(w, t, c, OPEN), Layer.DEFLECTED, closed=True)
    for left, right in ((-0.25 * w, 0.0), (w + v["gap"], 1.2 * w)):
        scene.rectangle((left, c), (right, c + t))
        scene.hatch([[(left, c), (right, c), (right, c + t), (left, c + t)]])
    scene.circle((0.0, 0.0), max(c, 0.01 * w), fill="strong")
    scene.arc((0.0, 0.0), v["corner"], -pi / 2, 0.06, Layer.CONSTRUCTION)
    scene.dim((0.0, 0.0), (w, 0.0), 16, f"w = {show(w, 'mm', d)}", along="horizontal")
    at = (-D * cos(pi / 2.6), -D * sin(pi / 2.6))
    scene.circle(at, 0.02 * w, fill="light")
    scene.line((0.0, 0.0), at, Layer.CENTER)
    scene.text(at, f"D = {show(D, 'mm', d)}", "left", gap=3)
    scene.explain(Layer.DEFLECTED, "the door half open")
    scene.explain(Layer.CONSTRUCTION, "way of its inner corner")
    scene.explain(Layer.CENTER, "to the nearest thing, wherever it stands; line of sight")
    span = v["eye_distance"] + v["blade_distance"]
    _sight(scene.view("The line of sight, from the side", magnify=ratio(2.6 * w / span), below=True), v, d)
    return scene


def _door(w: float, t: float, c: float, turn: float) -> list[tuple[float, float]]:
    corners = ((0.0, c), (w, c), (w, c + t), (0.0, c + t))
    return [(x * cos(turn) + y * sin(turn), -x * sin(turn) + y * cos(turn)) for x, y in corners]


def _sight(view: View, v: Mapping[str, float], d: Display) -> None:
    eye, blade, far = v["eye"], v["blade"], v["eye_distance"]
    end, low, high = far + v["blade_distance"], v["sill"], v["lintel"]
    bottom, top = min(0.0, blade, low), max(eye, high) * 1.15
    view.line((0.0, 0.0), (1.1 * end, 0.0))
    view.rectangle((far, bottom), (far + 0.02 * end, low), fill="medium")
    view.rectangle((far, high), (far + 0.02 * end, top), fill="medium")
    view.circle((0.0, eye), 0.015 * end, fill="strong")
    view.circle((end, blade), 0.015 * end, fill="strong")
    view.line((0.0, eye), (end, blade), Layer.CENTER)
    view.text((0.0, eye), "eye", "above", gap=2)
    view.text((end, blade), "blade", "above right", gap=2)
    view.dim((0.0, 0.0), (far, 0.0), -9, f"y = {show(far, 'mm', d)}", along="horizontal")
    view.dim((far, 0.0), (end, 0.0), -17, f"d = {show(v['blade_distance'], 'mm', d)}", along="horizontal")
    view.text((far, v["sight"]), f"z = {show(v['sight'], 'mm', d, resolution=1)}", "above right", gap=3)
