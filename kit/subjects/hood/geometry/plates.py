"""What the distance to a board with openings is at least, in closed form: a bound for the search of gaps.

The board is held by a plate: its outline, outside and inside together, less its openings, as thick as the board.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from kit.geometry.clearance import Obstacle
from kit.geometry.solids.convex import Array, Index
from kit.geometry.ties import least_few
from kit.subjects.hood.geometry.boards import INSIDE, OUTSIDE, Board
from kit.subjects.hood.geometry.openings import region

FEW = 64  # balls that are looked at first


@dataclass(frozen=True)
class Region:
    """A region of a plane by its boundary's segments [mm]."""

    begin: Array  # (m, 2)
    way: Array  # (m, 2)

    @classmethod
    def of(cls, shape: shapely.Geometry) -> "Region":
        """Return the region of a polygon or of several."""
        segments = [
            np.stack([ring[:-1], np.diff(ring, axis=0)], axis=1)
            for part in shapely.get_parts(shape)
            for ring in map(shapely.get_coordinates, (part.exterior, *part.interiors))
        ]
        joined = np.concatenate([np.zeros((0, 2, 2)), *segments])
        return cls(joined[:, 0], joined[:, 1])

    def aside(self, points: Array) -> Array:
        """Return the squared distances (n,) of `points` (n, 2) from the region, 0 in it."""
        nearest = np.full(len(points), np.inf)
        inside = np.zeros(len(points), dtype=bool)
        for begin, way in zip(self.begin, self.way, strict=True):
            x, y = points[:, 0] - begin[0], points[:, 1] - begin[1]
            share = np.minimum(np.maximum((x * way[0] + y * way[1]) / (way @ way), 0.0), 1.0)
            np.minimum(nearest, (x - share * way[0]) ** 2 + (y - share * way[1]) ** 2, out=nearest)
            if way[1] != 0.0:
                inside ^= ((y < 0.0) != (y < way[1])) & ((x * way[1] < y * way[0]) == (way[1] > 0.0))
        nearest[inside] = 0.0
        return nearest


@dataclass(frozen=True)
class Plate:
    """The region that holds a board, and the wood of its inside alone, on the axes of its face."""

    to_flat: Array  # (4, 3): points with a 1 behind them times this are on the face's axes
    thickness: float
    held: Region
    inside: Region

    @classmethod
    def of(cls, board: Board, openings: Mapping[str, Array]) -> "Plate":
        """Return the plate that holds a board, its openings (n, 2) on the face [mm]."""
        inside = region(board, openings, INSIDE)
        axes = board.face.axes.T
        return cls(
            np.vstack([axes, -board.face.origin @ axes]),
            board.face.thickness,
            Region.of(region(board, openings, OUTSIDE).union(inside)),
            Region.of(inside),
        )

    def flat(self, points: Array) -> Array:
        """Return `points` (n, 3) on the axes of the face."""
        return np.asarray(points @ self.to_flat[:3] + self.to_flat[3])

    def least(self, points: Array, radius: Array, limit: Array) -> Array:
        """Return what the distances (n,) [mm] of `points` (n, 3) are at least; above `limit` maybe too small.

        Of balls about the points with a `radius` (n,) those are looked at closely that may hold the nearest point.
        """
        flat = self.flat(points)
        across = np.maximum(np.maximum(flat[:, 2], -self.thickness - flat[:, 2]), 0.0)
        few = np.flatnonzero(least_few(across, FEW)) if len(across) > FEW else np.arange(len(across))
        met = (self.most(flat[few]) + radius[few]).min(initial=np.inf)
        near = np.flatnonzero(across < np.minimum(limit, met + radius))
        across[near] = np.sqrt(across[near] ** 2 + self.held.aside(flat[near, :2]))
        return across

    def most(self, flat: Array) -> Array:
        """Return what the distances (n,) [mm] of points (n, 3) on the face's axes are at most."""
        return np.sqrt((flat[:, 2] + self.thickness) ** 2 + self.inside.aside(flat[:, :2]))


class Plates:
    """The plates of a hood's boards as a field."""

    widest = np.inf

    def __init__(self, plates: Sequence[Plate], hood: Obstacle) -> None:
        """Take the plates in the order of the hood's boards."""
        self.plates = plates
        self.triangles = [np.flatnonzero(hood.board == number) for number in range(len(plates))]
        flat = [
            plate.flat(hood.triangles[mine].reshape(-1, 3)).reshape(-1, 3, 3)
            for plate, mine in zip(plates, self.triangles, strict=True)
        ]
        self.boxes = [(corners.min(axis=1), corners.max(axis=1)) for corners in flat]

    @property
    def groups(self) -> int:
        """How many plates there are."""
        return len(self.plates)

    def covers(self, points: Array) -> NDArray[np.bool_]:
        """Return that every point (n, 3) is covered."""
        return np.ones(len(points), dtype=bool)

    def bound(self, points: Array, group: Index, radius: Array, limit: Array) -> Array:
        """Return what the distance (n,) [mm] of `points` (n, 3) to their board is at least."""
        least = np.empty(len(points))
        for number, plate in enumerate(self.plates):
            mine = np.flatnonzero(group == number)
            least[mine] = plate.least(points[mine], radius[mine], limit[mine])
        return least

    def distance(self, points: Array, group: Index) -> Array:
        """Return the distances (n,) [mm] of `points` (n, 3) to their plates: what those to the boards are at least."""
        return self.bound(points, group, np.zeros(len(points)), np.full(len(points), np.inf))

    def lists(self, points: Array, group: Index, radius: Array) -> tuple[Index, Index]:
        """Return (ball, triangle) for each triangle that can be nearest to a point of a ball, ball by ball."""
        owners, triangles = [], []
        for number, plate in enumerate(self.plates):
            mine = np.flatnonzero(group == number)
            flat = plate.flat(points[mine])
            low, high = self.boxes[number]
            off = np.maximum(np.maximum(low - flat[:, None], flat[:, None] - high), 0.0)
            least = np.sqrt(np.einsum("ntk,ntk->nt", off, off))
            ball, triangle = np.nonzero(least <= (plate.most(flat) + 2.0 * radius[mine])[:, None] + 1e-9)
            owners.append(mine[ball])
            triangles.append(self.triangles[number][triangle])
        owner, triangle = np.concatenate(owners), np.concatenate(triangles)
        order = np.argsort(owner, kind="stable")
        return owner[order], triangle[order]
