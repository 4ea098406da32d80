"""A knob from the side with the hand's torque and the clamp force, a turn of its thread, and the force's range."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show, unit
from kit.drawing.scene import Layer, Scene, View, ratio

TURNS = 7
"""Of thread drawn."""
CENTI = 0.01 * unit("N*m").factor
"""A hundredth of a newton meter, in the base unit."""
FORCES = (
    ("F_{1}", "axial_low", "rough"),
    ("F", "axial_force", "as stated"),
    ("F_{2}", "axial_high", "slippery"),
)


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `knob.torque` at the values `v`: section with forces, the thread unrolled, the force's range."""
    D, hole = v["knob_size"], v["hole"]
    least, most = (show(v[name], "N", d, resolution=1) for name in ("axial_low", "axial_high"))
    torque, force = (
        show(v["hand_torque"], "N*m", d, resolution=CENTI),
        show(v["axial_force"], "N", d, resolution=1),
    )
    scene = Scene(
        "Knob, screw and clamp force",
        f"A torque of {torque} on a knob of {show(D, 'mm', d)} clamps with {force}, between {least} and {most} as "
        "friction has it.",
        caption="From the side",
    )
    wide = max(D, v["washer_size"])
    high, thick = 0.4 * wide, 0.06 * wide
    scene.rectangle((-D / 2, 0), (D / 2, high), fill="light")
    for side in (-1, 1):
        scene.rectangle((side * hole / 2, -thick), (side * v["washer_size"] / 2, 0), fill="medium")
    low = _stud(scene, v, high, thick)
    scene.line((-0.65 * wide, -thick), (0.65 * wide, -thick))
    scene.line((0, low), (0, 1.2 * high), Layer.CENTER)
    scene.dim((-D / 2, high), (D / 2, high), 21, f"D = {show(D, 'mm', d)}", along="horizontal")
    scene.moment((0, high), radius=6)
    scene.text((0, high), f"T = {torque}", "above", gap=9)
    ring = v["rub_diameter"] / 2
    for x in (-ring, ring):
        scene.line((x, -1.5 * thick), (x, 0.5 * thick), Layer.CENTER)
    scene.leader((ring, -thick), (16, -9), f"d_{{m}} = {show(2 * ring, 'mm', d, resolution=0.1)}")
    scene.arrow((0, low), -pi / 2, f"F = {force}", grip="tail")
    _slope(
        scene.view("A turn of the thread, laid flat", magnify=ratio(0.8 * wide / (pi * v["pitch_diameter"]))),
        v,
        d,
    )
    _range(scene.view("Clamp force, from rough to slippery", below=True), v, d, wide)
    scene.explain(Layer.CONSTRUCTION, "thread, not to its true profile")
    return scene


def _stud(scene: Scene, v: Mapping[str, float], high: float, thick: float) -> float:
    """Draw the stud, hidden inside the knob; return its lower end."""
    half, p = v["diameter"] / 2, v["pitch"]
    low = -thick - (TURNS + 2) * p
    scene.rectangle((-half, low), (half, -thick), fill="medium")
    for x in (-half, half):
        scene.line((x, -thick), (x, 0.75 * high), Layer.HIDDEN)
    scene.line((-half, 0.75 * high), (half, 0.75 * high), Layer.HIDDEN)
    for turn in range(TURNS + 1):
        y = low + (turn + 0.5) * p
        scene.line((-half, y), (half, y + p / 2), Layer.CONSTRUCTION)
    return low


def _slope(view: View, v: Mapping[str, float], d: Display) -> None:
    turn, p = pi * v["pitch_diameter"], v["pitch"]
    view.polyline(((0, 0), (turn, 0), (turn, p)), closed=True, fill="light")
    view.dim((0, 0), (turn, 0), -10, f"π d_{{2}} = {show(turn, 'mm', d, resolution=0.01)}")
    view.dim((turn, 0), (turn, p), 8, f"p = {show(p, 'mm', d, resolution=0.01)}", along="vertical")
    degree = unit("deg").factor
    lead, rho = (show(v[name], "deg", d, resolution=0.01 * degree) for name in ("lead", "friction_angle"))
    view.text((turn / 2, p), f"slope λ = {lead}, friction angle ϱ = {rho}", "above", gap=7)


def _range(view: View, v: Mapping[str, float], d: Display, wide: float) -> None:
    row = 0.12 * wide
    for i, (symbol, name, word) in enumerate(FORCES):
        low = -i * row
        length = wide * v[name] / v["axial_high"]
        view.rectangle((0, low), (length, low + 0.65 * row), fill="strong" if name == "axial_force" else "medium")
        words = f"{symbol} = {show(v[name], 'N', d, resolution=1)}, {word}"
        view.text((wide, low + 0.32 * row), words, "right", gap=3)
