"""Unrolling: a strip of triangles laid flat, exactly and in linear time.

Going along the strip, each triangle turns the ruling about the end that stays: its pivot. The direction of each ruling
on the table is therefore the running sum of the signed pivot angles, and every edge keeps its length because each
triangle is laid down whole.
"""

from dataclasses import dataclass

import numpy as np

from kit.core.errors import KitError
from kit.geometry.development.arrays import Floats, cross, cumulative, dot, norm
from kit.geometry.development.ruled_strip import Strip, flat_area


@dataclass(frozen=True)
class Flat:
    """A strip laid flat: ruling ends a (n, 2) and b (n, 2), mm; edge a runs along the bottom from left to right.

    It is seen from the side to which `Strip.offset` counts, the outside of a strip that goes round counterclockwise.
    """

    a: Floats
    b: Floats

    @property
    def outline(self) -> Floats:
        """The closed outline (2 n, 2): along edge a, back along edge b, counterclockwise."""
        return np.vstack([self.a, self.b[::-1]])

    @property
    def area(self) -> float:
        """The enclosed area, mm²."""
        return flat_area(self.a, self.b)

    def placed(self, angle: float, shift: Floats | tuple[float, float] = (0.0, 0.0)) -> "Flat":
        """Return the piece turned by angle (rad, counterclockwise) and then shifted (mm)."""
        c, s = np.cos(angle), np.sin(angle)
        turn = np.array([[c, s], [-s, c]])
        return Flat(self.a @ turn + np.asarray(shift), self.b @ turn + np.asarray(shift))


def unroll_zigzag(a: Floats, b: Floats) -> tuple[Floats, Floats]:
    """Lay flat a strip given as rulings a (n, 3) → b (n, 3) of which each step moves one end only.

    Returns flat a (n, 2) and b (n, 2), a[0] at the origin and the first ruling upward. O(n); lengths in mm.
    """
    ruling = b - a
    length = norm(ruling)
    on_a = norm(np.diff(a, axis=0)) > 0
    # a moves right: the ruling leans left (counterclockwise) about b; b moves right: it leans right about a.
    turned = np.arctan2(norm(cross(ruling[:-1], ruling[1:])), dot(ruling[:-1], ruling[1:]))
    direction = np.pi / 2 + cumulative(np.where(on_a, turned, -turned))
    flat = np.column_stack([length * np.cos(direction), length * np.sin(direction)])
    moved = np.where(on_a[:, None], flat[:-1] - flat[1:], 0.0)
    flat_a = np.vstack([np.zeros((1, 2)), np.cumsum(moved, axis=0)])
    return flat_a, flat_a + flat


def unroll(strip: Strip) -> Flat:
    """Lay a strip flat.

    Raises: KitError for an edge without length (a triangle that is a line).
    """
    if len(strip.a) < 2:
        raise KitError(f"The strip between {strip.names[0]} and {strip.names[1]} has a single ruling; it has no width")
    ia, ib = strip.zigzag
    a, b = unroll_zigzag(strip.a[ia], strip.b[ib])
    flat_a, flat_b = np.empty((len(strip.a), 2)), np.empty((len(strip.a), 2))
    flat_a[ia], flat_b[ib] = a, b
    # Where two rulings share an end, both indices of that end must be there.
    still_a = np.r_[False, norm(np.diff(strip.a, axis=0)) == 0]
    still_b = np.r_[False, norm(np.diff(strip.b, axis=0)) == 0]
    for still, points in ((still_a, flat_a), (still_b, flat_b)):
        source = np.maximum.accumulate(np.where(still, 0, np.arange(len(still))))
        points[:] = points[source]
    return Flat(flat_a, flat_b)


@dataclass(frozen=True)
class Kept:
    """How well a flat piece keeps its strip: greatest errors of edge and ruling lengths (mm) and of the area (mm²)."""

    edges: float
    rulings: float
    area: float


def kept(strip: Strip, flat: Flat) -> Kept:
    """Compare a flat piece with the strip from which it was unrolled."""
    pairs = ((strip.a, flat.a), (strip.b, flat.b))
    edges = max(float(np.abs(norm(np.diff(p, axis=0)) - norm(np.diff(q, axis=0))).max(initial=0)) for p, q in pairs)
    rulings = float(np.abs(norm(strip.b - strip.a) - norm(flat.b - flat.a)).max())
    return Kept(edges, rulings, abs(float(strip.areas.sum()) - flat.area))
