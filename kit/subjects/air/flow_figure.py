"""A hood before which dust comes free, its hose, and the flow that each of three tasks asks for."""

from collections.abc import Mapping
from math import sqrt

from kit.core.quantity import Display, show, unit
from kit.drawing.dimension_text import length_words
from kit.drawing.scene import Layer, Scene, View, ratio

TASKS = (
    ("capture_flow", "Q_{c}", "to catch the dust"),
    ("face_flow", "Q_{f}", "to keep it in"),
    ("transport_flow", "Q_{t}", "to carry it"),
)
NEAR, FAR = 0.35, 2.2  # of the opening's height: the dust is drawn no nearer and no farther


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `air.flow` at the values `v`: hood and dust from the side, and a bar for each task."""
    flow = _words(v["flow"], "m^3/h", d, 1)
    decides = max(TASKS, key=lambda task: v[task[0]])
    scene = Scene(
        "Air that a hood needs",
        f"Dust comes free {show(v['distance'], 'mm', d)} before the opening of a hood, behind it a hose "
        f"{show(v['diameter'], 'mm', d)} wide. {flow} are needed, {decides[2]}.",
        caption="From the side; the opening as a square of its area",
    )
    high = max(sqrt(v["opening"]), 1.3 * v["diameter"])
    _hood(scene, v, d, high)
    _bars(scene.view("Flow that each task asks for", magnify=ratio(2.0), below=True), v, d, high)
    scene.explain(Layer.FORCE, "air")
    return scene


def _words(value: float, named: str, d: Display, resolution: float) -> str:
    return show(value, named, d, resolution=resolution * unit(named).factor)


def _hood(scene: Scene, v: Mapping[str, float], d: Display, high: float) -> None:
    side, bore, axis = sqrt(v["opening"]), v["diameter"], high / 2
    low, top, deep, end = axis - side / 2, axis + side / 2, 0.7 * high, 2.0 * high
    scene.polyline([(0, low), (0, 0), (deep, 0), (deep, axis - bore / 2), (end, axis - bore / 2)])
    scene.polyline([(0, top), (0, high), (deep, high), (deep, axis + bore / 2), (end, axis + bore / 2)])
    scene.line((deep, axis), (end, axis), Layer.CENTER)
    if v["front"] > 0:
        scene.line((0, 0), (0, -0.3 * high))
        scene.line((0, high), (0, 1.3 * high))
    drawn = min(max(v["distance"], NEAR * high), FAR * high)
    spot = (-drawn, axis)
    scene.circle(spot, 0.03 * high, fill="strong")
    scene.leader(spot, (-6, 12), "dust")
    for share in (0.2, 0.8):
        scene.arrow((0.08 * high, low + share * side), 0.0, length=9, grip="middle")
    scene.arrow((-0.5 * drawn, axis), 0.0, length=9, grip="middle")
    scene.arrow((deep + 0.7 * (end - deep), axis), 0.0, length=9, grip="middle")
    scaled = "" if drawn == v["distance"] else ", not to scale"
    below = min(0.0, -0.3 * high if v["front"] > 0 else 0.0)
    scene.dim((-drawn, below), (0, below), -10, f"{length_words('x', v['distance'], d)}{scaled}", along="horizontal")
    scene.leader((0, top - 0.1 * side), (-9, 16), f"A = {_words(v['opening'], 'cm^2', d, 1)}", end="dot")
    scene.leader((deep + 0.3 * (end - deep), axis + bore / 2), (5, 9), length_words("⌀D", bore, d))
    scene.leader(
        (deep + 0.35 * (end - deep), axis - bore / 2), (6, -10), f"v = {_words(v['hose_speed'], 'm/s', d, 0.1)}"
    )


def _bars(view: View, v: Mapping[str, float], d: Display, high: float) -> None:
    wide, thick, apart = high, 0.09 * high, 0.21 * high
    most = max(v[name] for name, _, _ in TASKS)
    for row, (name, symbol, words) in enumerate(TASKS):
        y = -row * apart
        decides = v[name] == most
        view.rectangle((0, y), (wide * v[name] / most, y + thick), fill="strong" if decides else "light")
        view.text((0, y + thick), f"{words}: {symbol} = {_words(v[name], 'm^3/h', d, 1)}", "above right", gap=2.0)
    view.line((0, -2 * apart - 0.04 * high), (0, 0.12 * high), Layer.DIMENSION)
