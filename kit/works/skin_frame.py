"""What a job tells of a skin's frame: edge curves, panels, how outer edges are finished, and what was measured."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

from kit.errors import KitError, near_misses
from kit.shapes.development.covering import Asked
from kit.shapes.development.curves import Curve
from kit.shapes.development.forms import arc, polyline, sampled
from kit.shapes.hood.edges import edge_curves, wall_panels
from kit.shapes.hood.form import Form
from kit.works.told import listed, quantity
from kit.works.work import Order

KEYS = ("edges", "panels", "finish")
CURVES = ("line", "arc", "spline")
FINISHES = ("staple", "hem", "seam", "raw")

USUAL: dict[str, Any] = {
    "edges": [
        {"name": "sill", "arc": [[-260, -60, 0], [0, -110, 0], [260, -60, 0]]},
        {"name": "rail", "arc": [[-260, 0, 300], [0, -25, 318], [260, 0, 300]]},
        {"name": "ridge", "arc": [[-200, 340, 330], [0, 360, 345], [200, 340, 330]]},
        {"name": "left rib", "arc": [[-260, 0, 300], [-238, 170, 332], [-200, 340, 330]]},
        {"name": "right rib", "arc": [[260, 0, 300], [238, 170, 332], [200, 340, 330]]},
    ],
    "panels": [
        {"name": "front", "edges": ["sill", "rail"]},
        {"name": "crown", "edges": ["rail", "ridge", "left rib", "right rib"]},
    ],
    "finish": {"sill": "hem"},
}
"""A brow over the blade, made up: what is covered where a job tells no edges and takes no frame."""


@dataclass(frozen=True)
class Frame:
    """The edge curves of a frame by name and the panels over it; two frames are the same if their keys are."""

    key: str
    curves: Mapping[str, Curve] = field(compare=False)
    panels: tuple[Asked, ...] = field(compare=False)


@dataclass(frozen=True)
class Measured:
    """A distance measured on a sewn piece, between two of its corners by their letters, mm."""

    piece: str
    pair: tuple[str, str]
    length: float


def frame_of(order: Order) -> tuple[Frame, Mapping[str, str]]:
    """Return the frame of a skin and the finish told for each of its outer edges.

    Raises:
        KitError: a frame that has no form, an edge or a panel that cannot be read.
    """
    shape = order.shape
    if not {"edges", "panels", "finish", "takes"} & {*shape}:
        shape = {**shape, **USUAL}
    curves: dict[str, Curve] = {}
    panels: list[Asked] = []
    taken = order.takes.get("frame")
    if taken is not None:
        form = taken.data if isinstance(taken.data, Form) else getattr(taken.data, "form", None)
        if not isinstance(form, Form):
            raise KitError(
                "the skin takes its frame from a part that is no hood; name one with the model 'hood.shape'"
            )
        of_form, walls = _of_form(form)
        curves, panels = dict(of_form), list(walls)
    for number, told in enumerate(listed(shape, "edges"), 1):
        curve = _curve(told, number)
        if curve.name in curves and taken is None:
            raise KitError(f"two edges of the frame are named {curve.name!r}; give each its own name")
        curves[curve.name] = curve
    if "panels" in shape:
        panels = [_panel(told, number) for number, told in enumerate(listed(shape, "panels"), 1)]
    finish = shape.get("finish", {})
    if not isinstance(finish, Mapping):
        raise KitError(f'the shape\'s finish is {finish!r}; write a table such as {{ sill = "hem" }}')
    for edge, way in finish.items():
        if way not in FINISHES:
            hint = near_misses(str(way), list(FINISHES)) or f"; choose from {', '.join(FINISHES)}"
            raise KitError(f"the edge {edge} is finished by {way!r}{hint}")
    key = repr((shape.get("edges"), shape.get("panels"), taken.inputs if taken else ""))
    return Frame(key, curves, tuple(panels)), {str(edge): str(way) for edge, way in finish.items()}


@lru_cache(maxsize=8)
def _of_form(form: Form) -> tuple[Mapping[str, Curve], tuple[Asked, ...]]:
    return edge_curves(form), tuple(Asked(name, (low, high)) for name, low, high in wall_panels(form))


def _curve(told: Any, number: int) -> Curve:
    """Return the edge curve told by { name = …, arc = [[x, y, z], …] }, or line, or spline."""
    kinds = [kind for kind in CURVES if isinstance(told, Mapping) and kind in told]
    if not isinstance(told, Mapping) or "name" not in told or len(kinds) != 1 or len(told) != 2:
        raise KitError(
            f"edge {number} of the frame is {told!r}; write its name and its points as one of {', '.join(CURVES)}: "
            '{ name = "sill", line = [["0 mm", "0 mm", "0 mm"], ["500 mm", "0 mm", "0 mm"]] }'
        )
    name, (kind,) = str(told["name"]), kinds
    points = [_point(point, f"edge {name}, point {k}") for k, point in enumerate(listed(told, kind), 1)]
    if kind == "line":
        return polyline(points, name=name)
    if kind == "spline":
        return sampled(points, name=name)
    if len(points) != 3:
        raise KitError(f"the arc {name} has {len(points)} points; give its begin, a point on it, and its end")
    begin, through, end = points
    return arc(begin, through, end, name)


def _point(told: Any, where: str) -> tuple[float, float, float]:
    if not isinstance(told, Sequence) or isinstance(told, str) or len(told) != 3:
        raise KitError(f'{where} is {told!r}; write x, y and z such as ["0 mm", "120 mm", "300 mm"]')
    x, y, z = (quantity(each, where).base for each in told)
    return x, y, z


def _panel(told: Any, number: int) -> Asked:
    edges = told.get("edges") if isinstance(told, Mapping) else None
    if not isinstance(told, Mapping) or {*told} != {"name", "edges"} or not isinstance(edges, list):
        raise KitError(
            f"panel {number} of the skin is {told!r}; write its name and two edges, or four: below, above, left, right"
        )
    return Asked(str(told["name"]), tuple(str(edge) for edge in edges))


def measured_of(shape: Mapping[str, Any]) -> tuple[Measured, ...]:
    """Return the distances told by measured = [{ piece = "front", from = "A", to = "C", length = "598 mm" }, …].

    Raises:
        KitError: one that cannot be read.
    """
    found = []
    for number, told in enumerate(listed(shape, "measured"), 1):
        if not isinstance(told, Mapping) or {*told} != {"piece", "from", "to", "length"}:
            raise KitError(
                f"measure {number} is {told!r}; write piece, from and to (letters of the pattern's corners), and length"
            )
        length = quantity(told["length"], f"measure {number}").base
        found.append(Measured(str(told["piece"]), (str(told["from"]), str(told["to"])), length))
    return tuple(found)
