"""Every notebook in JupyterLab, used as by a person: run it, predict, move a control, answer, export a sheet.

What a page costs grows with what stands in it: of most notebooks it holds what is operated. Every cell of each runs in
`tests/notebooks/test_run.py`; in the page one notebook is run whole, with `-m bench` all of them. Every day that one
is operated, the others by `-m long`.
"""

import re
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest
from playwright.sync_api import Locator, Page, expect

from kit.job.demo import example_job
from tests import NOTEBOOKS
from tests.browser.lab import Lab, unfold
from tests.notebooks.excerpt import excerpt


class First(NamedTuple):
    """The first panel of a notebook: a given to move, a result that follows, and the part of the job."""

    given: str
    result: str
    part: str


FIRST = {
    "10_envelope": First("arm", "reach_most", "saw_reach"),
    "15_hood": First("left", "clear", "hood"),
    "20_bevels": First("slope", "tilt", "offcut_bin"),
    "30_folds": First("inside_radius", "flat_length", "tray"),
    "34_cloth_hood": First("chord_error", "facet", "brow_skin"),
    "36_drop_chute": First("height", "slope_left", "drop_chute"),
    "40_cutting": First("density", "roll_length", "skirt_cloth"),
    "42_squareness": First("fence_end", "out_of_square", "blade_square"),
    "50_levelling": First("stack", "depth", "gap_near"),
    "60_grooves": First("width", "spacing", "track_guides"),
    "70_scales_and_stop": First("datum", "cut_mark", "scale_zero"),
    "80_long_stop": First("long_reach", "tip_error", "long_stop"),
    "85_shelves": First("load", "sag", "oar_shelf"),
    "86_bench_and_people": First("elbow", "highest", "bench_height"),
    "87_air": First("distance", "capture_flow", "hood_flow"),
    "88_fastening": First("push", "used", "shelf_screws"),
    "89_finish": First("area", "volume", "hood_oil"),
    "90_knob": First("effort", "axial_force", "knob_torque"),
    "95_accuracy": First("tape", "expanded", "cut_accuracy"),
    "class_hour": First("slope", "tilt", "offcut_bin"),
}


PAGES = {"00_start", "class_instructor"}  # see test_page.py and test_classroom.py
LESSONS = sorted(path for path in NOTEBOOKS.glob("*.ipynb") if path.stem not in PAGES)


WHOLE = [path for path in LESSONS if path.stem == "85_shelves"]
EVERY_DAY = ("85_shelves",)


def named(path: Path) -> str:
    return path.stem


@pytest.mark.parametrize(
    "path",
    [pytest.param(path, marks=[] if path.stem in EVERY_DAY else [pytest.mark.long]) for path in LESSONS],
    ids=named,
)
def test_a_notebook_is_operated_and_its_sheet_opens_offline(
    lab: Lab, page: Page, path: Path, tmp_path: Path, working_copy: Callable[..., Path]
) -> None:
    assert path.stem in FIRST, "name the notebook's first panel above, so that this test can operate it"
    whole = path in WHOLE
    lab.open(path if whole else excerpt(working_copy(path, data=[], into=tmp_path / "excerpt")))
    operate(lab, page, FIRST[path.stem])


@pytest.mark.bench
@pytest.mark.parametrize("path", [path for path in LESSONS if path not in WHOLE], ids=named)
def test_a_whole_notebook_is_operated_and_its_sheet_opens_offline(lab: Lab, page: Page, path: Path) -> None:
    lab.open(path)
    operate(lab, page, FIRST[path.stem])


def operate(lab: Lab, page: Page, first: First) -> None:
    """Run what is open, answer its question, move its first panel, try its exercise, and open the exported sheet."""
    lab.run_all()
    assert lab.errors() == []

    predict(lab.locator(".fw-predicting").first)
    panel = lab.locator(".fw-live").first
    move(panel, first)
    answer(lab)

    panel.get_by_role("button", name="Export sheet").click()
    expect(panel.locator(".fw-saving")).to_contain_text(f"wrote sheets/{first.part}.html")
    shown = panel.locator(f"[data-testid=value-{first.result}]").inner_text()
    assert lab.errors() == []

    page.goto((lab.folder / "sheets" / f"{first.part}.html").as_uri())
    expect(page.locator(f"[data-testid=value-{first.result}]")).to_have_text(shown)
    expect(page.locator("figure svg").first).to_be_visible()


def predict(question: Locator) -> None:
    """Choose by keyboard; only who commits is told, and the keys stay away from the notebook."""
    cells = question.page.locator(".jp-Cell").count()
    expect(question.get_by_role("button", name="Commit")).to_be_disabled()
    question.locator("input").first.focus()
    question.page.keyboard.press("Space")
    question.page.keyboard.press("ArrowDown")
    expect(question.locator("input").nth(1)).to_be_checked()
    question.page.keyboard.press("Tab")
    question.page.keyboard.press("Enter")
    expect(question.get_by_role("status")).to_contain_text(re.compile("[✓✗] .+"))
    expect(question.locator("input").first).to_be_disabled()
    assert question.page.locator(".jp-Cell").count() == cells


def move(panel: Locator, first: First) -> None:
    """Press a key on a slider: number, formula and figure must be others."""
    relations = list(example_job().model(first.part).relations)
    panel.locator(".fw-shown select").select_option(index=relations.index(first.result))
    expect(panel.locator(f"[data-testid=derived-{first.result}]")).to_be_visible()
    watched = [
        panel.locator(f"[data-testid=value-{first.result}]"),
        panel.locator("[data-testid=formula]"),
        panel.locator("[data-testid=figure] svg"),
    ]
    before = [element.inner_html() for element in watched]
    unfold(panel)
    handle = panel.locator(f".fw-field-{first.given} .noUi-handle")
    handle.focus()
    for _ in range(3):
        handle.press("ArrowRight")
    for element, html in zip(watched, before, strict=True):
        for _ in range(300):  # replaced as a whole, so it is looked up anew each time
            if element.inner_html() != html:
                break
            panel.page.wait_for_timeout(100)
        assert element.inner_html() != html


def answer(lab: Lab) -> None:
    """Give a wrong kind of answer and a wrong number to the exercise: both are told, in words."""
    box = lab.locator(".fw-answering input").first
    said = lab.locator(".fw-answering [role=status]").first
    for typed, told in (("5 kg", "kg"), ("0", "too small")):
        box.fill(typed)
        box.press("Enter")
        expect(said).to_contain_text(told)
