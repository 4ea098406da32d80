"""A case: a model at one point, with what was stated, what follows, and what to beware of."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from numbers import Real
from typing import TYPE_CHECKING, Any

from kit.core.errors import KitError, near_misses
from kit.core.model.compiled import Arrays, NoValueError, compute, functions_of
from kit.core.model.margins import drawn_chances, margin_uncertainties
from kit.core.model.stated import Stated, Typed
from kit.core.model.terms import Given, called, in_words
from kit.core.quantity import CHOSEN, EXAMPLE, Display, Quantity, QuantityError, Unit, ValueOrigin, parse, show_in
from kit.core.quantity.distribution import Spread
from kit.core.summary import some, summary
from kit.core.verdict import Check, Shown, Verdict, compare, fact

if TYPE_CHECKING:
    from kit.core.model.calculation import Calculation
    from kit.core.model.solve_for import FindSense, Found
    from kit.core.model.terms import Limit
    from kit.core.tables import Row, Table


@dataclass(frozen=True, slots=True)
class Entry:
    """A given's value at one point, in base units, with where it came from. `text` is what was typed, or None."""

    given: Given
    base: float
    spread: Spread
    origin: ValueOrigin
    text: str | None = None
    bare: bool = False
    unit: Unit | None = None  # the one in which it was typed, if it was
    usual: bool = False  # nobody stated the half-width: it is the model's own

    @property
    def u(self) -> float:
        """The standard uncertainty, in base units."""
        return self.spread.u

    def show(self, display: Display | None = None) -> str:
        """Return the value, with ± its half-width if it has one."""
        return self.given.show(self.base, display, half=self.spread.half or None)

    def __repr__(self) -> str:
        return f"<{self.given.name} {self.show()}, {self.origin.words}>"


class SpanError(KitError):
    """A value lies outside the span within which the model is valid."""

    def __init__(self, words: str, given: str) -> None:
        super().__init__(f"{words}; to go outside knowingly, say beyond {given}")
        self.words, self.given = words, given


@dataclass(frozen=True)
class Case:
    """A model computed at one point; `base` holds every symbol's value in base units."""

    model: Calculation
    entries: Mapping[str, Entry]
    picks: Mapping[str, str]
    beyond: frozenset[str]
    base: Mapping[str, float]
    typed: Mapping[str, Typed] = field(repr=False)
    tables: Mapping[str, Table] | None = field(default=None, repr=False)

    def __getitem__(self, name: str) -> Quantity:
        """Return a given or result as a quantity in its own unit.

        Raises:
            ModelError: the model has no quantity of that name.
        """
        part = self.model.part(name)
        return Quantity.from_base(self.base[name], part.unit)

    def table(self, name: str) -> Table:
        """Return a table as this case sees it: with the job's own rows, if there are any."""
        return _table(name, self.tables)

    def with_(self, *, beyond: frozenset[str] | None = None, **changes: Typed) -> Case:
        """Work the same case with some givens or picks changed; see `changed`.

        >>> from kit import model
        >>> case = model("scale.cursor").at(gap="1 mm")
        >>> case.with_(gap="2 mm")["gap"]
        Quantity('2 mm')
        """
        return self.changed(changes, beyond=beyond)

    def changed(self, changes: Mapping[str, Typed | None], *, beyond: frozenset[str] | None = None) -> Case:
        """Work the same case with some givens or picks changed, and with `beyond` instead of its own if given.

        None takes one back to what the model says. A new pick takes back what was typed for the givens of which its
        row has a figure.
        """
        kept = dict(self.typed)
        for name in changes.keys() & self.model.picks.keys():
            typed = changes[name]
            row = _row(self.model, name, self.model.picks[name].row if typed is None else _text(typed), self.tables)
            for filled, column in self.model.picks[name].fills.items():
                if column in row:
                    kept.pop(filled, None)
        wider = self.beyond if beyond is None else beyond
        stated = {name: typed for name, typed in {**kept, **changes}.items() if typed is not None}
        return work(self.model, stated, beyond=wider, tables=self.tables)

    def show(self, name: str, display: Display | None = None) -> str:
        """Return a given or result as a person reads it.

        >>> from kit import Display, model
        >>> case = model("scale.cursor").at(gap="1 mm")
        >>> case.show("gap"), case.show("gap", Display(system="in"))
        ('1.00 ± 0.1 mm', '0.039 ± 0.0039 in')
        """
        if name in self.entries:
            return self.entries[name].show(display)
        return self.model.part(name).show(self.base[name], display)

    def find(self, unknown: str, result: str, target: str | float | Quantity, sense: FindSense = "=") -> Found:
        """Find `unknown` so that `result` takes the value `target`, all else as in this case.

        A text is read in the result's unit, a number is in the result's unit. With `sense` "<=" or ">=" the result
        stays at most or at least there.

        Raises:
            KitError: an unknown name or sense, a given instead of a result, or a target that cannot be read.

        >>> from kit import model
        >>> case = model("scale.cursor").at(eye_height="500 mm", eye_offset="50 mm")
        >>> case.find("gap", "parallax", "0.05 mm")
        <gap 0.50 mm gives parallax 0.05 mm (in closed form)>
        >>> case.find("gap", "parallax", "0.05 mm", "<=").first
        0.4995...
        """
        from kit.core.model.solve_for import find

        return find(self, unknown, result, target, sense)

    def compute(self, values: Arrays, want: Sequence[str]) -> dict[str, Any]:
        """Return arrays of the quantities `want` for arrays of some givens, in base units; all else as in the case."""
        here = {name: entry.base for name, entry in self.entries.items()}
        return compute(self.model, here | dict(values), want)

    @cached_property
    def checks(self) -> tuple[Check, ...]:
        """Every limit of the model with its margin here, and how sure it is under what the givens leave open.

        How sure is told to first order, and by Monte Carlo where the margin is within three standard uncertainties.
        """
        numbers, spread = self._verdicts, margin_uncertainties(self)
        checks = tuple(
            compare(
                limit.name,
                limit.subject,
                numbers[2 * i],
                numbers[2 * i + 1],
                unit=limit.unit,
                sense=limit.sense,
                resolution=limit.resolution,
                mend=limit.mend,
                origin="formula",
                u=spread[i],
            )
            for i, limit in enumerate(self.model.limits.values())
        )
        drawn = drawn_chances(self, [check.margin or 0.0 for check in checks], spread)
        return tuple(
            (check.ok and self._empty(limit)) or replace(check, drawn=chance)
            for limit, check, chance in zip(self.model.limits.values(), checks, drawn, strict=True)
        )

    def _empty(self, limit: Limit) -> Check | None:
        """Return a check that fails where a limit that holds says nothing, as it rests on what cannot be; else None."""
        for relation in map(self.model.relations.get, limit.rests_on):
            if relation is not None and not relation.can_be(self.base[relation.name]):
                words = f"{called(relation)} would be {{}}, which cannot be: this limit says nothing"
                value = Shown(self.base[relation.name], relation.unit.text, relation.resolution)
                return fact(limit.name, False, words, "let the other limits hold first", value, origin="formula")
        return None

    @cached_property
    def cautions(self) -> tuple[str, ...]:
        """The cautions that apply here."""
        holds = self._verdicts[2 * len(self.model.limits) :]
        return tuple(c.text for c, here in zip(self.model.cautions, holds, strict=True) if here)

    @property
    def origins(self) -> dict[str, ValueOrigin]:
        """Where each pick and each given that a person sets comes from, by name."""
        typed = {name: self.typed.get(name) for name in self.picks}
        rows = {
            name: EXAMPLE if each is None else each.origin if isinstance(each, Stated) else CHOSEN
            for name, each in typed.items()
        }
        return rows | {name: self.entries[name].origin for name in self.model.free}

    @property
    def ok(self) -> bool:
        """Whether every limit is met."""
        return all(check.ok for check in self.checks)

    @cached_property
    def outside(self) -> tuple[str, ...]:
        """A sentence for each given that is knowingly outside its span."""
        return tuple(_span_words(self.entries[name]) for name in self.model.givens if not _inside(self.entries[name]))

    def __repr__(self) -> str:
        try:
            judged = Verdict(self.checks, origins=tuple(self.origins.values()))
            limits, cautions = judged.words, self.cautions
        except NoValueError as error:
            limits, cautions = str(error), ()
        return summary(
            f"Case of {self.model.name}: {self.model.question}",
            givens=some(f"{name} {entry.show()}" for name, entry in self.entries.items() if name in self.model.free),
            results=some(f"{name} {self.show(name)}" for name in self.model.results),
            limits=limits,
            cautions=some((*self.outside, *cautions), most=1),
        )

    @cached_property
    def _verdicts(self) -> list[float]:
        return functions_of(self.model).verdicts(self.base)


def work(
    model: Calculation,
    typed: Mapping[str, Typed],
    *,
    beyond: frozenset[str] = frozenset(),
    tables: Mapping[str, Table] | None = None,
) -> Case:
    """Work `model` with what was typed; see `Model.at`.

    Raises:
        KitError: as `Model.at`; SpanError where a value lies outside its span and `beyond` does not name it.
    """
    known = [*model.free, *model.picks]
    for name in (*typed, *beyond):
        if name not in known:
            hint = near_misses(name, known) or f"; it takes {', '.join(known)}"
            raise KitError(f"{model.name} has no given {name!r}{hint}")
    picks = {pick.name: str(_text(typed.get(pick.name, pick.row))) for pick in model.picks.values()}
    entries = {given.name: _own(given) for given in model.givens.values()}
    for name, row in picks.items():
        entries |= _filled(model, name, _row(model, name, row, tables), typed)
    for name, given in model.free.items():
        if name in typed:
            entries[name] = _entry(given, typed[name])
    for name, entry in entries.items():
        if name not in beyond and not _inside(entry):
            raise SpanError(_span_words(entry), name)
    value = functions_of(model).values({name: entry.base for name, entry in entries.items()})
    return Case(model, entries, picks, beyond, value, dict(typed), tables)


def _own(given: Given) -> Entry:
    return Entry(given, given.base, given.spread, given.origin)


def _text(typed: Typed) -> str:
    return str(typed.text if isinstance(typed, Stated) else typed)


def _table(name: str, tables: Mapping[str, Table] | None) -> Table:
    from kit.core.tables import table

    return (tables or {}).get(name) or table(name)


def _row(model: Calculation, name: str, row: str, tables: Mapping[str, Table] | None) -> Row:
    return _table(model.picks[name].table, tables).row(row)


def _filled(model: Calculation, name: str, found: Row, typed: Mapping[str, Typed]) -> dict[str, Entry]:
    """Return the entries of the givens that a row fills; what is typed needs no figure in the row."""
    pick = model.picks[name]
    entries = {}
    for filled, column in pick.fills.items():
        if filled in typed:
            continue
        cell = found.entry(column)
        given = model.givens[filled]
        half = cell.half
        if half is None:  # the usual spread of such figures is stated for the model's own value
            half = given.spread.half * abs(cell.base / given.base) if given.base else 0.0
        origin = ValueOrigin("table", source=f"{in_words(pick.table)}, {found.id}: {cell.cited}")
        entries[filled] = Entry(given, cell.base, replace(given.spread, half=half), origin)
    return entries


def _entry(given: Given, typed: Typed) -> Entry:
    stated = typed if isinstance(typed, Stated) else None
    raw: object = stated.text if stated else typed
    if given.kind == "choice":
        base, quantity = _chosen(given, raw), None
    else:
        quantity = _quantity(given, raw)
        base = quantity.base
    if given.kind == "count" and base != round(base):
        raise KitError(f"{given.name} is {raw}, but must be a whole number; allowed is {given.span_text()}")
    half = quantity.half_base if quantity is not None else None
    usual = given.spread
    spread = Spread(
        usual.half if half is None else half,
        usual.shape if stated is None or stated.spread is None else stated.spread,
        usual.k if stated is None or stated.k is None else stated.k,
        usual.dof if stated is None or stated.dof is None else stated.dof,
    )
    return Entry(
        given,
        base,
        spread,
        stated.origin if stated else CHOSEN,
        str(raw) if isinstance(raw, str) else None,
        bool(quantity and quantity.bare and given.unit.text),
        quantity.unit if quantity is not None else None,
        half is None and usual.half > 0,
    )


def _quantity(given: Given, raw: object) -> Quantity:
    if isinstance(raw, str):
        try:
            return parse(raw, given.unit)
        except QuantityError as error:
            raise QuantityError(f"{given.name}: {error}") from error
    if isinstance(raw, Quantity):
        if given.unit.takes(raw.unit):
            return raw
        raise KitError(f"{raw} is {raw.unit.kind}; {given.name} takes {given.unit.kind}")
    if isinstance(raw, Real) and math.isfinite(raw):
        return Quantity(float(raw), given.unit)
    raise KitError(f"{given.name} is {raw!r}; give a text such as {given.show(given.base)!r} or a number")


def _chosen(given: Given, raw: object) -> float:
    """Return the code of an option given by its name, in any case of letters, or by its code."""
    wanted = str(raw).strip().lower()
    for option, code in given.options.items():
        if option.lower() == wanted or (isinstance(raw, Real) and raw == code):
            return float(code)
    hint = near_misses(wanted, list(given.options))
    raise KitError(f"{given.name} is {raw!r}, but must be {given.span_text()}{hint}")


def _inside(entry: Entry) -> bool:
    low, high = entry.given.span
    slack = 1e-12 * max(abs(low), abs(high))  # a typed '4 in' must equal a span end stated in millimeters
    return low - slack <= entry.base <= high + slack


def _span_words(entry: Entry) -> str:
    given = entry.given
    typed = entry.unit
    if typed is None or given.kind != "real":
        return f"{given.name} is {given.show(entry.base)}; this model holds for {given.span_text()}"
    shown = entry.text or show_in(entry.base, typed)
    low, high = (show_in(end, typed) for end in given.span)
    return f"{given.name} is {shown}; this model holds for {low} to {high}"
