"""A wobbling blade from above: the plate in its two outermost places, the kerf, and the dial."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, ratio


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `alignment.runout` at the values `v`: the arbor's middle at the origin, the plate along x."""
    R, r, k, W = v["radius"], v["dial_radius"], v["teeth"], v["wobble"]
    larger = ratio(0.25 * R / W) if W else 1.0
    wide = ratio(0.12 * R / k)
    lean, half = larger * W / 2, wide * k / 2
    scene = Scene(
        "A blade that runs out of true",
        f"The plate leans so that its teeth run out {show(W, 'mm', d, resolution=0.01)} in all; the kerf is "
        f"{show(v['kerf'], 'mm', d, resolution=0.01)} wide.",
        caption="From above, the teeth at the right",
    )
    for side, layer in ((1, Layer.OUTLINE), (-1, Layer.DEFLECTED)):
        scene.line((-R, -side * lean), (R, side * lean), layer)
        scene.rectangle((0.96 * R, side * lean - half), (R, side * lean + half), layer)
    scene.rectangle((-0.08 * R, -0.3 * R), (0.08 * R, 0.3 * R), Layer.HIDDEN)
    scene.text((0.0, 0.3 * R), "arbor", "above")
    scene.arrow((r, lean * r / R), -pi / 2, f"w = {show(v['dial'], 'mm', d, resolution=0.01)}", length=14)
    kerf = f"K = {show(v['kerf'], 'mm', d, resolution=0.01)}"
    scene.dim((R, -lean - half), (R, lean + half), 10, kerf, along="vertical")
    low = -max(lean + half, 0.3 * R)
    scene.dim((0.0, low), (r, low), -9, f"r = {show(r, 'mm', d)}", along="horizontal")
    scene.dim((0.0, low), (R, low), -17, f"R = {show(R, 'mm', d)}", along="horizontal")
    scene.explain(Layer.OUTLINE, f"plate and teeth: run-out {larger:g} times, teeth {wide:g} times as wide as they are")
    scene.explain(Layer.DEFLECTED, "the same half a turn later")
    scene.explain(Layer.HIDDEN, "arbor and flanges")
    scene.explain(Layer.FORCE, "dial")
    return scene
