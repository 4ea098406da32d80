"""The text of a job file: read whole, within bounds, and brought to the present format."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from kit.core.files import reason
from kit.job.errors import JobError
from kit.job.migration import to_format_2

#: The format that this version writes.
FORMAT = 2

#: From a format to the next: functions of the text, so that comments survive.
MIGRATIONS: Mapping[int, Callable[[str], str]] = {1: to_format_2}

#: The size that a job file may have.
MOST_BYTES = 1_000_000

_MARK = "\ufeff"
_AT = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")


@dataclass(frozen=True)
class Source:
    """A job file as read: `text` in the present format without a byte order mark, `data` what it says.

    `digest` is of the bytes on the disk; `written` is the format found there.
    """

    text: str
    data: dict[str, Any]
    digest: str
    marked: bool
    written: int

    def encode(self, text: str) -> str:
        """Return `text` as it goes into this file: with the byte order mark if there was one."""
        return _MARK + text if self.marked else text


def read(path: Path) -> Source:
    """Read the job file at `path`.

    Raises:
        JobError: there is no such file, it is no text of a bearable size, no TOML, or of an unknown format.
    """
    return understood(_bytes(path), path.name)


def understood(content: bytes, name: str) -> Source:
    """Return what the bytes of a job file say; `name` is for messages. Raises as `read`."""
    text = _text(content, name)
    marked = text.startswith(_MARK)
    text = text.removeprefix(_MARK)
    data = parsed(text, name)
    written = _format(data, name)
    for number in range(written, FORMAT):
        text = MIGRATIONS[number](text)
    return Source(text, parsed(text, name), sha256(content).hexdigest(), marked, written)


def to_write(text: str, name: str) -> Source:
    """Return what a text says that is to be written into the job file `name`.

    Raises:
        JobError: it would be too large to be opened again, or as `read`.
    """
    content = text.encode()
    if len(content) > MOST_BYTES:
        raise JobError(
            f"with these changes {name} would have {len(content) / 1e6:.2f} MB, {MOST_BYTES / 1e6:g} MB at most can be "
            "opened again; nothing is written; state less, or put some parts into a job of their own"
        )
    return understood(content, name)


def parsed(text: str, name: str) -> dict[str, Any]:
    """Return what TOML text says.

    Raises:
        JobError: it is not TOML; the line and column are given.
    """
    try:
        return tomllib.loads(text)
    except RecursionError:
        raise JobError(f"{name} is nested too deeply to be a job; take out some brackets") from None
    except ValueError as error:  # tomllib lets a number of too many digits through as a plain ValueError
        message = str(error)
        at = _AT.search(message)
        line = column = None
        if at:
            last = text.rstrip().count("\n") + 1
            line, column = (int(at[1]), int(at[2])) if at[1] else (last, None)
        where = f", line {line}" if line else ""
        words = _AT.sub("", message).rstrip(".")
        raise JobError(f"{name}{where}, is not TOML: {_lowered(words)}; correct that line", line, column) from None


def _lowered(words: str) -> str:
    return words[:1].lower() + words[1:]


def _bytes(path: Path) -> bytes:
    try:
        if path.exists() and not path.is_file() and not path.is_dir():  # a pipe would be waited for
            raise JobError(f"{path} is a pipe or a device, not a file; give the path of a job file (TOML)")
        with path.open("rb") as stream:
            content = stream.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise JobError(f"there is no file {path}; give the path of a job file (TOML)") from None
    except IsADirectoryError:
        raise JobError(f"{path} is a folder; give the path of a job file (TOML) in it") from None
    except OSError as error:
        raise JobError(f"{path} cannot be read: {reason(error)}; {_remedy(error)}") from None
    if len(content) > MOST_BYTES:
        raise JobError(
            f"{path.name} is larger than {MOST_BYTES / 1e6:g} MB, the most that a job file may have; is it one?"
        )
    return content


def _remedy(error: OSError) -> str:
    return "check its permissions" if isinstance(error, PermissionError) else "give the path of a job file (TOML)"


def _text(content: bytes, name: str) -> str:
    if not content.strip():
        raise JobError(f"{name} is empty; a job begins with the line format = {FORMAT}", 1)
    nul = content.find(b"\0")
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise JobError(f"{name}, line {line}, is not UTF-8 text; save it as UTF-8 in your editor", line) from None
    if nul >= 0:
        line = content.count(b"\n", 0, nul) + 1
        raise JobError(f"{name}, line {line}, holds a NUL, so it is damaged or no text; take an older copy", line)
    return text


def _format(data: Mapping[str, Any], name: str) -> int:
    if "format" not in data:
        raise JobError(f"{name} does not say its format; write format = {FORMAT} as its first line", 1)
    found = data["format"]
    if type(found) is not int:
        raise JobError(f"{name} has the format {found!r}, which is no whole number; write format = {FORMAT}")
    if found > FORMAT:
        raise JobError(
            f"{name} has format {found}, newer than {FORMAT}, the newest that this version reads; "
            "update fitwright, the file is untouched"
        )
    missing = [number for number in range(found, FORMAT) if number not in MIGRATIONS]
    if missing:
        raise JobError(f"{name} has format {found}, which does not exist; this version reads format {FORMAT}")
    return found
