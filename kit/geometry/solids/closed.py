"""Closed meshes, joined, cut and shared with each other by Manifold, and regions raised to prisms by earcut.

Both libraries are called directly: the mesh library that wraps them takes longer to load than a solid to make.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, NamedTuple, Protocol

import numpy as np

from kit.geometry.mesh import centroid
from kit.geometry.solids.convex import Array, Index

if TYPE_CHECKING:
    from shapely import Polygon


class Meshed(Protocol):
    """What has vertices (n, 3) [mm] and triangles (m, 3)."""

    @property
    def vertices(self) -> Any:
        """Its corners (n, 3) [mm]."""

    @property
    def faces(self) -> Any:
        """Its triangles (m, 3)."""


class Mesh(NamedTuple):
    """A mesh of triangles, counterclockwise seen from outside."""

    vertices: Array  # (n, 3) [mm]
    faces: Index  # (m, 3)


def volume(mesh: Meshed) -> float:
    """Return the volume of a closed mesh [mm³], 0 of one without a face."""
    return centroid.volume(mesh.vertices, mesh.faces)


def closed(mesh: Meshed) -> bool:
    """Return whether there are faces (m, 3), and every edge borders two of them, once in each direction."""
    way = _edges(np.asarray(mesh.faces, dtype=np.int64))
    count = len(mesh.vertices)
    forth, back = (np.unique(a * count + b, return_counts=True) for a, b in (way.T, way.T[::-1]))
    return bool(len(way) and (forth[1] == 1).all() and (back[1] == 1).all() and np.array_equal(forth[0], back[0]))


def union(meshes: Sequence[Mesh]) -> Mesh:
    """Return all that lies in any of the closed `meshes` [mm]."""
    return _mesh(_together(meshes))


def difference(whole: Mesh, others: Sequence[Mesh]) -> Mesh:
    """Return what of a closed mesh [mm] lies in none of the others."""
    return _mesh(_solid(whole) - _together(others))


def intersection(one: Mesh, other: Mesh) -> Mesh:
    """Return what lies in both of two closed meshes [mm]."""
    return _mesh(_solid(one) ^ _solid(other))


def raised(region: "Polygon", height: float) -> Mesh:
    """Return a region in the plane z = 0 raised by `height` [mm], closed; its holes stay open."""
    from mapbox_earcut import triangulate_float64

    rings = [np.array(ring.coords) for ring in (region.exterior, *region.interiors)]
    corners = np.concatenate(rings)
    faces = triangulate_float64(corners, np.cumsum([len(ring) for ring in rings])).reshape(-1, 3).astype(np.int64)
    a, b, c = np.moveaxis(corners[faces], 1, 0)
    if np.sum((b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]) < 0.0:
        faces = faces[:, ::-1]
    count = len(corners)
    edges = _edges(faces)
    rim = edges[~np.isin(edges @ (count, 1), edges @ (1, count))]
    below, then = rim[np.lexsort((rim.min(axis=1), rim.max(axis=1)))].T
    sides = np.stack([then + count, below + count, then, then, below + count, below], axis=1).reshape(-1, 3)
    flat = np.zeros((count, 1))
    vertices = np.concatenate([np.hstack([corners, flat]), np.hstack([corners, flat + height])])
    return Mesh(vertices, np.concatenate([faces[:, ::-1], faces + count, sides]))


def _edges(faces: Index) -> Index:
    return faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2)


def _solid(mesh: Mesh) -> Any:
    from manifold3d import Manifold
    from manifold3d import Mesh as Triangles

    return Manifold(Triangles(np.array(mesh.vertices, dtype=np.float32), np.array(mesh.faces, dtype=np.uint32)))


def _together(meshes: Sequence[Mesh]) -> Any:
    """Return the union of meshes, two by two: each that comes of it stays as small as it can."""
    solids = [_solid(mesh) for mesh in meshes]
    while len(solids) > 1:
        pairs = zip(solids[::2], solids[1::2], strict=False)
        solids = [*(one + other for one, other in pairs), *([solids[-1]] if len(solids) % 2 else [])]
    return solids[0]


def _mesh(found: Any) -> Mesh:
    made = found.to_mesh()
    return Mesh(np.asarray(made.vert_properties, dtype=float), np.asarray(made.tri_verts, dtype=np.int64))
