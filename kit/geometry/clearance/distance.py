"""Exact distances, many pairs at once: point to triangle, triangle to triangle."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Index = NDArray[np.int64]

EDGES = ((0, 1), (1, 2), (2, 0))


class Frames(NamedTuple):
    """Triangles laid flat: corners at (0, 0), (width, 0) and (x, y) in a frame of their own.

    The rows of `to_flat` (12, n) are the affine forms of the place along the first edge, across it and above.
    """

    to_flat: Array
    width: Array  # (n,) [mm]
    x: Array
    y: Array

    def take(self, index: Index) -> "Frames":
        """Return the frames of the triangles in `index`."""
        return Frames(self.to_flat.take(index, axis=1), *(part.take(index) for part in self[1:]))


def frames(triangles: Array) -> Frames:
    """Return the frames of `triangles` (n, 3, 3) [mm]; slivers and points are allowed."""
    origin = triangles[:, 0]
    first, last = triangles[:, 1] - origin, triangles[:, 2] - origin
    width = np.linalg.norm(first, axis=1)
    across = _direction(first, width, last)
    x = np.einsum("ij,ij->i", last, across)
    rest = last - x[:, None] * across
    y = np.linalg.norm(rest, axis=1)
    aside = across[:, [1, 2, 0]] * np.array([1.0, -1.0, 1.0])
    aside -= np.einsum("ij,ij->i", aside, across)[:, None] * across
    up = _direction(rest, y, aside)
    up -= np.einsum("ij,ij->i", up, across)[:, None] * across
    up /= np.maximum(np.linalg.norm(up, axis=1), 1e-300)[:, None]
    rows = []
    for axis in (across, up, np.cross(across, up)):
        rows += [*axis.T, -np.einsum("ij,ij->i", axis, origin)]
    return Frames(np.array(rows), width, x, y)


def _direction(vectors: Array, lengths: Array, instead: Array) -> Array:
    flat = lengths <= 1e-12
    chosen = np.where(flat[:, None], instead, vectors)
    size = np.linalg.norm(chosen, axis=1)
    chosen = np.where((size <= 1e-12)[:, None], np.array([1.0, 0.0, 0.0]), chosen)
    unit: Array = chosen / np.linalg.norm(chosen, axis=1)[:, None]
    return unit


class _Flat(NamedTuple):
    """A point seen in a triangle's frame, and its place on each of the three edges."""

    u: Array
    v: Array
    w: Array
    inside: NDArray[np.bool_]
    on_first: Array  # [mm] along the edge
    on_second: Array  # share of the edge from the second corner to the third
    on_third: Array  # share of the edge from the first corner to the third
    squares: tuple[Array, Array, Array]  # [mm²] in the plane, to each edge


def _flat(to: Frames, points: Array) -> _Flat:
    px, py, pz = np.ascontiguousarray(points.T)
    u, v, w = (row[0] * px + row[1] * py + row[2] * pz + row[3] for row in (to.to_flat[i : i + 4] for i in (0, 4, 8)))
    width, x, y = to.width, to.x, to.y
    beyond, back = u - width, x - width
    inside = (v >= 0.0) & (back * v >= y * beyond) & (y * u >= x * v) & (y > 1e-12)
    first = np.clip(u, 0.0, width)
    second = np.clip((beyond * back + v * y) / np.maximum(back * back + y * y, 1e-30), 0.0, 1.0)
    third = np.clip((u * x + v * y) / np.maximum(x * x + y * y, 1e-30), 0.0, 1.0)
    squares = (
        (u - first) ** 2 + v * v,
        (beyond - second * back) ** 2 + (v - second * y) ** 2,
        (u - third * x) ** 2 + (v - third * y) ** 2,
    )
    return _Flat(u, v, w, inside, first, second, third, squares)


def point_distance(to: Frames, points: Array) -> Array:
    """Return the distances (n,) [mm] from each of `points` (n, 3) to the triangle of the same row."""
    flat = _flat(to, points)
    aside = np.where(flat.inside, 0.0, np.minimum(np.minimum(*flat.squares[:2]), flat.squares[2]))
    distance: Array = np.sqrt(flat.w * flat.w + aside)
    return distance


def nearest_point(to: Frames, points: Array) -> Array:
    """Return the point (n, 3) of each triangle that is nearest to the point of the same row."""
    flat = _flat(to, points)
    edge = np.argmin(flat.squares, axis=0)
    u = np.choose(edge, (flat.on_first, to.width + flat.on_second * (to.x - to.width), flat.on_third * to.x))
    v = np.choose(edge, (np.zeros_like(flat.v), flat.on_second * to.y, flat.on_third * to.y))
    u, v = np.where(flat.inside, flat.u, u), np.where(flat.inside, flat.v, v)
    low = -to.to_flat[3::4]
    flat_place = np.stack([u + low[0], v + low[1], low[2]])
    nearest: Array = np.einsum("kjn,kn->nj", to.to_flat.reshape(3, 4, -1)[:, :3], flat_place)
    return nearest


class Pairs(NamedTuple):
    """The distance of each pair of triangles and where it is; 0 where they touch or cross."""

    distance: Array  # (n,) [mm]
    here: Array  # (n, 3) on the first triangle
    there: Array  # (n, 3) on the second triangle


def triangle_distance(first: Array, second: Array, second_frames: Frames) -> Pairs:
    """Return the distances between `first` and `second` (n, 3, 3) [mm], row by row.

    The least of six corner-to-triangle and nine edge-to-edge distances, unless an edge of one goes through the
    other. Source: C. Ericson, Real-Time Collision Detection (2005), section 5.1; from memory.
    """
    first_frames = frames(first)
    here, there = [], []
    for corner in range(3):
        here.append(first[:, corner])
        there.append(nearest_point(second_frames, first[:, corner]))
        here.append(nearest_point(first_frames, second[:, corner]))
        there.append(second[:, corner])
    for a, b in EDGES:
        for c, d in EDGES:
            one, other = _edge_points(first[:, a], first[:, b], second[:, c], second[:, d])
            here.append(one)
            there.append(other)
    for a, b in EDGES:
        for piercing, pierced in ((first, second_frames), (second, first_frames)):
            point = _crossing(piercing[:, a], piercing[:, b], pierced)
            here.append(point)
            there.append(point)
    ends, starts = np.stack(here), np.stack(there)
    squares = ((ends - starts) ** 2).sum(axis=-1)
    np.nan_to_num(squares, copy=False, nan=np.inf)
    best = np.argmin(squares, axis=0)
    row = np.arange(len(first))
    return Pairs(np.sqrt(squares[best, row]), ends[best, row], starts[best, row])


def _edge_points(p: Array, p_end: Array, q: Array, q_end: Array) -> tuple[Array, Array]:
    """Return the nearest points of two edges, row by row; parallel edges may give any point of the first."""
    way, other, gap = p_end - p, q_end - q, p - q
    a, e = np.einsum("ij,ij->i", way, way), np.einsum("ij,ij->i", other, other)
    b, c = np.einsum("ij,ij->i", way, other), np.einsum("ij,ij->i", way, gap)
    f = np.einsum("ij,ij->i", other, gap)
    a, e = np.maximum(a, 1e-300), np.maximum(e, 1e-300)
    slant = a * e - b * b
    s = np.clip(np.where(slant > 1e-14 * a * e, (b * f - c * e) / np.maximum(slant, 1e-300), 0.0), 0.0, 1.0)
    t = np.clip((b * s + f) / e, 0.0, 1.0)
    s = np.clip((b * t - c) / a, 0.0, 1.0)
    return p + s[:, None] * way, q + t[:, None] * other


def _crossing(start: Array, end: Array, through: Frames) -> Array:
    """Return where each edge goes through the triangle of the same row, NaN where it does not."""
    low, high = _flat(through, start).w, _flat(through, end).w
    apart = (low * high > 0.0) | (low == high)
    share = np.where(apart, np.nan, low / np.where(apart, 1.0, low - high))
    point: Array = start + share[:, None] * (end - start)
    outside = ~_flat(through, np.nan_to_num(point)).inside
    point[outside] = np.nan
    return point
