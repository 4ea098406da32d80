"""Mitered tube: from the side, and the flat panel with its stations."""

from collections.abc import Mapping
from math import cos, pi, sin, tan

from kit.core.quantity import Display, show
from kit.drawing.primitives import Point
from kit.drawing.scene import Layer, Scene, View

STEPS = 96  # chords of the drawn curve


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `cloth.miter` at the values `v`, mm and rad."""
    flat = bool(v["kind"])
    scene = Scene(
        "Mitered tube or prism cut flat",
        f"A {'prism of flat sides' if flat else 'round tube'} {show(v['size'], 'mm', d)} across is cut at a miter of "
        f"{show(v['miter'], 'deg', d)}. Laid flat it is {show(v['girth'], 'mm', d)} wide, "
        f"{show(v['throat'], 'mm', d)} high at the throat and {show(v['longest'], 'mm', d)} at the back; station "
        f"{round(v['station'])} is {show(v['length'], 'mm', d)} high.",
        caption="From the side",
    )
    _side(scene, v, d)
    _flat(scene.view("Laid flat, seam at the throat", below=v["girth"] > 4 * v["longest"]), v, d)
    scene.explain(Layer.CONSTRUCTION, "stations")
    scene.explain(Layer.SEAM, "sew line of the seam")
    return scene


def _side(view: View, v: Mapping[str, float], d: Display) -> None:
    a, deep, high = v["throat"], v["depth"], v["longest"]
    view.polyline([(0, 0), (deep, 0), (deep, high), (0, a)], closed=True, fill="light")
    view.line((v["radius"], -0.06 * high), (v["radius"], 1.06 * high), Layer.CENTER)
    view.dim((0, 0), (0, a), 8, f"a = {show(a, 'mm', d)}")
    view.dim((deep, 0), (deep, high), -8, f"y_{{max}} = {show(high, 'mm', d)}")
    view.dim((0, 0), (deep, 0), -8, show(deep, "mm", d))
    if high - a > 0.1 * deep:
        view.line((0, a), (deep, a), Layer.CONSTRUCTION)
        view.angle((0, a), (1, a), (cos(v["miter"]), a + sin(v["miter"])), 16, f"μ = {show(v['miter'], 'deg', d)}")


def _top(v: Mapping[str, float], turn: float, reach: float) -> float:
    return v["throat"] + (v["radius"] - reach * cos(turn)) * tan(v["miter"])


def _stations(v: Mapping[str, float]) -> list[Point]:
    """Return the upper ends of the stations; on a prism its corners, and the seam at both ends."""
    n, b = round(v["stations"]), v["spacing"]
    if not v["kind"]:
        return [(k * b, _top(v, 2 * pi * k / n, v["radius"])) for k in range(n + 1)]
    corners = [((k - 0.5) * b, _top(v, (2 * k - 1) * pi / n, v["reach"])) for k in range(1, n + 1)]
    return [(0.0, v["throat"]), *corners, (n * b, v["throat"])]


def _flat(view: View, v: Mapping[str, float], d: Display) -> None:
    stations, girth = _stations(v), v["girth"]
    edge = stations
    if not v["kind"]:
        edge = [(girth * k / STEPS, _top(v, 2 * pi * k / STEPS, v["radius"])) for k in range(STEPS + 1)]
    view.polyline([(0.0, 0.0), (girth, 0.0), *reversed(edge)], closed=True, fill="light")
    for x, y in stations[1:-1]:
        view.line((x, 0), (x, y), Layer.FOLD if v["kind"] else Layer.CONSTRUCTION)
    for x, y in (stations[0], stations[-1]):
        view.line((x, 0), (x, y), Layer.SEAM)
    view.dim((0, 0), (girth, 0), -16, f"U = {show(girth, 'mm', d)}")
    s, y = v["along"], v["length"]
    if 0 <= s <= girth * (1 + 1e-9):
        view.line((s, 0), (s, y))
        if s > 0.02 * girth:
            view.dim((0, 0), (s, 0), -8, f"s = {show(s, 'mm', d)}")
        view.leader((s, y), (-8 if s > girth / 2 else 8, 9), f"y = {show(y, 'mm', d)}")
