"""What the head of a printed sheet says stands under [job]: read, refused, changed, saved, printed."""

from pathlib import Path

import pytest

from kit.job import Job, check
from kit.job.errors import JobError
from kit.sheet.write import part_origin, sheet
from tests.sheet.reading import read

JOB = """format = 2
[job]
name = "Bench" # ours
prepared_by = "A. Turner"
date = 2026-05-02
[parts.eye]
model = "scale.cursor"
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(JOB, encoding="utf-8")
    return path


def test_the_head_is_read(path: Path) -> None:
    assert Job.open(path).head == {"prepared_by": "A. Turner", "date": "2026-05-02"}
    assert check(path) == []


def test_another_kind_of_value_is_refused_at_its_line(path: Path) -> None:
    path.write_text(JOB.replace('"A. Turner"', "7"), encoding="utf-8")
    finding = check(path)[0]
    assert (finding.line, finding.severity) == (4, "fault")
    assert "prepared_by" in finding.message


def test_it_is_changed_and_saved_and_nothing_else_is(path: Path) -> None:
    job = Job.open(path)
    job.set_head(checked_by="B. Joiner", prepared_by=None)
    job.save()
    text = path.read_text(encoding="utf-8")
    assert 'checked_by = "B. Joiner"' in text
    assert "prepared_by" not in text
    assert 'name = "Bench" # ours' in text
    assert Job.open(path).head == {"date": "2026-05-02", "checked_by": "B. Joiner"}


def test_a_job_without_a_head_gets_one(path: Path) -> None:
    path.write_text('format = 2\n[parts.eye]\nmodel = "scale.cursor"\n', encoding="utf-8")
    job = Job.open(path)
    job.set_head(revision="B")
    job.save()
    assert Job.open(path).head == {"revision": "B"}


def test_no_other_key_is_taken(path: Path) -> None:
    with pytest.raises(JobError, match="signed_by"):
        Job.open(path).set_head(signed_by="A. Turner")


def test_the_sheet_prints_it_with_room_for_who_is_not_stated(path: Path) -> None:
    job = Job.open(path)
    head = read(sheet(job.case("eye"), origin=part_origin(job, "eye"), draws=0)).one("dl", css="fw-origin")
    printed = dict(zip((n.text for n in head.all("dt")), (n.text for n in head.all("dd")), strict=True))
    assert printed["Prepared by"] == "A. Turner"
    assert printed["Date"] == "2026-05-02"
    assert printed["Checked by"] == "", "to be signed by hand"
    assert "Revision" not in printed
