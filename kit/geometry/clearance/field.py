"""A grid around the obstacle, made finer where it is asked: how near the obstacle can be, and which triangles."""

import math
from typing import NamedTuple, Protocol

import numpy as np
from numpy.typing import ArrayLike, NDArray

from kit.geometry.clearance.distance import Array, Frames, Index, point_distance

MOST_CELLS = 4_000_000  # of the finest size, of all groups together
CELLS = 128  # along the longest side
STEPS = 4  # halvings from the coarsest cell to the finest
ROUNDING = 1e-5  # of the largest coordinate: above what single precision loses in a distance
CHUNK = 1 << 15  # pairs of a point and a triangle that are measured at once
NEAR = 3.0  # cells nearer to the obstacle than this many half diagonals are halved


class Nearness(Protocol):
    """What the search asks of a field; `Field` knows any triangles, another may know a shape in closed form."""

    @property
    def groups(self) -> int:
        """How many groups of triangles there are."""

    @property
    def widest(self) -> float:
        """The largest radius [mm] of a ball for which there are lists, 0 if there are none."""

    def covers(self, points: Array) -> NDArray[np.bool_]:
        """Return which of `points` (n, 3) lie where exact distances and lists hold."""

    def bound(self, points: Array, group: Index, radius: Array, limit: Array) -> Array:
        """Return what the distance (n,) [mm] of `points` (n, 3) to their group is at least."""

    def distance(self, points: Array, group: Index) -> Array:
        """Return the exact distances (n,) [mm] of `points` (n, 3) that are covered."""

    def lists(self, points: Array, group: Index, radius: Array) -> tuple[Index, Index]:
        """Return (ball, triangle) for each triangle that can be nearest to a point of a ball that is covered."""


class _Rows(NamedTuple):
    """What is known of each cell that was measured, in the order in which that was done."""

    nearest: Array  # [mm] distance of the cell's center, a little less than the truth at most
    half: Array  # [mm] half the cell's diagonal
    start: Index  # (n + 1,) into `triangle`
    triangle: Index  # the triangles that can be nearest


class Field:
    """Least possible distance [mm] to each group of triangles, cell by cell, over a box.

    Seen from any point of a cell, every triangle that is at most two half diagonals farther than the nearest one is
    in the cell's list: a ball of half a diagonal about the point finds all its nearest triangles there. Cells are
    measured when they are first asked for, so that the answers do not depend on the order of the questions.
    """

    def __init__(self, frames: Frames, groups: ArrayLike, bounds: ArrayLike) -> None:
        """Lay the coarsest cells over `bounds` (2, 3) [mm] for the triangles in `groups` (n,)."""
        box, group = np.asarray(bounds, dtype=float), np.asarray(groups, dtype=np.int64)
        count = int(group.max()) + 1
        extent = np.maximum(box[1] - box[0], 1e-3)
        size = max(float((extent.prod() * count / MOST_CELLS) ** (1.0 / 3.0)), float(extent.max()) / CELLS)
        shape = np.ceil(extent / (size * 2**STEPS)).astype(int)
        self.frames, self.origin, self.size = frames, box[0], size
        self._single, self._loss = _single(frames, box)
        self._tables = [np.full((count, *(shape * 2**step)), -1, dtype=np.int32) for step in range(STEPS + 1)]
        self._rows = _Rows(np.zeros(0), np.zeros(0), np.zeros(1, dtype=np.int64), np.zeros(0, dtype=np.int64))
        cells = np.stack(np.meshgrid(*map(np.arange, (count, *shape)), indexing="ij"), axis=-1).reshape(-1, 4)
        lists = [np.flatnonzero(group == number) for number in range(count)]
        lengths = np.array([len(found) for found in lists])[cells[:, 0]]
        starts = np.concatenate([[0], np.cumsum(lengths)])
        self._measure(0, cells, starts, np.concatenate([lists[number] for number in cells[:, 0]]))

    @property
    def groups(self) -> int:
        """How many groups of triangles there are."""
        return len(self._tables[0])

    @property
    def half(self) -> float:
        """Half the diagonal of the finest cell [mm]."""
        return self.size * math.sqrt(3.0) / 2.0

    @property
    def widest(self) -> float:
        """The largest radius [mm] of a ball for which there are lists."""
        return float(self.half * 2.0**STEPS)

    def covers(self, points: Array) -> NDArray[np.bool_]:
        """Return which of `points` (n, 3) lie in the box, where exact distances and lists hold."""
        high = self.origin + self.size * np.array(self._tables[-1].shape[1:])
        within: NDArray[np.bool_] = np.logical_and.reduce((points >= self.origin) & (points <= high), axis=1)
        return within

    def bound(self, points: Array, group: Index, radius: Array, limit: Array) -> Array:
        """Return what the distance (n,) [mm] of `points` (n, 3) to their group is at least.

        `radius` (n,) [mm] says how much the answer may be too small, `limit` (n,) [mm] above what no more is asked.
        """
        rows = self._found(points, group, radius / 2.0, limit)
        least = self._rows.nearest[rows] - self._rows.half[rows]
        high = self.origin + self.size * np.array(self._tables[-1].shape[1:])
        out = np.maximum(np.maximum(self.origin - points, points - high), 0.0)
        if out.any():
            return np.asarray(least - np.sqrt(np.einsum("ij,ij->i", out, out)), dtype=float)
        return least

    def distance(self, points: Array, group: Index) -> Array:
        """Return the exact distances (n,) [mm] of `points` (n, 3), which the field must cover."""
        rows = self._found(points, group, np.zeros(len(points)), np.full(len(points), np.inf))
        counts = self._rows.start[rows + 1] - self._rows.start[rows]
        exact = np.empty(len(points))
        for part in _portions(counts):
            owner, triangle = _spread(self._rows.start[rows[part]], counts[part], self._rows.triangle)
            measured = point_distance(self.frames.take(triangle), points[part][owner])
            exact[part] = np.minimum.reduceat(measured, np.cumsum(counts[part]) - counts[part])
        return exact

    def lists(self, points: Array, group: Index, radius: Array) -> tuple[Index, Index]:
        """Return (ball, triangle), one pair for each triangle that can be nearest to a point of a ball.

        The balls lie about `points` (n, 3), which the field must cover, and have a `radius` (n,) up to `widest`.
        """
        rows = self._found(points, group, 2.0 * radius, np.full(len(points), np.inf))
        return _spread(self._rows.start[rows], self._rows.start[rows + 1] - self._rows.start[rows], self._rows.triangle)

    def _found(self, points: Array, group: Index, half: Array, limit: Array) -> Index:
        """Return the row of each point's cell: halved while it is near, its half diagonal is at least `half`."""
        rows = self._tables[0][(group, *self._cells(points, 0))].astype(np.int64)
        at = np.arange(len(points))
        for step in range(1, STEPS + 1):
            now, parent = self._rows.half[rows[at]], self._rows.nearest[rows[at]]
            at = at[(now >= half[at]) & (parent < NEAR * now) & (parent - now < limit[at])]
            if len(at) == 0:
                break
            cell = (group[at], *self._cells(points[at], step))
            found = self._tables[step][cell]
            missing = np.flatnonzero(found < 0)
            if len(missing):
                self._halve(step, np.stack([axis[missing] for axis in cell], axis=1), rows[at[missing]])
                found = self._tables[step][cell]
            rows[at] = found
        return rows

    def _halve(self, step: int, cells: Index, parents: Index) -> None:
        """Measure the cells (n, 4), given more than once, each with its parent's list."""
        key = np.ravel_multi_index(tuple(cells.T), self._tables[step].shape)
        _, first = np.unique(key, return_index=True)
        parent = parents[first]
        counts = self._rows.start[parent + 1] - self._rows.start[parent]
        _, triangle = _spread(self._rows.start[parent], counts, self._rows.triangle)
        self._measure(step, cells[first], np.concatenate([[0], np.cumsum(counts)]), triangle)

    def _measure(self, step: int, cells: Index, start: Index, triangle: Index) -> None:
        """Measure the centers of cells (n, 4) of one size, and keep of each list what can be nearest."""
        side = self.size * 2 ** (STEPS - step)
        half = side * math.sqrt(3.0) / 2.0
        center = ((cells[:, 1:] + 0.5) * side).astype(np.float32)
        counts = np.diff(start)
        nearest, keep = np.empty(len(counts)), np.empty(len(triangle), dtype=bool)
        for part in _portions(counts):
            inner = slice(int(start[part.start]), int(start[part.stop]))
            owner = np.repeat(np.arange(part.stop - part.start), counts[part])
            distance = point_distance(self._single.take(triangle[inner]), center[part][owner])
            nearest[part] = np.minimum.reduceat(distance, start[part] - inner.start)
            keep[inner] = distance <= nearest[part][owner] + (4.0 * half + 2.0 * self._loss)
        old = self._rows
        self._tables[step][tuple(cells.T)] = len(old.half) + np.arange(len(cells))
        ends = old.start[-1] + np.cumsum(np.add.reduceat(keep, start[:-1]))
        self._rows = _Rows(
            np.concatenate([old.nearest, nearest - self._loss]),
            np.concatenate([old.half, np.full(len(cells), half)]),
            np.concatenate([old.start, ends]),
            np.concatenate([old.triangle, triangle[keep]]),
        )

    def _cells(self, points: Array, step: int) -> tuple[Index, Index, Index]:
        cell = ((points - self.origin) / (self.size * 2 ** (STEPS - step))).astype(np.int64)
        np.clip(cell, 0, np.array(self._tables[step].shape[1:]) - 1, out=cell)
        return cell[:, 0], cell[:, 1], cell[:, 2]


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


def _single(frames: Frames, bounds: Array) -> tuple[Frames, float]:
    """Return the frames in single precision, seen from the box's corner, and what a distance loses by that [mm]."""
    rows = frames.to_flat.copy()
    for axis in (0, 4, 8):
        rows[axis + 3] += bounds[0] @ rows[axis : axis + 3]
    largest = max(float(np.abs(rows[3::4]).max()), float(frames.width.max()), float(np.ptp(bounds, axis=0).max()))
    parts = (rows, frames.width, frames.x, frames.y)
    return Frames._make(part.astype(np.float32) for part in parts), ROUNDING * largest
