"""A scan: vertices, faces, and what there is to say about them."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

SMALL, WIDE = 1e-6, 1e7  # of a scan's longest side, in any unit
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
    order = np.lexsort(points.T)
    new = np.ones(len(points), dtype=bool)
    new[1:] = (np.diff(points[order], axis=0) != 0.0).any(axis=1)
    place = np.empty(len(points), dtype=np.int64)
    place[order] = np.cumsum(new) - 1
    unique = points[order][new]
    corners = place[corners]
    _, first = np.unique(corners.ravel(), return_index=True)
    sequence = corners.ravel()[np.sort(first)]
    number = np.full(len(unique), -1)
    number[sequence] = np.arange(len(sequence))
    return unique[sequence], number[corners]
