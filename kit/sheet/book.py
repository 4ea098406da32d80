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
from kit.sheet.write import IndexEntry, Origin, file_name, index, sheet

if TYPE_CHECKING:
    from kit.core.build import Build
    from kit.core.quantity import Display
    from kit.job import Job

Progress = Callable[[int, int, str], None]


def write_book(
    job: Job, folder: Path, progress: Progress | None = None, *, date: str | None = None
) -> list[IndexEntry]:
    """Write the sheets of all parts of a job and `index.html` into `folder`, which is made if need be.

    The files of a part's shape go into the folder `files` beside them, their names beginning with the part's id.
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
        written = write_files(build, folder, id, job.display) if build else {}
        cells = job.cell_origins(id).values()
        judged = standalone_verdict(case, build, upstream=upstream(job, id), level=job.level, cells=cells)
        page = sheet(case, display=job.display, origin=origin, build=build, verdict=judged, written=written)
        write_atomic(folder / href, page)
        title = origin.title or case.model.title
        inputs = (build and build.inputs) or digest(case)
        entries.append(IndexEntry(title, case.model.question, href, judged, inputs))
        if progress:
            progress(len(entries), len(cases), title)
    write_atomic(folder / "index.html", index(entries, title=job.name, date=date))
    return entries


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
