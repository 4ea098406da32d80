"""The parts of a job file as blocks of its text: added, copied, renamed, moved and taken out, all else as it was."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from kit.job.errors import JobError
from kit.job.positions import Head, Path, scan
from kit.job.toml_edit import look, put, render


@dataclass(frozen=True)
class _Block:
    """The lines of a part, text[start:end], with the comments right above its first header."""

    start: int
    end: int
    heads: tuple[Head, ...]


def with_part(text: str, id: str, says: Mapping[str, Any], before: str | None = None) -> str:
    """Return the text with a new part, above the part `before` or, without one, below the last.

    Raises:
        JobError: the lines of the part `before` do not stand together.
    """
    newline = "\r\n" if "\r\n" in text else "\n"
    inner = {key: value for key, value in says.items() if isinstance(value, Mapping)}
    lines = [f"[parts.{id}]", *(f"{key} = {render(value)}" for key, value in says.items() if key not in inner)]
    for name, table in inner.items():
        lines += ["", f"[parts.{id}.{name}]", *(f"{key} = {render(value)}" for key, value in table.items())]
    return _put_block(text, newline.join([*lines, ""]), before)


def without_part(text: str, id: str) -> str:
    """Return the text without a part. Raises JobError where its lines do not stand together."""
    block = _block(text, id)
    rest = text[: block.start].rstrip() + "\n\n" + text[block.end :].lstrip("\r\n")
    return _with_parts(rest.rstrip() + "\n")


def with_copy(text: str, id: str, new: str, title: str) -> str:
    """Return the text with a copy of a part right below it. Raises as `without_part`."""
    block = _block(text, id)
    copy = _headed(text[block.start : block.end].strip("\r\n") + "\n", id, new)
    following = [other for other, each in _blocks(text).items() if each.start >= block.end]
    return put(_put_block(text, copy, following[0] if following else None), ("parts", new, "title"), title)


def with_name(text: str, id: str, new: str, links: Sequence[Path]) -> str:
    """Return the text with another id for a part; `links` are the places of what is linked to it, which follow.

    Raises:
        JobError: as `without_part`.
    """
    block = _block(text, id)
    for path in links:
        told = look(tomllib.loads(text), path)
        text = put(text, path, new if told == id else f"{new}.{str(told).partition('.')[2]}")
    block = _block(text, id)
    return text[: block.start] + _headed(text[block.start : block.end], id, new) + text[block.end :]


def with_part_moved(text: str, id: str, before: str | None) -> str:
    """Return the text with a part above another or, without one, below the last. Raises as `without_part`."""
    block = _block(text, id)
    lines = text[block.start : block.end].strip("\r\n") + "\n"
    rest = text[: block.start].rstrip() + "\n\n" + text[block.end :].lstrip("\r\n")
    return _put_block(rest, lines, before)


def _put_block(text: str, lines: str, before: str | None) -> str:
    """Put the lines of a part above another or below the last, with an empty line around them."""
    if before is not None:
        at = _block(text, before).start
        return text[:at] + lines + "\n" + text[at:]
    blocks = _blocks(text).values()
    at = max((block.end for block in blocks), default=len(text))
    head, tail = text[:at].rstrip(), text[at:].lstrip("\r\n")
    return f"{head}\n\n{lines}" + (f"\n{tail}" if tail else "")


def _with_parts(text: str) -> str:
    """Return the text with an empty table of parts where it has none at all."""
    return text if "parts" in tomllib.loads(text) else f"{text.rstrip()}\n\n[parts]\n"


def _headed(lines: str, id: str, new: str) -> str:
    """Return the lines of a part with the other id in its headers."""
    for head in sorted(_heads(lines), key=lambda each: -each.start):
        header = lines[head.start : head.end]
        header = re.sub(rf"^(\[\[?\s*[\"']?parts[\"']?\s*\.\s*[\"']?){re.escape(id)}", rf"\g<1>{new}", header)
        lines = lines[: head.start] + header + lines[head.end :]
    return lines


def _heads(text: str) -> list[Head]:
    return sorted((head for head in scan(text).heads.values() if head.path and not head.implied), key=lambda h: h.start)


def _blocks(text: str) -> dict[str, _Block]:
    """Return the lines of each part that has headers of its own."""
    heads = _heads(text)
    starts = [_with_comments(text, head.start) for head in heads]
    found: dict[str, _Block] = {}
    for number, head in enumerate(heads):
        if head.path[0] != "parts" or len(head.path) < 2:
            continue
        id = str(head.path[1])
        end = starts[number + 1] if number + 1 < len(heads) else len(text)
        if id in found and found[id].end != starts[number]:
            raise JobError(f"the lines of part {id} do not stand together in the file; move them by hand")
        before = found.get(id)
        found[id] = _Block(before.start if before else starts[number], end, (*(before.heads if before else ()), head))
    return found


def _block(text: str, id: str) -> _Block:
    found = _blocks(text).get(id)
    places = scan(text)
    stray = [s for s in places.spots.values() if s.path[:2] == ("parts", id) and s.head.path[:2] != ("parts", id)]
    if found is None or stray:
        raise JobError(f"part {id} has no header [parts.{id}] of its own in the file; change it by hand there")
    return found


def _with_comments(text: str, start: int) -> int:
    """Return where the comment begins whose lines stand right above a header."""
    while start:
        above = text.rfind("\n", 0, start - 1) + 1
        if not text[above:start].lstrip(" \t").startswith("#"):
            break
        start = above
    return start
