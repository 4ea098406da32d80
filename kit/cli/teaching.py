"""What `fitwright worksheet` and `fitwright lesson` do."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from kit.core.errors import KitError, near_misses
from kit.core.quantity import Display
from kit.teach.worksheet import class_list, seeds_of, worksheets, write_worksheets

if TYPE_CHECKING:
    import argparse

    from kit.core.model import Case


def write(options: argparse.Namespace, display: Display | None) -> list[Path]:
    """Write the worksheets that the command asks for and return their files.

    Raises:
        KitError: the model, the job, the class list or the seeds cannot be used, or nothing can be asked.
    """
    title, cases, own = _asked_about(options.of)
    pupils = class_list(options.names) if options.names else []
    seeds = seeds_of(f"1-{len(pupils)}" if pupils and options.seeds == "1" else options.seeds)
    made = worksheets(title, cases, count=options.count, seeds=seeds, display=display or own, pupils=pupils)

    def progress(done: int, total: int, name: str) -> None:
        print(f"{done}/{total} {name}", file=sys.stderr)

    return write_worksheets(made, options.out, key=options.key, progress=progress)


def _asked_about(text: str) -> tuple[str, list[Case], Display]:
    """Return the title, the cases and the units of what is asked about: a model at its own values, or a job's parts."""
    if text.endswith(".toml"):
        from kit.job import Job

        job = Job.open(Path(text))
        return job.name, [job.case(part) for part in job.parts], job.display
    from kit.subjects import model

    return model(text).title, [model(text).at()], Display()


def write_lesson(options: argparse.Namespace) -> Path:
    """Write the lesson that the command asks for as one file and return that.

    Raises:
        KitError: there is no such notebook or job, or one of its cells fails.
    """
    from kit.core.files import write_atomic
    from kit.core.resources import notebooks_dir
    from kit.ui.lesson.export import export_lesson

    path = Path(options.notebook)
    if not path.is_file():
        path = notebooks_dir() / f"{path.name.removesuffix('.ipynb')}.ipynb"
    if not path.is_file():
        known = sorted(each.stem for each in notebooks_dir().glob("*.ipynb"))
        hint = near_misses(options.notebook, known) or f"; there are {', '.join(known)}"
        raise KitError(f"there is no notebook {options.notebook!r}{hint}")
    job = options.job.resolve() if options.job else None
    if job is not None and not job.is_file():
        raise KitError(f"there is no job file {str(options.job)!r}; give the path of a job")
    write_atomic(options.out, export_lesson(path, job=job))
    out: Path = options.out
    return out
