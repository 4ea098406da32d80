"""Opening the job that lies beside a notebook, or a demo."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

from kit.core.errors import near_misses
from kit.core.files import write_atomic
from kit.core.resources import data_dir
from kit.job.errors import JobError
from kit.job.folder import current_job
from kit.job.job import Job


def open_job(name: str | Path | None = None) -> Job:
    """Open the job file `name`, or the one that is open here; a demo job that is not there yet is copied there first.

    So a notebook works on a job of the folder it lies in, and the demo that came with the kit stays as it was.

    Raises:
        JobError: there is no such file and no demo of that name, none is open, or it cannot be read as a job.

    >>> job = open_job("boatshed.toml")
    >>> job.name
    'Boat-shed cut-off bench'
    """
    if name is None:
        path = current_job()
        if path is None:
            raise JobError("no job is open here; open one on the job page, or name it: open_job('boatshed.toml')")
        return Job.open(path)
    path = Path(name)
    if not path.exists():
        demos = _demos()
        if path.name not in demos:
            hint = near_misses(path.name, list(demos)) or f"; the demos are {', '.join(sorted(demos))}"
            raise JobError(f"there is no job file {str(name)!r} in {str(Path.cwd())!r}{hint}")
        write_atomic(path, demos[path.name].read_bytes())
    return Job.open(path)


def example_job(name: str = "boatshed.toml") -> Job:
    """Open a demo job as an example: a copy that is gone when the session ends, so that a lesson may play with it.

    Raises:
        JobError: no demo has that name.

    >>> example_job().name
    'Boat-shed cut-off bench'
    """
    source = data_dir() / name
    if not source.is_file():
        raise JobError(f"there is no demo {name!r}; the demos are {', '.join(sorted(_demos()))}")
    path = Path(_away().name) / name
    write_atomic(path, source.read_bytes())
    return Job.open(path)


def is_example(job: Job) -> bool:
    """Return whether a job is such a copy, in which nothing is worth saving."""
    return job.path.parent == Path(_away().name)


@cache
def _away() -> tempfile.TemporaryDirectory[str]:
    return tempfile.TemporaryDirectory(prefix="fitwright-")


def _demos() -> dict[str, Path]:
    return {demo.name: demo for demo in data_dir().glob("*.toml")}
