"""Lines and arcs that meet end to end, joined as one outline: what a cutter follows without lifting."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import ceil, cos, hypot, pi, sin, tan, tau

from kit.drawing.layers import Layer
from kit.drawing.marks import Curve, Stroke
from kit.drawing.primitives import Point

MEETS = 1e-6
"""How far ends may lie apart and still be one corner, mm."""

Corner = tuple[float, float, float]
"""x, y and the bulge of the piece that follows: the tangent of a quarter of its arc, 0 for a straight one."""


@dataclass(slots=True)
class Chain:
    """An outline of straight and round pieces; `single` is the mark itself where nothing was joined to it."""

    layer: Layer
    corners: list[Corner]
    closed: bool
    single: Stroke | Curve | None

    @property
    def start(self) -> Point:
        """The first corner."""
        return self.corners[0][:2]

    @property
    def end(self) -> Point:
        """The last corner."""
        return self.corners[-1][:2]

    def turned(self) -> "Chain":
        """Return the same outline run through the other way."""
        places = [corner[:2] for corner in self.corners][::-1]
        bulges = [*(-bulge for _, _, bulge in self.corners[-2::-1]), 0.0]
        corners = [(x, y, bulge) for (x, y), bulge in zip(places, bulges, strict=True)]
        return Chain(self.layer, corners, self.closed, self.single)


def chains(marks: Iterable[Stroke | Curve]) -> Iterator[Chain]:
    """Join marks of one layer that follow each other and meet, and yield the outlines in order."""
    chain: Chain | None = None
    for mark in marks:
        piece = _of(mark)
        joined = _joined(chain, piece) if chain else None
        if chain and not joined:
            yield chain
        chain = joined or piece
        if chain.closed:
            yield chain
            chain = None
    if chain:
        yield chain


def _joined(chain: Chain, piece: Chain) -> Chain | None:
    if chain.layer is not piece.layer or piece.closed:
        return None
    if chain.single and not _meet(chain.end, piece.start) and not _meet(chain.end, piece.end):
        chain = chain.turned()  # a first piece may have been drawn either way
    if _meet(chain.end, piece.end) and not _meet(chain.end, piece.start):
        piece = piece.turned()
    if not _meet(chain.end, piece.start):
        return None
    corners = chain.corners[:-1] + piece.corners
    closed = len(corners) > 2 and _meet(corners[0][:2], corners[-1][:2])
    return Chain(chain.layer, corners[:-1] if closed else corners, closed, None)


def _meet(p: Point, q: Point) -> bool:
    return hypot(p[0] - q[0], p[1] - q[1]) <= MEETS


def _of(mark: Stroke | Curve) -> Chain:
    if isinstance(mark, Stroke):
        return Chain(mark.layer, [(x, y, 0.0) for x, y in mark.points], mark.closed, mark)
    full = abs(mark.sweep) >= tau
    # A bulge grows without bound toward a full circle: an arc is cut into pieces of half a turn at most.
    parts = max(1, ceil(abs(mark.sweep) / pi - 1e-9))
    part = mark.sweep / parts
    corners = []
    for k in range(parts + 1):
        angle = mark.start + k * part
        bulge = tan(part / 4) if k < parts else 0.0
        corners.append((mark.center[0] + mark.radius * cos(angle), mark.center[1] + mark.radius * sin(angle), bulge))
    return Chain(mark.layer, corners, full, mark)
