"""What a page states, the way a textbook page states it; `Model` is closed with it.

A page calls the methods in their order on the page. Givens and relations come back as sympy symbols, to be used in
the next relation. A relation is a symbol before it has a value: `relation` or `result` begins it, any number of
`step`s lead up to its value, and `equals` states that. `measured` and `source` speak of the quantity just stated,
`mend` of the limit.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cached_property
from typing import Any

import sympy as sp

from kit.core.model.calculation import Calculation
from kit.core.model.derivation_line import line
from kit.core.model.dimension import Dim, DimensionError, dimension, words
from kit.core.model.head import read_head
from kit.core.model.inputs import Input
from kit.core.model.mistaken import mistaken
from kit.core.model.steps import Step
from kit.core.model.tape import Tape
from kit.core.model.tape_writer import tape
from kit.core.model.terms import (
    SENSES,
    Caution,
    Changes,
    Formula,
    Given,
    Limit,
    Mistake,
    ModelError,
    Pick,
    Relation,
    Wish,
    possible,
    symbol_of,
)
from kit.core.model.typeset import typeset
from kit.core.quantity import Quantity, QuantityError, parse, unit
from kit.core.quantity.distribution import Shape, Spread
from kit.core.verdict import Sense

Span = tuple[float, float]
_TAKEN = ("self", "beyond", "tables")  # `Model.at` takes these beside the givens


class Statement(Calculation):
    """Quantities, relations, limits and cautions of one question, as they are stated. Closed by `Model.done`."""

    def __init__(
        self, name: str, text: str | None, *, assumptions: Sequence[str] = (), sources: Sequence[str] = ()
    ) -> None:
        """Begin the page `name`; `text` is its docstring, laid out as `kit.core.model.head` says.

        `assumptions` and `sources` are those of parts taken from elsewhere; they follow the page's own.

        Raises:
            ModelError: the text lacks its title, question, picture, assumptions or sources.
        """
        head = read_head(name, text, assumptions, sources)
        self.name, self.title, self.question, self.picture = name, head.title, head.question, head.picture
        self.assumptions, self.sources = head.assumptions, head.sources
        self.givens: dict[str, Given] = {}
        self.picks: dict[str, Pick] = {}
        self.relations: dict[str, Relation] = {}
        self.limits: dict[str, Limit] = {}
        self.cautions: list[Caution] = []
        self.wishes: dict[str, Wish] = {}
        self.inputs: dict[str, Input] = {}
        self.mistakes: list[Mistake] = []
        self._begun: Relation | None = None  # a relation that has no value yet
        self._unmended = self._last = ""  # a limit without a mend yet; of what `measured` and `source` speak
        self._closed = False

    @cached_property
    def point(self) -> Tape:
        """All relations, in order, from all givens, in order; base units. Raises ModelError where none is computed."""
        arguments = [given.symbol for given in self.givens.values()]
        relations = [(relation.symbol, relation.expr) for relation in self.relations.values()]
        return tape(arguments, [symbol for symbol, _ in relations], relations)

    @cached_property
    def verdicts(self) -> Tape:
        """Each limit's value and allowed value, then each caution's condition. Raises as `point`."""
        wanted: list[sp.Basic] = []
        for limit in self.limits.values():
            wanted += [limit.value, limit.allowed]
        wanted += [caution.when for caution in self.cautions]
        return tape([part.symbol for part in self.parts.values()], wanted)

    @cached_property
    def mistaken(self) -> Tape:
        """All results, in order, after one mistake after the other, from all givens, in order. Raises as `point`."""
        return mistaken(self)

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """All relations, in order, typeset."""
        return typeset(self)

    def given(
        self,
        name: str,
        tex: str,
        value: str,
        span: Span,
        meaning: str,
        *,
        resolution: float | None = None,
        changes: Changes = "",
    ) -> sp.Symbol:
        """State a real given; `value` says its unit and may say its usual half-width: "60 ± 0.2 mm".

        `span` and `resolution` are in its unit; `changes`: how often a person does. Raises ModelError for a taken name.
        """
        typed = self._quantity(name, value)
        low, high = (typed.unit.to_base(end) for end in span)
        assumes = self._assumed(name, positive=span[0] > 0, nonnegative=span[0] >= 0)
        spread = Spread(typed.half_base or 0.0)
        fine = None if resolution is None else resolution * typed.unit.factor
        found = Given(name, assumes, tex, typed.unit, typed.base, (low, high), meaning, spread=spread, resolution=fine)
        return self.add_given(replace(found, changes=changes))

    def count(self, name: str, tex: str, value: int, span: tuple[int, int], meaning: str) -> sp.Symbol:
        """State a given that is a whole number. Raises as `given`."""
        assumes = self._assumed(name, integer=True, positive=span[0] > 0, nonnegative=span[0] >= 0)
        return self.add_given(Given(name, assumes, tex, unit(""), value, span, meaning, kind="count"))

    def choice(self, name: str, tex: str, options: Sequence[str], value: str, meaning: str) -> sp.Symbol:
        """State a given that is one of a few named cases, numbered 0, 1, … in the order stated. Raises as `given`."""
        assumes = self._assumed(name, integer=True, nonnegative=True)
        codes = {option: code for code, option in enumerate(options)}
        at, span = self.look_up(value, codes, f"option of {name!r} called"), (0, len(codes) - 1)
        return self.add_given(Given(name, assumes, tex, unit(""), at, span, meaning, kind="choice", options=codes))

    def constant(self, name: str, tex: str, value: str, meaning: str, source: str) -> sp.Symbol:
        """State a number of nature or of a standard, which nobody chooses: "9.80665 m/s^2". Raises as `given`."""
        typed = self._quantity(name, value)
        if typed.half is not None:
            raise ModelError(f"{self.name}: {name!r} is a constant and takes no ±; state what is measured by given()")
        assumes, at = self._assumed(name, positive=typed.base > 0), typed.base
        return self.add_given(Given(name, assumes, tex, typed.unit, at, (at, at), meaning, "constant", source=source))

    def chance(self, name: str, tex: str, meaning: str, spread: Shape = "rectangular") -> sp.Symbol:
        """State where an error lies within its half-width, from -1 to 1; nobody knows, so it is 0 and uncertain.

        Times a half-width that is a given or relation it is that error, in budgets and draws as in formulas.
        Raises as `given`.
        """
        assumes, unknown = self._assumed(name), Spread(1.0, spread, 1.0)
        given = Given(name, assumes, tex, unit(""), 0.0, (-1.0, 1.0), meaning, kind="constant", spread=unknown)
        return self.add_given(replace(given, source="unknown error, mean zero: as likely below as above"))

    def measured(self, how: str = "", *, spread: Shape = "rectangular", k: float = 2.0, dof: float = math.inf) -> None:
        """Say how the given or count just stated is measured, and how its half-width spreads (see `Spread`).

        Raises ModelError where neither was just stated; so do `source` and `mend`.
        """
        given = self.givens.get(self._last)
        if given is None or given.kind not in ("real", "count"):
            raise ModelError(f"{self.name}: measured() follows the given or count that it speaks of")
        self.givens[self._last] = replace(given, how=how, spread=Spread(given.spread.half, spread, k, dof))

    def source(self, text: str) -> None:
        """Say where what was just stated comes from; a given's value is else an example. Raises as `measured`."""
        given, relation = self.givens.get(self._last), self.relations.get(self._last)
        if relation is not None:
            self.relations[self._last] = replace(relation, source=text)
        elif given is not None and given.kind in ("real", "count"):
            self.givens[self._last] = replace(given, source=text)
        else:
            raise ModelError(f"{self.name}: source() follows the given, count or relation that it speaks of")

    def pick(self, name: str, table: str, row: str, fills: Mapping[str, str], meaning: str) -> None:
        """State that a row of `table`, `row` to begin with, fills givens (name → column name). Raises as `given`."""
        self._new(name)
        for given in fills:
            self.look_up(given, self.givens, "given")
        self.picks[name] = Pick(name, table, row, dict(fills), meaning)

    def relation(
        self, name: str, tex: str, in_unit: str, meaning: str = "", *, resolution: float | None = None
    ) -> sp.Symbol:
        """Begin a relation and return its symbol; `step` leads up to its value and `equals` states it.

        `resolution`, to which it is rounded when shown, is in `in_unit`. Raises as `given`.
        """
        return self._begin(name, tex, in_unit, meaning, resolution)

    def result(
        self,
        name: str,
        tex: str,
        in_unit: str,
        meaning: str = "",
        *,
        resolution: float | None = None,
        signed: bool = False,
        within: Span | None = None,
        whole: bool = False,
        setting: bool = False,
    ) -> sp.Symbol:
        """Begin a relation that is an answer; no limit may let an impossible one pass. Raises as `relation`.

        Impossible: below zero unless it is `signed` or an angle, above 100 % if in %, beyond `within` (in its unit)
        where that is stated, between two numbers where it counts a `whole`. A `setting` of a machine is shown first.
        """
        ends = possible(unit(in_unit), signed, within)
        return self._begin(
            name, tex, in_unit, meaning, resolution, result=True, possible=ends, whole=whole, setting=setting
        )

    def step(self, claim: sp.Basic, because: str) -> None:
        """State a line that leads to the value of the relation begun: an expression of it, or an equation.

        Raises:
            ModelError: no relation is begun, or the claim cannot be put in doubt.
            DimensionError: the two sides do not have the same dimension; both are named.
        """
        begun = self._begun_one("step")
        known = self._dims | {begun.symbol: begun.unit.dim}  # the symbol being defined may stand in an equation
        claim_line = line(f"a line of {begun.name!r} of {self.name}", known, begun.symbol, claim, because)
        formula = Formula(begun.symbol, (*begun.lines, claim_line))
        self._begun = replace(begun, formula=lambda: formula)

    def equals(self, expr: sp.Expr, because: str) -> None:
        """State the value of the relation begun.

        Raises:
            ModelError: no relation is begun.
            DimensionError: the expression does not have the dimension of the relation's unit; both are named.
        """
        begun = self._begun_one("equals")
        expr = sp.sympify(expr, strict=True)
        found = self.dimension_of(expr, f"relation {begun.name!r} of {self.name}")
        if found is not None and found != begun.unit.dim:
            raise DimensionError(
                f"relation {begun.name!r} of {self.name}: the left side is in {begun.unit.text or '1'}, "
                f"{words(begun.unit.dim)}; the right side {expr} is {words(found)}"
            )
        formula = Formula(expr, begun.lines)
        named = tuple(sorted(symbol.name for symbol in expr.free_symbols))
        self.relations[begun.name] = replace(begun, formula=lambda: formula, because=because, rests_on=named)
        self._begun, self._last = None, begun.name

    def limit(
        self,
        name: str,
        subject: str,
        value: sp.Expr,
        sense: Sense,
        allowed: sp.Expr | float,
        *,
        in_unit: str | None = None,
        resolution: float | None = None,
    ) -> None:
        """State what a good design meets; `subject` reads on with the value: 'tip moves' 0.06 mm. `mend` follows.

        `in_unit` and `resolution` are those of the value, if it is a given or relation, unless they are stated.

        Raises:
            DimensionError: value or allowed value do not have the dimension of the unit; both are named.
        """
        self.require_open()
        if name in self.limits:
            raise ModelError(f"{self.name}: limit {name!r} is stated twice")
        if sense not in SENSES:
            raise ModelError(f"{self.name}: limit {name!r} has the sense {sense!r}; use {' or '.join(SENSES)}")
        value = sp.sympify(value, strict=True)
        term = self._by_symbol.get(value)
        measure = unit(in_unit) if in_unit is not None else term.unit if term else unit("")
        bound = sp.sympify(allowed, strict=True)
        if bound.is_number:
            bound = bound * measure.factor + measure.offset
        where = f"limit {name!r} of {self.name}"
        for side in (value, bound):
            found = self.dimension_of(side, where)
            if found is not None and found != measure.dim and not side.is_number:
                raise DimensionError(
                    f"{where}: it is shown in {measure.text or '1'}, {words(measure.dim)}, but {side} is {words(found)}"
                )
        fine = resolution * measure.factor if resolution is not None else getattr(term, "resolution", None)
        judged = self._by_symbol.get(value.args[0] if isinstance(value, sp.Abs) else value)
        of, against = judged.name if judged else "", bound.name if isinstance(bound, sp.Symbol) else ""
        rests = sorted(str(symbol) for symbol in value.free_symbols | bound.free_symbols)
        size = bool(of) and value.is_Function
        self.limits[name] = Limit(
            name, subject, lambda: (value, bound), sense, measure, "", fine, of, size, against, tuple(rests)
        )
        self._unmended = name

    def mend(self, text: str) -> None:
        """Say what would mend a failure of the limit just stated: "to mend it, …". Raises as `measured`."""
        if not self._unmended:
            raise ModelError(f"{self.name}: mend() follows the limit that it speaks of")
        self.limits[self._unmended] = replace(self.limits[self._unmended], mend=text)
        self._unmended = ""

    def wish(self, words: str, value: sp.Symbol) -> None:
        """State what would be best: "least wood", "most open front", of a given or result. Raises ModelError else."""
        self.require_open()
        part, sense = self._by_symbol.get(value), words.partition(" ")[0]
        if part is None or sense not in ("least", "most"):
            raise ModelError(f"{self.name}: the wish {words!r} begins with least or most, and is of a given or result")
        self.wishes[words] = Wish(words, part.name, least=sense == "least")

    def caution(self, *texts: str, when: sp.Basic | bool = True) -> None:
        """State warnings, shown always or when a condition holds. Raises DimensionError as `limit`."""
        self.require_open()
        condition = sp.sympify(when, strict=True)
        self.dimension_of(condition, f"a caution of {self.name}")
        self.cautions += [Caution(text, lambda: condition) for text in texts]

    @property
    def _by_symbol(self) -> dict[sp.Basic, Given | Relation]:
        return {part.symbol: part for part in self.parts.values()}

    @property
    def _dims(self) -> dict[sp.Symbol, Dim]:
        return {part.symbol: part.unit.dim for part in self.parts.values()}

    def _begin(self, name: str, tex: str, in_unit: str, meaning: str, fine: float | None, **more: Any) -> sp.Symbol:
        self._new(name)
        measure = unit(in_unit)
        scale = None if fine is None else fine * measure.factor
        formula = Formula(symbol_of(name, ("real",)))
        self._begun = Relation(name, tex, measure, lambda: formula, meaning=meaning, resolution=scale, **more)
        return formula.expr

    def _begun_one(self, step: str) -> Relation:
        if self._begun is None:
            raise ModelError(f"{self.name}: {step}() follows the result() or relation() that it speaks of")
        return self._begun

    def _quantity(self, name: str, text: str) -> Quantity:
        try:
            return parse(text, None)
        except QuantityError as error:
            raise ModelError(f"{self.name}: {name!r}: {error}") from None

    def require_open(self) -> None:
        """Refuse what cannot be stated now; what follows no longer speaks of the last quantity.

        Raises:
            ModelError: the statement is closed, or what was begun last is not finished.
        """
        if self._closed:
            raise ModelError(f"{self.name} is closed; state everything before done()")
        if self._begun is not None:
            raise ModelError(f"{self.name}: {self._begun.name!r} has no value yet; state it with equals()")
        if self._unmended:
            raise ModelError(f"{self.name}: limit {self._unmended!r} says not what would mend it; say it with mend()")
        self._last = ""

    def require_done(self) -> None:
        """Refuse to compute with a statement that is not closed.

        Raises:
            ModelError: it is not.
        """
        if not self._closed:
            raise ModelError(f"{self.name} is not closed; end its statement with done()")

    def _new(self, name: str) -> None:
        self.require_open()
        if not name.isidentifier() or name in _TAKEN:
            raise ModelError(f"{self.name}: {name!r} is not a name; use words joined by _")
        if any(name in stated for stated in (self.givens, self.relations, self.picks)):
            raise ModelError(f"{self.name}: {name!r} is stated twice")

    def _assumed(self, name: str, **assumptions: bool) -> tuple[str, ...]:
        self._new(name)
        return ("real", *(key for key, value in assumptions.items() if value))

    def add_given(self, given: Given) -> sp.Symbol:
        """Take a given as it is, such as one of another statement, and return its symbol.

        Raises:
            ModelError: its name is taken, or the statement is closed.
        """
        self._new(given.name)
        self.givens[given.name] = given
        self._last = given.name
        return given.symbol

    def dimension_of(self, expr: sp.Basic, where: str) -> Dim | None:
        """Return the dimension of an expression of this statement's symbols, None where any fits.

        Raises:
            DimensionError: its terms do not go together; `where` begins the sentence.
        """
        try:
            return dimension(expr, self._dims)
        except DimensionError as error:
            raise DimensionError(f"{where}: {error}") from None
