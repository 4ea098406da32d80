"""Sensitivities: the partial derivatives of a result, symbolic per relation and chained in numbers."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

import sympy as sp

from kit.model.code import function
from kit.model.compiled import NoValueError

if TYPE_CHECKING:
    from kit.model.statement import Model

_STEPS = (sp.ceiling, sp.floor, sp.sign)


def partial(expr: sp.Expr, symbol: sp.Symbol) -> sp.Expr:
    """Return the derivative of one relation, with the steps of ceilings, signs and their like as flat."""
    expr = expr.replace(sp.Mod, lambda a, b: a - b * sp.floor(a / b))
    steps = {step: sp.Dummy(real=True) for step in expr.atoms(*_STEPS)}
    back = {dummy: step for step, dummy in steps.items()}
    return expr.xreplace(steps).diff(symbol).xreplace(back)


class Gradient:
    """The derivatives of one result by every given, at any point."""

    def __init__(self, model: Model, result: str) -> None:
        self.model = model
        self.symbol = model.part(result).symbol
        self.chain = model.needed([self.symbol])
        self.partials = [
            [(inner, partial(relation.expr, inner)) for inner in sorted(relation.expr.free_symbols, key=str)]
            for relation in self.chain
        ]
        self._function = self._compile()

    def _compile(self) -> Callable[..., list[float]]:
        arguments = [part.symbol for part in self.model._parts.values()]
        flat = [derivative for row in self.partials for _, derivative in row]
        return function(arguments, flat, "math")

    def at(self, value: Mapping[str, float]) -> dict[str, float]:
        """Return d(result)/d(given) for each given that the result rests on, in base units.

        `value` holds every symbol's value, as a case does.

        Raises:
            NoValueError: a derivative does not exist here, as that of a root at zero.
        """
        try:
            numbers = iter(self._function(*value.values()))
        except (ValueError, ZeroDivisionError, OverflowError):
            name = self.symbol.name.replace("_", " ")
            raise NoValueError(
                f"{name} has no slope at this point, hence no first-order uncertainty; "
                "move a given a little, or use Monte Carlo"
            ) from None
        slopes: dict[sp.Symbol, dict[str, float]] = {
            given.symbol: {given.name: 1.0} for given in self.model.givens.values()
        }
        for relation, row in zip(self.chain, self.partials, strict=True):
            total: dict[str, float] = {}
            for inner, _ in row:
                slope = float(next(numbers))
                for name, upstream in slopes[inner].items():
                    total[name] = total.get(name, 0.0) + slope * upstream
            slopes[relation.symbol] = total
        return slopes[self.symbol]
