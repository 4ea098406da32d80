"""The picture that the reader turns: in a file without a network, on paper, without script, in JupyterLab."""

import io
from pathlib import Path

import nbformat
import numpy as np
import pypdfium2
import pytest
from axe_playwright_python.sync_playwright import Axe
from nbformat.v4 import new_code_cell, new_notebook
from PIL import Image
from playwright.sync_api import Browser, FrameLocator, Locator, Page, expect

from kit import subjects
from kit.drawing.space import Line, Mark, View, view_frame, view_svg
from kit.sheet.write import sheet
from tests.browser.conftest import FLAGS, find_chromium
from tests.browser.lab import Lab
from tests.drawing.space_demo import box
from tests.markup import errors

VIEW = View(
    [
        box("board", (-300, 100, 0), (300, 118, 300)),
        box("post", (-300, -200, 0), (-280, 100, 300), "dark wood"),
        box("saw", (-100, -150, 0), (150, 60, 200), "ghost", 0.35),
    ],
    [Line("axis", [(0, 0, 0), (0, 0, 400)], "red", dashed=True)],
    [Mark("turning axis", (0, 0, 400))],
    "Two boards and a saw",
)
DRAWN = "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"
TITLE = "Boards around a saw"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A worked sheet with the frame at its end."""
    html = sheet(subjects.model("stop.section").at())
    path = tmp_path / "sheet.html"
    path.write_text(
        html.replace("</main>", f"<section><h2>Picture</h2>{view_frame(VIEW, title=TITLE)}</section></main>"),
        encoding="utf-8",
    )
    return path


@pytest.fixture
def opened(page: Page, file: Path) -> FrameLocator:
    page.goto(file.as_uri())
    return drawn(page.frame_locator("iframe.fw-space"))


def drawn(frame: FrameLocator) -> FrameLocator:
    frame.owner.scroll_into_view_if_needed()  # browsers draw no frame that is out of sight
    expect(frame.locator("canvas")).to_be_visible()
    expect(button(frame, "Corner")).to_have_attribute("aria-pressed", "true")
    return frame


def button(frame: FrameLocator, name: str) -> Locator:
    return frame.get_by_role("button", name=name, exact=True)


def picture(frame: FrameLocator) -> np.ndarray:
    """What is seen of the view, below no button, after it has been drawn."""
    frame.locator("canvas").evaluate(
        "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"
    )
    png = frame.locator("canvas").screenshot()
    return np.asarray(Image.open(io.BytesIO(png)).convert("RGB"), dtype=int)[3:-46, 3:-3]


def changed(before: np.ndarray, after: np.ndarray) -> float:
    return float((np.abs(before - after).max(axis=2) > 24).mean())


def ink(seen: np.ndarray) -> tuple[int, int, int, int]:
    """Left, top, right and bottom of what is not white."""
    rows, columns = np.nonzero((seen < 235).any(axis=2))
    return int(columns.min()), int(rows.min()), int(columns.max()), int(rows.max())


def red(seen: np.ndarray) -> np.ndarray:
    """Where the axis is drawn; its rim is mixed with what is beside it."""
    return np.asarray((seen[..., 0] - seen[..., 1] > 65) & (seen[..., 0] - seen[..., 2] > 90))


def test_the_canvas_shows_the_view_in_the_colors_of_its_parts(opened: FrameLocator) -> None:
    seen = picture(opened)
    assert 0.15 < (seen < 235).any(axis=2).mean() < 0.9
    tan = (seen[..., 0] - seen[..., 2] > 40).mean()
    assert tan > 0.05, "boards"
    assert red(seen).sum() > 20, "the axis"


def test_the_front_view_has_the_proportions_of_the_boards(opened: FrameLocator) -> None:
    """600 mm wide and 400 mm high with the axis: measured on the screen."""
    button(opened, "Front").click()
    left, top, right, bottom = ink(picture(opened))
    assert (right - left) / (bottom - top) == pytest.approx(600 / 400, rel=0.03)


def test_every_button_changes_the_picture_and_says_that_it_is_chosen(opened: FrameLocator) -> None:
    before = picture(opened)
    for name in ("Front", "Right", "Top", "Left", "Back", "Corner"):
        button(opened, name).click()
        expect(button(opened, name)).to_have_attribute("aria-pressed", "true")
        assert opened.locator("[aria-pressed=true]").count() == 1
        after = picture(opened)
        assert changed(before, after) > 0.02, name
        before = after
    for name in ("Enlarge", "Reduce"):
        button(opened, name).click()
        after = picture(opened)
        assert changed(before, after) > 0.02, name
        before = after


@pytest.mark.long
def test_arrow_keys_turn_and_four_times_ninety_degrees_come_home(opened: FrameLocator) -> None:
    canvas = opened.locator("canvas")
    canvas.focus()
    home = picture(opened)
    canvas.press("ArrowRight")
    expect(button(opened, "Corner")).to_have_attribute("aria-pressed", "false")
    assert changed(home, picture(opened)) > 0.02
    for _ in range(35):
        canvas.press("ArrowRight")
    assert changed(home, picture(opened)) < 1e-3
    canvas.press("ArrowUp")
    assert changed(home, picture(opened)) > 0.02
    for key in ("+", "-", "Shift+ArrowLeft", "Home"):
        before = picture(opened)
        canvas.press(key)
        assert changed(before, picture(opened)) > 0.01, key
    assert changed(home, picture(opened)) < 1e-3


def test_dragging_turns_and_the_wheel_enlarges_with_ctrl_alone(opened: FrameLocator, page: Page) -> None:
    canvas = opened.locator("canvas")
    opened.owner.scroll_into_view_if_needed()
    place = canvas.bounding_box()
    assert place is not None
    x, y = place["x"] + place["width"] / 2, place["y"] + place["height"] / 2
    home = picture(opened)
    page.mouse.move(x, y)
    page.mouse.wheel(0, -60)
    assert changed(home, picture(opened)) < 1e-3, "the page scrolls instead"
    opened.owner.scroll_into_view_if_needed()
    place = canvas.bounding_box()
    assert place is not None
    y = place["y"] + place["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 60, y + 10, steps=3)
    page.mouse.up()
    turned = picture(opened)
    assert changed(home, turned) > 0.02
    page.mouse.wheel(0, -60)
    assert changed(turned, picture(opened)) < 1e-3, "the page scrolls, though the picture was touched"
    opened.owner.scroll_into_view_if_needed()
    place = canvas.bounding_box()
    assert place is not None
    page.mouse.move(x, place["y"] + place["height"] / 2)
    page.keyboard.down("Control")
    page.mouse.wheel(0, -200)
    page.keyboard.up("Control")
    expect(canvas).to_be_visible()
    assert changed(turned, picture(opened)) > 0.02


def test_words_stand_at_their_points(opened: FrameLocator) -> None:
    """The mark at the top of the axis is at the upper end of the red line, but for its dot and a gap."""
    button(opened, "Front").click()
    seen = picture(opened)
    rows, columns = np.nonzero(red(seen))
    word = opened.locator("#words span").bounding_box()
    canvas = opened.locator("canvas").bounding_box()
    assert word is not None
    assert canvas is not None
    assert word["x"] - canvas["x"] - 6 - 3 == pytest.approx(float(columns.mean()), abs=3)
    below = float(rows.min()) - (word["y"] + word["height"] / 2 - canvas["y"] - 3)
    assert -1 <= below <= 4 + 5 * 0.75 + 1, "its dot with its rim, a gap between dashes of 5 px, and a pixel"


def test_on_paper_it_is_the_still(page: Page, opened: FrameLocator, tmp_path: Path) -> None:
    page.emulate_media(media="print")
    expect(opened.locator("svg")).to_be_visible()
    expect(opened.locator("canvas")).to_be_hidden()
    button_count = opened.get_by_role("button").count()
    assert button_count == 0
    page.emulate_media(media="null")
    pdf = pypdfium2.PdfDocument(page.pdf(format="A4"))
    tan = images = 0
    for sheet_of_paper in pdf:
        images += sum(thing.type == 3 for thing in sheet_of_paper.get_objects(max_depth=6))  # FPDF_PAGEOBJ_IMAGE
        pixels = np.asarray(sheet_of_paper.render(scale=1).to_pil().convert("RGB"), dtype=int)
        tan += int((pixels[..., 0] - pixels[..., 2] > 40).sum())
    assert images == 0, "the picture is drawn by lines and faces, not as a photograph"
    assert tan > 5_000


def test_without_script_the_still_is_seen(page: Page, file: Path) -> None:
    """A sandbox that allows nothing is what a page does that strips scripts."""
    file.write_text(file.read_text(encoding="utf-8").replace('"allow-scripts"', '""'), encoding="utf-8")
    page.goto(file.as_uri())
    frame = page.frame_locator("iframe.fw-space")
    expect(frame.locator("svg")).to_be_visible()
    expect(frame.locator("canvas")).to_be_hidden()
    assert page.locator("iframe.fw-space").evaluate("e => e.sandbox.length") == 0


def test_without_webgl_the_still_is_seen(browser: Browser, file: Path) -> None:
    poor = browser.browser_type.launch(executable_path=find_chromium(), args=[*FLAGS, "--disable-3d-apis"])
    page = poor.new_page()
    page.goto(file.as_uri())
    frame = page.frame_locator("iframe.fw-space")
    frame.owner.scroll_into_view_if_needed()
    assert frame.locator("canvas").evaluate("() => document.createElement('canvas').getContext('webgl2')") is None
    expect(frame.locator("svg")).to_be_visible()
    expect(frame.locator("canvas")).to_be_hidden()
    poor.close()


def test_the_ground_is_that_of_the_page_around_also_while_it_changes(browser: Browser, file: Path) -> None:
    """A sheet is white as paper; a notebook in the dark says so by a variable."""
    context = browser.new_context(color_scheme="null", offline=True)
    page = context.new_page()
    page.goto(file.as_uri())
    frame = drawn(page.frame_locator("iframe.fw-space"))
    for scheme, ground in (("light", 255), ("dark", 17), ("light", 255)):
        page.evaluate("scheme => document.documentElement.style.setProperty('--fw-scheme', scheme)", scheme)
        expect(button(frame, "Front")).to_have_css("background-color", f"rgb({ground}, {ground}, {ground})")
        assert picture(frame)[0, 0].tolist() == [ground] * 3
    context.close()


@pytest.mark.long
def test_axe_and_the_checker_find_no_fault(
    page: Page,
    opened: FrameLocator,
    file: Path,
    checker: list[str],
    tmp_path: Path,
) -> None:
    found = Axe().run(page).response["violations"]
    assert [(fault["id"], [node["html"][:120] for node in fault["nodes"][:3]]) for fault in found] == []
    content = page.locator("iframe.fw-space").get_attribute("srcdoc")
    assert content is not None
    alone = tmp_path / "frame.html"
    alone.write_text(content, encoding="utf-8")
    page.goto(alone.as_uri())
    expect(page.locator("canvas")).to_be_visible()
    found = Axe().run(page).response["violations"]
    # A page of its own would need landmarks and a heading; a frame within a page does not.
    ignored = {"landmark-one-main", "page-has-heading-one", "region"}
    assert [(fault["id"], fault["nodes"][0]["html"][:120]) for fault in found if fault["id"] not in ignored] == []
    still = tmp_path / "still.html"
    still.write_text(
        f'<!DOCTYPE html><html lang="en"><head><title>x</title></head><body>{view_svg(VIEW, ids="a")}'
        f"{view_svg(VIEW, 'top', ids='b')}</body></html>",
        encoding="utf-8",
    )
    assert errors(checker, [file, alone, still]) == []


def test_ghosts_show_what_is_behind_them_in_whatever_order_they_are_given(page: Page, tmp_path: Path) -> None:
    near, far = (
        box("near", (0, -60, 0), (90, -50, 90), "wood", 0.5),
        box("far", (0, 50, 0), (90, 60, 60), "air", 0.5),
    )
    seen = []
    for k, solids in enumerate(([near, far], [far, near], [near])):
        path = tmp_path / f"{k}.html"
        path.write_text(f"<!DOCTYPE html><title>x</title>{view_frame(View(solids), title='x')}", encoding="utf-8")
        page.goto(path.as_uri())
        frame = drawn(page.frame_locator("iframe.fw-space"))
        button(frame, "Front").click()
        seen.append(picture(frame))
    assert changed(seen[0], seen[1]) < 1e-3
    assert changed(seen[0], seen[2]) > 0.1


CELLS = """
from IPython.display import HTML
from ipywidgets import HTML as Widget, VBox
from kit.drawing.space import Mark, Solid, View, view_frame
corners = [(x, y, z) for x in (0, 300) for y in (0, 200) for z in (0, 100)]
faces = [(0, 1, 3), (0, 3, 2), (4, 6, 7), (4, 7, 5), (0, 4, 5), (0, 5, 1), (2, 3, 7), (2, 7, 6), (0, 2, 6), (0, 6, 4),
         (1, 5, 7), (1, 7, 3)]
frame = view_frame(View([Solid("block", corners, faces)], title="Block"), title="A block")
---
VBox([Widget(frame)])
---
HTML(f"<div>{frame}</div>")
"""


@pytest.mark.long
def test_it_turns_in_an_output_and_in_a_widget_of_jupyterlab(lab: Lab, tmp_path: Path) -> None:
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}}
    path = tmp_path / "space.ipynb"
    cells = [new_code_cell(cell.strip()) for cell in CELLS.split("---")]
    nbformat.write(new_notebook(cells=cells, metadata=kernel), path)
    lab.open(path, data=[])
    lab.run_all()
    expect(lab.locator("iframe.fw-space")).to_have_count(2)
    for k in range(2):
        element = lab.locator("iframe.fw-space").nth(k)
        element.scroll_into_view_if_needed()
        frame = drawn(element.content_frame)
        before = picture(frame)
        assert 0.05 < (before < 235).any(axis=2).mean() < 0.9
        frame.locator("canvas").press("ArrowRight")
        assert changed(before, picture(frame)) > 0.02
        button(frame, "Top").press("Enter")  # by keyboard: while the notebook scrolls, a click may miss it
        element.scroll_into_view_if_needed()  # out of sight it is not drawn anew
        expect(button(frame, "Top")).to_have_attribute("aria-pressed", "true")
