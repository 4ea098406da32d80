"""An exercise in a notebook: the field or the options say what it judges, and the way is shown to who has answered."""

import math

import pytest

from kit.core.quantity import Display
from kit.subjects import model
from kit.teach import Choice, exercises
from kit.ui.lesson import exercise
from kit.ui.lesson.exercise import Answering, Asked


@pytest.fixture
def miter() -> Asked:
    """The miter of a frame with drawn sides and slope."""
    return exercise("bevel.frame", "miter", vary=["sides", "slope"], seed=4)


def by_hand(asked: Asked) -> float:
    """The miter in degrees, by the rule of the splayed ring."""
    s, n = (asked.exercise.case.base[name] for name in ("slope", "sides"))
    return math.degrees(math.atan(math.cos(s) * math.tan(math.pi / n)))


def test_the_seed_decides_the_task() -> None:
    tasks = [exercise("bevel.frame", "miter", vary=["sides", "slope"], seed=seed) for seed in (1, 1, 2)]
    assert tasks[0].exercise.answer == tasks[1].exercise.answer != tasks[2].exercise.answer


def test_the_field_says_what_the_exercise_judges(miter: Asked) -> None:
    field = Answering(miter.exercise)
    field.box.value = "5 kg"
    assert "✗" in field.said.value
    field.box.value = "<b>5"
    assert "<b>5" not in field.said.value
    field.box.value = f"{by_hand(miter):.3g} deg"
    assert "✓" in field.said.value
    assert "is right" in field.said.value


def test_the_way_is_neither_there_nor_offered_before_an_answer(miter: Asked) -> None:
    field = Answering(miter.exercise)
    answer = f"{by_hand(miter):.5g}"
    assert field.reveal.disabled
    assert answer not in miter.task() + str(field.get_state()) + str([each.get_state() for each in field.children])
    field.box.value = "1 deg"
    field.reveal.click()
    assert answer in field.way.value


def test_options_are_chosen_by_their_letters() -> None:
    asked = exercises([model("bevel.frame").at()], 6, seed=1, display=Display())
    judged = next(each for each in asked if isinstance(each, Choice))
    field = Answering(judged)
    field.box.value = judged.answer[0]
    assert "✓" in field.said.value
