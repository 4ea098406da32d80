"""A bowed bar: loose, clamped flat with its rib, and released."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View, ratio
from kit.subjects.stop.bow_drawing import bar
from kit.subjects.stop.section_figure import draw_parts


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Return the three states under one another, bows drawn larger, and the section."""
    L, bow, left = v["length"], v["bow"], v["bow_left"]
    larger = ratio(0.08 * L / bow) if bow > 0 else 1.0
    scene = Scene(
        "A bowed bar and its rib",
        f"A bar with a bow of {show(bow, 'mm', d, resolution=0.01)} is clamped flat and glued to a rib; released, it "
        f"keeps {show(left, 'mm', d, resolution=0.01)}.",
        caption="Loose",
    )
    _state(scene, v, larger * bow, rib=False)
    _rise(scene, v, larger * bow, f"s_{{0}} = {show(bow, 'mm', d, resolution=0.01)}")
    flat = scene.view("Clamped flat, rib glued on", below=True)
    _state(flat, v, 0.0, rib=True)
    flat.arrow((0, v["block_width"] + _rib(v)), -pi / 2, f"F = {show(v['press'], 'N', d, resolution=1)}")
    flat.dim((-L / 2, 0), (L / 2, 0), -10, f"L = {show(L, 'mm', d)}")
    free = scene.view("Released", below=True)
    _state(free, v, larger * left, rib=True)
    _rise(free, v, larger * left, f"s = {show(left, 'mm', d, resolution=0.01)}")
    scene.explain(Layer.CONSTRUCTION, f"true face; bows drawn {larger:g} times")
    wide = max(v["block_width"] + v["rib_depth"], v["block_height"] + v["rib_rise"])
    draw_parts(scene.view("Section", magnify=ratio(0.15 * L / wide)), v)
    return scene


def _rib(v: Mapping[str, float]) -> float:
    return v["rib_height"] if round(v["rib_face"]) == 0 else 0.0


def _state(view: View, v: Mapping[str, float], rise: float, *, rib: bool) -> None:
    L, b = v["length"], v["block_width"]
    view.line((-0.54 * L, 0), (0.54 * L, 0), Layer.CONSTRUCTION)
    view.polyline(bar(L, 0, b, rise), closed=True, fill="light")
    if rib and v["rib_height"] > 0:
        low = v["rib_middle"] - v["rib_depth"] / 2
        layer = Layer.HIDDEN if round(v["rib_face"]) == 2 else Layer.OUTLINE
        view.polyline(bar(L, low, low + v["rib_depth"], rise), layer, closed=True, fill="medium")


def _rise(view: View, v: Mapping[str, float], rise: float, text: str) -> None:
    if rise > 0:
        end = 0.56 * v["length"]
        view.line((0, rise), (end, rise), Layer.CONSTRUCTION)
        view.dim((end, 0), (end, rise), 3, text, along="vertical")
