"""A given as a person, a job or a search states it."""

from __future__ import annotations

from dataclasses import dataclass

from kit.core.quantity import CHOSEN, Quantity, ValueOrigin
from kit.core.quantity.distribution import Shape


@dataclass(frozen=True, slots=True)
class Stated:
    """A given as it is stated: its text or number, how it spreads, where it comes from.

    What is None about its spread keeps what the model says.
    """

    text: str | float
    spread: Shape | None = None
    k: float | None = None
    dof: float | None = None
    origin: ValueOrigin = CHOSEN


Typed = str | float | int | Quantity | Stated
