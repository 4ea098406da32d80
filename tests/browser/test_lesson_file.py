"""A lesson in one file, opened from the disk without a network: its questions are answered, and axe finds no fault."""

import re
from pathlib import Path

import nbformat
import pytest
from axe_playwright_python.sync_playwright import Axe
from nbformat.v4 import new_code_cell, new_markdown_cell, new_notebook
from playwright.sync_api import Browser, expect

from kit.cli import main
from kit.core.errors import KitError
from kit.job.demo import example_job
from kit.teach.question import posed
from kit.ui.lesson.export import export_lesson

CELLS = (
    "from kit import Lesson, example_job, exercise\njob = example_job()\nlesson = Lesson.open(job)\nlesson",
    'lesson.ask("offcut_bin", "upright")',
    'lesson.figure(job.case("offcut_bin"))',
    'lesson.panel("offcut_bin")',
    'exercise(job.case("offcut_bin"), "miter", vary=["sides", "slope"])',
    "print(1 < 2)",
)


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("lesson")
    text = "# A bin\n\nSee [the next](30_folds.ipynb), and $x^2$.\n\n| a | b |\n|---|---|\n| 1 | <2 |"
    cells = [new_markdown_cell(text), *map(new_code_cell, CELLS)]
    nbformat.write(new_notebook(cells=cells), folder / "bin.ipynb")
    path = folder / "bin.html"
    assert main(["lesson", str(folder / "bin.ipynb"), "--out", str(path)]) == 0
    return path


def test_nothing_in_the_file_tells_an_answer_or_needs_anything_else(file: Path) -> None:
    html = file.read_text(encoding="utf-8")
    asked = posed(example_job(), "offcut_bin", "upright")
    assert asked.question.why not in html
    assert not [each for each in asked.question.options if each.why_not and each.why_not in html]
    sealed = re.findall(r'data-sealed="([^"]+)"', html)
    assert len({len(each) for each in sealed}) == 1
    assert len({*sealed}) == 3
    assert not re.findall(r'(?:src|href)="(?!#|data:)', html)
    assert "widget-view" not in html
    assert "Out[" not in html
    assert html.count("<figure") >= 2
    assert ">True" in html
    assert len(html) < 1_000_000


def test_a_question_is_answered_by_keyboard_offline(browser: Browser, file: Path) -> None:
    context = browser.new_context(offline=True)
    page = context.new_page()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.goto(file.as_uri())
    expect(page.locator("body")).to_contain_text("its exercises are worked on paper")
    asked = posed(example_job(), "offcut_bin", "upright")
    box = page.locator(".fw-sealed")
    expect(box.get_by_role("button", name="Commit")).to_be_disabled()
    box.locator("input").first.focus()
    page.keyboard.press("Space")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    found = asked.judge(asked.options[1])
    expect(box.get_by_role("status")).to_have_text(f"{'✓' if found.right else '✗'} {found.words}")
    expect(box.locator("input").first).to_be_disabled()
    faults = Axe().run(page).response["violations"]
    assert [(fault["id"], [node["html"][:120] for node in fault["nodes"][:3]]) for fault in faults] == []
    assert wrong == []
    context.close()


def test_a_notebook_that_is_not_there_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lesson", "80_long_stp", "--out", str(tmp_path / "x.html")]) == 2
    assert "did you mean '80_long_stop'" in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_a_notebook_that_fails_is_told_with_its_cell(tmp_path: Path) -> None:
    nbformat.write(new_notebook(cells=[new_code_cell("1 / 0")]), tmp_path / "bad.ipynb")
    with pytest.raises(KitError, match=r"bad\.ipynb, cell 1 fails: division by zero"):
        export_lesson(tmp_path / "bad.ipynb")
    with pytest.raises(KitError, match="cannot be read as a notebook"):
        export_lesson(tmp_path / "none.ipynb")
