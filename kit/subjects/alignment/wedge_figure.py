"""A wedge between fence and face, from above."""

from collections.abc import Mapping

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, ratio


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `alignment.wedge` at the values `v`: the fence's front along y = 0, the wedge before it."""
    F, t, rise = v["face"], v["thin"], v["rise"]
    larger = ratio(0.2 * F / v["thick"])
    thin, thick, fence = larger * t, larger * (t + rise), 0.07 * F
    scene = Scene(
        "A wedge that turns a fence's face",
        f"A wedge {show(F, 'mm', d)} long is {show(t, 'mm', d, resolution=0.01)} thick at one end and "
        f"{show(v['thick'], 'mm', d, resolution=0.01)} at the other; {v['sheets']:.0f} sheets of paper do nearly the "
        "same.",
        caption="From above",
    )
    scene.rectangle((0.0, 0.0), (F, fence), fill="medium")
    scene.text((F / 2, fence / 2), "fence")
    wedge = [(0.0, 0.0), (0.0, -thin), (F, -thick), (F, 0.0)]
    scene.polyline(wedge, closed=True)
    scene.hatch([wedge])
    scene.polyline([(0.0, -thin), (F, -thick), (F, -thick - fence), (0.0, -thin - fence)], closed=True, fill="light")
    scene.text((F / 2, -(thin + thick + fence) / 2), "face")
    scene.line((0.0, -thin - fence), (F, -thin - fence), Layer.CONSTRUCTION)
    scene.dim((0.0, -thin), (0.0, 0.0), -9, f"t = {show(t, 'mm', d, resolution=0.01)}", along="vertical")
    scene.dim((F, -thick), (F, 0.0), 9, f"T = {show(v['thick'], 'mm', d, resolution=0.01)}", along="vertical")
    scene.dim((0.0, fence), (F, fence), 9, f"F = {show(F, 'mm', d)}", along="horizontal")
    scene.explain(Layer.CONSTRUCTION, f"along the fence; thicknesses are drawn {larger:g} times")
    return scene
