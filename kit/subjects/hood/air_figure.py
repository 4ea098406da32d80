"""Air through a hood: the way from the opening through the hose to the collector, and where fan and way meet."""

from collections.abc import Mapping
from math import pi, sqrt

import numpy as np

from kit.core.quantity import Display, show, unit
from kit.drawing.dimension_text import length_words
from kit.drawing.scene import Layer, Scene, View, ratio

SHORTEST, LONGEST = 1.8, 3.0  # of the hood's height: a hose is drawn no shorter and no longer
HIGH = 0.62  # height of the chart, as a share of its width


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw hood, hose and collector from the side, and the fan's curve with the way's, at the values `v`."""
    speed, flow = _words(v["face_speed"], "m/s", d, 0.01), _words(v["flow"], "m^3/h", d, 1)
    scene = Scene(
        "Air through a hood, hose and collector",
        f"Air comes in at {speed} through the opening at the left, runs at "
        f"{_words(v['hose_speed'], 'm/s', d, 0.1)} through the hose to the collector at the right. Below, the "
        f"pressure of the fan falls with the flow and the need of the system rises; they meet at {flow}.",
        caption="Path of the air; the opening as a square of its area",
    )
    high = max(sqrt(v["inlet"]), 1.5 * v["diameter"])
    _way(scene, v, d, high)
    chart = scene.view("Pressure over flow", magnify=ratio(3.0), below=True)
    _chart(chart, v, d, high)
    scene.explain(Layer.FORCE, "air")
    scene.explain(Layer.CONSTRUCTION, "operating point")
    scene.explain(Layer.DEFLECTED, "what the system needs")
    scene.explain(Layer.OUTLINE, "visible outline; what the fan gives")
    return scene


def _words(value: float, named: str, d: Display, resolution: float) -> str:
    """Return a quantity as printed, rounded to `resolution` in the unit `named`."""
    return show(value, named, d, resolution=resolution * unit(named).factor)


def _way(scene: Scene, v: Mapping[str, float], d: Display, high: float) -> None:
    open_side, bore = sqrt(v["inlet"]), v["diameter"]
    deep = 0.9 * high
    drawn = min(max(v["length"], SHORTEST * high), LONGEST * high)
    # The hood: closed but for its opening on the left and the hose on the right.
    low, top = (high - open_side) / 2, (high + open_side) / 2
    axis = high / 2
    scene.polyline([(0, low), (0, 0), (deep, 0), (deep, axis - bore / 2)])
    scene.polyline([(0, top), (0, high), (deep, high), (deep, axis + bore / 2)])
    if v["front"] > 0:
        for y in (0.0, high):
            scene.line((0, y), (0, y + (0.18 if y else -0.18) * high))
    end = deep + drawn
    for side in (-1, 1):
        scene.line((deep, axis + side * bore / 2), (end, axis + side * bore / 2))
    scene.line((deep, axis), (end, axis), Layer.CENTER)
    can = max(0.3 * high, 1.2 * bore)
    scene.rectangle((end, axis - can), (end + 1.2 * can, axis + can), fill="medium")
    scene.text((end + 0.6 * can, axis - can), "collector", "below")
    for share in (0.2, 0.5, 0.8):
        scene.arrow((0.04 * high, low + share * open_side), 0.0, length=9, grip="middle")
    scene.arrow((deep + 0.25 * drawn, axis), 0.0, length=9, grip="middle")
    scene.leader((0, low + 0.08 * open_side), (-5, -12), f"A = {_words(v['inlet'], 'cm^2', d, 1)}", end="dot")
    scene.leader(
        (0, top - 0.08 * open_side),
        (-5, 12),
        f"v_{{A}} = {_words(v['face_speed'], 'm/s', d, 0.01)}",
        end="dot",
    )
    scene.leader((deep + 0.15 * drawn, axis), (4, 14), f"v = {_words(v['hose_speed'], 'm/s', d, 0.1)}", end="dot")
    scene.leader((deep + 0.5 * drawn, axis + bore / 2), (4, 5), length_words("⌀D", bore, d))
    scaled = "" if drawn == v["length"] else ", not to scale"
    words = f"{length_words('ℓ', v['length'], d)}{scaled}"
    scene.dim((deep, axis - bore / 2), (end, axis - bore / 2), -12, words, along="horizontal")
    _reach(scene, v, d, axis, high)


def _reach(scene: Scene, v: Mapping[str, float], d: Display, axis: float, high: float) -> None:
    """Draw how far before the opening floating dust is drawn in."""
    x = v["capture_reach"]
    if not 0 < x <= 2.5 * high:
        return
    half = sqrt(v["inlet"]) / 2
    quarter = np.linspace(0, pi / 2, 13)
    upper = [(-x * np.sin(a), axis + half + x * np.cos(a) * 0.6) for a in quarter]
    lower = [(px, 2 * axis - py) for px, py in reversed(upper)]
    scene.polyline([*upper, *lower], Layer.PHANTOM)
    scene.leader((-x, axis), (-6, 3), length_words("x", x, d))
    scene.explain(Layer.PHANTOM, "as far as floating dust is drawn in")


def _chart(view: View, v: Mapping[str, float], d: Display, high: float) -> None:
    """Draw the fan's curve and the need of the way, with the point where the collector runs."""
    wide, tall = high, HIGH * high
    most_flow = 1.08 * max(v["free_flow"], v["flow"], v["needed_flow"])
    most_pressure = 1.08 * max(v["shut_pressure"], v["total_loss"])

    def at(flow: float, pressure: float) -> tuple[float, float]:
        return wide * flow / most_flow, tall * pressure / most_pressure

    def need(flow: float) -> float:
        loss: float = v["filter_drop"] + v["loss"] * v["density"] / 2 * (flow / v["hose_area"]) ** 2
        return loss

    view.line((0, 0), (wide, 0), Layer.DIMENSION)
    view.line((0, 0), (0, tall), Layer.DIMENSION)
    view.text((wide, 0), "flow", "right")
    view.text((0, tall), "pressure", "above")
    fan = [at(q, v["shut_pressure"] * (1 - (q / v["free_flow"]) ** 2)) for q in np.linspace(0, v["free_flow"], 41)]
    view.polyline(fan)
    view.text(fan[0], f"p_{{0}} = {_words(v['shut_pressure'], 'Pa', d, 10)}", "left")
    view.text(fan[-1], f"Q_{{0}} = {_words(v['free_flow'], 'm^3/h', d, 10)}", "below", gap=2.0)
    last = sqrt(max(most_pressure - v["filter_drop"], 0.0) / (v["loss"] * v["density"] / 2)) * v["hose_area"]
    flows = np.linspace(0, min(last, most_flow), 41)
    view.polyline([at(q, need(q)) for q in flows], Layer.DEFLECTED)
    runs = at(v["flow"], v["total_loss"])
    view.line((runs[0], 0), runs, Layer.CONSTRUCTION)
    view.line((0, runs[1]), runs, Layer.CONSTRUCTION)
    view.circle(runs, 0.012 * wide, fill="strong")
    view.text((runs[0], 0), f"Q = {_words(v['flow'], 'm^3/h', d, 1)}", "below", gap=7.0)
    view.text((0, runs[1]), f"Δp = {_words(v['total_loss'], 'Pa', d, 10)}", "left")
