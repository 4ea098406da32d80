"""Writing quantities for a reader, so that what is written reads back as what was meant.

Rounding. How far a shown number may be off, its *limit*, is

- a quarter of the stated half-width, or half of the stated resolution, whichever is finer;
- 0.1 mm for a length of which neither is stated.

A stated resolution sets the decimals. Without one, decimals are added to the reader's own until the rounding
keeps within the limit of the half-width, or, with neither, until two significant digits show. An inch fraction
keeps the reader's denominator, and where it is off by more than the limit the difference follows, true minus
shown, to within half the limit: "23 3/4 in (+0.004 in)" is 23.754 in.
The same happens to millimeters where the reader asks for too few decimals. A length below 1 in whose
rounding matters, or that would read 0, is written in decimal inches instead. Less than a nanometer is
shown as 0.
"""

from math import isfinite, isnan
from typing import NamedTuple

from kit.core.quantity.digits import (
    fixed,
    fraction_tex,
    fraction_text,
    places,
    places_within,
    power_of,
    significant,
    steps_if_exact,
    trimmed,
)
from kit.core.quantity.display import DENOMINATORS, Display, home
from kit.core.quantity.tokens import LOWER
from kit.core.quantity.unit_table import INCH
from kit.core.quantity.units import Unit, unit

_UNSTATED_LIMIT = 0.1  # mm
_NOISE = {"mm": 1e-6, "in": 1e-6 / INCH, "deg": 1e-9}
_SMALL_INCHES = 1.0
_INCH_DECIMALS = 3
_BOUND = 1e7  # mm, in or degrees: from there on lengths and angles are written like all other numbers
_LOOKS = {"deg": "°"}


class Parts(NamedTuple):
    """A shown quantity in pieces: "23 3/4", "in", and "+0.004 in" or nothing."""

    number: str
    unit: str
    note: str


def show(
    base: float,
    of: Unit | str,
    display: Display | None = None,
    *,
    half: float | None = None,
    resolution: float | None = None,
) -> str:
    """Return a quantity as the reader wants it: "603.3 mm", "23 3/4 in (+0.004 in)", "38.0°", "12.3 GPa".

    `base` is its value in the base, `of` the unit in which it is stated; without a `display` that unit's own
    system serves. `half` (a half-width, in the base) is written after ±; `resolution` (a difference that
    matters, in the base) is not written; both decide how much rounding is too much, see the module. What is
    not a number reads "undefined", what is infinite "∞".

    >>> show(603.25, "mm", Display(system="in"))
    '23 3/4 in'
    """
    parts = show_parts(base, of, display, half=half, resolution=resolution)
    return _with_unit(parts.number, parts.unit) + (f" ({parts.note})" if parts.note else "")


def number(
    base: float,
    of: Unit | str,
    display: Display | None = None,
    *,
    half: float | None = None,
    resolution: float | None = None,
) -> str:
    """Return what `show` writes, without unit and rounding note."""
    return show_parts(base, of, display, half=half, resolution=resolution).number


def show_parts(
    base: float,
    of: Unit | str,
    display: Display | None = None,
    *,
    half: float | None = None,
    resolution: float | None = None,
) -> Parts:
    """Return number, unit and rounding note of what `show` writes; arguments as there."""
    seen = _see(base, of, display, half, resolution)
    name = _LOOKS.get(seen.unit.text, seen.unit.text)
    text, off = _rounded(seen)
    note = ""
    if seen.unit.text in ("mm", "in") and seen.matters(off):
        step = fixed(off, max(0, places_within(seen.allowed / 2)))
        note = f"{'' if off < 0 else '+'}{step} {name}"
    if seen.half is not None:
        text += f" ± {_half(seen)}"
    return Parts(text, name, note)


def show_in(base: float, of: Unit | str, *, half: float | None = None, digits: int = 4) -> str:
    """Return a quantity in exactly the unit `of`, for messages that answer in the unit typed: "0.6 m".

    Inches that are whole 128ths are written as a fraction, all else with `digits` significant digits.
    """
    shown = unit(of) if isinstance(of, str) else of
    numbers = [shown.from_base(base)] + ([] if half is None else [half / shown.factor])
    return _with_unit(" ± ".join(_exact(value, shown, digits) for value in numbers), _LOOKS.get(shown.text, shown.text))


def tex(base: float, of: Unit | str, display: Display | None = None, *, resolution: float | None = None) -> str:
    r"""Return number and unit for a formula: r"1200\,\mathrm{mm}", r"23\tfrac{3}{4}\,\mathrm{in}".

    As `show`, but without zeros at the end, and with decimal inches where a fraction is off by too much.
    """
    seen = _see(base, of, display, None, resolution)
    text, off = _rounded(seen)
    steps = steps_if_exact(seen.value - off, DENOMINATORS[-1])
    if not isfinite(seen.value):
        text = r"\text{undefined}" if isnan(seen.value) else text.replace("∞", r"\infty")
    elif seen.matters(off) and seen.unit.text == "in":
        text = trimmed(fixed(seen.value, places(seen.value, _INCH_DECIMALS, seen.limit)))
    elif "/" in text and steps is not None:
        text = fraction_tex(steps, DENOMINATORS[-1])
    else:
        plain, times, power = text.partition("×10")
        text = trimmed(plain) + (rf"\times10^{{{power.translate(LOWER)}}}" if times else "")
    if not seen.unit.text:
        return text
    return text + ("" if seen.unit.text == "deg" else r"\,") + seen.unit.tex


class _Seen(NamedTuple):
    """A value in the reader's unit with the rounding that it bears."""

    value: float
    unit: Unit
    reader: Display
    limit: float | None
    resolved: bool  # a resolution is stated
    half: float | None

    @property
    def plain(self) -> bool:
        """Whether it is written out, as lengths and angles are."""
        return self.unit.text in _NOISE and not (isfinite(self.value) and abs(self.value) >= _BOUND)

    @property
    def digits(self) -> int:
        return 1 if self.resolved else self.reader.digits

    @property
    def power(self) -> int:
        """The power of ten of the larger of value and half-width: one for both."""
        if self.half is not None and not abs(self.value) >= self.half:
            return power_of(self.half, 2)
        return power_of(self.value, self.digits, self.limit) if isfinite(self.value) else 0

    @property
    def allowed(self) -> float:
        return self.limit if self.limit is not None else _UNSTATED_LIMIT / self.unit.factor

    def matters(self, off: float) -> bool:
        return abs(off) > self.allowed * (1 + 1e-9)


def _see(base: float, of: Unit | str, display: Display | None, half: float | None, resolution: float | None) -> _Seen:
    stated = unit(of) if isinstance(of, str) else of
    reader = display or home(stated)
    shown = reader.unit_for(stated)
    value = shown.from_base(base)
    limits = [step / shown.factor / part for step, part in ((half, 4), (resolution, 2)) if step and isfinite(step)]
    quiet = abs(value) < _NOISE.get(shown.text, 0.0)
    wide = half / shown.factor if half is not None and isfinite(half) else None
    return _Seen(0.0 if quiet else value, shown, reader, min(limits) if limits else None, bool(resolution), wide)


def _rounded(seen: _Seen) -> tuple[str, float]:
    """Return the number as text, and by how much the true one is above what that says."""
    value, name = seen.value, seen.unit.text
    if not isfinite(value):
        return ("undefined" if isnan(value) else "∞" if value > 0 else "-∞"), 0.0
    if not seen.plain:
        return significant(value, seen.digits, seen.limit, seen.power), 0.0
    if name == "in":
        steps = round(value * seen.reader.denominator)
        off = value - steps / seen.reader.denominator
        small = abs(value) < _SMALL_INCHES and seen.matters(off)
        if not small and (steps or not value):
            return fraction_text(steps, seen.reader.denominator), off
    least = {"mm": seen.reader.decimals, "deg": seen.reader.angle_decimals, "in": _INCH_DECIMALS}[name]
    text = fixed(value, places(value, 0 if seen.resolved else least, seen.limit))
    return text, value - float(text)


def _half(seen: _Seen) -> str:
    """Return the half-width with two significant digits, or as the inch fraction that it is."""
    half = seen.half or 0.0
    steps = steps_if_exact(half, DENOMINATORS[-1]) if seen.unit.text == "in" else None
    if steps:
        return fraction_text(steps, DENOMINATORS[-1])
    return significant(half, 2, power=0 if seen.plain else seen.power)


def _exact(value: float, of: Unit, digits: int) -> str:
    steps = steps_if_exact(value, DENOMINATORS[-1]) if of.text == "in" else None
    return significant(value, digits) if steps is None else fraction_text(steps, DENOMINATORS[-1])


def _with_unit(text: str, name: str) -> str:
    return text + name if name == "°" or not name else f"{text} {name}"
