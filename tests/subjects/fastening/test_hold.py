"""A machine held down: what its weight does, and what must not be green."""

import pytest

from kit.subjects import model

HOLD = model("fastening.hold")


def test_a_heavy_machine_needs_no_bolts() -> None:
    case = HOLD.at(mass="200 kg", bolts=0, far=0)
    assert case.base["each"] == 0
    assert all(check.ok for check in case.checks)
    assert not any("tips" in text for text in case.cautions)


@pytest.mark.parametrize(
    ("givens", "name"),
    [
        ({"far": 0}, "tip"),
        ({"inside": "-200 mm", "mass": "150 kg"}, "tip"),
        ({"bolts": 0, "far": 0, "pull": "300 N"}, "slide"),
        ({"bolts": 1, "far": 2}, "rows"),
    ],
)
def test_what_cannot_stand_fails(givens: dict[str, str | int], name: str) -> None:
    checks = {check.name: check.ok for check in HOLD.at(**givens).checks}
    assert not checks[name]


def test_what_tips_without_bolts_is_told() -> None:
    assert any("tips: let nobody work" in text for text in HOLD.at().cautions)


def test_a_push_that_comes_and_goes_is_not_counted_on_against_sliding() -> None:
    still, pushed = (model("fastening.hold").at(push=push, pull="150 N") for push in ("0 N", "500 N"))
    assert still.base["sliding"] == pushed.base["sliding"] > 0
