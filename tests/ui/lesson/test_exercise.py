"""Exercises: the same seed asks the same, answers are read with their units and judged within the rounding."""

import math
import re
from html import unescape

import pytest

from kit.core.errors import KitError
from kit.core.quantity import Display, parse
from kit.subjects import model, names
from kit.ui.lesson import Exercise, exercise
from kit.ui.lesson.exercise import Answering


@pytest.fixture
def miter() -> Exercise:
    """The miter of a frame with drawn sides and slope."""
    return exercise("bevel.frame", "miter", vary=["sides", "slope"], seed=4)


def by_hand(task: Exercise) -> float:
    """The miter in degrees from the printed task, by the rule of the splayed ring."""
    sides, slope = (task.case.entries[name].text or "" for name in ("sides", "slope"))
    s = math.radians(parse(slope, "deg").value)
    return math.degrees(math.atan(math.cos(s) * math.tan(math.pi / int(sides))))


def test_the_seed_decides_the_task() -> None:
    tasks = [exercise("bevel.frame", "miter", vary=["sides", "slope"], seed=seed).task() for seed in (1, 1, 2, 3)]
    assert tasks[0] == tasks[1]
    assert len({*tasks}) == 3


def test_an_answer_worked_by_hand_is_right_and_its_rounding_is_allowed(miter: Exercise) -> None:
    answer = by_hand(miter)
    assert miter.judge(f"{answer:.3g} deg").right
    assert miter.judge(f"{math.radians(answer):.6f} rad").right
    assert miter.judge(f"{answer:.6f}").right  # no unit: the field's is taken
    assert "deg taken" in miter.judge(f"{answer:.6f}").words


def test_what_is_off_by_more_than_the_rounding_is_wrong(miter: Exercise) -> None:
    answer = by_hand(miter)
    digit = 10 ** (math.floor(math.log10(answer)) - 2)
    assert "too large" in miter.judge(f"{answer + 0.6 * digit} deg").words
    assert "too small" in miter.judge(f"{answer - 0.6 * digit} deg").words
    assert not miter.judge(f"{answer + 0.6 * digit} deg").right


def test_slips_that_everybody_makes_are_named(miter: Exercise) -> None:
    answer = by_hand(miter)
    assert "other zero" in miter.judge(f"{90 - answer:.4f} deg").words
    assert "wrong sign" in miter.judge(f"{-answer:.4f} deg").words


def test_what_cannot_be_read_is_explained(miter: Exercise) -> None:
    for typed, told in (("5 kg", "kg"), ("", "Type a value"), ("__import__('os')", "__import__")):
        judged = miter.judge(typed)
        assert not judged.right
        assert told in judged.words


@pytest.mark.parametrize("system", ["mm", "in"])
@pytest.mark.parametrize("name", names())
def test_every_model_makes_exercises_of_round_values(name: str, system: str) -> None:
    stated = model(name)
    reals = [given.name for given in stated.free.values() if given.kind == "real"][:3]
    display = Display(system=system)  # type: ignore[arg-type]
    task = exercise(stated, next(iter(stated.results)), vary=reals, seed=3, display=display)
    for given in reals:
        low, high = stated.givens[given].span
        assert low - 1e-9 <= task.case.base[given] <= high + 1e-9
        text = task.case.entries[given].text or ""
        decimal = re.fullmatch(r"-?[\d.]+(?:×10.+)?", text.split()[0].rstrip("°"))
        assert "/" in text or (decimal and len(re.sub(r"×.+|\D", "", decimal[0]).strip("0")) <= 3), text
    assert task.case.model.part(task.result).meaning.split(",")[0][:10] in unescape(task.task())
    assert "<details>" in task.way()


def test_a_choice_or_an_unknown_name_is_refused() -> None:
    with pytest.raises(KitError, match="joint is not a number"):
        exercise("bevel.frame", "miter", vary=["joint"])
    with pytest.raises(KitError, match="did you mean 'slope'"):
        exercise("bevel.frame", "miter", vary=["slop"])
    with pytest.raises(KitError, match="did you mean 'miter'"):
        exercise("bevel.frame", "mitre", vary=["slope"])


def test_the_field_says_what_the_exercise_judges(miter: Exercise) -> None:
    field = Answering(miter)
    field.box.value = "5 kg"
    assert "✗" in field.said.value
    field.box.value = "<b>5"
    assert "<b>5" not in field.said.value
    field.box.value = f"{by_hand(miter):.3g} deg"
    assert "✓" in field.said.value
    assert "is right" in field.said.value
