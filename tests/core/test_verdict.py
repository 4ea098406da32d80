"""Checks and verdicts: margins, how sure, in words, and what is left open."""

import math
from dataclasses import replace

import pytest

from kit.core.quantity import Display
from kit.core.verdict import Check, Shown, Verdict, compare, fact, joined


def sag(value: float, u: float = 0.0, sense: str = "<=") -> Check:
    return compare("sag", "the shelf sags", value, 2.0, mend="take a higher board", u=u, sense=sense)  # type: ignore[arg-type]


def test_a_margin_is_worded_in_the_reader_s_units() -> None:
    assert sag(1.5).words() == "the shelf sags 1.5 mm of 2.0 mm allowed; margin 0.50 mm"
    assert "in" in sag(1.5).words(Display(system="in"))
    assert sag(2.5).words() == (
        "the shelf sags 2.5 mm, 0.50 mm more than the 2.0 mm allowed; to mend it, take a higher board"
    )
    assert sag(2.5, sense=">=").words() == "the shelf sags 2.5 mm, at least 2.0 mm needed; margin 0.50 mm"


def test_just_met_is_met() -> None:
    assert compare("a", "a is", 6 * 25.4 - 25.4, 5 * 25.4 * (1 - 1e-12), mend="").ok


@pytest.mark.parametrize(
    ("sigmas", "percent", "outcome"),
    # The normal distribution at 0.28, 1.645, 3, -0.28 and -3 deviations; NIST/SEMATECH e-Handbook, 1.3.6.7.1.
    [
        (0.28, 61.03, "unsure"),
        (1.66, 95.15, "holds"),
        (3, 99.87, "holds"),
        (-0.28, 38.97, "may hold"),
        (-3, 0.13, "fails"),
    ],
)
def test_how_sure_a_limit_is(sigmas: float, percent: float, outcome: str) -> None:
    u = 0.1
    check = sag(2.0 - sigmas * u, u)
    assert 100 * check.chance == pytest.approx(percent, abs=0.01)
    assert check.outcome() == outcome


def test_the_words_say_how_sure() -> None:
    assert sag(2.0 - 0.028, 0.1).words().endswith("; holds, but only 61 % sure")
    assert "fails, but may hold with 39 % likelihood; to mend it" in sag(2.028, 0.1).words()
    assert sag(2.0 - 0.028, 0.1).outcome(0.6) == "holds"


def test_an_unknown_uncertainty_is_never_sure() -> None:
    assert sag(1.0, math.inf).outcome() == "unsure"


def test_a_fact_takes_its_numbers_in_order() -> None:
    told = fact("flat", False, "off by {} at {}", "plane it", Shown(0.25, resolution=0.01), Shown(300), where="left")
    assert told.words() == "off by 0.25 mm at 300.0 mm (left); to mend it, plane it"
    assert told.chance == 0
    assert told.margin is None


def test_a_verdict_has_three_states() -> None:
    meets, fails = Verdict((sag(1),)), Verdict((sag(1), sag(3)))
    assert (meets.state, meets.words) == ("meets", "the limit holds")
    assert (fails.state, fails.words) == ("fails", "1 of 2 limits fails")
    left = Verdict((sag(1),), open=("clearance not checked",))
    assert (left.state, left.words) == ("not fully checked", "the limit holds, not fully checked")
    assert joined([meets, left]) == "not fully checked"
    assert joined([meets, left, fails]) == "fails"


def test_what_it_rests_on_counts() -> None:
    resting = Verdict((sag(1),), upstream={"hood": "fails", "bed": "meets"})
    assert resting.state == "not fully checked"
    assert resting.resting == ("a limit of hood fails, on which this rests",)


def test_a_verdict_says_how_sure_it_is() -> None:
    unsure = Verdict((sag(1), sag(2.0 - 0.028, 0.1)))
    assert unsure.words == "all 2 limits hold, 1 of them only 61 % sure"
    assert unsure.state == "meets"


def test_one_limit_is_not_counted() -> None:
    assert Verdict((sag(3),)).words == "the limit fails"


def test_what_was_drawn_decides() -> None:
    drawn = replace(sag(2.0 - 0.2, 0.1), drawn=0.9)
    assert sag(2.0 - 0.2, 0.1).outcome() == "holds"
    assert (drawn.chance, drawn.outcome()) == (0.9, "unsure")
