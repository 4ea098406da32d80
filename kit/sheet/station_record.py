"""The pages of a book that tell of the whole job; those that would say the same as what lies there are left."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from hashlib import sha256
from pathlib import Path
from typing import Any

from kit.core.files import write_atomic
from kit.core.lists import Lists
from kit.job import Job
from kit.job.part_names import file_name
from kit.job.tasks import Work
from kit.sheet.book_record import file_digest
from kit.sheet.cover import cover
from kit.sheet.station_pages import station_pages
from kit.station.lists import station_lists

NAME = ".station.json"


def write_station(
    job: Job, folder: Path, contents: Iterable[str], lists: Mapping[str, Lists], work: Work, *, date: str
) -> tuple[list[tuple[str, str]], str]:
    """Write the pages into a book's `folder`; return their names with what they are, and the picture of the cover.

    `contents` stand for all that the parts' sheets show, `lists` are what the parts bring, `work` is the job's.
    What an earlier book wrote and this one does not is taken away, unless it was changed since.
    """
    stated = repr([work, [[part.built, part.place, part.body] for part in job.parts.values()]])
    content = sha256("\n".join([*contents, stated]).encode()).hexdigest()
    lying = _lying(folder)
    if lying.get("content") == content and all(file_digest(folder / name) == d for name, d in lying["digests"].items()):
        return list(lying["pages"].items()), lying["cover"]
    found = station_lists(job, lists)
    made = station_pages(job, found, work, date=date)
    for name, digest in lying.get("digests", {}).items():
        if name not in made and file_digest(folder / name) == digest:
            (folder / name).unlink()
    for name, (_, html) in made.items():
        write_atomic(folder / name, html)
    pages = {name: words for name, (words, _) in made.items()}
    front = cover(found, {id: file_name(id) for id in job.parts})
    record = {
        "content": content,
        "cover": front,
        "pages": pages,
        "digests": {name: file_digest(folder / name) for name in made},
    }
    write_atomic(folder / NAME, json.dumps(record, indent=1) + "\n")
    return list(pages.items()), front


def _lying(folder: Path) -> dict[str, Any]:
    """Return what the record says, of files of the folder itself; nothing where it cannot be read."""
    try:
        record = json.loads((folder / NAME).read_text(encoding="utf-8"))
        pages, digests, front = dict(record["pages"]), dict(record["digests"]), str(record["cover"])
    except (OSError, ValueError, TypeError, KeyError):
        return {}
    inside = all(Path(name).name == name for name in (*pages, *digests))
    return {"content": record.get("content"), "cover": front, "pages": pages, "digests": digests} if inside else {}
