"""What must be improved: put back into the budget, each answer gives just the target."""

import math

import pytest
from scipy.optimize import brentq

from kit.core.errors import KitError
from kit.core.model import Model
from kit.core.uncertainty import budget, needed
from tests.core.uncertainty.test_worst_case import stack


def halves(model: Model) -> dict[str, float]:
    return {name: entry.spread.half for name, entry in model.at().entries.items()}


def expanded(model: Model, changed: dict[str, float]) -> float:
    return budget(model.at(**{n: f"10 ± {h!r} mm" for n, h in (halves(model) | changed).items()}), "gap").expanded


MODEL = stack(0.6, 0.45, 0.2, 0.1, signs=(2, -1, 1, 3))


def test_by_hand() -> None:
    """Standard uncertainties 4, 3 and nothing else make 5; for 4 the first may keep √(16 - 9), the second nothing."""
    model = stack(4 * math.sqrt(3), 3 * math.sqrt(3))
    found = budget(model.at(), "gap")
    first, second = needed(found, 2 * (4 + 1e-12)).rows
    assert first.u == pytest.approx(math.sqrt(7), rel=1e-9)
    assert second.u == pytest.approx(0, abs=1e-5)
    assert [row.factor for row in needed(found, 2 * 2.9).rows] == [None, None]
    assert needed(found, 2 * 2.9).cap == pytest.approx(2.9 / math.sqrt(2), rel=1e-12)


@pytest.mark.parametrize("part", [0.99, 0.9, 0.6])
def test_each_alone_meets_the_wish(part: float) -> None:
    found = budget(MODEL.at(), "gap")
    target = part * found.expanded
    rows = needed(found, target).rows
    assert [row.entry.given.name for row in rows] == ["x0", "x1", "x3", "x2"]
    for row in rows:
        name, half = row.entry.given.name, row.entry.spread.half
        if row.half is None:
            assert expanded(MODEL, {name: 0.0}) > target
        else:
            by_search = brentq(lambda h, name=name: expanded(MODEL, {name: h}) - target, 0, half)
            assert row.half == pytest.approx(by_search, rel=1e-6)


@pytest.mark.parametrize("part", [0.95, 0.7, 0.4, 0.05])
def test_the_largest_together_meet_the_wish(part: float) -> None:
    found = budget(MODEL.at(), "gap")
    plan = needed(found, part * found.expanded)
    assert expanded(MODEL, {row.entry.given.name: row.half or 0.0 for row in plan.together}) == pytest.approx(
        part * found.expanded, rel=1e-9
    )
    touched = {row.entry.given.name for row in plan.together}
    for row in found.rows:  # none that stays is larger than the cap to which the others shrink
        assert (row.contribution > plan.cap) == (row.entry.given.name in touched)


def test_a_wish_that_is_met_asks_for_nothing() -> None:
    found = budget(MODEL.at(), "gap")
    plan = needed(found, 1.1 * found.expanded)
    assert plan.together == ()
    assert all(row.factor == 1 for row in plan.rows)


@pytest.mark.parametrize("target", [0.0, -1.0, math.nan])
def test_an_impossible_target(target: float) -> None:
    with pytest.raises(KitError, match="cannot be met; give a number above 0"):
        needed(budget(MODEL.at(), "gap"), target)
