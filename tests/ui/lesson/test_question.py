"""A question in a notebook keeps its answer in the kernel until the reader has committed to an option."""

from pathlib import Path

import pytest

from kit import Lesson, example_job
from kit.core.errors import KitError
from kit.teach.answers import read_answers
from kit.ui.lesson.question import Predicting
from kit.ui.lesson.sign_in import SignIn


@pytest.fixture
def lesson() -> Lesson:
    return Lesson(example=example_job())


def test_nothing_in_the_page_or_in_the_state_tells_the_answer(lesson: Lesson) -> None:
    asked = lesson.ask("stop_bow", "longer_bar")
    field = Predicting(asked.posed)
    told = (
        asked.words().html + repr(asked) + str({name: field.get_state()[name] for name in field.keys if name != "_esm"})
    )
    for option in asked.posed.question.options:
        assert option.text in told
        assert not option.why_not or option.why_not not in told
    assert asked.posed.question.why not in told
    assert field.chosen == -1
    assert not field.right


def test_a_choice_is_committed_to_once(lesson: Lesson) -> None:
    field = Predicting(lesson.ask("stop_bow", "longer_bar").posed)
    for nothing in (None, -1, 3, "0"):
        field.commit(nothing)
        assert field.said == ""
    right = field.options.index("the same")
    field.commit((right + 1) % 3)
    assert not field.right
    said = field.said
    assert "Right is: the same" in said
    field.commit(right)
    assert (field.said, field.right) == (said, False)


def test_what_is_asked_is_escaped_and_in_the_units_of_the_reader() -> None:
    inches = Lesson(example=example_job("schoolshop.toml")).ask("table_gap", "more_readings")
    assert " in" in inches.posed.question.why
    assert "<b>" not in inches.words().html


def test_an_unknown_question_is_named(lesson: Lesson) -> None:
    with pytest.raises(KitError, match=r"stop\.bow has no question 'longer_bars'; did you mean 'longer_bar'"):
        lesson.ask("stop_bow", "longer_bars")
    with pytest.raises(KitError, match="no example"):
        Lesson().ask("stop_bow", "longer_bar")


def test_answers_are_kept_only_of_who_has_signed_in(
    lesson: Lesson, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    asked = lesson.ask("stop_bow", "longer_bar")
    Predicting(asked.posed).commit(0)
    assert not list(tmp_path.iterdir())
    entry = SignIn()
    entry.name.value = "Ann"
    entry.button.click()
    assert "those of Ann" in entry.said.value
    Predicting(asked.posed).commit(1)
    (path,) = (tmp_path / "answers").iterdir()
    answers, faults = read_answers(path)
    assert [(each.kind, each.model, each.said) for each in answers] == [("predict", "stop.bow", asked.posed.options[1])]
    assert faults == []
