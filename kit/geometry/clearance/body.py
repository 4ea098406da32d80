"""The moving part as a tree of balls over its triangles, finest at the single triangle."""

from contextlib import suppress
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike
from scipy.spatial import ConvexHull, QhullError, cKDTree

from kit.core.errors import KitError
from kit.geometry.clearance.distance import Array, Index
from kit.geometry.mesh.clean import piece_numbers
from kit.geometry.mesh.mesh import Scan, welded

BRANCH = 8
MOST_FACES = 6_000_000
FINE = 16  # the longest edge is at most the diagonal of the part over this number


class Level(NamedTuple):
    """Balls that cover blocks of BRANCH^k triangles in a row."""

    center: Array  # (n, 3) [mm]
    radius: Array  # (n,) [mm]
    spot: Array  # (n, 3) [mm] one point of the surface in the ball


@dataclass(frozen=True)
class Body:
    """Triangles [mm] in an order in which neighbors lie together, and the levels of balls over them."""

    triangles: Array  # (n, 3, 3)
    levels: tuple[Level, ...]

    @classmethod
    def of(cls, vertices: ArrayLike, faces: ArrayLike) -> "Body":
        """Return the tree over a mesh (n, 3) [mm] and (m, 3); long triangles are cut, which changes no surface.

        Raises:
            KitError: no face, a face with a missing vertex, numbers that are not finite, or too many faces.
        """
        points, corners = np.asarray(vertices, dtype=float), np.asarray(faces, dtype=np.int64)
        if len(points) == 0 or len(corners) == 0:
            raise KitError("The scan has no face; clearance is measured from its surface, so it needs triangles.")
        if len(corners) > MOST_FACES:
            raise KitError(f"The scan has {len(corners):,} faces; thin it to at most {MOST_FACES:,}.")
        if corners.min() < 0 or corners.max() >= len(points) or not np.isfinite(points).all():
            raise KitError("The scan has faces with missing vertices or numbers that are not finite; read it anew.")
        triangles = cut_long(points.take(corners, axis=0), float(np.linalg.norm(np.ptp(points, axis=0))) / FINE)
        triangles = triangles[
            cKDTree(triangles[:, 0], leafsize=BRANCH, compact_nodes=False, balanced_tree=False).indices
        ]
        return cls(triangles, _levels(triangles))

    @cached_property
    def corners(self) -> Array:
        """The corners (n, 3) [mm] of the convex hull, or all if they lie in one plane."""
        points = self.triangles.reshape(-1, 3)
        with suppress(QhullError):
            points = points[ConvexHull(points).vertices]
        return points

    @cached_property
    def piece(self) -> Index:
        """The number of the connected piece (n,) of each triangle: those that share a corner hang together."""
        faces = np.arange(3 * len(self.triangles)).reshape(-1, 3)
        return piece_numbers(Scan(*welded(self.triangles.reshape(-1, 3), faces)))


def cut_long(triangles: Array, longest: float) -> Array:
    """Return `triangles` (n, 3, 3) with every edge at most `longest` [mm], by halving longest edges.

    Raises:
        KitError: too many triangles would come of it.
    """
    done: list[Array] = []
    while len(triangles):
        low, high = _boxes(triangles)
        wide = np.einsum("ij,ij->i", high - low, high - low) > longest * longest
        if not wide.any():
            done.append(triangles)
            break
        sides = triangles[wide] - np.roll(triangles[wide], -1, axis=1)
        squares = np.zeros((3, len(triangles)))
        squares[:, wide] = np.einsum("nij,nij->in", sides, sides)
        long = squares.max(axis=0) > longest * longest
        done.append(triangles[~long])
        order = (np.argmax(squares[:, long], axis=0)[:, None] + np.arange(3)) % 3
        a, b, c = np.moveaxis(np.take_along_axis(triangles[long], order[:, :, None], axis=1), 1, 0)
        middle = (a + b) / 2.0
        triangles = np.concatenate([np.stack([a, middle, c], axis=1), np.stack([middle, b, c], axis=1)])
        if len(triangles) + sum(map(len, done)) > MOST_FACES:
            raise KitError("The scan has too many long triangles to cut them small; crop it or thin it first.")
    return np.concatenate(done) if len(done) > 1 else done[0]


def _boxes(triangles: Array) -> tuple[Array, Array]:
    a, b, c = (triangles[:, corner] for corner in range(3))
    return np.minimum(np.minimum(a, b), c), np.maximum(np.maximum(a, b), c)


def _levels(triangles: Array) -> tuple[Level, ...]:
    low, high = _boxes(triangles)
    levels: list[Level] = []
    size = 1
    while True:
        starts = np.arange(0, len(triangles), size)
        reach = (high - low) / 2.0
        levels.append(
            Level(
                (low + high) / 2.0,
                np.sqrt(np.einsum("ij,ij->i", reach, reach)),
                _spots(starts, size, triangles),
            )
        )
        if len(starts) <= BRANCH:
            return tuple(levels)
        size *= BRANCH
        low = np.minimum.reduceat(low, np.arange(0, len(low), BRANCH))
        high = np.maximum.reduceat(high, np.arange(0, len(high), BRANCH))


def _spots(starts: Index, size: int, triangles: Array) -> Array:
    """Return a corner of the triangle in the middle of each block."""
    middle = np.minimum(starts + size // 2, len(triangles) - 1)
    spots: Array = triangles[middle, 0]
    return spots
