"""How near a moving part comes to each board of a hood, at sampled poses, quickly enough to answer a slider.

The boards face a convex room. Seen from a point in it, a board is no nearer than the plane of its inside, and just
as near where the foot of the perpendicular falls on wood. What of all poses comes nearest to a plane is a corner of
the convex hull of all that was swept, found once. Only where the foot falls into an opening or beside the board is
the board searched triangle by triangle, as it is where a part lies behind that plane: it may stand out through
another board's opening, or pass outside. Both ways are exact for the poses given and the surface as triangulated.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import ArrayLike

from kit.geometry.clearance import Body, Obstacle, sampled
from kit.geometry.motion import apply
from kit.geometry.solids.convex import Array, Index
from kit.subjects.hood.geometry.boards import INSIDE, Board
from kit.subjects.hood.geometry.depth import behind, depth
from kit.subjects.hood.geometry.openings import pierced, region
from kit.subjects.hood.geometry.plates import Plate, Plates

TOUCH = 1e-6  # [mm] what is nearer than that touches

Openings = Mapping[str, Mapping[str, Array]]
"""Outlines (n, 2) [mm] on a face's axes, by board and by name."""


@dataclass(frozen=True)
class Swept:
    """A part at sampled poses: the part, the poses (n, 4, 4), and the corners of the hull of all that was swept."""

    body: Body
    poses: Array
    corners: Array  # (k, 3) [mm]
    pose: Index  # (k,) the pose at which each corner is reached


@dataclass(frozen=True)
class Gap:
    """How far a board is from the part [mm]: where they cross, 0 or below by how deep the part stands in it."""

    board: str
    gap: float
    part: int  # which of the parts
    pose: int  # which of its poses
    here: Array  # (3,) [mm] the point of the part
    there: Array  # (3,) [mm] the point of the board


def swept(body: Body, poses: ArrayLike) -> Swept:
    """Return the part at `poses` (n, 4, 4) with the hull of all that it sweeps there."""
    from scipy.spatial import ConvexHull

    moves = np.asarray(poses, dtype=float)
    places = apply(moves, body.corners).reshape(-1, 3)
    hull = ConvexHull(places).vertices
    return Swept(body, moves, places[hull], hull // len(body.corners))


def gaps(parts: Sequence[Swept], boards: Sequence[Board], openings: Openings) -> list[Gap]:
    """Return the gap of each board in order, over all parts; `openings` are as `openings.outlines` gives them."""
    found: dict[str, Gap] = {}
    doubtful: list[list[tuple[Board, float]]] = [[] for _ in parts]
    for board in boards:
        wood = region(board, openings.get(board.name, {}), INSIDE)
        for number, part in enumerate(parts):
            nearest = int(np.argmax(part.corners @ board.face.plane.normal))
            gap, there = before(board, wood, part.corners[nearest])
            if there is not None:
                _keep(found, Gap(board.name, gap, number, int(part.pose[nearest]), part.corners[nearest], there))
            else:
                doubtful[number].append((board, gap))
    for number, part in enumerate(parts):
        asked = [board for board, least in doubtful[number] if board.name not in found or least < found[board.name].gap]
        if not asked:
            continue
        cuts = [openings.get(board.name, {}) for board in asked]
        hood = Obstacle.of([(board.name, *pierced(board, cut)) for board, cut in zip(asked, cuts, strict=True)])
        plates = Plates([Plate.of(board, cut) for board, cut in zip(asked, cuts, strict=True)], hood)
        for answer in sampled(part.body, hood, part.poses, by_board=True, field=plates):
            assert answer.pose is not None
            met = Gap(answer.board, answer.found, number, answer.pose, answer.here, answer.there)
            _keep(found, met if met.gap > TOUCH else _crossing(met, part, boards, openings))
    return [found[board.name] for board in boards]


def before(board: Board, wood: shapely.Geometry, point: Array) -> tuple[float, Array | None]:
    """Return how far a point lies before the plane of a board's inside [mm], and the nearest point of that.

    None instead of the point where it is not `wood`, or the plane is not before the point: the board may be farther.
    """
    flat = board.face.flat(point[None])[0]
    foot = np.array([*flat[:2], -board.face.thickness])
    gap = float(foot[2] - flat[2])
    met = gap > 0.0 and shapely.contains_xy(wood, foot[0], foot[1])
    return gap, board.face.raised(foot[None])[0] if met else None


def _crossing(gap: Gap, part: Swept, boards: Sequence[Board], openings: Openings) -> Gap:
    """Return the gap of a board that the part crosses, at the deeper of two poses: the one met, the farthest out."""
    number = next(number for number, board in enumerate(boards) if board.name == gap.board)
    deep = behind(part.corners, boards)
    own = np.where(np.argmax(deep, axis=1) == number, deep[:, number], -np.inf)
    poses = {gap.pose, int(part.pose[np.argmax(own)])}
    cut = openings.get(gap.board, {})
    deepest, at, here = 0.0, gap.pose, gap.here
    for pose in sorted(poses):
        found, point = depth(part.body, part.poses[pose], boards, number, cut)
        if found > deepest:
            deepest, at, here = found, pose, point
    return Gap(gap.board, -deepest, gap.part, at, here, gap.there if at == gap.pose else here)


def room_left(part: Swept, boards: Sequence[Board]) -> tuple[float, str]:
    """Return what the part is at least away from the inner sides, openings or not [mm], and the tightest board."""
    return min(
        (-float(board.face.flat(part.corners)[:, 2].max()) - board.face.thickness, board.name) for board in boards
    )


def _keep(found: dict[str, Gap], gap: Gap) -> None:
    if gap.board not in found or gap.gap < found[gap.board].gap:
        found[gap.board] = gap
