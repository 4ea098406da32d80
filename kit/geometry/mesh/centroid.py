"""Volume and centroid of a closed mesh."""

import numpy as np
from numpy.typing import ArrayLike


def volume_and_centroid(points: ArrayLike, faces: ArrayLike) -> tuple[float, tuple[float, float, float]]:
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
