"""What a book holds: a file beside its index that says of each sheet from what it was made, when, and with which files.

A sheet whose content would be the same is left as it lies, with its date. A file that was changed since, is missing, or
is not listed, is written anew.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from kit.core.files import write_atomic
from kit.core.lists import Body, Lists, Need, Piece, Setting, Shape
from kit.job.verdict import PassedOn
from kit.sheet.write import IndexEntry

NAME = ".book.json"
Rows = Sequence[dict[str, Any]]


@dataclass(frozen=True, slots=True)
class Written:
    """A sheet as it lies in a book: what it was made from, when, its entry, what it hands on and brings, its files."""

    content: str
    date: str
    entry: IndexEntry
    passed: PassedOn
    lists: Lists
    files: Mapping[str, str]

    def lies_in(self, folder: Path) -> bool:
        """Whether every file lies in `folder` as it was written."""
        return all(file_digest(folder / name) == digest for name, digest in self.files.items())


def read_record(folder: Path) -> dict[str, Written]:
    """Return what a book's record says, by part; nothing where there is no record or it cannot be read."""
    try:
        data = json.loads((folder / NAME).read_text(encoding="utf-8"))
        return {id: _written(**each) for id, each in data.items()}
    except (OSError, ValueError, TypeError, AttributeError, KeyError):
        return {}


def write_record(folder: Path, found: Mapping[str, Written]) -> None:
    """Write a book's record."""
    data = {id: asdict(each) for id, each in found.items()}
    write_atomic(folder / NAME, json.dumps(data, indent=1, ensure_ascii=False) + "\n")


def take_away(folder: Path, before: Iterable[Written], keep: Collection[str]) -> None:
    """Take away what was written before and is not to be kept; what was changed since stays, as NAME.earlier.ENDING."""
    inside = folder.resolve()
    for name, digest in (each for written in before for each in written.files.items()):
        path = (folder / name).resolve()
        if name in keep or not path.is_file() or not path.is_relative_to(inside):
            continue
        if file_digest(path) == digest:
            path.unlink()
        else:
            path.rename(_earlier(path))


def _earlier(path: Path) -> Path:
    """Return the first free name for a file of an earlier book."""
    names = (path.with_name(f"{path.stem}.earlier{number}{path.suffix}") for number in ("", *range(2, 1_000_000)))
    return next(name for name in names if not name.exists())


def file_digest(path: Path) -> str:
    """Return 64 hexadecimal digits of a file's content; nothing where there is no such file."""
    try:
        return sha256(path.read_bytes()).hexdigest()
    except OSError:
        return ""


def _written(
    content: str,
    date: str,
    entry: dict[str, Any],
    passed: dict[str, Any],
    lists: dict[str, Any],
    files: dict[str, str],
) -> Written:
    handed_on = PassedOn(passed["state"], tuple(passed["lends"]))
    listed = IndexEntry(**entry | {key: tuple(entry[key]) for key in ("sign", "fails", "cautions")})
    return Written(content, date, listed, handed_on, _lists(**lists), files)


def _lists(bodies: Rows, pieces: Rows, needs: Rows, settings: Rows, room: Rows, open: Sequence[str]) -> Lists:
    return Lists(
        tuple(Body(**_frozen(each | {"shape": each["shape"] and _shape(each["shape"])})) for each in bodies),
        tuple(Piece(**_frozen(each)) for each in pieces),
        tuple(Need(**_frozen(each)) for each in needs),
        tuple(Setting(**_frozen(each)) for each in settings),
        tuple(_shape(each) for each in room),
        tuple(open),
    )


def _shape(told: dict[str, Any]) -> Shape:
    return Shape(**told | {key: tuple(map(tuple, told[key])) for key in ("points", "faces")})


def _frozen(value: Any) -> Any:
    """Return a value of JSON with tuples for its lists."""
    if isinstance(value, list):
        return tuple(_frozen(each) for each in value)
    return {key: _frozen(each) for key, each in value.items()} if isinstance(value, dict) else value
