"""The page that `fitwright open` shows, under a driver, and somebody before it who counts his clicks."""

import base64
import json
import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Literal
from urllib.parse import urlsplit, urlunsplit

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Locator, expect

from tests.browser.lab import START, THEMES, WAIT_FOR_THEME
from tests.jupyter import private_environment

TALL = 2600  # pixels of a window that shows most of a page
DROP = """(box, [name, bytes]) => {
    const data = new DataTransfer();
    data.items.add(new File([Uint8Array.from(atob(bytes), each => each.charCodeAt(0))], name));
    box.dispatchEvent(new DragEvent('drop', {dataTransfer: data, bubbles: true, cancelable: true}));
}"""


@contextmanager
def opened(folder: Path, home: Path) -> Iterator[str]:
    """Run `fitwright open` in a folder until the end; give the address that it opens, reading nothing of the user's."""
    home.mkdir()
    env = private_environment(home)
    command = [sys.executable, "-m", "kit", "open", "--folder", str(folder), "--no-browser"]
    with (home / "log").open("wb") as log:
        process = subprocess.Popen(command, env=env, cwd=home, stdout=log, stderr=log, start_new_session=True)
    try:
        yield _address(process, home)
    finally:
        os.killpg(process.pid, signal.SIGTERM)
        process.wait(timeout=START)


def _address(process: "subprocess.Popen[bytes]", home: Path) -> str:
    end = time.monotonic() + START
    while time.monotonic() < end and process.poll() is None:
        for record in (home / "runtime").glob("jpserver-*.json"):
            if text := record.read_text():
                server = json.loads(text)
                return f"{server['url']}?token={server['token']}"
        time.sleep(0.1)
    raise RuntimeError(f"fitwright open did not start:\n{(home / 'log').read_text()}")


class Builder:
    """Somebody who builds a station: points, clicks and types, and knows no code."""

    def __init__(self, browser: Browser, address: str) -> None:
        self.clicks = 0
        self.wrong: list[str] = []
        kept = os.environ.get("FITWRIGHT_SCREENSHOTS")
        self._shots, self._taken = Path(kept) if kept else None, 0
        own = "null"  # the page says whether a view in space is dark, not the driver
        window = {"width": 1300, "height": 1000}
        self._context = browser.new_context(viewport=window, accept_downloads=True, color_scheme=own)
        self.page = self._context.new_page()
        self.page.on("pageerror", lambda error: self.wrong.append(f"page: {error}"))
        self.page.goto(address)
        expect(self.title).to_be_visible(timeout=START * 1000)

    def leave(self) -> None:
        """Close the browser's window."""
        self._context.close()

    # -- what there is to see -------------------------------------------------------------------------

    @property
    def title(self) -> Locator:
        return self.page.locator("h1.fw-page-title")

    @property
    def verdict(self) -> Locator:
        """What is known of the part."""
        return self.page.locator(".fw-page [data-testid=verdict]").first

    @property
    def files(self) -> Locator:
        """The links to what was written."""
        return self.page.locator(".fw-page .fw-files")

    def told(self, words: str) -> Locator:
        """What the shape has to say."""
        return self.page.locator(".fw-shape [role=status]").filter(has_text=words)

    def value(self, name: str) -> Locator:
        """A result of the panel."""
        return self.page.locator(f".fw-page [data-testid=value-{name}]").first

    def button(self, name: str, within: str = ".fw-page") -> Locator:
        return self.page.locator(within).get_by_role("button", name=name, exact=True)

    def faults(self) -> list[str]:
        """What went wrong: in the page, in a cell, on the kernel's stderr."""
        stderr = self.page.locator(
            "[data-mime-type='application/vnd.jupyter.stderr'], .jp-OutputArea [data-mime-type*=error]"
        )
        return self.wrong + stderr.all_inner_texts()

    def findings(self) -> list[str]:
        """What axe finds wrong with all that stands in the window."""
        found = Axe().run(self.page).response["violations"]
        return [f"{each['id']}: {each['help']}: {node['html'][:200]}" for each in found for node in each["nodes"]]

    def photograph(self, name: str) -> None:
        """Keep the whole page as it is now in both widths and themes, under the step's number, if it is asked for."""
        self._taken += 1
        if self._shots is None:
            self.page.screenshot(animations="disabled")  # somebody looks at the page before he goes on
            return
        self._shots.mkdir(parents=True, exist_ok=True)
        for width in (1300, 800):
            self.page.set_viewport_size({"width": width, "height": TALL})
            for theme in THEMES:
                self.theme(theme)
                self.page.wait_for_timeout(1000)  # what is drawn anew for a theme or a width; no test rests on it
                path = self._shots / f"station-{self._taken:02}-{name}-{width}-{theme}.png"
                self.page.screenshot(path=path, animations="disabled")
        self.theme("light")
        self.width(1300)

    # -- what is done ---------------------------------------------------------------------------------

    def click(self, target: Locator) -> None:
        """Click on what the mouse can reach."""
        target.click()
        self.clicks += 1

    def press(self, name: str, within: str = ".fw-page") -> None:
        """Click on a button by what is written on it."""
        self.click(self.button(name, within))

    def type(self, field: Locator, text: str) -> None:
        """Click into a field, write over what stands there, and press Enter."""
        self.click(field)
        field.press("Control+a")
        self.page.keyboard.type(text)
        field.press("Enter")

    def set(self, name: str, text: str) -> None:
        """Type a value of the panel."""
        self.type(self.page.locator(f".fw-page .fw-field-{name} input[type=text]"), text)

    def choose(self, field: Locator, *options: str) -> None:
        """Choose from a list."""
        field.select_option(list(options))
        self.clicks += 2

    def drop(self, target: Locator, file: Path) -> None:
        """Drop a file."""
        target.evaluate(DROP, [file.name, base64.b64encode(file.read_bytes()).decode()])

    def lesson(self, name: str) -> None:
        """Open a lesson of the folder, and wait for its exercise."""
        address = urlsplit(self.page.url)
        self.page.goto(urlunsplit(address._replace(path=f"/doc/tree/{name}.ipynb")))
        expect(self.page.locator(".fw-answering input").first).to_be_visible(timeout=START * 1000)

    def parts(self) -> None:
        """Go back to the list of parts."""
        self.click(self.page.locator(".fw-page").get_by_role("button", name=re.compile("^Parts of ")))
        expect(self.page.locator(".fw-page .fw-parts")).to_be_visible()

    def part(self, title: str) -> None:
        """Open a part from the list."""
        self.press(title)
        expect(self.title).to_have_text(title)
        expect(self.verdict).to_be_visible(timeout=START * 1000)

    def theme(self, name: Literal["light", "dark"]) -> None:
        """Switch the theme by the menu."""
        menu = self.page.locator(".lm-MenuBar")
        menu.get_by_text("Settings", exact=True).click()
        self.page.locator(".lm-Menu").get_by_text("Theme", exact=True).click()
        self.page.locator(".lm-Menu").get_by_text(THEMES[name], exact=True).click()
        self.page.wait_for_function(WAIT_FOR_THEME, arg=THEMES[name])

    def width(self, pixels: int) -> None:
        """Make the window narrower or wider."""
        self.page.set_viewport_size({"width": pixels, "height": 1000})
