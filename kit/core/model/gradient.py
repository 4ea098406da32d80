"""Sensitivities: the partial derivatives of a result, symbolic per relation and chained in numbers."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache
from typing import TYPE_CHECKING

import sympy as sp

from kit.core.model.codegen import function
from kit.core.model.compiled import NoValueError
from kit.core.model.terms import in_words

if TYPE_CHECKING:
    from kit.core.model.statement import Statement
    from kit.core.model.terms import Relation

_STEPS = (sp.ceiling, sp.floor, sp.sign)


def partial(expr: sp.Expr, symbol: sp.Symbol) -> sp.Expr:
    """Return the derivative of one relation, with the steps of ceilings, signs and their like as flat.

    By a whole number it is 0: a count does not move a little.
    """
    if symbol.is_integer:
        return sp.Integer(0)
    if expr.has(sp.Mod):
        expr = expr.replace(sp.Mod, lambda a, b: a - b * sp.floor(a / b))
    steps = {step: sp.Dummy(real=True) for step in expr.atoms(*_STEPS)}
    back = {dummy: step for step, dummy in steps.items()}
    slope = expr.xreplace(steps).diff(symbol).xreplace(back)
    if any(not power.exp.is_number for power in slope.atoms(sp.Pow)):
        slope = sp.powsimp(slope, deep=True)  # n·x^n/x has no value at x = 0, n·x^(n-1) has
    return slope


@lru_cache(maxsize=2048)  # the results of a model share most of their relations
def _partials(model: Statement, relation: Relation) -> tuple[tuple[sp.Symbol, ...], Callable[..., list[float]]]:
    """Return the symbols in a relation, and its derivatives by them as a function of all of the model's values."""
    inner = tuple(sorted(relation.expr.free_symbols, key=str))
    arguments = [part.symbol for part in model.parts.values()]
    return inner, function(arguments, [partial(relation.expr, symbol) for symbol in inner], "math")


class Gradient:
    """The derivatives of one result by every given, at any point."""

    def __init__(self, model: Statement, result: str) -> None:
        self.model = model
        self.symbol = model.part(result).symbol
        self.chain = model.needed([self.symbol])
        self._rows = [_partials(model, relation) for relation in self.chain]

    def at(self, value: Mapping[str, float]) -> dict[str, float]:
        """Return d(result)/d(given) for each given that the result rests on, in base units.

        `value` holds every symbol's value, as a case does.

        Raises:
            NoValueError: a derivative does not exist here, as that of a root at zero.
        """
        numbers = tuple(value.values())
        try:
            found = [derivatives(*numbers) for _, derivatives in self._rows]
        except (ValueError, ZeroDivisionError, OverflowError):
            name = in_words(self.symbol.name)
            raise NoValueError(
                f"{name} has no slope at this point, hence no first-order uncertainty; "
                "move a given a little, or use Monte Carlo"
            ) from None
        slopes: dict[sp.Symbol, dict[str, float]] = {
            given.symbol: {given.name: 1.0} for given in self.model.givens.values()
        }
        for relation, (symbols, _), row in zip(self.chain, self._rows, found, strict=True):
            total: dict[str, float] = {}
            for symbol, slope in zip(symbols, row, strict=True):
                for name, upstream in slopes[symbol].items():
                    total[name] = total.get(name, 0.0) + float(slope) * upstream
            slopes[relation.symbol] = total
        return slopes[self.symbol]
