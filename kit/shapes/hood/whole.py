"""The hood as one solid: its shell with all openings, and the frame of rails and posts as one solid."""

from collections.abc import Sequence
from math import sin
from typing import TYPE_CHECKING

import numpy as np
import shapely

from .boards import Board, room
from .convex import Array, Plane
from .form import FLOOR, Form
from .openings import outlines, prism
from .rails import window

if TYPE_CHECKING:
    import trimesh

BELOW = (Plane.of("bench", (0.0, 0.0, -1.0), 10.0),)  # the room inside is cut out through the bench


def assembled(form: Form, boards: Sequence[Board]) -> "trimesh.Trimesh":
    """Return the boards as one closed solid, glued at their miters."""
    cut = outlines(form)
    prisms = [prism(board, ring) for board in boards for ring in cut.get(board.name, {}).values()]
    return _less(form, prisms)


def frame(form: Form, boards: Sequence[Board], width: float) -> "trimesh.Trimesh":
    """Return rails and posts `width` [mm] wide as one closed solid; the front is open below its brow's rail."""
    cut = outlines(form).get("front", {})
    prisms = []
    for board in boards:
        is_front = board.name == "front"
        left_open = shapely.Polygon(window(board, width, ("bench",) if is_front else ()))
        if is_front and form.brow is not None:
            # Down through the bench, less the brow's rail.
            left, low, right, _ = left_open.bounds
            left_open = left_open.union(shapely.box(left, low - board.face.thickness, right, low + 1e-3))
            spring, crown = (
                form.brow.height / sin(board.face.slope),
                max(ring[:, 1].max() for ring in cut.values()),
            )
            band = shapely.box(-1e6, spring, 1e6, float(crown) + width)
            left_open = left_open.difference(
                band.difference(shapely.union_all([shapely.Polygon(ring) for ring in cut.values()]))
            )
        prisms += [prism(board, _ring(part)) for part in shapely.get_parts(left_open) if part.area > 0.0]
    return _less(form, prisms)


def _ring(part: shapely.Geometry) -> Array:
    return np.asarray(shapely.get_coordinates(part.exterior)[:-1])


def _less(form: Form, prisms: Sequence["trimesh.Trimesh"]) -> "trimesh.Trimesh":
    """Return the shell less what is cut out of it."""
    import trimesh

    faces = form.faces()
    whole, inside = (
        trimesh.Trimesh(*solid.mesh, process=False)
        for solid in (room(faces, FLOOR), room(faces, BELOW, inside=True))
    )
    solid: trimesh.Trimesh = trimesh.boolean.difference(
        [whole, inside, *prisms], engine="manifold", check_volume=False
    )
    return solid
