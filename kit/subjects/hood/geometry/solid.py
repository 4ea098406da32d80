"""The hood as one solid: its shell with all openings, and the frame of rails and posts as one solid."""

from collections.abc import Sequence
from itertools import combinations
from math import sin

import numpy as np
import shapely

from kit.geometry.solids.closed import Mesh, difference, intersection, union, volume
from kit.geometry.solids.convex import Array, Plane
from kit.subjects.hood.geometry.boards import Board, room
from kit.subjects.hood.geometry.form import FLOOR, HoodDimensions
from kit.subjects.hood.geometry.openings import outlines, prism
from kit.subjects.hood.geometry.rails import window

BELOW = (Plane.of("bench", (0.0, 0.0, -1.0), 10.0),)  # the room inside is cut out through the bench


def assembled(form: HoodDimensions, boards: Sequence[Board]) -> Mesh:
    """Return the boards as one closed solid, glued at their miters."""
    cut = outlines(form)
    prisms = [prism(board, ring) for board in boards for ring in cut.get(board.name, {}).values()]
    return _less(form, prisms)


def joined(boards: Sequence[Board], shell: float) -> tuple[float, float]:
    """Return by what the union of the boards, before openings, misses the volume of the shell, and what any two share.

    Both as shares of `shell` [mm³], by booleans of solids, which know nothing of how the boards were made.
    """
    solids = [Mesh(*board.solid.mesh) for board in boards]
    shared = [volume(intersection(*pair)) for pair in combinations(solids, 2)]
    return abs(volume(union(solids)) / shell - 1.0), max(map(abs, shared), default=0.0) / shell


def frame(form: HoodDimensions, boards: Sequence[Board], width: float) -> Mesh:
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


def _less(form: HoodDimensions, prisms: Sequence[Mesh]) -> Mesh:
    """Return the shell less what is cut out of it."""
    faces = form.faces()
    whole, inside = (Mesh(*solid.mesh) for solid in (room(faces, FLOOR), room(faces, BELOW, inside=True)))
    return difference(whole, [inside, *prisms])
