"""Parts packed onto a stock: a first layout at once, then as good a one as the effort allows, always judged.

A roll is made shorter bit by bit; on sheets, parts that found no place are pressed in, or the last sheet is emptied.
Each time the parts that overlap are pushed apart again; what cannot be separated is taken back.
"""

import time
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from shapely import affinity

from kit.core.errors import KitError
from kit.geometry.packing.cells import Overlaps, Turned, Whole, grown, ways
from kit.geometry.packing.check import faults
from kit.geometry.packing.effort import Effort, Progress
from kit.geometry.packing.filling import Spot, fill
from kit.geometry.packing.no_fit import Ground, ground
from kit.geometry.packing.roll import nest, serves
from kit.geometry.packing.separating import Crowd
from kit.geometry.packing.sliding import slide
from kit.geometry.packing.stock import CutPart, Cutting, Layout, Roll, Stock, turned
from kit.geometry.ties import rough

COARSE, FINE = 16, 32  # cells along the side of a square of the parts' mean area
MANY = 150  # parts beyond which the cells are coarse: fine ones would leave no time to search


def pack(
    parts: Sequence[CutPart],
    stock: Stock,
    cutting: Cutting | None = None,
    *,
    effort: int = 2000,
    seconds: float | None = None,
    seed: int = 1,
    progress: Progress | None = None,
) -> Layout:
    """Return a layout of all parts on a roll, or of as many as found place on sheets.

    effort: moves of a part to be tried, 0 for the first layout alone; the same effort and seed give the same layout
    if `seconds` is None. With `seconds`, all is done by then, and a roll is left to the nesting library where it
    can do it. progress: passed the share done; when it returns False the best layout so far is
    kept.
    Raises: KitError for no parts, or a part larger than the stock; a layout that fails its check is never returned.
    """
    parts, cutting = tuple(parts), cutting or Cutting()
    if not parts:
        raise KitError("there is nothing to pack; give at least one part")
    watch = Effort(effort, seconds, progress)
    watch.keep(KEPT * (seconds or 0.0))
    draw = np.random.default_rng(seed)
    search = _Search(parts, stock, cutting, watch, draw, fine=bool(effort))
    search.begin(all_orders=bool(effort))
    if search.base.roll and None in search.best:
        search = _Search(parts, stock, cutting, watch, draw, fine=bool(effort), sure=True)
        search.begin(all_orders=bool(effort))
    base = search.base
    layout = search.layout()
    judging = _judging(layout) if seconds is not None else 0.0
    watch.keep(judging + SLIDING * (seconds or 0.0) * base.roll)
    other: Layout | None = None
    if effort and seconds is not None and isinstance(stock, Roll) and serves(parts, stock):
        if watch.on():  # neither stopped nor out of time by now
            other = nest(parts, stock, cutting, watch.remaining, seed, progress)
    elif effort:
        search.shorten() if base.roll else search.press()
        layout = search.layout()
    watch.keep(judging)
    found = [each for each in (layout, other) if each is not None]
    if base.roll:
        found = sorted((_slid(each, base, 12 if effort else 2, watch) for each in found), key=lambda each: each.length)
    for each in found:
        if not (wrong := faults(each)):
            return each
    raise KitError(f"the layout failed its check and is not used: {wrong[0]}")


def _judging(layout: Layout) -> float:
    """Return the seconds to keep for judging layouts such as this one."""
    begin = time.monotonic()
    faults(layout)
    return CHECKS * (time.monotonic() - begin)


class _Search:
    """The best places found so far for all copies, and how to better them."""

    def __init__(
        self,
        parts: tuple[CutPart, ...],
        stock: Stock,
        cutting: Cutting,
        watch: Effort,
        draw: np.random.Generator,
        *,
        fine: bool,
        sure: bool = False,
    ) -> None:
        self._order, self._watch, self._draw = (parts, stock, cutting), watch, draw
        self._numbers = [k for k, part in enumerate(parts) for _ in range(part.count)]
        cells = FINE if fine and len(self._numbers) <= MANY else COARSE
        self.base = ground(parts, stock, cutting, cells, sure=sure)
        lying = [ways(k, part, self.base.size, self.base.half) for k, part in enumerate(parts)]
        for part, each_way in zip(parts, lying, strict=True):
            _fits(part, each_way, self.base, stock, cutting)
        self._copies = [lying[k] for k in self._numbers]
        self._overlaps = Overlaps()
        self.best: list[Spot | None] = []
        self._areas = np.array([each_way[0].bare.area for each_way in self._copies])

    def layout(self) -> Layout:
        """Return the best places as a layout."""
        parts, stock, cutting = self._order
        left = [0] * len(parts)
        placed = []
        for k, spot in zip(self._numbers, self.best, strict=True):
            if spot is None:
                left[k] += 1
            else:
                way, x, y = spot
                placed.append(self.base.at(x, y, way))
        return Layout(parts, stock, cutting, tuple(placed), "cells", tuple(left))

    def begin(self, all_orders: bool) -> None:
        """Take the best of the first layouts: parts large ones first, then long ones, then wide ones."""
        boxes = np.array([each_way[0].bare.bounds[2:] for each_way in self._copies])
        orders = [-self._areas, -boxes[:, 0], -boxes[:, 1], -boxes.max(axis=1)]
        for size in orders if all_orders else orders[:1]:
            spots = self._filled(np.argsort([rough(each) for each in size], kind="stable"))
            if not self.best or self._value(spots) < self._value(self.best):
                self.best = spots
            if not self._watch.spend(0):
                break

    def _filled(self, order: Whole) -> list[Spot | None]:
        spots: list[Spot | None] = [None] * len(order)
        found = fill(self.base, [self._copies[k] for k in order], self._watch.on)
        for k, spot in zip(order, found, strict=True):
            spots[k] = spot
        return spots

    def shorten(self) -> None:
        """Let the parts end earlier, on the roll or on the last sheet, until the effort is spent."""
        crowd = self._crowd()
        first = self.base.fields[self.base.field(_end(self.best) - 1)].begin
        end, step, failures = _end(self.best), 0.03, 0
        while self._watch.spend(0):
            limit = min(end - 1, int(end - (end - first) * step))
            self._watch.words = f"trying to end {(end - limit) * self.base.size:.0f} mm earlier"
            for k, spot in enumerate(crowd.spots):
                if spot is not None and spot[1] + spot[0].cells.shape[0] > limit and self._watch.on():
                    crowd.place(k, limit)
                    self._watch.spend()
            if crowd.separate(limit, PATIENCE):
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
            nx, ny = (n - m for n, m in zip((limit, self.base.across[1]), way.cells.shape, strict=True))
            x, y = min(at[1], nx), min(at[2], ny)
            room = self.base.room(way)
            if x >= 0 and y >= 0 and x < room.shape[0] and y < room.shape[1] and room[x, y]:
                spots[k] = (way, x, y)
        return spots

    def _anew(self, *, whole: bool) -> list[Spot | None]:
        """Return a first layout in another order, large parts mostly first; `whole`: the best if parts are left."""
        self._watch.spend(len(self._copies))
        drawn = self._areas * np.exp(self._draw.normal(0.0, 0.5, len(self._areas)))
        spots = self._filled(np.argsort(-drawn, kind="stable"))
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
        while None not in self.best and (limit := self._last_begin()) is not None:
            if not self._emptied(crowd, limit):
                break
        if None not in self.best:
            self.shorten()

    def _emptied(self, crowd: Crowd, limit: int) -> bool:
        """Try to do without the last sheet, from the best places and then from one first layout after another."""
        self._watch.words = "trying with a piece of stock less"
        last = (1.0 - FEWER) * self._watch.left
        spots = self.best
        while self._watch.spend(0) and self._watch.left > last:
            crowd.settle(spots)
            if self._take_off(crowd, limit) and crowd.separate(limit, PATIENCE):
                self.best = list(crowd.spots)
                return True
            spots = self._anew(whole=False)
        return False

    def _pressed(self, crowd: Crowd, spots: list[Spot | None]) -> list[Spot | None]:
        """Return places with more area laid: parts that are left out pressed in, or laid in place of smaller ones."""
        failed: set[int] = set()
        swaps = SWAPS
        everywhere = self.base.across[0]
        while None in spots:
            out = [k for k, spot in enumerate(spots) if spot is None]
            free = self.base.area - sum(self._areas[k] for k, spot in enumerate(spots) if spot is not None)
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
            if crowd.place(k, everywhere) and crowd.separate(everywhere, BRIEF):
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
        used = {self.base.field(spot[1]) for spot in self.best if spot is not None}
        others = sum(self.base.fields[k].room.area for k in range(max(used)))
        return self.base.fields[max(used)].begin if self._areas.sum() < others else None

    def _take_off(self, crowd: Crowd, limit: int) -> bool:
        for k, spot in enumerate(crowd.spots):
            if not self._watch.on():
                return False
            if (spot is None or spot[1] >= limit) and not crowd.place(k, limit):
                return False
        return True

    def _crowd(self) -> Crowd:
        crowd = Crowd(self.base, self._copies, self._overlaps, self._draw, self._watch)
        crowd.settle(self.best)
        return crowd

    def _value(self, spots: Sequence[Spot | None]) -> tuple[float, float]:
        out = sum(self._areas[k] for k, spot in enumerate(spots) if spot is None)
        return float(out), float(_end(spots))


KEPT = 0.2  # of the seconds, for all that comes after the first layouts
CHECKS = 3.0  # times that judging the first layout took, kept to judge what is found
SLIDING = 0.1  # of the seconds, kept to slide parts on a roll
FEWER = 0.5  # of the effort that is left, for the trials to do with a sheet less
SWAPS = 4  # failures to lay a part in place of a smaller one after which another first layout is tried
BRIEF = 5  # the same, where a part is pressed in: there are many others to try
PATIENCE = 25  # rounds without a better one after which separating is given up


def _end(spots: Sequence[Spot | None]) -> int:
    return max((spot[1] + spot[0].cells.shape[0] for spot in spots if spot is not None), default=0)


def _fits(part: CutPart, lying: Sequence[Turned], base: Ground, stock: Stock, cutting: Cutting) -> None:
    for piece in base.fields:
        left, low, right, top = piece.room.bounds
        for way in lying:
            if way.bare.bounds[3] <= top - low + 1e-6 and (base.roll or way.bare.bounds[2] <= right - left + 1e-6):
                return
    least = min((way.bare.bounds[2:] for way in lying), key=lambda box: box[1])
    margins = f" less {cutting.margin:g} mm of margin on each side" if cutting.margin else ""
    if isinstance(stock, Roll):
        raise KitError(
            f"the part {part.name} is at least {least[1]:.1f} mm across as it may be turned, but the {stock.name} "
            f"is {stock.width:g} mm wide{margins}; take a wider roll, join the part of two, or allow other angles"
        )
    raise KitError(
        f"the part {part.name} is {least[0]:.1f} mm by {least[1]:.1f} mm as it may be turned, larger than all "
        f"pieces of stock{margins}; take a larger one, or allow other angles"
    )


def _slid(layout: Layout, base: Ground, sweeps: int, watch: Effort) -> Layout:
    bare, around = layout.polygons, []
    for p in layout.placed:
        if not watch.closing():
            return layout
        wide = turned(grown(layout.parts[p.part].outline, base.half), p.turn, p.over)
        around.append(affinity.translate(wide, p.x, p.y))
    moves = slide(bare, around, base.fields[0].room, sweeps, watch.closing)
    moved = tuple(
        replace(p, x=p.x + float(dx), y=p.y + float(dy)) for p, (dx, dy) in zip(layout.placed, moves, strict=True)
    )
    better = replace(layout, placed=moved)
    return layout if faults(better) else better
