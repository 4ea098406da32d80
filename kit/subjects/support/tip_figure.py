"""A bench with its machine drawn out, from the side: what holds it, and what tips it about its front feet."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `support.tip` at the values `v`: the front feet at the origin, the front to the right."""
    B, c, x, w, h = (v[name] for name in ("feet", "bench_place", "machine_place", "work_place", "push_height"))
    top, thick = 0.9 * h, 0.06 * h
    reach = max(x + 0.2 * B, w, 0.1 * B)
    scene = Scene(
        "A bench that must not tip",
        f"What holds the bench is {show(v['reserve'], '', d, resolution=0.01)} times what tips it about its front "
        f"feet; the back feet still carry {show(v['back_load'], 'N', d, resolution=1)}.",
        caption="From the side, the front at the right",
    )
    scene.line((-1.2 * B, 0.0), (max(reach, 0.3 * B), 0.0))
    scene.rectangle((-1.08 * B, top - thick), (0.08 * B, top), fill="medium")
    for foot in (0.0, -B):
        scene.rectangle((foot - 0.02 * B, 0.0), (foot + 0.02 * B, top - thick))
    scene.rectangle((x - 0.2 * B, top), (x + 0.2 * B, top + 0.25 * B), Layer.DEFLECTED)
    scene.line((x, top + 0.08 * B), (w + (w - x), top + 0.08 * B), Layer.HIDDEN)
    for at, height, name in ((-c, 0.45 * top, "bench"), (x, top + 0.25 * B, "machine"), (w, top + 0.08 * B, "work")):
        scene.arrow((at, height), -pi / 2, show(v[name], "kg", d), length=14)
    scene.arrow((x - 0.22 * B, h), 0.0, f"P = {show(v['push'], 'N', d)}", length=14)
    scene.dim((-B, 0.0), (0.0, 0.0), -9, f"B = {show(B, 'mm', d)}", along="horizontal")
    scene.dim((-c, 0.0), (0.0, 0.0), -17, f"c = {show(c, 'mm', d)}", along="horizontal")
    scene.dim((0.0, 0.0), (w, 0.0), -9, f"w = {show(w, 'mm', d)}", along="horizontal")
    scene.dim((-1.08 * B, 0.0), (-1.08 * B, h), -12, f"h = {show(h, 'mm', d)}", along="vertical")
    scene.explain(Layer.DEFLECTED, f"machine, drawn out to x = {show(x, 'mm', d)} before the front feet")
    scene.explain(Layer.HIDDEN, "board")
    scene.explain(Layer.FORCE, "weights and push")
    return scene
