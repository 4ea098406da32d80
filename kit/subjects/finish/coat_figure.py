"""A board's face with its coats, in section, and the time that passes."""

from collections.abc import Mapping

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View

WIDE, HIGH = 120.0, 50.0  # mm of the section in the picture: coats are not to scale


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `finish.coat` at the values `v`: the wood's face along y = 0."""
    coats = round(v["coats"])
    scene = Scene(
        "Coats on a board",
        f"{coats} coats take {show(v['volume'], 'L', d, resolution=0.01)} of finish and are ready "
        f"{show(v['ready'], 'h', d, resolution=1)} after the first one.",
        caption="Section through the face, coats not to scale",
    )
    wood = [(0.0, 0.0), (WIDE, 0.0), (WIDE, -0.5 * HIGH), (0.0, -0.5 * HIGH)]
    scene.polyline(wood, closed=True)
    scene.hatch([wood])
    each = 0.5 * HIGH / coats
    for number in range(coats):
        fill = "medium" if number == 0 else "light"
        scene.rectangle((0.0, number * each), (WIDE, (number + 1) * each), fill=fill)  # type: ignore[arg-type]
    scene.dim((WIDE, 0.0), (WIDE, coats * each), 9, f"f = {show(v['film'], 'µm', d, resolution=1)}", along="vertical")
    scene.leader((0.0, 0.5 * each), (-8, 5), f"first coat, {show(v['first'], '', d)} times as much", end="dot")
    scene.explain(Layer.CENTER, "ready")
    _days(scene.view("From the first coat on", below=True), v, d, coats)
    return scene


def _days(view: View, v: Mapping[str, float], d: Display, coats: int) -> None:
    scale = WIDE / v["ready"]
    view.line((0.0, 0.0), (WIDE, 0.0))
    for number in range(coats):
        at = number * v["between"] * scale
        view.line((at, -0.05 * HIGH), (at, 0.12 * HIGH))
        view.text((at, 0.12 * HIGH), str(number + 1), "above")
    view.line((WIDE, -0.05 * HIGH), (WIDE, 0.12 * HIGH), Layer.CENTER)
    view.text((WIDE, 0.12 * HIGH), "ready", "above")
    view.dim((0.0, 0.0), (WIDE, 0.0), -9, f"T = {show(v['ready'], 'h', d, resolution=1)}", along="horizontal")
