"""Numbers as a sheet shows them where `show` does not serve: in formulas, and as uncertainties."""

from __future__ import annotations

import math

from kit.model import Case, Given, Relation
from kit.quantity import Display, Unit, show
from kit.quantity.digits import significant
from kit.quantity.display import home
from kit.quantity.units import compose, unit

_IN_FORMULAS = 5  # significant digits: whoever checks a line by hand must come to the number shown
_NO_BREAK = "\u00a0"


def in_formulas(case: Case, display: Display | None = None) -> dict[str, str]:
    """Return the text of every quantity for a line of numbers: "1200 mm", "23.75 in", "38°", "(−2 mm)".

    Decimals also where the reader sees inch fractions: a fraction in a fraction is hard to read.
    """
    return {name: _one(case.model.part(name), base, display) for name, base in case.value.items()}


def _one(part: Given | Relation, base: float, display: Display | None) -> str:
    if isinstance(part, Given) and part.kind in ("count", "choice"):
        return part.show(base)
    text = with_digits(base, part.unit, display, _IN_FORMULAS)
    return f"({text})" if base < 0 else text


def with_digits(base: float, of: Unit, display: Display | None, digits: int) -> str:
    """Return a quantity with that many significant digits in the reader's unit: "0.1155 mm", "0.0045 in"."""
    if not math.isfinite(base):
        return show(base, of, display)
    seen = (display or home(of)).unit_for(of)
    return _joined(significant(seen.from_base(base), digits), seen.text)


def uncertainty(u: float, of: Unit, display: Display | None, digits: int = 2) -> str:
    """Return a standard or expanded uncertainty, two digits being all that it is worth."""
    return with_digits(u, _difference(of), display, digits)


def sensitivity(slope: float, of: Unit, per: Unit, display: Display | None) -> str:
    """Return a partial derivative of a quantity in `of` by one in `per`, in the reader's units: "0.52 mm/N"."""
    above, below = (((display or home(u)).unit_for(_difference(u))) for u in (of, per))
    quotient = compose((*above.parts, *((name, -power) for name, power in below.parts)))
    value = slope * below.factor / above.factor
    return _joined(significant(value, 3), quotient.text) if math.isfinite(value) else "undefined"


def _difference(of: Unit) -> Unit:
    """The unit of a difference: a span of temperature has no zero that is shifted."""
    return unit("K") if of.offset else of


def _joined(number: str, unit_text: str) -> str:
    number = number.replace("-", "−")
    if unit_text == "deg":
        return f"{number}°"
    return f"{number}{_NO_BREAK}{unit_text}" if unit_text else number
