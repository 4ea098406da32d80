"""Places typed on the page: saved into the job, seen in the picture, undone like any other change."""

import tomllib
from pathlib import Path

import pytest

from kit.job.folder import VARIABLE, remember
from kit.ui.page import job_page
from kit.ui.page.page import JobPage
from kit.ui.page.parts_view import PartsView
from kit.ui.page.station_view import StationView

JOB = """# mine
format = 2
[job]
units = "in"
[parts.shelf] # of maple
model = "support.shelf"
title = "A <shelf>"
[parts.wing]
model = "support.wing"
[parts.hood]
model = "hood.shape"
"""


@pytest.fixture
def page(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> JobPage:
    monkeypatch.delenv(VARIABLE, raising=False)
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.toml").write_text(JOB, encoding="utf-8")
    remember(tmp_path / "job.toml")
    return job_page()


def view(page: JobPage) -> StationView:
    assert isinstance(page.view, PartsView)
    return page.view.station


def place(page: JobPage, part: str, *at: str, turn: str = "", on: str = "") -> None:
    form = view(page)
    form.part.value = part
    for box, text in zip(form.at, at, strict=True):
        box.value = text
    form.turn.value, form.on.value = turn, on
    form.put.click()


def stated(page: JobPage, part: str) -> object:
    return tomllib.loads(page.job.path.read_text(encoding="utf-8"))["parts"][part].get("place")


def test_a_place_is_saved_and_the_picture_follows(page: JobPage) -> None:
    view(page).opened.value = True
    assert "A &lt;shelf&gt;" in view(page).working.said.value.split("nothing says where they stand")[1]
    place(page, "shelf", "10", "-2 1/2 in", "1' 6\"", turn="90 deg")
    assert stated(page, "shelf") == {"at": ["10", "-2 1/2 in", "1' 6\""], "turn": "90 deg"}
    assert "[parts.shelf] # of maple" in page.job.path.read_text(encoding="utf-8")
    shown = view(page).working.said.value
    assert "<iframe" in shown
    assert "</b> A &lt;shelf&gt;" in shown
    assert "at least " in shown  # the wing is not in it
    place(page, "wing", "", "", "1 in", on="shelf")
    assert stated(page, "wing") == {"at": ["0 in", "0 in", "1 in"], "on": "shelf"}
    assert "at least " not in view(page).working.said.value
    view(page).part.value = "shelf"
    assert [box.value for box in view(page).at] == ["10", "-2 1/2 in", "1' 6\""]


def test_what_was_placed_is_undone_and_the_picture_stays_open(page: JobPage) -> None:
    view(page).opened.value = True
    before = page.job.path.read_text(encoding="utf-8")
    place(page, "shelf", "1 in", "2 in", "3 in")
    page.undo.click()
    assert page.job.path.read_text(encoding="utf-8") == before
    assert view(page).opened.value
    assert "</b> A &lt;shelf&gt;" not in view(page).working.said.value
    page.redo.click()
    assert stated(page, "shelf") == {"at": ["1 in", "2 in", "3 in"]}
    assert "</b> A &lt;shelf&gt;" in view(page).working.said.value


def test_what_cannot_be_a_place_is_told_and_nothing_is_saved(page: JobPage) -> None:
    before = page.job.path.read_text(encoding="utf-8")
    place(page, "shelf", "1 kg", "2 in", "3 in")
    assert "a length" in page.message.value
    assert page.job.path.read_text(encoding="utf-8") == before


def test_a_part_is_left_out_and_follows_again(page: JobPage) -> None:
    form = view(page)
    form.opened.value = True
    form.part.value = "hood"
    assert "stands with what has the same axes" in form.stands.value
    form.away.click()
    assert stated(page, "hood") is False
    assert "not to stand" in form.stands.value
    assert "hood" not in form.working.said.value
    form.free.click()
    assert stated(page, "hood") is None
    assert "</b> hood" in form.working.said.value
