"""A folder of one's own to work in: the notebooks, and JupyterLab on top, which opens one of them as a page."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import tempfile
from hashlib import sha256
from importlib.resources import files
from pathlib import Path

from kit.core.errors import KitError, near_misses
from kit.core.resources import notebooks_dir
from kit.job.folder import VARIABLE


def lay_out(folder: Path) -> list[Path]:
    """Put the notebooks into `folder`; return what was new. What is there is left: it may be somebody's work."""
    folder.mkdir(parents=True, exist_ok=True)
    new = []
    for source in sorted(notebooks_dir().glob("*.ipynb")):
        target = folder / source.name
        if not target.exists():
            shutil.copyfile(source, target)
            new.append(target)
    return new


def open_lab(folder: Path, notebook: str, *, job: Path | None = None, browser: bool = True) -> int:
    """Lay out `folder` and run JupyterLab there on `notebook` until it is closed; return its exit code.

    A job that is named is worked on where it lies.

    Raises:
        KitError: there is no such notebook or job.
    """
    if job is not None and not job.is_file():
        raise KitError(f"there is no job file {str(job)!r}; give the path of a job, such as boatshed.toml")
    new = lay_out(folder)
    if not (folder / notebook).is_file():
        known = sorted(path.name for path in folder.glob("*.ipynb"))
        hint = near_misses(notebook, known) or f"; there are {', '.join(known)}"
        raise KitError(f"there is no notebook {notebook!r} in {str(folder)!r}{hint}")
    print(f"{folder}: {len(new)} files put there, what was there before is untouched")
    with tempfile.TemporaryDirectory(prefix="fitwright-") as settings:
        try:
            return subprocess.run(
                lab_command(folder, notebook, browser=browser), env=lab_env(Path(settings), job), check=False
            ).returncode
        except KeyboardInterrupt:
            return 0


def lab_command(folder: Path, notebook: str, *, browser: bool = True) -> list[str]:
    """Return the command that serves `folder` with `notebook` as a page of its own."""
    command = [
        *(sys.executable, "-m", "jupyterlab", f"--ServerApp.root_dir={folder.resolve()}"),
        f"--LabApp.default_url=/doc/tree/{notebook}",
        *page_options(),
    ]
    if not browser:
        command.append("--no-browser")
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        print("you are root, as in a container; JupyterLab runs as root too")
        command.append("--allow-root")
    return command


def page_options() -> list[str]:
    """Return the options by which a server shows a notebook of the kit as a page."""
    extensions = files("kit.ui") / "jupyter" / "ext"
    return ["--LabApp.news_url=None", f"--LabApp.extra_labextensions_path={extensions}"]


def lab_env(settings: Path, job: Path | None = None) -> dict[str, str]:
    """Return the environment of the server: its own settings in the folder `settings`, and the job to open.

    The person's own JupyterLab keeps its settings.
    """
    write_settings(settings)
    paths = filter(None, (str(settings), os.environ.get("JUPYTER_CONFIG_PATH")))
    env = os.environ | {"JUPYTER_CONFIG_PATH": os.pathsep.join(paths)}
    return env | ({VARIABLE: str(job.resolve())} if job else {})


def write_settings(settings: Path) -> None:
    """Write what a server's JUPYTER_CONFIG_PATH is to name.

    Which notebooks run by themselves is told by their digests.
    """
    config = settings / "labconfig"
    config.mkdir(parents=True, exist_ok=True)
    overrides = (files("kit.ui") / "jupyter" / "overrides.json").read_text(encoding="utf-8")
    (config / "default_setting_overrides.json").write_text(overrides, encoding="utf-8")
    shipped = {"fitwrightShipped": [code_digest(path) for path in sorted(notebooks_dir().glob("*.ipynb"))]}
    (config / "page_config.json").write_text(json.dumps(shipped), encoding="utf-8")


def code_digest(notebook: Path) -> str:
    """Return what stands for all code of a notebook, as the page computes it."""
    cells = json.loads(notebook.read_text(encoding="utf-8"))["cells"]
    code = ["".join(cell["source"]) for cell in cells if cell["cell_type"] == "code"]
    return sha256("\0".join(code).encode()).hexdigest()
