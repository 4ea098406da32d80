"""A class in the browser: a pupil signs in, predicts and measures, the instructor makes sheets and reads answers.

All by keyboard; axe looks at what stands there.
"""

import json
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Locator, expect

from kit.teach.answers import keep, sign_in
from tests.browser.lab import Lab
from tests.browser.test_harness import write_notebook

pytestmark = pytest.mark.long

PUPIL = """from kit import Lesson, SignIn, example_job, exercise
from IPython.display import display
lesson = Lesson.open(example_job())
frame = example_job().case("offcut_bin")
display(lesson, SignIn(), lesson.ask("offcut_bin", "other_width"), lesson.measure(frame, "height"))
display(exercise(frame, "miter", vary=["sides", "slope"]))"""
INSTRUCTOR = """from kit import class_answers, worksheet_maker
from IPython.display import display
display(worksheet_maker(), class_answers())"""


def faults(lab: Lab) -> list[tuple[str, list[str]]]:
    """Return what axe finds in what the kit shows; the frame round it is JupyterLab's own."""
    found = Axe().run(lab.page, context=".fw-panel").response["violations"]
    return [(fault["id"], [node["html"][:160] for node in fault["nodes"][:3]]) for fault in found]


def reached(lab: Lab, wanted: Locator) -> Locator:
    """Press Tab until something has the focus."""
    for _ in range(80):
        if wanted.evaluate("element => element === document.activeElement"):
            return wanted
        lab.page.keyboard.press("Tab")
    raise AssertionError("Tab does not lead there")


def test_a_pupil_signs_in_predicts_and_measures(lab: Lab, tmp_path: Path) -> None:
    lab.open(write_notebook(tmp_path / "pupil.ipynb", PUPIL))
    lab.run_all()
    press = lab.page.keyboard.press
    name = lab.locator(".fw-sign-in input")
    name.focus()
    lab.page.keyboard.type("Ann Example")
    reached(lab, lab.locator(".fw-sign-in button"))
    press("Enter")
    expect(lab.locator(".fw-sign-in")).to_contain_text("kept as those of Ann Example")
    reached(lab, lab.locator(".fw-predicting input").first)
    press("Space")
    assert "no:" not in lab.locator(".fw-predicting").inner_text()
    reached(lab, lab.locator(".fw-predicting button"))
    press("Enter")
    expect(lab.locator(".fw-predicting [role=status]")).to_contain_text("tilt stays")
    reached(lab, lab.locator(".fw-measuring input"))
    lab.page.keyboard.type("150 ± 1 mm")
    press("Enter")
    expect(lab.locator(".fw-measuring [role=status]")).to_contain_text("do not agree")
    assert faults(lab) == []
    lab.screenshot("pupil")
    assert lab.errors() == []
    kept = (lab.folder / "answers" / "ann_example.jsonl").read_text(encoding="utf-8").splitlines()
    assert [json.loads(line)["kind"] for line in kept] == ["predict", "measure"]


def test_the_instructor_makes_sheets_and_reads_answers(lab: Lab, tmp_path: Path) -> None:
    lab.open(write_notebook(tmp_path / "instructor.ipynb", INSTRUCTOR))
    sign_in("Ann Example", lab.folder)
    keep("predict", "bevel.frame", "which change?", "none", True, folder=lab.folder)
    lab.run_all()
    lab.locator(".fw-classroom textarea").focus()
    lab.page.keyboard.type("Ann Example\nBea Example")
    press = lab.page.keyboard.press
    make = lab.locator(".fw-classroom").get_by_role("button", name="Make the worksheets")
    reached(lab, make)
    press("Enter")
    expect(lab.locator(".fw-classroom").first).to_contain_text("2 sheets are in the folder", timeout=120_000)
    lab.screenshot("worksheets")
    reached(lab, lab.locator(".fw-classroom").get_by_role("button", name="Read the answers"))
    press("Enter")
    expect(lab.locator(".fw-classroom").last).to_contain_text("answers read: 1, pupils: 1")
    assert faults(lab) == []
    lab.screenshot("instructor")
    assert lab.errors() == []

    page = lab.page.context.new_page()
    for folder in (lab.folder / "worksheets", lab.folder / "worksheets" / "key"):
        page.goto(min(folder.glob("*.html")).as_uri())
        found = Axe().run(page).response["violations"]
        assert [(fault["id"], [node["html"][:120] for node in fault["nodes"][:3]]) for fault in found] == []
    page.close()
