"""Formulas written onto a tape: what stands twice is computed once."""

from __future__ import annotations

from collections.abc import Iterable

import sympy as sp
from sympy.logic.boolalg import BooleanFalse, BooleanTrue

from kit.core.model.operations import NAN, POINT
from kit.core.model.tape import Operation, Tape
from kit.core.model.terms import ModelError

_MOST_FACTORS = 6
"""The largest whole power written as a product: the general power costs twenty times a multiplication."""
_MOST_TERMS = 1000
_NAMED = {
    sp.exp: "exp",
    sp.log: "log",
    sp.erf: "erf",
    sp.sin: "sin",
    sp.cos: "cos",
    sp.tan: "tan",
    sp.asin: "asin",
    sp.acos: "acos",
    sp.atan: "atan",
    sp.atan2: "atan2",
    sp.sinh: "sinh",
    sp.cosh: "cosh",
    sp.tanh: "tanh",
    sp.Abs: "abs",
    sp.sign: "sign",
    sp.ceiling: "ceil",
    sp.floor: "floor",
    sp.Mod: "mod",
    sp.Not: "not",
}
_CHAINED = {sp.Min: "min", sp.Max: "max", sp.And: "and", sp.Or: "or"}
_COMPARED = {
    sp.StrictLessThan: ("lt", False),
    sp.LessThan: ("le", False),
    sp.StrictGreaterThan: ("lt", True),
    sp.GreaterThan: ("le", True),
    sp.Equality: ("eq", False),
    sp.Unequality: ("ne", False),
}
_RECIPROCAL = {sp.cot: sp.tan, sp.sec: sp.cos, sp.csc: sp.sin}


def tape(
    arguments: Iterable[sp.Symbol], outputs: Iterable[sp.Basic], steps: Iterable[tuple[sp.Symbol, sp.Basic]] = ()
) -> Tape:
    """Return the tape of `arguments` that works `steps` in order and has `outputs`.

    Raises:
        ModelError: a formula with a symbol that is neither argument nor earlier step, or a function without a number.
    """
    writer = _Writer(list(arguments))
    for symbol, expr in steps:
        writer.known[symbol] = writer.number(expr)
    return writer.tape([writer.number(output) for output in outputs])


class _Writer:
    """Places are negative for constants until all is written, as nobody knows before how many there are."""

    def __init__(self, arguments: list[sp.Symbol]) -> None:
        self.names = tuple(symbol.name for symbol in arguments)
        self.known: dict[sp.Basic, int] = {symbol: at for at, symbol in enumerate(arguments)}
        self.constants: dict[str, int] = {}
        self.values: list[float] = []
        self.operations: dict[tuple[str, tuple[int, ...]], int] = {}

    def tape(self, outputs: list[int]) -> Tape:
        count, first = len(self.values), len(self.names)

        def final(at: int) -> int:
            if at < 0:
                return first + ~at
            return at if at < first else at + count

        operations: list[Operation] = []
        for name, places in self.operations:
            ends = (*map(final, places), -1, -1)
            operations.append((name, ends[0], ends[1], ends[2]))
        return Tape(self.names, tuple(self.values), tuple(operations), tuple(map(final, outputs)))

    def number(self, expr: sp.Basic) -> int:
        """Return the place at which the value of `expr` stands, computed there if it is not yet."""
        found = self.known.get(expr)
        if found is None:
            found = self.known[expr] = self.written(expr)
        return found

    def constant(self, value: float) -> int:
        key = repr(value)
        if key not in self.constants:
            self.constants[key] = ~len(self.values)
            self.values.append(value)
        return self.constants[key]

    def operation(self, name: str, *places: int) -> int:
        if all(place < 0 for place in places):
            return self.constant(POINT[name](*(self.values[~place] for place in places)))
        return self.operations.setdefault((name, places), len(self.names) + len(self.operations))

    def written(self, expr: sp.Basic) -> int:
        if isinstance(expr, BooleanTrue | BooleanFalse):
            return self.constant(float(bool(expr)))
        if isinstance(expr, sp.Number | sp.NumberSymbol):
            return self.constant(float(expr))
        if isinstance(expr, sp.Add):
            return self.sum(expr)
        if isinstance(expr, sp.Mul | sp.Pow):
            return self.product(expr)
        if isinstance(expr, sp.Piecewise):
            return self.cases(expr)
        if isinstance(expr, sp.Sum):
            return self.series(expr)
        kind = type(expr)
        if kind in _NAMED:
            return self.operation(_NAMED[kind], *map(self.number, expr.args))
        if kind in _CHAINED:
            return self.chain(_CHAINED[kind], [self.number(arg) for arg in expr.args])
        if kind in _COMPARED:
            name, turned = _COMPARED[kind]
            a, b = map(self.number, expr.args)
            return self.operation(name, *((b, a) if turned else (a, b)))
        if kind in _RECIPROCAL:
            return self.operation("div", self.constant(1.0), self.number(_RECIPROCAL[kind](expr.args[0])))
        if isinstance(expr, sp.Symbol):
            raise ModelError(f"{expr} is neither a given nor an earlier relation")
        raise ModelError(f"{expr} has no number: the kit computes no {kind.__name__}")

    def chain(self, name: str, places: list[int]) -> int:
        whole = places[0]
        for place in places[1:]:
            whole = self.operation(name, whole, place)
        return whole

    def sum(self, expr: sp.Add) -> int:
        """Add the terms in order, but begin with one that is not taken away."""
        terms = [(_negative(term), term) for term in expr.args]
        terms.sort(key=lambda pair: pair[0])
        whole = self.number(terms[0][1])
        for taken_away, term in terms[1:]:
            whole = self.operation("sub" if taken_away else "add", whole, self.number(-term if taken_away else term))
        return whole

    def product(self, expr: sp.Expr) -> int:
        """Multiply what stands above the bar, then what stands below it, then divide."""
        above: list[int] = []
        below: list[int] = []
        turned = False
        for factor in sp.Mul.make_args(expr):
            if factor is sp.S.NegativeOne:
                turned = not turned
            elif isinstance(factor, sp.Rational):
                turned ^= bool(factor < 0)
                above += [self.constant(float(abs(factor.p)))] if abs(factor.p) != 1 else []
                below += [self.constant(float(factor.q))] if factor.q != 1 else []
            elif isinstance(factor, sp.Pow) and factor.exp.is_Rational and factor.exp < 0:
                below.append(self.power(factor.base, -factor.exp))
            elif isinstance(factor, sp.Pow):
                above.append(self.power(factor.base, factor.exp))
            else:
                above.append(self.number(factor))
        whole = self.chain("mul", above) if above else self.constant(1.0)
        if below:
            whole = self.operation("div", whole, self.chain("mul", below))
        return self.operation("neg", whole) if turned else whole

    def power(self, base: sp.Expr, exponent: sp.Expr) -> int:
        at = self.number(base)
        if exponent is sp.S.One:
            return at
        if exponent is sp.S.Half:
            return self.operation("sqrt", at)
        if base is sp.E:
            return self.operation("exp", self.number(exponent))
        if exponent.is_Integer and 2 <= exponent <= _MOST_FACTORS:
            return self.chain("mul", [at] * int(exponent))
        return self.operation("pow", at, self.number(exponent))

    def cases(self, expr: sp.Piecewise) -> int:
        """Choose the first case that holds; NaN where none does."""
        whole = self.constant(NAN)
        for pair in reversed(expr.args):
            if pair.cond is sp.true:
                whole = self.number(pair.expr)
            else:
                whole = self.operation("choose", self.number(pair.cond), self.number(pair.expr), whole)
        return whole

    def series(self, expr: sp.Sum) -> int:
        """Write a sum term by term."""
        (index, low, high), *more = expr.limits
        inner = sp.Sum(expr.function, *more) if more else expr.function
        if not (low.is_Integer and high.is_Integer and high - low < _MOST_TERMS):
            raise ModelError(f"{expr} runs from {low} to {high}; the kit computes sums between fixed whole numbers")
        terms = [self.number(inner.xreplace({index: sp.Integer(k)})) for k in range(int(low), int(high) + 1)]
        return self.chain("add", terms) if terms else self.constant(0.0)


def _negative(term: sp.Expr) -> bool:
    return bool(term.as_coeff_Mul()[0].is_negative)
