"""Oblique cone: plan with equal divisions, the true-length triangle, and the flat panel built up of triangles."""

from collections.abc import Mapping
from itertools import pairwise
from math import acos, cos, hypot, pi, sin

from kit.core.quantity import Display, show
from kit.drawing.primitives import Point
from kit.drawing.scene import Layer, Scene, View


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `cloth.oblique` at the values `v`, mm and rad."""
    n, i = round(v["divisions"]), round(v["ruling"])
    scene = Scene(
        "Oblique cone by triangulation",
        f"Seen from above, a rim of radius {show(v['radius'], 'mm', d)} in {n} divisions and the tip's foot "
        f"{show(v['offset'], 'mm', d)} from its middle. Ruling {i} is {show(v['plan_length'], 'mm', d)} long in plan "
        f"and {show(v['true_length'], 'mm', d)} in truth. The flat panel spans twice "
        f"{show(v['half_sector'], 'deg', d)}.",
        caption="From above",
    )
    _plan(scene, v, d)
    _triangle(scene.view("True length"), v, d)
    _flat(scene.view("Flat panel, triangle by triangle", below=True), v, d)
    scene.explain(Layer.SEAM, "seam, along the longest ruling")
    scene.explain(Layer.CONSTRUCTION, "rulings to the divisions")
    return scene


def _rim(v: Mapping[str, float], k: float) -> Point:
    turn = 2 * pi * k / v["divisions"]
    return v["radius"] * cos(turn), v["radius"] * sin(turn)


def _plan(view: View, v: Mapping[str, float], d: Display) -> None:
    r, tip = v["radius"], (v["offset"], 0.0)
    view.circle((0, 0), r, fill="light")
    for k in range(round(v["divisions"])):
        view.line(tip, _rim(v, k), Layer.CONSTRUCTION)
    here = (r * cos(v["turn"]), r * sin(v["turn"]))
    view.line(tip, here)
    view.line((0, 0), here, Layer.CENTER)
    view.line((-1.15 * r, 0), (max(1.15 * r, tip[0]), 0), Layer.CENTER)
    if v["offset"] > 0.05 * r:
        view.dim((0, 0), tip, -8 - 1.2 * (v["offset"] < r), f"e = {show(v['offset'], 'mm', d)}")
    view.text(tip, "tip", "right", gap=1.5)
    view.text(here, f"{round(v['ruling'])}", "above" if here[1] >= 0 else "below", gap=1.5)
    view.leader((-r * cos(0.6), -r * sin(0.6)), (-8, -6), f"r = {show(r, 'mm', d)}")


def _triangle(view: View, v: Mapping[str, float], d: Display) -> None:
    p, h = v["plan_length"], v["height"]
    view.polyline([(0, 0), (p, 0), (0, h)], closed=True, fill="light")
    view.dim((0, 0), (p, 0), -8, f"p = {show(p, 'mm', d)}")
    view.dim((0, 0), (0, h), 8, f"h = {show(h, 'mm', d)}")
    view.dim((p, 0), (0, h), -8, f"ℓ = {show(v['true_length'], 'mm', d)}")


def _flat(view: View, v: Mapping[str, float], d: Display) -> None:
    """Draw the triangles about the tip, the longest ruling as seam on both sides, the shortest upright."""
    n, h, c = round(v["divisions"]), v["height"], v["chord"]
    rim = [_rim(v, k) for k in range(n // 2, n // 2 + n + 1)]
    ruling = [hypot(hypot(x - v["offset"], y), h) for x, y in rim]
    turn = [0.0]
    for one, two in pairwise(ruling):
        turn.append(turn[-1] + acos(min(1.0, (one * one + two * two - c * c) / (2 * one * two))))
    points = [
        (long * sin(a - turn[-1] / 2), -long * cos(a - turn[-1] / 2)) for long, a in zip(ruling, turn, strict=True)
    ]
    view.polyline([(0.0, 0.0), *points], closed=True, fill="light")
    for point in points[1:-1]:
        view.line((0, 0), point, Layer.CONSTRUCTION)
    view.line((0, 0), points[0], Layer.SEAM)
    view.line((0, 0), points[-1], Layer.SEAM)
    view.dim((0, 0), points[0], -8, f"ℓ = {show(ruling[0], 'mm', d)}")
    view.leader(points[len(points) // 4], (-6, -10), f"steps of c = {show(c, 'mm', d)}")
