"""Bodies of parts from their solids: what is drawn of the station and what weighs is the same."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from kit.core.lists import Body, Shape
from kit.geometry.mesh import box
from kit.geometry.mesh.centroid import area_and_centroid, volume_and_centroid

Array = NDArray[np.float64]

FINE = 3  # decimals of a millimeter in what is drawn


def shape_of(name: str, points: ArrayLike, faces: ArrayLike, fill: str = "wood", opacity: float = 1.0) -> Shape:
    """Return triangles (m, 3) of points (n, 3), mm, as plain data, the points to a thousandth."""
    corners = np.round(np.asarray(points, dtype=float), FINE).tolist()
    return Shape(name, tuple(map(tuple, corners)), tuple(map(tuple, np.asarray(faces).tolist())), fill, opacity)


def solid_body(
    name: str, points: ArrayLike, faces: ArrayLike, density: float | None, fill: str = "wood", opacity: float = 1.0
) -> Body:
    """Return a closed solid of points (n, 3), mm, and triangles (m, 3) as a body; `density` in t/mm³, if known."""
    volume, center = volume_and_centroid(points, faces)
    shape = shape_of(name, points, faces, fill, opacity)
    return Body(name, None if density is None else volume * density, center, shape, volume)


def box_body(name: str, low: ArrayLike, high: ArrayLike, density: float | None, fill: str = "wood") -> Body:
    """Return the box between two corners (3,), mm, as a body; a side of no length has no body.

    Raises:
        KitError: a side is not longer than 0.
    """
    solid = box(low, high)
    return solid_body(name, solid.vertices, solid.faces, density, fill)


def sheet_body(name: str, points: ArrayLike, faces: ArrayLike, mass: float | None, fill: str = "cloth") -> Body:
    """Return what is thin and everywhere of one weight, as cloth: its center is that of the area of its triangles."""
    shape = shape_of(name, points, faces, fill)
    area, center = area_and_centroid(points, faces)
    return Body(name, mass, center, shape, area)


def strip(a: Array, b: Array, most: int) -> tuple[Array, NDArray[np.int64]]:
    """Return rulings from a (n, 3) to b (n, 3) as points and triangles, of no more than `most` rulings."""
    chosen = np.unique(np.linspace(0, len(a) - 1, min(len(a), most)).round().astype(int))
    count, here = len(chosen), np.arange(len(chosen) - 1)
    faces = [np.stack([here, here + 1, here + count], axis=1), np.stack([here + 1, here + count + 1, here + count], 1)]
    return np.concatenate([a[chosen], b[chosen]]), np.concatenate(faces)
