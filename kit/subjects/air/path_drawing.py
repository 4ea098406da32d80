"""A collector's curve and what a path asks for, over the flow, with the points where the collector runs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import count, takewhile

from kit.core.quantity import Display, show, unit
from kit.drawing.scene import Layer, Scene, ratio
from kit.drawing.scene import Point as Place

WIDE, TALL = 150.0, 90.0  # mm of the chart
TICKS = 6  # at most, on an axis


@dataclass(frozen=True)
class Curve:
    """What a path asks for: flows and pulls (n, 2), mm³/s and N/mm²; `loaded`: with a loaded filter."""

    points: Sequence[tuple[float, float]]
    loaded: bool


@dataclass(frozen=True)
class Point:
    """A point where the collector runs: the position of the gates, flow and pull; `loaded`: with a loaded filter."""

    position: str
    flow: float
    pull: float
    loaded: bool


def operating_scene(
    fan: Sequence[tuple[float, float]], curves: Sequence[Curve], points: Sequence[Point], d: Display
) -> Scene:
    """Return the chart; `fan` (n, 2) are the flows and pulls of the collector's curve, mm³/s and N/mm²."""
    most = 1.08 * max(fan[-1][0], *(point.flow for point in points))
    top = 1.12 * max(fan[0][1], *(point.pull for point in points))

    def at(flow: float, pull: float) -> Place:
        return WIDE * flow / most, TALL * pull / top

    told = ", ".join(
        f"{_flow(point.flow, d)} and {_pull(point.pull, d)} (gates: {point.position}, filter "
        f"{'loaded' if point.loaded else 'clean'})"
        for point in points
    )
    scene = Scene(
        "Where the collector runs",
        f"Suction over flow. The collector's curve falls, what the path asks for rises. They cross at {told}.",
        caption="Suction at the collector's inlet over the flow through it",
    )
    _axes(scene, most, top, at, d)
    scene.polyline([at(*each) for each in fan])
    for curve in curves:
        inside = [at(*each) for each in curve.points if each[1] <= top]
        scene.polyline(inside, Layer.DEFLECTED if curve.loaded else Layer.HIDDEN)
    for point in points:
        scene.circle(at(point.flow, point.pull), 1.0, fill="strong" if point.loaded else "light")
    for number, point in enumerate(point for point in points if point.loaded):
        scene.leader(at(point.flow, point.pull), (-16, 7 - 7 * number), point.position)
    scene.explain(Layer.OUTLINE, "the collector's curve, at this speed and in this air")
    scene.explain(Layer.DEFLECTED, "what the path asks for, filter loaded")
    scene.explain(Layer.HIDDEN, "what the path asks for, filter clean")
    return scene


def _axes(scene: Scene, most: float, top: float, at: Callable[[float, float], Place], d: Display) -> None:
    scene.line((0, 0), (WIDE, 0), Layer.DIMENSION)
    scene.line((0, 0), (0, TALL), Layer.DIMENSION)
    scene.text((WIDE, 0), "flow", "right")
    scene.text((0, TALL), "suction", "above")
    for flow in _ticks(most, "m^3/h", d):
        scene.line(at(flow, 0), (at(flow, 0)[0], -1.5), Layer.DIMENSION)
        scene.text((at(flow, 0)[0], -1.5), _flow(flow, d), "below")
    for pull in _ticks(top, "Pa", d):
        scene.line(at(0, pull), (-1.5, at(0, pull)[1]), Layer.DIMENSION)
        scene.text((-1.5, at(0, pull)[1]), _pull(pull, d), "left")


def _flow(value: float, d: Display) -> str:
    return show(value, "m^3/h", d, resolution=unit("m^3/h").factor)


def _pull(value: float, d: Display) -> str:
    return show(value, "Pa", d, resolution=unit("Pa").factor)


def _ticks(most: float, named: str, d: Display) -> list[float]:
    """Return the places of round numbers of the reader's unit up to `most`, base units, 0 left out."""
    factor = d.unit_for(unit(named)).factor
    step = factor / ratio(factor * TICKS / most)
    return [number * step for number in takewhile(lambda number: number * step <= most, count(1))]
