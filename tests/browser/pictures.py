"""Retake the pictures of the README from what is shown now: python -m tests.browser.pictures [FOLDER]."""

import io
import shutil
import sys
import tempfile
from pathlib import Path

import pypdfium2
from PIL import Image
from playwright.sync_api import Locator, sync_playwright

from tests import DATA
from tests.browser.conftest import FLAGS, find_chromium
from tests.browser.lab import Lab, Server
from tests.browser.test_harness import write_notebook
from tests.jupyter import private_environment

OPEN = "from kit import open_job, panel\njob = open_job('boatshed.toml')\n"
GRAY = 200  # between two pages


def write(picture: Image.Image, path: Path) -> None:
    """Write a picture with at most 256 colors, the rare ones among them."""
    picture.convert("RGB").quantize(256, Image.Quantize.MAXCOVERAGE, dither=Image.Dither.NONE).save(path, optimize=True)
    print(path)


def shot(element: Locator) -> Image.Image:
    """Return a picture of an element."""
    return Image.open(io.BytesIO(element.screenshot(animations="disabled")))


def pages(pdf: bytes) -> Image.Image:
    """Return the first two pages side by side."""
    document = pypdfium2.PdfDocument(pdf)
    return abreast(*(document[number].render(scale=1.03).to_pil() for number in range(2)))


def abreast(left: Image.Image, right: Image.Image) -> Image.Image:
    """Return two pictures side by side, a gray gap between them."""
    both = Image.new("RGB", (left.width + 10 + right.width, max(left.height, right.height)), (GRAY, GRAY, GRAY))
    both.paste(left, (0, 0))
    both.paste(right, (left.width + 10, 0))
    return both


def views(lab: Lab) -> Image.Image:
    """Return both pictures of a shape."""
    return abreast(*(shot(lab.locator(".fw-panel .fw-slot").nth(number)) for number in range(2)))


def main(folder: Path) -> None:
    """Write panel.png, hood.png, drop_chute.png and sheet.png into `folder`."""
    with tempfile.TemporaryDirectory() as home, sync_playwright() as driver:
        root = Path(home, "root")
        root.mkdir()
        browser = driver.chromium.launch(executable_path=find_chromium(), args=FLAGS)
        server = Server(root, private_environment(Path(home)))
        try:
            lab = Lab(server, browser.new_context())

            def shown(name: str, cell: str, width: int) -> None:
                lab.begin(Path(home, name), copied)
                lab.page.set_viewport_size({"width": width, "height": 2600})
                lab.open(write_notebook(Path(home, f"{name}.ipynb"), OPEN + cell))
                lab.run_all()
                if errors := lab.errors():
                    sys.exit("\n".join(errors))

            def copied(notebook: Path, _data: object, into: Path) -> Path:
                into.mkdir()
                shutil.copy(DATA / "boatshed.toml", into)
                return Path(shutil.copy(notebook, into))

            shown("panel", "panel('stop.deflection')", 1400)
            write(shot(lab.locator(".fw-panel").first), folder / "panel.png")
            shown("hood", "panel(job=job, part='hood')", 1500)
            write(views(lab), folder / "hood.png")
            shown("drop_chute", "panel(job=job, part='drop_chute')", 1500)
            write(views(lab), folder / "drop_chute.png")
            shown("sheet", "made = panel(job=job, part='long_stop')\nmade", 1300)
            lab.locator(".fw-panel button:has-text('Export sheet')").click()
            lab.page.wait_for_function("() => document.querySelector('.fw-saving').innerText.includes('wrote')")
            (sheet,) = (lab.folder / "sheets").glob("*.html")
            lab.page.goto(sheet.as_uri())
            write(pages(lab.page.pdf(format="A4")), folder / "sheet.png")
        finally:
            server.stop()
            browser.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else DATA / "pictures")
