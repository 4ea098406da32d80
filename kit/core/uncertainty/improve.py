"""What must be improved for a smaller uncertainty: for each contributor, what it alone would have to come down to."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from kit.core.errors import KitError
from kit.core.summary import some, summary

if TYPE_CHECKING:
    from kit.core.model.case import Entry
    from kit.core.uncertainty.budget import Budget


@dataclass(frozen=True, slots=True)
class Improvement:
    """One contributor of a budget, and what it alone would have to shrink to, in base units.

    `factor` is the allowed part of its half-width, from 0 to 1; where it is None the others alone are too much.
    """

    entry: Entry
    contribution: float
    factor: float | None

    @property
    def half(self) -> float | None:
        """The half-width that the given may keep."""
        return None if self.factor is None else self.factor * self.entry.spread.half

    @property
    def u(self) -> float | None:
        """The standard uncertainty that the given may keep."""
        return None if self.factor is None else self.factor * self.entry.u

    def __repr__(self) -> str:
        to = "the others alone are too much" if self.factor is None else f"to {self.factor:.2f} of its half-width"
        return f"<{self.entry.given.name} {to}>"


@dataclass(frozen=True, slots=True)
class Plan:
    """What would bring a budget down to a required expanded uncertainty, in base units.

    `rows` stand in the budget's order, largest first, for each what shrinking it alone takes. `together` shrinks only
    the largest, all to one contribution `cap`, and leaves the others: the fewest things to touch, each as little as
    can be.
    """

    target: float
    rows: tuple[Improvement, ...]
    cap: float
    together: tuple[Improvement, ...]

    def __repr__(self) -> str:
        return summary(
            f"Plan for an expanded uncertainty of {self.target:.3g} (base units)",
            alone=some(repr(row)[1:-1] for row in self.rows),
            together=some(repr(row)[1:-1] for row in self.together),
        )


def needed(budget: Budget, target: float) -> Plan:
    """Return which contributors must shrink, and to what, for an expanded uncertainty `target` (base units, same k).

    For one alone: u_i ≤ √(u_target² - (u² - u_i²)), the law of propagation solved for u_i. Correlations are left aside.
    Source: JCGM 100:2008 (GUM), equation (10).

    Raises:
        KitError: a requirement that is not above 0.

    >>> from kit import budget, model
    >>> case = model("scale.cursor").at(eye_height="500 mm", eye_offset="50 ± 5 mm", gap="1 ± 0.3 mm")
    >>> [row.entry.given.name for row in needed(budget(case, "parallax"), 0.03).together]
    ['gap']
    """
    if not (math.isfinite(target) and target > 0):
        raise KitError(f"a required uncertainty of {target:g} cannot be met; give a number above 0")
    square = (target / budget.k) ** 2
    squares = [row.contribution**2 for row in budget.rows]
    rows = []
    for i, row in enumerate(budget.rows):
        if not row.contribution:
            continue
        left = square - math.fsum(squares[:i] + squares[i + 1 :])
        rows.append(_to(row.entry, row.contribution, math.sqrt(left) if left > 0 else None))
    cap = _cap(squares, square)
    together = tuple(
        _to(row.entry, row.contribution, cap) for row in budget.rows if row.contribution > cap * (1 + 1e-12)
    )
    return Plan(target, tuple(rows), cap, together)


def _to(entry: Entry, contribution: float, allowed: float | None) -> Improvement:
    factor = None if allowed is None else min(1.0, allowed / contribution)
    return Improvement(entry, contribution, factor)


def _cap(squares: list[float], square: float) -> float:
    """Return the largest contribution that all may have, for their squares, largest first, to sum to `square`."""
    for count in range(len(squares) + 1):
        rest = square - math.fsum(squares[count:])
        if count == 0 and rest >= 0:
            return math.sqrt(max(squares, default=0.0))
        following = squares[count] if count < len(squares) else 0.0
        if count and rest / count >= following:
            return math.sqrt(rest / count)
    raise AssertionError("with every contribution shrunk some cap always meets the target")
