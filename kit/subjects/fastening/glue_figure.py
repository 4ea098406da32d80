"""A mitered corner from above, its spline and one clamp's reach, and a section across the miter."""

from collections.abc import Mapping
from math import cos, pi, sin

from kit.core.quantity import Display, show
from kit.drawing.dimension_text import length_words
from kit.drawing.scene import Layer, Scene, View


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `fastening.glue` at the values `v`: the miter stands upright, the boards leave to either side."""
    half, c, b = v["corner"] / 2, v["miter"], v["width"]
    shown = 1.2 * b
    splined = v["spline_area"] > 0
    pull = show(v["pull"], "N", d, resolution=1)
    clamps = round(v["clamps"])
    scene = Scene(
        "A glued miter",
        f"The miter is {show(c, 'mm', d)} long, "
        + (f"with a spline {show(v['depth'], 'mm', d)} deep in each board. " if splined else "glued plain. ")
        + f"{clamps} clamps press it with {show(v['force'], 'N', d, resolution=10)} in all; {pull} pull it apart.",
        caption="From above",
    )
    for side in (-1, 1):
        away = (side * sin(half) * shown, -cos(half) * shown)
        scene.polyline(
            [(0, 0), (0, c), (away[0], c + away[1]), away],
            closed=True,
        )
    if splined:
        deep = v["depth"]
        for x in (-deep, deep):
            scene.line((x, -deep / _slope(half)), (x, c - deep / _slope(half)), Layer.HIDDEN)
    _clamp(scene, v)
    end, line = shown * sin(half), c / 2 - v["arm"]
    scene.arrow((end, line), 0.0, length=14, grip="tail")
    scene.leader((end, line), (5, -7), f"F = {pull}", end="dot")
    scene.arrow((-end, line), pi, length=14, grip="tail")
    scene.line((-end, line), (end, line), Layer.CENTER)
    if v["arm"] > 0:
        scene.dim((end, line), (end, c / 2), 32, length_words("r", v["arm"], d), along="vertical")
    scene.dim((-end, 0), (-end, c), -20, length_words("c", c, d), along="vertical")
    scene.explain(Layer.FORCE, "pull across the miter, and one clamp")
    scene.explain(Layer.CENTER, "line of the pull")
    scene.explain(Layer.CONSTRUCTION, "how a clamp's pressure spreads")
    if splined:
        scene.explain(Layer.HIDDEN, "depth of the slot")
    _section(scene.view("Section across the miter"), v, d)
    return scene


def _slope(half: float) -> float:
    """Return the tangent of half the corner, kept finite where the boards are in line."""
    return sin(half) / max(cos(half), 1e-9)


def _clamp(scene: Scene, v: Mapping[str, float]) -> None:
    """Draw the reach of one clamp at the middle of the miter, from its pad."""
    middle, pad, block, reach = v["miter"] / 2, v["pad"] / 2, v["block"], v["spread"] / 2
    within = min(reach, middle)
    scene.line((-block, middle - pad), (-block, middle + pad))
    scene.arrow((-block, middle), 0.0, length=9)
    for way in (-1, 1):
        scene.line((-block, middle + way * pad), (within - reach, middle + way * within), Layer.CONSTRUCTION)


def _section(view: View, v: Mapping[str, float], d: Display) -> None:
    t, deep, slot = v["thickness"], v["depth"], v["slot"]
    wide = 2.5 * max(t, deep)
    for side, angle in ((-1, pi / 4), (1, -pi / 4)):
        corners = [(0.0, 0.0), (side * wide, 0.0), (side * wide, t), (0.0, t)]
        view.polyline(corners, closed=True)
        view.hatch([corners], angle=angle, spacing=4.0)
    if slot > 0:
        view.rectangle((-deep, (t - slot) / 2), (deep, (t + slot) / 2), fill="strong")
        view.dim((0, 0), (deep, 0), -8, length_words("h", deep, d), along="horizontal")
        view.leader((-deep / 2, (t + slot) / 2), (-8, 12), length_words("s", slot, d), end="dot")
    view.dim((wide, 0), (wide, t), 8, length_words("t", t, d), along="vertical")
