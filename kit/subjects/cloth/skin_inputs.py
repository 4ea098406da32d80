"""What a job states of a skin's frame: edge curves, panels, how outer edges are finished, and what was measured."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

import numpy as np

from kit.core.build import BuildInput
from kit.core.errors import KitError
from kit.core.model import Calculation
from kit.core.model.inputs import stated_inputs
from kit.geometry.development.arrays import Floats
from kit.geometry.development.curves import Curve
from kit.geometry.development.primitives import arc, polyline, sampled
from kit.subjects.cloth.geometry.covering import Asked
from kit.subjects.hood.geometry.edges import edge_curves, wall_panels
from kit.subjects.hood.geometry.form import HoodDimensions

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
"""A brow over the blade, made up: what is covered where a job states no edges and takes no frame."""


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


def frame_of(inputs: BuildInput) -> tuple[Frame, Mapping[str, str]]:
    """Return the frame of a skin and the finish stated for each of its outer edges.

    Raises:
        KitError: a frame that has no form, or a panel that is parted in two ways.
    """
    stated, raw = inputs.stated, inputs.raw
    taken = inputs.takes.get("frame")
    if taken is None and not {"edges", "panels", "finish"} & {*raw}:
        stated, raw = {**stated, **_usual(inputs.case.model)}, {**raw, **USUAL}
    curves: dict[str, Curve] = {}
    panels: list[Asked] = []
    if taken is not None:
        form = taken.data if isinstance(taken.data, HoodDimensions) else getattr(taken.data, "form", None)
        if not isinstance(form, HoodDimensions):
            raise KitError("the skin takes its frame from a part that is no hood; name one with the model 'hood.shape'")
        of_form, walls = _of_form(form)
        curves, panels = dict(of_form), list(walls)
    for row in stated["edges"]:
        if row["name"] in curves and taken is None:
            raise KitError(f"two edges of the frame are named {row['name']!r}; give each its own name")
        curves[row["name"]] = _curve(row)
    parting: dict[str, int | tuple[float, ...]] = {}
    kept_clear: dict[str, tuple[tuple[float, float], ...]] = {}
    if stated["panels"]:
        panels = []
        for row in stated["panels"]:
            panel, parts = _panel(row)
            panels.append(panel)
            if parts is not None:
                parting[panel.name] = parts
            stretches = ((low.base, high.base) for low, high in row["keep_clear"])
            kept_clear[panel.name] = tuple((min(ends), max(ends)) for ends in stretches)
    key = repr((raw.get("edges"), raw.get("panels"), taken.inputs if taken else ""))
    return Frame(key, curves, tuple(panels), parting, kept_clear), stated["finish"]


@lru_cache(maxsize=1)
def _usual(model: Calculation) -> dict[str, Any]:
    found = stated_inputs(model.inputs, USUAL)
    return {name: found[name] for name in USUAL}


@lru_cache(maxsize=8)
def _of_form(form: HoodDimensions) -> tuple[Mapping[str, Curve], tuple[Asked, ...]]:
    return edge_curves(form), tuple(Asked(name, (low, high)) for name, low, high in wall_panels(form))


def _curve(row: Mapping[str, Any]) -> Curve:
    """Return the edge curve of a row: a line, an arc through three points, or a spline."""
    name = row["name"]
    points = [tuple(each.base for each in point) for point in row["line"] or row["arc"] or row["spline"]]
    if row["line"]:
        return polyline(points, name=name)
    if row["spline"]:
        return sampled(points, name=name)
    begin, through, end = points
    return arc(begin, through, end, name)


def _panel(row: Mapping[str, Any]) -> tuple[Asked, int | tuple[float, ...] | None]:
    """Return a panel, and how it is parted: into so many parts, or at places along its first edge, mm."""
    panel = Asked(row["name"], row["edges"])
    more = [name for name in ("parts", "seams", "keep_clear") if row[name]]
    if more not in ([], ["parts"], ["seams"], ["parts", "keep_clear"]) or (more and len(row["edges"]) != 2):
        raise KitError(
            f"the panel {panel.name} states {', '.join(more)}; a panel with two edges may state parts, their number, "
            "with keep_clear, where chips strike or air is drawn, or seams, their places along its first edge"
        )
    if row["seams"]:
        return panel, tuple(place.base for place in row["seams"])
    parts = row["parts"] or 1
    return panel, parts if parts > 1 else None


def cutouts_of(rows: Sequence[Mapping[str, Any]]) -> dict[str, list[Floats]]:
    """Return the outlines (n, 2) [mm] of cut-outs by their pieces, from the corner A, x toward the corner B."""
    found: dict[str, list[Floats]] = {}
    for row in rows:
        x, y = (each.base for each in row["center"])
        if row["diameter"]:
            turn = np.linspace(0, 2 * np.pi, 73)[:-1]
            radius = row["diameter"].base / 2
            outline = np.column_stack([x + radius * np.cos(turn), y + radius * np.sin(turn)])
        else:
            across, up = (each.base / 2 for each in row["size"])
            outline = np.array([[x - across, y - up], [x + across, y - up], [x + across, y + up], [x - across, y + up]])
        found.setdefault(row["piece"], []).append(outline)
    return found
