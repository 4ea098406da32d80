"""The station book: every worked sheet of a job, the files of its shapes, and an index."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from kit.core.errors import KitError
from kit.core.files import write_atomic
from kit.core.model.digest import digest
from kit.drawing.remarks import remarking
from kit.job.build import best_build
from kit.job.verdict import standalone_verdict, upstream
from kit.sheet.write import IndexEntry, Origin, file_name, index, sheet

if TYPE_CHECKING:
    from kit.core.build import Build, Output
    from kit.core.quantity import Display
    from kit.core.verdict import Verdict
    from kit.job import Job

Progress = Callable[[int, int, str], None]


LEFT_OUT = "not written, as a limit of this part fails; `fitwright book --failing` writes them, each marked"


def write_book(
    job: Job, folder: Path, progress: Progress | None = None, *, date: str | None = None, failing: bool = False
) -> list[IndexEntry]:
    """Write the sheets of all parts of a job and `index.html` into `folder`, which is made if need be.

    The files of a part's shape go into the folder `files` beside them, their names beginning with the part's id; those
    of a part of which a limit fails only with `failing`, and then each carries that limit in words.
    `progress` is passed how many sheets are done, how many there are, and the title of the last one; `date` is
    today's unless given. Nothing is written unless every part can be computed and built.

    Raises:
        KitError: a part that cannot be computed or built, or two parts whose sheets would have the same name.
    """
    date = date or datetime.date.today().isoformat()
    cases = {id: job.case(id) for id in job.parts}
    _check_names(list(cases))
    shapes = {id: best_build(job, id) for id in cases}
    folder.mkdir(parents=True, exist_ok=True)
    entries: list[IndexEntry] = []
    for id, case in cases.items():
        origin = Origin(job.name, id, job.parts[id].title, date)
        href, build = file_name(id), shapes[id]
        cells = job.cell_origins(id).values()
        judged = standalone_verdict(case, build, upstream=upstream(job, id), level=job.level, cells=cells)
        written = _written(build, folder, id, job.display, judged, failing=failing) if build else {}
        page = sheet(case, display=job.display, origin=origin, build=build, verdict=judged, written=written)
        write_atomic(folder / href, page)
        title = origin.title or case.model.title
        inputs = (build and build.inputs) or digest(case)
        entries.append(IndexEntry(title, case.model.question, href, judged, inputs))
        if progress:
            progress(len(entries), len(cases), title)
    write_atomic(folder / "index.html", index(entries, title=job.name, date=date))
    return entries


def write_files(build: Build, folder: Path, stem: str, display: Display, verdict: Verdict) -> dict[str, list[str]]:
    """Write all files of a shape into `folder`/files; return their paths from `folder`, by what they are.

    Each carries in words the limits that fail.

    Raises:
        KitError: something that cannot be drawn or written so.
    """
    return {
        output.what: [
            path.relative_to(folder).as_posix()
            for path in write_output(output, folder / "files", stem, display, verdict)
        ]
        for output in build.outputs
    }


def write_output(output: Output, folder: Path, stem: str, display: Display, verdict: Verdict) -> list[Path]:
    """Write the files of one output into `folder`; return their paths. Marks and raises as `write_files`."""
    with remarking(tuple(f"LIMIT FAILS: {check.words(display)}" for check in verdict.failing)):
        return output.write(folder, stem, display)


def _written(
    build: Build, folder: Path, stem: str, display: Display, verdict: Verdict, *, failing: bool
) -> dict[str, list[str]]:
    if verdict.ok or failing or not build.outputs:
        return write_files(build, folder, stem, display, verdict)
    return {LEFT_OUT: []}


def _check_names(ids: list[str]) -> None:
    taken: dict[str, str] = {"index.html": "the index"}
    for id in ids:
        other = taken.setdefault(file_name(id).lower(), f"part {id!r}")
        if other != f"part {id!r}":
            raise KitError(f"the sheet of part {id!r} would overwrite that of {other}; give the part another name")
