"""Inversion: which values of a given make a result take a wanted value."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Literal

import numpy as np

from kit.core.errors import KitError, near_misses
from kit.core.model.root_search import CLOSE, Scan, nearest, ranges, same
from kit.core.model.stated import Stated
from kit.core.model.terms import Given, Relation, called, in_words, plain
from kit.core.quantity import Display, Quantity, ValueOrigin, parse
from kit.core.verdict import HAIR

if TYPE_CHECKING:
    import sympy as sp

    from kit.core.model.calculation import Calculation
    from kit.core.model.case import Case

How = Literal["closed form", "bracketed", "counted", "none"]

FindSense = Literal["=", "<=", ">="]
_SENSES = {"=": "", "<=": "at most ", ">=": "at least "}
_MOST_COUNTS = 1_000_000


@dataclass(frozen=True, slots=True)
class Found:
    """All values of `unknown` inside its span that give `result` the value `target`; base units.

    With `sense` "<=" or ">=" those that keep the result at most or at least there. `runs` are whole intervals that give
    it (results that go in steps, bounds). `here` is the value of the unknown before. `formula` is the solved relation
    where there is a closed form, in the branch that gives the first value. Without a solution, `nearest` is
    (value of the unknown, result there).
    """

    unknown: Given
    result: Relation
    target: float
    values: tuple[float, ...]
    runs: tuple[tuple[float, float], ...]
    how: How
    formula: sp.Expr | None
    nearest: tuple[float, float] | None
    reach: tuple[float, float] | None
    sense: FindSense = "="
    here: float = math.nan

    @property
    def first(self) -> float | None:
        """The value to take: the first found, of a bound the one nearest to the value before; None if there is none."""
        if self.sense != "=":
            ends = [min(max(self.here, low), high) for low, high in self.runs]
            return min((*self.values, *ends), key=lambda value: abs(value - self.here), default=None)
        return next(iter((*self.values, *(run[0] for run in self.runs))), None)

    def __repr__(self) -> str:
        return f"<{self.words()}>"

    def into(self, case: Case) -> Case:
        """Return the case with the first value found in it, or as it was where there is none."""
        if self.first is None:
            return case
        given = self.unknown
        typed = given.option(self.first) if given.options else given.unit.from_base(self.first)
        goal = f"{in_words(self.result.name)} is {_SENSES[self.sense]}{self.result.show(self.target)}"
        return case.changed({given.name: Stated(typed, origin=ValueOrigin("solved", how=f"so that {goal}"))})

    def words(self, display: Display | None = None, *, full: bool = False) -> str:
        """Say what was found, or why there is nothing and what comes nearest; `full` calls things by their meaning."""
        name, of = (called(part) if full else in_words(part.name) for part in (self.unknown, self.result))
        wanted = f"{of} {_SENSES[self.sense]}{self.result.show(self.target, display)}"
        found = [self.unknown.show(value, display) for value in self.values]
        found += [self._run(run, display) for run in self.runs]
        if found:
            ways = {
                "closed form": "in closed form",
                "bracketed": "by bracketing",
                "counted": "by trying each",
            }
            told = f"{name} {' or '.join(found)} gives {wanted} ({ways[self.how]})"
            if self.sense == "=" or self.first is None:
                return told
            if self.first == self.here:
                return f"{told}; it is so already, at {self.unknown.show(self.here, display)}"
            here, there = (self.unknown.show(each, display) for each in (self.here, self.first))
            return f"{told}; nearest to {here} is {there}"
        within = f"no {name} from {self.unknown.span_text(display)} gives {wanted}"
        if self.nearest is None or self.reach is None:
            return f"{within}: the model has no value there"
        low, high = (self.result.show(end, display) for end in self.reach)
        at, value = self.nearest
        return (
            f"{within}: it lies between {low} and {high} there; "
            f"nearest is {self.result.show(value, display)} at {name} {self.unknown.show(at, display)}"
        )

    def _run(self, run: tuple[float, float], display: Display | None) -> str:
        low, high = (self.unknown.show(end, display) for end in run)
        return low if run[0] == run[1] else f"{low} to {high}"


def find(case: Case, unknown: str, result: str, target: str | float | Quantity, sense: FindSense = "=") -> Found:
    """Find `unknown` so that `result` takes the value `target`, all else as in `case`.

    With `sense` "<=" or ">=" it stays at most or at least there; all values that keep it so are found.

    `target` is a text or a number in the result's unit, or a quantity. Closed form where there is one, else
    bracketed on a fine grid over the span; counts and choices are tried one by one.

    Raises:
        KitError: an unknown name or sense, or a target that cannot be read in the result's unit.
    """
    if sense not in _SENSES:
        raise KitError(f"{sense!r} is not a sense; take =, <= or >=")
    model = case.model
    for name, known, what in ((unknown, model.free, "given"), (result, model.relations, "result")):
        if name not in known:
            raise KitError(f"{model.name} has no {what} {name!r}{near_misses(name, list(known))}")
    given, relation = model.free[unknown], model.relations[result]
    goal = _goal(relation, target)
    function = _function(case, unknown, result)
    if given.kind in ("count", "choice"):
        return _counted(given, relation, goal, function, sense, case.base[unknown])
    scan = Scan(given.span, goal, function)
    formula, closed = _closed(case, given, relation, goal, scan)
    if sense != "=":
        return _bounded(scan, given, relation, sense, case.base[unknown], formula, closed)
    missed = [root for root in scan.roots if not any(same(root, value, given.span) for value in closed)]
    values = tuple(sorted([*closed, *missed]))
    how: How = "closed form" if closed and not missed else "bracketed" if values or scan.runs else "none"
    return Found(
        given,
        relation,
        goal,
        values,
        tuple(scan.runs),
        how,
        formula if how == "closed form" else None,
        scan.nearest,
        scan.reach,
    )


def _goal(relation: Relation, target: str | float | Quantity) -> float:
    if isinstance(target, str):
        return parse(target, relation.unit).base
    if isinstance(target, Quantity):
        return target.to(relation.unit).base
    return relation.unit.to_base(target)


def _function(case: Case, unknown: str, result: str) -> Callable[[np.ndarray], np.ndarray]:
    def at(x: np.ndarray) -> np.ndarray:
        found = case.compute({unknown: x}, (result,))[result]
        return np.where(np.isfinite(found), found, np.nan)

    return at


def _bounded(
    scan: Scan,
    given: Given,
    relation: Relation,
    sense: FindSense,
    here: float,
    formula: sp.Expr | None,
    closed: list[float],
) -> Found:
    """Return the intervals of a scan on which the result keeps to its bound."""
    goal = scan.goal
    found = tuple(ranges(scan, lambda value: _keeps(value, goal, sense)))
    first = min((min(max(here, a), b) for a, b in found), key=lambda x: abs(x - here), default=math.nan)
    exact = formula is not None and bool(closed) and same(closed[0], first, given.span)
    how: How = "none" if not found else "closed form" if exact else "bracketed"
    kept = formula if exact else None
    return Found(given, relation, goal, (), found, how, kept, scan.nearest, scan.reach, sense, here)


def _keeps(value: float, goal: float, sense: FindSense) -> bool:
    """Return whether a value is on the right side of a bound; one that rounding alone moves over it is."""
    gap = value - goal if sense == "<=" else goal - value
    return gap <= HAIR * max(abs(value), abs(goal))


def _counted(
    given: Given,
    relation: Relation,
    goal: float,
    function: Callable[[np.ndarray], np.ndarray],
    sense: FindSense,
    here: float,
) -> Found:
    low, high = (round(end) for end in given.span)
    numbers = np.arange(low, min(high, low + _MOST_COUNTS) + 1, dtype=float)
    results = function(numbers)
    hit = np.abs(results - goal) <= CLOSE * np.maximum(abs(goal), np.abs(results))
    if sense != "=":
        hit |= results < goal if sense == "<=" else results > goal
    values = tuple(map(float, numbers[hit]))
    near, reach = nearest(numbers, results, goal)
    how: How = "counted" if values else "none"
    return Found(given, relation, goal, values, (), how, None, near, reach, sense, here)


def _closed(
    case: Case, given: Given, relation: Relation, goal: float, scan: Scan
) -> tuple[sp.Expr | None, list[float]]:
    """Return the turned-round formula and its values that hold here and lie in the span."""
    import sympy as sp

    known = {plain(name): value for name, value in case.base.items()} | {plain(relation.name): goal}
    low, high = given.span
    slack = 1e-9 * (high - low)
    kept: list[tuple[sp.Expr, float]] = []
    chosen = tuple((name, round(e.base)) for name, e in case.entries.items() if e.given.kind == "choice")
    for branch in turned_round(case.model, given.name, relation.name, chosen):
        value = sp.N(branch.xreplace({s: sp.Float(v, 17) for s, v in known.items() if s in branch.free_symbols}), 17)
        if not (value.is_real and value.is_finite):
            continue
        x = min(max(float(value), low), high) if low - slack <= float(value) <= high + slack else math.nan
        if not math.isnan(x) and scan.meets(x) and not any(same(x, seen, given.span) for _, seen in kept):
            kept.append((branch, x))
    kept.sort(key=lambda pair: pair[1])
    return (kept[0][0] if kept else None), [x for _, x in kept]


@lru_cache(maxsize=512)
def turned_round(
    model: Calculation, unknown: str, result: str, chosen: tuple[tuple[str, int], ...] = ()
) -> tuple[sp.Expr, ...]:
    """Return the branches of the closed form of `unknown`, with the result's value under its own symbol.

    `chosen` are the codes of the choices made, which decide between cases. Relations that do not rest on the
    unknown keep their symbols, so that the formula stays readable.
    """
    import sympy as sp

    from kit.core.model.closed_form import LARGEST, isolate

    relation = model.relations[result]
    codes = {model.free[name].symbol: sp.Integer(code) for name, code in chosen}
    expr = relation.symbol
    for link in reversed(model.needed([result])):
        if link.symbol in expr.free_symbols and _rests_on(model, link.name, unknown):
            expr = expr.xreplace({link.symbol: link.expr.xreplace(codes)})
            if expr.count_ops() > LARGEST:  # it doubles with every link: look in good time
                return ()
    bare = {part.symbol: plain(part.name) for part in model.parts.values()}
    return tuple(isolate(expr.xreplace(bare), plain(unknown), plain(result)))


def _rests_on(model: Calculation, name: str, given: str) -> bool:
    return any(given in link.rests_on for link in model.needed([name]))
