"""The map of a panel in JupyterLab: opened, clicked, dragged and moved on by keys; the controls follow."""

from pathlib import Path

from playwright.sync_api import Locator, expect

from kit.drawing.map_svg import BOX, WIDTH
from tests import DATA
from tests.browser.lab import Lab
from tests.browser.test_harness import write_notebook
from tests.browser.test_panel import PANEL, field


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
    expect(lab.locator(".fw-explore")).to_contain_text("At long reach")
    for name in ("light", "dark"):
        lab.theme(name)  # type: ignore[arg-type]
        lab.screenshot(f"map-{name}", lab.locator(".fw-explore"))
    lab.width(800)
    lab.screenshot("map-800", lab.locator(".fw-explore"))
    assert lab.errors() == []
