"""The picture of the whole station: every part that has a place and a shape, by a number, and the machine's room."""

from __future__ import annotations

from functools import partial
from html import escape
from typing import TYPE_CHECKING

import numpy as np

from kit.core.errors import KitError
from kit.core.lists import Shape
from kit.core.place import Frame
from kit.drawing.space import Camera
from kit.sheet.station_pages import titled
from kit.station.lists import NO_PLACE, StationLists

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    from kit.drawing.space import Solid, View

CAMERA = Camera(-38, 24, "front left corner, above")
CANDIDATES = 60  # triangles of a part, the largest first, among which one that nothing hides is sought
NEAR = 0.5  # mm, by which what hides a point is nearer
_WIDTH, _HEIGHT = 620, 560  # CSS pixels, of the still its width alone


def station_view(found: StationLists) -> tuple[View | None, dict[str, int]]:
    """Return what stands in the station as a view in space, its parts marked by numbers; None where nothing does."""
    from kit.drawing.space import Mark, View

    solids: list[Solid] = []
    parts: list[list[Solid]] = []
    numbers: dict[str, int] = {}
    for id, brought in found.parts.items():
        frame = found.standing.frames.get(id)
        shapes = [body.shape for body in brought.bodies if body.shape is not None]
        if frame is None or not shapes:
            continue
        stood = [_stood(shape, frame) for shape in shapes]
        solids += [*stood, *(_stood(shape, frame) for shape in brought.room)]
        numbers[id] = len(numbers) + 1
        parts.append(stood)
    if not solids:
        return None, {}
    marks = [Mark(str(number), spot) for number, spot in enumerate(_spots(parts), 1)]
    return View(solids, (), marks, "The whole station"), numbers


def _stood(shape: Shape, frame: Frame) -> Solid:
    from kit.drawing.space import Solid

    points = np.asarray(shape.points) @ np.array(frame.axes) + np.array(frame.at)
    return Solid(shape.name, points, shape.faces, shape.fill, shape.opacity)


def _spots(parts: Sequence[Sequence[Solid]]) -> list[NDArray[np.float64]]:
    """Return where the number of each part points to: the middle of its largest triangle that nothing hides.

    Seen by the cover's camera; of a part that is hidden everywhere the largest one.
    """
    corners = [np.concatenate([np.asarray(s.vertices)[np.asarray(s.faces)] for s in solids]) for solids in parts]
    screens = [CAMERA.project(each) for each in corners]
    dense = [np.concatenate([np.full(len(np.asarray(s.faces)), s.opacity == 1.0) for s in solids]) for solids in parts]
    hiding = np.concatenate([screen[full] for screen, full in zip(screens, dense, strict=True)])
    low, high = hiding[..., :2].min(axis=1), hiding[..., :2].max(axis=1)
    found = []
    for triangles, screen in zip(corners, screens, strict=True):
        order = np.argsort(-_area(screen), kind="stable")
        order = order[np.unique(np.linspace(0, len(order) - 1, CANDIDATES).round().astype(int))]
        for number in order:
            point = screen[number].mean(axis=0)
            near = ((low <= point[:2]) & (point[:2] <= high)).all(axis=1)
            if not _hidden(point, hiding[near]):
                break
        else:
            number = order[0]
        found.append(triangles[number].mean(axis=0))
    return found


def _area(triangles: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the areas (m,), twice, of triangles (m, 3, 3) as they are seen."""
    a, b, c = np.moveaxis(triangles[..., :2], 1, 0)
    return np.abs(_cross(b - a, c - a))


def _hidden(point: NDArray[np.float64], triangles: NDArray[np.float64]) -> bool:
    """Whether a point (3,) lies behind one of the triangles (m, 3, 3), both as they are seen."""
    edges = np.roll(triangles, -1, axis=1) - triangles
    turns = _cross(edges[..., :2], point[:2] - triangles[..., :2])  # (m, 3)
    over = triangles[(turns > 0.0).all(axis=1) | (turns < 0.0).all(axis=1)]
    normals = np.cross(over[:, 1] - over[:, 0], over[:, 2] - over[:, 0])
    flat = over[:, 0, 2] - ((point[:2] - over[:, 0, :2]) * normals[:, :2]).sum(axis=1) / normals[:, 2]
    return bool((flat > point[2] + NEAR).any())


def _cross(one: NDArray[np.float64], other: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.asarray(one[..., 0] * other[..., 1] - one[..., 1] * other[..., 0])


def cover(found: StationLists, sheets: Mapping[str, str] | None = None, *, still: bool = True) -> str:
    """Return the picture as HTML with what its numbers mean; nothing where nothing has a place and a shape.

    `sheets` are addresses of the parts' sheets. Unless it is to be `still`, a reader can turn it.
    """
    from kit.drawing.space import view_frame, view_svg

    try:
        view, numbers = station_view(found)
        if view is None:
            return ""
        if still:
            body = view_svg(view, CAMERA, _WIDTH, ids="cover")
        else:
            body = view_frame(view, height_px=_HEIGHT, title="The whole station")
    except KitError as error:  # a shape that cannot be drawn
        return f"<p>{escape(str(error))}</p>"
    title = partial(titled, found.job, sheets or {})
    key = "; ".join(f"<b>{number}</b> {title(id)}" for id, number in numbers.items())
    lost = [
        id
        for id, each in found.parts.items()
        if any(body.shape for body in each.bodies) and found.whole.missing.get(id) == NO_PLACE
    ]
    words = f" Not in it, as nothing says where they stand: {'; '.join(map(title, lost))}." if lost else ""
    return (
        f'<figure class="fw-figure fw-cover">{body}<figcaption>The whole station: {key}.{words}</figcaption></figure>'
    )
