"""A made machine's scan touched by keyboard alone, and what is no scan; all of an intake: see test_station.py."""

from pathlib import Path

import pytest
from playwright.sync_api import expect

from kit.job import Job
from tests.browser.lab import Lab
from tests.browser.reader import Reader
from tests.browser.test_harness import write_notebook
from tests.ui.intake.machine import write_machine

pytestmark = pytest.mark.long

JOB = 'format = 2\n[job]\nname = "a garage"\n\n[parts.saw]\nmodel = "sweep.step"\n'
CELL = """
from kit import open_job
from kit.ui.intake import Intake
intake = Intake(open_job("garage.toml"), "saw")
intake
"""


@pytest.fixture
def intake(lab: Lab, tmp_path: Path) -> Lab:
    """An intake of a job that has no scan yet, and the scan beside the test."""
    job = tmp_path / "garage.toml"
    job.write_text(JOB)
    write_machine(tmp_path / "saw.stl")
    lab.open(write_notebook(tmp_path / "intake.ipynb", CELL), data=[job])
    lab.run_all()
    assert lab.errors() == []
    return lab


def stated(lab: Lab) -> Job:
    return Job.open(lab.folder / "garage.toml")


def test_the_keyboard_does_all_that_the_mouse_does_in_the_view(intake: Lab, tmp_path: Path) -> None:
    reader = Reader(intake.page)
    intake.locator(".fw-upload input[type=file]").set_input_files(tmp_path / "saw.stl")
    expect(intake.locator(".fw-upload [role=status]")).to_contain_text("saw.stl is read")
    reader.canvas.focus()
    reader.canvas.press("Enter")
    expect(reader.said("status")).to_contain_text("spot 1 is set at")
    before = stated(intake).raw_inputs("saw")["picks"]["spot 1"]
    reader.canvas.press("+")
    reader.canvas.press("Alt+ArrowRight")
    expect(reader.said("status")).to_contain_text("spot 1 is moved to")
    assert stated(intake).raw_inputs("saw")["picks"]["spot 1"] != before
    reader.canvas.press("Shift+ArrowLeft")
    reader.canvas.press("Enter")
    expect(reader.said("status")).to_contain_text("spot 2 is set at")
    reader.canvas.press("Delete")
    expect(reader.said("status")).to_contain_text("spot 2 is taken out")
    intake.locator(".fw-intake").get_by_role("button", name="Undo").press("Enter")
    expect(intake.locator(".fw-intake").get_by_role("button", name="Redo spot 'spot 2' taken out")).to_be_visible()
    assert list(stated(intake).raw_inputs("saw")["picks"]) == ["spot 1", "spot 2"]
    assert intake.errors() == []


def test_what_is_no_scan_is_refused_in_one_sentence(intake: Lab, tmp_path: Path) -> None:
    (tmp_path / "bad.stl").write_bytes(b"solid no\n" * 40)
    intake.locator(".fw-upload input[type=file]").set_input_files(tmp_path / "bad.stl")
    expect(intake.locator(".fw-upload [role=status]")).to_contain_text("bad.stl")
    assert not (intake.folder / "bad.stl").exists()
    assert (intake.folder / "garage.toml").read_text() == JOB
    assert intake.errors() == []
