"""Designs between two wishes: none of them meets one better without meeting the other worse."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from kit.core.errors import KitError
from kit.core.search.best_design import sure
from kit.core.search.space import Space, Vary
from kit.core.search.watch import Watch
from kit.core.search.wished import wish_of
from kit.core.verdict import LEVEL, percent

if TYPE_CHECKING:
    from kit.core.model import Case, Wish

STEPS = 7
_SAME = 1e-3  # of the range between both ends: designs nearer to each other are one


def front(
    case: Case,
    wishes: tuple[str | Wish, str | Wish],
    vary: Sequence[Vary | str],
    *,
    level: float = LEVEL,
    watch: Watch | None = None,
) -> tuple[Case, ...]:
    """Return designs from the best for one wish to the best for the other, all of which hold with the chance `level`.

    Between both ends the first wish's value goes in even steps, and the other is met as well as that lets it.
    `watch` is told how far it is.

    Raises:
        KitError: as `best`; twice the same wish, or no design that holds.
        StoppedError: `watch` ended it.
    """
    one, other = (wish_of(case.model, each) for each in wishes)
    if (one.of, one.least) == (other.of, other.least):
        raise KitError(f"both wishes are {one.words}; take two that pull apart")
    space = Space(case, vary, watch)
    begin = [space.point(case)]
    ends = []
    for wish in (one, other):
        _, point, chance = sure(space, wish, level, begin)
        if chance < level:
            names = ", ".join(map(case.model.called, space.names))
            raise KitError(f"no design holds with a chance of {percent(level)} while {names} vary; vary more")
        begin.append(point)
        ends.append(space.at(case, space.base(point)))
    first, last = (end.base[one.of] for end in ends)
    found = list(ends)
    for bound in np.linspace(first, last, STEPS)[:-1]:
        caps = ((one, float(bound)),)
        _, point, chance = sure(space, other, level, begin, caps=caps, rounds=60, first=512)
        begin[3:] = [point]
        if chance >= level:
            found.append(space.at(case, space.base(point), how=f"between {one.words} and {other.words}"))
    return _unbeaten(found, one, other)


def _unbeaten(cases: Sequence[Case], one: Wish, other: Wish) -> tuple[Case, ...]:
    """Return the designs that no other one beats in both wishes, from the best for one to the best for the other."""
    worth = [np.array([case.base[wish.of] * (1 if wish.least else -1) for case in cases]) for wish in (one, other)]
    near = [_SAME * float(np.ptp(each)) for each in worth]
    kept: list[int] = []
    for i in np.lexsort((worth[1], worth[0])):
        if kept and worth[1][i] >= worth[1][kept[-1]] - near[1]:
            continue
        if kept and worth[0][i] <= worth[0][kept[-1]] + near[0]:
            kept.pop()
        kept.append(int(i))
    return tuple(cases[i] for i in kept)
