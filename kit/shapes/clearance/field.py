"""A grid around the hood: for every cell, how near the hood can be, and which of its triangles can be nearest."""

import math
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from .distance import Array, Frames, Index, point_distance

MOST_CELLS = 4_000_000  # of all groups together
CELLS = 128  # along the longest side
STEPS = 4  # halvings from the coarsest cell to the finest
ROUNDING = 1e-5  # of the largest coordinate: above what single precision loses in a distance
CHUNK = 1 << 15  # pairs of a cell and a triangle that are measured at once
NEAR = 3.0  # cells nearer to the hood than this many half diagonals are halved


class _Items(NamedTuple):
    """Cells of one size, each for one group of triangles, with the triangles that can be nearest."""

    cell: Index  # (n, 3)
    group: Index  # (n,)
    start: Index  # (n + 1,) into `triangle`
    triangle: Index


@dataclass(frozen=True)
class Field:
    """Least possible distance [mm] to each group of triangles, cell by cell; the finest cells have `size` [mm]."""

    frames: Frames
    origin: Array  # (3,) [mm]
    size: float  # [mm]
    least: NDArray[np.float32]  # (groups, nx, ny, nz) [mm]
    rows: tuple[
        NDArray[np.int32], ...
    ]  # from the coarsest cells to the finest: which list belongs to the cell
    start: Index  # (rows + 1,)
    triangle: Index
    first: Index  # (steps,) the first row of each step

    @property
    def half(self) -> float:
        """Half the diagonal of the finest cell [mm]."""
        return self.size * math.sqrt(3.0) / 2.0

    @classmethod
    def over(cls, frames: Frames, groups: Index, bounds: Array) -> "Field":
        """Return the field of triangles in `groups` (n,) over the box `bounds` (2, 3) [mm].

        Seen from any point of a cell, every triangle that is at most two half diagonals farther than the nearest
        one is in the cell's list: a ball of half a diagonal about the point finds all its nearest triangles there.
        """
        count = int(groups.max()) + 1
        extent = np.maximum(bounds[1] - bounds[0], 1e-3)
        size = float((extent.prod() * count / MOST_CELLS) ** (1.0 / 3.0))
        size = max(size, float(extent.max()) / CELLS)
        coarse = size * 2**STEPS
        shape = np.ceil(extent / coarse).astype(int)
        items = _whole(groups, shape)
        least, row = np.zeros((count, *shape), dtype=np.float32), np.zeros((count, *shape), dtype=np.int32)
        starts: list[Index] = []
        triangles: list[Index] = []
        tables: list[NDArray[np.int32]] = []
        kept = 0
        single, loss = _single(frames, bounds)
        for step in range(STEPS + 1):
            side = coarse / 2**step
            half = side * math.sqrt(3.0) / 2.0
            items, nearest = _measured(items, single, side, loss)
            at = (items.group, *items.cell.T)
            least[at] = np.maximum(least[at], nearest - half - loss)
            row[at] = sum(map(len, starts)) + np.arange(len(items.group))
            tables.append(row)
            starts.append(items.start[:-1] + kept)
            triangles.append(items.triangle)
            kept += len(items.triangle)
            if step < STEPS:
                items = _halved(items, nearest < NEAR * half)
                for axis in (1, 2, 3):
                    least, row = np.repeat(least, 2, axis=axis), np.repeat(row, 2, axis=axis)
        return cls(
            frames, bounds[0], size, least, tuple(tables),
            np.concatenate([*starts, [kept]]), np.concatenate(triangles),
            np.cumsum([0, *map(len, starts[:-1])]),
        )  # fmt: skip

    @property
    def widest(self) -> float:
        """The largest radius [mm] of a ball for which there are lists."""
        return float(self.half * 2.0**STEPS)

    def _cells(self, points: Array, table: NDArray[np.generic], size: float) -> tuple[Index, Index, Index]:
        cell = ((points - self.origin) / size).astype(np.int64)
        np.clip(cell, 0, np.array(table.shape[1:]) - 1, out=cell)
        return cell[:, 0], cell[:, 1], cell[:, 2]

    def _rows(self, points: Array, group: Index, radius: Array | float) -> Index:
        row = np.zeros(len(points), dtype=np.int64)
        ratio = np.maximum(np.broadcast_to(np.asarray(radius), len(points)) / self.half, 1.0)
        step = STEPS - np.ceil(np.log2(ratio)).astype(np.int64)
        for number in np.unique(step):
            mine, table = np.flatnonzero(step == number), self.rows[number]
            row[mine] = table[
                (group[mine], *self._cells(points[mine], table, self.size * 2 ** (STEPS - number)))
            ]
        return row

    def bound(self, points: Array, group: Index) -> Array:
        """Return what the distance (n,) [mm] of `points` (n, 3) to their group is at least."""
        least = self.least[(group, *self._cells(points, self.least, self.size))].astype(np.float64)
        high = self.origin + self.size * np.array(self.least.shape[1:])
        out = np.maximum(np.maximum(self.origin - points, points - high), 0.0)
        if out.any():
            least -= np.sqrt((out * out).sum(axis=1))
        return least

    def slack(self, points: Array, group: Index) -> Array:
        """Return half the diagonal (n,) [mm] of the cell that each point lies in: `bound` errs by up to twice that."""
        step = np.searchsorted(self.first, self._rows(points, group, 0.0), side="right") - 1
        return np.asarray(self.half * 2.0 ** (STEPS - step), dtype=float)

    def covers(self, points: Array) -> NDArray[np.bool_]:
        """Return which of `points` (n, 3) lie in the field's box, where the lists hold."""
        high = self.origin + self.size * np.array(self.least.shape[1:])
        within = (points >= self.origin) & (points <= high)
        return within[:, 0] & within[:, 1] & within[:, 2]

    def lists(self, points: Array, group: Index, radius: Array) -> tuple[Index, Index]:
        """Return (ball, triangle), one pair for each triangle that can be nearest to a point of a ball.

        The balls lie about `points` (n, 3), which the field must cover, and have a `radius` (n,) up to `widest`.
        """
        row = self._rows(points, group, radius)
        return _spread(self.start[row], self.start[row + 1] - self.start[row], self.triangle)

    def distance(self, points: Array, group: Index) -> Array:
        """Return the exact distances (n,) [mm] of `points` (n, 3), which the field must cover."""
        row = self._rows(points, group, 0.0)
        counts = self.start[row + 1] - self.start[row]
        exact = np.empty(len(points))
        for part in _portions(counts):
            owner, triangle = _spread(self.start[row[part]], counts[part], self.triangle)
            measured = point_distance(self.frames.take(triangle), points[part][owner])
            exact[part] = np.minimum.reduceat(measured, np.cumsum(counts[part]) - counts[part])
        return exact


def _spread(start: Index, counts: Index, values: Index) -> tuple[Index, Index]:
    owner = np.repeat(np.arange(len(counts)), counts)
    place = np.arange(len(owner)) - np.repeat(np.cumsum(counts) - counts, counts)
    return owner, values[start[owner] + place]


def _portions(counts: Index) -> list[slice]:
    """Cut rows into runs with about CHUNK pairs each."""
    if len(counts) == 0:
        return []
    total = np.cumsum(counts)
    cuts = np.searchsorted(total, np.arange(CHUNK, total[-1] + CHUNK, CHUNK)) + 1
    ends = np.unique(np.minimum(cuts, len(counts)))
    return [slice(int(a), int(b)) for a, b in zip([0, *ends[:-1]], ends, strict=True) if b > a]


def _whole(groups: Index, shape: NDArray[np.int64]) -> _Items:
    cells = np.stack(np.meshgrid(*(np.arange(n) for n in shape), indexing="ij"), axis=-1).reshape(-1, 3)
    lists = [np.flatnonzero(groups == group) for group in range(int(groups.max()) + 1)]
    counts = np.repeat([len(found) for found in lists], len(cells))
    return _Items(
        np.tile(cells, (len(lists), 1)),
        np.repeat(np.arange(len(lists)), len(cells)),
        np.concatenate([[0], np.cumsum(counts)]),
        np.concatenate([np.tile(found, len(cells)) for found in lists]),
    )


def _single(frames: Frames, bounds: Array) -> tuple[Frames, float]:
    """Return the frames in single precision, seen from the box's corner, and what a distance loses by that [mm]."""
    rows = frames.to_flat.copy()
    for axis in (0, 4, 8):
        rows[axis + 3] += bounds[0] @ rows[axis : axis + 3]
    largest = max(
        float(np.abs(rows[3::4]).max()), float(frames.width.max()), float(np.ptp(bounds, axis=0).max())
    )
    parts = (rows, frames.width, frames.x, frames.y)
    return Frames._make(part.astype(np.float32) for part in parts), ROUNDING * largest


def _measured(items: _Items, frames: Frames, side: float, loss: float) -> tuple[_Items, Array]:
    """Return the items with the triangles too far away left out, and the distance of each cell's center."""
    center = ((items.cell + 0.5) * side).astype(np.float32)
    counts = np.diff(items.start)
    nearest, keep = np.empty(len(counts)), np.empty(len(items.triangle), dtype=bool)
    slack = 2.0 * side * math.sqrt(3.0) + 2.0 * loss  # four half diagonals
    for part in _portions(counts):
        inner = slice(int(items.start[part.start]), int(items.start[part.stop]))
        owner = np.repeat(np.arange(part.stop - part.start), counts[part])
        distance = point_distance(frames.take(items.triangle[inner]), center[part][owner])
        nearest[part] = np.minimum.reduceat(distance, items.start[part] - inner.start)
        keep[inner] = distance <= nearest[part][owner] + slack
    kept = np.add.reduceat(keep, items.start[:-1]) if len(counts) else counts
    start = np.concatenate([[0], np.cumsum(kept)])
    return _Items(items.cell, items.group, start, items.triangle[keep]), nearest


def _halved(items: _Items, chosen: NDArray[np.bool_]) -> _Items:
    """Return the eight halves of the chosen cells, each with its parent's list."""
    index = np.flatnonzero(chosen)
    corner = np.stack(np.meshgrid(*[[0, 1]] * 3, indexing="ij"), axis=-1).reshape(-1, 3)
    cell = (2 * items.cell[index][:, None] + corner).reshape(-1, 3)
    parent = np.repeat(index, 8)
    counts = items.start[parent + 1] - items.start[parent]
    _, triangle = _spread(items.start[parent], counts, items.triangle)
    return _Items(cell, items.group[parent], np.concatenate([[0], np.cumsum(counts)]), triangle)
