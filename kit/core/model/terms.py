"""The parts a model is stated in: givens, picks, relations with their lines, limits and cautions.

They hold words and numbers. The formulas in them are sympy's; where a model comes from the store, they are stated
anew when one of them is first asked for, and sympy is loaded only then.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING, Any, Literal, get_args

from kit.core.errors import KitError
from kit.core.quantity import EXAMPLE, Display, Unit, ValueOrigin, show, show_in
from kit.core.quantity.distribution import Spread
from kit.core.verdict import HAIR, Sense

if TYPE_CHECKING:
    import sympy as sp
    from sympy.logic.boolalg import Boolean

Kind = Literal["real", "count", "choice", "constant"]
Changes = Literal["", "often", "seldom"]
"""How often a person changes a given; where nothing is said, one with a source is taken to change seldom."""
SENSES: tuple[Sense, ...] = get_args(Sense)


@cache
def symbol_of(name: str, assumes: tuple[str, ...]) -> sp.Symbol:
    """Return the symbol of that name, of which all in `assumes` is true, such as "positive"."""
    import sympy as sp

    return sp.Symbol(name, **dict.fromkeys(assumes, True))


def plain(name: str) -> sp.Symbol:
    """Return the symbol of that name about which nothing is assumed.

    sympy pulls a root of positive symbols apart, factor by factor; with plain ones it stays one root to read.
    """
    return symbol_of(name, ())


def in_words(name: str) -> str:
    """Return a code name as words."""
    return name.replace("_", " ")


@dataclass(frozen=True, slots=True)
class Given:
    """A quantity that a person measures, chooses or looks up. Numbers are in base units."""

    name: str
    assumes: tuple[str, ...]  # of its symbol: real, positive, …
    tex: str
    unit: Unit
    base: float
    span: tuple[float, float]
    meaning: str
    kind: Kind = "real"
    how: str = ""
    source: str = ""
    spread: Spread = field(default_factory=lambda: Spread(0.0))
    options: Mapping[str, int] = field(default_factory=dict)
    resolution: float | None = None  # to which it is shown at least, where it has no half-width
    changes: Changes = ""

    @property
    def symbol(self) -> sp.Symbol:
        """What stands for it in formulas."""
        return symbol_of(self.name, self.assumes)

    @property
    def origin(self) -> ValueOrigin:
        """Where the statement's own value comes from: a source that it names, or nowhere but from the example."""
        return ValueOrigin("default", source=self.source) if self.source else EXAMPLE

    def option(self, code: float) -> str:
        """Return the name of a choice's code."""
        return next(name for name, number in self.options.items() if number == round(code))

    def show(self, base: float, display: Display | None = None, *, half: float | None = None) -> str:
        """Return a value of this given as a person reads it: an option's name, a count, or a quantity."""
        if self.kind == "choice":
            return self.option(base)
        if self.kind == "count":
            return f"{round(base)}"
        return show(base, self.unit, display, half=half, resolution=self.resolution)

    def span_text(self, display: Display | None = None) -> str:
        """Return the span in words, in the reader's units."""
        if self.kind == "choice":
            return " or ".join(self.options)
        if self.kind == "count":
            return " to ".join(f"{end:.0f}" for end in self.span)
        shown = display.unit_for(self.unit) if display else self.unit
        return " to ".join(show_in(end, shown) for end in self.span)

    def __repr__(self) -> str:
        return f"<given {self.name}: {self.meaning}; {self.span_text()}>"


@dataclass(frozen=True, slots=True)
class Pick:
    """A row of a table that fills several givens at once, such as a wood."""

    name: str
    table: str
    row: str
    fills: Mapping[str, str]
    meaning: str


@dataclass(frozen=True, slots=True)
class Line:
    """One intermediate line of a derivation and the sentence that leads to it.

    `claim` is an expression that equals the relation's value, or an equation (of expressions or of matrices)
    that holds wherever the model holds.
    """

    claim: sp.Basic
    because: str


@dataclass(frozen=True, slots=True)
class Formula:
    """What a relation stands for, and the lines that lead there."""

    expr: sp.Expr
    lines: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True)
class Relation:
    """A symbol, the formula it stands for, and why. `resolution` is in base units, or None.

    `rests_on` are the names in the formula, in alphabetical order. `possible` is between what it can lie at all, in
    base units; `whole` says that it counts something, `setting` that it is set on a machine.
    """

    name: str
    tex: str
    unit: Unit
    formula: Callable[[], Formula] = field(repr=False, compare=False)
    because: str = ""
    rests_on: tuple[str, ...] = ()
    source: str = ""
    meaning: str = ""
    result: bool = False
    resolution: float | None = None
    possible: tuple[float, float] = (-math.inf, math.inf)
    whole: bool = False
    setting: bool = False

    def can_be(self, base: Any) -> Any:
        """Whether it, or each of an array, can have a value at all; what rounding makes of nothing is let pass."""
        low, high = self.possible
        dust = HAIR * self.unit.factor
        return (low - dust <= base) & (base <= high + dust)

    @property
    def symbol(self) -> sp.Symbol:
        """What stands for it in formulas."""
        return symbol_of(self.name, ("real",))

    @property
    def expr(self) -> sp.Expr:
        """The formula it stands for."""
        return self.formula().expr

    @property
    def lines(self) -> tuple[Line, ...]:
        """The lines that lead to its formula."""
        return self.formula().lines

    def show(self, base: float, display: Display | None = None, *, half: float | None = None) -> str:
        """Return a value of this relation as a person reads it, rounded to its resolution if it has one."""
        return show(base, self.unit, display, half=half, resolution=self.resolution)

    def __repr__(self) -> str:
        return f"<{'result' if self.result else 'relation'} {self.name}: {called(self)} [{self.unit.text or '1'}]>"


def possible(measure: Unit, signed: bool, within: tuple[float, float] | None) -> tuple[float, float]:
    """Return between what a result in `measure` can lie, in base units; `within` is in that unit.

    Unless it says more, an angle may have either sign, a share in % lies from 0 to 100 %, and nothing else (a length,
    a mass, a force, a count) is below zero.
    """
    if within is not None:
        return measure.to_base(within[0]), measure.to_base(within[1])
    if signed or measure.angle:
        return -math.inf, math.inf
    return 0.0, 1.0 if measure.text == "%" else math.inf


def called(part: Given | Relation | Pick) -> str:
    """Return what a quantity or a row of a table is called: its meaning, else its name in words."""
    return part.meaning or in_words(part.name)


@dataclass(frozen=True, slots=True)
class Limit:
    """What a good design meets: a value, what is allowed, and what would mend a failure.

    `judges` names the quantity that is the value, or whose size is (`size`); `bound` names the one that is allowed.
    Both are empty where a longer formula, or a number, stands there. `rests_on` are the names in either formula, in
    alphabetical order.
    """

    name: str
    subject: str
    formulas: Callable[[], tuple[sp.Expr, sp.Expr]] = field(repr=False, compare=False)
    sense: Sense
    unit: Unit
    mend: str = ""
    resolution: float | None = None
    judges: str = ""
    size: bool = False
    bound: str = ""
    rests_on: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """The limit in words, without its numbers: "the tip moves at most …"."""
        return f"{self.subject} at {'most' if self.sense == '<=' else 'least'} …"

    @property
    def value(self) -> sp.Expr:
        """The formula of what is judged."""
        return self.formulas()[0]

    @property
    def allowed(self) -> sp.Expr:
        """The formula of what is allowed."""
        return self.formulas()[1]

    def __repr__(self) -> str:
        return f"<limit {self.name}: {self.subject} {self.judges or '…'} {self.sense} {self.bound or '…'}>"


@dataclass(frozen=True, slots=True)
class Wish:
    """What would be best beside what must hold: least or most of a quantity, in words ("least wood")."""

    words: str
    of: str
    least: bool = True

    def better(self, one: float, other: float) -> bool:
        """Return whether a value meets the wish better than another."""
        return one < other if self.least else one > other

    def __repr__(self) -> str:
        return f"<wish: {self.words} ({'least' if self.least else 'most'} {self.of})>"


@dataclass(frozen=True, slots=True)
class Caution:
    """A warning that a person must see, always or when a condition holds."""

    text: str
    condition: Callable[[], Boolean] = field(repr=False, compare=False)

    @property
    def when(self) -> Boolean:
        """The condition under which it is shown."""
        return self.condition()


@dataclass(frozen=True, slots=True)
class Mistake:
    """A typical wrong turn: what somebody takes for the formula of the quantity named `of`, and what they did."""

    text: str
    of: str
    formula: Callable[[], sp.Expr] = field(repr=False, compare=False)

    @property
    def expr(self) -> sp.Expr:
        """The formula that is taken by mistake."""
        return self.formula()


class ModelError(KitError):
    """A model is stated wrongly; seen by the author of a topic, never by a user."""
