"""The harness itself, on small throw-away notebooks: what it reports must be what happened."""

from pathlib import Path

import nbformat
import pytest
from nbformat.v4 import new_code_cell, new_notebook
from playwright.sync_api import Error, Page, expect

from tests.browser.conftest import NAMES, find_chromium
from tests.browser.lab import Lab
from tests.browser.latency import measure_latency

SLIDER = """
import time
import ipywidgets as w
slider = w.IntSlider(value=3, min=0, max=99)
slider.add_class("t-slider")
answer = w.HTML()
def show(change=None):
    if slider.value == 7:
        raise ValueError("seven is not served")
    if slider.value == 5:
        time.sleep(0.3)
    answer.value = f'<b data-testid="square">{slider.value ** 2}</b><i data-testid="same">same</i>'
slider.observe(show, "value")
show()
w.VBox([slider, answer])
"""

HANDLE = ".t-slider .noUi-handle"
SQUARE = "[data-testid=square]"


def write_notebook(path: Path, *cells: str) -> Path:
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}}
    nbformat.write(new_notebook(cells=[new_code_cell(cell) for cell in cells], metadata=kernel), path)
    return path


@pytest.fixture
def slider(lab: Lab, tmp_path: Path) -> Lab:
    """The notebook with one slider, run."""
    lab.open(write_notebook(tmp_path / "slider.ipynb", SLIDER), data=[])
    lab.run_all()
    return lab


def test_a_control_changes_the_page_and_a_failing_callback_is_reported(slider: Lab) -> None:
    handle = slider.locator(HANDLE)
    expect(slider.locator(SQUARE)).to_have_text("9")
    handle.press("ArrowRight")
    expect(slider.locator(SQUARE)).to_have_text("16")

    slider.theme("dark")
    assert slider.page.evaluate("() => document.body.dataset.jpThemeLight") == "false"
    slider.width(800)
    assert slider.page.evaluate("() => window.innerWidth") == 800
    png = slider.screenshot("slider").read_bytes()
    assert int.from_bytes(png[16:20]) == 800, "a PNG's width is the first number of its header"
    assert slider.errors() == []

    for square in ("25", "36"):
        handle.press("ArrowRight")
        expect(slider.locator(SQUARE)).to_have_text(square)
    handle.press("ArrowRight")
    slider.page.wait_for_function("() => window.kernelErrors.some(text => text.includes('seven'))")
    (report,) = slider.errors()
    assert report.startswith("ValueError: seven is not served")


@pytest.mark.long
def test_a_raising_cell_and_stderr_are_reported_and_the_data_lie_beside(lab: Lab, tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text("version = 1")
    cells = (
        "from pathlib import Path",
        "assert Path('job.toml').read_text() == 'version = 1'",
        "import warnings; warnings.warn('careful')",
        "1 / 0",
        "raise ValueError('not reached')",
    )
    lab.open(write_notebook(tmp_path / "faults.ipynb", *cells), data=[job])
    lab.run_all()
    warning, error = lab.errors()
    assert warning.startswith("stderr:")
    assert "careful" in warning
    assert error.startswith("ZeroDivisionError: division by zero")


@pytest.mark.long
def test_latency_holds_a_known_delay(slider: Lab) -> None:
    handle = slider.locator(HANDLE)
    to_four, to_five = measure_latency(slider.page, lambda _: handle.press("ArrowRight"), SQUARE, 2)
    assert to_four > 0
    assert to_five >= 300, "the callback sleeps 300 ms at five"


@pytest.mark.long
def test_latency_is_refused_for_what_does_not_change(slider: Lab, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tests.browser.latency.LIMIT", 500)
    handle = slider.locator(HANDLE)
    with pytest.raises(Error, match=r"nothing matches \.absent"):
        measure_latency(slider.page, lambda _: handle.press("ArrowRight"), ".absent", 1)
    with pytest.raises(Error, match="no input event"):
        measure_latency(slider.page, lambda _: None, SQUARE, 1)
    monkeypatch.setattr("tests.browser.latency.LIMIT", 5_000)  # within which the key arrives on a busy machine too
    with pytest.raises(Error, match="no change within 5000 ms"):
        measure_latency(slider.page, lambda _: handle.press("ArrowRight"), [SQUARE, "[data-testid=same]"], 1)


def test_a_sheet_opens_offline(page: Page, requests: list[str], tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.html"
    sheet.write_text('<h1>Sheet</h1><img src="data:image/gif;base64,R0lGODlhAQABAAAAACw=" alt="">')
    page.goto(sheet.as_uri())
    expect(page.locator("h1")).to_have_text("Sheet")
    assert requests == []


def test_a_request_of_a_sheet_is_recorded(page: Page, requests: list[str], tmp_path: Path) -> None:
    (tmp_path / "style.css").write_text("h1 { color: red }")
    sheet = tmp_path / "sheet.html"
    sheet.write_text('<link rel="stylesheet" href="style.css"><img src="http://sheet.invalid/a.png" alt="">')
    page.goto(sheet.as_uri())
    assert sorted(requests) == [(tmp_path / "style.css").as_uri(), "http://sheet.invalid/a.png"]
    requests.clear()


def test_no_browser_fails_on_a_build_machine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("FITWRIGHT_CHROMIUM", raising=False)
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.setenv("CI", "true")
    with pytest.raises(pytest.fail.Exception, match="no browser"):
        find_chromium()
    monkeypatch.delenv("CI")
    with pytest.raises(pytest.skip.Exception, match="no browser"):
        find_chromium()
    (tmp_path / NAMES[0]).touch(mode=0o755)
    assert find_chromium() == str(tmp_path / NAMES[0])
