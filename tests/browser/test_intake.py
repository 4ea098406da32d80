"""A made machine's scan touched by keyboard alone, cropped and brushed; a machine of measured blocks; what is no scan.

All of an intake on the job's page: see test_station.py.
"""

import re
from pathlib import Path

import numpy as np
import pytest
from playwright.sync_api import Locator, expect

from kit.job import Job
from tests.browser.lab import Lab
from tests.browser.reader import Reader
from tests.browser.test_harness import write_notebook
from tests.ui.intake.machine import SPOTS, as_scanned, write_machine

pytestmark = pytest.mark.long

JOB = 'format = 2\n[job]\nname = "a garage"\n\n[parts.saw]\nmodel = "sweep.step"\n'
CELL = """
from kit import open_job
from kit.ui.intake import Intake
intake = Intake(open_job("garage.toml"), "saw")
intake
"""
UPRIGHT = """scan = "saw.stl"
recipe = [
  { do = "scale", lengths = [{ from = "bed left", to = "bed right", length = "500 ± 1 mm" }] },
  { do = "upright", bed = ["bed left", "bed right", "bed back"], front = "rim front", axis = "axis" },
]
"""
TOUCHED = {"bed left": "bed 1", "bed right": "bed 2", "bed back": "bed 3", "axis": "axis", "rim front": "front"}


@pytest.fixture
def intake(lab: Lab, tmp_path: Path) -> Lab:
    """An intake of a job that has no scan yet, and the scan beside the test."""
    write_machine(tmp_path / "saw.stl")
    return opened(lab, tmp_path, JOB)


def opened(lab: Lab, tmp_path: Path, text: str, *scans: Path) -> Lab:
    """Open the intake of the saw of a job."""
    job = tmp_path / "garage.toml"
    job.write_text(text)
    lab.open(write_notebook(tmp_path / "intake.ipynb", CELL), data=[job, *scans])
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


def test_a_box_crops_a_brush_takes_away_and_a_box_moves(lab: Lab, tmp_path: Path) -> None:
    scan = write_machine(tmp_path / "saw.stl")
    picks = "".join(f'"{name}" = {as_scanned(SPOTS[of]).tolist()}\n' for name, of in TOUCHED.items())
    opened(lab, tmp_path, f"{JOB}{UPRIGHT}[parts.saw.picks]\n{picks}", scan)
    reader, within = Reader(lab.page), lab.locator(".fw-intake")
    reader.scanned = False
    box(lab, reader.step("Crop"), "left to right", high=-4)  # the right end of the base goes
    reader.do(lab.locator(".fw-step"))
    expect(reader.said("status")).to_contain_text("Crop: ")
    shots(lab, "crop")
    reader.spot("corner", (-290.0, 250.0, 0.0))
    form = reader.step("Brush")
    form.get_by_label("spots to brush away").select_option("corner")
    form.get_by_label("how far round each spot").fill("60 mm")
    reader.do(form)
    expect(reader.said("status")).to_contain_text("Brush: ")
    shots(lab, "brush")
    form = reader.step("Joint by its axis")
    form.get_by_label("a spot on its axis").first.select_option("axis")
    reader.do(form)
    expect(reader.said("status")).to_contain_text("Joint swing: turns from")
    form = reader.step("Moving part by a box")
    form.get_by_label("on which it rides").select_option("swing")
    box(lab, form, "height", low=8)  # what stands above the bed
    reader.do(form)
    expect(reader.said("status")).to_contain_text("Part head: rides on swing")
    for _ in range(3):
        within.locator(".fw-moving .noUi-handle").press("PageUp")
    shots(lab, "box-part")
    steps = [step["do"] for step in stated(lab).raw_inputs("saw")["recipe"]]
    assert steps == ["scale", "upright", "crop", "brush"]
    for said in ("moving part by a box", "joint by its axis", "brush", "spot 'corner'", "crop"):
        within.get_by_role("button", name=f"Undo {said}").click()
        lab.wait_until_idle()
    expect(within.get_by_role("button", name=re.compile("Undo$"))).to_be_disabled()
    assert len(stated(lab).raw_inputs("saw")["recipe"]) == 2
    assert lab.errors() == []


def test_a_machine_without_a_scan_is_stated_by_measured_blocks(lab: Lab, tmp_path: Path) -> None:
    opened(lab, tmp_path, JOB)
    reader = Reader(lab.page)
    reader.do(reader.step("Measured box"))
    expect(reader.said("status")).to_contain_text("Block base: box, stands still")
    shots(lab, "block")
    form = reader.step("Joint by numbers")
    form.get_by_label("to the right of the zero").fill("ten")
    reader.do(form)
    expect(reader.said("alert")).to_contain_text("ten")
    form.get_by_label("to the right of the zero").fill("10 mm")
    reader.do(form)
    expect(reader.said("status")).to_contain_text("Joint swing: turns from")
    form = reader.step("Measured cylinder")
    form.get_by_label("the joint on which it rides").select_option("swing")
    for label, text in (("one end, behind the zero", "-180 ± 1 mm"), ("one end, above the bed", "200 ± 1 mm")):
        form.get_by_label(label).fill(text)
    for label, text in (("other end, behind the zero", "-120 ± 1 mm"), ("other end, above the bed", "200 ± 1 mm")):
        form.get_by_label(label).fill(text)
    reader.do(form)
    expect(reader.said("status")).to_contain_text("Block blade guard: cylinder, rides on swing")
    for _ in range(3):
        lab.locator(".fw-moving .noUi-handle").press("PageUp")
    shots(lab, "blocks")
    lab.locator(".fw-intake").get_by_role("button", name="Work out the swept envelope").click()
    expect(reader.said("status")).to_contain_text("The pale surface is the swept envelope", timeout=120_000)
    shots(lab, "blocks-envelope")
    # the far rim of the cylinder lies 180 mm before the zero and 10 + 125 mm beside the axis at 10 mm
    build = stated(lab).build("saw")
    assert build is not None
    assert build.number("reach").base == pytest.approx(np.hypot(180.0, 135.0), abs=1.5)
    assert lab.errors() == []


def box(lab: Lab, form: Locator, name: str, *, low: int = 0, high: int = 0) -> None:
    """Move the ends of one range of a box by keys, so many steps of a tenth of its length."""
    handles = form.locator(".widget-inline-hbox").filter(has_text=name).locator(".noUi-handle")
    for handle, steps in ((handles.first, low), (handles.last, high)):
        for _ in range(abs(steps)):
            handle.press("PageUp" if steps > 0 else "PageDown")
    lab.wait_until_idle()


def shots(lab: Lab, name: str) -> None:
    """Take pictures of the intake in both themes and widths."""
    for width in (800, 1300):
        lab.width(width)
        for theme in ("dark", "light"):
            lab.theme(theme)  # type: ignore[arg-type]
            lab.screenshot(f"intake-{name}-{width}-{theme}", ".fw-intake")
