"""Units: one small grammar over the table, products, quotients and powers."""

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import lru_cache
from math import isfinite, prod

from kit.core.errors import near_misses
from kit.core.quantity.errors import UnreadError, said
from kit.core.quantity.tokens import RAISE, Token, tokens
from kit.core.quantity.unit_table import EXAMPLES, KINDS, ROWS, RUN_TOGETHER, SPELLINGS, Dim, Row

Parts = tuple[tuple[str, int], ...]

_MAX_POWER = 9
_MAX_FACTORS = 8
_MAX_DEPTH = 3
_LONGEST_NAME = 20
_LIKE = "; write a unit like 'N/mm^2'"


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: how it is written and what it is worth in the base mm, tonne, s, K (rad = 1)."""

    text: str  # "N/mm²"; parses again
    tex: str
    factor: float  # base = value · factor + offset
    offset: float  # zero for all but °C and °F
    dim: Dim  # powers of length, mass, time, temperature
    pint: str  # the same unit in pint's words
    angle: int = 0  # power of an angle: keeps 38° out of a field of percents
    parts: Parts = field(default=(), repr=False)  # names in the table with their powers

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"unit({self.text!r})"

    def to_base(self, value: float) -> float:
        """Return `value` of this unit in the base."""
        return value * self.factor + self.offset

    def from_base(self, base: float) -> float:
        """Return what `base` is in this unit."""
        return (base - self.offset) / self.factor

    @property
    def kind(self) -> str:
        """What this unit measures, with its article: "a length"."""
        if self.text == "K":
            return "a temperature difference"
        return KINDS.get((self.dim, self.angle), f"a quantity in {self.text}")

    @property
    def example(self) -> str:
        """What to type in a field of this unit."""
        return EXAMPLES.get(self.kind, f"'12 {self.text}'")

    def takes(self, other: "Unit") -> bool:
        """Whether a value in `other` may be typed in a field of this unit.

        Angles and plain numbers are kept apart though both are dimensionless, and a field of temperature
        differences (K) takes no reading in °C or °F, which would be shifted by its zero.
        """
        same = (self.dim, self.angle) == (other.dim, other.angle)
        return same and (self.offset != 0 or other.offset == 0)


def unit(text: str) -> Unit:
    """Return the unit that `text` names: "mm", "N/mm^2", "kg/m³", "oz/yd^2", "in-lbf", "" for plain numbers.

    Raises:
        QuantityError: unknown (near misses are listed), not a unit, or beyond the powers that occur.
    """
    given: object = text
    try:
        return _unit(given if isinstance(given, str) else None)
    except UnreadError as fault:
        raise fault.about(given) from None


@lru_cache(maxsize=1024)
def _unit(text: str | None) -> Unit:
    read = tokens(text)
    if [token.text for token in read] in ([""], ["1", ""]):
        return compose(())
    found, at = read_unit(read, 0)
    if read[at].kind != "end":
        raise UnreadError(f"is not a unit from {said(read[at].text)} on", _LIKE)
    return found


def starts_unit(read: list[Token], at: int) -> bool:
    """Whether a unit begins at token `at`: a name, "/K" or "1/K"."""
    if read[at].text == "1":
        return read[at + 1].text in ("/", "per")
    return read[at].kind == "word" or (read[at].text == "/" and read[at + 1].kind in ("word", "mark"))


def read_unit(read: list[Token], at: int) -> tuple[Unit, int]:
    """Read a unit from token `at` on; return it and the place of the first token after it.

    Raises:
        UnreadError: no unit there.
    """
    parts, at = _product(read, at, 0)
    return compose(tuple(parts)), at


def _product(read: list[Token], at: int, depth: int) -> tuple[list[tuple[str, int]], int]:
    parts: list[tuple[str, int]] = []
    divided = False
    if read[at].text == "1" and read[at + 1].text in ("/", "per"):
        at += 1
    elif read[at].text not in ("/", "per"):
        parts, at = _factor(read, at, depth)
    while True:
        op = read[at]
        if op.text in ("/", "per"):
            divided = True
            more, at = _factor(read, at + 1, depth)
            parts += [(name, -power) for name, power in more]
        elif op.text in ("·", "*") or (op.text == "-" and read[at + 1].kind == "word"):
            if divided:
                raise UnreadError("multiplies after a division", "; put what divides in parentheses")
            more, at = _factor(read, at + 1, depth)
            parts += more
        elif op.kind == "word" and op.spaced and not divided:  # "lbf in"
            more, at = _factor(read, at, depth)
            parts += more
        else:
            return parts, at
        if len(parts) > _MAX_FACTORS:
            raise UnreadError(f"has more than {_MAX_FACTORS} units in one")


def _factor(read: list[Token], at: int, depth: int) -> tuple[list[tuple[str, int]], int]:
    token = read[at]
    if token.text == "(" and depth < _MAX_DEPTH:
        parts, at = _product(read, at + 1, depth + 1)
        if read[at].text != ")":
            raise UnreadError("has a parenthesis that is not closed")
        return parts, at + 1
    if token.kind not in ("word", "mark"):
        raise UnreadError(f"lacks a unit {_where(token)}", _LIKE)
    parts = _named(token.text)
    power, at = _power(read, at + 1, token.text)
    return [(name, exponent * power) for name, exponent in parts], at


def _where(token: Token) -> str:
    return "at its end" if token.kind == "end" else f"before {said(token.text)}"


def _power(read: list[Token], at: int, name: str) -> tuple[int, int]:
    """Read "^2", "**2", "²" or the digit of "mm2"; return the power, 1 if there is none.

    A digit that touches the name is none where a number goes on, as in 38°30' and 1ft6in.
    """
    token, sign = read[at], ""
    if token.kind == "power":
        digits, at = token.text, at + 1
    elif token.text in ("^", "**"):
        if read[at + 1].text in ("-", "+"):
            sign, at = read[at + 1].text, at + 1
        digits, at = sign + (read[at + 1].text if read[at + 1].is_int else ""), at + 2
    elif token.is_int and not token.spaced and name.isalpha() and read[at + 1].kind in ("op", "pm", "end"):
        digits, at = token.text, at + 1
    else:
        return 1, at
    power = int(digits) if digits.lstrip("+-").isdigit() else 0
    if not 1 <= abs(power) <= _MAX_POWER:
        raise UnreadError(f"has a power that is not a whole one up to {_MAX_POWER}")
    return power, at


def _named(name: str) -> list[tuple[str, int]]:
    if name in SPELLINGS:
        return [(SPELLINGS[name].text, 1)]
    if name in RUN_TOGETHER:
        return list(RUN_TOGETHER[name])
    raise UnreadError(f"has the unit {said(name)}, which is not known", _near(name))


def _near(name: str) -> str:
    """Return the near misses of a unit's name; letter case first, since "mpa" wants "MPa" alone."""
    known = [*SPELLINGS, *RUN_TOGETHER]
    other_case = [spelling for spelling in known if spelling.casefold() == name.casefold()]
    if other_case or len(name) > _LONGEST_NAME:
        return "; did you mean " + " or ".join(map(repr, other_case)) + "?" if other_case else ""
    return near_misses(name, [spelling for spelling in known if spelling[0].casefold() == name[0].casefold()])


def compose(parts: Parts) -> Unit:
    """Return the unit that is the product of named units with their powers; the same one for the same text.

    Raises:
        UnreadError: a temperature scale with an offset inside a compound, or a factor beyond floats.
    """
    powers: dict[str, int] = {}
    for name, power in parts:
        powers[name] = powers.get(name, 0) + power
    merged = [(name, power) for name, power in powers.items() if power]
    return _composed(tuple(sorted(merged, key=lambda part: part[1] < 0)))


@lru_cache(maxsize=1024)
def _composed(merged: Parts) -> Unit:
    rows = [(ROWS[name], power) for name, power in merged]
    if len(rows) > 1 or any(power != 1 for _, power in rows):
        for row, _ in rows:
            if row.offset:
                raise UnreadError(f"has {row.text} inside a compound unit", "; write K there")
    factor = prod(row.factor**power for row, power in rows)
    if not (isfinite(factor) and factor > 0):
        raise UnreadError("has a unit too large or too small to compute with")
    return Unit(
        text=_quotient([(row.text, power) for row, power in rows], "·", _raised),
        tex=_quotient([(row.tex or rf"\mathrm{{{row.text}}}", power) for row, power in rows], r"{\cdot}", _raised_tex),
        factor=factor,
        offset=rows[0][0].offset if rows else 0.0,
        dim=_dimension(rows),
        pint=" * ".join(f"({row.pint}) ** {power}" for row, power in rows) or "dimensionless",
        angle=sum(row.angle * power for row, power in rows),
        parts=merged,
    )


def _dimension(rows: list[tuple[Row, int]]) -> Dim:
    length, mass, time, temperature = (sum(row.dim[axis] * power for row, power in rows) for axis in range(4))
    return length, mass, time, temperature


def _quotient(factors: list[tuple[str, int]], dot: str, write: Callable[[str, int], str]) -> str:
    """Return "N·m", "N/mm²", "kg/(m·s²)", "1/K", "" for no factors."""
    over = dot.join(write(name, power) for name, power in factors if power > 0)
    under = [write(name, -power) for name, power in factors if power < 0]
    if not under:
        return over
    return f"{over or '1'}/{under[0] if len(under) == 1 else f'({dot.join(under)})'}"


def _raised(name: str, power: int) -> str:
    return name if power == 1 else name + str(power).translate(RAISE)


def _raised_tex(name: str, power: int) -> str:
    return name if power == 1 else f"{name}^{{{power}}}"
