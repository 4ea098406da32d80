"""Three measured places and a foot, from above, with the shares in which the foot takes its depth."""

from collections.abc import Mapping
from math import atan2

from kit.core.quantity import Display, show
from kit.drawing.primitives import Place
from kit.drawing.scene import Layer, Scene

SIDES: tuple[Place, ...] = ("above left", "below right", "above")
"""Of the words at the three places: the spans of the model keep them so to one another."""


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `level.plane` at the values `v` in plan."""
    places = [(v[f"x_{i}"], v[f"y_{i}"]) for i in (1, 2, 3)]
    foot = (v["foot_x"], v["foot_y"])
    depth, u = show(v["depth"], "mm", d, resolution=0.001), show(v["u"], "mm", d, resolution=0.001)
    scene = Scene(
        "Plane of the bed",
        f"Three measured places make a triangle; at the foot the bed lies {depth} below the line, with a standard "
        f"uncertainty of {u}.",
        caption="From above",
    )
    scene.polyline(places, closed=True, fill="light")
    xs, ys = [p[0] for p in (*places, foot, (0, 0))], [p[1] for p in (*places, foot, (0, 0))]
    size = max(max(xs) - min(xs), max(ys) - min(ys))
    middle = (sum(p[0] for p in places) / 3, sum(p[1] for p in places) / 3)
    for i, (x, y) in enumerate(places, start=1):
        scene.line((x, y), foot, Layer.CONSTRUCTION)
        scene.circle((x, y), 0.012 * size, fill="strong")
        words = f"z_{{{i}}} = {show(v[f'gap_{i}'], 'mm', d, resolution=0.01)}, λ_{{{i}}} = {v[f'share_{i}']:.2f}"
        scene.text((x, y), words, SIDES[i - 1], gap=2)
    cross = 0.03 * size
    scene.line((foot[0] - cross, foot[1]), (foot[0] + cross, foot[1]), Layer.CENTER)
    scene.line((foot[0], foot[1] - cross), (foot[0], foot[1] + cross), Layer.CENTER)
    scene.circle(foot, 0.6 * cross)
    scene.leader(foot, (-9 if foot[0] < middle[0] else 9, 12), f"foot: z = {depth}, u = {u}")
    if v["lean"] > 0:
        down = atan2(v["slope_y"], v["slope_x"])
        scene.arrow(
            middle,
            down,
            f"θ = {show(v['lean'], 'deg', d, resolution=1e-4)}, downhill",
            length=16,
            grip="middle",
            layer=Layer.GRAIN,
        )
        scene.explain(Layer.GRAIN, "the way the bed leans")
    low, left = min(ys) - 0.02 * size, min(xs) - 0.02 * size
    scene.dim((0, low), (foot[0], low), -14, f"X = {show(foot[0], 'mm', d)}", along="horizontal")
    scene.dim((left, 0), (left, foot[1]), -44, f"Y = {show(foot[1], 'mm', d)}", along="vertical")
    scene.line((0, min(0, low)), (0, 0.06 * size), Layer.CENTER)
    scene.line((min(0, left), 0), (0.06 * size, 0), Layer.CENTER)
    scene.explain(Layer.CENTER, "corner from which x and y are measured; foot")
    return scene
