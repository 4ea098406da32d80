"""A path from the hood to the fan, and the fan's curve at the speed and in the air of the shop."""

from collections.abc import Mapping

import numpy as np

from kit.core.quantity import Display, show, unit
from kit.drawing.dimension_text import length_words
from kit.drawing.scene import Layer, Scene, View

WIDE, TALL = 110.0, 55.0  # mm of the chart
SHARES = np.linspace(0, 1, 31)


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `air.path` at the values `v`: the path in signs, and two curves of a fan."""
    scene = Scene(
        "Path of the air to the collector",
        f"Air comes in at a hood, runs through hose, gate and duct at {_words(v['transport'], 'm/s', d, 0.1)} or more, "
        f"through a filter, and to a fan, which gives {show(v['pressure_factor'], '', d, resolution=0.01)} of the "
        "suction on its curve.",
        caption="Path, not to scale",
    )
    _path(scene, v, d)
    _curves(scene.view("A fan's curve as its maker draws it, and here", below=True), v, d)
    scene.explain(Layer.FORCE, "air")
    scene.explain(Layer.PHANTOM, "as the maker draws it")
    scene.explain(Layer.DEFLECTED, "at this speed and in this air")
    return scene


def _words(value: float, named: str, d: Display, resolution: float) -> str:
    return show(value, named, d, resolution=resolution * unit(named).factor)


def _path(scene: Scene, v: Mapping[str, float], d: Display) -> None:
    half = 4.0
    scene.polyline([(0, -14), (14, -half), (70, -half)])
    scene.polyline([(0, 14), (14, half), (70, half)])
    scene.line((14, 0), (70, 0), Layer.CENTER)
    scene.rectangle((40, -half - 2), (42, half + 2), fill="medium")
    scene.rectangle((70, -12), (92, 12), fill="light")
    scene.hatch([[(70, -12), (92, -12), (92, 12), (70, 12)]])
    scene.line((92, half), (104, half))
    scene.line((92, -half), (104, -half))
    scene.circle((114, 0), 11)
    for x in (3, 24, 54):
        scene.arrow((x, 0), 0.0, length=8, grip="middle")
    scene.text((41, -half - 2), "gate", "below", gap=2)
    scene.text((81, -12), "filter", "below", gap=2)
    scene.text((114, -11), "fan", "below", gap=2)
    scene.text((4, -14), "hood", "below", gap=2)
    scene.leader((3, 10), (-2, 14), f"Q_{{w}} = {_words(v['wanted'], 'm^3/h', d, 1)}", end="dot")
    scene.leader((54, half), (8, 14), length_words("widest ⌀", v["largest_duct"], d))


def _curves(view: View, v: Mapping[str, float], d: Display) -> None:
    wide = max(1.0, v["flow_factor"])
    tall = max(1.0, v["pressure_factor"])
    view.line((0, 0), (1.06 * WIDE, 0), Layer.DIMENSION)
    view.line((0, 0), (0, 1.1 * TALL), Layer.DIMENSION)
    view.text((1.06 * WIDE, 0), "flow", "right")
    view.text((0, 1.1 * TALL), "suction", "above")
    for flow, pull, layer in ((1.0, 1.0, Layer.PHANTOM), (v["flow_factor"], v["pressure_factor"], Layer.DEFLECTED)):
        x, y = WIDE * flow / wide * SHARES, TALL * pull / tall * (1 - SHARES**2)
        view.polyline(np.column_stack([x, y]), layer)
    here = (WIDE * v["flow_factor"] / wide, TALL * v["pressure_factor"] / tall)
    view.text((here[0], 0), f"φ = {show(v['flow_factor'], '', d, resolution=0.01)}", "below", gap=2)
    view.text((0, here[1]), f"ψ = {show(v['pressure_factor'], '', d, resolution=0.01)}", "left", gap=2)
