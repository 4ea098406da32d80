"""What a job tells of a skin's frame: edge curves, panels, how outer edges are finished, and what was measured."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

import numpy as np

from kit.core.build import BuildInput
from kit.core.errors import KitError, near_misses
from kit.geometry.development.arrays import Floats
from kit.geometry.development.curves import Curve
from kit.geometry.development.primitives import arc, polyline, sampled
from kit.subjects.cloth.geometry.covering import Asked
from kit.subjects.cloth.geometry.pattern import CornerKind
from kit.subjects.hood.geometry.edges import edge_curves, wall_panels
from kit.subjects.hood.geometry.form import Form
from kit.subjects.told import listed, quantity, whole

KEYS = ("edges", "panels", "finish", "corners", "cutouts")
CORNERS: tuple[CornerKind, ...] = ("extended", "mitered", "notched")
CURVES = ("line", "arc", "spline")
FINISHES = ("staple", "hem", "seam", "raw")

MOST_PARTS = 12

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
    """The edge curves of a frame by name and the panels over it; two frames are the same if their keys are.

    parting: of ruled panels by name, into how many parts, or at what places along their first edge, mm.
    kept_clear: of panels by name, the stretches of their first edge at which no seam is wanted, mm.
    """

    key: str
    curves: Mapping[str, Curve] = field(compare=False)
    panels: tuple[Asked, ...] = field(compare=False)
    parting: Mapping[str, int | tuple[float, ...]] = field(compare=False)
    kept_clear: Mapping[str, tuple[tuple[float, float], ...]] = field(compare=False)


@dataclass(frozen=True)
class Measured:
    """A distance measured on a sewn piece, between two of its corners by their letters, mm."""

    piece: str
    pair: tuple[str, str]
    length: float


def frame_of(inputs: BuildInput) -> tuple[Frame, Mapping[str, str]]:
    """Return the frame of a skin and the finish told for each of its outer edges.

    Raises:
        KitError: a frame that has no form, an edge or a panel that cannot be read.
    """
    shape = inputs.shape
    if not {"edges", "panels", "finish", "takes"} & {*shape}:
        shape = {**shape, **USUAL}
    curves: dict[str, Curve] = {}
    panels: list[Asked] = []
    taken = inputs.takes.get("frame")
    if taken is not None:
        form = taken.data if isinstance(taken.data, Form) else getattr(taken.data, "form", None)
        if not isinstance(form, Form):
            raise KitError("the skin takes its frame from a part that is no hood; name one with the model 'hood.shape'")
        of_form, walls = _of_form(form)
        curves, panels = dict(of_form), list(walls)
    for number, told in enumerate(listed(shape, "edges"), 1):
        curve = _curve(told, number)
        if curve.name in curves and taken is None:
            raise KitError(f"two edges of the frame are named {curve.name!r}; give each its own name")
        curves[curve.name] = curve
    parting: dict[str, int | tuple[float, ...]] = {}
    kept_clear: dict[str, tuple[tuple[float, float], ...]] = {}
    if "panels" in shape:
        panels = []
        for number, told in enumerate(listed(shape, "panels"), 1):
            panel, parts = _panel(told, number)
            panels.append(panel)
            if parts is not None:
                parting[panel.name] = parts
            kept_clear[panel.name] = _kept_clear(told, panel.name)
    finish = shape.get("finish", {})
    if not isinstance(finish, Mapping):
        raise KitError(f'the shape\'s finish is {finish!r}; write a table such as {{ sill = "hem" }}')
    for edge, way in finish.items():
        if way not in FINISHES:
            hint = near_misses(str(way), list(FINISHES)) or f"; choose from {', '.join(FINISHES)}"
            raise KitError(f"the edge {edge} is finished by {way!r}{hint}")
    key = repr((shape.get("edges"), shape.get("panels"), taken.inputs if taken else ""))
    return Frame(key, curves, tuple(panels), parting, kept_clear), {str(edge): str(way) for edge, way in finish.items()}


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


def _panel(told: Any, number: int) -> tuple[Asked, int | tuple[float, ...] | None]:
    """Return a panel, and how it is parted: { name = …, edges = […], parts = 2 }, or seams = ["180 mm"]."""
    edges = told.get("edges") if isinstance(told, Mapping) else None
    if not isinstance(told, Mapping) or not isinstance(edges, list) or "name" not in told:
        raise KitError(
            f"panel {number} of the skin is {told!r}; write its name and two edges, or four: below, above, left, right"
        )
    panel = Asked(str(told["name"]), tuple(str(edge) for edge in edges))
    more = {*told} - {"name", "edges"}
    if more not in (set(), {"parts"}, {"seams"}, {"parts", "keep_clear"}) or (more and len(edges) != 2):
        raise KitError(
            f"the panel {panel.name} is told {', '.join(sorted(more))}; a panel with two edges may be told parts, "
            "their number, with keep_clear, where chips strike or air is drawn, or seams, their places along its "
            "first edge"
        )
    if "seams" in told:
        where = f"seams of the panel {panel.name}"
        return panel, tuple(quantity(each, where).base for each in listed(told, "seams"))
    if "parts" in told:
        parts = whole(told, "parts", 1)
        if not 1 <= parts <= MOST_PARTS:
            raise KitError(f"the panel {panel.name} is parted into {parts}; 1 to {MOST_PARTS} parts are possible")
        return panel, parts if parts > 1 else None
    return panel, None


def _kept_clear(told: Mapping[str, Any], name: str) -> tuple[tuple[float, float], ...]:
    """Return stretches of a panel's first edge told by keep_clear = [["100 mm", "250 mm"], …]."""
    stretches = []
    for each in listed(told, "keep_clear"):
        where = f"keep_clear of the panel {name}"
        if not isinstance(each, list) or len(each) != 2:
            raise KitError(f'{where} has {each!r}; write where it begins and ends, ["100 mm", "250 mm"]')
        low, high = (quantity(place, where).base for place in each)
        stretches.append((min(low, high), max(low, high)))
    return tuple(stretches)


def corners_of(shape: Mapping[str, Any]) -> CornerKind:
    """Return how allowances end at corners: corners = "mitered". Raises KitError for a way that is not known."""
    told = shape.get("corners", "extended")
    for kind in CORNERS:
        if told == kind:
            return kind
    raise KitError(
        f"the corners are told {told!r}{near_misses(str(told), list(CORNERS)) or f'; choose from {CORNERS}'}"
    )


def cutouts_of(shape: Mapping[str, Any]) -> dict[str, list[Floats]]:
    """Return cut-outs told by cutouts = [{ piece = "front", center = ["120 mm", "80 mm"], diameter = "60 mm" }, …].

    Or with size = ["80 mm", "50 mm"], a rectangle. Centers count from the piece's corner A, x toward corner B.
    Raises:
        KitError: one that cannot be read.
    """
    found: dict[str, list[Floats]] = {}
    for number, told in enumerate(listed(shape, "cutouts"), 1):
        keys = {*told} if isinstance(told, Mapping) else set()
        if keys not in ({"piece", "center", "diameter"}, {"piece", "center", "size"}) or len(told["center"]) != 2:
            raise KitError(
                f"cut-out {number} is {told!r}; write piece, center (x and y from corner A), and diameter or size"
            )
        where = f"cut-out {number}"
        x, y = (quantity(each, where).base for each in told["center"])
        if "diameter" in told:
            turn = np.linspace(0, 2 * np.pi, 73)[:-1]
            radius = quantity(told["diameter"], where).base / 2
            outline = np.column_stack([x + radius * np.cos(turn), y + radius * np.sin(turn)])
        else:
            across, up = (quantity(each, where).base / 2 for each in listed(told, "size"))
            outline = np.array([[x - across, y - up], [x + across, y - up], [x + across, y + up], [x - across, y + up]])
        found.setdefault(str(told["piece"]), []).append(outline)
    return found


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
