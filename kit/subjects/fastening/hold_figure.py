"""A machine on its bench from the side: what tips it, its weight, and the bolts that hold it down."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show
from kit.drawing.dimension_text import length_words
from kit.drawing.scene import Layer, Scene


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `fastening.hold` at the values `v`: the tipping edge at 0, the machine to its left."""
    row, high, reach, inside = v["row"], v["height"], v["reach"], v["inside"]
    size = max(row, high, reach, 1.0)
    body = max(high, 0.35 * size)
    foot = 0.06 * size
    each = show(v["each"], "N", d, resolution=1)
    scene = Scene(
        "A machine held down on its bench",
        f"A pull of {show(v['pull'], 'N', d, resolution=1)} at a height of {show(high, 'mm', d)} and a push of "
        f"{show(v['push'], 'N', d, resolution=1)} beyond the edge tip the machine; each bolt of the far row pulls with "
        f"{each}.",
        caption="From the side; it would tip about the feet at the right",
    )
    scene.rectangle((-row - 2 * foot, foot), (foot, foot + body), fill="light")
    for x in (-row, 0.0):
        scene.rectangle((x - foot / 2, 0), (x + foot / 2, foot), fill="medium")
    scene.line((-row - 0.25 * size, 0), (max(reach, 0.1 * size) + 0.2 * size, 0))
    scene.line((-row, foot * 1.6), (-row, -2 * foot), Layer.CENTER)
    scene.arrow(
        (foot, max(high, 1.2 * foot)), 0.0, f"F = {show(v['pull'], 'N', d, resolution=1)}", length=14, grip="tail"
    )
    arm = foot + 0.45 * body
    scene.line((foot, arm), (max(reach, foot), arm))
    scene.arrow((reach, arm), -pi / 2, length=10)
    scene.leader((reach, arm), (8, 4), f"V = {show(v['push'], 'N', d, resolution=1)}")
    scene.circle((-inside, foot + 0.3 * body), 0.02 * size, fill="strong")
    scene.arrow((-inside, foot + 0.3 * body), -pi / 2, length=12, grip="tail")
    scene.leader((-inside, foot + 0.3 * body), (-12, 8), f"m = {show(v['mass'], 'kg', d)}", end="dot")
    if v["each"] > 0:
        scene.arrow((-row, -foot), -pi / 2, length=8, grip="tail")
        scene.leader((-row, -foot), (-10, -7), f"T = {each}", end="dot")
    scene.explain(Layer.FORCE, "forces on the machine")
    scene.dim((-row, 0), (0, 0), -30, length_words("d", row, d), along="horizontal")
    if inside != 0:
        scene.dim((-inside, foot), (0, foot), -14, length_words("b", abs(inside), d), along="horizontal")
    if reach > 0:
        scene.dim((0, 0), (reach, 0), -14 if inside >= 0 else -22, length_words("r", reach, d), along="horizontal")
    return scene
