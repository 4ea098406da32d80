"""The station book: every worked sheet of a job, the files of its shapes, and an index."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from kit.core.errors import KitError
from kit.core.files import write_atomic
from kit.core.model.digest import digest
from kit.job.build import best_build
from kit.job.verdict import standalone_verdict, upstream
from kit.sheet.write import IndexEntry, file_name, index, part_origin, sheet

if TYPE_CHECKING:
    from kit.core.build import Build
    from kit.core.model import Case
    from kit.core.quantity import Display
    from kit.job import Job

Progress = Callable[[int, int, str], None]


def write_book(
    job: Job, folder: Path, progress: Progress | None = None, *, date: str | None = None, short: bool = False
) -> list[IndexEntry]:
    """Write the sheets of all parts of a job and `index.html` into `folder`, which is made if need be.

    The files of a part's shape go into the folder `files` beside them, their names beginning with the part's id.
    `progress` is passed how many sheets are done, how many there are, and the title of the last one; `date` is
    the job's or today's unless given. A `short` book leaves out how the numbers come about. Nothing is written unless
    every part can be computed and built.

    Raises:
        KitError: a part that cannot be computed or built, or two parts whose sheets would have the same name.
    """
    date = date or job.head.get("date") or datetime.date.today().isoformat()
    cases = {id: job.case(id) for id in job.parts}
    _check_names(list(cases))
    shapes = {id: best_build(job, id) for id in cases}
    folder.mkdir(parents=True, exist_ok=True)
    entries: list[IndexEntry] = []
    for id, case in cases.items():
        entries.append(_write_part(job, id, case, shapes[id], folder, date, short=short))
        if progress:
            progress(len(entries), len(cases), entries[-1].title)
    write_atomic(folder / "index.html", index(entries, title=job.name, date=date, short=short))
    return entries


def write_part(job: Job, part_id: str, folder: Path, *, short: bool = False) -> IndexEntry:
    """Write the sheet of one part and the files of its shape into `folder`; return its place there and its verdict.

    Raises:
        KitError: there is no such part, or it cannot be computed or built.
    """
    case, build = job.case(part_id), best_build(job, part_id)
    folder.mkdir(parents=True, exist_ok=True)
    return _write_part(job, part_id, case, build, folder, short=short)


def _write_part(
    job: Job, id: str, case: Case, build: Build | None, folder: Path, date: str = "", *, short: bool
) -> IndexEntry:
    origin, href = part_origin(job, id, date=date), file_name(id)
    written = write_files(build, folder, id, job.display) if build else {}
    cells = job.cell_origins(id).values()
    judged = standalone_verdict(case, build, upstream=upstream(job, id), level=job.level, cells=cells)
    page = sheet(case, display=job.display, origin=origin, build=build, verdict=judged, written=written, short=short)
    write_atomic(folder / href, page)
    inputs = (build and build.inputs) or digest(case)
    return IndexEntry(origin.title or case.model.title, case.model.question, href, judged, inputs)


def write_files(build: Build, folder: Path, stem: str, display: Display) -> dict[str, list[str]]:
    """Write all files of a shape into `folder`/files; return their paths from `folder`, by what they are.

    Raises:
        KitError: something that cannot be drawn or written so.
    """
    return {
        output.what: [path.relative_to(folder).as_posix() for path in output.write(folder / "files", stem, display)]
        for output in build.outputs
    }


def _check_names(ids: list[str]) -> None:
    taken: dict[str, str] = {"index.html": "the index"}
    for id in ids:
        other = taken.setdefault(file_name(id).lower(), f"part {id!r}")
        if other != f"part {id!r}":
            raise KitError(f"the sheet of part {id!r} would overwrite that of {other}; give the part another name")
