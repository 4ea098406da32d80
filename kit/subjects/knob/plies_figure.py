"""Section through a knob of plies with its nut and stud, each layer with its hole."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View

WIDTH = 2.6
"""Of the drawn knob over its widest hole; the model does not ask for it."""


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `knob.plies` at the values `v`."""
    t, H = v["ply"], v["height"]
    engaged = show(v["engaged"], "mm", d, resolution=0.1)
    half = WIDTH * max(v["well"], v["stud_hole"]) / 2
    scene = Scene(
        "Knob of plies, cut through the middle",
        f"{round(v['plies'])} plies make {show(H, 'mm', d, resolution=0.1)}; the nut holds {engaged} of the thread.",
    )
    layers = (
        ("n_{1}", v["foot_plies"], v["stud_hole"]),
        ("n_{2}", v["well_plies"], v["well"]),
        ("n_{3}", v["end_plies"], v["stud_hole"]),
        ("n_{4}", v["roof_plies"], 0.0),
    )
    level, begun = 0.0, 0
    for symbol, count, hole in layers:
        for i in range(round(count)):
            _ply(scene, hole / 2, half, level + i * t, t, even=(begun + i) % 2 == 0)
        if count > 0:
            size = f"hole {show(hole, 'mm', d, resolution=0.1)}" if hole else "no hole"
            scene.text((half, level + count * t / 2), f"{symbol} = {round(count)}, {size}", "right", gap=3)
            scene.line((half, level), (1.25 * half, level), Layer.CONSTRUCTION)
        begun += round(count)
        level += count * t
    scene.line((half, level), (1.25 * half, level), Layer.CONSTRUCTION)
    _nut_and_stud(scene, v, half)
    scene.dim((-half, 0), (-half, H), -10, f"H = {show(H, 'mm', d, resolution=0.1)}", along="vertical")
    face, tip = -v["face_washer"], v["tip"]
    scene.line((-half, tip), (-v["diameter"] / 2, tip), Layer.CONSTRUCTION)
    scene.dim((-half, face), (-half, tip), -20, f"L = {show(v['stud'], 'mm', d)}", along="vertical")
    words = f"thread in the nut ℓ_{{e}} = {engaged}, {round(v['turns'])} turns"
    scene.text((0, face - 0.3 * half), words, "below", gap=2)
    scene.explain(Layer.HIDDEN, "thread")
    return scene


def _ply(view: View, near: float, far: float, low: float, t: float, *, even: bool) -> None:
    """Draw one ply in section, on both sides of its hole; neighbors are hatched against each other."""
    cuts = [(-far, -near), (near, far)] if near > 0 else [(-far, far)]
    for left, right in cuts:
        view.rectangle((left, low), (right, low + t), fill="light")
        corners = [(left, low), (right, low), (right, low + t), (left, low + t)]
        view.hatch([corners], angle=pi / 4 if even else -pi / 4, spacing=3.5)
    if near > 0:
        view.line((-near, low), (near, low))
        view.line((-near, low + t), (near, low + t))


def _nut_and_stud(scene: Scene, v: Mapping[str, float], half: float) -> None:
    d, core, seat = v["diameter"], v["diameter"] - 1.2 * v["pitch"], v["seat"]
    face = -v["face_washer"]
    for side in (-1, 1):
        inner, outer = side * d / 2, side * v["corners"] / 2
        scene.rectangle((inner, seat), (outer, seat + v["nut_height"]), fill="strong")
        if v["washer"] > 0:
            scene.rectangle((side * v["stud_hole"] / 2, v["foot_height"]), (outer, seat), fill="medium")
        if v["face_washer"] > 0:
            scene.rectangle((side * v["stud_hole"] / 2, face), (side * 0.8 * half, 0), fill="medium")
    low = face - 0.3 * half
    scene.rectangle((-d / 2, low), (d / 2, max(v["tip"], low)), fill="medium")
    for side in (-1, 1):
        scene.line((side * core / 2, low), (side * core / 2, v["tip"]), Layer.HIDDEN)
    scene.line((-1.2 * half, face), (1.2 * half, face))
    scene.line((0, low - 0.1 * half), (0, max(v["height"], v["tip"]) + 0.15 * half), Layer.CENTER)
