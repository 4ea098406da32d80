"""A folder of one's own to work in: the notebooks, the demo jobs, and JupyterLab on top."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from kit.core.errors import KitError, near_misses
from kit.core.resources import data_dir, notebooks_dir


def lay_out(folder: Path, *, job: Path | None = None) -> list[Path]:
    """Put the notebooks and the job (or the demo jobs) with the files it names into `folder`; return what was new.

    What is already there is left as it is: it may hold somebody's work.
    """
    folder.mkdir(parents=True, exist_ok=True)
    jobs = [job] if job else sorted(data_dir().glob("*.toml"))
    sources = {source: Path(source.name) for source in (*sorted(notebooks_dir().glob("*.ipynb")), *jobs)}
    for each in jobs:
        sources |= {path: path.relative_to(each.parent) for path in _named_by(each)}
    new = []
    for source, place in sources.items():
        target = folder / place
        if not target.exists():
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(source, target)
            new.append(target)
    return new


def _named_by(job: Path) -> list[Path]:
    """Return the files that the parts of a job name; none if it cannot be read, which its notebooks will report."""
    from kit.job import Job
    from kit.job.build import named_files

    try:
        parts = Job.open(job).parts.values()
    except KitError:
        return []
    return [path for part in parts for path in named_files({**part.picks, **part.lists}, job.parent)]


def open_lab(folder: Path, notebook: str, *, job: Path | None = None, browser: bool = True) -> int:
    """Lay out `folder` and run JupyterLab there on `notebook` until it is closed; return its exit code.

    Raises:
        KitError: there is no such notebook or job.
    """
    if job is not None and not job.is_file():
        raise KitError(f"there is no job file {str(job)!r}; give the path of a job, such as boatshed.toml")
    new = lay_out(folder, job=job)
    if not (folder / notebook).is_file():
        known = sorted(path.name for path in folder.glob("*.ipynb"))
        hint = near_misses(notebook, known) or f"; there are {', '.join(known)}"
        raise KitError(f"there is no notebook {notebook!r} in {str(folder)!r}{hint}")
    print(f"{folder}: {len(new)} files put there, what was there before is untouched")
    command = [
        sys.executable,
        "-m",
        "jupyterlab",
        f"--ServerApp.root_dir={folder.resolve()}",
        f"--LabApp.default_url=/lab/tree/{notebook}",  # so that an address opened by hand leads there too
    ]
    if not browser:
        command.append("--no-browser")
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        print("you are root, as in a container; JupyterLab runs as root too")
        command.append("--allow-root")
    try:
        return subprocess.run(command, check=False).returncode
    except KeyboardInterrupt:
        return 0
