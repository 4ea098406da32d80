"""What all tests share: the order of the run, a private Jupyter environment, working copies of notebooks."""

import os
import shutil
import sys
import tempfile
from collections.abc import Callable
from importlib import import_module
from pathlib import Path

import numpy as np
import pytest

from tests import DATA, ROOT
from tests.jupyter import private_environment
from tests.markup import html_checker
from tests.sharing import STATED, once, state_all

EVERY_DAY = "not bench and not long"  # as in pyproject.toml
MOST = 4  # processes: each states the models anew and may start a server and a browser of its own

# In the browser first, so that all processes end together.
LONG = {"test_sheet": 3, "test_station": 2, "test_intake": 2, "test_notebooks": 1}


def pytest_configure(config: pytest.Config) -> None:
    """Keep what is stated in a folder of this run, shared by its processes: nobody else's store is read or written.

    What a person picks to run in one process keeps it from run to run: to state all pages takes half a minute.
    What is built of the demo jobs is kept as long as the process: rules, sheets and notebooks look at the same parts.
    """
    # Reading a notebook would load it for seconds, to check addresses that no notebook has.
    sys.modules.setdefault("rfc3987_syntax", None)  # type: ignore[arg-type]
    import_module("kit.job.build")._KEPT = 1000  # type: ignore[attr-defined]
    if "PYTEST_XDIST_WORKER" in os.environ:
        return
    if config.pluginmanager.has_plugin("cacheprovider") and not config.getoption("numprocesses", None):
        os.environ["FITWRIGHT_CACHE"] = str(config.cache.mkdir("store"))  # type: ignore[union-attr]
    else:
        folder = tempfile.mkdtemp(prefix="fitwright-store-")
        os.environ["FITWRIGHT_CACHE"] = folder
        config.add_cleanup(lambda: shutil.rmtree(folder, ignore_errors=True))


def pytest_sessionstart(session: pytest.Session) -> None:
    """State all pages before several processes start: each would state them while it collects."""
    if session.config.getoption("numprocesses", None) and "PYTEST_XDIST_WORKER" not in os.environ:
        from kit.core.model.store import user_folder

        state_all(user_folder())
        os.environ[STATED] = str(user_folder())
        session.config.add_cleanup(lambda: os.environ.pop(STATED, None))


def pytest_xdist_auto_num_workers(config: pytest.Config) -> int:
    """Share a run of all tests among the processor's cores; what a person picks runs in one process."""
    everything = config.args_source is pytest.Config.ArgsSource.TESTPATHS
    marked = config.option.markexpr != EVERY_DAY
    picked = config.option.keyword or marked or config.option.capture == "no"
    cores = min(os.cpu_count() or 1, MOST)
    return cores if everything and not picked and cores > 1 else 0


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark what lies in tests/browser and move it to the end; group what one process should run.

    The browser driver leaves an event loop running in this thread, where no other test could start its own.
    """
    browser = ROOT / "tests" / "browser"
    for item in items:
        if item.path.is_relative_to(browser):
            item.add_marker(pytest.mark.browser)
        item.add_marker(pytest.mark.xdist_group(_group(item)))
    items.sort(key=lambda item: ("browser" in item.keywords, -LONG.get(item.path.stem, 0)))


def _group(item: pytest.Item) -> str:
    """Return the name of those tests that share what is made for them: a file's, a sheet's, a model's or a part's."""
    path = item.path.relative_to(ROOT / "tests")
    match path.parts[0]:
        case "sheet":
            return "sheets"
        case "rules":
            return item.name.rpartition("[")[2] if "[" in item.name else path.stem
        case "notebooks":
            return item.name
        case "browser" if path.stem not in ("test_sheet", "test_hub"):
            return item.nodeid
    return str(path)


@pytest.fixture(scope="session")
def sheets(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """The sheet of every model at its own values, millimeters and inches by turns."""

    def write() -> dict[str, str]:
        from kit import subjects
        from kit.core.quantity import Display
        from kit.sheet.write import sheet
        from tests.sheet.conftest import ORIGIN

        systems = (Display(), Display(system="in"))
        return {
            name: sheet(subjects.model(name).at(), display=systems[k % 2], origin=ORIGIN)
            for k, name in enumerate(subjects.names())
        }

    return once(tmp_path_factory, "sheets", write)


@pytest.fixture(scope="session")
def checker() -> list[str]:
    """The command of the HTML checker, for `tests.markup.errors`."""
    return html_checker()


@pytest.fixture(scope="session")
def jupyter_env(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """Environment variables for a Jupyter process that reads and writes nothing of the user's own set-up."""
    return private_environment(tmp_path_factory.mktemp("jupyter"))


@pytest.fixture
def working_copy(tmp_path: Path) -> Callable[..., Path]:
    """Return `copy(notebook, data=None, into=None)`: a notebook with its job files in a folder of its own.

    `data` are files or folders laid beside the notebook (all demo jobs unless told otherwise); `into` is a
    new folder (one of the test's own unless told otherwise). The copy's path is returned.
    """

    def copy(notebook: Path, data: list[Path] | None = None, into: Path | None = None) -> Path:
        folder = into or tmp_path / "working"
        folder.mkdir(parents=True)
        for item in sorted(DATA.glob("*.toml")) if data is None else data:
            if item.is_dir():
                shutil.copytree(item, folder / item.name)
            else:
                shutil.copy(item, folder)
        return Path(shutil.copy(notebook, folder))

    return copy


@pytest.fixture
def turned_round(monkeypatch: pytest.MonkeyPatch) -> None:
    """Another linear algebra library: every singular and eigenvector comes with its other sign."""
    svd, eigh = np.linalg.svd, np.linalg.eigh

    def other_svd(matrix, *args, **how):  # type: ignore[no-untyped-def]
        found = svd(matrix, *args, **how)
        return found if isinstance(found, np.ndarray) else (-found[0], found[1], -found[2])

    def other_eigh(matrix):  # type: ignore[no-untyped-def]
        values, vectors = eigh(matrix)
        return values, -vectors

    monkeypatch.setattr(np.linalg, "svd", other_svd)
    monkeypatch.setattr(np.linalg, "eigh", other_eigh)
