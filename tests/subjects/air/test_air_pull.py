"""The sag and pull of cloth against arcs solved numerically."""

from math import sin, tan

import pytest
from scipy.optimize import brentq

from kit.subjects import model

PULL = model("air.pull")


def arc(v: dict[str, float]) -> tuple[float, float]:
    """Return sagitta and pull of the arc that slack and stretch allow under the suction: pressure times radius."""

    def lacking(half: float) -> float:
        radius = v["span"] / 2 / sin(half)
        longer = (1 + v["slack"]) * (1 + v["suction"] * radius / v["stiffness"])
        return half / sin(half) - longer

    half = brentq(lacking, 1e-5, 1.5)
    return v["span"] / 2 * tan(half / 2), v["suction"] * v["span"] / 2 / sin(half)


@pytest.mark.parametrize("slack", ["0.01 %", "0.2 %", "1 %", "3 %"])
@pytest.mark.parametrize("stiffness", ["20 N/mm", "150 N/mm", "2000 N/mm"])
@pytest.mark.parametrize("suction", ["200 Pa", "2000 Pa"])
def test_sag_and_pull_are_those_of_the_arc(slack: str, stiffness: str, suction: str) -> None:
    """A flat parabola against an arc, both as a series in f, sag over span: 1 - 4 f² of the pull at the same sag, and
    1 - 0.8 f² of the length beyond the chord. Where stretch decides, its cubic makes 1.6 f² of the sag of both."""
    case = PULL.at(slack=slack, stiffness=stiffness, suction=suction)
    sag, pull = arc(dict(case.base))
    flat = case.base["sag"] / case.base["span"]
    assert flat < 0.2
    assert case.base["sag"] == pytest.approx(sag, rel=1.8 * flat**2)
    assert case.base["pull"] == pytest.approx(pull, rel=4.2 * flat**2)


def test_what_hangs_in_too_far_is_not_green() -> None:
    case = PULL.at(slack="15 %", span="400 mm")
    assert {check.name for check in case.checks if not check.ok} >= {"left", "flat"}
