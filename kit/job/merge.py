"""A session's changes brought into the file as it is on the disk now, without losing what others wrote meanwhile."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from kit.job import toml_edit as edit
from kit.job.errors import JobChanged, JobError, JobGone
from kit.job.positions import Path as Keys
from kit.job.toml_edit import ABSENT
from kit.job.toml_file import Source, read, to_write


def merged(name: str, opened: Source, disk: Source, changes: Mapping[Keys, Any], *, force: bool) -> Source:
    """Return the file on the disk with our changes, by their paths of keys; `opened` is what they were made on.

    Raises:
        JobChanged: a key was changed by hand and here, and `force` is not asked for.
        JobError: a part is gone, the changes cannot be saved into the file's layout, or make it too large to be opened.
    """
    text, data = disk.text, disk.data
    for path, ours in changes.items():
        theirs = edit.look(disk.data, path)
        if not force and theirs != ours and theirs != edit.look(opened.data, path):
            raise JobChanged(name, ".".join(map(str, path)), _shown(ours), _shown(theirs))
        if path[0] == "parts" and edit.look(disk.data, path[:2]) is ABSENT:
            raise JobError(
                f"{name} has no part {path[1]} any more; put it back by hand, or reload() to drop the changes"
            )
        text = edit.put(text, path, ours)
        data = edit.placed(data, path, ours)
    source = to_write(disk.encode(text), name)
    if canonical(source.data) != canonical(data):
        raise JobError(
            f"{name} is laid out so that the changes cannot be saved into it; nothing is written; write them by hand"
        )
    return source


def canonical(value: Any) -> str:
    """Return parsed TOML as text that does not depend on the order of keys or on tables that are empty."""
    if isinstance(value, Mapping):
        inner = {key: canonical(item) for key, item in sorted(value.items())}
        return repr({key: text for key, text in inner.items() if text != "{}"})
    return repr([canonical(item) for item in value]) if isinstance(value, list) else repr(value)


def on_disk(path: Path, opened: Source, *, force: bool) -> Source:
    """Return the file as it is on the disk now; where it is gone, what was opened if `force` is asked for.

    Raises:
        JobGone: it is gone.
        JobError: it cannot be read.
    """
    if path.exists() or not force:
        if not path.exists():
            raise JobGone(path.name)
        return read(path)
    return opened


@contextmanager
def alone(path: Path) -> Iterator[None]:
    """Hold other sessions off while the file is read and replaced; where there are no locks, do without."""
    try:
        import fcntl
    except ImportError:
        yield
        return
    folder = os.open(path.resolve().parent, os.O_RDONLY)
    try:
        with suppress(OSError):  # some network folders know no locks
            fcntl.flock(folder, fcntl.LOCK_EX)
        yield
    finally:
        os.close(folder)


def _shown(value: Any) -> str:
    return "not there" if value is ABSENT else edit.render(value)
