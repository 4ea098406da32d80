"""Measures that cannot both be true are told by the limit that they break, and nothing is said on their ground."""

import pytest

from kit.subjects import model

CONTRADICTIONS = (
    ("fastening.screw", "thread", {"length": "30 mm", "thread": "33 mm"}),
    ("fastening.screw", "root", {"diameter": "3.5 mm", "root": "3.9 mm"}),
    ("fastening.pocket", "thread", {"length": "20 mm", "thread": "25 mm"}),
    ("alignment.runout", "dial", {"dial_radius": "130 mm", "radius": "127 mm"}),
    ("support.tip", "between", {"bench_place": "700 mm", "feet": "600 mm"}),
    ("support.tip", "ballast", {"ballast_place": "700 mm", "feet": "600 mm"}),
    ("support.lift", "travel", {"height": "700 mm", "travel": "1200 mm"}),
)


@pytest.mark.parametrize(("page", "limit", "givens"), CONTRADICTIONS)
def test_what_cannot_both_be_true_breaks_a_limit(page: str, limit: str, givens: dict[str, str]) -> None:
    stated = model(page)
    states = {check.name: check for check in stated.at().checks}
    assert states[limit].ok
    states = {check.name: check for check in stated.at(**givens).checks}
    assert not states[limit].ok
    assert "measure again" in states[limit].words() or "lay it" in states[limit].words()


def test_a_screw_that_does_not_reach_holds_nothing_surely() -> None:
    """Screws of 12 mm through a board of 18 mm hold by none of their length: no chance is left that they do."""
    case = model("fastening.screw").at(length="12 mm", thread="8 mm", side="18 ± 0.3 mm")
    used = next(check for check in case.checks if check.name == "used")
    assert not used.ok
    assert used.chance < 0.001
    assert case.base["pull_strength"] >= 0
    assert case.base["push_strength"] >= 0


def test_a_screw_that_just_reaches_is_not_likely_to_hold() -> None:
    """Half of the screws that end where the board begins miss it by some tenths, and the others sit in by as much."""
    case = model("fastening.screw").at(length="18.05 ± 0.5 mm", thread="8 mm", side="18 ± 0.3 mm")
    used = next(check for check in case.checks if check.name == "used")
    assert used.chance < 0.001


def test_before_an_opening_the_air_is_nowhere_faster_than_in_it() -> None:
    """However near the dust comes free, with a flange or without: the same air goes through ever less area."""
    for front in ("free", "flange or wall around"):
        for distance in ("0 mm", "20 mm", "60 mm", "100 mm"):
            case = model("air.flow").at(front=front, distance=distance)
            assert case.base["dust_speed"] <= case.base["face_speed"] * (1 + 1e-12)


def test_dust_is_drawn_in_from_nowhere_where_the_opening_itself_is_too_slow() -> None:
    """0.04 m³/s through 0.1 m² is 0.4 m/s in the opening: less than 0.45 m/s, with a flange as without."""
    for free in ("free", "flange or wall around"):
        given = {"known": "measured flow", "measured_flow": "144 m^3/h", "inlet": "1000 cm^2", "capture": "0.45 m/s"}
        case = model("hood.air").at(front=free, **given)
        assert case.base["face_speed"] == pytest.approx(400)
        assert case.base["capture_reach"] == 0
