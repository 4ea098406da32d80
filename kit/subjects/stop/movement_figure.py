"""A block with its grain, and the fit across the grain, when fitted and in use."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, ratio
from kit.subjects.stop.fit_drawing import HEIGHT, key_in_groove


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Return the block from above and the fit in both climates, play drawn larger."""
    L, w = v["length"], v["width"]
    scene = Scene(
        "Movement with humidity",
        f"A block {show(L, 'mm', d)} long changes by {show(v['length_change'], 'mm', d, resolution=0.001)}; "
        f"the play of its key goes from {show(v['play_made'], 'mm', d, resolution=0.01)} to "
        f"{show(v['play_used'], 'mm', d, resolution=0.01)}.",
        caption="Block, along the grain",
    )
    high = min(max(1.6 * w, 0.05 * L), L)
    scene.rectangle((0, 0), (L, high), fill="light")
    scene.arrow((L / 2, high / 2), 0.0, layer=Layer.GRAIN, grip="middle", both=True, length=12)
    scene.dim((0, 0), (L, 0), -10, f"L = {show(L, 'mm', d)}")
    change = v["length_change"]
    if change:
        text = f"ΔL = {'+' if change > 0 else '−'}{show(abs(change), 'mm', d, resolution=0.001)}"
        scene.arrow((L, high / 2), 0.0 if change > 0 else pi, text, grip="tail" if change > 0 else "tip")
    most = max(v["play_made"], abs(v["play_used"]))
    larger = ratio(0.4 * w / most) if most > 0 else 1.0
    size = ratio(0.25 * max(L, high) / w)
    for when, play, width in (("made", v["play_made"], w), ("used", v["play_used"], w + v["width_change"])):
        words = "When fitted" if when == "made" else "In use"
        air = f"{show(v[f'{when}_humidity'], '%', d)}, {show(v[f'{when}_temperature'], 'degC', d)}"
        view = scene.view(f"{words}: {air}", magnify=size, below=when == "made")
        key_in_groove(view, w, larger * play)
        moisture = show(v[f"{when}_moisture"], "%", d, resolution=0.001)
        view.text((w / 2, HEIGHT * w), f"wood at {moisture}", "above", gap=9)
        sign = "c_{1}" if when == "made" else "c_{2}"
        view.text((w / 2, HEIGHT * w), f"{sign} = {show(play, 'mm', d, resolution=0.01)}", "above", gap=4)
        wooden = "groove" if round(v["moving"]) == 0 else "key"
        view.dim((0, -0.4 * w), (w, -0.4 * w), -8, f"{wooden} {show(width, 'mm', d, resolution=0.01)}")
    scene.explain(Layer.OUTLINE, f"visible outline; play drawn {larger:g} times too large, half on each side")
    return scene
