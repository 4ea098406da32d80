"""One bend: the folded strip, the bend enlarged, and the flat piece with its bend line."""

from collections.abc import Mapping
from math import cos, degrees, hypot, sin

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View, ratio
from kit.subjects.fold.folded_drawing import fold_up


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `fold.bend` at the values `v`, mm and rad."""
    scene = Scene(
        "One bend in sheet metal",
        f"A strip of sheet bent by {degrees(v['bend_angle']):.1f}°: legs {show(v['leg_a'], 'mm', d)} and "
        f"{show(v['leg_b'], 'mm', d)} over the outside; the flat piece is {show(v['flat_length'], 'mm', d)} long, "
        f"the middle of the bend {show(v['bend_line'], 'mm', d)} from its left edge.",
        caption="Folded",
    )
    _folded(scene, v, d)
    size = max(v["leg_a"], v["leg_b"], 4 * (v["inside_radius"] + v["thickness"]))
    _bend(scene.view("Bend", magnify=ratio(0.4 * size / (v["inside_radius"] + v["thickness"]))), v, d)
    _flat(scene.view("Flat piece", below=True), v, d)
    scene.explain(Layer.CENTER, "neutral fiber: keeps its length")
    return scene


def _folded(view: View, v: Mapping[str, float], d: Display) -> None:
    a, b, turn, T = v["leg_a"], v["leg_b"], v["bend_angle"], v["thickness"]
    straights = (max(a - v["setback"], 0.0), max(b - v["setback"], 0.0))
    sheet = fold_up(straights, [(turn, v["inside_radius"])], T, v["neutral_factor"])
    view.polyline(sheet.outline, closed=True, fill="light")
    end, heading = sheet.ends[-1]
    corner = (end[0] - b * cos(heading), end[1] - b * sin(heading))
    view.dim((0, 0), (a, 0), -9, f"a = {show(a, 'mm', d)}", overflow="p")
    view.dim(corner, end, -9, f"b = {show(b, 'mm', d)}")


def _bend(view: View, v: Mapping[str, float], d: Display) -> None:
    R, T, S, turn = v["inside_radius"], v["thickness"], v["setback"], v["bend_angle"]
    leg = S + 0.6 * (R + T)
    sheet = fold_up((leg, leg), [(turn, R)], T, v["neutral_factor"])
    view.polyline(sheet.outline, closed=True, fill="light")
    view.polyline(sheet.neutral, Layer.CENTER)
    center = sheet.centers[0]
    start, end = sheet.ends[1][0], sheet.ends[2][0]
    view.line(center, start, Layer.CONSTRUCTION)
    view.line(center, end, Layer.CONSTRUCTION)
    out = (sin(turn / 2), -cos(turn / 2))
    outside = (center[0] + (R + T) * out[0], center[1] + (R + T) * out[1])
    inside = (center[0] + R * out[0], center[1] + R * out[1])
    view.leader(outside, (10, -2), f"turned by α = {degrees(turn):.1f}°")
    view.leader(inside, (-18 * out[0] - 1, -18 * out[1]), f"R = {show(R, 'mm', d)}")
    view.dim((0, 0), (0, T), -6, f"T = {show(T, 'mm', d)}", along="vertical")
    view.dim(start, (start[0] + S, start[1]), -9, f"S = {show(S, 'mm', d)}", along="horizontal")


def _flat(view: View, v: Mapping[str, float], d: Display) -> None:
    L, x, half = v["flat_length"], v["bend_line"], v["allowance"] / 2
    width = 0.12 * max(L, hypot(v["leg_a"], v["leg_b"]), 1.0)
    view.rectangle((0, 0), (L, width), fill="light")
    view.line((x, 0), (x, width), Layer.FOLD)
    for edge in (x - half, x + half):
        view.line((edge, 0), (edge, width), Layer.CONSTRUCTION)
    view.dim((x - half, width), (x + half, width), 8, f"A = {show(2 * half, 'mm', d)}")
    view.dim((0, 0), (x, 0), -9, f"x_{{bend}} = {show(x, 'mm', d)}")
    view.dim((0, 0), (L, 0), -18, f"L = {show(L, 'mm', d)}")
