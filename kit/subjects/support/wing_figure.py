"""A wing from the front: held at the bench, free or on a leg, as it sags."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, ratio

STOPS = 32  # of the bent line


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `support.wing` at the values `v`: the bench's side along x = 0, the wing's top along y = 0."""
    L, h, sag, leg = v["length"], v["height"], v["sag"], round(v["end"]) == 1
    larger = ratio(0.12 * L / sag) if sag > 0 else 1.0
    low = -0.45 * L
    scene = Scene(
        "A long wing beside the machine",
        f"A wing {show(L, 'mm', d)} long, {'with a leg under its end' if leg else 'its end free'}, sags "
        f"{show(sag, 'mm', d, resolution=0.01)}.",
        caption="From the front",
    )
    scene.rectangle((-0.2 * L, low), (0.0, 0.0), fill="medium")
    scene.text((-0.1 * L, low / 2), "bench")
    scene.rectangle((0.0, -h), (L, 0.0), fill="light")
    scene.polyline([(L * i / STOPS, -larger * sag * _shape(i / STOPS, leg)) for i in range(STOPS + 1)], Layer.DEFLECTED)
    if leg:
        scene.rectangle((0.97 * L, low), (L, -h))
        scene.text((0.97 * L, (low - h) / 2), f"R = {show(v['leg'], 'N', d, resolution=1)}", "left", gap=3)
    scene.line((-0.25 * L, low), (1.1 * L, low))
    for i in range(4):
        scene.arrow((L * (i + 0.5) / 4, 0.0), -pi / 2, length=7)
    scene.text((L / 8, 0.0), f"m = {show(v['work'], 'kg', d)}", "above right", gap=9)
    scene.arrow((L, 0.0), -pi / 2, f"F = {show(v['lean'], 'N', d)}", length=16)
    scene.dim((0.0, low), (L, low), -9, f"L = {show(L, 'mm', d)}", along="horizontal")
    scene.explain(Layer.DEFLECTED, f"its top as it sags, drawn {larger:g} times")
    scene.explain(Layer.FORCE, "the board's weight, and what leans on the end")
    return scene


def _shape(at: float, leg: bool) -> float:
    """Return the line under an even load at a place from 0 to 1, with 1 where the sag is told."""
    if leg:
        return 192 / 48 * at**2 * (3 - 5 * at + 2 * at**2)
    return at**2 * (6 - 4 * at + at**2) / 3
