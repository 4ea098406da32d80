"""A person before a load, from the side: where the hands hold it, and where it goes."""

from collections.abc import Mapping

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene
from kit.subjects.support.people import stand

TALL, BOX = 1750.0, 260.0  # mm: a person and a load for the picture


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `support.lift` at the values `v`: the floor y = 0, the ankles at x = 0."""
    H, V, D = v["reach"], v["height"], v["travel"]
    allowed = show(v["together"], "kg", d, resolution=0.1)
    scene = Scene(
        "A load lifted by hand",
        f"Hands {show(H, 'mm', d)} before the ankles lift {show(v['mass'], 'kg', d)} from {show(V, 'mm', d)} by "
        f"{show(D, 'mm', d)}; {allowed} are recommended at most.",
        caption="From the side",
    )
    scene.line((-300.0, 0.0), (1100.0, 0.0))
    stand(scene, TALL, (H, V))
    _box(scene, H, V, Layer.OUTLINE)
    if D > 0:
        _box(scene, H, V + D, Layer.DEFLECTED)
        scene.dim((H + 1.6 * BOX, V), (H + 1.6 * BOX, V + D), 8, f"D = {show(D, 'mm', d)}", along="vertical")
    scene.dim((0.0, 0.0), (H, 0.0), -9, f"H = {show(H, 'mm', d)}", along="horizontal")
    scene.line((H, 0.0), (H, V), Layer.CONSTRUCTION)
    scene.dim((H, 0.0), (H, V), 22, f"V = {show(V, 'mm', d)}", along="vertical")
    scene.text((H + 0.6 * BOX, V - 0.3 * BOX), f"m = {show(v['mass'], 'kg', d)}")
    scene.explain(Layer.DEFLECTED, f"where it is lifted to; at most {allowed} so")
    scene.explain(Layer.CONSTRUCTION, "plumb from the hands")
    return scene


def _box(scene: Scene, H: float, V: float, layer: Layer) -> None:
    scene.rectangle((H - 0.05 * BOX, V - 0.5 * BOX), (H + 1.25 * BOX, V + 0.3 * BOX), layer)
