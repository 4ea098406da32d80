"""Numbers as text: decimals without "-0", significant digits, inch fractions."""

from math import ceil, floor, gcd, log10

from kit.core.quantity.tokens import RAISE

_MOST_PLACES = 12
_MOST_DIGITS = 15
_HALF_UP = 1 + 2.0**-50  # a few units in the last place: 603.25 is shown as 603.3, not as the even 603.2
_PLAIN = range(-3, 6)  # decimal exponents written out; others as ×10 to a multiple of three


def fixed(value: float, places: int) -> str:
    """Return `value` with that many decimals, halves away from zero; what rounds to zero has no sign."""
    text = f"{value * _HALF_UP:.{places}f}"
    return text if any(digit in "123456789" for digit in text) else text.lstrip("-")


def signed(value: float, places: int) -> str:
    """Return the same with a plus before what is above zero."""
    text = fixed(value, places)
    return text if text.startswith("-") or not any(digit in "123456789" for digit in text) else f"+{text}"


def trimmed(text: str) -> str:
    """Return a decimal number without the zeros at its end."""
    return text.rstrip("0").rstrip(".") if "." in text else text


def places_within(limit: float) -> int:
    """Return how many decimals keep the rounding error within `limit` (negative: tens, hundreds, ...)."""
    return ceil(-log10(2 * limit) - 1e-9)


def places(value: float, least: int, limit: float | None) -> int:
    """Return how many decimals to show: those that keep within the limit, or show two significant digits."""
    if limit is None and value == 0:
        return least
    wanted = 1 - floor(log10(abs(value))) if limit is None else places_within(limit)
    return min(max(least, wanted), _MOST_PLACES)


def significant(value: float, digits: int, limit: float | None = None, power: int | None = None) -> str:
    """Return `value` with significant digits, more if the limit asks for them: "12.3", "1.234×10⁶", "0".

    `power` is the power of ten to write it with, 0 for none; its own unless told otherwise.
    """
    if value == 0:
        return "0"
    digits = _enough(value, digits, limit)
    mantissa, exponent = _scientific(value, digits)
    power = power_of(value, digits) if power is None else power
    decimals = max(0, digits - 1 - (exponent - power))
    if power == 0:
        return trimmed(fixed(value, decimals))
    return f"{trimmed(f'{mantissa * 10.0 ** (exponent - power):.{decimals}f}')}×10{str(power).translate(RAISE)}"


def power_of(value: float, digits: int, limit: float | None = None) -> int:
    """Return the power of ten with which `value` is written, a multiple of three; 0 where it is written out."""
    if value == 0:
        return 0
    exponent = _scientific(value, _enough(value, digits, limit))[1]
    return 0 if exponent in _PLAIN else exponent - exponent % 3


def _enough(value: float, digits: int, limit: float | None) -> int:
    if limit is None:
        return digits
    return min(max(digits, floor(log10(abs(value))) + places_within(limit) + 1), _MOST_DIGITS)


def _scientific(value: float, digits: int) -> tuple[float, int]:
    mantissa, _, power = f"{value:.{digits - 1}e}".partition("e")
    return float(mantissa), int(power)


def fraction(steps: int, denominator: int) -> tuple[str, int, int, int]:
    """Return sign, whole, numerator and denominator of `steps`/`denominator` in lowest terms."""
    whole, over = divmod(abs(steps), denominator)
    common = gcd(over, denominator)
    return ("-" if steps < 0 else ""), whole, over // common, denominator // common


def fraction_text(steps: int, denominator: int) -> str:
    """Return "23 3/4", "-1/2", "0"."""
    sign, whole, over, under = fraction(steps, denominator)
    pieces = [str(whole)] if whole or not over else []
    return sign + " ".join(pieces + ([f"{over}/{under}"] if over else []))


def fraction_tex(steps: int, denominator: int) -> str:
    r"""Return "23\tfrac{3}{4}", "-\tfrac{1}{2}", "0"."""
    sign, whole, over, under = fraction(steps, denominator)
    return sign + (str(whole) if whole or not over else "") + (rf"\tfrac{{{over}}}{{{under}}}" if over else "")


def steps_if_exact(value: float, denominator: int) -> int | None:
    """Return how many parts of `denominator` the value is, or None if it lies between them."""
    steps = value * denominator
    return round(steps) if abs(steps) < 1e9 and abs(steps - round(steps)) < 1e-6 else None
