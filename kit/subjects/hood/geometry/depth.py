"""How far a part that crosses a board stands in it: against the board as it is, with its openings."""

from collections.abc import Mapping, Sequence

import numpy as np
import shapely

from kit.geometry.clearance import Body
from kit.geometry.clearance.body import BRANCH
from kit.geometry.motion import apply
from kit.geometry.solids.convex import Array
from kit.subjects.hood.geometry.boards import INSIDE, Board
from kit.subjects.hood.geometry.openings import region

UP = 2  # the level of balls that are looked at first: of BRANCH² triangles each
SLACK = 1e-6  # [mm] by which a ball is taken larger, for the rounding of its middle


def behind(points: Array, boards: Sequence[Board]) -> Array:
    """Return how far `points` (n, 3) lie behind each board's inside plane (n, boards) [mm], below 0 before it."""
    normals = np.array([board.face.plane.normal for board in boards])
    offsets = np.array([board.face.plane.offset - board.face.thickness for board in boards])
    return np.asarray(points @ normals.T - offsets)


def depth(
    body: Body, pose: Array, boards: Sequence[Board], number: int, openings: Mapping[str, Array]
) -> tuple[float, Array]:
    """Return how deep a part at a pose (4, 4) stands in the board `number` [mm], and its deepest point (3,).

    The least way back out of it: straight back into the room, from behind the board's inside, or aside into an
    opening, for what of the part lies in the board's thickness. Points behind several boards belong to the one whose
    inside they are farthest behind. 0 where the part only touches the board, between its corners.
    """
    points = apply(pose, _reaching(body, pose, boards, number).reshape(-1, 3))
    deep = behind(points, boards)
    own = np.where(np.argmax(deep, axis=1) == number, deep[:, number], 0.0)
    back = int(np.argmax(own))
    if not openings or own[back] <= 0.0:
        return float(own[back]), points[back]
    aside, point = _aside(points.reshape(-1, 3, 3), deep[:, number].reshape(-1, 3), boards[number], openings)
    return (float(own[back]), points[back]) if own[back] <= aside else (aside, point)


def _reaching(body: Body, pose: Array, boards: Sequence[Board], number: int) -> Array:
    """Return the triangles (n, 3, 3), at least one, that may hold the deepest point or lie in the board's thickness.

    Of a scan with a million of them most lie in balls that are far from the board, or less deep than one known point.
    """
    up = min(UP, len(body.levels) - 1)
    level, size = body.levels[up], BRANCH**up
    middle, spot = (behind(apply(pose, points), boards) for points in (level.center, level.spot))
    known = spot[np.argmax(spot, axis=1) == number, number].max(initial=0.0)
    radius, own = level.radius + SLACK, middle[:, number]
    deepest = (own + radius >= known) & (own + radius >= middle.max(axis=1) - radius)
    within = (own + radius >= 0.0) & (own - radius <= boards[number].face.thickness)
    blocks = np.flatnonzero(deepest | within)
    rows = (blocks[:, None] * size + np.arange(size)).ravel()
    return body.triangles[rows[rows < len(body.triangles)]] if len(rows) else body.triangles[:1]


def _aside(triangles: Array, deep: Array, board: Board, openings: Mapping[str, Array]) -> tuple[float, Array]:
    """Return how far what lies in the board's thickness is from an opening at most [mm], and where (3,)."""
    found = [triangles[(deep >= 0.0) & (deep <= board.face.thickness)]]
    for level in (0.0, board.face.thickness):
        for a, b in ((0, 1), (1, 2), (2, 0)):
            cross = (deep[:, a] - level) * (deep[:, b] - level) < 0.0
            share = ((level - deep[cross, a]) / (deep[cross, b] - deep[cross, a]))[:, None]
            found.append(triangles[cross, a] + share * (triangles[cross, b] - triangles[cross, a]))
    points = np.concatenate(found)
    flat = board.face.flat(points)[:, :2]
    wood = region(board, openings).union(region(board, openings, INSIDE))
    shapely.prepare(wood)
    within = shapely.contains_xy(wood, flat)
    if not within.any():
        return 0.0, triangles[0, 0]
    free = shapely.union_all([shapely.Polygon(ring) for ring in openings.values()])
    far = shapely.distance(free, shapely.points(flat[within]))
    at = int(np.argmax(far))
    return float(far[at]), points[within][at]
