"""A model, stated once the way a textbook page states it.

A topic calls the methods of `Model` in the order of the page and ends with `done()`, which checks the
statement and closes it. Givens and relations come back as sympy symbols, to be used in the next relation.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from typing import TYPE_CHECKING, Any

import sympy as sp

from kit.core.errors import near_misses
from kit.core.model.derivation_line import line
from kit.core.model.dimension import Dim, DimensionError, dimension, words
from kit.core.model.terms import Caution, Given, Limit, ModelError, Pick, Relation, Sense
from kit.core.quantity import unit
from kit.core.quantity.distribution import Shape, Spread

if TYPE_CHECKING:
    from kit.core.model.case import Case, Typed
    from kit.core.model.compiled import Arrays, Compiled
    from kit.core.tables import Table

Lines = Sequence[tuple[sp.Basic, str]]
_TAKEN = ("self", "beyond", "tables")  # `Model.at` takes these beside the givens


class Model:
    """Quantities, relations, limits and cautions of one question. Closed by `done()`."""

    def __init__(
        self,
        name: str,
        *,
        title: str,
        question: str,
        picture: str,
        assumptions: Sequence[str],
        sources: Sequence[str],
    ) -> None:
        self.name = name
        self.title = title
        self.question = question
        self.picture = picture
        self.assumptions = tuple(assumptions)
        self.sources = tuple(sources)
        self.givens: dict[str, Given] = {}
        self.picks: dict[str, Pick] = {}
        self.relations: dict[str, Relation] = {}
        self.limits: dict[str, Limit] = {}
        self.cautions: list[Caution] = []
        self._closed = False

    def __repr__(self) -> str:
        return f"<Model {self.name}: {len(self.givens)} givens, {len(self.relations)} relations>"

    def given(
        self,
        name: str,
        tex: str,
        in_unit: str,
        value: float,
        *,
        span: tuple[float, float],
        meaning: str,
        how: str = "",
        half: float = 0.0,
        spread: Shape = "rectangular",
        k: float = 2.0,
        dof: float = math.inf,
        source: str = "your choice",
    ) -> sp.Symbol:
        """State a real given; `value`, `span` and `half` are in `in_unit`, `half` is the usual half-width."""
        measure = unit(in_unit)
        symbol = self._symbol(name, positive=span[0] > 0, nonnegative=span[0] >= 0)
        low, high, at = (measure.to_base(x) for x in (*span, value))
        self._add_given(
            Given(
                name, symbol, tex, measure, at, (low, high), meaning,
                how=how, source=source, spread=Spread(half * measure.factor, spread, k, dof),
            )
        )  # fmt: skip
        return symbol

    def count(
        self,
        name: str,
        tex: str,
        value: int,
        *,
        span: tuple[int, int],
        meaning: str,
        how: str = "",
        source: str = "your choice",
    ) -> sp.Symbol:
        """State a given that is a whole number."""
        symbol = self._symbol(name, integer=True, positive=span[0] > 0, nonnegative=span[0] >= 0)
        self._add_given(
            Given(name, symbol, tex, unit(""), value, span, meaning, kind="count", how=how, source=source)
        )
        return symbol

    def choice(self, name: str, tex: str, options: Sequence[str], value: str, *, meaning: str) -> sp.Symbol:
        """State a given that is one of a few named cases, numbered 0, 1, … in the order stated."""
        symbol = self._symbol(name, integer=True, nonnegative=True)
        codes = {option: code for code, option in enumerate(options)}
        self._add_given(
            Given(
                name, symbol, tex, unit(""), self._known(value, codes, f"option of {name!r} called"),
                (0, len(codes) - 1), meaning,
                kind="choice", options=codes, source="your choice",
            )
        )  # fmt: skip
        return symbol

    def constant(
        self, name: str, tex: str, in_unit: str, value: float, *, meaning: str, source: str
    ) -> sp.Symbol:
        """State a number of nature or of a standard, which nobody chooses."""
        measure = unit(in_unit)
        at = measure.to_base(value)
        symbol = self._symbol(name, positive=at > 0)
        self._add_given(
            Given(name, symbol, tex, measure, at, (at, at), meaning, kind="constant", source=source)
        )
        return symbol

    def chance(self, name: str, tex: str, *, meaning: str, spread: Shape = "rectangular") -> sp.Symbol:
        """State where an error lies within its half-width, from -1 to 1; nobody knows, so it is 0 and uncertain.

        Times a half-width that is a given or relation it is that error, in budgets and draws as in formulas.
        """
        symbol = self._symbol(name)
        self._add_given(
            Given(
                name, symbol, tex, unit(""), 0.0, (-1.0, 1.0), meaning, kind="constant",
                source="nobody knows it: as likely below as above", spread=Spread(1.0, spread, 1.0),
            )
        )  # fmt: skip
        return symbol

    def pick(self, name: str, *, table: str, row: str, fills: Mapping[str, str], meaning: str) -> None:
        """State that a row of `table` fills givens (given name → column name); `row` is the one to start with."""
        self._new(name)
        for given in fills:
            self._known(given, self.givens, "given")
        self.picks[name] = Pick(name, table, row, dict(fills), meaning)

    def relation(
        self,
        name: str,
        tex: str,
        in_unit: str,
        expr: sp.Expr,
        *,
        because: str,
        lines: Lines = (),
        source: str = "",
        meaning: str = "",
        result: bool = False,
        resolution: float | None = None,
    ) -> sp.Symbol:
        """State that a new symbol equals `expr`; `lines` are the intermediate lines that lead to it.

        Raises:
            DimensionError: the expression does not have the dimension of `in_unit`; both are named.
        """
        self._open()
        measure = unit(in_unit)
        expr = sp.sympify(expr, strict=True)
        symbol = self._symbol(name)
        found = self._dimension(expr, f"relation {name!r} of {self.name}")
        if found is not None and found != measure.dim:
            raise DimensionError(
                f"relation {name!r} of {self.name}: the left side is in {measure.text or '1'}, {words(measure.dim)}; "
                f"the right side {expr} is {words(found)}"
            )
        fine = None if resolution is None else resolution * measure.factor
        known = self._dims | {symbol: measure.dim}  # the symbol being defined may stand in an equation
        steps = tuple(
            line(f"a line of {name!r} of {self.name}", known, symbol, claim, why) for claim, why in lines
        )
        self.relations[name] = Relation(
            name, symbol, tex, measure, expr, because, steps, source, meaning, result, fine
        )
        return symbol

    def result(self, name: str, tex: str, in_unit: str, expr: sp.Expr, **more: Any) -> sp.Symbol:
        """State a relation that is an answer; takes what `relation` takes."""
        return self.relation(name, tex, in_unit, expr, result=True, **more)

    def limit(
        self,
        name: str,
        subject: str,
        *,
        value: sp.Expr,
        allowed: sp.Expr | float,
        mend: str,
        sense: Sense = "<=",
        in_unit: str | None = None,
        resolution: float | None = None,
    ) -> None:
        """State what a good design meets; `subject` reads on with the value: 'tip moves' 0.06 mm."""
        self._open()
        if name in self.limits:
            raise ModelError(f"{self.name}: limit {name!r} is stated twice")
        value = sp.sympify(value, strict=True)
        told = self._by_symbol.get(value)
        measure = unit(in_unit) if in_unit is not None else told.unit if told else unit("")
        bound = sp.sympify(allowed, strict=True)
        if bound.is_number:
            bound = bound * measure.factor + measure.offset
        where = f"limit {name!r} of {self.name}"
        for side in (value, bound):
            found = self._dimension(side, where)
            if found is not None and found != measure.dim and not side.is_number:
                raise DimensionError(
                    f"{where}: it is shown in {measure.text or '1'}, {words(measure.dim)}, "
                    f"but {side} is {words(found)}"
                )
        fine = resolution * measure.factor if resolution is not None else getattr(told, "resolution", None)
        self.limits[name] = Limit(name, subject, value, bound, sense, measure, mend, fine)

    def caution(self, *texts: str, when: sp.Basic | bool = True) -> None:
        """State warnings, shown always or when a condition on the model's symbols holds."""
        self._open()
        condition = sp.sympify(when, strict=True)
        self._dimension(condition, f"a caution of {self.name}")
        self.cautions += [Caution(text, condition) for text in texts]

    def include(
        self, other: Model, *, prefix: str, label: str, bind: Mapping[str, sp.Expr] | None = None
    ) -> dict[str, sp.Symbol]:
        """Take another model's relations into this one; its givens are bound or become givens here.

        `prefix` goes before names, `label` under printed symbols; either may be empty. Returns the included
        symbols by the names they had. Limits and cautions stay with the other model.

        Raises:
            DimensionError: a given is bound to an expression of another dimension.
        """
        from kit.core.model.include import include

        return include(self, other, prefix, label, dict(bind or {}))

    def done(self) -> Model:
        """Check the statement as a whole and close it.

        Raises:
            ModelError: a value outside its span, a given that nothing uses, no result, or no source.
        """
        for given in self.givens.values():
            low, high = given.span
            if not low <= given.value <= high:
                raise ModelError(f"{self.name}: {given.name!r} starts outside its span, {given.span_text()}")
        used: set[sp.Basic] = set()
        for expr in self._all_expressions():
            used |= expr.free_symbols
        idle = [given.name for given in self.givens.values() if given.symbol not in used]
        if idle:
            raise ModelError(f"{self.name}: no relation uses {', '.join(idle)}")
        if not self.results:
            raise ModelError(f"{self.name}: no relation is stated as a result")
        if not self.sources:
            raise ModelError(f"{self.name}: no source is stated")
        self._closed = True
        return self

    @property
    def results(self) -> dict[str, Relation]:
        """The relations that are answers, by name."""
        return {name: relation for name, relation in self.relations.items() if relation.result}

    @cached_property
    def free(self) -> dict[str, Given]:
        """The givens that a person sets, by name: all but the constants."""
        self._done()
        return {name: given for name, given in self.givens.items() if given.kind != "constant"}

    @property
    def symbol_tex(self) -> dict[sp.Symbol, str]:
        """The printed form of every symbol."""
        return {part.symbol: part.tex for part in self._parts.values()}

    def part(self, name: str) -> Given | Relation:
        """Return the given or relation of that name.

        Raises:
            ModelError: there is none; the nearest names are listed.
        """
        part: Given | Relation = self._known(name, self._parts, "quantity")
        return part

    def needed(self, want: Iterable[sp.Symbol]) -> list[Relation]:
        """Return, in order, the relations that the symbols `want` rest on, themselves included."""
        open_ = set(want)
        chain: list[Relation] = []
        for relation in reversed(self.relations.values()):
            if relation.symbol in open_:
                chain.append(relation)
                open_ |= relation.expr.free_symbols
        return chain[::-1]

    def at(
        self,
        *,
        beyond: Iterable[str] = (),
        tables: Mapping[str, Table] | None = None,
        **givens: Typed,
    ) -> Case:
        """Work the model at one point; givens not named keep the model's own values.

        A text is read in the given's unit ('1200 mm', '47 1/4 in', '600 ± 0.2 mm'); a number is in the given's
        unit; a pick takes a row's name. `beyond` names the givens that may leave their span knowingly.

        Raises:
            KitError: an unknown name, an unreadable text, a value outside its span, or no value at this point.
        """
        from kit.core.model.case import work

        return work(self, givens, beyond=frozenset(beyond), tables=tables)

    @cached_property
    def compiled(self) -> Compiled:
        """The model as fast functions of bare numbers; made on first use."""
        from kit.core.model.compiled import Compiled

        self._done()
        return Compiled(self)

    def compute(self, values: Arrays, want: Sequence[str]) -> dict[str, Any]:
        """Return arrays of the quantities `want` for arrays of givens, all in base units, broadcast.

        Givens not named keep the model's own values. Points where the model has no value come back as NaN.
        """
        return self.compiled.arrays(values, want)

    @cached_property
    def _names(self) -> tuple[str, ...]:
        return (*self.givens, *self.relations)

    @property
    def _parts(self) -> dict[str, Given | Relation]:
        return {**self.givens, **self.relations}

    @property
    def _by_symbol(self) -> dict[sp.Basic, Given | Relation]:
        return {part.symbol: part for part in self._parts.values()}

    @property
    def _dims(self) -> dict[sp.Symbol, Dim]:
        return {part.symbol: part.unit.dim for part in self._parts.values()}

    def _all_expressions(self) -> Iterable[sp.Basic]:
        yield from (relation.expr for relation in self.relations.values())
        for limit in self.limits.values():
            yield from (limit.value, limit.allowed)
        yield from (caution.when for caution in self.cautions)

    def _open(self) -> None:
        if self._closed:
            raise ModelError(f"{self.name} is closed; state everything before done()")

    def _done(self) -> None:
        if not self._closed:
            raise ModelError(f"{self.name} is not closed; end its statement with done()")

    def _new(self, name: str) -> None:
        self._open()
        if not name.isidentifier() or name in _TAKEN:
            raise ModelError(f"{self.name}: {name!r} is not a name; use words joined by _")
        if any(name in stated for stated in (self.givens, self.relations, self.picks)):
            raise ModelError(f"{self.name}: {name!r} is stated twice")

    def _symbol(self, name: str, **assumptions: bool) -> sp.Symbol:
        self._new(name)
        kept = {key: True for key, value in assumptions.items() if value}
        return sp.Symbol(name, real=True, **kept)

    def _add_given(self, given: Given) -> None:
        self._new(given.name)
        self.givens[given.name] = given

    def _known(self, name: str, known: Mapping[str, Any], what: str) -> Any:
        if name not in known:
            hint = near_misses(name, list(known))
            raise ModelError(f"{self.name} has no {what} {name!r}{hint}")
        return known[name]

    def _dimension(self, expr: sp.Basic, where: str) -> Dim | None:
        try:
            return dimension(expr, self._dims)
        except DimensionError as error:
            raise DimensionError(f"{where}: {error}") from None
