"""Vectors and expressions that several bevel models share.

Axes: x and y level, z up. A board's slope is measured from the horizontal; plan angles counterclockwise from x.
"""

from __future__ import annotations

import sympy as sp

from kit.core.model import equal


def outward(slope: sp.Expr, plan: sp.Expr) -> sp.Matrix:
    """Return the outward unit normal of a face that faces `plan` and stands at `slope` from the horizontal."""
    return sp.Matrix([sp.sin(slope) * sp.cos(plan), sp.sin(slope) * sp.sin(plan), sp.cos(slope)])


def seam_direction(slope: sp.Expr, miter: sp.Expr) -> sp.Matrix:
    """Return the corner line of a face that faces x: up the slope by 1 and back along the edge by tan(miter)."""
    return sp.Matrix([-sp.cos(slope), -sp.tan(miter), sp.sin(slope)])


def times(left: sp.Matrix, right: sp.Matrix, product: sp.Matrix) -> sp.Equality:
    """Return the equation left · right = product with the left side as written."""
    return equal(sp.MatMul(sp.ImmutableMatrix(left), sp.ImmutableMatrix(right), evaluate=False), product)


def dihedral(between_normals: sp.Expr) -> sp.Expr:
    """Return the inside angle of two faces from the scalar product of their outward normals."""
    return sp.pi - sp.acos(between_normals)


def corner_alignment(slope: sp.Expr, other: sp.Expr, turn: sp.Expr) -> sp.Expr:
    """Return the scalar product of the outward normals of two faces with a `turn` in plan between them."""
    return sp.sin(slope) * sp.sin(other) * sp.cos(turn) + sp.cos(slope) * sp.cos(other)


def corner_miter(slope: sp.Expr, other: sp.Expr, turn: sp.Expr) -> sp.Expr:
    """Return the miter from a square cut of the board with `slope` where it meets the `other`."""
    return sp.atan((sp.sin(slope) / sp.tan(other) - sp.cos(slope) * sp.cos(turn)) / sp.sin(turn))


def square_of(angle: sp.Expr) -> sp.Expr:
    """Return the same setting counted from the other zero: from vertical ↔ from the table."""
    return sp.pi / 2 - angle


def ring_miter(slope: sp.Expr, half_turn: sp.Expr) -> sp.Expr:
    """Return the miter from a square cut for boards of a regular splayed ring; `half_turn` is 180°/N."""
    return sp.atan(sp.cos(slope) * sp.tan(half_turn))


def ring_tilt(slope: sp.Expr, half_turn: sp.Expr) -> sp.Expr:
    """Return the blade tilt from vertical for mitered boards of a regular splayed ring."""
    return sp.asin(sp.sin(slope) * sp.sin(half_turn))
