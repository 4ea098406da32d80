"""Where a surface is touched: by a ray, or by the point of it that is nearest to a place.

Both look at all faces of a scan at once and need no tree: a sign for each corner says on which side of the ray, or of
the box around the place, it lies, and a face with all corners on one side cannot be met. Few are left.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from kit.core.errors import KitError
from kit.geometry.mesh.mesh import Array, Index, Scan
from kit.geometry.motion.rigid import unit_vector

EDGE = 1e-9  # share of a face by which a ray may miss it: none slips through between two


class Touch(NamedTuple):
    """A point of a surface (3,) and the number of its face."""

    point: Array
    face: int


def cast(scan: Scan, origin: ArrayLike, direction: ArrayLike) -> Touch | None:
    """Return the first point of the surface that a ray from `origin` (3,) along `direction` (3,) meets, if any.

    Raises:
        KitError: a direction that points nowhere.
    """
    way, start = unit_vector(direction, "The direction of the ray"), np.asarray(origin, dtype=float)
    aside = unit_vector(np.cross(way, np.eye(3)[int(np.argmin(np.abs(way)))]))
    seen = (scan.vertices - start) @ np.stack([aside, np.cross(way, aside), way], axis=1)
    sides = [seen[:, 0] > 0.0, seen[:, 0] < 0.0, seen[:, 1] > 0.0, seen[:, 1] < 0.0, seen[:, 2] < 0.0]
    met = _met(sides, scan.faces)
    a, b, c = np.moveaxis(seen[scan.faces[met]], 1, 0)
    shares = np.stack([_double_area(b, c), _double_area(c, a), _double_area(a, b)], axis=1)
    whole = shares.sum(axis=1)
    with np.errstate(divide="ignore", invalid="ignore"):
        shares /= whole[:, None]
    depth = shares[:, 0] * a[:, 2] + shares[:, 1] * b[:, 2] + shares[:, 2] * c[:, 2]
    through = (whole != 0.0) & (shares >= -EDGE).all(axis=1) & (depth >= 0.0)
    if not through.any():
        return None
    first = int(np.argmin(np.where(through, depth, np.inf)))
    return Touch(start + depth[first] * way, int(met[first]))


def nearest(scan: Scan, place: ArrayLike) -> Touch:
    """Return the point of the surface that is nearest to `place` (3,).

    Source of the nearest point of a triangle: the mesh library.

    Raises:
        KitError: a place that is not three finite numbers.
    """
    from trimesh.triangles import closest_point

    point = np.asarray(place, dtype=float)
    if point.shape != (3,) or not np.isfinite(point).all():
        raise KitError(f"The place is {place!r}; it needs three finite numbers.")
    away = scan.vertices - point
    corner = np.sqrt(np.einsum("ij,ij->i", away, away)[scan.faces].min())
    sides = [side for axis in away.T for side in (axis > corner, axis < -corner)]
    met = _met(sides, scan.faces)
    closest = closest_point(scan.vertices[scan.faces[met]], np.broadcast_to(point, (len(met), 3)))  # type: ignore[no-untyped-call]
    first = int(np.argmin(((closest - point) ** 2).sum(axis=1)))
    return Touch(np.asarray(closest[first], dtype=float), int(met[first]))


def _met(sides: list[NDArray[np.bool_]], faces: Index) -> Index:
    """Return the numbers of the faces whose corners do not all lie on one of the sides, each (n,) of all corners."""
    code = np.zeros(len(sides[0]), dtype=np.uint8)
    for bit, side in enumerate(sides):
        code |= side.astype(np.uint8) << bit
    return np.flatnonzero((code[faces[:, 0]] & code[faces[:, 1]] & code[faces[:, 2]]) == 0)


def _double_area(one: Array, other: Array) -> Array:
    area: Array = one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]
    return area
