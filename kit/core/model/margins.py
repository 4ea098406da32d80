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
    case is drawn with the same seed, so that whoever asks is told the same. A draw at which a limit has no value
    counts against it. Source: JCGM 101:2008, 7; JCGM 106:2012, 7.2.
    """
    near = [0 < u < math.inf and abs(margin) < _NEAR * u for margin, u in zip(margins, spread, strict=True)]
    if not any(near):
        return (None,) * len(near)
    import numpy as np

    rng = np.random.default_rng(1)
    drawn: list[Any] = []
    for entry in case.entries.values():
        still = not entry.u or entry.given.kind in ("count", "choice")
        drawn.append(np.float64(entry.base) if still else entry.base + entry.spread.draw(rng, DRAWS))
    with np.errstate(all="ignore"):
        numbers = functions_of(case.model).limits_over(drawn)
    found: list[float | None] = []
    for i, (limit, wanted) in enumerate(zip(case.model.limits.values(), near, strict=True)):
        value, allowed = numbers[2 * i : 2 * i + 2]
        holds = value <= allowed if limit.sense == "<=" else value >= allowed
        found.append(float(np.mean(np.broadcast_to(holds, DRAWS))) if wanted else None)
    return tuple(found)


def margins_over(case: Case, values: Mapping[str, Any]) -> dict[str, Any]:
    """Return each limit's margin over broadcast arrays of some givens, in base units; all else as in the case."""
    import numpy as np

    givens = [values.get(name, entry.base) for name, entry in case.entries.items()]
    with np.errstate(all="ignore"):
        numbers = functions_of(case.model).limits_over([np.asarray(each, dtype=float) for each in givens])
    found = {}
    for i, limit in enumerate(case.model.limits.values()):
        value, allowed = numbers[2 * i : 2 * i + 2]
        found[limit.name] = allowed - value if limit.sense == "<=" else value - allowed
    return found


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
