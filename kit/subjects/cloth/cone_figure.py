"""Cone or cylinder cut flat: the frustum from the side, and one flat panel with what a trammel needs."""

from collections.abc import Mapping
from math import cos, sin

from kit.core.quantity import Display, show
from kit.drawing.primitives import Point
from kit.drawing.scene import Layer, Scene, View

STEPS = 48  # chords of a drawn arc


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `cloth.cone` at the values `v`, mm and rad."""
    n = round(v["panels"])
    scene = Scene(
        "Cone or cylinder cut flat",
        f"A frustum {show(v['wide'], 'mm', d)} wide below and {show(v['narrow'], 'mm', d)} above, with a slant of "
        f"{show(v['slant'], 'mm', d)}. Beside it one of {n} flat panels: a part of a ring of "
        f"{show(v['panel_angle'], 'deg', d)}, its wide edge {show(v['wide_arc'], 'mm', d)} long on a radius of "
        f"{show(v['wide_arm'], 'mm', d)}.",
        caption="From the side",
    )
    _side(scene, v, d)
    words = "The panel, laid flat" if n == 1 else f"One of {n} panels, laid flat"
    _panel(scene.view(words, below=v["chord"] > 1.5 * v["slant"]), v, d)
    scene.explain(Layer.SEAM, "sew line of the seams")
    scene.explain(Layer.CENTER, "axis; middle line of the panel")
    return scene


def _side(view: View, v: Mapping[str, float], d: Display) -> None:
    wide, narrow, h = v["wide"] / 2, v["narrow"] / 2, v["height"]
    view.polyline([(-wide, 0), (wide, 0), (narrow, h), (-narrow, h)], closed=True, fill="light")
    view.line((0, -0.08 * h), (0, 1.08 * h), Layer.CENTER)
    view.dim((-wide, 0), (wide, 0), -10, f"D = {show(v['wide'], 'mm', d)}")
    if narrow > 0:
        view.dim((-narrow, h), (narrow, h), 10, f"d = {show(v['narrow'], 'mm', d)}")
    out = -max(wide, narrow)
    view.dim((out, 0), (out, h), 8, f"h = {show(h, 'mm', d)}")
    view.dim((wide, 0), (narrow, h), -8, f"s = {show(v['slant'], 'mm', d)}")


def _edge(v: Mapping[str, float], radius: float, arc: float, height: float) -> list[Point]:
    """Return an edge of the panel from left to right; the middle of the wide edge is the origin."""
    half = v["half_panel"]
    if v["wide_arm"] == 0:
        return [(-arc / 2, height), (arc / 2, height)]
    turns = [half * (2 * k / STEPS - 1) for k in range(STEPS + 1)]
    return [(radius * sin(a), v["wide_arm"] - radius * cos(a)) for a in turns]


def _panel(view: View, v: Mapping[str, float], d: Display) -> None:
    low = _edge(v, v["wide_arm"], v["wide_arc"], 0.0)
    high = _edge(v, v["narrow_arm"], v["narrow_arc"], v["slant"])
    view.polyline([*low, *reversed(high)], closed=True, fill="light")
    view.line(low[-1], high[-1], Layer.SEAM)
    view.line(low[0], high[0], Layer.SEAM)
    view.line((0, 0), (0, v["slant"]), Layer.CENTER)
    view.dim(low[0], low[-1], 8 if v["rise"] > 0.02 * v["chord"] else -8, f"C = {show(v['chord'], 'mm', d)}")
    if v["rise"] > 0.02 * v["chord"]:
        out = (max(x for x, _ in low), 0.0)
        view.line((0, 0), out, Layer.CONSTRUCTION)
        view.dim(out, (out[0], low[-1][1]), -8, f"f = {show(v['rise'], 'mm', d)}")
    reach = abs(v["wide_arm"])
    if 0 < reach < 3 * v["slant"]:
        tip = (0.0, v["wide_arm"])
        view.line(tip, high[0], Layer.CONSTRUCTION)
        view.line(tip, high[-1], Layer.CONSTRUCTION)
        view.text(tip, f"θ_{{n}} = {show(v['panel_angle'], 'deg', d)}", "above", gap=2)
    if reach > 0:
        view.leader(low[STEPS // 5], (-6, -8), f"R_{{1}} = {show(v['wide_arm'], 'mm', d)}")
        view.leader(high[3 * STEPS // 5], (3, -8), f"R_{{2}} = {show(v['narrow_arm'], 'mm', d)}")
