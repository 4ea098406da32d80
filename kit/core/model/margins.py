"""How uncertain the margins of a model's limits are, to first order, and how sure the near ones, by Monte Carlo."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from kit.core.model.compiled import NoValueError, functions_of

if TYPE_CHECKING:
    from kit.core.model.case import Case

DRAWS = 20_000  # a chance of 95 % comes out within 0.3 %
_NEAR = 3.0  # standard uncertainties: beyond them the shape of the margin's distribution changes nothing


def margin_uncertainties(case: Case) -> tuple[float, ...]:
    """Return the standard uncertainty of each limit's margin, in base units, in the order of the model's limits.

    Each uncertain given is moved by its standard uncertainty, up and down, and half the difference is its share.
    Source: JCGM 100:2008 (GUM), 5.1.3, note 2. A share that has no value on either side makes the margin unknown:
    its uncertainty is infinite.
    """
    here = _margins(case, {})
    squares = [0.0] * len(here)
    for name, entry in case.entries.items():
        if not entry.u or entry.given.kind in ("count", "choice"):
            continue
        above, below = (_tried(case, name, entry.base + side * entry.u) for side in (1, -1))
        for i, middle in enumerate(here):
            if above is not None and below is not None:
                share = (above[i] - below[i]) / 2
            elif above is not None or below is not None:
                share = (above or below or here)[i] - middle
            else:
                share = math.inf
            squares[i] += share * share
    return tuple(math.sqrt(square) if square == square else math.inf for square in squares)


def drawn_chances(case: Case, margins: Sequence[float], spread: Sequence[float]) -> tuple[float | None, ...]:
    """Return how likely each limit holds, of `DRAWS` draws of the uncertain givens; None where the margin is not near.

    `margins` and `spread`, their standard uncertainties, are in base units, in the order of the model's limits. Every
    case is drawn with the same seed, so that whoever asks is told the same. A draw at which a limit has no value, or
    rests on what cannot be, counts against it. Source: JCGM 101:2008, 7; JCGM 106:2012, 7.2.
    """
    near = [0 < u < math.inf and abs(margin) < _NEAR * u for margin, u in zip(margins, spread, strict=True)]
    if not any(near):
        return (None,) * len(near)
    import numpy as np

    drawn = _drawn(case)
    numbers, empty = _drawn_limits(case, drawn), _empty(case, drawn)
    found: list[float | None] = []
    for i, (limit, wanted) in enumerate(zip(case.model.limits.values(), near, strict=True)):
        value, allowed = numbers[i]
        holds = value <= allowed if limit.sense == "<=" else value >= allowed
        for name in set(limit.rests_on) & empty.keys():
            holds = holds & ~empty[name]
        found.append(float(np.mean(np.broadcast_to(holds, DRAWS))) if wanted else None)
    return tuple(found)


def limits_over(case: Case, values: Mapping[str, Any]) -> dict[str, tuple[Any, Any]]:
    """Return each limit's margin and what it allows, over broadcast arrays of some givens, in base units.

    All else is as in the case.
    """
    import numpy as np

    givens = [values.get(name, entry.base) for name, entry in case.entries.items()]
    with np.errstate(all="ignore"):
        numbers = functions_of(case.model).limits_over([np.asarray(each, dtype=float) for each in givens])
    found = {}
    for i, limit in enumerate(case.model.limits.values()):
        value, allowed = numbers[2 * i : 2 * i + 2]
        found[limit.name] = (allowed - value if limit.sense == "<=" else value - allowed), allowed
    return found


def margins_over(case: Case, values: Mapping[str, Any]) -> dict[str, Any]:
    """Return each limit's margin over broadcast arrays of some givens, in base units; all else as in the case."""
    return {name: margin for name, (margin, _) in limits_over(case, values).items()}


def spread_over(case: Case, values: Mapping[str, Any], stated: Mapping[str, Any] | None = None) -> dict[str, Any]:
    """Return the standard uncertainty of each limit's margin over broadcast arrays of some givens, to first order.

    Every uncertain given is moved up by its standard uncertainty: the one `stated` for it, as an array over the same
    points, else the one in the case; base units.
    """
    import numpy as np

    known = {name: entry.u for name, entry in case.entries.items()} | dict(stated or {})
    real = [name for name, entry in case.entries.items() if entry.given.kind not in ("count", "choice")]
    moving = [name for name in real if np.any(known[name])]
    axes = max((np.ndim(each) for each in values.values()), default=0)
    moved: dict[str, Any] = dict(values)
    for number, name in enumerate(moving, 1):  # in the first row nothing is moved
        u = np.asarray(known[name])
        by = np.zeros((len(moving) + 1, *(1,) * (axes - u.ndim), *u.shape))
        by[number] = u
        moved[name] = np.asarray(values.get(name, case.entries[name].base), dtype=float) + by
    found: dict[str, Any] = {}
    with np.errstate(invalid="ignore", over="ignore"):
        for limit, margin in margins_over(case, moved).items():
            rows = np.asarray(margin)
            still = rows.ndim <= axes or not moving
            found[limit] = np.zeros(()) if still else np.sqrt(((rows[1:] - rows[:1]) ** 2).sum(axis=0))
    return found


def drawn_together(case: Case) -> float:
    """Return how likely all limits hold at once, of `DRAWS` draws of the uncertain givens; 1 where there is no limit.

    Drawn as in `drawn_chances`. A draw at which a limit has no value counts against it.
    """
    import numpy as np

    holds = np.ones(DRAWS, dtype=bool)
    for limit, (value, allowed) in zip(case.model.limits.values(), _drawn_limits(case, _drawn(case)), strict=True):
        holds = holds & (value <= allowed if limit.sense == "<=" else value >= allowed)
    return float(np.mean(holds))


def _drawn(case: Case) -> list[Any]:
    """Return draws of every given, a plain number for what is known surely, in base units."""
    import numpy as np

    rng = np.random.default_rng(1)
    drawn: list[Any] = []
    for entry in case.entries.values():
        still = not entry.u or entry.given.kind in ("count", "choice")
        drawn.append(np.float64(entry.base) if still else entry.base + entry.spread.draw(rng, DRAWS))
    return drawn


def _drawn_limits(case: Case, drawn: list[Any]) -> list[tuple[Any, Any]]:
    """Return each limit's value and what it allows at every draw."""
    import numpy as np

    with np.errstate(all="ignore"):
        numbers = functions_of(case.model).limits_over(drawn)
    return [(numbers[2 * i], numbers[2 * i + 1]) for i in range(len(case.model.limits))]


def _empty(case: Case, drawn: list[Any]) -> dict[str, Any]:
    """Return for each relation that a limit rests on and that has bounds the draws at which it cannot be."""
    resting = {name for limit in case.model.limits.values() for name in limit.rests_on}
    bound = [case.model.relations[name] for name in sorted(resting & case.model.relations.keys())]
    bound = [relation for relation in bound if relation.possible != (-math.inf, math.inf)]
    values = case.compute(dict(zip(case.entries, drawn, strict=True)), [relation.name for relation in bound])
    return {relation.name: ~relation.can_be(values[relation.name]) for relation in bound}


def _tried(case: Case, name: str, base: float) -> list[float] | None:
    try:
        return _margins(case, {name: base})
    except NoValueError:
        return None


def _margins(case: Case, moved: dict[str, float]) -> list[float]:
    compiled, limits = functions_of(case.model), case.model.limits.values()
    value = compiled.values({name: entry.base for name, entry in case.entries.items()} | moved) if moved else case.base
    numbers = compiled.verdicts(value)
    margins = (numbers[2 * i + 1] - numbers[2 * i] for i in range(len(limits)))
    return [margin if limit.sense == "<=" else -margin for margin, limit in zip(margins, limits, strict=True)]
