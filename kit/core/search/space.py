"""What a search moves in: some givens of a case, from 0 to 1 each, and what the model says at many points at once."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from kit.core.errors import KitError, near_misses
from kit.core.model import Stated
from kit.core.model.margins import limits_over, spread_over
from kit.core.quantity import ValueOrigin
from kit.core.search.stock import ANY, sizes
from kit.core.search.watch import Watch, go_on

if TYPE_CHECKING:
    from kit.core.model import Case, Typed, Wish

    Array = np.ndarray[Any, Any]


@dataclass(frozen=True)
class Vary:
    """What may vary: a given within its span or between `ends`, in base units, and in which `sizes` (`SIZES`).

    Of a pick the rows of its table vary.
    """

    name: str
    sizes: str = ANY
    ends: tuple[float, float] | None = None


class Space:
    """Some givens and picks of a case to be varied. Points are arrays (n, d) from 0 to 1; numbers are in base units.

    A given that varies has the half-width that its model takes for usual, since nobody has measured it yet; what a
    row of a table fills has that row's. A pick counts the rows of its table that the model takes.
    """

    def __init__(self, case: Case, vary: Sequence[Vary | str], watch: Watch | None = None) -> None:
        """Raises KitError: nothing to vary, a name twice or unknown, a span without width, sizes or rows that miss."""
        self._watch, self.stage = watch, "looking for the best"
        self.vary = [Vary(each) if isinstance(each, str) else each for each in vary]
        names = [each.name for each in self.vary]
        known, picks = case.model.free, case.model.picks
        if not names:
            raise KitError("nothing may vary; choose at least one given")
        for name in names:
            if name not in known and name not in picks:
                raise KitError(f"{case.model.name} has no given {name!r}{near_misses(name, [*known, *picks])}")
            if names.count(name) > 1:
                raise KitError(f"{name} is to vary twice; state it once")
        self.rows = {name: _rows_of(case, name, names) for name in names if name in picks}
        self.sizes: dict[str, tuple[float, ...]] = {}
        self.ends: dict[str, tuple[float, float]] = {}
        for each in self.vary:
            if each.name in picks:
                self.sizes[each.name] = tuple(float(number) for number in range(len(self.rows[each.name])))
                self.ends[each.name] = 0.0, len(self.rows[each.name]) - 1.0
            else:
                self.sizes[each.name] = self._kept(each, sizes(known[each.name], each.sizes))
                self.ends[each.name] = each.ends or known[each.name].span
        for name, (low, high) in self.ends.items():
            if not self.sizes[name] and not (math.isfinite(low) and math.isfinite(high) and low < high):
                raise KitError(f"the span of {name} has no width; give it another, or do not vary it")
        self.names = names
        self.case = self.at(case, {name: self._here(case, name) for name in names})

    @staticmethod
    def _kept(each: Vary, found: tuple[float, ...]) -> tuple[float, ...]:
        """Return the sizes between a given's stated ends."""
        if each.ends is None or not found:
            return found
        low, high = each.ends
        kept = tuple(size for size in found if low <= size <= high)
        if not kept:
            raise KitError(f"no size of {each.name} lies between the ends that are stated; widen them")
        return kept

    def go_on(self) -> None:
        """Tell the `stage` of the search to whoever waits. Raises StoppedError where he ends it."""
        go_on(self._watch, self.stage)

    def values(self, points: Array) -> dict[str, Array]:
        """Return what the givens are at points (n, d), with those that rows fill."""
        found = self._raw(points)
        return {name: each for name, each in found.items() if name not in self.rows} | self._filled(found, "base")

    def spreads(self, points: Array) -> dict[str, Array]:
        """Return the standard uncertainties at points (n, d) of the givens that rows fill."""
        return self._filled(self._raw(points), "u")

    def _filled(self, raw: Mapping[str, Array], what: str) -> dict[str, Array]:
        filled: dict[str, Array] = {}
        for name, rows in self.rows.items():
            number = raw[name].astype(int)
            for given in self.case.model.picks[name].fills:
                filled[given] = np.array([getattr(row.entries[given], what) for row in rows])[number]
        return filled

    def _raw(self, points: Array) -> dict[str, Array]:
        """Return what the givens, and which row each pick, is at points (n, d)."""
        found = {}
        for number, name in enumerate(self.names):
            share, kept = np.clip(points[:, number], 0.0, 1.0), self.sizes[name]
            if kept:
                found[name] = np.array(kept)[np.minimum((share * len(kept)).astype(int), len(kept) - 1)]
            else:
                low, high = self.ends[name]
                found[name] = low + share * (high - low)
        return found

    def base(self, point: Array) -> dict[str, float]:
        """Return what varies at one point (d,): givens, and the numbers of rows."""
        return {name: float(each[0]) for name, each in self._raw(point[None, :]).items()}

    def point(self, case: Case) -> Array:
        """Return the point (d,) of a design, or the nearest that there is."""
        found = []
        for name in self.names:
            kept, (low, high), here = self.sizes[name], self.ends[name], self._here(case, name)
            if kept:
                found.append((int(np.argmin(np.abs(np.array(kept) - here))) + 0.5) / len(kept))
            else:
                found.append(min(max((here - low) / (high - low), 0.0), 1.0))
        return np.array(found)

    def _here(self, case: Case, name: str) -> float:
        """Return a given of a case, or the number of a pick's row; the first where that row cannot be taken."""
        if name not in self.rows:
            return case.base[name]
        rows = [each.picks[name] for each in self.rows[name]]
        return float(rows.index(case.picks[name])) if case.picks[name] in rows else 0.0

    def at(self, case: Case, base: Mapping[str, float], how: str = "") -> Case:
        """Return a case with the givens that vary at these values. Raises KitError where the model refuses them."""
        typed: dict[str, Typed] = {}
        for name in self.names:
            value: str | float
            if name in self.rows:
                value = self.rows[name][int(base[name])].picks[name]
            else:
                given = case.model.free[name]
                value = given.option(base[name]) if given.kind == "choice" else given.unit.from_base(base[name])
            typed[name] = Stated(value, origin=ValueOrigin("solved", how=how))
        return case.changed(typed)

    @property
    def smooth(self) -> list[int]:
        """The numbers of the givens that take any size."""
        return [number for number, name in enumerate(self.names) if not self.sizes[name]]


def _rows_of(case: Case, name: str, varied: Sequence[str]) -> tuple[Case, ...]:
    """Return the case with each row of a pick's table that the model takes: each figure is there, within its span.

    Raises:
        KitError: a given that its rows fill varies too, or no row can be taken.
    """
    pick = case.model.picks[name]
    for filled in pick.fills:
        if filled in varied:
            raise KitError(f"{filled} comes from the row of {name}; let one of both vary")
    found = []
    for row in case.table(pick.table).ids:
        try:
            tried = case.changed({name: row})
        except KitError:
            continue
        if all(tried.entries[filled].origin.kind == "table" for filled in pick.fills):
            found.append(tried)
    if not found:
        raise KitError(f"no row of {name} has all that is needed within its span; do not vary it")
    return tuple(found)


@dataclass(frozen=True)
class Seen:
    """What the model says at points (n,): the wish's value, how likely all limits hold at least, by how much not.

    `lack` is 0 where they hold with the chance asked for, and grows with what is missing; infinite without a value.
    """

    value: Array
    chance: Array
    lack: Array


class Judge:
    """Says of many points at once what a wish is worth there and whether all limits hold with a chance `level`.

    Each limit to first order, together by Boole's inequality: the chance is never above the true one by more than
    what the first order misses. `relaxed` are limits that allow more, by shares of what they allow; `caps` are
    quantities that may not be above (below, if the wish is for most) a value.
    """

    def __init__(
        self,
        space: Space,
        wish: Wish,
        level: float,
        *,
        relaxed: Mapping[str, float] | None = None,
        caps: Sequence[tuple[Wish, float]] = (),
    ) -> None:
        self.space, self.wish, self.level = space, wish, level
        self.relaxed, self.caps = dict(relaxed or {}), tuple(caps)

    def __call__(self, points: Array) -> Seen:
        """Return what the model says at points (n, d)."""
        from scipy.special import ndtr, ndtri

        self.space.go_on()
        case, values = self.space.case, self.space.values(points)
        shape = (len(points),)
        wanted = [self.wish.of, *(cap.of for cap, _ in self.caps)]
        found = case.compute(values, wanted)
        value, *capped = (np.broadcast_to(np.asarray(found[name], dtype=float), shape) for name in wanted)
        lack, missing = np.zeros(shape), np.zeros(shape)
        spread = spread_over(case, values, self.space.spreads(points))
        least = float(ndtri(self.level))
        with np.errstate(all="ignore"):
            for name, (margin, allowed) in limits_over(case, values).items():
                wide = np.broadcast_to(margin + self.relaxed.get(name, 0.0) * np.abs(allowed), shape)
                u = np.broadcast_to(spread[name], shape)
                chance = np.where(u > 0, ndtr(wide / u), np.where(wide >= 0, 1.0, 0.0))
                missing = missing + np.where(np.isfinite(wide), 1.0 - chance, 1.0)
                below = np.where(wide >= 0, 0.0, 1.0 - wide / (np.abs(allowed) + 1e-300))
                short = np.where(u > 0, least - wide / u, below)
                lack = lack + np.where(np.isfinite(short), np.maximum(short, 0.0), np.inf)
            chance = np.maximum(1.0 - missing, 0.0)
            # Boole: each limit alone may hold surely enough and yet not all together.
            lack = np.where(chance >= self.level, 0.0, lack + (self.level - chance))
            for (cap, bound), seen in zip(self.caps, capped, strict=True):
                over = (seen - bound if cap.least else bound - seen) / (abs(bound) or 1.0)
                lack = lack + np.where(np.isfinite(over), np.maximum(over - 1e-9, 0.0), np.inf)
        lack = np.where(np.isfinite(value), lack, np.inf)
        return Seen(value, chance, lack)
