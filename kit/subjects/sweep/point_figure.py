"""A point that turns, tilts and slides: from the side with the ways of its arm, and from above with its circle."""

from collections.abc import Mapping
from math import cos, pi, sin

from kit.core.quantity import Display, show
from kit.drawing.dimension_text import length_words, wedge
from kit.drawing.scene import Layer, Scene, View


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `sweep.point` at the values `v`, mm and rad."""
    scene = Scene(
        "Reach and height of a moving point",
        f"From the side the arm stands {show(v['angle'], 'deg', d)} above level and its point "
        f"{show(v['height'], 'mm', d)} over the bench; from above the point is {show(v['reach'], 'mm', d)} from the "
        f"swing axis, at most {show(v['reach_most'], 'mm', d)}. The hood stands around.",
        caption=f"From the side: {length_words('z', v['height'], d, 0.1)}",
    )
    _side(scene, v, d)
    _plan(scene.view(f"From above: {length_words('r', v['reach'], d, 0.1)}"), v, d)
    scene.explain(Layer.CENTER, "swing axis, tilt axis")
    scene.explain(Layer.PHANTOM, "other positions")
    scene.explain(Layer.DEFLECTED, "inside of the hood")
    scene.explain(Layer.GRAIN, "slide")
    return scene


def _side(view: View, v: Mapping[str, float], d: Display) -> None:
    h, arm = v["axis_height"], v["arm"]
    axis = v["axis_out"] + v["slide"] * cos(v["slide_angle"])
    tip = (v["out"], v["height"])
    far = v["axis_out"] + v["slide_most"] * cos(v["slide_angle"])
    top, side = max(v["hood_height"], v["height_most"]), v["hood_reach"]
    left = min(axis, 0.0) - 0.15 * arm
    low, high = v["arm_low"], v["arm_low"] + v["tilt_most"]
    view.line((left, 0.0), (1.05 * max(side, v["out_most"]), 0.0))
    view.line((0.0, -0.04 * top), (0.0, 1.05 * top), Layer.CENTER)
    view.polyline([(side, 0.0), (side, v["hood_height"]), (left, v["hood_height"])], Layer.DEFLECTED)
    if high > low:
        view.arc((far, h), arm, low, high, Layer.PHANTOM)
        for angle in (low, high):
            view.line((far, h), (far + arm * cos(angle), h + arm * sin(angle)), Layer.PHANTOM)
    view.line((axis, h), tip)
    view.circle((axis, h), 0.03 * arm, fill="medium")
    view.circle(tip, 0.02 * arm, fill="strong")
    view.line((axis, h), (axis + 0.55 * arm, h), Layer.CENTER)
    wedge(view, (axis, h), 0.0, v["angle"], 22.0, "α")
    view.text(
        ((axis + tip[0]) / 2, (h + tip[1]) / 2),
        "ρ",
        "above left" if cos(v["angle"]) * sin(v["angle"]) >= 0 else "below left",
    )
    view.dim((left, 0.0), (left, h), -8, "h", along="vertical")
    view.dim((0.0, 0.0), (axis, 0.0), -9, "m_{0} + e cos δ", along="horizontal")
    view.dim((0.0, 0.0), (tip[0], 0.0), -19, "m", along="horizontal")
    view.dim(tip, (max(side, tip[0]), 0.0), 9, "z", along="vertical")
    edge = max(side, v["out_most"])
    peak = (far + arm * cos(v["angle_height"]), v["height_most"])
    view.dim((edge, 0.0), (peak[0], peak[1]), 19, "z_{max}", along="vertical")
    if v["headroom"] > 0:
        view.dim((edge, peak[1]), (edge, v["hood_height"]), 19, "b", along="vertical")


def _plan(view: View, v: Mapping[str, float], d: Display) -> None:
    """Draw the arm pointing to the right at no swing."""
    most, side, swing = v["reach_most"], v["hood_reach"], v["swing"]

    def turned(out: float, aside: float) -> tuple[float, float]:
        return (out * cos(swing) - aside * sin(swing), out * sin(swing) + aside * cos(swing))

    axis = (v["axis_out"] + v["slide"] * cos(v["slide_angle"]), v["slide"] * sin(v["slide_angle"]))
    foot = (axis[0], v["beside"])
    tip = (v["place_out"], v["place_aside"])
    view.line((min(0.0, v["axis_out"]), 0.0), (1.1 * max(side, most), 0.0), Layer.CENTER)
    view.arc((0.0, 0.0), side, -pi / 2, pi / 2, Layer.DEFLECTED)
    view.arc((0.0, 0.0), most, -pi / 2, pi / 2, Layer.PHANTOM)
    reach = 0.12 * v["arm"] + abs(v["aside"])
    view.line(turned(axis[0], axis[1] - reach), turned(axis[0], axis[1] + reach), Layer.CENTER)
    view.line(turned(*foot), tip)
    view.line((0.0, 0.0), tip, Layer.CONSTRUCTION)
    view.circle((0.0, 0.0), 0.02 * v["arm"], fill="medium")
    view.circle(tip, 0.02 * v["arm"], fill="strong")
    slide = swing + v["slide_angle"]
    view.arrow(turned(*foot), slide, "e", layer=Layer.GRAIN, both=True, grip="middle")
    wedge(view, (0.0, 0.0), 0.0, swing, 20.0, "ψ")
    view.leader((0.8 * tip[0], 0.8 * tip[1]), (9.0, -14.0 if tip[1] > 0 else 14.0), "r")
    for radius, letter, turn in ((side, "R_{h}", -0.9), (most, "r_{max}", 0.9)):
        at = (radius * cos(turn), radius * sin(turn))
        view.leader(at, (7.0, 6.0 if turn > 0 else -6.0), letter)
