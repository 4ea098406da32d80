"""Equations as written: of expressions or of matrices, decided by nobody."""

from __future__ import annotations

import sympy as sp

from kit.core.model.terms import ModelError


def sides(equation: sp.Equality) -> list[tuple[sp.Expr, sp.Expr]]:
    """Return the pairs of scalars that an equation of expressions or of matrices sets equal.

    Raises:
        ModelError: the two sides have different shapes.
    """
    left, right = equation.lhs, equation.rhs
    shapes = [side.shape if getattr(side, "is_Matrix", False) else () for side in (left, right)]
    if shapes[0] != shapes[1]:
        words = " and ".join(f"{s[0]} × {s[1]}" if s else "a plain expression" for s in shapes)
        raise ModelError(f"an equation sets {words} equal; both sides must have one shape")
    return list(zip(sp.Matrix(left), sp.Matrix(right), strict=True)) if shapes[0] else [(left, right)]


def equal(left: sp.Basic, right: sp.Basic) -> sp.Equality:
    """Return the equation of two expressions or two matrices as written, for a line of a derivation."""
    return sp.Eq(left, right, evaluate=False)
