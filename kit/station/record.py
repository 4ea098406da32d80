"""Lists, order of work, comparison, what was measured and a shop's record as plain data, for other programs.

The layout is promised, as that of `kit.core.record`: each number stands in the unit named beside it, or in the one that
its head names; what is unknown is None.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from kit.core.quantity import Unit, unit
from kit.core.record import plain

if TYPE_CHECKING:
    from kit.core.lists import Setting
    from kit.core.uncertainty.beside import Alone
    from kit.station.as_built import AsBuilt, Measured
    from kit.station.compare import Comparison
    from kit.station.lists import Bought, StationLists
    from kit.station.order import Order, Step
    from kit.station.shop import Shop, Spread

_KILOGRAM, _HOUR = unit("kg"), unit("h")


def listed(found: StationLists) -> dict[str, Any]:
    """Return the lists of a job: masses in kg, sides and centers in mm, costs in the currency of the prices."""
    return {
        "mass": _in(_KILOGRAM, found.mass),
        "cost": found.cost,
        "station": {
            "mass": _in(_KILOGRAM, found.whole.mass),
            "center": _sides(found.whole.center),
            "counted": list(found.whole.counted),
            "missing": [{"part": id, "why": why} for id, why in found.whole.missing.items()],
        },
        "weights": [
            {"part": id, "mass": _in(_KILOGRAM, each.mass), "center": _sides(each.center), "lifted": each.lifted}
            for id, each in found.weights.items()
        ],
        "needs": [_need(each) for each in found.needs],
        "pieces": [
            {"part": id, "name": each.name, "count": each.count, "sides": _sides(each.sides), "of": each.of}
            for id, each in found.pieces
        ],
        "settings": [{"part": id} | _setting(each) for id, each in found.settings],
        "open": list(found.open),
    }


def _sides(sides: Sequence[float] | None) -> list[float] | None:
    return None if sides is None else [plain(each) for each in sides]


def _need(bought: Bought) -> dict[str, Any]:
    need = bought.need
    return {
        "name": need.name,
        "amount": _in(unit(need.unit), need.amount) if need.unit else plain(need.amount),
        "unit": need.unit,
        "sides": _sides(need.sides),
        "cost": need.cost,
        "parts": list(bought.parts),
    }


def _setting(each: Setting) -> dict[str, Any]:
    values = [{"name": name, "value": _in(unit(of), base), "unit": of} for name, base, of in each.values]
    return {"machine": each.machine, "values": values, "cuts": list(each.cuts)}


def ordered(order: Order) -> dict[str, Any]:
    """Return an order of work; times in h, those of day and night from the morning of the first day."""
    return {
        "work": _in(_HOUR, order.work),
        "ready": _in(_HOUR, order.ready),
        "shortest": _in(_HOUR, order.shortest),
        "longest": _in(_HOUR, order.longest),
        "steps": [_step(each, order) for each in order.steps],
        "faults": list(order.faults),
    }


def _step(step: Step, order: Order) -> dict[str, Any]:
    told = asdict(step.task) | {"after": list(step.task.after), "critical": step.task.name in order.critical}
    times = {name: told[name] for name in ("takes", "half", "dry")}
    times |= {"begin": step.begin, "end": step.end, "ready": step.ready}
    return told | {name: _in(_HOUR, time) for name, time in times.items()}


def compared(found: Comparison) -> dict[str, Any]:
    """Return what differs between two jobs, in the texts that a reader sees."""
    return asdict(found)


def measured(found: AsBuilt) -> dict[str, Any]:
    """Return what was measured beside what is predicted, and what cannot be compared."""
    return {"results": [_measured(each) for each in found.found], "faults": list(found.faults)}


def _measured(each: Measured) -> dict[str, Any]:
    beside, of = each.beside, each.result.unit
    return {
        "part": each.part,
        "result": each.result.name,
        "unit": of.text,
        "predicted": {"value": _in(of, beside.predicted.base), "half": _over(beside.predicted.expanded, of)},
        "measured": {"value": _in(of, beside.measured), "half": _over(beside.expanded, of)},
        "off": _over(beside.off, of),
        "normalized": _known(beside.normalized),
        "agree": beside.agree,
        "explained": [_alone(alone) for alone in beside.explained],
        "origin": each.origin.record(),
    }


def _alone(alone: Alone) -> dict[str, Any]:
    given = alone.entry.given
    return {"given": given.name, "off": _over(alone.off, given.unit), "unit": given.unit.text, "chance": alone.chance}


def kept(shop: Shop) -> dict[str, Any]:
    """Return a shop's record with what its spreads are worth."""
    return {"spreads": [_spread(each) for each in shop.spreads.values()]}


def _spread(spread: Spread) -> dict[str, Any]:
    worth = {"mean": spread.mean, "deviation": spread.deviation, "u": spread.u}
    if spread.dof:
        worth["half"] = spread.half
    return {
        "name": spread.name,
        "unit": spread.unit.text,
        "half": None,
        "dof": spread.dof,
        **{name: _over(base, spread.unit) for name, base in worth.items()},
        "words": spread.words(),
        "entries": [asdict(each) | {"off": _over(each.off, spread.unit)} for each in spread.entries],
    }


def _in(of: Unit, base: float) -> float:
    return plain(of.from_base(base))


def _over(difference: float, of: Unit) -> float | None:
    """Return a difference (base units) in a unit: of a temperature without its zero."""
    return _known(difference / of.factor)


def _known(value: float) -> float | None:
    return plain(value) if math.isfinite(value) else None
