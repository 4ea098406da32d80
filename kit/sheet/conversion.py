"""A conversion from one unit to another as a step that a checker can press: "· π/180", "÷ 1728", "+ 273.15"."""

from __future__ import annotations

from dataclasses import dataclass
from math import isclose, pi

from kit.core.quantity import Unit
from kit.core.quantity.digits import significant, trimmed

_EXACT = 1e-11
_DIGITS = 12


@dataclass(frozen=True, slots=True)
class Conversion:
    """What is done to a number: add `before`, multiply by `factor`, which is written as `words`, add `after`."""

    words: str
    factor: float
    before: float = 0.0
    after: float = 0.0

    def written(self, number: str) -> str:
        """Return what is pressed, for a number with its unit: "38° · π/180", "(68 °F + 459.67) ÷ 1.8"."""
        start = number + _shift(self.before)
        if self.words:
            start = f"({start}) {self.words}" if self.before else f"{start} {self.words}"
        return start + _shift(self.after)

    def of(self, number: float) -> float:
        """Return the number converted."""
        return (number + self.before) * self.factor + self.after


def conversion(shown: Unit, wanted: Unit) -> Conversion:
    """Return how a number in the unit `shown` becomes one in `wanted`."""
    words, factor = _factor(shown.factor / wanted.factor)
    before, after = shown.offset / shown.factor, -wanted.offset / wanted.factor
    return Conversion(words if factor != 1 else "", factor, before, after)


def _factor(k: float) -> tuple[str, float]:
    """Return a factor as it is pressed, and the very number that this is."""
    for base, above, below in ((1.0, "", ""), (pi / 180, "π/180", "180/π")):
        if isclose(k, base, rel_tol=_EXACT) and above:
            return f"· {above}", base
        if isclose(k, 1 / base, rel_tol=_EXACT) and below:
            return f"· {below}", 1 / base
    for sign, ratio in (("·", k), ("÷", 1 / k)):
        if ratio >= 1 and isclose(ratio, round(ratio), rel_tol=_EXACT):
            return f"{sign} {round(ratio)}", k if sign == "·" else 1 / round(ratio)
    for sign, ratio in (("·", k), ("÷", 1 / k)):
        if ratio >= 1:
            text = _plain(ratio)
            return f"{sign} {text}", float(text) if sign == "·" else 1 / float(text)
    return "· 1", 1.0


def _shift(step: float) -> str:
    return f" {'+' if step > 0 else '−'} {trimmed(f'{abs(step):.4f}')}" if step else ""


def _plain(number: float) -> str:
    text = significant(number, _DIGITS)
    return text if "×" not in text else f"{number:.0f}"
