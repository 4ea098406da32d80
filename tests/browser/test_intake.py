"""A made machine's scan taken in by a reader: touched, scaled, set upright, jointed, moved, up to its envelope."""

from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from playwright.sync_api import Locator, expect

from kit.geometry.mesh import Scan, cast
from kit.job import Job
from tests.browser.lab import Lab
from tests.browser.test_harness import write_notebook
from tests.ui.intake.machine import SPOTS, as_scanned, machine, write_machine

Array = NDArray[np.float64]
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


class Reader:
    """Somebody before the view, who knows the machine: its surface as it is shown now, and where a place of it is."""

    def __init__(self, lab: Lab) -> None:
        self.lab, self.page = lab, lab.page
        self.surface = Scan(np.asarray(machine().vertices), np.asarray(machine().faces))
        self.scanned = True

    @property
    def canvas(self) -> Locator:
        return self.lab.locator(".fw-turning canvas")

    def shown(self, place: Array) -> Array:
        """Where a place of the machine is in the axes of the view."""
        return as_scanned(place) if self.scanned else np.asarray(place)

    def aim(self, place: tuple[float, float, float]) -> tuple[float, float]:
        """Turn the view by keys until a place is seen, and return where it is on the canvas."""
        target = self.shown(np.array(place))
        surface = Scan(self.shown(self.surface.vertices), self.surface.faces)
        low, high = surface.vertices.min(axis=0), surface.vertices.max(axis=0)
        middle, reach = (low + high) / 2.0, np.linalg.norm(high - low) / 2.0
        self.canvas.press("Home")
        turns = ((right, over) for right in range(-17, 18) for over in range(-9, 7))
        for right, over in sorted(turns, key=lambda each: abs(each[0]) + abs(each[1])):
            a, e = np.radians(35 + 10 * right), np.radians(min(90, 25 + 10 * over))
            toward = np.array([np.sin(a) * np.cos(e), -np.cos(a) * np.cos(e), np.sin(e)])
            touch = cast(surface, middle + 4.0 * reach * toward + (target - middle), -toward)
            if touch is not None and np.linalg.norm(touch.point - target) < 1e-3 * reach:
                break
        else:
            raise AssertionError(f"no view shows {place}")
        for _ in range(abs(right)):
            self.canvas.press("ArrowRight" if right > 0 else "ArrowLeft")
        for _ in range(abs(over)):
            self.canvas.press("ArrowUp" if over > 0 else "ArrowDown")
        across = np.array([np.cos(a), np.sin(a), 0.0])
        box = self.canvas.bounding_box()
        assert box is not None
        small = 0.97 * min(box["width"], box["height"]) / 2.0
        off = (target - middle) / reach
        return box["width"] / 2 + small * off @ across, box["height"] / 2 - small * off @ np.cross(toward, across)

    def spot(self, name: str, place: tuple[float, float, float]) -> None:
        """Set a spot under a name by a click."""
        field = self.lab.locator(".fw-spots").get_by_label("name of the next spot")
        field.fill(name)
        field.press("Tab")
        x, y = self.aim(place)
        self.canvas.click(position={"x": x, "y": y})
        expect(self.said("status")).to_contain_text(f"{name} is set at")

    def said(self, role: str) -> Locator:
        return self.lab.locator(f".fw-intake .widget-html [role={role}]")

    def step(self, title: str) -> Locator:
        """Open the form of a step."""
        self.lab.locator(".fw-intake .widget-toggle-button").get_by_text(title, exact=True).click()
        form = self.lab.locator(".fw-step")
        expect(form.get_by_role("button", name=title, exact=True)).to_be_visible()
        return form

    def do(self, form: Locator) -> None:
        form.get_by_role("button").last.click()
        expect(self.said("status").or_(self.said("alert"))).not_to_be_empty()


def stated(lab: Lab) -> Job:
    return Job.open(lab.folder / "garage.toml")


def test_a_scan_becomes_a_machine_that_moves(intake: Lab, tmp_path: Path) -> None:
    reader = Reader(intake)
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
    expect(reader.said("status")).to_contain_text("The pale surface is the swept envelope")
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
    reader = Reader(intake)
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
