"""A measured value beside a predicted one: do they agree, and which given would have to be off by how much if not."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from kit.core.model.case import Entry
    from kit.core.uncertainty.budget import Budget


@dataclass(frozen=True, slots=True)
class Alone:
    """A given that alone would explain a difference: how far off it would be (base units), and how likely that is.

    `chance` is that of an error at least as large, were it normal with the given's standard uncertainty.
    """

    entry: Entry
    off: float
    chance: float


@dataclass(frozen=True, slots=True)
class Beside:
    """A result as predicted, and as measured with its expanded uncertainty; base units."""

    predicted: Budget
    measured: float
    expanded: float

    @property
    def off(self) -> float:
        """The measured value less the predicted one."""
        return self.measured - self.predicted.base

    @property
    def within(self) -> float:
        """How far both may be apart: their expanded uncertainties joined by the root of their squares."""
        return math.hypot(self.predicted.expanded, self.expanded)

    @property
    def agree(self) -> bool:
        """Whether they are no farther apart than both allow."""
        return abs(self.off) <= self.within

    @property
    def normalized(self) -> float:
        """The normalized error E_n, the difference over what both allow. Source: ISO/IEC 17043, the E_n number."""
        if not self.within:
            return math.copysign(math.inf, self.off) if self.off else 0.0
        return self.off / self.within

    @property
    def explained(self) -> tuple[Alone, ...]:
        """The uncertain givens, each alone to first order and with an exact measurement; the likeliest first."""
        found = []
        for row in self.predicted.rows:
            if row.sensitivity and row.entry.u:
                off = self.off / row.sensitivity
                found.append(Alone(row.entry, off, math.erfc(abs(off) / row.entry.u / math.sqrt(2))))
        return tuple(sorted(found, key=lambda each: -each.chance))
