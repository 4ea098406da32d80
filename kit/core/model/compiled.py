"""A model as fast functions of bare numbers in base units.

One ordered list of assignments, with common subexpressions shared, is written out twice by sympy's own code
printers: with `math` for one point, with NumPy for many.
"""

from __future__ import annotations

import math
import os
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING, Any

import numpy as np
import sympy as sp

from kit.core.errors import KitError
from kit.core.model.codegen import Assignments, function
from kit.core.model.terms import called

if TYPE_CHECKING:
    from kit.core.model.statement import Statement

Arrays = Mapping[str, Any]
Codes = tuple[tuple[str, int], ...]

BLOCK = 16_384  # draws with one seed of their own; another number would change every sample
CHUNK = 65_536  # doubles: small enough for the cache, large enough that the cores seldom wait for each other
_CORES = os.cpu_count() or 1


class NoValueError(KitError):
    """The model has no real value at this point, for example a root of a negative number."""


class Compiled:
    """The functions of one model; made by `functions_of`."""

    def __init__(self, model: Statement) -> None:
        self.model = model
        self.order = list(model.givens.values())
        self._arguments = [given.symbol for given in self.order]
        self._arrays: dict[tuple[tuple[str, ...], Codes], Callable[..., Any]] = {}

    @cached_property
    def point(self) -> Callable[..., list[float]]:
        """All relations, in order, from one float per given, in order."""
        relations = list(self.model.relations.values())
        steps = [(r.symbol, r.expr) for r in relations]  # not shared: an unused branch must stay unevaluated
        return function(self._arguments, [r.symbol for r in relations], "math", steps)

    @cached_property
    def verdicts(self) -> Callable[..., list[Any]]:
        """Each limit's value and allowed value, then each caution's condition, from all symbols' values."""
        model = self.model
        wanted: list[sp.Basic] = []
        for limit in model.limits.values():
            wanted += [limit.value, limit.allowed]
        wanted += [caution.when for caution in model.cautions]
        return function([part.symbol for part in model.parts.values()], wanted, "math")

    def values(self, givens: Mapping[str, float]) -> dict[str, float]:
        """Return every symbol's value at one point from all givens' values.

        Raises:
            NoValueError: a relation has no real, finite value here; the first such relation is named.
        """
        arguments = [givens[given.name] for given in self.order]
        try:
            found = self.point(*arguments)
            if all(map(math.isfinite, found)):
                return dict(zip(self.model.names, (*arguments, *found), strict=True))
        except (ValueError, ZeroDivisionError, OverflowError, TypeError):
            pass
        raise NoValueError(self._first_without_value(givens))

    def _first_without_value(self, givens: Mapping[str, float]) -> str:
        """Walk the relations one by one and say which is the first that has no value."""
        known = {given.symbol: sp.Float(givens[given.name]) for given in self.order}
        for relation in self.model.relations.values():
            value = relation.expr.xreplace(known).evalf()
            if not (value.is_real and value.is_finite):
                inputs = [p for p in self.model.parts.values() if p.symbol in relation.expr.free_symbols]
                at = ", ".join(f"{p.name} {p.show(float(known[p.symbol]))}" for p in inputs)
                return f"{self.model.name} has no {called(relation)} at {at}; change one of them"
            known[relation.symbol] = value
        return f"{self.model.name} has no finite value at this point; move the givens back toward their spans"

    def arrays(self, values: Arrays, want: Sequence[str]) -> dict[str, np.ndarray]:
        """Return the quantities `want` over broadcast arrays; see `compute`.

        Raises:
            KitError: an unknown name, or arrays that do not broadcast.
        """
        for name in values:
            self.model.look_up(name, self.model.givens, "given")
        arguments = [_bare(values.get(given.name, given.base)) for given in self.order]
        made = self._array_function(tuple(want), self._decided(arguments))
        return dict(zip(want, _blocked(made, arguments, len(want)), strict=True))

    def _decided(self, arguments: Sequence[Any]) -> Codes:
        """Return the choices that are the same at every point."""
        return tuple(
            (given.name, int(value))
            for given, value in zip(self.order, arguments, strict=True)
            if given.kind == "choice" and np.ndim(value) == 0 and value in given.options.values()
        )

    def _array_function(self, want: tuple[str, ...], decided: Codes) -> Callable[..., Any]:
        """Return the function for `want`, in which the cases that `decided` rules out are not computed."""
        if (want, decided) not in self._arrays:
            symbols = [self.model.part(name).symbol for name in want]
            codes = {self.model.givens[name].symbol: sp.Integer(code) for name, code in decided}
            chain = [(r.symbol, r.expr.xreplace(codes)) for r in self.model.needed(symbols)]
            steps = assignments(chain, self._arguments)
            self._arrays[want, decided] = function(self._arguments, symbols, "numpy", steps)
        return self._arrays[want, decided]


@lru_cache(maxsize=128)
def functions_of(statement: Statement) -> Compiled:
    """Return the fast functions of a closed statement; they are made once.

    Raises:
        ModelError: it is not closed.
    """
    statement.require_done()
    return Compiled(statement)


def compute(statement: Statement, values: Arrays, want: Sequence[str]) -> dict[str, np.ndarray]:
    """Return arrays of the quantities `want` for arrays of givens, all in base units, broadcast.

    Givens not named keep the statement's own values. Points where there is no value come back as NaN.
    """
    return functions_of(statement).arrays(values, want)


def assignments(steps: Assignments, arguments: Sequence[sp.Symbol]) -> list[tuple[sp.Symbol, sp.Expr]]:
    """Order `steps` with their common subexpressions, each computed just before it is first needed."""
    whole = [expr for _, expr in steps]
    # what holds a sum's own index has no value outside of the sum
    bound = {index for expr in whole for total in expr.atoms(sp.Sum) for index in total.bound_symbols}
    shared, reduced = sp.cse(whole, symbols=sp.numbered_symbols("shared_"), order="none", ignore=tuple(bound))
    pending = dict(shared) | {symbol: expr for (symbol, _), expr in zip(steps, reduced, strict=True)}
    bases = sp.numbered_symbols("base_")
    done = set(arguments)
    ordered: list[tuple[sp.Symbol, sp.Expr]] = []

    def emit(symbol: sp.Symbol) -> None:
        if symbol in done or symbol not in pending:
            return
        expr = pending[symbol]
        for inner in sorted(expr.free_symbols, key=str):
            emit(inner)
        powers = (p for p in sp.preorder_traversal(expr) if _compound_power(p) and not p.free_symbols & bound)
        for power in sorted(powers, key=sp.count_ops):
            base = next(bases)  # a named base can be multiplied out, see _Power
            ordered.append((base, power.base))
            expr = expr.xreplace({power: base**power.exp})
        done.add(symbol)
        ordered.append((symbol, expr))

    for symbol, _ in steps:
        emit(symbol)
    return ordered


def _compound_power(expr: sp.Basic) -> bool:
    return isinstance(expr, sp.Pow) and not expr.base.is_Atom and expr.exp.is_Integer and abs(expr.exp) > 2


def _bare(value: Any) -> Any:
    """Return an array, or a NumPy scalar: a Python float would raise where NumPy says NaN."""
    return np.asarray(value, dtype=float)[()]


def _blocked(function: Callable[..., Any], arguments: list[Any], count: int) -> list[np.ndarray]:
    """Run an elementwise function over broadcast arrays in blocks that fit the cache, on all cores."""
    arrays = [a for a in arguments if isinstance(a, np.ndarray)]
    try:
        shape = np.broadcast_shapes(*(a.shape for a in arrays))
    except ValueError:
        shapes = " and ".join(sorted({str(a.shape) for a in arrays}))
        raise KitError(f"arrays of shapes {shapes} do not fit together; give arrays that broadcast") from None
    outputs = [np.empty(shape) for _ in range(count)]
    total = math.prod(shape)
    if total == 0:
        return outputs
    axis = int(np.argmax(shape)) if shape else 0
    length = shape[axis] if shape else 1
    rows = max(1, CHUNK * length // total)

    def run(start: int) -> None:
        index = (slice(None),) * axis + (slice(start, start + rows),) if shape else (...,)
        piece = [_piece(a, axis, len(shape), index) for a in arguments]
        with np.errstate(all="ignore"):
            for out, found in zip(outputs, function(*piece), strict=True):
                piece_out = out[index]
                np.copyto(piece_out, found)
                np.copyto(piece_out, np.nan, where=~np.isfinite(piece_out))

    each_block(run, range(0, length, rows))
    return outputs


def each_block(run: Callable[..., None], starts: Sequence[int], *more: Sequence[Any]) -> None:
    """Run each block of an array's work, on all cores if there are a few; `more` are further arguments, one a block."""
    if len(starts) < 4 or _CORES == 1:
        for arguments in zip(starts, *more, strict=True):
            run(*arguments)
    else:
        for _ in _pool().map(run, starts, *more):
            pass


def _piece(argument: Any, axis: int, ndim: int, index: tuple[slice, ...]) -> Any:
    if not isinstance(argument, np.ndarray):
        return argument
    lacking = ndim - argument.ndim
    if axis < lacking or argument.shape[axis - lacking] == 1:
        return argument
    return argument[index[lacking:]]


@lru_cache(maxsize=1)
def _pool() -> ThreadPoolExecutor:
    return ThreadPoolExecutor(max_workers=_CORES, thread_name_prefix="kit-compute")
