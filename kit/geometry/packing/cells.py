"""Outlines as cells of a square grid, never smaller than the outline, and how much two of them overlap when shifted.

Arrays run along x first, then y. What is disjoint in cells is disjoint in truth.
"""

import math
from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy import fft
from shapely import Polygon, affinity
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from kit.geometry.packing.stock import CutPart, turned

Cells = NDArray[np.bool_]
Costs = NDArray[np.float32]
Points = NDArray[np.float64]
Whole = NDArray[np.int64]

ARC = 8  # sides to a quarter of the many-cornered disk that stands for half a kerf about a corner
STRIDE = 2  # cells between two places that are tried at a time: layouts come out as dense, for less work


def covered(shape: BaseGeometry, size: float, across: tuple[int, int]) -> Cells:
    """Return which cells of a grid from the origin share area with a polygon or several.

    across: cells along x and y, which must hold the shape.
    """
    cells = np.zeros(across, dtype=bool)
    for polygon in shapely.get_parts(shape):
        if isinstance(polygon, Polygon):
            _cover(cells, polygon, size)
    return cells


def _cover(cells: Cells, polygon: Polygon, size: float) -> None:
    whole = orient(polygon)
    rings = [np.asarray(ring.coords) / size for ring in (whole.exterior, *whole.interiors)]
    begin = np.concatenate([ring[:-1] for ring in rings])
    end = np.concatenate([ring[1:] for ring in rings])
    _fill(cells, begin, end)
    step = end - begin
    length = np.hypot(*step.T)
    begin, step, length = begin[length > 0], step[length > 0], length[length > 0]
    inward = 1e-7 * np.column_stack([-step[:, 1], step[:, 0]]) / length[:, None]
    every = np.arange(len(begin))
    edge, at = [every, every], [np.zeros(len(begin)), np.ones(len(begin))]
    for axis in (0, 1):  # where the edges cross the lines of the grid
        low = np.floor(np.minimum(begin, begin + step)[:, axis]).astype(int) + 1
        high = np.ceil(np.maximum(begin, begin + step)[:, axis]).astype(int)
        which, line = _counted(low, high)
        edge.append(which)
        at.append((line - begin[which, axis]) / step[which, axis])
    edges, along = np.concatenate(edge), np.concatenate(at)
    order = np.lexsort((along, edges))
    edges, along = edges[order], along[order]
    within = edges[1:] == edges[:-1]
    which = edges[1:][within]
    middle = ((along[1:] + along[:-1]) / 2)[within]
    i, j = np.floor(begin[which] + middle[:, None] * step[which] + inward[which]).astype(int).T
    cells[np.clip(i, 0, cells.shape[0] - 1), np.clip(j, 0, cells.shape[1] - 1)] = True


def _counted(low: Whole, high: Whole) -> tuple[Whole, Whole]:
    """Return for spans low … high - 1 the number of the span and each whole number in it, span after span."""
    count = np.maximum(high - low, 0)
    which = np.repeat(np.arange(len(count)), count)
    return which, low[which] + np.arange(len(which)) - np.repeat(np.cumsum(count) - count, count)


def _fill(cells: Cells, begin: Points, end: Points) -> None:
    """Add the cells whose centers lie inside, by the parity of the edges crossed on the way there."""
    nx, ny = cells.shape
    crossings = np.zeros((nx, ny + 1), dtype=np.int32)
    low, high = np.minimum(begin[:, 0], end[:, 0]), np.maximum(begin[:, 0], end[:, 0])
    which, column = _counted(
        np.maximum(np.ceil(low - 0.5).astype(int), 0), np.minimum(np.ceil(high - 0.5).astype(int), nx)
    )
    a, b = begin[which], end[which]
    y = a[:, 1] + (column + 0.5 - a[:, 0]) * (b[:, 1] - a[:, 1]) / (b[:, 0] - a[:, 0])
    np.add.at(crossings, (column, np.clip(np.ceil(y - 0.5).astype(int), 0, ny)), 1)
    cells |= (np.cumsum(crossings[:, :-1], axis=1) % 2).astype(bool)


@dataclass(frozen=True, eq=False)
class Turned:
    """A part as it may lie: one of its turns, over or not.

    bare: the outline, grown: it and half the kerf about it, both moved so that the least x and y of `bare` are zero;
    shift: what was added to get there. cells: those of `grown`, in a frame that begins half a kerf before zero;
    core: those of `bare` in the same frame. size: of a cell, half: half the kerf, mm.
    """

    part: int
    turn: float
    over: bool
    bare: Polygon
    grown: Polygon
    shift: tuple[float, float]
    size: float
    half: float

    @cached_property
    def cells(self) -> Cells:
        """The cells that the grown outline touches."""
        return self._in_frame(self.grown)

    @cached_property
    def core(self) -> Cells:
        """The cells that the bare outline touches."""
        return self._in_frame(self.bare) if self.half else self.cells

    def _in_frame(self, polygon: Polygon) -> Cells:
        _, _, right, top = self.bare.bounds
        across = [math.ceil((edge + 2 * self.half) / self.size - 1e-6) for edge in (right, top)]
        return covered(affinity.translate(polygon, self.half, self.half), self.size, (across[0], across[1]))

    @cached_property
    def runs(self) -> list[tuple[int, int, int]]:
        """The cells as runs along y: column, first cell and length; long ones first, which rule out most."""
        wide, high = self.cells.shape
        edged = np.zeros((wide, high + 2), dtype=np.int8)
        edged[:, 1:-1] = self.cells
        change = np.diff(edged, axis=1)
        column, begin = np.nonzero(change > 0)
        length = np.nonzero(change < 0)[1] - begin
        order = np.argsort(-length, kind="stable")
        return list(zip(column[order].tolist(), begin[order].tolist(), length[order].tolist(), strict=True))

    @cached_property
    def tallest(self) -> list[int]:
        """The longest run of each column."""
        found = [0] * self.cells.shape[0]
        for column, _, length in self.runs:
            found[column] = max(found[column], length)
        return found


@lru_cache(maxsize=4096)
def grown(outline: Polygon, half: float) -> Polygon:
    """Return an outline with `half` the kerf [mm] about it: exact along straight edges, nowhere less at corners."""
    if not half:
        return outline
    around = 2 * math.pi * (np.arange(4 * ARC) + 0.5) / (4 * ARC)
    disk = half / math.cos(math.pi / (4 * ARC)) * np.column_stack([np.cos(around), np.sin(around)])
    pieces = [outline]
    for ring in (outline.exterior, *outline.interiors):
        points = np.asarray(ring.coords)
        step = np.diff(points, axis=0)
        length = np.hypot(*step.T)
        points, step = points[:-1][length > 0], step[length > 0]
        side = half * np.column_stack([step[:, 1], -step[:, 0]]) / length[length > 0][:, None]
        corners = np.stack([points + side, points + step + side, points + step - side, points - side], axis=1)
        pieces += [*shapely.polygons(corners), *shapely.polygons(points[:, None] + disk)]
    whole = shapely.union_all(pieces)
    return whole if isinstance(whole, Polygon) else max(whole.geoms, key=lambda piece: piece.area)


@lru_cache(maxsize=256)
def ways(number: int, part: CutPart, size: float, half: float) -> tuple[Turned, ...]:
    """Return all different ways in which a part may lie, on cells of `size` with half a kerf `half` about it [mm].

    They are kept with their cells: another margin or another stock moves no part's own.
    """
    found: list[Turned] = []
    for over in (False, True) if part.over else (False,):
        for turn in part.turns:
            flat = part.laid(turn, over)
            x, y, _, _ = flat.bounds
            bare = affinity.translate(flat, -x, -y)
            if any(bare.symmetric_difference(other.bare).area < 1e-6 * bare.area for other in found):
                continue
            around = affinity.translate(turned(grown(part.outline, half), turn, over), -x, -y) if half else bare
            found.append(Turned(number, turn, over, bare, around, (-x, -y), size, half))
    return tuple(found)


def convolved(a: Costs, b: Costs) -> Costs:
    """Return the full convolution of two arrays, by fast Fourier transform."""
    across = [n + m - 1 for n, m in zip(a.shape, b.shape, strict=True)]
    padded = [fft.next_fast_len(n, real=True) for n in across]
    found: Costs = fft.irfft2(fft.rfft2(a, padded) * fft.rfft2(b, padded), padded)
    return found[: across[0], : across[1]]


class Overlaps:
    """How many cells two parts share at every shift of one against the other, each pair worked out once."""

    def __init__(self, most: int = 60_000_000) -> None:
        self._known: dict[tuple[int, int], Costs] = {}
        self._thinned: dict[tuple[int, int, int, int], Costs] = {}
        self._room = most

    def of(self, lying: Turned, moved: Turned) -> Costs:
        """Return shared cells by shift; the shift (0, 0) stands at (moved's width - 1, moved's height - 1)."""
        key, back = (id(lying), id(moved)), (id(moved), id(lying))
        if key not in self._known:
            if back in self._known:
                return self._known[back][::-1, ::-1]
            a = lying.cells.astype(np.float32)
            b = moved.cells.astype(np.float32)[::-1, ::-1]
            found = np.rint(convolved(a, b))
            if found.size > self._room:
                self._known.clear()
                self._thinned.clear()
                self._room = 60_000_000
            self._room -= 2 * found.size  # thinned, it is kept once more
            self._known[key] = found
        return self._known[key]

    def thinned(self, lying: Turned, moved: Turned, first: int, second: int) -> Costs:
        """Return the shared cells at every second shift each way, from the `first` and the `second`."""
        key = (id(lying), id(moved), first, second)
        if key not in self._thinned:
            self._thinned[key] = np.ascontiguousarray(self.of(lying, moved)[first::STRIDE, second::STRIDE])
        return self._thinned[key]
