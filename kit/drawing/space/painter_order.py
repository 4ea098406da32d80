"""In which order triangles are painted so that what is nearer covers what is farther.

Triangles (n, 3, 3) hold right, up and toward the eye for each corner, turned counterclockwise as seen. For two
triangles that overlap in the picture the planes decide: what lies nowhere behind the plane of another cannot be
hidden by it. Where that leaves both ways open, the depths at their common points decide. Triangles that pierce
each other, or that hide each other in a ring, are cut along the planes.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Index = NDArray[np.int64]
Flags = NDArray[np.bool_]

ROUNDS, _WORK = 8, 12_000
"""Cutting stops after so many rounds, fewer where there are many triangles: rounds times triangles ..."""
_SPARE = 2000
"""... or after so many cuts; what is then undecided is painted by its distance."""
_CHUNK = 400_000
"""Pairs looked at at a time, so that memory stays small."""
_TOUCH = 2e-5
"""An overlap smaller than this share of the picture is none ..."""
_FLAT = 1e-5
"""... and a point this near to a plane is on it."""


@dataclass(frozen=True, eq=False)
class Pieces:
    """Triangles to paint: corners (n, 3, 3), the given triangle that each is a part of, drawn sides (n, 3)."""

    corners: Floats
    source: Index
    drawn: Flags

    def __len__(self) -> int:
        return len(self.corners)


def painting_order(pieces: Pieces, group: Index, size: float) -> tuple[Pieces, list[Index]]:
    """Return the triangles, some of them cut, and layers of numbers to paint one after the other.

    Triangles of a layer do not cover each other and are of one group. `group` (by given triangle) is 0 for what is
    opaque, and counts what is translucent from the farthest on: each is painted as a whole, in as few goes as what
    is opaque allows. `size` is the extent of the picture, mm.
    """
    most = len(pieces) + _SPARE
    for left in range(min(ROUNDS, _WORK // (len(pieces) + 1)), -1, -1):
        back, front, pierced = _hiding(pieces.corners, size)
        number = group[pieces.source]
        back, front = _of_concern(np.stack([back, front], axis=1), number).T
        pierced = _of_concern(pierced, number)
        ring = _in_rings(len(pieces), back, front)
        tied = (ring[back] > 0) & (ring[back] == ring[front])
        if not left or len(pieces) > most or not (len(pierced) or tied.any()):
            break
        pairs = pierced if len(pierced) else np.stack([back[tied], front[tied]], axis=1)
        more = _cut(pieces, np.concatenate([pairs, pairs[:, ::-1]]), size)
        if more is None:
            break
        pieces = more
    return pieces, _layers(pieces, group[pieces.source], back, front)


def _of_concern(pairs: Index, group: Index) -> Index:
    """Return the pairs (k, 2) of one group, or with an opaque triangle: ghosts as a whole lie behind each other."""
    one, other = group[pairs[:, 0]], group[pairs[:, 1]]
    kept: Index = pairs[(one == other) | (one == 0) | (other == 0)]
    return kept


def _hiding(corners: Floats, size: float) -> tuple[Index, Index, Index]:
    """Return which triangle must be painted before which, and the pairs (k, 2) that pierce each other."""
    normals, offsets = planes(corners)
    sides, touch, flat = _sides(corners), _TOUCH * size, _FLAT * size
    before, after, pierced = [], [], []
    for i, j in _near(corners):
        keep = _beside(sides, i, corners, j, touch)
        i, j = i[keep], j[keep]
        keep = _beside(sides, j, corners, i, touch)
        i, j = i[keep], j[keep]
        j_over_i = _heights(corners[j], normals[i], offsets[i])
        i_over_j = _heights(corners[i], normals[j], offsets[j])
        free_j = (j_over_i.min(axis=1) >= -flat) | (i_over_j.max(axis=1) <= flat)  # i cannot hide j
        free_i = (i_over_j.min(axis=1) >= -flat) | (j_over_i.max(axis=1) <= flat)
        first, second = free_j & ~free_i, free_i & ~free_j
        unsure = np.flatnonzero(~free_i & ~free_j)
        if len(unsure):
            low, high = _gap(corners[i[unsure]], corners[j[unsure]])
            through = (low < -flat) & (high > flat)
            nearer = high + low > 0
            first[unsure], second[unsure] = nearer, ~nearer
            pierced.append(np.stack([i[unsure][through], j[unsure][through]], axis=1))
        before += [i[first], j[second]]
        after += [j[first], i[second]]
    if not before:
        return np.zeros(0, dtype=np.int64), np.zeros(0, dtype=np.int64), np.zeros((0, 2), dtype=np.int64)
    pairs = np.concatenate(pierced) if pierced else np.zeros((0, 2), dtype=np.int64)
    return np.concatenate(before), np.concatenate(after), pairs


def planes(corners: Floats) -> tuple[Floats, Floats]:
    """Return unit normals (n, 3) toward the eye and offsets (n,) of the planes of triangles."""
    a, b, c = corners[:, 0], corners[:, 1], corners[:, 2]
    normals = np.cross(b - a, c - a)
    normals /= np.maximum(np.sqrt(np.einsum("ij,ij->i", normals, normals)), 1e-300)[:, None]
    return normals, np.einsum("ij,ij->i", normals, a)


def _heights(corners: Floats, normals: Floats, offsets: Floats) -> Floats:
    return np.asarray(np.einsum("kvi,ki->kv", corners, normals) - offsets[:, None])


def _near(corners: Floats) -> list[tuple[Index, Index]]:
    """Return pairs of triangles whose boxes in the picture overlap, in chunks."""
    if not len(corners):
        return []
    low, high = corners[:, :, :2].min(axis=1), corners[:, :, :2].max(axis=1)
    axis = int(np.argmin((high - low).sum(axis=0) / np.maximum(np.ptp(corners[:, :, :2], axis=(0, 1)), 1e-300)))
    order = np.argsort(low[:, axis], kind="stable")
    low, high = low[order], high[order]
    last = np.searchsorted(low[:, axis], high[:, axis], side="left")
    count = np.maximum(last - np.arange(len(order)) - 1, 0)
    ends = np.cumsum(count)
    chunks, begin, other = [], 0, 1 - axis
    while begin < len(order):
        done = ends[begin - 1] if begin else 0
        end = max(begin + 1, int(np.searchsorted(ends, done + _CHUNK, side="right")))
        many = count[begin:end]
        i = np.repeat(np.arange(begin, end), many)
        j = i + 1 + np.arange(len(i)) - np.repeat(np.cumsum(many) - many, many)
        keep = (low[i, other] < high[j, other]) & (low[j, other] < high[i, other])
        chunks.append((order[i[keep]], order[j[keep]]))
        begin = end
    return chunks


def _sides(corners: Floats) -> Floats:
    """Return for each side (n, 3) of triangles a, b, c, so that a x + b y + c is the distance to its left."""
    start, along = corners[:, :, :2], np.roll(corners[:, :, :2], -1, axis=1) - corners[:, :, :2]
    along /= np.maximum(np.hypot(along[..., 0], along[..., 1]), 1e-300)[..., None]
    zero = start[..., 0] * along[..., 1] - start[..., 1] * along[..., 0]
    return np.stack([-along[..., 1], along[..., 0], zero])


def _beside(sides: Floats, i: Index, corners: Floats, j: Index, touch: float) -> Flags:
    """Return where no side of triangle i has the whole triangle j on its right: nothing parts them."""
    a, b, c = sides[:, i]
    x, y = corners[j, :, 0], corners[j, :, 1]
    most = a * x[:, :1] + b * y[:, :1]
    for k in (1, 2):
        np.maximum(most, a * x[:, k : k + 1] + b * y[:, k : k + 1], out=most)
    return np.asarray((most + c > touch).all(axis=1))


def _gap(p: Floats, q: Floats) -> tuple[Floats, Floats]:
    """Return the least and the greatest height of q's plane over p's, toward the eye, where the two overlap."""
    crossings = []
    for a in range(3):
        for b in range(3):
            start, side = p[:, a, :2], p[:, a - 2, :2] - p[:, a, :2]
            other, along = q[:, b, :2], q[:, b - 2, :2] - q[:, b, :2]
            cross = side[:, 0] * along[:, 1] - side[:, 1] * along[:, 0]
            away = other - start
            share = (away[:, 0] * along[:, 1] - away[:, 1] * along[:, 0]) / np.where(cross == 0, np.inf, cross)
            crossings.append(start + np.clip(share, 0, 1)[:, None] * side)
    points = np.concatenate([p[:, :, :2], q[:, :, :2], np.stack(crossings, axis=1)], axis=1)
    common = _inside(points, p) & _inside(points, q)
    over = _depth(points, q) - _depth(points, p)
    low = np.where(common, over, np.inf).min(axis=1)
    high = np.where(common, over, -np.inf).max(axis=1)
    none = ~common.any(axis=1)
    return np.where(none, 0.0, low), np.where(none, 0.0, high)


def _inside(points: Floats, triangles: Floats) -> Flags:
    inside = np.ones(points.shape[:2], dtype=bool)
    for k in range(3):
        start, side = triangles[:, None, k, :2], (triangles[:, k - 2, :2] - triangles[:, k, :2])[:, None]
        away = points - start
        reach = np.abs(side).sum(axis=2) + 1e-300
        inside &= (side[..., 0] * away[..., 1] - side[..., 1] * away[..., 0]) / reach > -1e-7 * reach
    return inside


def _depth(points: Floats, triangles: Floats) -> Floats:
    """Return how far toward the eye the triangles' planes lie at points (k, m, 2) of the picture."""
    normals, offsets = planes(triangles)
    steep = np.where(np.abs(normals[:, 2]) < 1e-9, np.inf, normals[:, 2])
    flat = np.einsum("kmi,ki->km", points, normals[:, :2])
    return np.asarray((offsets[:, None] - flat) / steep[:, None])


def _in_rings(count: int, back: Index, front: Index) -> Index:
    """Return for each triangle the ring of mutual hiding it belongs to, from 1; 0 for none."""
    from scipy.sparse import coo_matrix
    from scipy.sparse.csgraph import connected_components

    if not len(back):
        return np.zeros(count, dtype=np.int64)
    graph = coo_matrix((np.ones(len(back), dtype=np.int8), (back, front)), shape=(count, count))
    _, label = connected_components(graph, directed=True, connection="strong")
    size = np.bincount(label)
    return np.asarray(np.where(size[label] > 1, label + 1, 0), dtype=np.int64)


def _cut(pieces: Pieces, pairs: Index, size: float) -> Pieces | None:
    """Return the pieces with the first of each pair (k, 2) cut along the plane of one second that parts it."""
    normals, offsets = planes(pieces.corners)
    heights = _heights(pieces.corners[pairs[:, 0]], normals[pairs[:, 1]], offsets[pairs[:, 1]])
    parted = np.minimum(heights.max(axis=1), -heights.min(axis=1))
    pairs, heights, parted = (a[parted > _FLAT * size] for a in (pairs, heights, parted))
    if not len(pairs):
        return None
    order = np.lexsort((pairs[:, 1], -parted, pairs[:, 0]))
    _, first = np.unique(pairs[order, 0], return_index=True)
    chosen = order[first]
    number, height = pairs[chosen, 0], heights[chosen]
    # The lone corner first; a corner on the plane counts to the side that leaves one corner alone.
    above = height > 0
    lone = np.where(above.sum(axis=1) == 1, np.argmax(above, axis=1), np.argmin(above, axis=1))
    turn = (lone[:, None] + np.arange(3)) % 3
    row = np.arange(len(number))[:, None]
    corners, drawn, height = (
        pieces.corners[number][row, turn],
        pieces.drawn[number][row, turn],
        height[row, turn],
    )
    share = np.clip(height[:, :1] / (height[:, :1] - height[:, 1:]), 0, 1)[..., None]
    ab = corners[:, 0] + share[:, 0] * (corners[:, 1] - corners[:, 0])
    ac = corners[:, 0] + share[:, 1] * (corners[:, 2] - corners[:, 0])
    a, b, c = corners[:, 0], corners[:, 1], corners[:, 2]
    new = np.concatenate([np.stack(t, axis=1) for t in ((a, ab, ac), (ab, b, c), (ab, c, ac))])
    no = np.zeros(len(number), dtype=bool)
    sides = [(drawn[:, 0], no, drawn[:, 2]), (drawn[:, 0], drawn[:, 1], no), (no, drawn[:, 2], no)]
    kept = np.ones(len(pieces), dtype=bool)
    kept[number] = False
    real = np.linalg.norm(np.cross(new[:, 1] - new[:, 0], new[:, 2] - new[:, 0]), axis=1) > 1e-12 * size**2
    return Pieces(
        np.concatenate([pieces.corners[kept], new[real]]),
        np.concatenate([pieces.source[kept], np.tile(pieces.source[number], 3)[real]]),
        np.concatenate([pieces.drawn[kept], np.concatenate([np.stack(s, axis=1) for s in sides])[real]]),
    )


def _layers(pieces: Pieces, group: Index, back: Index, front: Index) -> list[Index]:
    """Return the layers, farthest first; a group goes on as long as it can, so that it is painted in few goes."""
    count = len(pieces)
    order = np.argsort(back, kind="stable")
    targets = front[order]
    begin = np.searchsorted(back[order], np.arange(count + 1))
    waiting = np.bincount(front, minlength=count)
    depth = pieces.corners[:, :, 2].mean(axis=1)
    free = waiting == 0
    left, layers, now = count, [], -1
    while left:
        ready = np.flatnonzero(free)
        if not len(ready):  # a ring that could not be cut: the farthest goes first
            held = np.flatnonzero(waiting > 0)
            ready = held[np.argmin(depth[held])][None]
        same = ready[group[ready] == now]
        if not len(same):
            now = int(group[ready].min())
            same = ready[group[ready] == now]
        layers.append(same)
        left -= len(same)
        free[same] = False
        waiting[same] = -1
        many = begin[same + 1] - begin[same]
        at = np.repeat(begin[same] - np.cumsum(many) + many, many) + np.arange(int(many.sum()))
        hit = targets[at]
        hit = hit[waiting[hit] > 0]  # broken rings may point back at what is painted
        waiting -= np.bincount(hit, minlength=count)
        free[hit[waiting[hit] == 0]] = True
    return layers
