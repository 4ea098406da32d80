"""Rules for every page's inputs: each is shown in a panel and read back as it stands in the demo jobs."""

from collections.abc import Iterator
from functools import cache

import pytest

from kit.core.model.inputs import Input
from kit.job import Job
from kit.job.build import standalone
from kit.job.stated import stated_tables
from kit.job.toml_edit import ABSENT, same
from kit.subjects import model, names
from kit.ui.panel.input_view import InputView
from tests import DATA

JOBS = ("boatshed.toml", "schoolshop.toml")


@cache
def job(name: str) -> Job:
    return Job.open(DATA / name)


ASKING = [name for name in names() if model(name).inputs]


def parts(page: str) -> Iterator[tuple[str, str]]:
    for name in JOBS:
        yield from ((name, id) for id, part in job(name).parts.items() if part.model == page)


def shown(asked: dict[str, Input], givens: object, raw: dict[str, object]) -> InputView:
    def changed() -> None:
        raise AssertionError("showing changed what is stated")

    view = InputView(asked, list(givens), raw, changed)  # type: ignore[call-overload]
    view.opened.value = True
    return view


@pytest.mark.parametrize("page", ASKING)
def test_every_input_is_shown_and_read_back(page: str) -> None:
    asked, givens = model(page).inputs, model(page).givens
    stated = [job(name).raw_inputs(id) for name, id in parts(page)]
    for raw in ({}, *stated):
        view = shown(asked, givens, raw)
        assert list(view.editors) == list(asked)
        for name, editor in view.editors.items():
            found, faults = editor.read()
            assert faults == []
            assert same(found, raw.get(name, ABSENT)), (page, name, found)
            assert "fw-fault" not in editor.note.value or (raw == {} and asked[name].needed)


@pytest.mark.parametrize("page", ASKING)
def test_all_that_is_stated_stands_in_the_sheet(page: str) -> None:
    for name, id in parts(page):
        raw = job(name).raw_inputs(id)
        inputs = standalone(job(name).case(id), job(name).display, raw)
        tables = stated_tables(inputs)
        told = " ".join(" ".join((table.title, *(row[0] for row in table.rows))) for table in tables).lower()
        for key in raw:
            assert key.replace("_", " ") in told, (page, id, key)
        for table in tables:
            assert all(len(row) == len(table.heads) for row in table.rows)
