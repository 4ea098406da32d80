"""Whether a formula can be worked in degrees: where angles stand alone in sines and the like, or are what comes out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

import sympy as sp

if TYPE_CHECKING:
    from kit.core.model.calculation import Calculation
    from kit.core.model.terms import Relation

TURN = sp.Symbol("half turn", positive=True)
"""Stands for π where a formula is worked in degrees."""
_TURNING = (sp.sin, sp.cos, sp.tan, sp.cot)
_TURNED = (sp.atan, sp.asin, sp.acos, sp.atan2)
_KEEPING = (sp.Add, sp.Max, sp.Min, sp.Abs, sp.Mod)


class _MixedError(Exception):
    """Angles and plain numbers stand together, so that degrees would not do."""


def in_degrees(model: Calculation, relation: Relation, expr: sp.Expr) -> sp.Expr | None:
    """Return what a relation is, as it is worked in degrees, with `TURN` for π if need be; None if radians must be."""
    angles = {part.symbol: part.unit.angle for part in model.parts.values()} | {TURN: 1}
    for form in (expr, expr.xreplace({sp.pi: TURN})):
        try:
            power = _angle_power(form, angles)
        except _MixedError:
            continue
        if power is None or power == relation.unit.angle:
            return form
    return None


def _angle_power(expr: sp.Basic, angles: Mapping[sp.Symbol, int]) -> float | None:
    """Return the power of an angle that an expression is; None for zero, which is any."""
    if expr.is_Symbol:
        return angles.get(expr, 0)
    if expr.is_zero and expr.is_number:
        return None
    if not expr.args:
        return 0
    powers = [_angle_power(arg, angles) for arg in expr.args if not isinstance(arg, sp.Tuple)]
    known = [power for power in powers if power is not None]
    if isinstance(expr, _KEEPING):
        return _same(known)
    if isinstance(expr, sp.Mul):
        return None if len(known) < len(powers) else sum(known)
    if isinstance(expr, sp.Pow):
        if powers[0] and expr.exp.is_number:
            return float(powers[0] * expr.exp)
        return _same([*known, 0])
    if isinstance(expr, _TURNING):
        _same([*known, 1])
        return 0
    if isinstance(expr, _TURNED):
        if not isinstance(expr, sp.atan2):
            known.append(0)
        _same(known)
        return 1
    if isinstance(expr, sp.Sum):
        return known[0] if known else None
    return _same([*known, 0])


def _same(powers: list[float]) -> float | None:
    if len(set(powers)) > 1:
        raise _MixedError
    return powers[0] if powers else None
