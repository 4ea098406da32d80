"""How uncertain the margins of a model's limits are, to first order."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from kit.core.model.compiled import NoValueError, functions_of

if TYPE_CHECKING:
    from kit.core.model.case import Case


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
