"""What stands in the way, as triangles: boards with thickness, any closed body, or a sheet without thickness."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike

from kit.core.errors import KitError
from kit.geometry.clearance.distance import Array, Frames, Index, frames

MOST_TRIANGLES = 100_000


@dataclass(frozen=True)
class Obstacle:
    """Triangles [mm], each part of one named board (or sheet, rail, cloth panel)."""

    triangles: Array  # (n, 3, 3)
    board: Index  # (n,) number of the board in `names`
    names: tuple[str, ...]

    @classmethod
    def of(cls, boards: Sequence[tuple[str, ArrayLike, ArrayLike]]) -> "Obstacle":
        """Return the obstacle of boards given as (name, vertices (n, 3), faces (m, 3)).

        Triangles without area are left out.

        Raises:
            KitError: no board, the same name twice, numbers that are not finite, or too many triangles.
        """
        if not boards:
            raise KitError("The obstacle has no board; give at least one.")
        names = tuple(name for name, _, _ in boards)
        if len(set(names)) < len(names):
            raise KitError(f"Two boards have the same name among {', '.join(names)}; give each a name of its own.")
        parts = [_triangles(*board) for board in boards]
        total = sum(map(len, parts))
        if total > MOST_TRIANGLES:
            raise KitError(f"The obstacle has {total:,} triangles; at most {MOST_TRIANGLES:,} are allowed.")
        number = np.repeat(np.arange(len(parts)), [len(part) for part in parts])
        return cls(np.concatenate(parts), number, names)

    @cached_property
    def frames(self) -> Frames:
        """The triangles laid flat."""
        return frames(self.triangles)

    @property
    def bounds(self) -> Array:
        """Least and greatest corner (2, 3) [mm]."""
        return np.array([self.triangles.min(axis=(0, 1)), self.triangles.max(axis=(0, 1))])


def _triangles(name: str, vertices: ArrayLike, faces: ArrayLike) -> Array:
    points, corners = np.asarray(vertices, dtype=float), np.asarray(faces, dtype=np.int64)
    if points.ndim != 2 or points.shape[1] != 3 or not np.isfinite(points).all():
        raise KitError(f"The board {name!r} has vertices of shape {points.shape}; it needs n × 3 finite numbers.")
    if corners.ndim != 2 or corners.shape[1] != 3 or len(corners) == 0:
        raise KitError(f"The board {name!r} has faces of shape {corners.shape}; it needs m × 3 vertex numbers.")
    if corners.min() < 0 or corners.max() >= len(points):
        raise KitError(f"The board {name!r} has a face with a vertex outside 0 to {len(points) - 1}.")
    triangles = points[corners]
    area = np.linalg.norm(np.cross(triangles[:, 1] - triangles[:, 0], triangles[:, 2] - triangles[:, 0]), axis=1)
    if not (area > 0.0).any():
        raise KitError(f"The board {name!r} has no area; give at least one triangle with three different corners.")
    kept: Array = triangles[area > 0.0]
    return kept
