"""Opening the job that lies beside a notebook, or the demo where there is none yet."""

from __future__ import annotations

from pathlib import Path

from kit.core.errors import near_misses
from kit.core.files import write_atomic
from kit.core.resources import data_dir
from kit.job.errors import JobError
from kit.job.folder import current_job
from kit.job.job import Job


def open_job(name: str | None = None) -> Job:
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
        demos = {demo.name: demo for demo in data_dir().glob("*.toml")}
        if path.name not in demos:
            hint = near_misses(path.name, list(demos)) or f"; the demos are {', '.join(sorted(demos))}"
            raise JobError(f"there is no job file {name!r} in {str(Path.cwd())!r}{hint}")
        write_atomic(path, demos[path.name].read_bytes())
    return Job.open(path)
