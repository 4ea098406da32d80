"""The units in which a line of numbers is worked: in them the bare numbers follow the formula, on any calculator."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from math import isclose

from kit.core.model import Calculation, Given, Relation
from kit.core.model.steps import PutIn
from kit.core.quantity import Display, Unit
from kit.core.quantity.display import System, home
from kit.core.quantity.units import compose, unit

HALF_TURN_TEXT = "180°"
"""How π is written where a line is worked in degrees."""

_LENGTHS: dict[System, tuple[str, ...]] = {"mm": ("mm", "m"), "in": ("in", "ft")}
_WEIGHTS: dict[System, tuple[str, ...]] = {"mm": ("N", "kg"), "in": ("lbf", "lb")}
_TIMES = ("s", "min")
_MASS, _FORCE, _STRESS = (0, 1, 0, 0), (1, 1, -2, 0), (-1, 1, -2, 0)
_OF_MASS = {_MASS: (0, 0), _FORCE: (-1, 2), _STRESS: (1, 2)}  # powers of length and time that make each a mass
_UGLY = 1.5  # conversions: what one to a unit of three factors, such as N·h²/m⁴, costs more than one to a plain unit
_BACK = 0.2  # conversions: what one of the result costs more


@dataclass(frozen=True, slots=True)
class LineUnits:
    """The unit of each quantity of a line by name, and the template of the formula as it is written in them."""

    units: Mapping[str, Unit]
    template: str


def shown_unit(part: Given | Relation, display: Display | None) -> Unit:
    """Return the unit in which a reader sees a quantity."""
    return (display or home(part.unit)).unit_for(part.unit)


def line_units(model: Calculation, name: str, formula: PutIn, display: Display | None) -> LineUnits:
    """Return the units for the line of numbers of the relation `name`, whose `formula` is of the cases that apply.

    Of all coherent sets of units, the one is taken in which the fewest quantities need a conversion. A line is worked
    in degrees where it can be.
    """
    parts = (*(model.part(each) for each in formula.names), model.relations[name])
    shown = tuple((part.name, shown_unit(part, display)) for part in parts)
    system = (display or home(model.relations[name].unit)).system
    return _chosen(shown, name, formula.template, formula.degrees, formula.alone == "symbol", system)


@lru_cache(maxsize=4096)
def _chosen(
    named: tuple[tuple[str, Unit], ...], name: str, template: str, degrees: str, lone: bool, system: System
) -> LineUnits:
    shown = dict(named)
    if lone and len({of.text for of in shown.values()}) == 1:  # the same quantity by another name
        return LineUnits(shown, template)
    best: tuple[float, LineUnits] | None = None
    angles = ("deg", "rad") if degrees else ("rad",)
    for length, weight, time, angle in product(*_bases(shown.values(), system), angles):
        units = {key: _coherent(of, length, weight, time, angle) for key, of in shown.items()}
        cost = sum(_cost(units[key]) for key, of in shown.items() if units[key] is not of)
        cost += _BACK * (units[name] is not shown[name])
        if best is None or cost < best[0] - 1e-9:
            best = cost, LineUnits(units, degrees if angle == "deg" else template)
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
