"""A scan: vertices, faces, and what there is to say about them."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

SMALL, WIDE = 1e-6, 1e7  # of a scan's longest side, in any unit
MIXED = (0x9E3779B97F4A7C15, 0xC2B2AE3D27D4EB4F, 0x165667B19E3779F9)  # odd numbers that spread the bits of a place
Array = NDArray[np.float64]
Index = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Scan:
    """A triangle mesh; its numbers are millimeters once the scale is known.

    `notes` are sentences for the reader: what was left out, what was assumed.
    """

    vertices: Array  # (n, 3)
    faces: Index  # (m, 3)
    notes: tuple[str, ...] = ()

    @property
    def extent(self) -> Array:
        """Size of the box around it (3,)."""
        return np.asarray(np.ptp(self.vertices, axis=0), dtype=float)

    def noted(self, *notes: str) -> "Scan":
        """Return the scan with more notes."""
        return Scan(self.vertices, self.faces, self.notes + notes)

    def kept(self, keep: NDArray[np.bool_], *notes: str) -> "Scan":
        """Return the scan with the faces chosen by `keep` (n,) only, and the vertices that they use."""
        faces = self.faces[keep]
        used = np.zeros(len(self.vertices), dtype=bool)
        used[faces] = True
        number = np.cumsum(used) - 1
        return Scan(self.vertices[used], number[faces], self.notes + notes)


def welded(vertices: ArrayLike, faces: ArrayLike) -> tuple[Array, Index]:
    """Return vertices (n, 3), those at the very same place made one, in the order of first use, and faces (m, 3)."""
    points, corners = np.asarray(vertices, dtype=float) + 0.0, np.asarray(faces, dtype=np.int64)
    if len(points) == 0:
        return points, corners
    order, new = _alike_together(points)
    place = np.empty(len(points), dtype=np.int64)
    place[order] = np.cumsum(new) - 1
    corners = place[corners]
    used = corners.ravel()
    first = np.full(int(new.sum()), len(used))
    first[used[::-1]] = np.arange(len(used))[::-1]  # of a corner that comes several times the first use stands
    sequence = np.argsort(first, kind="stable")[: int((first < len(used)).sum())]
    number = np.full(len(first), -1)
    number[sequence] = np.arange(len(sequence))
    return points[order[new]][sequence], number[corners]


def _alike_together(points: Array) -> tuple[Index, NDArray[np.bool_]]:
    """Return an order (n,) in which points at the same place follow each other, and where in it a new place begins."""
    bits = np.ascontiguousarray(points).view(np.uint64)
    bits = (bits ^ (bits >> np.uint64(32))) * np.array(MIXED, dtype=np.uint64)  # of short numbers the low bits are 0
    mixed = bits[:, 0] ^ bits[:, 1] ^ bits[:, 2]
    order = np.argsort(mixed, kind="stable")
    new = np.ones(len(points), dtype=bool)
    new[1:] = (points[order[1:]] != points[order[:-1]]).any(axis=1)
    if (new[1:] & (mixed[order[1:]] == mixed[order[:-1]])).any():  # two places with one sum: sort by all three numbers
        order = np.lexsort(points.T)
        new[1:] = (points[order[1:]] != points[order[:-1]]).any(axis=1)
    return order, new
