"""The units in which a line of numbers is worked: in them the bare numbers follow the formula, on any calculator."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from math import isclose

import sympy as sp

from kit.core.model import Given, Relation, Statement, slot
from kit.core.quantity import Display, Unit
from kit.core.quantity.display import System, home
from kit.core.quantity.units import compose, unit

#: What π is called where a line is worked in degrees, and how it is then written.
HALF_TURN, HALF_TURN_TEXT = "half_turn", "180°"
_HALF_TURN = sp.Symbol(slot(HALF_TURN), positive=True)

_LENGTHS: dict[System, tuple[str, ...]] = {"mm": ("mm", "m"), "in": ("in", "ft")}
_WEIGHTS: dict[System, tuple[str, ...]] = {"mm": ("N", "kg"), "in": ("lbf", "lb")}
_TIMES = ("s", "min")
_MASS, _FORCE, _STRESS = (0, 1, 0, 0), (1, 1, -2, 0), (-1, 1, -2, 0)
_OF_MASS = {_MASS: (0, 0), _FORCE: (-1, 2), _STRESS: (1, 2)}  # powers of length and time that make each a mass
_UGLY = 1.5  # conversions: what one to a unit of three factors, such as N·h²/m⁴, costs more than one to a plain unit
_BACK = 0.2  # conversions: what one of the result costs more


@dataclass(frozen=True, slots=True)
class LineUnits:
    """The unit of each quantity of a line by name, and the expression as it is written in them."""

    units: Mapping[str, Unit]
    expr: sp.Expr


def shown_unit(part: Given | Relation, display: Display | None) -> Unit:
    """Return the unit in which a reader sees a quantity."""
    return (display or home(part.unit)).unit_for(part.unit)


@lru_cache(maxsize=4096)
def line_units(model: Statement, name: str, expr: sp.Expr, display: Display | None) -> LineUnits:
    """Return the units for the line of numbers of the relation `name`, whose case that applies is `expr`.

    Of all coherent sets of units, the one is taken in which the fewest quantities need a conversion. A line is worked
    in degrees where it can be: where angles stand alone in sines and the like, or are what comes out.
    """
    parts = [part for part in model.parts.values() if part.symbol in expr.free_symbols]
    parts.append(model.relations[name])
    shown = {part.name: shown_unit(part, display) for part in parts}
    if len({of.text for of in shown.values()}) == 1 and expr.is_Symbol:  # the same quantity by another name
        return LineUnits(shown, expr)
    in_degrees = _in_degrees(model, name, expr) if any(part.unit.angle for part in parts) else None
    best: tuple[float, LineUnits] | None = None
    system = (display or home(model.relations[name].unit)).system
    angles = ("deg", "rad") if in_degrees is not None else ("rad",)
    for length, weight, time, angle in product(*_bases(shown.values(), system), angles):
        units = {key: _coherent(of, length, weight, time, angle) for key, of in shown.items()}
        cost = sum(_cost(units[key]) for key, of in shown.items() if units[key] is not of)
        cost += _BACK * (units[name] is not shown[name])
        if best is None or cost < best[0] - 1e-9:
            best = cost, LineUnits(units, in_degrees if in_degrees is not None and angle == "deg" else expr)
    assert best is not None
    return best[1]


def _cost(of: Unit) -> float:
    return 1 + _UGLY * (len(of.parts) > 2)


def _bases(shown: Iterable[Unit], system: System) -> tuple[tuple[str, ...], ...]:
    """Return the units of length, of force or mass, and of time that a line may be worked in."""
    names = [name for of in shown for name, _ in of.parts]
    lengths = [name for name in names if unit(name).dim == (1, 0, 0, 0)]
    weights = [name for name in names if unit(name).dim in (_MASS, _FORCE, _STRESS)]
    times = [name for name in names if unit(name).dim == (0, 0, 1, 0)]
    return tuple(
        tuple(dict.fromkeys((*found, *more)))
        for found, more in ((lengths, _LENGTHS[system]), (weights, _WEIGHTS[system]), (times, _TIMES))
    )


def _coherent(of: Unit, length: str, weight: str, time: str, angle: str) -> Unit:
    """Return the coherent unit for a quantity that is shown in `of`: that very unit where they are the same."""
    along, mass, per_time, temperature = of.dim
    lengths, times = _OF_MASS[unit(weight).dim]
    powers = ((weight, mass), (length, along + lengths * mass), (time, per_time + times * mass))
    made = compose((*powers, ("K", temperature), (angle, of.angle)))
    return of if not of.offset and isclose(made.factor, of.factor, rel_tol=1e-12) else made


class _MixedError(Exception):
    """Angles and plain numbers stand together, so that degrees would not do."""


@lru_cache(maxsize=2048)
def _in_degrees(model: Statement, name: str, expr: sp.Expr) -> sp.Expr | None:
    """Return the expression to be worked in degrees, in which a half turn may stand for π; None where radians must."""
    angles = {part.symbol: part.unit.angle for part in model.parts.values()} | {_HALF_TURN: 1}
    for form in (expr, expr.xreplace({sp.pi: _HALF_TURN})):
        try:
            power = _angle_power(form, angles)
        except _MixedError:
            continue
        if power is None or power == model.relations[name].unit.angle:
            return form
    return None


_TURNING = (sp.sin, sp.cos, sp.tan, sp.cot)
_TURNED = (sp.atan, sp.asin, sp.acos, sp.atan2)
_KEEPING = (sp.Add, sp.Max, sp.Min, sp.Abs, sp.Mod)


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
