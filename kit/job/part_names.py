"""The names of parts as names of files: each part has a sheet in the station book, and files beside it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

LONGEST = 100
"""Letters of a part's name: file systems take 255 bytes, and names of files say more than the part."""
_RESERVED = {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(1, 10))}


class NameFault(NamedTuple):
    """A part whose name cannot be that of a file, why, and what to do."""

    id: str
    message: str
    remedy: str


def file_name(name: str) -> str:
    """Return the name of a sheet's file: letters, digits, ``-``, ``_`` and ``.`` alone."""
    return f"{re.sub(r'[^A-Za-z0-9_-]+', '-', name).strip('-') or 'sheet'}.html"


def name_faults(ids: Iterable[str]) -> Iterator[NameFault]:
    """Yield a fault for each part whose sheet could not lie beside the others, whatever the disk."""
    taken = {
        "index.html": "the index",
        "lists.html": "the lists of the job",
        "order.html": "the order of work",
        "cards.html": "the setup cards",
        "built.html": "what was measured of what is built",
    }
    for id in ids:
        href = file_name(id).lower()  # some disks take `a` and `A` for one
        other = taken.setdefault(href, f"part {id!r}")
        if len(id) > LONGEST:
            yield NameFault(id, f"the part's name has {len(id)} letters", f"at most {LONGEST} can name its files")
        elif other != f"part {id!r}":
            yield NameFault(id, f"the sheet of part {id!r} would overwrite that of {other}", "give it another name")
        elif href.removesuffix(".html") in _RESERVED:
            yield NameFault(id, f"{id!r} is a device in Windows, and can name no file there", "give it another name")
