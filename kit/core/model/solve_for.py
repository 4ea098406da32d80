"""Inversion: which values of a given make a result take a wanted value."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Literal

import numpy as np
import sympy as sp

from kit.core.errors import KitError, near_misses
from kit.core.model.closed_form import LARGEST, isolate
from kit.core.model.root_search import CLOSE, Scan, nearest, same
from kit.core.model.stated import Stated
from kit.core.model.terms import Given, Relation, in_words, plain
from kit.core.quantity import Display, Quantity, ValueOrigin, parse

if TYPE_CHECKING:
    from kit.core.model.case import Case
    from kit.core.model.statement import Statement

How = Literal["closed form", "bracketed", "counted", "none"]

_MOST_COUNTS = 1_000_000


@dataclass(frozen=True, slots=True)
class Found:
    """All values of `unknown` inside its span that give `result` the value `target`; base units.

    `runs` are whole intervals that give it (results that go in steps). `formula` is the solved relation
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

    @property
    def first(self) -> float | None:
        """The first value found, or the beginning of the first interval; None where there is none."""
        return next(iter((*self.values, *(run[0] for run in self.runs))), None)

    def __repr__(self) -> str:
        return f"<{self.words()}>"

    def into(self, case: Case) -> Case:
        """Return the case with the first value found in it, or as it was where there is none."""
        if self.first is None:
            return case
        given = self.unknown
        typed = given.option(self.first) if given.options else given.unit.from_base(self.first)
        goal = f"{in_words(self.result.name)} is {self.result.show(self.target)}"
        return case.changed({given.name: Stated(typed, origin=ValueOrigin("solved", how=f"so that {goal}"))})

    def words(self, display: Display | None = None) -> str:
        """Say what was found, or why there is nothing and what comes nearest."""
        name, goal = in_words(self.unknown.name), self.result.show(self.target, display)
        wanted = f"{in_words(self.result.name)} {goal}"
        found = [self.unknown.show(value, display) for value in self.values]
        found += [f"{self.unknown.show(a, display)} to {self.unknown.show(b, display)}" for a, b in self.runs]
        if found:
            ways = {
                "closed form": "in closed form",
                "bracketed": "by bracketing",
                "counted": "by trying each",
            }
            return f"{name} {' or '.join(found)} gives {wanted} ({ways[self.how]})"
        within = f"no {name} from {self.unknown.span_text(display)} gives {wanted}"
        if self.nearest is None or self.reach is None:
            return f"{within}: the model has no value there"
        low, high = (self.result.show(end, display) for end in self.reach)
        at, value = self.nearest
        return (
            f"{within}: it lies between {low} and {high} there; "
            f"nearest is {self.result.show(value, display)} at {name} {self.unknown.show(at, display)}"
        )


def find(case: Case, unknown: str, result: str, target: str | float | Quantity) -> Found:
    """Find `unknown` so that `result` takes the value `target`, all else as in `case`.

    `target` is a text or a number in the result's unit, or a quantity. Closed form where there is one, else
    bracketed on a fine grid over the span; counts and choices are tried one by one.

    Raises:
        KitError: an unknown name, or a target that cannot be read in the result's unit.
    """
    model = case.model
    for name, known, what in ((unknown, model.free, "given"), (result, model.relations, "result")):
        if name not in known:
            raise KitError(f"{model.name} has no {what} {name!r}{near_misses(name, list(known))}")
    given, relation = model.free[unknown], model.relations[result]
    goal = _goal(relation, target)
    function = _function(case, unknown, result)
    if given.kind in ("count", "choice"):
        return _counted(given, relation, goal, function)
    scan = Scan(given.span, goal, function)
    formula, closed = _closed(case, given, relation, goal, scan)
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


def _counted(given: Given, relation: Relation, goal: float, function: Callable[[np.ndarray], np.ndarray]) -> Found:
    low, high = (round(end) for end in given.span)
    numbers = np.arange(low, min(high, low + _MOST_COUNTS) + 1, dtype=float)
    results = function(numbers)
    hit = np.abs(results - goal) <= CLOSE * np.maximum(abs(goal), np.abs(results))
    values = tuple(map(float, numbers[hit]))
    near, reach = nearest(numbers, results, goal)
    return Found(given, relation, goal, values, (), "counted" if values else "none", None, near, reach)


def _closed(
    case: Case, given: Given, relation: Relation, goal: float, scan: Scan
) -> tuple[sp.Expr | None, list[float]]:
    """Return the turned-round formula and its values that hold here and lie in the span."""
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
    model: Statement, unknown: str, result: str, chosen: tuple[tuple[str, int], ...] = ()
) -> tuple[sp.Expr, ...]:
    """Return the branches of the closed form of `unknown`, with the result's value under its own symbol.

    `chosen` are the codes of the choices made, which decide between cases. Relations that do not rest on the
    unknown keep their symbols, so that the formula stays readable.
    """
    given, relation = model.free[unknown], model.relations[result]
    codes = {model.free[name].symbol: sp.Integer(code) for name, code in chosen}
    expr = relation.symbol
    for link in reversed(model.needed([relation.symbol])):
        if link.symbol in expr.free_symbols and _rests_on(model, link.symbol, given.symbol):
            expr = expr.xreplace({link.symbol: link.expr.xreplace(codes)})
            if expr.count_ops() > LARGEST:  # it doubles with every link: look in good time
                return ()
    bare = {part.symbol: plain(part.name) for part in model.parts.values()}
    return tuple(isolate(expr.xreplace(bare), plain(unknown), plain(result)))


def _rests_on(model: Statement, symbol: sp.Symbol, given: sp.Symbol) -> bool:
    return any(given in link.expr.free_symbols for link in model.needed([symbol]))
