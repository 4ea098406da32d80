"""Volume and centroid of a closed mesh, area and centroid of an open one."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]
Point = tuple[float, float, float]


def volume(points: ArrayLike, faces: ArrayLike) -> float:
    """Return the volume (mm³) of what triangles (m, 3) of points (n, 3) close round, 0 without a face."""
    return float(_tetrahedra(points, faces)[1].sum())


def volume_and_centroid(points: ArrayLike, faces: ArrayLike) -> tuple[float, Point]:
    """Return the volume (mm³) and the centroid (mm) of what triangles (m, 3) of points (n, 3) close round."""
    middle, volumes, sums = _tetrahedra(points, faces)
    whole = float(volumes.sum())
    x, y, z = middle + volumes @ sums / (4.0 * whole)
    return whole, (float(x), float(y), float(z))


def _tetrahedra(points: ArrayLike, faces: ArrayLike) -> tuple[Array, Array, Array]:
    """Return one point (3,), mm, the volumes (m,), mm³, between it and the triangles, and their corners' sums from it.

    What the triangles close round is the sum of these, by the divergence theorem.
    """
    corners = np.asarray(points, dtype=float)
    middle = corners.mean(axis=0) if len(corners) else np.zeros(3)
    a, b, c = np.moveaxis((corners - middle)[np.asarray(faces)], 1, 0)
    return middle, np.einsum("ij,ij->i", a, np.cross(b, c)) / 6.0, a + b + c


def area_and_centroid(points: ArrayLike, faces: ArrayLike) -> tuple[float, Point]:
    """Return the area (mm²) of triangles (m, 3) of points (n, 3), and its centroid (mm)."""
    a, b, c = np.moveaxis(np.asarray(points, dtype=float)[np.asarray(faces)], 1, 0)
    areas = np.linalg.norm(np.cross(b - a, c - a), axis=1) / 2.0
    whole = float(areas.sum())
    x, y, z = areas @ (a + b + c) / (3.0 * whole)
    return whole, (float(x), float(y), float(z))
