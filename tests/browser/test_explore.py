"""The map of a panel in JupyterLab: opened, clicked, dragged and moved on by keys; the controls follow."""

from pathlib import Path

import pytest
from playwright.sync_api import Locator, expect

from kit.drawing.map_svg import BOX, WIDTH
from tests import DATA
from tests.browser.lab import Lab
from tests.browser.test_harness import write_notebook
from tests.browser.test_panel import PANEL, field

pytestmark = pytest.mark.long


def place(picture: Locator, across: float, up: float) -> dict[str, float]:
    """Return where a place of the plot lies in the picture, CSS pixels from its corner."""
    size = picture.bounding_box()
    assert size is not None
    scale = size["width"] / WIDTH
    left, top, width, height = BOX
    return {"x": (left + across * width) * scale, "y": (top + (1 - up) * height) * scale}


def test_the_design_is_moved_on_the_map_and_the_controls_follow(lab: Lab, tmp_path: Path) -> None:
    lab.open(write_notebook(tmp_path / "room.ipynb", PANEL), data=[DATA / "boatshed.toml"])
    lab.run_all()
    lab.locator(".fw-panel").get_by_text("The room round this design").click()
    expect(lab.locator(".fw-map svg")).to_be_visible()
    picture = lab.locator(".fw-map")  # it stays while the picture in it is drawn anew
    reach = lab.locator(f"{field('long_reach')} input[type=text]")
    before = reach.input_value()
    picture.click(position=place(picture, 0.8, 0.5))
    expect(reach).not_to_have_value(before)
    expect(lab.locator(".fw-panel [data-testid=verdict]")).to_contain_text("fail")
    clicked = reach.input_value()
    lab.locator(".fw-map").press("ArrowLeft")
    expect(reach).not_to_have_value(clicked)
    lab.locator(".fw-map").press("Shift+ArrowLeft")
    picture.hover(position=place(picture, 0.2, 0.9))
    expect(lab.locator(".fw-explore")).to_contain_text("From the clamp's middle to the tip of the long end")
    tip = lab.locator(".fw-tip")
    expect(tip).to_be_visible()
    for words in ("the tip of the long end", "tip error in all", "margin"):
        expect(tip).to_contain_text(words)
    lab.screenshot("map-tip", lab.locator(".fw-explore"))
    for name in ("light", "dark"):
        lab.theme(name)  # type: ignore[arg-type]
        lab.screenshot(f"map-{name}", lab.locator(".fw-explore"))
    lab.width(800)
    lab.screenshot("map-800", lab.locator(".fw-explore"))
    assert lab.errors() == []


def test_the_limits_of_a_shape_are_sampled_while_the_controls_rest(lab: Lab, tmp_path: Path) -> None:
    cell = PANEL.replace("long_stop", "bench_boards")
    lab.open(write_notebook(tmp_path / "shape.ipynb", cell), data=[DATA / "boatshed.toml"])
    lab.run_all()
    lab.locator(".fw-panel").get_by_text("The room round this design").click()
    expect(lab.locator(".fw-map svg")).to_contain_text("sampled at these points alone", timeout=60_000)
    dots = lab.locator(".fw-map svg circle[r='3']")
    few = dots.count()
    lab.locator(".fw-map").press("ArrowLeft")  # the panel answers while it goes on
    expect(lab.locator(".fw-steps").get_by_role("button", name="Undo: ")).to_be_enabled()
    lab.wait_until_idle()
    lab.page.wait_for_function("few => document.querySelectorAll(\".fw-map svg circle[r='3']\").length >= few", arg=few)
    shots(lab, "sampled", ".fw-explore")
    assert lab.errors() == []


def test_pins_the_best_and_what_matters(lab: Lab, tmp_path: Path) -> None:
    lab.open(write_notebook(tmp_path / "pins.ipynb", PANEL), data=[DATA / "boatshed.toml"])
    lab.run_all()
    panel = lab.locator(".fw-panel")
    panel.get_by_text("Pinned designs").click()
    pins = lab.locator(".fw-pins")
    pins.get_by_placeholder("two ribs").fill("as built")
    pins.get_by_placeholder("stiffer, more wood").fill("stands in the shed")
    pins.get_by_role("button", name="Pin this design").click()
    expect(pins.locator(".fw-alternatives")).to_contain_text("stands in the shed")
    reach = lab.locator(f"{field('long_reach')} input[type=text]")
    before = reach.input_value()
    reach.fill("900 mm")
    reach.press("Enter")
    expect(pins.locator(".fw-differs").first).to_be_visible()
    expect(pins.locator("svg").first).to_be_visible()
    shots(lab, "pins", ".fw-pins")
    pins.get_by_role("button", name="Take as built").click()
    expect(reach).to_have_value(before)
    lab.locator(".fw-steps").get_by_role("button", name="Undo: take as built").press("Enter")
    expect(reach).to_have_value("900.0 mm")
    lab.locator(".fw-steps").get_by_role("button", name="Undo: from the clamp").click()
    expect(reach).to_have_value(before)
    panel.get_by_text("The best design").click()
    best = lab.locator(".fw-best")
    best.locator("select").nth(0).select_option("least section")
    best.locator("select[multiple]").select_option("how far the rib stands off its face; 0 for none")
    best.get_by_role("button", name="Find the best").click()
    expect(best).to_contain_text("all limits hold together with", timeout=60_000)
    best.locator("select").nth(1).select_option("most reach")
    best.get_by_role("button", name="Find the best").click()
    expect(best.locator("svg, .fw-fault").first).to_be_visible(timeout=120_000)
    shots(lab, "best", ".fw-best")
    panel.get_by_text("What matters").click()
    expect(lab.locator(".fw-matters svg").first).to_be_visible(timeout=30_000)
    shots(lab, "matters", ".fw-matters")
    assert lab.errors() == []


def shots(lab: Lab, name: str, shown: str) -> None:
    """Take pictures of a view in light, dark, and 800 px wide."""
    for theme in ("light", "dark"):
        lab.theme(theme)  # type: ignore[arg-type]
        lab.screenshot(f"{name}-{theme}", shown)
    lab.width(800)
    lab.screenshot(f"{name}-800", shown)
    lab.width(1300)
    lab.theme("light")
