"""JupyterLab under a driver: a private server, and one notebook opened, run and operated as by a person.

One page and one kernel serve one notebook after the other: a start of either costs more seconds than most notebooks. In
between the kernel's names and widgets are cleared and the notebook is taken out of the page.
"""

import json
import os
import re
import secrets
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable
from pathlib import Path
from typing import Any, Literal

from playwright.sync_api import BrowserContext, ConsoleMessage, Locator, Page, expect

START = 120  # seconds for a cold start on a busy machine
RUN = 600  # s, for all cells of a notebook, also on a busy machine
MOST = 12  # notebooks until the page is loaded anew: JupyterLab keeps up to 75 MB of each

# No news, no check for updates, and every cell in the page even when it is out of sight.
SETTINGS = {
    "apputils-extension/notification": {"fetchNews": "false", "checkForUpdates": False},
    "notebook-extension/tracker": {"windowingMode": "none"},
}

THEMES: dict[Literal["light", "dark"], str] = {"light": "JupyterLab Light", "dark": "JupyterLab Dark"}

# JupyterLab covers the page while a theme comes, and fails where the next one comes before it has taken that away.
WAIT_FOR_THEME = """theme => document.body.dataset.jpThemeName === theme
    && !document.getElementById('jupyterlab-splash')"""

WAIT_FOR_LAB = "() => window.jupyterapp?.restored.then(() => true)"

# Nothing is asked and nothing is saved, and the kernel goes on.
CLEAR = """() => {
    window.kernelErrors = [];
    for (const widget of [...window.jupyterapp.shell.widgets('main')]) widget.dispose();
}"""

# Clear a kernel, and go to the folder of the next notebook.
PREPARE = """async ([id, code]) => {
    const kernel = window.jupyterapp.serviceManager.kernels.connectTo({model: {id, name: 'python3'}});
    const {content} = await kernel.requestExecute({code, silent: true, store_history: false}).done;
    kernel.dispose();
    if (content.status !== 'ok') throw new Error(`${content.ename}: ${content.evalue}`);
}"""
CLEARED = """
import os, ipywidgets
ipywidgets.Widget.close_all()
os.chdir({folder!r})
get_ipython().run_line_magic("reset", "-f")
"""

OPEN = """async ([path, id]) => {
    const kernel = id === null ? undefined : {id};
    await window.jupyterapp.commands.execute('docmanager:open', {path, factory: 'Notebook', kernel});
}"""

WAIT_FOR_NOTEBOOK = """() => {
    const panel = window.jupyterapp.shell.currentWidget;
    return Boolean(panel?.sessionContext && panel.context.isReady && panel.sessionContext.isReady);
}"""

# Every error and every line on stderr passes here: of a cell, of a widget's callback, of an Output widget.
LISTEN = r"""async () => {
    const context = window.jupyterapp.shell.currentWidget.sessionContext;
    await context.session.kernel.info;
    window.kernelErrors = [];
    context.iopubMessage.connect((_, message) => {
        const {content, header} = message;
        if (header.msg_type === 'error') {
            const title = `${content.ename}: ${content.evalue}`;
            window.kernelErrors.push([title, ...content.traceback].join('\n'));
        } else if (header.msg_type === 'stream' && content.name === 'stderr') {
            window.kernelErrors.push(`stderr: ${content.text}`);
        }
    });
}"""

WAIT_FOR_IDLE = """() => {
    const kernel = window.jupyterapp.shell.currentWidget.sessionContext.session?.kernel;
    return kernel?.connectionStatus === 'connected' && kernel?.status === 'idle';
}"""

RUN_ALL = """limit => Promise.race([
    window.jupyterapp.commands.execute('notebook:run-all-cells'),
    new Promise((_, reject) => {
        setTimeout(() => reject(new Error(`cells still run after ${limit} ms`)), limit);
    }),
])"""

# JupyterLab asks every fresh kernel for its widgets before the first cell has imported them, under a comm
# name of its own (with dashes; the kernel's names have none). The kernel says so on stderr; nothing is lost.
EARLY = re.compile(r"No such comm( target registered: jupyter\.widget\.control|: \w{8}(-\w{4}){3}-\w{12})\n")
ANSI = re.compile(r"\x1b\[[0-9;]*m")


class Server:
    """One JupyterLab server on a random port, serving `root`; `env` keeps it away from the user's set-up."""

    def __init__(self, root: Path, env: dict[str, str]) -> None:
        self.root = root
        self.token = secrets.token_hex(16)
        for name, content in SETTINGS.items():
            path = Path(env["JUPYTERLAB_SETTINGS_DIR"], "@jupyterlab", f"{name}.jupyterlab-settings")
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(json.dumps(content))
        command = [
            *(sys.executable, "-m", "jupyterlab", "--no-browser", "--allow-root"),
            *("--ip=127.0.0.1", "--port=0", f"--IdentityProvider.token={self.token}"),
            *(f"--ServerApp.root_dir={root}", "--LabApp.expose_app_in_browser=True"),
            "--LabApp.extension_manager=readonly",
        ]
        self.log = root.parent / "server.log"
        with self.log.open("wb") as log:
            self.process = subprocess.Popen(command, env=env, cwd=root, stdout=log, stderr=subprocess.STDOUT)
        try:
            self.url = self._wait_until_listening(Path(env["JUPYTER_RUNTIME_DIR"]))
        except BaseException:
            self.stop()
            raise

    def _wait_until_listening(self, runtime: Path) -> str:
        record = runtime / f"jpserver-{self.process.pid}.json"
        end = time.monotonic() + START
        while time.monotonic() < end and self.process.poll() is None:
            if record.exists() and (text := record.read_text()):
                return str(json.loads(text)["url"])
            time.sleep(0.1)
        raise RuntimeError(f"JupyterLab did not start:\n{self.log.read_text()}")

    def _ask(self, method: str, path: str) -> Any:
        headers = {"Authorization": f"token {self.token}"}
        request = urllib.request.Request(f"{self.url}{path}", method=method, headers=headers)
        with urllib.request.urlopen(request, timeout=30) as answer:
            return json.loads(answer.read() or "null")

    def kernel(self) -> str | None:
        """Return the id of the kernel that waits for the next notebook, none if there is none.

        One that is still at work is shut down: a test has left it so.
        """
        running = self._ask("GET", "api/kernels")
        if [kernel["execution_state"] for kernel in running] == ["idle"]:
            return str(running[0]["id"])
        self.stop_kernels()
        return None

    def stop_kernels(self) -> None:
        """Shut down every kernel."""
        for kernel in self._ask("GET", "api/kernels"):
            self._ask("DELETE", f"api/kernels/{kernel['id']}")

    def stop(self) -> None:
        """End the server and its kernels."""
        self.process.terminate()
        try:
            self.process.wait(timeout=30)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()


class Lab:
    """A browser page with one notebook at a time in JupyterLab, which works in `folder`."""

    def __init__(self, server: Server, context: BrowserContext) -> None:
        self.server = server
        self._context = context
        self._left = 0
        self._console: list[str] = []

    def begin(self, shots: Path, copy: Callable[..., Path]) -> None:
        """Make ready for a test: no notebook, light, 1300 px wide; screenshots go to `shots`."""
        self.shots = shots
        self.folder = self.server.root / shots.name
        self._copy = copy
        if self._left == 0:
            self._load()
        self._left -= 1
        self.page.set_viewport_size({"width": 1300, "height": 1000})
        self.page.evaluate(CLEAR)
        self.theme("light")

    def _load(self) -> None:
        """Open JupyterLab in a new page in place of the one before."""
        for page in self._context.pages:
            page.close()
        self._left = MOST
        self.page = self._context.new_page()
        self.page.on("console", self._on_console)
        self.page.on("pageerror", lambda error: self._console.append(f"page: {error}"))
        self.page.goto(f"{self.server.url}doc?reset&token={self.server.token}")
        self.page.wait_for_function(WAIT_FOR_LAB, timeout=START * 1000)

    def _on_console(self, message: ConsoleMessage) -> None:
        if message.type == "error":
            self._console.append(f"console: {message.text} ({message.location.get('url', '')})")

    def open(self, notebook: Path, data: list[Path] | None = None) -> None:
        """Copy a notebook and its data to `folder`, open it there, and wait until its kernel is idle.

        `data` are files or folders laid beside the notebook: all demo jobs unless told otherwise.
        """
        path = self._copy(notebook, data, into=self.folder)
        kernel = self.server.kernel()
        if kernel is not None:
            self.page.evaluate(PREPARE, [kernel, CLEARED.format(folder=str(self.folder))])
        self._console.clear()
        self.page.evaluate(OPEN, [path.relative_to(self.server.root).as_posix(), kernel])
        self.page.wait_for_function(WAIT_FOR_NOTEBOOK, timeout=START * 1000)
        self.page.evaluate(LISTEN)
        self.wait_until_idle()

    def wait_until_idle(self) -> None:
        """Wait until the kernel is connected and has nothing to do."""
        self.page.wait_for_function(WAIT_FOR_IDLE, timeout=RUN * 1000)

    def run_all(self) -> None:
        """Run all cells, and return when they are done or when one has failed."""
        self.page.evaluate(RUN_ALL, RUN * 1000)
        self.wait_until_idle()

    def locator(self, selector: str) -> Locator:
        """What `selector` finds in the page; assert on it with `expect`, which waits."""
        return self.page.locator(selector)

    def errors(self) -> list[str]:
        """What went wrong since the notebook was opened: in cells, in callbacks, on stderr, in the page."""
        kernel = [EARLY.sub("", ANSI.sub("", text)) for text in self.page.evaluate("() => window.kernelErrors")]
        return [text for text in kernel if text.removeprefix("stderr: ").strip()] + self._console

    def theme(self, name: Literal["light", "dark"]) -> None:
        """Switch JupyterLab's theme."""
        title = THEMES[name]
        self.page.evaluate("theme => window.jupyterapp.commands.execute('apputils:change-theme', {theme})", title)
        self.page.wait_for_function(WAIT_FOR_THEME, arg=title)

    def width(self, pixels: int) -> None:
        """Make the page `pixels` wide."""
        height = (self.page.viewport_size or {"height": 900})["height"]
        self.page.set_viewport_size({"width": pixels, "height": height})

    def screenshot(self, name: str, shown: str | Page | None = None) -> Path:
        """Write NAME.png of the page, one element or another page, to FITWRIGHT_SCREENSHOTS or the test's folder."""
        path = Path(os.environ.get("FITWRIGHT_SCREENSHOTS", self.shots)) / f"{name}.png"
        path.parent.mkdir(parents=True, exist_ok=True)
        shot = self.locator(shown) if isinstance(shown, str) else shown or self.page
        shot.screenshot(path=path, animations="disabled")
        return path


def unfold(panel: Locator) -> None:
    """Open every group of controls that is folded in a panel."""
    folded = panel.locator(".fw-group-head:has(.fa-caret-right)")
    for left in reversed(range(folded.count())):
        folded.first.click()
        expect(folded).to_have_count(left)
