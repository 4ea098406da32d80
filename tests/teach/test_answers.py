"""A pupil's answers are kept in a file of his own, and a class's are read back from a folder of them."""

import csv
import io
import json
from pathlib import Path

import pytest

from kit.core.errors import KitError
from kit.teach.answers import (
    Answer,
    as_csv,
    common_mistakes,
    keep,
    read_answers,
    read_class,
    sign_in,
    signed_in,
    standings,
)


def test_nothing_is_kept_of_who_has_not_signed_in(tmp_path: Path) -> None:
    assert keep("predict", "stop.bow", "how much?", "more", False, folder=tmp_path) is None
    sign_in("  Ann   Example ", tmp_path)
    assert signed_in(tmp_path) == "Ann Example"
    sign_in("", tmp_path)
    assert keep("predict", "stop.bow", "how much?", "more", False, folder=tmp_path) is None
    assert not list(tmp_path.rglob("*.jsonl"))


def test_who_has_logged_in_on_a_hub_has_signed_in_unless_he_signs_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("JUPYTERHUB_USER", "ann")
    assert signed_in(tmp_path) == "ann"
    sign_in("", tmp_path)
    assert signed_in(tmp_path) == ""


def test_each_pupil_has_one_file_and_every_line_is_plain_json(tmp_path: Path) -> None:
    for name in ("Ann É.", "Ann  É.", "ann é"):
        sign_in(name, tmp_path)
        keep("evaluate", "bevel.frame", "miter?", "10°\n<b>", True, folder=tmp_path)
    files = sorted(tmp_path.rglob("*.jsonl"))
    assert len(files) == 2  # names spelled alike share no file
    lines = [json.loads(line) for path in files for line in path.read_text(encoding="utf-8").splitlines()]
    assert sorted(line["pupil"] for line in lines) == ["Ann É.", "Ann É.", "ann é"]
    assert {line["said"] for line in lines} == {"10°\n<b>"}
    assert not list(tmp_path.rglob("*.tmp*"))


@pytest.mark.parametrize("name", ["x" * 61, "a\x00b", "../\x1b"])
def test_a_name_that_is_none_is_refused(tmp_path: Path, name: str) -> None:
    with pytest.raises(KitError, match="write one of at most 60"):
        sign_in(name, tmp_path)


def test_a_name_leads_nowhere_else(tmp_path: Path) -> None:
    sign_in("../../etc/passwd", tmp_path)
    path = keep("predict", "m", "a", "b", True, folder=tmp_path)
    assert path is not None
    assert path.parent == tmp_path / "answers"


def test_a_line_that_is_no_answer_is_named_and_the_others_are_read(tmp_path: Path) -> None:
    sign_in("Ann", tmp_path)
    path = keep("predict", "m", "a", "b", True, folder=tmp_path)
    assert path is not None
    good = path.read_text(encoding="utf-8")
    deep = "[" * 100_000
    path.write_text(f"{good}{{}}\nno json\n{good.replace('true', '1')}{deep}\n\n{good}", encoding="utf-8")
    answers, faults = read_answers(path)
    assert len(answers) == 2
    assert [fault.split(":")[0] for fault in faults] == [f"ann.jsonl, line {n}" for n in (2, 3, 4, 5)]
    (tmp_path / "answers" / "bad.jsonl").write_bytes(b"\xff\xfe")
    assert "cannot be read" in read_class(tmp_path)[1][-1] + read_class(tmp_path)[1][0]
    with pytest.raises(KitError, match="no folder"):
        read_class(tmp_path / "none")
    (tmp_path / "empty").mkdir()
    with pytest.raises(KitError, match="no file ending"):
        read_class(tmp_path / "empty")


def answered(pupil: str, asked: str, said: str, right: bool, mistake: str = "") -> Answer:
    return Answer(pupil, "2026-03-02T10:00:00+00:00", "evaluate", "bevel.frame", asked, said, right, mistake)


def test_standings_and_mistakes_counted_by_hand() -> None:
    swapped = "miter and bevel were swapped"
    given = [
        answered("Bea", "one", "1", False, swapped),
        answered("Bea", "one", "2", False, swapped),  # twice by one pupil counts once
        answered("Bea", "one", "3", True),
        answered("Bea", "two", "3", True),
        answered("Ann", "one", "9", False, swapped),
        answered("Ann", "two", "7", False),
    ]
    ann, bea = standings(given)
    assert (ann.pupil, ann.asked, ann.at_once, ann.in_the_end) == ("Ann", 2, 0, 0)
    assert (bea.pupil, bea.asked, bea.at_once, bea.in_the_end) == ("Bea", 2, 1, 2)
    assert [(count, each.mistake or each.said) for count, each in common_mistakes(given)] == [(2, swapped), (1, "7")]


def test_a_spreadsheet_takes_no_cell_for_a_formula() -> None:
    told = ("=1+1", "+1", "@x", "-x", "-3.2 mm", 'a "b", c\nd')
    text = as_csv([answered("Ann", "one", said, False) for said in told])
    rows = list(csv.reader(io.StringIO(text)))
    assert rows[0][0] == "pupil"
    assert [row[5] for row in rows[1:]] == ["'=1+1", "'+1", "'@x", "'-x", "-3.2 mm", 'a "b", c\nd']
    assert {row[6] for row in rows[1:]} == {"no"}
