"""Where values come from, stated in the browser: by mouse and by keyboard, refused entries, files of what fails."""

from pathlib import Path

import pytest
from playwright.sync_api import expect

from kit.core.quantity import unit
from kit.job import Job
from kit.station.shop import add_entry
from tests.browser.lab import Lab
from tests.browser.test_harness import write_notebook

pytestmark = pytest.mark.long

JOB = """format = 2
[job]
name = "Bench"
[parts.bed]
model = "level.plane"
gaps = [{ x = "300 mm", y = "200 mm", depth = "1.1 ± 0.1 mm" }]
[parts.knob]
model = "knob.outline"
[parts.knob.givens]
outer_radius = "30 ± 0.5 mm"
"""
PANELS = """
from kit.core.quantity import unit
from kit.job import Job
from kit.station.shop import add_entry
from kit.ui.panel import panel
made = panel(job=Job.open("bench.toml"), part="knob")
made
"""
SECOND = "panel(job=Job.open('bench.toml'), part='bed')"


def test_an_origin_is_stated_by_mouse_and_by_keys_and_a_refusal_blocks(lab: Lab, tmp_path: Path) -> None:
    (tmp_path / "bench.toml").write_text(JOB, encoding="utf-8")
    lab.open(write_notebook(tmp_path / "origins.ipynb", PANELS, SECOND), data=[tmp_path / "bench.toml"])
    lab.run_all()
    job, knob, bed = lab.folder / "bench.toml", lab.locator(".fw-panel").nth(0), lab.locator(".fw-panel").nth(1)

    field = knob.locator(".fw-field-outer_radius")
    state = field.locator(".fw-about button")
    expect(state).to_have_text("chosen")
    state.click()
    behind = field.locator(".fw-origin-of")
    for label, text in (("measured on", "2026-06-01"), ("how", "calipers"), ("by whom", "A. Turner")):
        entry = behind.get_by_label(label, exact=True)
        entry.fill(text)
        entry.press("Enter")
    expect(state).to_have_text("measured")
    half = behind.get_by_label("±", exact=True)
    note = behind.get_by_label("note", exact=True)
    half.fill("0.2 mm")
    lab.page.keyboard.press("Tab")
    expect(note).to_be_focused()
    lab.page.keyboard.type("over two lobes")
    lab.page.keyboard.press("Enter")
    expect(field.locator(".fw-note").last).to_contain_text("calipers; on 2026-06-01 by A. Turner")
    expect(field.locator(".fw-entry input[type=text]")).to_have_value("30.0 ± 0.2 mm")
    for theme in ("light", "dark"):
        for width in (1300, 800):
            lab.theme(theme)
            lab.width(width)
            lab.screenshot(f"origin_{theme}_{width}")
    lab.theme("light")
    lab.width(1300)

    half.fill("broad")
    half.press("Enter")
    expect(behind.get_by_role("alert")).to_contain_text("broad")
    for name in ("Save to job", "Export sheet", "Write files"):
        expect(knob.get_by_role("button", name=name)).to_be_disabled()
    refusal = "not while from the middle to the top of a lobe cannot be read"
    expect(knob.locator(".fw-saving [role=status]").first).to_contain_text(refusal)
    lab.screenshot("origin_refused")
    half.fill("0.2 mm")
    half.press("Enter")
    knob.get_by_role("button", name="Save to job").click()
    expect(knob.locator(".fw-saving")).to_contain_text("saved from the middle to the top of a lobe")
    saved = Job.open(job).case("knob").entries["outer_radius"]
    assert (saved.origin.detail, saved.spread.half) == ("calipers; on 2026-06-01 by A. Turner; over two lobes", 0.2)

    hollow = knob.locator(".fw-field-hollow_wish .fw-entry input[type=text]")
    hollow.fill("39 mm")
    hollow.press("Enter")
    expect(knob.locator("[data-testid=verdict]")).to_contain_text("fails")
    knob.get_by_role("button", name="Write files").click()
    expect(knob.get_by_role("button", name="Write all the same")).to_be_visible()
    lab.screenshot("origin_asked")
    assert not (lab.folder / "sheets").exists()
    knob.get_by_role("button", name="Leave it").click()
    expect(knob.locator(".fw-shape")).to_contain_text("Nothing is written")
    assert not (lab.folder / "sheets").exists()

    bed.get_by_role("button", name="Lists and options").click()
    row = bed.get_by_title("gaps, row 1: measured when")
    row.focus()
    lab.page.keyboard.press("Space")
    inside = bed.locator(".fw-origin-box .fw-origin-of")
    bed.locator(".fw-origin-box").get_by_label("of", exact=True).select_option(label="depth")
    inside.get_by_label("how", exact=True).fill("cards")
    lab.page.keyboard.press("Tab")
    expect(row).to_have_text("several origins")
    lab.width(800)
    inside.scroll_into_view_if_needed()
    lab.screenshot("origin_of_a_cell")
    bed.get_by_role("button", name="Save to job").click()
    expect(bed.locator(".fw-saving")).to_contain_text("saved gaps")
    (gap,) = Job.open(job).raw_inputs("bed")["gaps"]
    assert gap["depth"] == {"value": "1.1 ± 0.1 mm", "origin": "measured", "how": "cards"}
    assert lab.errors() == []


def test_a_half_width_of_the_shop_s_record_is_taken_by_keys_alone_and_undone(lab: Lab, tmp_path: Path) -> None:
    (tmp_path / "bench.toml").write_text(JOB, encoding="utf-8")
    for day, off in enumerate((0.2, -0.1, 0.3), 1):
        add_entry(tmp_path / "shop.toml", "our calipers", off, unit("mm"), {"date": f"2026-05-0{day}", "job": "Shed"})
    notebook = write_notebook(tmp_path / "shop.ipynb", PANELS)
    lab.open(notebook, data=[tmp_path / "bench.toml", tmp_path / "shop.toml"])
    lab.run_all()
    knob = lab.locator(".fw-panel").first
    field = knob.locator(".fw-field-outer_radius")
    field.locator(".fw-about button").press("Enter")
    menu = field.get_by_label("shop record")
    menu.press("o")  # the first letter of its name
    expect(field).to_contain_text("2026-05-03")
    expect(field.locator(".fw-entry input[type=text]")).to_have_value("30.0 ± 0.5 mm")
    for theme in ("light", "dark"):
        lab.theme(theme)
        lab.screenshot(f"shop_{theme}")
    lab.theme("light")
    lab.page.keyboard.press("Tab")
    take = field.get_by_role("button", name="Take ± 0.48 mm")
    for _ in range(3):  # past the table, where it scrolls
        if take.evaluate("button => button === document.activeElement"):
            break
        lab.page.keyboard.press("Tab")
    expect(take).to_be_focused()
    lab.page.keyboard.press("Enter")
    expect(field.locator(".fw-entry input[type=text]")).to_have_value("30.0 ± 0.48 mm")
    expect(field.locator(".fw-note").first).to_contain_text("± from the shop record: our calipers, 3 entries")
    knob.get_by_role("button", name="Undo: ± of our calipers").press("Enter")
    expect(field.locator(".fw-entry input[type=text]")).to_have_value("30.0 ± 0.5 mm")
