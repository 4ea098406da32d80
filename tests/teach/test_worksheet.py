"""Worksheets: a sheet a pupil that tells no answer, a key that belongs to it, and the command that writes them."""

import csv
from pathlib import Path

import pytest

from kit.cli import main
from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.subjects import model
from kit.teach.worksheet import MOST, MOST_TASKS, class_list, seeds_of, worksheets


def test_the_command_writes_sheets_keys_and_one_table(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    names = tmp_path / "class.csv"
    names.write_text("Ada <b>,1\nBo,2\n", encoding="utf-8")
    out = tmp_path / "out"
    assert main(["worksheet", "bevel.frame", "--count", "3", "--names", str(names), "--key", "--out", str(out)]) == 0
    sheets = sorted(out.glob("*.html"))
    assert [str(sheet) for sheet in sheets] == capsys.readouterr().out.split("\n")[:-1]
    rows = list(csv.DictReader((out / "key" / "answers.csv").read_text(encoding="utf-8").splitlines()))
    assert [row["pupil"] for row in rows] == ["Ada <b>"] * 3 + ["Bo"] * 3
    for sheet, pupil in zip(sheets, ("Ada &lt;b&gt;", "Bo"), strict=True):
        code = sheet.stem.split("-")[1]
        text, key = sheet.read_text(encoding="utf-8"), (out / "key" / sheet.name).read_text(encoding="utf-8")
        assert code in text
        assert code in key
        assert pupil in text
        assert text.count('class="fw-task"') == 3
        for row in rows:
            if row["code"] == code:
                assert row["answer"] in key
                assert row["kind"] == "read" or row["answer"] not in text


def test_a_job_asks_about_its_own_parts(tmp_path: Path) -> None:
    from kit import example_job

    job = example_job("schoolshop.toml")
    cases = [job.case(part) for part in list(job.parts)[:4]]
    (made,) = worksheets(job.name, cases, count=4, seeds=[2], display=job.display)
    assert len({each.case.model.name for each in made.asked}) > 1
    assert job.name in made.sheet()


def test_the_code_follows_from_what_is_asked() -> None:
    case, display = model("fold.bend").at(), Display()
    first, again, other = (
        worksheets("Bends", [case], count=2, seeds=[seed], display=display)[0].code for seed in (1, 1, 2)
    )
    assert first == again != other


def test_seeds_and_class_lists_are_read_or_refused(tmp_path: Path) -> None:
    assert seeds_of("1-3,7") == [1, 2, 3, 7]
    for text in ("", "3-1", "a", "1-", "-2", "1..3"):
        with pytest.raises(KitError, match="does not name seeds"):
            seeds_of(text)
    with pytest.raises(KitError, match=f"more than {MOST}"):
        seeds_of(f"1-{MOST + 1}")
    (tmp_path / "empty.txt").write_text("\n\n")
    (tmp_path / "binary.txt").write_bytes(b"\xff\xfe\x00")
    for name in ("empty.txt", "binary.txt", "none.txt"):
        with pytest.raises(KitError, match="class list"):
            class_list(tmp_path / name)
    with pytest.raises(KitError, match=f"at most {MOST_TASKS}"):
        worksheets("x", [model("fold.bend").at()], count=MOST_TASKS + 1, seeds=[1], display=Display())
    with pytest.raises(KitError, match="2 pupils need as many seeds"):
        worksheets("x", [model("fold.bend").at()], count=1, seeds=[1], display=Display(), pupils=["a", "b"])
