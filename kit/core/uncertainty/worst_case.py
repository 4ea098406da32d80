"""The worst that half-widths can do to a result, and the square-root sums that are less than it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING, Any

from kit.core.errors import KitError

if TYPE_CHECKING:
    from kit.core.model.case import Case
    from kit.core.uncertainty.budget import Budget

MOST = 16
"""The most uncertain givens whose corners are tried: 65,536 of them."""


@dataclass(frozen=True, slots=True)
class Corners:
    """A result's least and largest value at the corners of all half-widths, in base units, and where that is.

    `at_low` and `at_high` map each uncertain given to its value at that corner.
    """

    low: float
    high: float
    at_low: dict[str, float]
    at_high: dict[str, float]


def worst_case(budget: Budget) -> float:
    """Return how far all half-widths together can move the result, in base units: the sum of slope times half.

    First order; exact for a result that is linear in its givens. A normal spread has no end; its stated half-width
    stands for it.
    """
    return math.fsum(abs(row.sensitivity) * row.entry.spread.half for row in budget.rows)


def root_sum_square(budget: Budget) -> float:
    """Return the root of the sum of squares of slope times half-width, in base units.

    Where every half-width is three standard deviations of a normal part, so is this of the whole, and it covers
    99.73 percent.
    """
    return math.hypot(*(row.sensitivity * row.entry.spread.half for row in budget.rows))


def corners(case: Case, result: str) -> Corners:
    """Try every corner of the half-widths for the result's least and largest value.

    It finds what the slopes at the middle miss, for a result that is monotonic in each given.

    Raises:
        KitError: more uncertain givens than 16, or a corner at which the result has no value.
    """
    import numpy as np

    named = {name for relation in case.model.needed([result]) for name in relation.rests_on}
    moved = [name for name, entry in case.entries.items() if entry.spread.half > 0 and name in named]
    if len(moved) > MOST:
        raise KitError(
            f"{result} rests on {len(moved)} uncertain givens; every corner is tried for at most {MOST}, "
            "so set the half-widths of the small ones to 0"
        )
    signs = np.array(list(product((-1.0, 1.0), repeat=len(moved)))).T
    values: dict[str, Any] = {}
    for name, sign in zip(moved, signs, strict=True):
        values[name] = case.entries[name].base + case.entries[name].spread.half * sign
    found = np.atleast_1d(case.compute(values, (result,))[result])
    if not np.isfinite(found).all():
        raise KitError(f"{result} has no value at some corners of the half-widths; narrow them")

    def where(index: int) -> dict[str, float]:
        return {name: float(values[name][index]) for name in moved}

    low, high = int(found.argmin()), int(found.argmax())
    return Corners(float(found[low]), float(found[high]), where(low), where(high))
