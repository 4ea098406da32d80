"""A made machine's scan taken in by a reader: touched, scaled, set upright, jointed, moved, up to its envelope."""

from pathlib import Path

import numpy as np
import pytest
from playwright.sync_api import expect

from kit.job import Job
from tests.browser.lab import Lab
from tests.browser.reader import Reader
from tests.browser.test_harness import write_notebook
from tests.ui.intake.machine import SPOTS, write_machine

JOB = 'format = 2\n[job]\nname = "a garage"\n\n[parts.saw]\nmodel = "sweep.step"\n'
CELL = """
from kit import open_job
from kit.ui.intake import Intake
intake = Intake(open_job("garage.toml"), "saw")
intake
"""
SEEN = 3  # pixels by which a click may miss what it aims at


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


def test_a_scan_becomes_a_machine_that_moves(intake: Lab, tmp_path: Path) -> None:
    reader = Reader(intake.page)
    intake.locator(".fw-upload input[type=file]").set_input_files(tmp_path / "saw.stl")
    expect(intake.locator(".fw-upload [role=status]")).to_contain_text("saw.stl is read")
    assert (intake.folder / "saw.stl").read_bytes() == (tmp_path / "saw.stl").read_bytes()
    for name in ("bed 1", "bed 2", "bed 3", "bed 4", "axis", "front"):
        reader.spot(name, SPOTS[name])
    intake.screenshot("intake-1-spots", intake.locator(".fw-intake"))

    form = reader.step("Scale")
    form.get_by_label("from the spot").select_option("bed 1")
    form.get_by_label("to the spot").select_option("bed 2")
    form.get_by_label("measured length").fill("500")
    reader.do(form)
    expect(reader.said("alert")).to_contain_text("without its uncertainty")
    form.get_by_label("measured length").fill("500 ± 1 mm")
    reader.do(form)
    expect(reader.said("status")).to_contain_text("in one unit of the scan")
    form = reader.step("Upright")
    form.get_by_label("spots of the bed").select_option(["bed 1", "bed 2", "bed 3", "bed 4"])
    form.get_by_label("a spot in front of the axis").select_option("front")
    form.get_by_label("a spot on the axis").select_option("axis")
    reader.do(form)
    expect(reader.said("status")).to_contain_text("4 points of the bed")
    reader.scanned = False
    intake.screenshot("intake-2-upright", intake.locator(".fw-intake"))

    for number in range(4):
        angle = np.radians(20 + 90 * number)
        reader.spot(f"rim {number + 1}", (140 * np.cos(angle), 140 * np.sin(angle), 60.0))
    form = reader.step("Joint by a circle")
    form.get_by_label("spots on the circle").select_option([f"rim {number}" for number in (1, 2, 3, 4)])
    form.get_by_label("least angle").fill("-40 deg")
    form.get_by_label("greatest angle").fill("50 deg")
    reader.do(form)
    expect(reader.said("status")).to_contain_text("Joint swing: turns from")
    form = reader.step("Moving part by a piece")
    form.get_by_label("which it rides").select_option("swing")
    form.get_by_label("a spot on each piece").select_option(["rim 1"])
    reader.do(form)
    reader.spot("arm", (30.0, 100.0, 200.0))
    form = reader.step("Moving part by a piece")
    form.get_by_label("a spot on each piece").select_option(["arm"])
    reader.do(form)
    slider = intake.locator(".fw-moving .noUi-handle")
    slider.focus()
    for _ in range(4):
        slider.press("PageUp")
    intake.screenshot("intake-3-moved", intake.locator(".fw-intake"))
    intake.locator(".fw-moving").get_by_role("button", name="Greatest is here").click()
    expect(reader.said("status")).to_contain_text("Joint swing: turns from")
    low, high = (stated(intake).case("saw")[name].value for name in ("swing_right", "swing_left"))
    assert low == 40.0
    assert high != 50.0
    intake.locator(".fw-intake").get_by_role("button", name="Undo limits").click()
    expect(intake.locator(".fw-moving")).to_contain_text("limits -40 to 50 deg")

    intake.locator(".fw-intake").get_by_role("button", name="Work out the swept envelope").click()
    expect(reader.said("status")).to_contain_text("The pale surface is the swept envelope", timeout=120_000)
    intake.screenshot("intake-4-envelope", intake.locator(".fw-intake"))
    build = stated(intake).build("saw")
    assert build is not None
    # The arm's end stands 250 mm before the axis and 30 mm beside it; clicks aim within some pixels of 2 mm.
    assert abs(build.number("reach").base - np.hypot(250.0, 30.0)) < 2.0 * SEEN
    intake.width(800)
    intake.page.wait_for_timeout(500)
    intake.screenshot("intake-5-800", intake.locator(".fw-intake"))
    assert intake.errors() == []


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
