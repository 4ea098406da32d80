"""Turning a formula round in closed form: which values of an unknown give a wanted result."""

from __future__ import annotations

from collections.abc import Iterator

import sympy as sp

LARGEST = 200  # operations; a longer formula is no use to a reader
_LARGEST_POLYNOMIAL = 40  # operations that are multiplied out in good time


def isolate(expr: sp.Expr, unknown: sp.Symbol, target: sp.Expr) -> list[sp.Expr]:
    """Return every branch of the solution of ``expr = target`` for `unknown`, or [] if there is no closed form.

    The unknown is peeled free one operation at a time; where it stands in several places, the equation is
    tried as a polynomial of degree one or two. A branch may be false at a given point (squares, arcs):
    the caller checks each one.
    """
    if expr.count_ops() > LARGEST:
        return []
    return list(dict.fromkeys(_peel(expr, unknown, target)))


def _peel(expr: sp.Expr, unknown: sp.Symbol, target: sp.Expr) -> Iterator[sp.Expr]:
    if expr == unknown:
        yield target
        return
    holding = [arg for arg in expr.args if arg.has(unknown)]
    if len(holding) != 1:
        yield from _polynomial(expr, unknown, target)
        return
    inner = holding[0]
    for rest in _undo(expr, inner, target):
        yield from _peel(inner, unknown, rest)


def _undo(expr: sp.Expr, inner: sp.Expr, target: sp.Expr) -> list[sp.Expr]:
    """Return the values that `inner`, an argument of `expr`, takes where `expr` equals `target`."""
    if isinstance(expr, sp.Add):
        return [target - (expr - inner)]
    if isinstance(expr, sp.Mul):
        return [target / (expr / inner)]
    if isinstance(expr, sp.Pow):
        if inner != expr.base:
            return [sp.log(target) / sp.log(expr.base)]
        return _roots(target, expr.exp)
    turn = 2 * sp.pi  # of angles, those within a full turn either way
    if isinstance(expr, sp.sin):
        arc = sp.asin(target)
        return [arc, sp.pi - arc, arc + turn, arc - turn, -sp.pi - arc]
    if isinstance(expr, sp.cos):
        arc = sp.acos(target)
        return [arc, -arc, turn - arc, arc - turn]
    if isinstance(expr, sp.tan):
        arc = sp.atan(target)
        return [arc, arc + sp.pi, arc - sp.pi, arc + turn, arc - turn]
    if isinstance(expr, sp.atan2):
        y, x = expr.args
        return [x * sp.tan(target)] if inner == y else [y / sp.tan(target)]
    if isinstance(expr, sp.Abs):
        return [target, -target]
    inverse = getattr(expr, "inverse", None)
    if inverse is not None and len(expr.args) == 1:
        return [inverse()(target)]
    return []


def _roots(target: sp.Expr, exponent: sp.Expr) -> list[sp.Expr]:
    """Return the real numbers that `exponent` raises to `target`; one of them may not be real at a point."""

    def root(of: sp.Expr) -> sp.Expr:
        return (1 / of) ** (-1 / exponent) if exponent.could_extract_minus_sign() else of ** (1 / exponent)

    if not exponent.is_Rational:
        return [root(target)]
    if int(exponent.p) % 2 == 0:
        return [root(target), -root(target)]
    return [root(target), -root(-target)] if int(exponent.q) % 2 else [root(target)]


def _polynomial(expr: sp.Expr, unknown: sp.Symbol, target: sp.Expr) -> Iterator[sp.Expr]:
    if expr.count_ops() > _LARGEST_POLYNOMIAL or expr.has(sp.Piecewise, sp.Min, sp.Max, sp.ceiling, sp.floor, sp.Abs):
        return
    numerator, _ = sp.fraction(sp.together(expr - target))
    polynomial = numerator.expand().as_poly(unknown)
    if polynomial is None or any(c.has(unknown) for c in polynomial.all_coeffs()):
        return
    coefficients = [sp.factor(c) for c in polynomial.all_coeffs()]
    if len(coefficients) == 2:
        a, b = coefficients
        yield -b / a
    elif len(coefficients) == 3:
        a, b, c = coefficients
        root = sp.sqrt(b**2 - 4 * a * c)
        yield (-b + root) / (2 * a)
        yield (-b - root) / (2 * a)
