"""A browser, a JupyterLab server, notebooks in it (`lab`), and an offline page for sheets (`page`)."""

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Request, Route, expect, sync_playwright

from tests.browser.lab import Lab, Server

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")

FLAGS = [
    "--no-sandbox",  # the sandbox refuses to start as root, which is what a build machine runs as
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
]


# How long an assertion waits before it fails: long enough for a busy machine, since time decides no test.
expect.set_options(timeout=30_000)


def find_chromium() -> str:
    """The path of the browser. Without one the tests are skipped, on a build machine (CI is set) they fail."""
    found = os.environ.get("FITWRIGHT_CHROMIUM") or next(filter(None, map(shutil.which, NAMES)), None)
    if found:
        return found
    reason = f"no browser: none of {', '.join(NAMES)} is on PATH and FITWRIGHT_CHROMIUM is not set"
    if os.environ.get("CI"):
        pytest.fail(reason)
    pytest.skip(reason)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One browser for the whole run."""
    path = find_chromium()
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=path, args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def server(browser: Browser, jupyter_env: dict[str, str], tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """One JupyterLab server for the whole run; it depends on the browser so that none starts in vain."""
    root = tmp_path_factory.mktemp("lab") / "root"
    root.mkdir()
    server = Server(root, jupyter_env)
    yield server
    server.stop()


@pytest.fixture(scope="session")
def window(server: Server, browser: Browser) -> Iterator[Lab]:
    """One page for all notebooks."""
    context = browser.new_context(accept_downloads=True)
    yield Lab(server, context.new_page())
    context.close()


@pytest.fixture
def lab(window: Lab, working_copy: Callable[..., Path], tmp_path: Path) -> Lab:
    """The page without a notebook, 1300 px wide: `lab.open(notebook)`, `lab.run_all()`, then operate it."""
    window.begin(tmp_path, working_copy)
    return window


@pytest.fixture(scope="session")
def offline(browser: Browser) -> Iterator[tuple[Page, list[str]]]:
    """One page without a network for all files, and what it asked for besides the opened ones."""
    refused: list[str] = []

    def decide(route: Route, request: Request) -> None:
        opened = request.is_navigation_request() and request.frame.parent_frame is None
        if opened and request.url.startswith("file:"):
            route.continue_()
        else:
            refused.append(request.url)
            route.abort()

    context = browser.new_context(offline=True)
    context.route("**/*", decide)
    yield context.new_page(), refused
    context.close()


@pytest.fixture
def requests(offline: tuple[Page, list[str]]) -> list[str]:
    """What `page` asked for besides the opened files: must be empty when the test ends."""
    offline[1].clear()
    return offline[1]


@pytest.fixture
def page(offline: tuple[Page, list[str]], requests: list[str]) -> Iterator[Page]:
    """A page without a network, 1000 px wide, for files opened by `page.goto(path.as_uri())`.

    Every request other than the opened file itself is refused, recorded in `requests` and fails the test.
    """
    page = offline[0]
    page.set_viewport_size({"width": 1000, "height": 1000})
    page.emulate_media(media="null")
    yield page
    assert requests == [], f"the page asked for {requests}"
