"""A station from an empty folder to the book, by mouse and keyboard alone: no code, no TOML."""

import re
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, expect

from kit.cli import main
from kit.job import Job
from tests.browser.lab import THEMES
from tests.browser.opened import Builder, opened
from tests.browser.reader import Reader
from tests.ui.intake.machine import SPOTS, write_machine

MOST_CLICKS = 12
LONG = 120_000  # milliseconds for what computes
GOALS = (
    "Where the machine moves",
    "The hood over the machine",
    "Cloth cut flat",
    "Leveling the machine",
    "Long stops",
)
RIM = 140.0  # mm, on the turntable
PLACES = {
    "bed left": SPOTS["bed 1"],
    "bed right": SPOTS["bed 2"],
    "bed back": SPOTS["bed 3"],
    "axis": SPOTS["axis"],
    "rim front": (0.0, -RIM, 60.0),
    "rim right": (RIM * np.cos(0.3), RIM * np.sin(0.3), 60.0),
    "rim left": (-RIM * np.cos(0.3), RIM * np.sin(0.3), 60.0),
    "arm": (30.0, 100.0, 200.0),
}
GAPS = (
    ("60 mm", "300 mm", "2.94 ± 0.1 mm"),
    ("640 mm", "300 mm", "2.63 ± 0.1 mm"),
    ("350 mm", "60 mm", "2.49 ± 0.1 mm"),
)
COLUMNS = ("place along the bed", "place across the bed", "depth below the line of the supports")
FEET = "name\tx\ty\nfront left\t60 mm\t40 mm\nfront right\t640 mm\t40 mm\nback\t350 mm\t500 mm\n"

WHOLE = """format = 2
[job]
name = "{name}"
[work]
day = "3 h"
[[work.tasks]]
name = "plane the wing"
part = "wing"
takes = "2 ± 0.5 h"
dry = "12 h"
check = "no light under a straightedge"
[[work.tasks]]
name = "glue the tape on"
after = ["plane the wing"]
takes = "1 h"
[parts.wing]
model = "support.wing"
title = "Wing on the right"
[parts.stop]
model = "stop.deflection"
title = "Stop with its rib"
[parts.stop.built]
tip_error = "2 ± 0.1 mm"
[parts.stop.givens]
long_reach = "{reach}"
[parts.tape]
model = "scale.tape"
title = "Tape of the fence"
"""


@pytest.fixture
def builder(browser: Browser, tmp_path: Path) -> Iterator[Builder]:
    """Somebody before the page that `fitwright open` shows of an empty folder."""
    with opened(tmp_path / "station", tmp_path / "home") as address:
        builder = Builder(browser, address)
        yield builder
        builder.leave()


@pytest.mark.long
def test_a_station_from_an_empty_folder(builder: Builder, tmp_path: Path) -> None:
    station = tmp_path / "station"
    make_job(builder)
    see_a_number(builder)
    take_in_the_scan(builder, write_machine(tmp_path / "saw.stl"))
    propose_the_hood(builder)
    level_the_bed(builder)
    print_a_pad(builder)
    solve_the_stop(builder)
    cut_the_chute(builder)
    write_the_book(builder)
    look_in_the_dark(builder)
    read_a_lesson(builder)
    assert builder.faults() == []

    path = station / "mitre_saw_in_a_garage.toml"
    assert main(["check", str(path)]) == 0
    job = Job.open(path)
    build = job.build("sweep_step")
    assert build is not None
    # The arm's end stands 250 mm before the axis and 30 mm beside it; clicks aim within some pixels of 2 mm.
    assert build.number("reach").base == pytest.approx(np.hypot(250.0, 30.0), abs=6.0)
    assert job.case("stop_deflection").base["tip_error"] == pytest.approx(0.3, abs=1e-3)
    files = {path.name for path in (station / "sheets" / "files").iterdir()}
    assert {"hood_shape_front_fullsize.dxf", "level_print.stl", "cloth_chute_pattern_fullsize_A4.pdf"} <= files
    assert {f"{part}.html" for part in job.parts} <= {path.name for path in (station / "book").iterdir()}


@pytest.fixture
def between(browser: Browser, tmp_path: Path) -> Iterator[Builder]:
    """Somebody before that page, of a folder with two jobs that are alike but for a length."""
    (tmp_path / "station").mkdir()
    for name, reach in (("this year", "640 mm"), ("last year", "600 mm")):
        path = tmp_path / "station" / f"{name.replace(' ', '_')}.toml"
        path.write_text(WHOLE.format(name=name, reach=reach), encoding="utf-8")
    with opened(tmp_path / "station", tmp_path / "home") as address:
        builder = Builder(browser, address)
        yield builder
        builder.leave()


@pytest.mark.long
def test_a_body_is_stated_by_typing_and_choosing(between: Builder, tmp_path: Path) -> None:
    between.click(between.page.get_by_title("open this_year.toml"))
    between.press("Show the station")
    form = between.page.locator(".fw-station")
    between.choose(form.get_by_role("combobox", name="Part"), "Tape of the fence")
    between.type(form.get_by_role("textbox", name="mass"), "3 kg")
    between.press("Add row", ".fw-station")
    for corner, text in (("x", "600 mm"), ("y", "-400 mm"), ("z", "38 mm")):
        between.type(form.get_by_title(f"{corner} of the high corner, row 1"), text)
    expect(form.get_by_role("alert").filter(has_text="not beyond the low one in y")).to_be_visible()
    assert between.findings() == []
    between.type(form.get_by_title("y of the high corner, row 1"), "400 mm")
    expect(form.get_by_role("alert")).to_have_count(0)
    between.press("Place it here")
    expect(form.locator("iframe")).to_be_visible(timeout=LONG)
    expect(form.get_by_role("row").filter(has_text="Together")).to_contain_text("3 kg")
    between.photograph("body")
    part = Job.open(tmp_path / "station" / "this_year.toml").parts["tape"]
    assert part.body == {"mass": "3 kg", "boxes": [[["0 mm"] * 3, ["600 mm", "400 mm", "38 mm"]]]}
    between.click(between.page.get_by_role("button", name=re.compile("^Undo")))
    expect(form.get_by_role("row").filter(has_text="Together")).to_have_count(0, timeout=LONG)
    expect(form.get_by_role("textbox", name="mass")).to_have_value("3 kg")
    assert between.faults() == []


@pytest.mark.long
def test_a_whole_job_tells_its_lists_and_what_another_one_has_otherwise(between: Builder) -> None:
    between.click(between.page.get_by_title("open this_year.toml"))
    expect(between.title).to_have_text("this year")
    between.press("Show the lists")
    between.press("Compare")
    whole, beside = between.page.locator(".fw-page"), between.page.locator(".fw-compare")
    for title in ("Weight", "Shopping list", "Cut list", "Order of work", "As built"):
        expect(whole.get_by_role("heading", name=title, exact=True)).to_be_visible(timeout=LONG)
    expect(whole.get_by_role("row").filter(has_text="840 mm × 60 mm × 40 mm")).to_contain_text("stop block")
    expect(whole.get_by_role("row").filter(has_text="glue the tape on").first).to_contain_text("day 2")
    expect(beside).to_contain_text("600.0 ± 1 mm", timeout=LONG)
    between.press("Change the tasks")
    tasks = between.page.locator(".fw-tasks")
    between.type(tasks.get_by_title("how long it takes, with its ±, row 2"), "4 h")
    expect(tasks).to_contain_text("6 h of work for one")
    between.type(tasks.get_by_title("the tasks that come before it, row 1"), "glue the tape on")
    wrong, field = tasks.get_by_role("alert").filter(has_text="in a circle"), tasks.locator(".fw-faulty")
    expect(wrong).to_be_visible()
    boxes = wrong.bounding_box(), field.bounding_box()
    assert boxes[0] is not None
    assert boxes[1] is not None
    assert abs(boxes[0]["x"] - boxes[1]["x"]) < 20, "what is wrong stands below its field"
    expect(tasks.get_by_role("img", name="Network of tasks")).to_be_visible()
    between.photograph("whole")
    between.width(800)
    for theme in THEMES:
        between.theme(theme)
        assert between.findings() == []
    assert between.page.evaluate(WIDE) == []
    assert between.faults() == []


def make_job(builder: Builder) -> None:
    builder.photograph("empty")
    assert builder.findings() == []
    builder.type(builder.page.get_by_label("The machine, and where it stands"), "mitre saw in a garage")
    for goal in GOALS:
        builder.click(builder.page.get_by_text(goal, exact=True))
    builder.press("Make this job")
    expect(builder.title).to_have_text("mitre saw in a garage")


def see_a_number(builder: Builder) -> None:
    builder.part("Tip error of a long stop block")
    before = builder.value("tip_error").inner_text()
    builder.set("push", "75 N")
    expect(builder.value("tip_error")).not_to_have_text(before)
    assert builder.clicks <= MOST_CLICKS
    builder.photograph("first-number")
    assert builder.findings() == []
    builder.parts()
    expect(builder.page.locator(".fw-page .fw-parts")).not_to_contain_text("not computed yet", timeout=LONG)
    builder.photograph("parts")


def take_in_the_scan(builder: Builder, scan: Path) -> None:
    builder.part("What hides between the positions")
    builder.drop(builder.page.locator(".fw-upload"), scan)
    expect(builder.page.locator(".fw-upload [role=status]")).to_contain_text("saw.stl is read")
    reader = Reader(builder.page)
    for name, place in PLACES.items():
        reader.spot(name, place)
    builder.photograph("spots")
    scale(builder, reader)
    set_upright(builder, reader)
    joint_the_arm(builder, reader)
    builder.press("Work out the swept envelope")
    expect(reader.said("status")).to_contain_text("The pale surface is the swept envelope", timeout=LONG)
    builder.photograph("envelope")
    builder.parts()


def scale(builder: Builder, reader: Reader) -> None:
    form = reader.step("Scale")
    builder.choose(form.get_by_label("from the spot"), "bed left")
    builder.choose(form.get_by_label("to the spot"), "bed right")
    builder.type(form.get_by_label("measured length"), "500")
    reader.do(form)
    expect(reader.said("alert")).to_contain_text("without its uncertainty")
    builder.type(form.get_by_label("measured length"), "500 ± 1 mm")
    reader.do(form)
    expect(reader.said("status")).to_contain_text("in one unit of the scan")
    builder.photograph("scaled")


def set_upright(builder: Builder, reader: Reader) -> None:
    form = reader.step("Upright")
    builder.choose(form.get_by_label("spots of the bed"), "bed left", "bed right", "bed back")
    builder.choose(form.get_by_label("a spot in front of the axis"), "rim front")
    builder.choose(form.get_by_label("a spot on the axis"), "axis")
    lying = reader.canvas.get_attribute("data-surfaces") or ""
    reader.do(form)
    expect(reader.said("status")).to_contain_text("3 points of the bed")
    expect(reader.canvas).not_to_have_attribute("data-surfaces", lying)
    reader.scanned = False
    builder.photograph("upright")


def joint_the_arm(builder: Builder, reader: Reader) -> None:
    form = reader.step("Joint by a circle")
    builder.choose(form.get_by_label("spots on the circle"), "rim front", "rim right", "rim left")
    reader.do(form)
    expect(reader.said("status")).to_contain_text("Joint swing: turns from")
    form = reader.step("Moving part by a piece")
    builder.choose(form.get_by_label("which it rides"), "swing")
    builder.choose(form.get_by_label("a spot on each piece"), "rim front", "arm")
    reader.do(form)
    expect(reader.said("status")).to_contain_text("Part head")
    slider = builder.page.locator(".fw-moving .noUi-handle")
    slider.focus()
    for _ in range(4):
        slider.press("PageUp")
    builder.photograph("arm")
    assert builder.findings() == []
    builder.press("Greatest is here", within=".fw-moving")
    expect(reader.said("status")).to_contain_text("Joint swing: turns from")
    expect(builder.page.locator(".fw-moving")).not_to_contain_text("limits 0 to 45 deg")
    builder.click(builder.page.locator(".fw-intake").get_by_role("button", name="Undo limits"))
    expect(builder.page.locator(".fw-moving")).to_contain_text("limits 0 to 45 deg")


def propose_the_hood(builder: Builder) -> None:
    builder.part("Hood of leaning boards over a machine")
    builder.set("brow_height", "200 mm")
    builder.press("Propose")
    expect(builder.told("proposed")).to_be_visible(timeout=LONG)
    builder.photograph("hood")
    builder.set("slope_left", "76 deg")
    expect(builder.value("width_left")).to_contain_text("309")  # 300 mm over the sine of 76°
    builder.press("Certify the clearance")
    expect(builder.told("Certify the clearance: done")).to_be_visible(timeout=LONG)
    expect(builder.verdict).to_contain_text("All 16 limits hold")
    builder.photograph("certified")
    builder.press("Boards")
    expect(builder.files).to_contain_text("hood_shape_front_fullsize.dxf", timeout=LONG)
    builder.photograph("boards")
    builder.parts()


def level_the_bed(builder: Builder) -> None:
    builder.part("Plane of the bed from three gaps")
    builder.press("Lists and options")
    for number, row in enumerate(GAPS, start=1):
        builder.press("Add row")
        for column, text in zip(COLUMNS, row, strict=True):
            builder.type(
                builder.page.locator(f".fw-input-grid input[title^='{column}'][title$=', row {number}']"), text
            )
    expect(builder.verdict).to_contain_text("17 of 26 values are examples", timeout=LONG)
    builder.photograph("gaps")
    assert builder.findings() == []
    builder.parts()
    builder.part("Height of a pad under a foot")
    builder.press("Lists and options")
    builder.press("Paste rows")
    builder.click(builder.page.get_by_title("rows of feet, as copied from a spreadsheet"))
    builder.page.keyboard.insert_text(FEET)
    builder.press("Add these rows")
    expect(builder.verdict).to_contain_text("7 of 14 values are examples", timeout=LONG)
    builder.photograph("feet")
    builder.parts()


def print_a_pad(builder: Builder) -> None:
    builder.press("Add a part")
    builder.click(builder.page.get_by_label("What do you want to know?"))
    builder.page.keyboard.type("print of a pad")
    builder.click(builder.page.get_by_title("add a part: Printed pad with a lip"))
    expect(builder.title).to_have_text("Printed pad with a lip")
    builder.click(builder.page.get_by_title("what comes from other parts and the machine"))
    builder.choose(builder.page.get_by_label("A value of this part"), "height of the pad under the foot")
    source = builder.page.get_by_label("comes from", exact=True)
    best = source.locator("option").nth(1)
    expect(best).to_contain_text("height of the pad to make".replace(" ", "\u00a0"))
    builder.choose(source, best.inner_text())
    builder.press("Take it from there")
    expect(builder.page.get_by_title("what comes from other parts and the machine")).to_contain_text("(1)")
    builder.press("Solid")
    expect(builder.files).to_contain_text("level_print.stl", timeout=LONG)
    builder.photograph("pad")
    builder.parts()


def solve_the_stop(builder: Builder) -> None:
    builder.part("Tip error of a long stop block")
    expect(builder.page.locator(".noUi-handle[aria-label*='arrow keys move it']").first).to_be_attached(timeout=LONG)
    expect(builder.page.locator(".noUi-handle:not([aria-label])")).to_have_count(0, timeout=LONG)
    solving = builder.page.locator(".fw-solving")
    builder.choose(solving.get_by_title("the given to find"), "how far the rib stands off its face; 0 for none")
    builder.choose(solving.get_by_title("the result that is to take a value"), "tip error in all")
    builder.type(solving.get_by_title("the value that the result is to take"), "0.3 mm")
    builder.press("Solve")
    taking = solving.get_by_role("button", name=re.compile("^Take [0-9.]+ mm"))
    expect(taking).to_be_visible(timeout=LONG)
    builder.click(taking)
    expect(builder.value("tip_error")).to_contain_text("0.30", timeout=LONG)
    builder.photograph("stop")
    builder.parts()


def cut_the_chute(builder: Builder) -> None:
    builder.part("Drop chute from a rectangle to a hose")
    builder.press("Pattern")
    expect(builder.files).to_contain_text("cloth_chute_pattern_fullsize_A4.pdf", timeout=LONG)
    builder.photograph("chute")
    builder.parts()


def write_the_book(builder: Builder) -> None:
    builder.press("Write the station book")
    expect(builder.files).to_contain_text("book/index.html", timeout=LONG)
    builder.photograph("book")
    with builder.page.context.expect_page() as shown:
        builder.click(builder.files.get_by_role("link", name="book/index.html"))
    expect(shown.value.locator("body")).to_contain_text("Printed pad with a lip")
    assert Axe().run(shown.value).response["violations"] == []
    shown.value.close()


def look_in_the_dark(builder: Builder) -> None:
    builder.part("Hood of leaning boards over a machine")
    builder.width(800)
    for theme in THEMES:
        builder.theme(theme)
        assert builder.findings() == []
    assert builder.page.evaluate(WIDE) == []
    builder.theme("light")
    builder.width(1300)


def read_a_lesson(builder: Builder) -> None:
    """A lesson knows the job that is open; this one's part is not in it."""
    builder.lesson("85_shelves")
    expect(builder.page.locator(".fw-lesson").first).to_contain_text("mitre saw in a garage")
    builder.photograph("lesson")
    assert builder.findings() == []


WIDE = """() => [...document.querySelectorAll('.fw-page *')].filter(each =>
    each.getBoundingClientRect().right > window.innerWidth + 1 && getComputedStyle(each).visibility !== 'hidden' &&
    !each.closest('math, .widget-readout, .fw-scroll, .fw-input-scroll')
).map(each => each.className.toString()).slice(0, 5)"""
