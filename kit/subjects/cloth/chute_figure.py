"""Drop chute: opening, hose and the creases between them, from above and from the front."""

from collections.abc import Mapping
from math import cos, pi, sin

from kit.core.quantity import Display, show
from kit.drawing.primitives import Point
from kit.drawing.scene import Layer, Scene, View

SIDES = ("right", "back", "left", "front")  # counterclockwise from x, seen from above
OUT = ((1, 0), (0, 1), (-1, 0), (0, -1))
STEPS = 48  # chords of the hose


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `cloth.chute` at the values `v`, mm and rad."""
    scene = Scene(
        "Drop chute from a rectangle to a hose",
        f"From above the opening, {show(v['opening_x'], 'mm', d)} by {show(v['opening_y'], 'mm', d)}, and below it "
        f"the hose, {show(v['hose'], 'mm', d)} wide, moved and tilted by {show(v['tilt'], 'deg', d)}. Two creases "
        "leave each straight side and meet at the hose. Beside it the view from the front.",
        caption="From above",
    )
    _plan(scene, v, d)
    _front(scene.view("From the front", below=v["opening_x"] > v["height"]), v, d)
    scene.explain(Layer.FOLD, "crease: edge of a flat triangle")
    scene.explain(Layer.HIDDEN, "hose below")
    scene.explain(Layer.SEAM, "seam on the middle of its side")
    return scene


def _rim(v: Mapping[str, float], angle: float) -> tuple[float, float, float]:
    """Return a point of the hose's rim."""
    x, y, alpha = cos(angle), sin(angle), v["tilt_toward"]
    low = x * cos(alpha) + y * sin(alpha)
    less = (1 - cos(v["tilt"])) * low
    r = v["rim"]
    return (
        v["offset_x"] + r * (x - less * cos(alpha)),
        v["offset_y"] + r * (y - less * sin(alpha)),
        -v["height"] - r * sin(v["tilt"]) * low,
    )


def _ends(v: Mapping[str, float], quarter: int) -> tuple[Point, Point]:
    """Return both ends of the straight part of a side, counterclockwise."""
    (x, y), swap = OUT[quarter], quarter % 2
    half = v["opening_y" if swap else "opening_x"] / 2
    straight = v["opening_x" if swap else "opening_y"] / 2 - v["corner_radius"]
    first, second = ((x * half - sign * y * straight, y * half + sign * x * straight) for sign in (-1, 1))
    return first, second


def _outline(v: Mapping[str, float]) -> list[Point]:
    points: list[Point] = []
    for quarter in range(4):
        first, second = _ends(v, quarter)
        (x, y), (x2, y2) = OUT[quarter], OUT[(quarter + 1) % 4]
        r = v["corner_radius"]
        middle = (second[0] - r * x, second[1] - r * y)
        turns = [k * pi / 24 for k in range(1, 12)] if r else []
        bend = [(middle[0] + r * (cos(t) * x + sin(t) * x2), middle[1] + r * (cos(t) * y + sin(t) * y2)) for t in turns]
        points += [first, second, *bend]
    return points


def _plan(view: View, v: Mapping[str, float], d: Display) -> None:
    bx, by = v["opening_x"] / 2, v["opening_y"] / 2
    view.polyline(_outline(v), closed=True, fill="light")
    hose = [_rim(v, 2 * pi * k / STEPS)[:2] for k in range(STEPS)]
    view.polyline(hose, Layer.HIDDEN, closed=True)
    for quarter, side in enumerate(SIDES):
        touch = _rim(v, v[f"touch_{side}"])[:2]
        for end in _ends(v, quarter):
            view.line(end, touch, Layer.FOLD)
        if round(v["seam"]) == quarter:
            x, y = OUT[quarter]
            view.line((x * bx, y * by), touch, Layer.SEAM)
    view.line((-1.06 * bx, 0), (1.06 * bx, 0), Layer.CENTER)
    view.line((0, -1.06 * by), (0, 1.06 * by), Layer.CENTER)
    view.dim((-bx, -by), (bx, -by), -10, f"b_{{x}} = {show(v['opening_x'], 'mm', d)}")
    view.dim((-bx, by), (-bx, -by), -10, f"b_{{y}} = {show(v['opening_y'], 'mm', d)}")
    middle = (v["offset_x"], v["offset_y"])
    if abs(middle[0]) > 0.02 * bx:
        view.dim((0.0, by), (middle[0], by), 8, f"o_{{x}} = {show(middle[0], 'mm', d)}", along="horizontal")
    if abs(middle[1]) > 0.02 * by:
        view.dim((bx, 0.0), (bx, middle[1]), -8, f"o_{{y}} = {show(middle[1], 'mm', d)}")


def _front(view: View, v: Mapping[str, float], d: Display) -> None:
    bx, h = v["opening_x"] / 2, v["height"]
    rim = [_rim(v, 2 * pi * k / STEPS) for k in range(STEPS)]
    left, right = min(rim), max(rim)
    view.polyline([(-bx, 0), (bx, 0), (right[0], right[2]), (left[0], left[2])], closed=True, fill="light")
    view.polyline([(x, z) for x, _, z in rim], closed=True)
    touch = _rim(v, v["touch_front"])
    for x, _ in _ends(v, 3):
        view.line((x, 0), (touch[0], touch[2]), Layer.FOLD)
    view.line((v["offset_x"], -h), (0.0, -h), Layer.CENTER)
    view.line((0, 0.05 * h), (0, -1.1 * h), Layer.CENTER)
    view.dim((-bx, 0), (-bx, -h), -8, f"h = {show(h, 'mm', d)}")
    view.text((right[0], right[2]), f"τ = {show(v['tilt'], 'deg', d)}", "right", gap=2)
    view.text((right[0], right[2]), f"d = {show(v['hose'], 'mm', d)}", "below right", gap=4)
