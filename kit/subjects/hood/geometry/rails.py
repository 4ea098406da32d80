"""Rails and posts in place of boards, where cloth is the skin: sticks of rectangular section along the edges.

Each face becomes a picture frame of its board: as thick as the board, its long outer edge beveled as the board's,
its ends mitered in the face where two sticks of the frame meet. The frames of neighboring faces close as boards do.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from kit.core.errors import KitError
from kit.geometry.solids.convex import Array, Index, Plane, Solid
from kit.subjects.hood.geometry.boards import OUTSIDE, Board
from kit.subjects.hood.geometry.openings import pierced


@dataclass(frozen=True)
class Rail:
    """A stick along the edge in which its face meets `along`: a convex solid less what an arch cuts off it."""

    along: str
    part: Board
    length: float  # [mm]
    width: float  # [mm]
    miters: tuple[float, float]  # [rad] from a square cut, at its two ends, on the face
    cut: Mapping[str, Array] = field(default_factory=dict)

    @property
    def face(self) -> str:
        """The name of the face that it is part of."""
        return self.part.name

    @property
    def mesh(self) -> tuple[Array, Index]:
        """Vertices (n, 3) [mm] and triangles (m, 3), closed."""
        return pierced(self.part, self.cut)


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
            made.append(_rail(board, part, edge.line, edge.meets, width, {}))
    return tuple(made)


def window(board: Board, width: float, without: tuple[str, ...] = ()) -> Array:
    """Return the outline (n, 2) [mm] on the face's axes of what the rails leave open, empty if they leave nothing."""
    part = board.solid
    for edge in board.edges:
        if edge.meets not in without and edge.outside > 0.0:
            line = _inward(board, edge.line)
            part = part.cut(Plane(edge.meets, line.normal, line.offset - width))
    return Board(board.face, part, ()).outline()


def brow_rail(board: Board, spring: float, width: float, cut: Mapping[str, Array]) -> Rail:
    """Return the stick of a brow between the posts of the front, `width` [mm] high above its ends or its crown.

    spring: height of the brow's ends up the board [mm]; cut: the outline of the opening, which shapes an arch.

    Raises:
        KitError: nothing is left between the posts and below the top.
    """
    _, up, _ = board.face.axes
    foot = float(up @ board.face.origin)
    crown = max((float(ring[:, 1].max()) for ring in cut.values()), default=spring)
    part = board.solid.cut(Plane("brow", -up, -(foot + spring))).cut(Plane("room", up, foot + crown + width))
    for edge in board.edges:
        if not edge.along and edge.outside > 0.0:
            line = _inward(board, edge.line)
            part = part.cut(Plane(edge.meets, line.normal, line.offset - width))
    side = part.side("brow")
    flat = board.face.flat(np.zeros((1, 3)) if side is None else side.corners)
    ends = [[flat[:, 0].min(), spring], [flat[:, 0].max(), spring]]
    if ends[1][0] - ends[0][0] < 1.0:
        raise KitError("The brow's rail has no room between the posts and below the top; lower the brow.")
    return _rail(board, part, board.face.raised(ends), "brow", width, cut if crown > spring else {})


def _rail(board: Board, part: Solid, line: Array, along: str, width: float, cut: Mapping[str, Array]) -> Rail:
    stick = Board(board.face, part, ())
    return Rail(along, stick, _length(part, line), width, _miters(board, part, line, along), cut)


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
        square = abs(float(side.plane.normal @ board.face.plane.normal)) < 1e-9  # the bevel of the board is none
        if not square or side.name in ("room", meets):
            continue
        along, aside = float(side.plane.normal @ way), float(side.plane.normal @ across)
        ends.append((along, float(np.arctan2(abs(aside), abs(along)))))
    ends.sort()
    return (ends[0][1], ends[-1][1]) if ends else (0.0, 0.0)
