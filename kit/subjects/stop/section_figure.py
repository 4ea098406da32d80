"""Section through a stop block and its rib, to scale, with the centroid."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `stop.section` at the values `v`."""
    b, h = v["block_width"], v["block_height"]
    c, level = v["centroid"], v["centroid_height"]
    scene = Scene(
        "Block and rib in section",
        f"A block {show(b, 'mm', d)} wide and {show(h, 'mm', d)} high with a rib that stands off "
        f"{show(v['rib_height'], 'mm', d)}; the push comes from the left.",
    )
    draw_sizes(scene, v, d, left=-26)
    low, high = _reach_up(v)
    below = v["rib_height"] > 0 and round(v["rib_face"]) == 2
    scene.dim((0, low), (c, low), -25 if below else -17, f"ȳ = {show(c, 'mm', d)}", along="horizontal")
    scene.arrow((0, h / 2), 0.0, "push", length=10)
    beyond = 0.08 * (high - low)
    scene.line((c, low - beyond), (c, high + beyond), Layer.CENTER)
    far = max(b, v["rib_middle"] + v["rib_depth"] / 2)
    scene.line((-beyond, level), (far + beyond, level), Layer.CENTER)
    scene.circle((c, level), 0.015 * (high - low + b), fill="strong")
    return scene


def draw_sizes(view: View, v: Mapping[str, float], d: Display, *, left: float = -9.0) -> None:
    """Draw the section of `stop.section`, the block's front face at x = 0, its underside at y = 0.

    `left` is how far from the block its height is dimensioned, paper mm.
    """
    b, h = v["block_width"], v["block_height"]
    near, far = (v["rib_middle"] + side * v["rib_depth"] / 2 for side in (-1, 1))
    under, over = (v["rib_level"] + side * v["rib_rise"] / 2 for side in (-1, 1))
    low, high = _reach_up(v)
    draw_parts(view, v)
    spare = -9.0
    if v["rib_height"] > 0:
        height, width = (f"{name} = {show(v[size], 'mm', d)}" for name, size in RIB)
        if round(v["rib_face"]) == 0:
            view.dim((near, high), (far, high), 9, height, along="horizontal")
            view.dim((far, under), (far, over), 10, width, along="vertical")
        else:
            on_top = under >= 0
            edge = max(b, far)
            view.dim((edge, under), (edge, over), 10, height, along="vertical")
            view.dim((near, high if on_top else low), (far, high if on_top else low), 9 if on_top else -9, width)
            spare = -9.0 if on_top else -17.0
    view.dim((0, low), (b, low), spare, f"b = {show(b, 'mm', d)}", along="horizontal")
    view.dim((0, 0), (0, h), left, f"h = {show(h, 'mm', d)}", along="vertical")


def draw_parts(view: View, v: Mapping[str, float]) -> None:
    """Draw block and rib in section, without notes."""
    _part(view, 0, 0, v["block_width"], v["block_height"], pi / 4)
    y, z, t, s = (v[name] for name in ("rib_middle", "rib_level", "rib_depth", "rib_rise"))
    if v["rib_height"] > 0:
        _part(view, y - t / 2, z - s / 2, y + t / 2, z + s / 2, -pi / 4)


RIB = (("h_{r}", "rib_height"), ("b_{r}", "rib_width"))


def _reach_up(v: Mapping[str, float]) -> tuple[float, float]:
    """Return the lowest and the highest level of the section."""
    rise = v["rib_rise"] / 2 if v["rib_height"] > 0 else 0.0
    return min(0.0, v["rib_level"] - rise), max(v["block_height"], v["rib_level"] + rise)


def _part(view: View, left: float, low: float, right: float, high: float, angle: float) -> None:
    view.rectangle((left, low), (right, high), fill="light")
    view.hatch([[(left, low), (right, low), (right, high), (left, high)]], angle=angle, spacing=3.5)
