"""Results as they are answered: with the digits that their uncertainty bears out."""

from __future__ import annotations

import math
import re
from dataclasses import replace

from kit.core.model import Case, NoValueError, Relation
from kit.core.quantity import Display, show
from kit.core.quantity.display import DENOMINATORS, home
from kit.core.quantity.tokens import LOWER
from kit.core.quantity.unit_table import INCH
from kit.core.uncertainty import budget
from kit.core.uncertainty.budget import Budget, Correlations

_DECIMAL = re.compile(r"(?:-|−)?\d+(?:\.(?P<decimals>\d+))?(?:×10(?P<power>[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+))?(?![\d/]| \d)[^/]*")


def answered(
    case: Case,
    relation: Relation,
    display: Display | None = None,
    *,
    correlations: Correlations | None = None,
    base: float | None = None,
    known: Budget | None = None,
) -> str:
    """Return a result as it is answered: no digit, and no finer fraction, than its expanded uncertainty bears out.

    That is: its last digit is at the finest the second of the uncertainty, an inch fraction at most half of it off.
    `base` stands for the result's value, as where it was worked from rounded numbers. `known` is the result's budget,
    if it was worked already.
    """
    base = case.base[relation.name] if base is None else base
    try:
        expanded = (known or budget(case, relation.name, correlations)).expanded
    except NoValueError:
        expanded = 0.0
    if not expanded or not math.isfinite(expanded):
        return relation.show(base, display)
    return _within(relation, base, expanded, display)


def _within(relation: Relation, base: float, expanded: float, display: Display | None) -> str:
    text = relation.show(base, display)
    seen = (display or home(relation.unit)).unit_for(relation.unit)
    half = expanded / seen.factor
    if seen.text == "in" and not _DECIMAL.fullmatch(text):
        return _coarser_fraction(text, base, half, display)
    step = 10.0 ** (math.floor(math.log10(float(f"{half:.1e}"))) - 1)  # as it is printed, in two digits
    if step <= _last_place(text) * (1 + 1e-9):
        return text
    rounded = seen.to_base(round(seen.from_base(base) / step) * step)
    return show(rounded, relation.unit, display, resolution=max(step * seen.factor, relation.resolution or 0.0))


def _coarser_fraction(text: str, base: float, half: float, display: Display | None) -> str:
    finest = display.denominator if display else DENOMINATORS[-1]
    fits = next((each for each in DENOMINATORS if each < finest and 1 / each <= half / 2), None)
    if fits is None:
        return text
    reader = replace(display or Display(system="in"), denominator=fits)
    return show(base, "in", reader, resolution=half * INCH / 2)


def _last_place(text: str) -> float:
    """Return what one unit of a shown number's last digit is worth: 0.01 of "12.34 mm", 1000 of "1.234×10⁶ mm⁴"."""
    found = _DECIMAL.match(text)
    if not found:
        return math.inf
    power = int((found["power"] or "0").translate(LOWER))
    return 10.0 ** (power - len(found["decimals"] or ""))
