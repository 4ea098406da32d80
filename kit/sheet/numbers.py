"""Numbers as a sheet shows them where `show` does not serve: in formulas, and as uncertainties."""

from __future__ import annotations

import math
import re
from html import escape

from kit.core.model import Case, Given, Relation
from kit.core.quantity import Display, Unit, show
from kit.core.quantity.digits import fixed, places_within, significant, trimmed
from kit.core.quantity.display import home
from kit.core.quantity.units import compose, unit

_IN_FORMULAS = 5  # significant digits at least: whoever checks a line by hand must come to the number shown
_AS_TYPED = 7  # that a person types of a given: two test cuts differ in the last ones
_NO_BREAK = "\u00a0"
_BESIDE_NUMBER = re.compile(r"(?<=[\d±]) (?!to\b|or\b|\()| (?=[\d±])")


def in_formulas(case: Case, display: Display | None = None) -> dict[str, str]:
    """Return the text of every quantity for a line of numbers: "1200 mm", "23.75 in", "38°", "(−2 mm)".

    Decimals also where the reader sees inch fractions: a fraction in a fraction is hard to read.
    """
    return {name: _one(case.model.part(name), base, display) for name, base in case.base.items()}


def _one(part: Given | Relation, base: float, display: Display | None) -> str:
    digits, u = _IN_FORMULAS, None
    if isinstance(part, Relation):
        u = 10 * part.resolution if part.resolution else None  # what is read off it must come out again
    elif part.kind in ("count", "choice"):
        return part.show(base)
    elif _short((display or home(part.unit)).unit_for(part.unit).from_base(base)):
        digits = _AS_TYPED
    text = with_digits(base, part.unit, display, digits, u=u)
    return f"({text})" if base < 0 else text


def _short(seen: float) -> bool:
    """Return whether a number has no more digits than people type: it then stands in a formula as it is."""
    return math.isclose(float(f"{seen:.{_AS_TYPED}g}"), seen, rel_tol=1e-12)


def with_digits(base: float, of: Unit, display: Display | None, digits: int, *, u: float | None = None) -> str:
    """Return a quantity in decimals with that many significant digits: "0.1155 mm", "0.0045 in".

    With `u`, a standard uncertainty in the base, there are at least as many as its second one needs.
    """
    if not math.isfinite(base):
        return show(base, of, display)
    seen = (display or home(of)).unit_for(of)
    limit = u / seen.factor / 20 if u else None
    return _joined(trimmed(_decimals(seen.from_base(base), digits, limit)), seen.text)


def uncertainty(u: float, of: Unit, display: Display | None) -> str:
    """Return a standard or expanded uncertainty, two digits being all that it is worth: "0.10 mm"."""
    difference = unit("K") if of.offset else of
    if not math.isfinite(u):
        return show(u, difference, display)
    seen = (display or home(difference)).unit_for(difference)
    return _joined(_decimals(seen.from_base(u), 2), seen.text)


def sensitivity(slope: float, of: Unit, per: Unit, display: Display | None) -> str:
    """Return a partial derivative of a quantity in `of` by one in `per`, in the reader's units: "0.52 mm/N"."""
    above, below = ((display or home(u)).unit_for(unit("K") if u.offset else u) for u in (of, per))
    quotient = compose((*above.parts, *((name, -power) for name, power in below.parts)))
    value = slope * below.factor / above.factor
    return _joined(trimmed(_decimals(value, 3)), quotient.text) if math.isfinite(value) else "undefined"


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


def _joined(number: str, unit_text: str) -> str:
    number = number.replace("-", "−")
    if unit_text == "deg":
        return f"{number}°"
    return f"{number}{_NO_BREAK}{unit_text}" if unit_text else number
