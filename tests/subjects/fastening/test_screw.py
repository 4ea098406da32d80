"""Screws by the standard's own closed forms, and what must not be green."""

from math import sqrt

import pytest

from kit.subjects import model

SCREW = model("fastening.screw")
WAYS = ("crush_main", "crush_side", "turn", "bend_side", "bend_main", "bend_both")


def nds(v: dict[str, float]) -> list[float]:
    """Return the yield modes of NDS-2018, table 12.3.1A, single shear, before their reduction; no gap."""
    D, lm, ls, Fyb = v["root"], v["bearing_length"], v["side"], v["bend_yield"]
    Fem, Fes = v["main_bearing"] / D, v["side_bearing"] / D
    Re, Rt = Fem / Fes, lm / ls
    k1 = (sqrt(Re + 2 * Re**2 * (1 + Rt + Rt**2) + Rt**2 * Re**3) - Re * (1 + Rt)) / (1 + Re)
    k2 = -1 + sqrt(2 * (1 + Re) + 2 * Fyb * (1 + 2 * Re) * D**2 / (3 * Fem * lm**2))
    k3 = -1 + sqrt(2 * (1 + Re) / Re + 2 * Fyb * (2 + Re) * D**2 / (3 * Fem * ls**2))
    return [
        D * lm * Fem,
        D * ls * Fes,
        k1 * D * ls * Fes,
        k2 * D * lm * Fem / (1 + 2 * Re),
        k3 * D * ls * Fem / (2 + Re),
        D**2 * sqrt(2 * Fem * Fyb / (3 * (1 + Re))),
    ]


@pytest.mark.parametrize(("side", "length"), [("12 mm", "45 mm"), ("18 mm", "50 mm"), ("40 mm", "80 mm")])
@pytest.mark.parametrize(("main", "board"), [("0.67", "0.42"), ("0.36", "0.68"), ("0.5", "0.5")])
def test_the_six_ways_are_those_of_the_standard(side: str, length: str, main: str, board: str) -> None:
    v = dict(SCREW.at(side=side, length=length, main_gravity=main, side_gravity=board, gap="0 mm").base)
    assert [v[way] for way in WAYS] == pytest.approx(nds(v), rel=1e-9)


@pytest.mark.parametrize(
    ("diameter", "root", "bend", "table"),
    [("0.138 in", "0.113 in", "100000 psi", 2.2), ("0.216 in", "0.171 in", "80000 psi", 2.21)],
)
def test_the_reduction_by_the_root(diameter: str, root: str, bend: str, table: float) -> None:
    """NDS-2018, table 12.3.1B: 2.2 up to 0.17 in, 10 D + 0.5 beyond, of the root."""
    assert SCREW.at(diameter=diameter, root=root, bend_yield=bend).base["reduction"] == pytest.approx(table)


def test_a_gap_weakens_every_way_that_turns_or_bends() -> None:
    tight, apart = SCREW.at(gap="0 mm").base, SCREW.at(gap="6 mm", length="56 mm").base
    assert tight["bearing_length"] == pytest.approx(apart["bearing_length"])
    assert all(apart[way] < tight[way] for way in WAYS[2:])
    assert apart["crush_side"] == tight["crush_side"]


def test_nothing_hangs_on_end_grain() -> None:
    case = SCREW.at(grain="end grain", pull="1 N")
    assert not next(check for check in case.checks if check.name == "pull").ok


@pytest.mark.parametrize(
    ("givens", "name"),
    [
        ({"length": "40 mm"}, "penetration"),
        ({"length": "58 mm"}, "inside"),
        ({"edge": "10 mm"}, "edge"),
        ({"end": "40 mm"}, "end"),
        ({"end": "60 mm", "bored": "not bored"}, "end"),
        ({"spacing": "40 mm"}, "spacing"),
        ({"push": "3000 N"}, "used"),
        ({"pull": "3000 N"}, "pull"),
    ],
)
def test_what_cannot_hold_fails(givens: dict[str, str], name: str) -> None:
    checks = {check.name: check.ok for check in SCREW.at(**givens).checks}
    assert not checks[name]
