"""The dimension of a formula, found by walking it once when a model is stated."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction

import sympy as sp
from sympy.functions.elementary.piecewise import ExprCondPair
from sympy.logic.boolalg import BooleanFunction

from kit.core.errors import KitError

Dim = tuple[Fraction | int, ...]
NONE: Dim = (0, 0, 0, 0)
_NAMES = ("length", "mass", "time", "temperature")
_DIMENSIONLESS = (
    sp.sin,
    sp.cos,
    sp.tan,
    sp.cot,
    sp.sec,
    sp.csc,
    sp.asin,
    sp.acos,
    sp.atan,
    sp.exp,
    sp.log,
    sp.sinh,
    sp.cosh,
    sp.tanh,
    sp.erf,
    sp.ceiling,
    sp.floor,
)
_FITS_ALL = (sp.S.Zero, sp.oo, -sp.oo)  # as written: to ask what else is zero starts a long search at every node
_SAME = (sp.Add, sp.Min, sp.Max, sp.Mod)


class DimensionError(KitError):
    """The two sides of a relation, or the terms of a sum, do not have the same dimension."""


def words(dim: Dim) -> str:
    """Return a dimension as people read it, such as ``length^2·mass/time^2``."""

    def powers(sign: int) -> list[str]:
        parts = [(name, sign * power) for name, power in zip(_NAMES, dim, strict=True)]
        return [name if power == 1 else f"{name}^{power}" for name, power in parts if power > 0]

    above, below = powers(1), powers(-1)
    if not above and not below:
        return "a plain number"
    return "·".join(above or ["1"]) + "".join(f"/{part}" for part in below)


def dimension(expr: sp.Basic, known: Mapping[sp.Symbol, Dim]) -> Dim | None:
    """Return the dimension of `expr`, or None for zero and infinities, which fit any dimension.

    Raises:
        DimensionError: terms that are added, compared or put into a function do not fit.
    """
    return _Walker(dict(known)).of(expr)


class _Walker:
    def __init__(self, known: dict[sp.Symbol, Dim]) -> None:
        self.known = known

    def of(self, expr: sp.Basic) -> Dim | None:
        if isinstance(expr, sp.Symbol):
            if expr not in self.known:
                raise DimensionError(f"the symbol {expr} is not a given or relation of this model")
            return self.known[expr]
        if expr in _FITS_ALL:
            return None
        if isinstance(expr, sp.Number | sp.NumberSymbol):
            return NONE
        if isinstance(expr, sp.Mul):
            return self._product(expr.args)
        if isinstance(expr, sp.Pow):
            return self._power(expr)
        if isinstance(expr, _SAME):
            return self._same(expr.args, expr)
        if isinstance(expr, sp.Abs):
            return self.of(expr.args[0])
        if isinstance(expr, sp.sign):
            self.of(expr.args[0])
            return NONE
        if isinstance(expr, sp.atan2 | sp.Rel):
            self._same(expr.args, expr)
            return NONE
        if isinstance(expr, _DIMENSIONLESS):
            self._plain(expr.args[0], expr)
            return NONE
        if isinstance(expr, sp.Piecewise):
            for pair in expr.args:
                self.of(pair.cond)
            return self._same([pair.expr for pair in expr.args], expr)
        if isinstance(expr, ExprCondPair):
            return self.of(expr.expr)
        if isinstance(expr, BooleanFunction):
            for arg in expr.args:
                self.of(arg)
            return NONE
        if expr in (sp.true, sp.false):
            return NONE
        if isinstance(expr, sp.Integral | sp.Sum):
            return self._integral(expr)
        if isinstance(expr, sp.Derivative):
            return self._derivative(expr)
        raise DimensionError(f"the dimension of {type(expr).__name__} in {expr} is not known to the kit")

    def _product(self, args: Iterable[sp.Basic]) -> Dim | None:
        total = NONE
        for arg in args:
            dim = self.of(arg)
            if dim is None:
                return None
            total = tuple(a + b for a, b in zip(total, dim, strict=True))
        return total

    def _power(self, expr: sp.Pow) -> Dim | None:
        base, exponent = self.of(expr.base), expr.exp
        if base is None:
            return None
        if base == NONE:
            self._plain(exponent, expr)
            return NONE
        if not isinstance(exponent, sp.Rational):
            raise DimensionError(f"{expr} raises {words(base)} to a power that is not a fixed fraction")
        power = Fraction(int(exponent.p), int(exponent.q))
        return tuple(part * power for part in base)

    def _same(self, args: Iterable[sp.Basic], whole: sp.Basic) -> Dim | None:
        found: Dim | None = None
        first: sp.Basic | None = None
        for arg in args:
            dim = self.of(arg)
            if dim is None:
                continue
            if found is None:
                found, first = dim, arg
            elif dim != found:
                raise DimensionError(
                    f"in {whole}: {first} is {words(found)}, but {arg} is {words(dim)}; they cannot stand together"
                )
        return found

    def _plain(self, arg: sp.Basic, whole: sp.Basic) -> None:
        dim = self.of(arg)
        if dim is not None and dim != NONE:
            raise DimensionError(f"in {whole}: {arg} is {words(dim)}, but must be a plain number or an angle")

    def _integral(self, expr: sp.Integral | sp.Sum) -> Dim | None:
        inner = _Walker(dict(self.known))
        scale: list[Dim] = []
        for variable, *bounds in expr.limits:
            dim = self._same(bounds, expr) or NONE
            inner.known[variable] = dim
            scale.append(dim if isinstance(expr, sp.Integral) else NONE)
        dim_inside = inner.of(expr.function)
        if dim_inside is None:
            return None
        return tuple(sum(powers) for powers in zip(dim_inside, *scale, strict=True))

    def _derivative(self, expr: sp.Derivative) -> Dim | None:
        dim = self.of(expr.expr)
        for variable, count in expr.variable_count:
            below = self.of(variable)
            if dim is None or below is None:
                return None
            dim = tuple(a - int(count) * b for a, b in zip(dim, below, strict=True))
        return dim
