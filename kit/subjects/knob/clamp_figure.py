"""A track cut across with the bolt's head under its lips, what each part bears, and the window of torque."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show, unit
from kit.drawing.scene import Layer, Scene, View

BEARS = (
    ("F_{n}", "force_needed", "needed"),
    ("F", "clamp_force", "sure"),
    ("F_{m}", "force_most", "may be"),
    ("F_{c}", "crush_force", "dents plies"),
    ("F_{p}", "plug_force", "shears a plug"),
    ("F_{y}", "lip_force", "bends lips"),
    ("F_{a}", "anchor_force", "draws screws"),
)
CENTI = 0.01 * unit("N*m").factor
"""A hundredth of a newton meter, in the base unit."""
LONGEST = 2.5
"""Of a drawn bar, over the force that every part withstands; a longer one is broken off there."""


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `knob.clamp` at the values `v`: section, forces, and torque from slip to damage."""
    least, greatest, set_ = (
        show(v[name], "N*m", d, resolution=CENTI) for name in ("torque_slip", "torque_damage", "torque")
    )
    scene = Scene(
        "Between slip and damage",
        f"The stop does not slip from {least} on, nothing is damaged up to {greatest}; the knob is turned by {set_}.",
        caption="Across the track",
    )
    wide = _section(scene, v, d)
    _forces(scene.view("Clamp forces"), v, d, wide)
    _window(scene.view("Torque at the knob", below=True), v, d, 1.6 * wide)
    scene.explain(Layer.CUT, "least and greatest torque")
    return scene


def _section(scene: Scene, v: Mapping[str, float], d: Display) -> float:
    """Draw bench, track, bolt, block and the knob's foot; return how wide they are drawn."""
    c, t, hole, foot = v["overhang"], v["lip"], v["hole"], v["foot"]
    root = hole / 2 + c
    wall = root + 1.2 * t
    out = 1.5 * max(wall, v["seat"])
    floor, block = -4.5 * t, 0.45 * out
    for side in (-1, 1):
        _part(
            scene,
            side,
            [
                (hole / 2, 0),
                (wall, 0),
                (wall, floor),
                (0, floor),
                (0, floor + t),
                (root, floor + t),
                (root, -t),
                (hole / 2, -t),
            ],
            side * pi / 4,
        )
        scene.rectangle((side * hole / 2, 0), (side * out, block), fill="light")
        scene.rectangle((side * hole / 2, block), (side * 0.8 * out, block + foot), fill="light")
        low = floor - 0.4 * out
        edge = [(wall, 0), (out, 0), (out, low), (0, low), (0, floor), (wall, floor)]
        scene.hatch([[(side * x, y) for x, y in edge]], angle=-side * pi / 4, spacing=3.5)
        scene.line((side * wall, 0), (side * out, 0))
    stud, top, under = 0.42 * hole, block + foot, -t
    scene.rectangle((-0.95 * root, under - 1.2 * t), (0.95 * root, under), fill="strong")
    scene.rectangle((-stud, under), (stud, top + 0.3 * out), fill="strong")
    for side in (-1, 1):
        scene.rectangle((side * stud, top), (side * v["seat"] / 2, top + 0.18 * out), fill="medium")
    scene.line((0, floor - 0.45 * out), (0, top + 0.4 * out), Layer.CENTER)
    scene.dim((-out, block), (-out, top), -6, f"b = {show(foot, 'mm', d)}", along="vertical")
    plate = top + 0.18 * out
    half = v["seat"] / 2
    scene.dim((-half, plate), (half, plate), 12, f"D_{{s}} = {show(v['seat'], 'mm', d)}", along="horizontal")
    scene.arrow((-out, block / 2), 0.0, f"F_{{b}} = {show(v['bump'], 'N', d, resolution=1)}")
    words = f"lip t = {show(t, 'mm', d)}, c = {show(c, 'mm', d)}"
    scene.text((0, floor - 0.45 * out), words, "below", gap=1.5)
    return 2 * out


def _part(view: View, side: int, corners: list[tuple[float, float]], angle: float) -> None:
    shape = [(side * x, y) for x, y in corners]
    view.polyline(shape, closed=True, fill="medium")
    view.hatch([shape], angle=angle, spacing=2.0)


def _forces(view: View, v: Mapping[str, float], d: Display, wide: float) -> None:
    """Draw what is asked of the clamp and what each part bears as bars to one scale."""
    row = 0.13 * wide
    longest = 0.7 * wide
    limit = LONGEST * max(v["force_allowed"], v["force_most"])
    for i, (symbol, name, word) in enumerate(BEARS):
        low = -i * row - (0.5 * row if i > 2 else 0.0)
        length = longest * min(max(v[name], 0.0), limit) / limit
        view.rectangle((0, low), (length, low + 0.6 * row), fill="medium" if i > 2 else "strong")
        if v[name] > limit:
            view.line((0.94 * longest, low - 0.15 * row), (0.97 * longest, low + 0.75 * row))
        label = f"{symbol} = {show(v[name], 'N', d, resolution=1)}, {word}"
        view.text((longest, low + 0.3 * row), label, "right", gap=2)


def _window(view: View, v: Mapping[str, float], d: Display, wide: float) -> None:
    """Draw the torques on one line from zero, the window between slip and damage filled where it is open."""
    low, high, at = v["torque_slip"], v["torque_damage"], v["torque"]
    scale = wide / (1.1 * max(low, high, at))
    band = 0.05 * wide
    view.line((0, 0), (wide, 0))
    if 0 < low < high:
        view.rectangle((low * scale, 0), (high * scale, band), fill="medium")
        view.text((wide, band / 2), "holds, and nothing gives", "right", gap=3)
    else:
        view.text((wide, band / 2), "no torque holds without damage", "right", gap=3)
    marks = (("T_{1}", low, "no slip from here", 0.0), ("T_{2}", high, "no damage to here", 8.0))
    for symbol, torque, word, further in marks:
        x = max(torque, 0.0) * scale
        view.line((x, -0.4 * band), (x, band), Layer.CUT)
        view.dim((0, 0), (x, 0), -10 - further, f"{symbol} = {show(torque, 'N*m', d, resolution=CENTI)}, {word}")
    view.arrow((at * scale, band), -pi / 2, f"T = {show(at, 'N*m', d, resolution=CENTI)}", length=10)
