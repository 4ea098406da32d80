"""A class on a real hub with users of the system: each has a room of his own, and nobody looks into another's.

What a start takes, and the memory of a user, are printed, for reading.
"""

import os
import pwd
import secrets
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Iterator
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from kit.core.errors import KitError
from kit.teach.answers import read_class
from kit.ui.hub import classroom
from tests import NOTEBOOKS
from tests.browser.lab import START

pytestmark = pytest.mark.long

CONFIGURATION = """
from kit.ui.hub import classroom

c = get_config()
classroom(c, {folder!r}, instructors={group!r})
c.JupyterHub.bind_url = "http://127.0.0.1:{public}"
c.JupyterHub.hub_port = {hub}
c.ConfigurableHTTPProxy.api_url = "http://127.0.0.1:{proxy}"
c.ConfigurableHTTPProxy.command = {command!r}
c.JupyterHub.authenticator_class = "shared-password"
c.SharedPasswordAuthenticator.user_password = {password!r}
c.Authenticator.allowed_users = {users!r}
"""


@dataclass(frozen=True)
class Hub:
    """A hub that runs: its address, the password of all, its folder, two pupils and an instructor."""

    url: str
    password: str
    folder: Path
    pupils: tuple[str, str]
    instructor: str

    def room(self, name: str) -> Path:
        return self.folder / "rooms" / name


@pytest.fixture(scope="module")
def hub(browser: Browser) -> Iterator[Hub]:
    """A hub on free ports, with users that are there as long as it runs."""
    if os.geteuid() != 0:
        _missing("only root can make users of the system and start servers as them")
    if not _others_may_run(Path(sys.executable)):
        _missing(f"other users of the system may not run {sys.executable}")
    names = [f"fw{os.getpid()}{each}" for each in ("ann", "bea", "teacher")]
    group = f"fw{os.getpid()}s"
    password = secrets.token_hex(16)  # the hub refuses short ones
    with ExitStack() as after:
        folder = Path(tempfile.mkdtemp(prefix="fitwright-class-"))
        after.callback(shutil.rmtree, folder)
        folder.chmod(0o755)  # each user passes through
        _system("groupadd", group)
        after.callback(_system, "groupdel", group)
        for name in names:
            groups = ["--groups", group] if name.endswith("teacher") else []
            _system("useradd", "--create-home", "--home-dir", str(folder / f"home-{name}"), *groups, name)
            after.callback(_system, "userdel", name)
        public, hub, proxy = _free_ports(3)
        told = {"folder": str(folder / "class"), "group": group, "password": password, "users": set(names)}
        told["command"] = [str(Path(sys.executable).with_name("configurable-http-proxy"))]
        ports = {"public": public, "hub": hub, "proxy": proxy}
        (folder / "hub").mkdir(mode=0o700)
        (folder / "hub" / "config.py").write_text(CONFIGURATION.format(**told, **ports))
        log = after.enter_context((folder / "hub" / "log").open("wb"))
        process = subprocess.Popen(
            [sys.executable, "-m", "jupyterhub", "-f", "config.py"], cwd=folder / "hub", stdout=log, stderr=log
        )
        after.callback(_stop, process)
        url = f"http://127.0.0.1:{public}"
        _wait(url, process, folder / "hub" / "log")
        yield Hub(url, password, folder / "class", (names[0], names[1]), names[2])


def _missing(reason: str) -> None:
    """Skip what cannot run here; on a build machine (CI is set) it fails."""
    (pytest.fail if os.environ.get("CI") else pytest.skip)(reason)


def _others_may_run(program: Path) -> bool:
    """Whether a user who owns nothing can run a program, and what lies beside it."""
    nobody = pwd.getpwnam("nobody").pw_uid
    try:
        return subprocess.run([program, "-c", "import jupyterhub"], user=nobody, cwd="/", check=False).returncode == 0
    except PermissionError:
        return False


def _system(*command: str) -> None:
    subprocess.run(command, check=True, capture_output=True)


def _free_ports(count: int) -> list[int]:
    with ExitStack() as held:
        sockets = [held.enter_context(socket.socket()) for _ in range(count)]
        for each in sockets:
            each.bind(("127.0.0.1", 0))
        return [each.getsockname()[1] for each in sockets]


def _stop(process: "subprocess.Popen[bytes]") -> None:
    """End the hub, which ends its proxy and its users' servers."""
    process.terminate()
    process.wait(timeout=START)


def _wait(url: str, process: "subprocess.Popen[bytes]", log: Path) -> None:
    end = time.monotonic() + START
    while time.monotonic() < end and process.poll() is None:
        try:
            urllib.request.urlopen(f"{url}/hub/api", timeout=10).close()
        except OSError:
            time.sleep(0.2)
        else:
            return
    raise RuntimeError(f"the hub did not start:\n{log.read_text()}")


@pytest.fixture(scope="module")
def pages(hub: Hub, browser: Browser) -> Iterator[dict[str, Page]]:
    """The first page of each user, whose notebook has run by itself; each start is timed and printed."""
    found = {}
    with ExitStack() as after:
        for name in (*hub.pupils, hub.instructor):
            context = browser.new_context(viewport={"width": 1300, "height": 1000})
            after.callback(context.close)
            page = found[name] = context.new_page()
            page.goto(f"{hub.url}/hub/login")
            page.get_by_label("Username").fill(name)
            page.get_by_label("Password").fill(hub.password)
            begun = time.monotonic()
            page.locator("input[type=submit]").click()
            expect(page.locator(".fw-panel input").first).to_be_visible(timeout=START * 1000)
            print(f"{name}: from login to the first field {time.monotonic() - begun:.0f} s")
        for name in found:
            alone, all_told = _memory(name)
            print(f"{name}: {alone:.0f} MB, shared pages by their share; resident {all_told:.0f} MB")
        yield found


def _memory(name: str) -> tuple[float, float]:
    """Return the MB of a user's processes: with shared pages by their share, and with all that is resident."""
    user = pwd.getpwnam(name).pw_uid
    counted = {"Pss": 0.0, "Rss": 0.0}
    for process in Path("/proc").glob("[0-9]*"):
        try:
            if process.stat().st_uid == user:
                for line in (process / "smaps_rollup").read_text().splitlines()[1:]:
                    key, value = line.split()[:2]
                    if key.rstrip(":") in counted:
                        counted[key.rstrip(":")] += float(value) / 1024
        except OSError:  # it has ended meanwhile
            continue
    return counted["Pss"], counted["Rss"]


def test_each_user_begins_with_a_page_of_his_own_without_code(hub: Hub, pages: dict[str, Page], tmp_path: Path) -> None:
    for name, page in pages.items():
        teaches = name == hub.instructor
        head = "For the instructor" if teaches else "A class hour: predict, make, measure"
        expect(page.get_by_role("heading", level=1).first).to_contain_text(head)
        assert page.url.startswith(f"{hub.url}/user/{name}/")
        assert page.locator(".jp-CodeCell .jp-InputArea-editor:visible").count() == 0
        page.screenshot(path=Path(os.environ.get("FITWRIGHT_SCREENSHOTS", tmp_path)) / f"hub-{name[-3:]}.png")


def test_notebooks_are_read_only(hub: Hub, pages: dict[str, Page]) -> None:
    ann = hub.pupils[0]
    for source in NOTEBOOKS.glob("*.ipynb"):
        path = hub.room(ann) / source.name
        assert path.exists() == (source.name != "class_instructor.ipynb")
        if path.exists():
            assert path.read_bytes() == source.read_bytes()
            assert _as(ann, f"echo x >> {path}") != 0
    told = pages[ann].request.get(f"{hub.url}/user/{ann}/api/contents/class_hour.ipynb?content=0")
    assert told.json()["writable"] is False


def test_nobody_reads_what_is_another_s(hub: Hub, pages: dict[str, Page]) -> None:
    ann, bea = hub.pupils
    key = hub.room(hub.instructor) / "worksheets" / "key" / "01.html"
    assert _as(hub.instructor, f"mkdir -p {key.parent} && echo secret > {key}") == 0
    assert _as(ann, f"echo mine > {hub.room(ann)}/notes.txt") == 0
    assert _as(hub.instructor, f"cat {key}") == 0
    assert _as(ann, f"cat {hub.room(ann)}/notes.txt") == 0
    assert _as(hub.instructor, f"cat {hub.room(ann)}/notes.txt") == 0
    for other in (f"cat {hub.room(ann)}/notes.txt", f"cat {key}", f"ls {hub.room(ann)}", f"ls {hub.room(ann).parent}"):
        assert _as(bea, other) != 0
    assert _as(hub.instructor, f"echo x > {hub.room(ann)}/notes.txt") != 0
    there = f"{hub.url}/user/{ann}/api/contents/notes.txt"
    assert pages[ann].request.get(there).status == 200
    assert pages[bea].request.get(there).status in (403, 404)
    assert pages[bea].request.get(f"{hub.url}/user/{hub.instructor}/api/contents").status in (403, 404)


def test_answers_are_kept_by_who_has_logged_in_and_read_by_the_instructor(hub: Hub, pages: dict[str, Page]) -> None:
    for name in hub.pupils:
        page = pages[name]
        expect(page.locator(".fw-sign-in")).to_contain_text(f"kept as those of {name}")
        asked = page.locator(".fw-predicting").first
        asked.locator("input").first.check()
        asked.get_by_role("button").click()
        expect(asked.get_by_role("status")).to_contain_text("Right is:")
    found, faults = read_class(hub.folder / "rooms")
    assert sorted(each.pupil for each in found) == sorted(hub.pupils)
    assert faults == []
    page = pages[hub.instructor]
    page.get_by_label("Folder of the pupils' files").fill(str(hub.folder / "rooms"))
    page.get_by_role("button", name="Read the answers").click()
    expect(page.locator(".fw-classroom").last).to_contain_text("answers read: 2, pupils: 2")


def _as(name: str, command: str) -> int:
    """Run a command as a user and return its exit code."""
    return subprocess.run(["runuser", "-u", name, "--", "sh", "-c", command], capture_output=True).returncode


def test_what_a_class_lacks_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 1000)
    with pytest.raises(KitError, match="does not run as root"):
        classroom(None, tmp_path)
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    with pytest.raises(KitError, match="no group 'no_such_group' on this system; make it: groupadd"):
        classroom(None, tmp_path, "no_such_group")
    assert not list(tmp_path.iterdir())
