"""A person at the bench, from the side: elbow, machine's bed, and the outfeed behind it."""

from collections.abc import Mapping

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene
from kit.subjects.support.people import stand

ELBOW = 0.63  # of a person's height: for the picture


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `support.height` at the values `v`: the floor y = 0, the person at x = 0."""
    e, h, b, o, H = v["elbow"], v["bench"], v["bed"], v["outfeed"], v["bed_height"]
    tall = e / ELBOW
    left, right = 0.25 * tall, 0.75 * tall
    scene = Scene(
        "A bench at its height",
        f"The machine's bed lies at {show(H, 'mm', d)}; for an elbow at {show(e, 'mm', d)} it may lie between "
        f"{show(v['least'], 'mm', d)} and {show(v['highest'], 'mm', d)}.",
        caption="From the side",
    )
    scene.line((-0.25 * tall, 0.0), (1.45 * tall, 0.0))
    stand(scene, tall, (0.0, e), (left + 0.05 * tall, H))
    scene.rectangle((left, 0.93 * h), (right, h), fill="medium")
    for x in (left + 0.03 * tall, right - 0.05 * tall):
        scene.rectangle((x, 0.0), (x + 0.02 * tall, 0.93 * h))
    scene.rectangle((left + 0.08 * tall, h), (right - 0.08 * tall, H), fill="light")
    scene.rectangle((right + 0.32 * tall, 0.96 * o), (1.35 * tall, o), fill="medium")
    scene.rectangle((1.28 * tall, 0.0), (1.3 * tall, 0.96 * o))
    scene.text(((right + 1.67 * tall) / 2, o), "outfeed", "above")
    scene.dim((-0.05 * tall, 0.0), (-0.05 * tall, e), -9, f"e = {show(e, 'mm', d)}", along="vertical")
    scene.dim((left, 0.0), (left, h), -6, f"h = {show(h, 'mm', d)}", along="vertical")
    scene.dim((1.35 * tall, 0.0), (1.35 * tall, o), 9, f"o = {show(o, 'mm', d, resolution=0.1)}", along="vertical")
    if b > 0:
        scene.dim((right - 0.08 * tall, h), (right - 0.08 * tall, H), 7, f"b = {show(b, 'mm', d)}", along="vertical")
    for at in (v["least"], v["highest"]):
        scene.line((0.0, at), (right, at), Layer.CENTER)
    scene.explain(Layer.CENTER, "between these the machine's bed may lie")
    return scene
