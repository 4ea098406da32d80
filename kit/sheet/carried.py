"""The numbers of a derivation as a checker carries them from line to line on a calculator.

Every number that is printed in a line is the one that was printed where it came out, and what a line gives is worked
from the numbers printed in it. How many digits a number needs follows from the last line backward: as many as leave
the results as they are shown.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from kit.core.model import Case, Given, Relation, Step, derivation
from kit.core.model.steps import HALF_TURN
from kit.core.quantity import Display, QuantityError, Unit, parse
from kit.core.quantity.tokens import LOWER
from kit.core.uncertainty.answers import answered
from kit.sheet.conversion import Conversion, conversion
from kit.sheet.line_units import HALF_TURN_TEXT, line_units, shown_unit
from kit.sheet.numbers import joined, plain_decimals

_LEAST = 5  # significant digits of what is carried
_AS_TYPED = 7  # that a person types of a given: two test cuts differ in the last ones
_MOST = 14
_FINER, _TRIES = 0.1, 10
_NOISE = 1e-13  # of the size of a line's terms: what is left of a difference that is zero
_SPREAD = 1e-6  # relative step of a slope
_NUMBER = re.compile(r"\(?(−?)([\d.]+)(?:×10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+))?")


@dataclass(frozen=True, slots=True)
class Turned:
    """A number converted: the quantity's name, what is pressed, and what it gives, as text with unit."""

    name: str
    pressed: str
    text: str


@dataclass(frozen=True, slots=True)
class Numbers:
    """The numbers of one relation: what is converted first, those put into `template`, and what comes out.

    `text` is what comes out in the line's units; `turned` the same in the reader's where these are others. `template`
    is empty where the value would only be repeated.
    """

    before: tuple[Turned, ...]
    template: str
    slots: Mapping[str, str]
    text: str
    turned: Turned | None

    @property
    def carried(self) -> str:
        """What goes into later lines, as text with unit."""
        return self.turned.text if self.turned else self.text


@dataclass(slots=True)
class _Walk:
    """One walk down the derivation: texts and values of what is printed so far, values in base units."""

    texts: dict[str, str] = field(default_factory=dict)
    base: dict[str, float] = field(default_factory=dict)
    lines: dict[str, Numbers] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Carried:
    """The text of every given that stands in a formula, and the numbers of every relation, by name."""

    givens: Mapping[str, str]
    lines: Mapping[str, Numbers]


def carried(case: Case, display: Display | None = None, *, upto: str | None = None) -> Carried:
    """Return the numbers of a derivation, or only of what `upto` rests on and itself."""
    model = case.model
    chain = model.relations if upto is None else {relation.name for relation in model.needed([upto])}
    lines = [_Line(case, step) for step in derivation(model) if step.relation.name in chain]
    needs = _needs(case, lines)
    for attempt in range(_TRIES):
        scale = _FINER**attempt if attempt + 1 < _TRIES else 0.0
        walk = _walk(case, lines, needs, display, scale)
        if walk and all(_as_shown(case, line.relation, walk, display) for line in lines):
            break
    if walk is None:
        raise ValueError(f"{model.name}: a line has no value from the numbers printed in it")
    used = {name for line in walk.lines.values() for name in line.slots}
    return Carried({name: walk.texts[name] for name in case.entries if name in used}, walk.lines)


class _Line:
    """One relation at the case's point: the formula of the cases that apply, and its slopes."""

    def __init__(self, case: Case, step: Step) -> None:
        self.relation, self.formula = step.relation, step.cases.at(case)
        self.names = self.formula.names
        here = [case.base[name] for name in self.names]
        self.slopes = [_slope(self.of, here, i) for i in range(len(here))]
        self.noise = _NOISE * math.fsum(abs(slope * x) for slope, x in zip(self.slopes, here, strict=True))

    def of(self, *values: float) -> float:
        """Return the formula's value. Raises ValueError where it has none."""
        (value,) = self.formula.tape.at(*values)
        if not math.isfinite(value):
            raise ValueError(f"{self.relation.name} has no value")
        return value


def _slope(of: Callable[..., float], here: Sequence[float], which: int) -> float:
    """Return the slope of a function by one of its arguments, from one side where the other has no value."""
    step = _SPREAD * abs(here[which]) or _SPREAD
    ends = []
    for side in (1, 0, -1):
        moved = [x + side * step * (i == which) for i, x in enumerate(here)]
        try:
            ends.append((moved[which], of(*moved)))
        except (ValueError, ZeroDivisionError, OverflowError, TypeError):
            continue
    (x0, y0), (x1, y1) = ends[0], ends[-1]
    return (y1 - y0) / (x1 - x0) if x1 != x0 else 0.0


def _needs(case: Case, lines: Sequence[_Line]) -> dict[str, float]:
    """Return by how much, in base units, each quantity may be rounded."""
    needs: dict[str, float] = {}
    for line in reversed(lines):
        relation, value = line.relation, case.base[line.relation.name]
        own = (relation.resolution / 4 if relation.resolution else _half_unit(value)) if relation.result else math.inf
        needs[relation.name] = max(min(needs.get(relation.name, math.inf), own), line.noise)
        for name, slope in zip(line.names, line.slopes, strict=True):
            if slope:
                share = needs[relation.name] / (2 * len(line.names) ** 0.5 * abs(slope))
                needs[name] = min(needs.get(name, math.inf), share)
    return needs


def _half_unit(value: float) -> float:
    """Return half a unit of the last of the digits that are carried at least."""
    return 0.5 * 10.0 ** (math.floor(math.log10(abs(value))) - _LEAST + 1) if value else math.inf


def _walk(
    case: Case, lines: Sequence[_Line], needs: Mapping[str, float], display: Display | None, scale: float
) -> _Walk | None:
    """Work all lines from printed numbers, rounded to `scale` of what may be; None where a line has no value so."""
    walk = _Walk()
    for name, entry in case.entries.items():
        walk.texts[name], walk.base[name] = _given(entry.given, entry.base, needs.get(name), display, scale)
    try:
        for line in lines:
            _work(case, line, walk, needs, display, scale)
    except (ValueError, ZeroDivisionError, OverflowError, TypeError):
        return None
    return walk


def _given(given: Given, base: float, need: float | None, display: Display | None, scale: float) -> tuple[str, float]:
    if given.kind in ("count", "choice"):
        return f"{round(base)}", base
    of = shown_unit(given, display)
    seen = of.from_base(base)
    as_typed = math.isclose(float(f"{seen:.{_AS_TYPED}g}"), seen, rel_tol=1e-12)
    text = _text(seen, of, None if as_typed else (need or math.inf) * scale / of.factor, _AS_TYPED if as_typed else 0)
    return text, of.to_base(read_back(text))


def _work(
    case: Case, line: _Line, walk: _Walk, needs: Mapping[str, float], display: Display | None, scale: float
) -> None:
    relation, need = line.relation, needs[line.relation.name] * scale
    chosen = line_units(case.model, relation.name, line.formula, display)
    before: list[Turned] = []
    slots, bases = {HALF_TURN: HALF_TURN_TEXT}, []
    for name in line.names:
        part, wanted = case.model.part(name), chosen.units[name]
        shown = shown_unit(part, display)
        text, base = walk.texts[name], walk.base[name]
        if wanted is not shown and base == 0 and not shown.offset:
            text = joined("0", wanted.text)
        elif wanted is not shown:
            step = conversion(shown, wanted)
            pressed = step.of(read_back(text))
            turned = _text(pressed, wanted, needs.get(name, math.inf) * scale / wanted.factor, 0)
            before.append(Turned(name, step.written(text), turned))
            text, base = turned, wanted.to_base(read_back(turned))
        slots[name] = f"({text})" if text.startswith("−") else text
        bases.append(base)
    value, unit = line.of(*bases), chosen.units[relation.name]
    shown = shown_unit(relation, display)
    text = _text(_quiet(unit.from_base(value), line.noise / unit.factor), unit, need / unit.factor, 0)
    back = _turned(relation.name, text, conversion(unit, shown), shown, need) if unit is not shown else None
    kind = line.formula.alone
    alone = kind == "number" or (kind == "symbol" and slots[line.names[0]] == text)
    put_in = "" if alone else chosen.template  # it would only repeat the value
    walk.lines[relation.name] = made = Numbers(tuple(before), put_in, slots, text, back)
    walk.texts[relation.name] = made.carried
    walk.base[relation.name] = shown.to_base(read_back(made.carried))


def _turned(name: str, text: str, step: Conversion, shown: Unit, need: float) -> Turned:
    return Turned(name, step.written(text), _text(step.of(read_back(text)), shown, need / shown.factor, 0))


def _quiet(value: float, noise: float) -> float:
    return 0.0 if abs(value) <= noise else value


def _as_shown(case: Case, relation: Relation, walk: _Walk, display: Display | None) -> bool:
    """Return whether a result comes out of the printed numbers as it is shown."""
    printed, exact = walk.base[relation.name], case.base[relation.name]
    if not relation.result or math.isclose(
        printed, exact, rel_tol=1e-12
    ):  # the same, though a tie may be shown otherwise
        return True
    if relation.show(printed, display) != relation.show(exact, display):
        return False
    return answered(case, relation, display, base=printed) == answered(case, relation, display)


def _text(seen: float, of: Unit, need: float | None, digits: int) -> str:
    """Return a number with its unit, rounded to within `need`, with `digits` or the least at least."""
    if need == 0.0:
        digits, need = _MOST, None
    limit = need if need is not None and math.isfinite(need) else None
    return joined(plain_decimals(seen, digits or _LEAST, limit), of.text)


def reads_as(shown: str, in_formulas: str, of: Unit) -> bool:
    """Return whether a number in `of` as it is shown is the one that stands in formulas: "23 3/4 in" is 23.75 in."""
    try:
        return math.isclose(parse(shown, of).value, read_back(in_formulas), rel_tol=1e-12, abs_tol=1e-12)
    except (QuantityError, ValueError):
        return False


def read_back(text: str) -> float:
    """Return the number that a text of this module begins with: "1.75×10⁶ psi", "(−2 mm)"."""
    found = _NUMBER.match(text)
    if not found:
        raise ValueError(f"{text!r} begins with no number")
    sign, mantissa, power = found.groups()
    return float(f"{'-' if sign else ''}{mantissa}e{(power or '0').translate(LOWER)}")
