"""Parts packed onto a stock: a first layout at once, then as good a one as the effort allows, always judged.

A roll is made shorter bit by bit; on sheets, parts that found no place are pressed in, or the last sheet is emptied.
Each time the parts that overlap are pushed apart again; what cannot be separated is taken back.
"""

import time
from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from kit.core.errors import KitError
from kit.geometry.packing.cells import Overlaps, Turned, Whole, grown, ways
from kit.geometry.packing.check import faults
from kit.geometry.packing.filling import Spot, fill
from kit.geometry.packing.no_fit import Ground, ground
from kit.geometry.packing.roll import nest, serves
from kit.geometry.packing.separating import Crowd
from kit.geometry.packing.sliding import slide
from kit.geometry.packing.stock import Cutting, Layout, Part, Roll, Stock

Progress = Callable[[float, str], bool]

COARSE, FINE = 16, 32  # cells along the side of a square of the parts' mean area


class Effort:
    """How much may still be done: moves of a part, perhaps seconds; and whoever watches may stop it."""

    def __init__(self, moves: int, seconds: float | None, progress: Progress | None) -> None:
        self._moves, self._seconds, self._progress = moves, seconds, progress
        self._begin = time.monotonic()
        self._done = 0
        self._stopped = False
        self.words = "packing"

    @property
    def remaining(self) -> float:
        """The seconds that are left, at least one."""
        return max(1.0, (self._seconds or 0.0) - (time.monotonic() - self._begin))

    def spend(self, moves: int = 1) -> bool:
        """Count moves and report; False when it is enough."""
        self._done += moves
        share = self._done / self._moves if self._moves else 1.0
        if self._seconds is not None:
            share = max(share, (time.monotonic() - self._begin) / self._seconds)
        if self._progress is not None and not self._progress(min(share, 1.0), self.words):
            self._stopped = True
        return share < 1 and not self._stopped


def pack(
    parts: Sequence[Part],
    stock: Stock,
    cutting: Cutting | None = None,
    *,
    effort: int = 2000,
    seconds: float | None = None,
    seed: int = 1,
    progress: Progress | None = None,
    library: bool = True,
) -> Layout:
    """Return a layout of all parts on a roll, or of as many as found place on sheets.

    effort: moves of a part to be tried, 0 for the first layout alone; the same effort and seed give the same layout
    if `seconds` is None. With `seconds`, the time ends the search too, and a roll is left to the nesting library where
    one is installed and `library` says so. progress: told the share done; when it returns False the best layout so
    far is kept.
    Raises: KitError for no parts, or a part larger than the stock; a layout that fails its check is never returned.
    """
    parts, cutting = tuple(parts), cutting or Cutting()
    if not parts:
        raise KitError("there is nothing to pack; give at least one part")
    watch = Effort(effort, seconds, progress)
    base = ground(parts, stock, cutting, FINE if effort else COARSE)
    lying = [ways(k, part, base.size, base.half) for k, part in enumerate(parts)]
    for part, each_way in zip(parts, lying, strict=True):
        _fits(part, each_way, base, stock, cutting)
    copies = [k for k, part in enumerate(parts) for _ in range(part.count)]
    search = _Search(base, [lying[k] for k in copies], watch, np.random.default_rng(seed))
    search.begin(all_orders=bool(effort))
    other: Layout | None = None
    if effort and library and seconds is not None and isinstance(stock, Roll) and serves(stock):
        other = nest(parts, stock, cutting, max(1.0, watch.remaining - AFTER), seed, progress)
    elif effort:
        search.shorten() if base.roll else search.press()
    layout = _layout(search.best, parts, stock, cutting, base, copies)
    if base.roll:
        layout = _slid(layout, base, 12 if effort else 2)
    if other is not None:
        other = _slid(other, base, 12)
        layout = other if other.length < layout.length and not faults(other) else layout
    if wrong := faults(layout):
        raise KitError(f"the layout failed its check and is not used: {wrong[0]}")
    return layout


class _Search:
    """The best places found so far for all copies, and how to better them."""

    def __init__(self, base: Ground, copies: list[list[Turned]], watch: Effort, draw: np.random.Generator) -> None:
        self._ground, self._copies, self._watch, self._draw = base, copies, watch, draw
        self._overlaps = Overlaps()
        self.best: list[Spot | None] = []
        self._areas = np.array([each_way[0].bare.area for each_way in copies])

    def begin(self, all_orders: bool) -> None:
        """Take the best of the first layouts: parts large ones first, then long ones, then wide ones."""
        boxes = np.array([each_way[0].bare.bounds[2:] for each_way in self._copies])
        orders = [-self._areas, -boxes[:, 0], -boxes[:, 1], -boxes.max(axis=1)]
        for size in orders if all_orders else orders[:1]:
            spots = self._filled(np.argsort(size, kind="stable"))
            if not self.best or self._value(spots) < self._value(self.best):
                self.best = spots
            if not self._watch.spend(0):
                break

    def _filled(self, order: Whole) -> list[Spot | None]:
        spots: list[Spot | None] = [None] * len(order)
        for k, spot in zip(order, fill(self._ground, [self._copies[k] for k in order]), strict=True):
            spots[k] = spot
        return spots

    def shorten(self) -> None:
        """Let the parts end earlier, on the roll or on the last sheet, until the effort is spent."""
        crowd = self._crowd()
        first = self._ground.fields[self._ground.field(_end(self.best) - 1)].begin
        end, step, failures = _end(self.best), 0.03, 0
        while self._watch.spend(0):
            limit = min(end - 1, int(end - (end - first) * step))
            self._watch.words = f"trying to end {(end - limit) * self._ground.size:.0f} mm earlier"
            for k, spot in enumerate(crowd.spots):
                if spot is not None and spot[1] + spot[0].cells.shape[0] > limit:
                    crowd.place(k, limit)
                    self._watch.spend()
            if crowd.separate(limit, PATIENCE, self._watch.spend):
                self.best = list(crowd.spots)
                end = _end(self.best)
            else:
                step = max(step / 2, 0.002)
                failures += 1
                crowd.settle(self._swapped(limit) if failures % 3 else self._anew(whole=True))

    def _swapped(self, limit: int) -> list[Spot | None]:
        """Return the best places with two parts of unlike size in each other's place."""
        spots = list(self.best)
        a, b = self._draw.choice(len(spots), 2, replace=False)
        one, two = spots[a], spots[b]
        if one is None or two is None or one[0].part == two[0].part:
            return spots
        for k, mine, at in ((a, one, two), (b, two, one)):
            way = mine[0]
            nx, ny = (n - m for n, m in zip((limit, self._ground.across[1]), way.cells.shape, strict=True))
            x, y = min(at[1], nx), min(at[2], ny)
            room = self._ground.room(way)
            if x >= 0 and y >= 0 and x < room.shape[0] and y < room.shape[1] and room[x, y]:
                spots[k] = (way, x, y)
        return spots

    def _anew(self, *, whole: bool) -> list[Spot | None]:
        """Return a first layout in another order, large parts mostly first; `whole`: the best if parts are left."""
        self._watch.spend(len(self._copies))
        drawn = self._areas * np.exp(self._draw.normal(0.0, 0.5, len(self._areas)))
        spots = self._filled(np.argsort(-drawn))
        return list(self.best) if whole and None in spots else spots

    def press(self) -> None:
        """Press in what found no place, from one first layout after another; then empty the last sheet."""
        crowd = self._crowd()
        spots = list(self.best)
        while None in self.best and self._watch.spend(0):
            spots = self._pressed(crowd, spots)
            if self._value(spots) < self._value(self.best):
                self.best = spots
            spots = self._anew(whole=False)
            crowd.settle(spots)
        crowd.settle(self.best)
        while None not in self.best and (limit := self._last_begin()) is not None and self._watch.spend(0):
            self._watch.words = "trying with a piece of stock less"
            if not self._take_off(crowd, limit) or not crowd.separate(limit, PATIENCE, self._watch.spend):
                break
            self.best = list(crowd.spots)
        if None not in self.best:
            self.shorten()

    def _pressed(self, crowd: Crowd, spots: list[Spot | None]) -> list[Spot | None]:
        """Return places with more area laid: parts that are left out pressed in, or laid in place of smaller ones."""
        failed: set[int] = set()
        swaps = SWAPS
        everywhere = self._ground.across[0]
        while None in spots:
            out = [k for k, spot in enumerate(spots) if spot is None]
            free = self._ground.area - sum(self._areas[k] for k, spot in enumerate(spots) if spot is not None)
            self._watch.words = f"{sum(spot is None for spot in self.best)} parts still without a place"
            waiting = [k for k in out if k not in failed and self._areas[k] <= free]
            if waiting:
                k = max(waiting, key=lambda k: float(self._areas[k]))
                failed.update(j for j in out if self._copies[j] is self._copies[k])
            else:
                pairs = self._pairs(spots, out, free)
                if not pairs or not swaps:
                    break
                swaps -= 1
                k, j = pairs[int(self._draw.integers(len(pairs)))]
                crowd.lift(j)
            if crowd.place(k, everywhere) and crowd.separate(everywhere, BRIEF, self._watch.spend):
                spots, swaps = list(crowd.spots), SWAPS
                failed.clear()
            else:
                crowd.settle(spots)
            if not self._watch.spend():
                break
        return spots

    def _pairs(self, spots: Sequence[Spot | None], out: Sequence[int], free: float) -> list[tuple[int, int]]:
        """Return each part left out with a smaller one in whose place it might lie."""
        return [
            (k, j)
            for k in out
            for j, spot in enumerate(spots)
            if spot is not None and self._areas[j] < self._areas[k] <= free + self._areas[j]
        ]

    def _last_begin(self) -> int | None:
        """The column at which the last sheet that is used begins; None if the others cannot hold all parts."""
        used = {self._ground.field(spot[1]) for spot in self.best if spot is not None}
        others = sum(self._ground.fields[k].room.area for k in range(max(used)))
        return self._ground.fields[max(used)].begin if self._areas.sum() < others else None

    def _take_off(self, crowd: Crowd, limit: int) -> bool:
        for k, spot in enumerate(crowd.spots):
            if spot is not None and spot[1] >= limit and not crowd.place(k, limit):
                return False
        return True

    def _crowd(self) -> Crowd:
        crowd = Crowd(self._ground, self._copies, self._overlaps, self._draw)
        crowd.settle(self.best)
        return crowd

    def _value(self, spots: Sequence[Spot | None]) -> tuple[float, float]:
        out = sum(self._areas[k] for k, spot in enumerate(spots) if spot is None)
        return float(out), float(_end(spots))


AFTER = 1.5  # seconds kept to slide and to judge what the library has found
SWAPS = 4  # failures to lay a part in place of a smaller one after which another first layout is tried
BRIEF = 5  # the same, where a part is pressed in: there are many others to try
PATIENCE = 25  # rounds without a better one after which separating is given up


def _end(spots: Sequence[Spot | None]) -> int:
    return max((spot[1] + spot[0].cells.shape[0] for spot in spots if spot is not None), default=0)


def _fits(part: Part, lying: list[Turned], base: Ground, stock: Stock, cutting: Cutting) -> None:
    for piece in base.fields:
        left, low, right, top = piece.room.bounds
        for way in lying:
            if way.bare.bounds[3] <= top - low + 1e-6 and (base.roll or way.bare.bounds[2] <= right - left + 1e-6):
                return
    least = min((way.bare.bounds[2:] for way in lying), key=lambda box: box[1])
    margins = f" less {cutting.margin:g} mm of margin on each side" if cutting.margin else ""
    if isinstance(stock, Roll):
        raise KitError(
            f"the part {part.name} is at least {least[1]:.1f} mm across as it may be turned, but the roll {stock.name} "
            f"is {stock.width:g} mm wide{margins}; take a wider roll, join the part of two, or allow other angles"
        )
    raise KitError(
        f"the part {part.name} is {least[0]:.1f} mm by {least[1]:.1f} mm as it may be turned, larger than all "
        f"pieces of stock{margins}; take a larger one, or allow other angles"
    )


def _layout(
    spots: Sequence[Spot | None],
    parts: tuple[Part, ...],
    stock: Stock,
    cutting: Cutting,
    base: Ground,
    copies: list[int],
) -> Layout:
    left = [0] * len(parts)
    placed = []
    for k, spot in zip(copies, spots, strict=True):
        if spot is None:
            left[k] += 1
        else:
            way, x, y = spot
            placed.append(base.at(x, y, way))
    return Layout(parts, stock, cutting, tuple(placed), "cells", tuple(left))


def _slid(layout: Layout, base: Ground, sweeps: int) -> Layout:
    bare = layout.polygons
    moves = slide(bare, [grown(p, base.half) for p in bare], base.fields[0].room, sweeps)
    moved = tuple(
        replace(p, x=p.x + float(dx), y=p.y + float(dy)) for p, (dx, dy) in zip(layout.placed, moves, strict=True)
    )
    better = replace(layout, placed=moved)
    return layout if faults(better) else better
