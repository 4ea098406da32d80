"""A twisted ruling: from above, its two tangent planes seen along the ruling, and the strain over the twist."""

from collections.abc import Mapping
from math import cos, pi, sin

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `cloth.twist` at the values `v`, mm and rad."""
    scene = Scene(
        "Twist of a ruling",
        f"A ruling from a straight side to a circle of radius {show(v['radius'], 'mm', d)} turns by "
        f"{show(v['twist'], 'deg', d)} between its two tangent planes, which asks for a strain of "
        f"{show(v['strain'], '%', d)}; {show(v['tolerated'], '%', d)} is tolerated.",
        caption="From above",
    )
    _plan(scene, v, d)
    _along(scene.view("Seen along the ruling"), v, d)
    scene.explain(Layer.CONSTRUCTION, "tangent of the rim at the head")
    scene.explain(Layer.PHANTOM, "mean of the two: the gap halfway up")
    return scene


def _plan(view: View, v: Mapping[str, float], d: Display) -> None:
    a, u, r, turn = v["side"], v["along"], v["radius"], v["turn"]
    half = max(abs(u) * 1.15, 1.2 * r, 0.6 * a)
    view.circle((0, 0), r, fill="light")
    view.line((a, -half), (a, half))
    head = (r * cos(turn), r * sin(turn))
    view.line((a, u), head, Layer.SEAM)
    tangent = (-sin(turn), cos(turn))
    reach = 0.8 * r
    view.line(
        (head[0] - reach * tangent[0], head[1] - reach * tangent[1]),
        (head[0] + reach * tangent[0], head[1] + reach * tangent[1]),
        Layer.CONSTRUCTION,
    )
    view.line((-1.2 * r, 0), (1.1 * a, 0), Layer.CENTER)
    view.line((0, 0), head, Layer.CENTER)
    if abs(turn) > 0.05:
        ends = ((1.0, 0.0), head) if turn > 0 else (head, (1.0, 0.0))
        view.angle((0, 0), *ends, 14, "φ")
    view.text((0, -half), f"φ = {show(turn, 'deg', d)}", "left", gap=3)
    view.dim((0, -half), (a, -half), -8, f"a = {show(a, 'mm', d)}")
    if abs(u) > 0.03 * half:
        view.dim((a, 0), (a, u), -10 if u > 0 else 10, f"u = {show(u, 'mm', d)}")
    view.leader((-r * cos(0.7), r * sin(0.7)), (-5, 7), f"r = {show(r, 'mm', d)}")


def _along(view: View, v: Mapping[str, float], d: Display) -> None:
    """Draw the planes' traces: equal steps at both ends of the ruling, the angle δ between them."""
    size = 0.8 * v["side"]
    delta = v["twist"]
    low, high = (size, 0.0), (size * cos(delta), size * sin(delta))
    middle = ((low[0] + high[0]) / 2, high[1] / 2)
    view.line((0, 0), low)
    view.line((0, 0), high, Layer.CONSTRUCTION)
    view.line((0, 0), middle, Layer.PHANTOM)
    if 0.03 < delta < pi - 0.03:
        view.angle((0, 0), low, high, 20, f"δ = {show(delta, 'deg', d)}")
    view.text(low, "plane of the side", "below left", gap=1)
    view.text(high, "plane of the rim", "above left" if delta < 1 else "above", gap=2)
    words = f"strain {show(v['strain'], '%', d)}, tolerated {show(v['tolerated'], '%', d)}"
    view.text((size / 2, min(high[1], 0.0)), words, "below", gap=8)
