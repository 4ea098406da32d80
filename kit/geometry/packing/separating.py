"""Parts pushed apart in a stock that is a little too small: overlaps are laid out anew until none is left.

A part that overlaps others goes to the place, among all places and ways at once, where its weighted overlap is least.
Pairs that keep overlapping grow heavier, so that the search leaves a dead end. This is guided local search after
Voudouris and Tsang, used for nesting by Egeblad, Nielsen and Odgaard (Fast neighborhood search for two- and
three-dimensional nesting problems, European Journal of Operational Research 183, 2007), here on cells with the whole
stock as one neighborhood.
"""

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from kit.geometry.packing.cells import STRIDE, Costs, Overlaps, Turned
from kit.geometry.packing.effort import Effort
from kit.geometry.packing.filling import Spot
from kit.geometry.packing.no_fit import Ground

GROW = 1.5  # what the heaviest overlap's weight is multiplied by in a round
NOWHERE = -(2**31)  # for the box of a part that does not lie
FADE = 0.95  # what the weight of a pair that is apart is multiplied by, down to 1


class Crowd:
    """Parts on the stock that may overlap; each a copy with the ways in which it may lie."""

    def __init__(
        self,
        ground: Ground,
        copies: Sequence[Sequence[Turned]],
        overlaps: Overlaps,
        draw: np.random.Generator,
        watch: Effort,
    ) -> None:
        self.ground = ground
        self._watch = watch
        self.copies = list(copies)
        self._overlaps = overlaps
        self._draw = draw
        self.spots: list[Spot | None] = [None] * len(copies)
        n = len(copies)
        self._boxes: NDArray[np.int64] = np.full((n, 4), NOWHERE)  # first column and row, those after the last
        self._shared: NDArray[np.float64] = np.zeros((n, n))
        self._weights: NDArray[np.float32] = np.ones((n, n), dtype=np.float32)

    def settle(self, spots: Sequence[Spot | None]) -> None:
        """Lay all parts at places, as many as there is time for; forget the weights."""
        self.spots = list(spots)
        self._weights[:] = 1.0
        for k in range(len(self.copies)):
            self._box(k)
        for k in range(len(self.copies)):
            if not self._watch.on():
                break
            self._measure(k)

    def lift(self, k: int) -> None:
        """Take a part off the stock."""
        self.spots[k] = None
        self._box(k)
        self._measure(k)

    @property
    def overlap(self) -> float:
        """How many cells are shared, each counted once for every two parts; no unit."""
        return float(self._shared.sum()) / 2

    def place(self, k: int, limit: int) -> bool:
        """Lay a part where its weighted overlap is least, ending before the column `limit`.

        Only every second cell each way is tried, from one that is drawn: the next time another.
        Returns False, and leaves it, where it has no room at all.
        """
        best: tuple[float, Spot] | None = None
        begin = (int(self._draw.integers(STRIDE)), int(self._draw.integers(STRIDE)))
        for way in self.copies[k]:
            cost = self._cost(k, way, limit, begin)
            if cost is None:
                continue
            flat = int(np.argmin(cost))
            value = float(cost.flat[flat])
            if np.isfinite(value) and (best is None or value < best[0]):
                x, y = divmod(flat, cost.shape[1])
                best = value, (way, begin[0] + STRIDE * x, begin[1] + STRIDE * y)
        if best is None:
            return False
        self.spots[k] = best[1]
        self._box(k)
        self._measure(k)
        return True

    def separate(self, limit: int, rounds: int) -> bool:
        """Lay overlapping parts anew until none overlaps (True), or no round of the last `rounds` was the best."""
        best, since = np.inf, 0
        while since < rounds:
            troubled = np.flatnonzero(self._shared.any(axis=1))
            if not len(troubled):
                return True
            if not self._watch.spend(len(troubled)):
                break
            for k in self._draw.permutation(troubled):
                if not self._watch.on():
                    return False
                if self._shared[k].any():
                    self.place(int(k), limit)
            total = self.overlap
            if total < best:
                best, since = total, 0
            else:
                since += 1
            apart = self._shared == 0
            if total:
                self._weights *= np.where(apart, FADE, 1 + (GROW - 1) * self._shared / self._shared.max())
                np.maximum(self._weights, 1.0, out=self._weights)
        return self._watch.on() and not self._shared.any()

    def _box(self, k: int) -> None:
        spot = self.spots[k]
        if spot is None:
            self._boxes[k] = NOWHERE
        else:
            (wide, high), x, y = spot[0].cells.shape, *spot[1:]
            self._boxes[k] = x, y, x + wide, y + high

    def _near(self, k: int, box: Sequence[int] | NDArray[np.int64]) -> Iterator[tuple[int, Spot]]:
        """Yield the other parts whose boxes meet a box of cells (first column and row, those after the last)."""
        first, last = self._boxes[:, :2], self._boxes[:, 2:]
        for j in np.flatnonzero(((first < box[2:]) & (last > box[:2])).all(axis=1)):
            spot = self.spots[j]
            if j != k and spot is not None:
                yield int(j), spot

    def _cost(self, k: int, way: Turned, limit: int, begin: tuple[int, int]) -> Costs | None:
        """Return the weighted overlap at each `STRIDE`th cell from `begin`; None where there is no room."""
        room = self.ground.room(way)
        wide, high = way.cells.shape
        room = room[: max(0, limit - wide + 1)]
        nx, ny = room.shape
        room = room[begin[0] :: STRIDE, begin[1] :: STRIDE]
        if not room.any():
            return None
        cost = np.where(room, np.float32(0), np.float32(np.inf))
        weights = self._weights[k].tolist()
        for j, (lying, x, y) in self._near(k, (0, 0, nx + wide - 1, ny + high - 1)):
            rows, skipped, p = _met(x - wide + 1, x + lying.cells.shape[0], nx, begin[0])
            columns, above, q = _met(y - high + 1, y + lying.cells.shape[1], ny, begin[1])
            here = cost[rows, columns]
            if here.size:
                shared = self._overlaps.thinned(lying, way, p, q)[skipped:, above:][: here.shape[0], : here.shape[1]]
                here += shared if weights[j] == 1 else weights[j] * shared
        return cost

    def _measure(self, k: int) -> None:
        mine = self.spots[k]
        row = np.zeros(len(self.copies))
        if mine is not None:
            way, x, y = mine
            wide, high = way.cells.shape
            for j, (lying, at_x, at_y) in self._near(k, self._boxes[k]):
                row[j] = self._overlaps.of(lying, way)[x - at_x + wide - 1, y - at_y + high - 1]
        self._shared[k] = row
        self._shared[:, k] = row


def _met(first: int, last: int, end: int, begin: int) -> tuple[slice, int, int]:
    """Return which of the cells `begin`, one `STRIDE` on, … before `end` lie from `first` to before `last`.

    With them, how the first of these lies from `first`: by how many strides, and how many cells more.
    """
    low = -((begin - max(first, 0)) // STRIDE)
    high = -((begin - min(last, end)) // STRIDE)
    skipped, rest = divmod(begin + low * STRIDE - first, STRIDE)
    return slice(low, max(low, high)), skipped, rest
