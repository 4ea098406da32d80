"""Staples by a nail's yield in the standard, and what must not be green."""

import math
from math import sqrt

import pytest

from kit.core.quantity import Display
from kit.drawing.primitives import Arrow
from kit.subjects import model, subject

CLOTH = model("fastening.cloth")


@pytest.mark.parametrize("wire", ["0.9 mm", "1.6 mm"])
@pytest.mark.parametrize("gravity", ["0.35", "0.63"])
def test_a_leg_bends_as_a_nail_in_a_side_member_of_no_thickness(wire: str, gravity: str) -> None:
    """NDS-2018, table 12.3.1A, mode III s, k3 D ls Fem/(2 + Re), for a side member so thin that it holds no moment and
    so hard that it is not crushed: only the hinge in the wood counts."""
    v = CLOTH.at(wire=wire, gravity=gravity).base
    D, Fem, Fyb = v["wire"], v["bearing"] / v["wire"], v["bend_yield"]
    ls, Fes = 1e-6, 1e6 * Fem
    Re = Fem / Fes
    k3 = -1 + sqrt(2 * (1 + Re) / Re + 2 * Fyb * (2 + Re) * D**2 / (3 * Fem * ls**2))
    assert v["across"] == pytest.approx(2 * k3 * D * ls * Fem / (2 + Re), rel=1e-3)


@pytest.mark.parametrize(
    ("givens", "name"),
    [
        ({"pull": "8 N/mm"}, "apart"),
        ({"depth": "3 mm", "wire": "2 mm"}, "deep"),
        ({"thread": "3 N"}, "seam"),
        ({"strength": "1 N/mm"}, "cloth"),
    ],
)
def test_what_cannot_hold_fails(givens: dict[str, str], name: str) -> None:
    checks = {check.name: check.ok for check in CLOTH.at(**givens).checks}
    assert not checks[name]


def test_the_cloth_tears_before_a_thick_staple_bends() -> None:
    thick = CLOTH.at(wire="2 mm", strength="4 N/mm")
    assert thick.base["staple"] == pytest.approx(thick.base["tear"] / thick.base["safety"])


@pytest.mark.parametrize("way", ["across the legs", "along the legs"])
def test_the_figure_pulls_the_staple_the_way_that_is_said(way: str) -> None:
    case = model("fastening.cloth").at(way=way)
    section = subject("fastening.cloth").draw(case.base, Display()).views[1]
    (arrow,) = (each for each in section.items if isinstance(each, Arrow))
    assert (arrow.angle == math.pi) is way.startswith("across")
    assert way in section.caption.replace("its", "the")
