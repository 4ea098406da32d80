"""Places typed on the page: saved into the job, seen in the picture, undone like any other change."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from kit.job.folder import VARIABLE, remember
from kit.job.place import standing
from kit.station.lists import station_lists
from kit.ui.page import job_page
from kit.ui.page.page import JobPage
from kit.ui.page.parts_view import PartsView
from kit.ui.page.station_view import StationView
from kit.ui.panel.input_editors import RowsEditor

JOB = """# mine
format = 2
[job]
units = "in"
[machine]
head = "12.5 kg"
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


def stated(page: JobPage, part: str, key: str = "place") -> Any:
    return tomllib.loads(page.job.path.read_text(encoding="utf-8"))["parts"][part].get(key)


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


def boxes(page: JobPage) -> RowsEditor:
    editor = view(page).body.boxes
    assert editor is not None
    return editor


def fill(page: JobPage, number: int, **sides: str) -> None:
    for side, text in sides.items():
        boxes(page).rows[number].cells[side].widget.value = text


def test_a_body_is_typed_without_code_and_the_common_mass_follows(page: JobPage) -> None:
    form = view(page)
    form.opened.value = True
    place(page, "hood", "0 in", "0 in", "0 in")
    before, shown = station_lists(page.job).whole.mass, form.working.said.value
    form.body.mass.value = "28 lb"
    assert stated(page, "hood", "body") == {"mass": "28 lb"}
    for number, top in enumerate(("30 in", "2 ft")):
        boxes(page).adding.click()
        fill(page, number, right="10 in", back="20", top=top)
    low = ["0 in", "0 in", "0 in"]
    bodies = [[low, ["10 in", "20", "30 in"]], [low, ["10 in", "20", "2 ft"]]]
    assert stated(page, "hood", "body") == {"mass": "28 lb", "boxes": bodies}
    # a pound is 0.45359237 kg by its definition
    assert station_lists(page.job).whole.mass == pytest.approx(before + 28 * 0.45359237e-3)
    assert form.working.said.value != shown
    form.body.center[2].value = "1 ft"
    assert stated(page, "hood", "body")["center"] == ["0 in", "0 in", "1 ft"]
    boxes(page).rows[0].removing.click()
    assert stated(page, "hood", "body")["boxes"] == bodies[1:]


def test_a_body_takes_its_mass_from_a_part_or_the_machine(page: JobPage) -> None:
    body = view(page).body
    place(page, "wing", "0 in", "0 in", "0 in")
    assert [link for _, link in body.source.options][:2] == ["", "wing.work"]
    assert ("the machine's head, 12.5 kg", "machine.head") in body.source.options
    body.mass.value = "3 kg"
    body.source.value = "machine.head"
    assert stated(page, "wing", "body") == {"mass": {"from": "machine.head"}}
    assert body.mass.value == ""
    assert standing(page.job).bodies["wing"].mass == pytest.approx(0.0125)
    body.source.value = "wing.work"
    assert standing(page.job).bodies["wing"].mass == ("wing", "work")
    body.mass.value = "2 kg"
    assert stated(page, "wing", "body") == {"mass": "2 kg"}
    assert body.source.value == ""
    body.mass.value = ""
    assert stated(page, "wing", "body") is None


def test_a_wrong_body_is_told_beside_its_field_and_not_saved(page: JobPage) -> None:
    form = view(page)
    form.part.value = "shelf"
    before = page.job.path.read_text(encoding="utf-8")
    form.body.mass.value = "-1 kg"
    assert "write more than 0 kg" in form.body.note.value
    assert "fw-faulty" in form.body.mass._dom_classes
    form.body.mass.value = ""
    assert form.body.note.value == ""
    boxes(page).adding.click()
    boxes(page).adding.click()
    fill(page, 1, right="5 kg")
    assert "a length" in boxes(page).rows[1].notes["right"].value
    fill(page, 1, right="5 in", top="1 in")
    assert "not beyond the low one in y" in boxes(page).rows[1].note.value
    assert boxes(page).rows[0].told == ""
    assert page.job.path.read_text(encoding="utf-8") == before


def test_a_body_is_undone_and_the_form_stays_with_its_part(page: JobPage) -> None:
    view(page).opened.value = True
    before = page.job.path.read_text(encoding="utf-8")
    view(page).part.value = "shelf"
    view(page).body.mass.value = "9 kg"
    page.undo.click()
    assert page.job.path.read_text(encoding="utf-8") == before
    assert (view(page).part.value, view(page).body.mass.value) == ("shelf", "")
    page.redo.click()
    assert view(page).body.mass.value == "9 kg"
