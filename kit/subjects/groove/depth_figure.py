"""The plunge router twice: touching the work with the stack under its rod, and plunged with the stack away."""

from collections.abc import Mapping

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `groove.depth` at the values `v`; the work's face is y = 0."""
    scene = Scene(
        "Depth set by a stack",
        f"Left, the bit touches the work; a stack of {show(v['stack'], 'mm', d, resolution=0.01)} stands between rod "
        f"and stop. Right, the stack is away and the bit cuts {show(v['depth'], 'mm', d, resolution=0.01)} deep; "
        f"{show(v['floor'], 'mm', d, resolution=0.1)} of the board is left.",
        caption=f"Touch: stack of {show(v['stack'], 'mm', d, resolution=0.01)}",
    )
    unit = max(v["stack"], v["depth"], 1.2 * v["bit"], 8.0)
    _router(scene, v, unit, 0.0)
    _touch(scene, v, d, unit)
    n = round(v["passes"])
    each = show(v["pass_depth"], "mm", d, resolution=0.1)
    plunged = scene.view("Stack away: " + (f"{n} passes of {each}" if n > 1 else "one pass"))
    _router(plunged, v, unit, max(v["depth"], 0.0))
    _cut(plunged, v, d, unit)
    scene.explain(Layer.PHANTOM, "router's motor, turret stop and base, not to scale")
    return scene


def _router(view: View, v: Mapping[str, float], u: float, plunge: float) -> None:
    """Draw base, turret, rod and motor in units `u`; `plunge`: how far the motor is down."""
    b, r = v["bit"], v["rod"]
    gap, paper = max(v["stack"], 0.0), v["paper"] if not plunge else 0.0
    base, turret = 0.35 * u, 0.55 * u
    out, x = 1.6 * u, 1.0 * u + b / 2
    for side in (-1, 1):
        view.rectangle((side * (b / 2 + 0.25 * u), paper), (side * (out + b), paper + base), Layer.PHANTOM)
    level = paper + base
    view.rectangle((x - 0.35 * u, level), (x + 0.35 * u, level + turret), Layer.PHANTOM)
    foot = level + turret + gap - plunge if not plunge else level + turret
    motor = 2.6 * u + gap - plunge
    view.rectangle((x - r / 2, foot), (x + r / 2, motor + 1.2 * u), fill="light")
    view.rectangle((-0.6 * u - b / 2, motor), (out + b / 2, motor + 0.9 * u), Layer.PHANTOM)
    view.rectangle((-b / 2, paper - plunge), (b / 2, motor), fill="medium")


def _touch(view: View, v: Mapping[str, float], d: Display, u: float) -> None:
    T, b, z0 = v["board"], v["bit"], v["paper"]
    wide = 1.6 * u + b
    view.rectangle((-wide, -T), (wide, 0), fill="light")
    x, low = 1.0 * u + b / 2, z0 + 0.9 * u
    top = low + max(v["stack"], 0.0)
    middle = low + min(max(v["blocks"], 0.0), max(v["stack"], 0.0))
    half = max(0.3 * u, 0.7 * v["rod"])
    view.rectangle((x - half, low), (x + half, middle), fill="medium")
    view.rectangle((x - half, middle), (x + half, top), fill="strong")
    for sign, name, y, rise in (
        ("g", "blocks", (low + middle) / 2, -3.0),
        ("h", "pile", (middle + top) / 2, 5.0),
    ):
        view.leader((x + half, y), (7, rise), f"{sign} = {show(v[name], 'mm', d, resolution=0.01)}")
    if z0 > 0:
        view.rectangle((-wide, 0), (wide, z0), fill="strong")
        view.leader((-0.8 * wide, 0), (3, -6), f"z_{{0}} = {show(z0, 'mm', d)}")


def _cut(view: View, v: Mapping[str, float], d: Display, u: float) -> None:
    T, b, z = v["board"], v["bit"], max(v["depth"], 0.0)
    wide = 1.6 * u + b
    outline = [
        (-wide, 0),
        (-b / 2, 0),
        (-b / 2, -z),
        (b / 2, -z),
        (b / 2, 0),
        (wide, 0),
        (wide, -T),
        (-wide, -T),
    ]
    view.polyline(outline, closed=True)
    view.hatch([outline])
    for n in range(1, min(round(v["passes"]), 60)):
        y = -n * v["pass_depth"]
        view.line((-b / 2, y), (b / 2, y), Layer.CONSTRUCTION)
    view.dim((wide, -z), (wide, 0), 9, f"z = {show(v['depth'], 'mm', d, resolution=0.01)}", along="vertical")
    view.dim((-wide, -T), (-wide, -z), -9, f"f = {show(v['floor'], 'mm', d, resolution=0.1)}", along="vertical")
    view.dim((-b / 2, -T), (b / 2, -T), -9, f"d = {show(b, 'mm', d)}")
