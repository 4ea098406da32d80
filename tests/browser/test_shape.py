"""A panel with a shape in JupyterLab: it follows a key, is turned by buttons, and writes its files."""

from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests import DATA
from tests.browser.lab import Lab
from tests.browser.test_harness import write_notebook

PANEL = """
from kit.job import Job
from kit.ui.panel import panel
panel(job=Job.open("boatshed.toml"), part="{part}")
"""

TOO_WIDE = """() => [...document.querySelectorAll('.fw-panel *')].filter(e =>
    e.getBoundingClientRect().right > window.innerWidth + 1 && getComputedStyle(e).visibility !== 'hidden'
    && !e.closest('math, svg, .widget-readout, .fw-scroll')).map(e => e.className.toString()).slice(0, 5)"""


def opened(lab: Lab, folder: Path, part: str) -> Lab:
    lab.open(write_notebook(folder / "shape.ipynb", PANEL.format(part=part)), data=[DATA / "boatshed.toml"])
    lab.run_all()
    return lab


@pytest.fixture
def pad(lab: Lab, tmp_path: Path) -> Lab:
    """The pad under a foot of the saw, with its solid."""
    return opened(lab, tmp_path, "saw_pad_print")


def test_the_shape_follows_a_key_and_is_seen_from_another_side(pad: Lab) -> None:
    picture = pad.locator(".fw-slot svg").first
    expect(picture).to_be_visible()
    before = picture.inner_html()
    handle = pad.locator(".fw-panel .fw-field-lip_height .noUi-handle")
    handle.focus()
    handle.press("PageUp")
    pad.page.wait_for_function("before => document.querySelector('.fw-slot svg').innerHTML !== before", arg=before)
    turned = pad.locator(".fw-slot:has(.fw-space-still)").first
    seen = turned.locator("svg").inner_html()
    turned.get_by_role("button", name="top").click()
    pad.page.wait_for_function("seen => document.querySelector('.fw-space-still').innerHTML !== seen", arg=seen)
    assert pad.errors() == []


@pytest.mark.long
def test_files_are_written_by_a_button_and_named(pad: Lab) -> None:
    pad.locator(".fw-panel button:has-text('Write files')").click()
    expect(pad.locator(".fw-shape [role=status]").first).to_contain_text("Wrote sheets/files/saw_pad_print")
    names = {path.suffix for path in (pad.folder / "sheets" / "files").iterdir()}
    assert {".stl", ".3mf", ".pdf"} <= names
    assert pad.errors() == []


@pytest.mark.long
def test_it_is_readable_at_800_px(pad: Lab) -> None:
    pad.width(800)
    wide = pad.page.evaluate(TOO_WIDE)
    for _ in range(100):  # JupyterLab lays its columns out anew a moment after the window has changed
        if not wide:
            break
        pad.page.wait_for_timeout(100)
        wide = pad.page.evaluate(TOO_WIDE)
    assert wide == []
    pad.screenshot("shape-800", ".fw-panel")


@pytest.mark.long
def test_a_search_is_started_reports_and_is_stopped_with_the_best_so_far(lab: Lab, tmp_path: Path) -> None:
    packing = opened(lab, tmp_path, "skirt_cloth")
    said = packing.locator(".fw-shape [role=status]").first
    packing.locator(".fw-shape button:has-text('Pack')").click()
    expect(said).to_contain_text("%")
    packing.locator(".fw-shape button:has-text('Stop')").click()
    expect(said).to_contain_text("best so far")
    expect(packing.locator("[data-testid=shape-length]")).to_be_visible()
    assert packing.errors() == []
