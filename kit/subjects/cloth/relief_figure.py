"""Relief cuts: the curved edge with its hem and cuts, and one cut enlarged."""

from collections.abc import Mapping
from math import cos, pi, sin, tau

from kit.core.quantity import Display, show
from kit.drawing.primitives import Point
from kit.drawing.scene import Layer, Scene, View, ratio

MOST = 60  # cuts drawn


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `cloth.relief` at the values `v`, mm and rad."""
    n, concave = round(v["cuts"]), bool(v["edge"])
    kind = "slits" if concave else "notches"
    scene = Scene(
        "Relief cuts in a curved hem",
        f"A {'concave' if concave else 'convex'} edge of radius {show(v['radius'], 'mm', d)} that turns "
        f"{show(v['turn'], 'deg', d)}, with a hem {show(v['depth'], 'mm', d)} deep: {n} {kind}, "
        f"{show(v['cut_depth'], 'mm', d)} deep, that end {show(v['free_depth'], 'mm', d)} from the fold.",
        caption="The edge, hem flat",
    )
    _edge(scene, v, d)
    magnify = ratio(max(1.0, 0.35 * min(v["turn"], pi) * v["radius"] / v["depth"]))
    _one(scene.view("At one cut", magnify=magnify), v, d)
    scene.explain(Layer.FOLD, "fold line of the hem")
    return scene


def _at(v: Mapping[str, float], radius: float, angle: float) -> Point:
    """Return a point at an angle from the middle of the edge, which lies on top."""
    return radius * sin(angle), radius * cos(angle)


def _out(v: Mapping[str, float], distance: float) -> float:
    """Return the radius at a distance outside the fold, inward on a concave edge."""
    return v["radius"] + (-distance if v["edge"] else distance)


def _arc(v: Mapping[str, float], radius: float, half: float) -> list[Point]:
    steps = 96
    return [_at(v, radius, half * (2 * k / steps - 1)) for k in range(steps + 1)]


def _cut(view: View, v: Mapping[str, float], angle: float) -> None:
    root = _at(v, _out(v, v["free_depth"]), angle)
    half = v["mouth"] / 2 / max(_out(v, v["depth"]), 1e-9)
    mouth = [_at(v, _out(v, v["depth"]), angle + side) for side in (-half, half)]
    if v["edge"]:
        view.line(mouth[0], root)
    else:
        view.polyline([mouth[0], root, mouth[1]])


def _edge(view: View, v: Mapping[str, float], d: Display) -> None:
    half, n, R = v["turn"] / 2, round(v["cuts"]), v["radius"]
    rim, fold = _arc(v, _out(v, v["depth"]), half), _arc(v, R, half)
    view.polyline([*rim, *reversed(fold)], closed=True, fill="light")
    view.polyline(fold, Layer.FOLD)
    if v["depth"] < R:
        for k in range(min(n, MOST)):
            _cut(view, v, half * ((2 * k + 1) / n - 1))
    view.line((0, 0), fold[0], Layer.CENTER)
    view.line((0, 0), fold[-1], Layer.CENTER)
    if v["turn"] < 0.9 * tau:
        view.angle((0, 0), fold[-1], fold[0], 14, f"β = {show(v['turn'], 'deg', d)}")
    view.text((0, 0), f"R = {show(R, 'mm', d)}", "below", gap=3)


def _one(view: View, v: Mapping[str, float], d: Display) -> None:
    """Draw one share of the edge, or as much of it as shows an uncut hem."""
    R, b = v["radius"], v["depth"]
    half = min(max(v["turn_of_cut"] / 2, b / R), v["turn"] / 2, pi / 3)
    rim, fold = _arc(v, _out(v, b), half), _arc(v, R, half)
    view.polyline([*rim, *reversed(fold)], closed=True, fill="light")
    view.polyline(fold, Layer.FOLD)
    side, low = fold[-1], rim[-1]
    view.dim(side, low, 8 if v["edge"] else -8, f"b = {show(b, 'mm', d)}")
    if v["cuts"] and b < R:
        _cut(view, v, 0.0)
        root = _at(v, _out(v, v["free_depth"]), 0.0)
        view.text((0.0, (R + root[1]) / 2), f"y_{{0}} = {show(v['free_depth'], 'mm', d)}", "left", gap=2)
        if not v["edge"]:
            view.leader((v["mouth"] / 2, _out(v, b)), (6, 8), f"m = {show(v['mouth'], 'mm', d)}")
