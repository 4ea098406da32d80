"""The station book: every worked sheet of a job and an index."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from kit.errors import KitError
from kit.files import write_atomic
from kit.model.digest import digest
from kit.sheet.fragments import verdict_words
from kit.sheet.write import IndexEntry, Origin, file_name, index, sheet

if TYPE_CHECKING:
    from kit.job import Job

Progress = Callable[[int, int, str], None]


def write_book(
    job: Job, folder: Path, progress: Progress | None = None, *, date: str | None = None
) -> list[IndexEntry]:
    """Write the sheets of all parts of a job and `index.html` into `folder`, which is made if need be.

    `progress` is told how many sheets are done, how many there are, and the title of the last one; `date` is
    today's unless told. Nothing is written unless every part can be worked.

    Raises:
        KitError: a part that cannot be worked, or two parts whose sheets would have the same name.
    """
    date = date or datetime.date.today().isoformat()
    cases = {id: job.case(id) for id in job.parts}
    _check_names(list(cases))
    folder.mkdir(parents=True, exist_ok=True)
    entries: list[IndexEntry] = []
    for id, case in cases.items():
        origin = Origin(job.name, id, job.parts[id].title, date)
        href = file_name(id)
        write_atomic(folder / href, sheet(case, display=job.display, origin=origin))
        title = origin.title or case.model.title
        entries.append(
            IndexEntry(title, case.model.question, href, case.ok, verdict_words(case), digest(case))
        )
        if progress:
            progress(len(entries), len(cases), title)
    write_atomic(folder / "index.html", index(entries, title=job.name, date=date))
    return entries


def _check_names(ids: list[str]) -> None:
    taken: dict[str, str] = {"index.html": "the index"}
    for id in ids:
        other = taken.setdefault(file_name(id).lower(), f"part {id!r}")
        if other != f"part {id!r}":
            raise KitError(
                f"the sheet of part {id!r} would overwrite that of {other}; give the part another name"
            )
