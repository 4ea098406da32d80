"""A first layout: part after part, each at the place nearest to the beginning of the stock that is still free."""

from collections.abc import Callable, Sequence

import numpy as np

from kit.geometry.packing.cells import Turned
from kit.geometry.packing.no_fit import Ground

Spot = tuple[Turned, int, int]
BLOCK = 32  # columns looked at together


class Filler:
    """The stock with what lies on it: for each cell, how many cells from it on along y are free."""

    def __init__(self, ground: Ground) -> None:
        self.ground = ground
        self._taken = np.zeros(ground.across, dtype=bool)
        self._free = np.tile(np.arange(ground.across[1], 0, -1, dtype=np.int16), (ground.across[0], 1))
        self._from: dict[int, int] = {}  # where to begin to look for a way: nothing is ever taken off again
        self._longest = np.full(ground.across[0], ground.across[1])  # free cells on end in each column
        self.end = 0
        self._row = (0, 0)

    def put(self, way: Turned, x: int, y: int) -> None:
        """Lay a part."""
        wide, high = way.cells.shape
        self.end = max(self.end, x + wide)
        self._taken[x : x + wide, y : y + high] |= way.cells
        index = np.arange(self.ground.across[1])
        ahead = np.where(self._taken[x : x + wide], index, self.ground.across[1])
        free = np.minimum.accumulate(ahead[:, ::-1], axis=1)[:, ::-1] - index
        self._free[x : x + wide] = free
        self._longest[x : x + wide] = free.max(axis=1)

    def first(self, way: Turned, before: int) -> tuple[int, int] | None:
        """Return the free place of least x, then y, whose x is below `before`; None where there is none."""
        room = self.ground.room(way)
        begin, last = self._from.get(id(way), 0), min(before, room.shape[0])
        fits = np.ones(max(0, last - begin), dtype=bool)
        for column, length in enumerate(way.tallest):
            fits &= self._longest[begin + column : begin + column + len(fits)] >= length
        while fits.any():
            x = begin + int(np.argmax(fits))
            fits[: x - begin + BLOCK] = False
            free = room[x : min(x + BLOCK, last)].copy()
            if not free.any():
                continue
            for k, (column, low, length) in enumerate(way.runs):
                ahead = self._free[x + column : x + column + free.shape[0], low : low + free.shape[1]]
                free &= ahead >= length
                if k % 8 == 1 and not free.any():
                    break
            else:
                flat = int(np.argmax(free))
                if free.flat[flat]:
                    i, j = divmod(flat, free.shape[1])
                    self._from[id(way)] = x + i
                    return x + i, j
        self._from[id(way)] = max(begin, last)
        return None

    def behind(self, way: Turned) -> tuple[int, int] | None:
        """Return a place behind all that was searched for, side by side in rows; None where there is none."""
        room = self.ground.room(way)
        x, y = self._row
        if not (x < room.shape[0] and y < room.shape[1] and room[x, y]):
            ahead = room[self.end :]
            if not ahead.any():
                return None
            x, y = divmod(int(np.argmax(ahead)), ahead.shape[1])
            x += self.end
        self._row = x, y + way.cells.shape[1]
        return x, y

    def close(self) -> None:
        """Begin a new row for what is laid behind."""
        self._row = self.end, 0


def fill(ground: Ground, order: Sequence[Sequence[Turned]], going: Callable[[], bool]) -> list[Spot | None]:
    """Lay parts in the order given, each in the way that ends earliest; None for what found no place.

    Once `going` returns False the rest is laid behind the others on a roll, and not at all on sheets.
    """
    filler = Filler(ground)
    spots: list[Spot | None] = []
    hurried = False
    for ways in order:
        if not going():
            if not hurried:
                filler.close()
            hurried = True
            place = filler.behind(ways[0]) if ground.roll else None
            spots.append((ways[0], *place) if place else None)
            if place:
                filler.put(ways[0], *place)
            continue
        best: tuple[float, Spot] | None = None
        for way in ways:
            wide = way.cells.shape[0]
            limit = ground.across[0] if best is None or not ground.roll else int(best[0]) - wide + 1
            found = filler.first(way, limit)
            if found is not None:
                end = found[0] + wide if ground.roll else found[0]
                value = end + found[1] / ground.across[1]
                if best is None or value < best[0]:
                    best = value, (way, *found)
        spots.append(best[1] if best else None)
        if best:
            filler.put(*best[1])
    return spots
