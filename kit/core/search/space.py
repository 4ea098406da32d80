"""What a search moves in: some givens of a case, from 0 to 1 each, and what the model says at many points at once."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from kit.core.errors import KitError, near_misses
from kit.core.model import Stated, in_words
from kit.core.model.margins import limits_over, spread_over
from kit.core.quantity import ValueOrigin
from kit.core.search.stock import ANY, sizes
from kit.core.search.watch import Watch, go_on

if TYPE_CHECKING:
    from kit.core.model import Case, Wish

    Array = np.ndarray[Any, Any]


@dataclass(frozen=True)
class Vary:
    """A given that may vary: within its span or between `ends`, in base units, and in which `sizes` (`SIZES`)."""

    name: str
    sizes: str = ANY
    ends: tuple[float, float] | None = None


class Space:
    """Some givens of a case to be varied. Points are arrays (n, d) from 0 to 1; numbers are in base units.

    A given that varies has the half-width that its model takes for usual, since nobody has measured it yet.
    """

    def __init__(self, case: Case, vary: Sequence[Vary | str], watch: Watch | None = None) -> None:
        """Raises KitError: nothing to vary, a given twice or unknown, one whose span has no width, sizes that miss."""
        self._watch, self.stage = watch, "looking for the best"
        self.vary = [Vary(each) if isinstance(each, str) else each for each in vary]
        names = [each.name for each in self.vary]
        known = case.model.free
        if not names:
            raise KitError("nothing may vary; choose at least one given")
        for name in names:
            if name not in known:
                raise KitError(f"{case.model.name} has no given {name!r}{near_misses(name, list(known))}")
            if names.count(name) > 1:
                raise KitError(f"{name} is to vary twice; state it once")
        self.sizes = {each.name: self._kept(each, sizes(known[each.name], each.sizes)) for each in self.vary}
        self.ends = {each.name: each.ends or known[each.name].span for each in self.vary}
        for name, (low, high) in self.ends.items():
            if not self.sizes[name] and not (math.isfinite(low) and math.isfinite(high) and low < high):
                raise KitError(f"the span of {name} has no width; give it another, or do not vary it")
        self.names = names
        self.case = self.at(case, {name: case.base[name] for name in names})

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
        """Return what the givens are at points (n, d)."""
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
        """Return what the givens are at one point (d,)."""
        return {name: float(each[0]) for name, each in self.values(point[None, :]).items()}

    def point(self, base: Mapping[str, float]) -> Array:
        """Return the point (d,) of a design, or the nearest that there is."""
        found = []
        for name in self.names:
            kept, (low, high) = self.sizes[name], self.ends[name]
            if kept:
                found.append((int(np.argmin(np.abs(np.array(kept) - base[name]))) + 0.5) / len(kept))
            else:
                found.append(min(max((base[name] - low) / (high - low), 0.0), 1.0))
        return np.array(found)

    def at(self, case: Case, base: Mapping[str, float], how: str = "") -> Case:
        """Return a case with the givens that vary at these values. Raises KitError where the model refuses them."""
        typed = {}
        for name in self.names:
            given = case.model.free[name]
            value = given.option(base[name]) if given.kind == "choice" else given.unit.from_base(base[name])
            typed[name] = Stated(value, origin=ValueOrigin("solved", how=how))
        return case.changed(typed)

    @property
    def smooth(self) -> list[int]:
        """The numbers of the givens that take any size."""
        return [number for number, name in enumerate(self.names) if not self.sizes[name]]


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
        spread = spread_over(case, values)
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

    @property
    def words(self) -> str:
        """What may vary, in words."""
        return ", ".join(map(in_words, self.space.names))
