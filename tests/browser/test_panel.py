"""A panel in JupyterLab, operated as by a person: keyboard, typed text, wrong text, save, export, no kernel."""

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests import DATA
from tests.browser.lab import Lab
from tests.browser.test_harness import write_notebook

PANEL = """
from kit.job import Job
from kit.ui.panel import panel
made = panel(job=Job.open("boatshed.toml"), part="long_stop")
made
"""
TIP = "[data-testid=value-tip_error]"
VERDICT = ".fw-panel [data-testid=verdict]"


def field(name: str) -> str:
    return f".fw-panel .fw-field-{name}"


@pytest.fixture
def stop(lab: Lab, tmp_path: Path) -> Lab:
    """The demo's long stop in a panel."""
    lab.open(write_notebook(tmp_path / "stop.ipynb", PANEL), data=[DATA / "boatshed.toml"])
    lab.run_all()
    return lab


def test_a_key_changes_number_formula_and_figure(stop: Lab) -> None:
    handle = stop.locator(f"{field('push')} .noUi-handle")
    watched = [TIP, ".fw-panel [data-testid=formula]", ".fw-panel [data-testid=figure] svg"]
    before = [stop.locator(selector).first.inner_html() for selector in watched]
    handle.focus()
    handle.press("ArrowRight")
    expect(stop.locator(TIP)).not_to_have_text(before[0])
    for selector, html in zip(watched, before, strict=True):
        assert stop.locator(selector).first.inner_html() != html, selector
    assert stop.errors() == []


def test_typed_text_and_wrong_text(stop: Lab) -> None:
    entry = stop.locator(f"{field('long_reach')} input[type=text]")
    entry.fill("2 ft")
    entry.press("Enter")
    expect(stop.locator(".fw-panel")).to_contain_text("a = 609.6 mm")  # 2 ft by definition
    tip = stop.locator(TIP).inner_text()
    entry.fill("2 kg")
    entry.press("Enter")
    expect(stop.locator(f"{field('long_reach')} [role=alert]")).to_contain_text("2 kg")
    expect(stop.locator(TIP)).to_have_text(tip)
    assert stop.errors() == []


def test_everything_is_reached_by_keyboard(stop: Lab) -> None:
    stop.locator(".fw-panel select, .fw-panel input").first.focus()
    reached = set()
    for _ in range(150):
        reached.add(
            stop.page.evaluate(
                "() => { const e = document.activeElement; return e.closest('.fw-panel') ? "
                "e.title || e.textContent || e.type : null }"
            )
        )
        stop.page.keyboard.press("Tab")
    for button in ("Solve", "Save to job", "Export sheet", "Reset"):
        assert any(button in str(text) or _tip(button) in str(text) for text in reached), (button, reached)


def _tip(button: str) -> str:
    return {
        "Solve": "find the given",
        "Save to job": "write what changed",
        "Export sheet": "write the worked sheet",
        "Reset": "go back",
    }[button]


@pytest.mark.long
def test_saved_exported_and_opened_offline(stop: Lab, page: Page) -> None:
    entry = stop.locator(f"{field('push')} input[type=text]")
    entry.fill("75 N")
    entry.press("Enter")
    stop.locator(".fw-panel button:has-text('Save to job')").click()
    expect(stop.locator(".fw-saving")).to_contain_text("saved sideways push")
    assert "75 N" in (stop.folder / "boatshed.toml").read_text(encoding="utf-8")
    stop.locator(".fw-panel button:has-text('Export sheet')").click()
    expect(stop.locator(".fw-saving")).to_contain_text("wrote sheets")
    (sheet,) = (stop.folder / "sheets").glob("*.html")
    page.goto(sheet.as_uri())
    expect(page.locator("h1")).to_be_visible()
    expect(page.locator("body")).to_contain_text("75 N")
    assert stop.errors() == []


@pytest.mark.long
def test_it_is_readable_at_800_px_and_in_the_dark(stop: Lab) -> None:
    stop.width(800)
    for theme in ("light", "dark"):
        stop.theme(theme)
        wide = stop.page.evaluate(
            "() => [...document.querySelectorAll('.fw-panel *')].filter(e => "
            "e.getBoundingClientRect().right > window.innerWidth + 1 && getComputedStyle(e).visibility !== 'hidden' "
            "&& !e.closest('math, .widget-readout')).map(e => e.className.toString()).slice(0, 5)"
        )
        assert wide == [], theme
        stop.screenshot(f"panel-800-{theme}", ".fw-panel")
    # the verdict stands above the controls and so in sight of them
    box = stop.locator(VERDICT).bounding_box()
    first = stop.locator(".fw-panel .fw-field").first.bounding_box()
    assert box
    assert first
    assert box["y"] < first["y"] < box["y"] + 300
    assert stop.errors() == []


@pytest.mark.long
def test_without_a_kernel_the_static_view_is_shown_instead(stop: Lab) -> None:
    expect(stop.locator(".fw-static")).to_be_hidden()
    tip = stop.locator(TIP).inner_text()
    stop.page.evaluate("() => window.jupyterapp.shell.currentWidget.context.save()")
    (stop.folder / "stop.ipynb").rename(stop.folder / "stored.ipynb")  # of which no kernel knows
    page = stop.page.context.new_page()
    page.goto(f"{stop.server.url}doc/tree/{stop.folder.name}/stored.ipynb?reset&kernel=none")
    static_view = page.locator(".fw-static")
    expect(static_view).to_be_visible(timeout=120_000)
    expect(static_view).to_contain_text(tip)
    stop.screenshot("panel-static", page)
    page.close()


@pytest.mark.long
def test_a_list_is_opened_and_edited_by_keyboard_and_saved(lab: Lab, tmp_path: Path) -> None:
    cell = PANEL.replace("long_stop", "bed_plane")
    lab.open(write_notebook(tmp_path / "bed.ipynb", cell), data=[DATA / "boatshed.toml"])
    lab.run_all()
    lab.page.set_viewport_size({"width": 800, "height": 1000})
    opening = lab.locator(".fw-inputs").get_by_role("button", name="Lists and options")
    opening.focus()
    opening.press("Enter")
    depth = lab.locator(".fw-inputs").get_by_title("row 1").nth(2)
    depth.focus()
    depth.fill("deep")
    depth.press("Tab")
    expect(lab.locator(".fw-inputs [role=alert]")).to_contain_text("deep")
    depth.fill("2.9 mm")
    depth.press("Tab")
    expect(lab.locator(".fw-inputs [role=alert]")).to_have_count(0)
    lab.locator(".fw-panel").get_by_role("button", name="Save to job").press("Enter")
    expect(lab.locator(".fw-saving")).to_contain_text("saved gaps")
    table = lab.locator(".fw-inputs").bounding_box()
    assert table is not None
    assert table["x"] + table["width"] <= 800, "a wide table scrolls in its own box"
    assert lab.errors() == []
