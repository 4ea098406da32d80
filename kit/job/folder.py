"""The jobs of a folder: which there are, which one is open, and new ones."""

from __future__ import annotations

import json
import os
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from kit.core.errors import KitError
from kit.core.files import write_atomic
from kit.core.resources import data_dir
from kit.job.errors import JobError
from kit.job.job import Job
from kit.job.toml_edit import put, render
from kit.job.toml_file import FORMAT, read

VARIABLE = "FITWRIGHT_JOB"
"""The environment variable that names the job to open."""

_MEMORY = ".fitwright.json"


@dataclass(frozen=True)
class JobFile:
    """A job file of a folder: its name as a job and its parts, or why it cannot be read."""

    path: Path
    name: str
    parts: int = 0
    fault: str = ""


def current_job(folder: Path | None = None) -> Path | None:
    """Return the job that is open in a folder: the one that FITWRIGHT_JOB names, else the last one; None without any.

    Raises:
        JobError: FITWRIGHT_JOB names a file that is not there.
    """
    folder = folder or Path.cwd()
    named = os.environ.get(VARIABLE)
    if named:
        path = folder / named
        if not path.is_file():
            raise JobError(
                f"{VARIABLE} is {named!r}, but there is no such file in {str(folder)!r}; correct or unset it"
            )
        return path
    try:
        path = folder / json.loads((folder / _MEMORY).read_text(encoding="utf-8"))["job"]
    except (OSError, ValueError, KeyError, TypeError):
        return None
    return path if path.is_file() else None


def remember(path: Path, folder: Path | None = None) -> None:
    """Remember a job as the one that is open in a folder. Raises OSError where nothing can be written."""
    folder = folder or Path.cwd()
    named = os.path.relpath(path, folder)
    write_atomic(folder / _MEMORY, json.dumps({"job": named}))
    if os.environ.get(VARIABLE):  # what a person opens now wins over what the session began with
        os.environ[VARIABLE] = named


def job_files(folder: Path | None = None) -> Iterator[JobFile]:
    """Yield the job files of a folder by name; other TOML files are passed over."""
    for path in sorted((folder or Path.cwd()).glob("*.toml")):
        try:
            if not {"job", "parts"} & read(path).data.keys():
                continue
            job = Job.open(path)
        except KitError as error:
            yield JobFile(path, path.stem, fault=str(error))
        else:
            yield JobFile(path, job.name, len(job.parts))


def demos() -> dict[str, str]:
    """Return the demo jobs that came with the kit, each file's name with its job's."""
    return {path.name: Job.open(path).name for path in sorted(data_dir().glob("*.toml"))}


def new_job(name: str, units: str = "mm", maker: str = "", *, folder: Path | None = None) -> Job:
    """Write a job without parts into a folder and open it; its file is named after it.

    Raises:
        JobError: an empty name.
        OSError: the folder cannot be written.
    """
    name = _named(name)
    lines = [f"format = {FORMAT}", "", "[job]", f"name = {render(name)}", f"units = {render(units)}"]
    lines += [f"maker = {render(maker.strip())}"] if maker.strip() else []
    path = _free(folder or Path.cwd(), name)
    write_atomic(path, "\n".join([*lines, "", "[parts]", ""]))
    return Job.open(path)


def copy_job(source: Path, name: str = "", *, folder: Path | None = None) -> Job:
    """Copy a job's file into a folder under another name, and open it; a demo keeps its own name and file.

    Raises:
        JobError: it cannot be read as a job.
        OSError: the folder cannot be written.
    """
    text = read(source).text
    if not name:
        path = _free(folder or Path.cwd(), source.stem)
        write_atomic(path, source.read_text(encoding="utf-8"))
    else:
        path = _free(folder or Path.cwd(), _named(name))
        write_atomic(path, put(text, ("job", "name"), _named(name)))
    return Job.open(path)


def rename_job(job: Job, name: str) -> None:
    """Give a job another name; its file keeps its own. Raises as `new_job`."""
    job.rewrite(lambda text: put(text, ("job", "name"), _named(name)))


def _named(name: str) -> str:
    if not name.strip():
        raise JobError("a job needs a name; write the machine's, such as miter saw in a garage")
    return name.strip()


def _free(folder: Path, name: str) -> Path:
    """Return a path for a file named after a job that is not there yet."""
    plain = re.sub(r"[^a-z0-9]+", "_", name.lower()).strip("_") or "job"
    number = 1
    while (path := folder / (f"{plain}.toml" if number == 1 else f"{plain}_{number}.toml")).exists():
        number += 1
    return path
