"""The instructor's page: worksheets for a class list, and what the class answered, without a line of code."""

import csv
from pathlib import Path

import pytest

from kit import class_answers, worksheet_maker
from kit.teach.answers import keep, sign_in
from kit.ui.classroom.answers_view import ClassAnswers
from kit.ui.classroom.worksheets_view import WorksheetMaker


@pytest.fixture
def maker(tmp_path: Path) -> WorksheetMaker:
    made = worksheet_maker(tmp_path)
    made.count.value, made.models.value = 2, ("bevel.frame",)
    return made


def test_a_class_list_gives_a_sheet_a_pupil_and_a_key_apart(maker: WorksheetMaker, tmp_path: Path) -> None:
    maker.names.value = "Ann <Example>\n\nBea Example, 7b\n"
    maker.make.click()
    sheets = sorted((tmp_path / "worksheets").glob("*.html"))
    assert len(sheets) == len(list((tmp_path / "worksheets" / "key").glob("*.html"))) == 2
    assert "Ann &lt;Example&gt;" in sheets[0].read_text(encoding="utf-8")
    rows = list(
        csv.DictReader((tmp_path / "worksheets" / "key" / "answers.csv").read_text(encoding="utf-8").splitlines())
    )
    assert {row["pupil"] for row in rows} == {"Ann <Example>", "Bea Example"}
    for row in rows:
        sheet = next(path for path in sheets if row["code"] in path.name).read_text(encoding="utf-8")
        assert row["kind"] in ("read", "mend", "judge") or row["answer"] not in sheet
    assert "2 sheets are in the folder worksheets" in maker.said.value
    assert "../../files/worksheets/key/answers.csv" in maker.links.value


def test_the_job_that_is_open_is_offered_wherever_it_lies(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    own = tmp_path / "elsewhere" / "own.toml"
    own.parent.mkdir()
    own.write_text('format = 2\n[job]\nname = "my own"\n[parts.stop]\nmodel = "stop.deflection"\n')
    monkeypatch.setenv("FITWRIGHT_JOB", str(own))
    assert worksheet_maker(tmp_path).about.options[1] == "the job my own"


def test_without_a_list_the_sheets_are_numbered_and_keys_can_be_left_out(maker: WorksheetMaker, tmp_path: Path) -> None:
    maker.seeds.value, maker.key.value, maker.into.value = "4,7", False, "set a"
    maker.make.click()
    assert [path.name[:3] for path in sorted((tmp_path / "set a").glob("*.html"))] == ["004", "007"]
    assert not (tmp_path / "set a" / "key").exists()


@pytest.mark.parametrize(
    ("field", "value", "told"),
    [
        ("into", "../else", "no folder beside"),
        ("into", " ", "no folder beside"),
        ("seeds", "x", "does not name seeds"),
        ("models", (), "no model is chosen"),
        ("names", " ,\n", "no name"),
    ],
)
def test_what_cannot_be_made_is_told_and_nothing_is_written(
    maker: WorksheetMaker, tmp_path: Path, field: str, value: object, told: str
) -> None:
    getattr(maker, field).value = value
    maker.make.click()
    assert told in maker.said.value
    assert 'role="alert"' in maker.said.value
    assert not list(tmp_path.iterdir())
    assert not maker.make.disabled


@pytest.fixture
def collected(tmp_path: Path) -> ClassAnswers:
    """What two pupils answered, each in a folder of his own."""
    for name in ("<b>Ann", "Bea"):
        own = tmp_path / "answers" / name.strip("<>b")
        own.mkdir(parents=True)
        sign_in(name, own)
        keep("evaluate", "bevel.frame", "the miter?", "9°", False, "miter and bevel were swapped", folder=own)
        keep("evaluate", "bevel.frame", "the miter?", "10°", True, folder=own)
    return class_answers(tmp_path)


def test_a_class_is_read_from_its_folder_and_exported(collected: ClassAnswers, tmp_path: Path) -> None:
    assert collected.export.disabled
    collected.read.click()
    assert "answers read: 4, pupils: 2" in collected.said.value
    assert "&lt;b&gt;Ann" in collected.tables.value
    assert '<th scope="row">2</th><td>miter and bevel were swapped</td>' in collected.tables.value
    collected.export.click()
    rows = list(csv.DictReader((tmp_path / "class_answers.csv").read_text(encoding="utf-8").splitlines()))
    assert [row["right"] for row in rows].count("yes") == 2


def test_a_folder_without_answers_is_told(collected: ClassAnswers) -> None:
    collected.where.value = "nowhere"
    collected.read.click()
    assert "there is no folder" in collected.said.value
    assert collected.export.disabled
