"""Volume and centroid of a closed mesh, area and centroid of an open one."""

import numpy as np
from numpy.typing import ArrayLike

Point = tuple[float, float, float]


def volume_and_centroid(points: ArrayLike, faces: ArrayLike) -> tuple[float, Point]:
    """Return the volume (mm³) and the centroid (mm) of what triangles (m, 3) of points (n, 3) close round.

    The sum over the tetrahedra between the triangles and one point, by the divergence theorem.
    """
    corners = np.asarray(points, dtype=float)
    middle = corners.mean(axis=0)
    a, b, c = np.moveaxis((corners - middle)[np.asarray(faces)], 1, 0)
    volumes = np.einsum("ij,ij->i", a, np.cross(b, c)) / 6.0
    whole = float(volumes.sum())
    x, y, z = middle + volumes @ (a + b + c) / (4.0 * whole)
    return whole, (float(x), float(y), float(z))


def area_and_centroid(points: ArrayLike, faces: ArrayLike) -> tuple[float, Point]:
    """Return the area (mm²) of triangles (m, 3) of points (n, 3), and its centroid (mm)."""
    a, b, c = np.moveaxis(np.asarray(points, dtype=float)[np.asarray(faces)], 1, 0)
    areas = np.linalg.norm(np.cross(b - a, c - a), axis=1) / 2.0
    whole = float(areas.sum())
    x, y, z = areas @ (a + b + c) / (3.0 * whole)
    return whole, (float(x), float(y), float(z))
