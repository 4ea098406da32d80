"""Rails and posts in place of boards, where cloth is the skin: sticks of rectangular section along the edges.

Each face becomes a picture frame of its board: as thick as the board, its long outer edge beveled as the board's,
its ends mitered in the face where two sticks of the frame meet. The frames of neighboring faces close as boards do.
"""

from dataclasses import dataclass

import numpy as np

from kit.errors import KitError

from .boards import INSIDE, OUTSIDE, Board
from .convex import Array, Plane, Solid


@dataclass(frozen=True)
class Rail:
    """A stick along the edge in which its face meets `along`: a convex solid, its length [mm] and section [mm]."""

    face: str
    along: str
    solid: Solid
    length: float
    width: float
    thickness: float
    miters: tuple[float, float]  # [rad] from a square cut, at its two ends, on the face


def rails(board: Board, width: float, without: tuple[str, ...] = ()) -> tuple[Rail, ...]:
    """Return the sticks `width` [mm] wide along all edges of a board but those `without` a stick.

    Raises:
        KitError: a width that is not above 0.
    """
    if not width > 0.0:
        raise KitError(f"Rails of {width:g} mm are asked for; their width must be above 0 mm.")
    lines = {edge.meets: _inward(board, edge.line) for edge in board.edges if edge.outside > 0.0}
    made = []
    for edge in board.edges:
        if edge.meets in without or edge.meets not in lines:
            continue
        mine = lines[edge.meets]
        part = board.solid.cut(Plane("room", -mine.normal, width - mine.offset))
        for other, line in lines.items():
            if other != edge.meets and other not in without:
                part = part.cut(Plane.of(other, line.normal - mine.normal, line.offset - mine.offset))
        if part.volume > 0.0:
            made.append(
                Rail(
                    board.name, edge.meets, part, _length(part, edge.line), width, board.face.thickness,
                    _miters(board, part, edge.line, edge.meets),
                )
            )  # fmt: skip
    return tuple(made)


def _inward(board: Board, line: Array) -> Plane:
    """Return the plane through an edge of the outside, square to the face; depth is the distance into the board."""
    way = (line[1] - line[0]) / np.linalg.norm(line[1] - line[0])
    normal = np.cross(way, board.face.plane.normal)
    outside = board.solid.side(OUTSIDE)
    assert outside is not None
    if (outside.corners.mean(axis=0) - line[0]) @ normal > 0.0:
        normal = -normal
    return Plane("line", normal, float(normal @ line[0]))


def _length(part: Solid, line: Array) -> float:
    way = (line[1] - line[0]) / np.linalg.norm(line[1] - line[0])
    along = np.concatenate([side.corners for side in part.sides]) @ way
    return float(np.ptp(along))


def _miters(board: Board, part: Solid, line: Array, meets: str) -> tuple[float, float]:
    """Return the angles of the two end cuts from a square cut across the stick, on the face."""
    way = (line[1] - line[0]) / np.linalg.norm(line[1] - line[0])
    across = np.cross(way, board.face.plane.normal)
    ends = []
    for side in part.sides:
        if side.name in (OUTSIDE, INSIDE, "room", meets):
            continue
        along, aside = float(side.plane.normal @ way), float(side.plane.normal @ across)
        ends.append((along, float(np.arctan2(abs(aside), abs(along)))))
    ends.sort()
    return (ends[0][1], ends[-1][1]) if ends else (0.0, 0.0)
