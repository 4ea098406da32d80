"""Numbers as a sheet shows them where `show` does not serve: in formulas, and as uncertainties."""

from __future__ import annotations

import math
import re
from html import escape

from kit.core.quantity import Display, Unit, show
from kit.core.quantity.digits import fixed, places_within, significant, trimmed
from kit.core.quantity.display import home
from kit.core.quantity.units import compose, unit

_NO_BREAK = "\u00a0"
_NUMBER = re.compile(r"^−?[\d.]+(?:×10[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)?")
_BESIDE_NUMBER = re.compile(r"(?<=[\d±]) (?!to\b|or\b|\()| (?=[\d±])")


def with_digits(base: float, of: Unit, display: Display | None, digits: int, *, u: float | None = None) -> str:
    """Return a quantity in decimals with that many significant digits: "0.1155 mm", "0.0045 in".

    With `u`, a standard uncertainty in the base, there are at least as many as its second one needs.
    """
    if not math.isfinite(base):
        return show(base, of, display)
    seen = (display or home(of)).unit_for(of)
    limit = u / seen.factor / 20 if u else None
    return joined(trimmed(_decimals(seen.from_base(base), digits, limit)), seen.text)


def uncertainty(u: float, of: Unit, display: Display | None, *, digits: int = 2) -> str:
    """Return a standard or expanded uncertainty, two digits being all that it is worth: "0.10 mm"."""
    difference = unit("K") if of.offset else of
    if not math.isfinite(u):
        return show(u, difference, display)
    seen = (display or home(difference)).unit_for(difference)
    return joined(_rounded(seen.from_base(u), digits), seen.text)


def with_unit_of(text: str, number: float, *, digits: int) -> str:
    """Return another number with the unit of a text that was made here."""
    return _NUMBER.sub(_rounded(number, digits).replace("-", "−"), text, count=1)


def _rounded(value: float, digits: int) -> str:
    """Return a number with so many significant digits at least; of two, what is not one is a zero: "0.10", "320"."""
    if not value:
        return "0"
    return _decimals(float(f"{value:.1e}"), 2) if digits == 2 else plain_decimals(value, digits)


def sensitivity(slope: float, of: Unit, per: Unit, display: Display | None, *, digits: int = 3) -> str:
    """Return a partial derivative of a quantity in `of` by one in `per`, in the reader's units: "0.52 mm/N"."""
    above, below = ((display or home(u)).unit_for(unit("K") if u.offset else u) for u in (of, per))
    quotient = compose((*above.parts, *((name, -power) for name, power in below.parts)))
    value = slope * below.factor / above.factor
    return joined(trimmed(_decimals(value, digits)), quotient.text) if math.isfinite(value) else "undefined"


def unbroken(text: str) -> str:
    """Return a text as HTML that wraps between words, but not beside a number: "30.0 ± 10 mm" stays together."""
    return escape(_BESIDE_NUMBER.sub(_NO_BREAK, text))


def breaking(text: str) -> str:
    """Return a number with its unit as HTML that wraps between them in a column that is too narrow for both."""
    return escape(text.replace(_NO_BREAK, " "))


def _decimals(value: float, digits: int, limit: float | None = None) -> str:
    """Return a number without a power of ten down to a ten-thousandth, where a reader still counts zeros."""
    if not 1e-5 <= abs(value) < 1:
        return significant(value, digits, limit)
    places = digits - 1 - math.floor(math.log10(abs(value)))
    return fixed(value, max(places, 0 if limit is None else places_within(limit)))


def plain_decimals(value: float, digits: int, limit: float | None = None) -> str:
    """Return a number with at least so many significant digits, more if `limit` asks for them, no zeros at its end."""
    return trimmed(_decimals(value, digits, limit))


def joined(number: str, unit_text: str) -> str:
    """Return a number with its unit: "12.3 mm", "38°"."""
    number = number.replace("-", "−")
    if unit_text == "deg":
        return f"{number}°"
    return f"{number}{_NO_BREAK}{unit_text}" if unit_text else number
