"""To what an answer is asked for, and how far off it may be."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from kit.core.quantity import show_in

if TYPE_CHECKING:
    from kit.core.quantity import Display, Unit

DIGITS = 3
_PARTS = 16  # of an inch: what a rule in a shop shows
_FROM = 1.0  # inch: below, sixteenths are too coarse
_SLACK = 1e-9


@dataclass(frozen=True, slots=True)
class Rounding:
    """What an answer is rounded to, in `words` after "Round ", and half of it in base units."""

    words: str
    half: float

    def takes(self, typed: float, value: float) -> bool:
        """Whether `typed` is `value` within the rounding; base units."""
        return abs(typed - value) <= self.half * (1 + _SLACK)


def rounding(base: float, of: Unit, display: Display) -> Rounding:
    """Return what an answer of `base` in the unit `of` is rounded to: a sixteenth of an inch, or three digits."""
    shown = display.unit_for(of)
    value = abs(shown.from_base(base))
    if shown.text == "in" and value >= _FROM:
        return Rounding(f"to the nearest 1/{_PARTS} in", 0.5 / _PARTS * shown.factor)
    return Rounding(f"to {DIGITS} digits", 0.5 * last_digit(value, DIGITS) * shown.factor)


def as_rounded(base: float, of: Unit, display: Display) -> str:
    """Return a value rounded as answers are, as text with its unit."""
    step = 2 * rounding(base, of, display).half
    return show_in(round((base - of.offset) / step) * step + of.offset, display.unit_for(of), digits=6)


def last_digit(value: float, digits: int) -> float:
    """Return the size of the last of so many digits of a number, of 1 where it is 0."""
    decade = math.floor(math.log10(abs(value))) if value else 0
    return float(10.0 ** (decade - digits + 1))
