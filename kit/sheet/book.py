"""The station book: every worked sheet of a job, the files of its shapes, and an index."""

from __future__ import annotations

import datetime
import os
import shutil
import tempfile
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING

from kit.core.errors import KitError
from kit.core.files import forsaken, hold, write_atomic
from kit.job.content import content_digests
from kit.job.order import upstream_first
from kit.job.part_names import file_name, name_faults
from kit.job.tasks import work_of
from kit.job.verdict import rests_on
from kit.sheet.book_parts import Order
from kit.sheet.book_record import NAME, Written, file_digest, read_record, take_away, write_record
from kit.sheet.book_sharing import parts_made
from kit.sheet.station_pages import PAGES
from kit.sheet.station_record import write_station
from kit.sheet.words import sentence
from kit.sheet.write import IndexEntry, index

if TYPE_CHECKING:
    from kit.job import Job

Progress = Callable[[int, int, str], None]
_MARK = ".being-written-"


def write_book(
    job: Job,
    folder: Path,
    progress: Progress | None = None,
    *,
    date: str | None = None,
    failing: bool = False,
    full: bool = False,
    processes: int = 1,
) -> list[IndexEntry]:
    """Write the sheets of all parts of a job and `index.html` into `folder`, which is made if need be.

    The files of a part's shape go into the folder `files` beside them, their names beginning with the part's id; those
    of a part of which a limit fails only with `failing`, and then each carries that limit in words.
    A sheet that would say the same as the one that lies there is left, with its date; `date`, the job's or today's
    unless given, is that of what is new. What an earlier book wrote and this one does not is taken away; a file
    that was changed since stays, under a name that says so. A book is short unless it is to be `full`: then
    each sheet has all pictures and how the numbers come about.
    What of the job's tasks cannot be followed stands on the cover, and is left out.
    `progress` is passed how many sheets are done, how many there are, and the title of the last one, first with 0.
    Nothing is written unless every part can be computed and built. With more than one of `processes` the parts are
    shared among so many; whatever calls this must then be safe to import.

    Raises:
        KitError: a part that cannot be computed or built, or whose name cannot be that of a sheet.
    """
    date = date or job.head.get("date") or datetime.date.today().isoformat()
    told = progress or (lambda *_: None)
    told(0, len(job.parts), job.name)
    for fault in name_faults(job.parts):
        raise KitError(f"{fault.message}; {fault.remedy}")
    content = {id: f"{digest}{' failing' * failing}{' full' * full}" for id, digest in content_digests(job).items()}
    lying = read_record(folder)
    found = {id: lying[id] for id in job.parts if id in lying and lying[id].content == content[id]}
    found = {id: each for id, each in found.items() if each.lies_in(folder)}
    for done, each in enumerate(found.values(), 1):
        told(done, len(job.parts), each.entry.title)
    new = not folder.exists()
    folder.mkdir(parents=True, exist_ok=True)
    _clear(folder)
    try:
        with _beside(folder) as beside:
            order = [id for id in upstream_first(job.parts, lambda part: rests_on(job, part))[0] if id in job.parts]
            passed = {id: each.passed for id, each in found.items()}
            orders = []
            for at, id in enumerate(order):
                others = tuple(rests_on(job, id))
                if id not in found:
                    orders.append(
                        Order(
                            id, others, tuple(other for other in others if other in order[:at]), date, failing, not full
                        )
                    )
            with closing(parts_made(job, orders, passed, beside, processes)) as parts:
                for id, made in parts:
                    files = {name: file_digest(beside / name) for name in made.files}
                    found[id] = Written(content[id], date, made.entry, made.passed, made.lists, files)
                    told(len(found), len(job.parts), made.entry.title)
            for path in sorted(path for path in beside.rglob("*") if path.is_file()):
                target = folder / path.relative_to(beside)
                target.parent.mkdir(parents=True, exist_ok=True)
                path.replace(target)
    except BaseException:
        if new:
            with suppress(OSError):  # something else lies in it by now
                folder.rmdir()
        raise
    take_away(folder, lying.values(), keep={name for id in job.parts for name in found[id].files})
    entries = [found[id].entry for id in job.parts]
    latest = max((found[id].date for id in job.parts), default=date)
    lists = {id: each.lists for id, each in found.items()}
    work = work_of(job.path)
    whole, front = write_station(job, folder, content.values(), lists, work, date=date)
    sources = list(dict.fromkeys(sentence(each) for id in job.parts for each in job.model(id).sources))
    first = index(
        entries,
        title=job.name,
        date=latest,
        short=not full,
        beside=whole,
        cover=front,
        sources=sources,
        faults=work.faults,
    )
    write_atomic(folder / "index.html", first)
    write_record(folder, {id: found[id] for id in job.parts})
    return entries


def in_the_way(job: Job, folder: Path) -> list[str]:
    """Return the files that a book of the job would write over in a folder in which no book lies."""
    if (folder / NAME).is_file():
        return []
    names = ("index.html", *map(file_name, job.parts), *PAGES)
    return [name for name in names if (folder / name).exists()]


@contextmanager
def _beside(folder: Path) -> Iterator[Path]:
    """Make a folder for what is not whole yet, held so that no other book clears it away; it goes at the end."""
    path = Path(tempfile.mkdtemp(prefix=_MARK, dir=folder))
    handle = os.open(path, os.O_RDONLY) if os.name == "posix" else None
    try:
        if handle is not None:
            hold(handle)
        yield path
    finally:
        shutil.rmtree(path, ignore_errors=True)
        if handle is not None:
            os.close(handle)


def _clear(folder: Path) -> None:
    """Take away what a book that was stopped left behind."""
    for path in folder.glob(f"{_MARK}*"):
        with suppress(OSError):
            if path.is_dir() and forsaken(path):
                shutil.rmtree(path, ignore_errors=True)
