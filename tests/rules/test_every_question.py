"""Every question of every page: a notebook asks it, one option holds on the part asked about, and places are spread.

A question raises where not exactly one of its options holds. Those that need what is built are asked where the
notebooks are run.
"""

import ast
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Any, NoReturn

import pytest

from kit import example_job
from kit.core.question import Question
from kit.job import Job
from kit.subjects import PAGES, subject
from kit.teach.question import bench, posed
from tests import NOTEBOOKS, ROOT
from tests.rules.test_every_subject import notebook_cells

JOBS = ("boatshed.toml", "schoolshop.toml")


class NeedsBuildError(Exception):
    """A question looks at what is built."""


def asked_in_notebooks() -> Iterator[tuple[str, str]]:
    """Yield part and question of every `….ask("part", "question")` in the notebooks' cells."""
    for cell in notebook_cells(ROOT):
        for node in ast.walk(ast.parse(cell)):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "ask":
                part, name = (ast.literal_eval(argument) for argument in node.args)
                yield part, name


@cache
def job(name: str) -> Job:
    return example_job(name)


def home(part: str) -> Job | None:
    """Return the demo job that has a part; None for a job that a notebook writes itself."""
    return next((job(name) for name in JOBS if part in job(name).parts), None)


@cache
def questions() -> dict[tuple[str, str], Question]:
    """Return the questions that need no build, in the order of their options that a reader sees, by model and name."""

    def refuse(*_: Any) -> NoReturn:
        raise NeedsBuildError

    found = {}
    for part, name in asked_in_notebooks():
        if (inside := home(part)) is None:
            continue
        model = inside.parts[part].model
        at = replace(bench(inside, part), made=refuse, propose=refuse)
        try:
            found[model, name] = subject(model).questions[name](at).shuffled(f"{model} {name} ")
        except NeedsBuildError:
            continue
    return found


def test_each_question_is_asked_in_a_notebook_and_each_asked_is_there() -> None:
    stated = {name for page in PAGES for name in subject(page).questions}
    assert {name for _, name in asked_in_notebooks()} == stated
    assert sum(1 for _ in asked_in_notebooks()) >= 94  # as many as stood in the notebooks' code before


def test_a_claim_is_worked_out_and_no_literal_alone() -> None:
    """An option may be typed as false, where no number can make it true; the one that holds is always worked out."""
    for path in sorted((ROOT / "kit" / "subjects").glob("*/*_questions.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Option":
                holds = node.args[1]
                assert not (isinstance(holds, ast.Constant) and holds.value), f"{path.name}:{node.lineno}"


@pytest.mark.long  # it works out every page that asks
def test_one_option_holds_and_no_place_is_the_right_one_too_often() -> None:
    places = Counter(
        [each.holds for each in asked.options].index(True) for asked in questions().values() if len(asked.options) == 3
    )
    assert sum(places.values()) > 60
    assert min(places[at] for at in range(3)) > sum(places.values()) / 5
    assert max(places.values()) < sum(places.values()) / 2


@pytest.mark.long
@pytest.mark.parametrize("path", sorted(NOTEBOOKS.glob("*.ipynb")), ids=lambda path: path.stem)
def test_nothing_that_speaks_for_an_answer_stands_in_a_notebook(path: Any) -> None:
    text = path.read_text(encoding="utf-8")
    for asked in questions().values():
        assert asked.why not in text
        assert not [option for option in asked.options if option.why_not and option.why_not in text]


def test_a_wrong_choice_is_told_why_not_and_what_is_right() -> None:
    asked = posed(job("boatshed.toml"), "stop_bow", "longer_bar")
    # lengths cancel: under one force bar and base both give way with the cube of the length (beam theory)
    assert asked.question.answer == "the same"
    assert asked.judge("the same").right
    wrong = asked.judge("more")
    assert not wrong.right
    assert "no, a longer bar" in wrong.words
    assert "Right is: the same" in wrong.words
    assert not asked.judge("").right
