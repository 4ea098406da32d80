"""From an older format of the job file to the next: text to text, so that comments and order survive."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from kit.job.positions import Head, Path, scan
from kit.job.toml_edit import ABSENT, placed, put, render


def to_format_2(text: str) -> str:
    """Return a job of format 1 in format 2: what stood under a part's `shape`, its links too, stands straight in it."""
    wanted = _straight(tomllib.loads(text))
    moved = put(_blocks(text), ("format",), 2)
    return moved if _says(moved, wanted) else put(_values(text), ("format",), 2)


def _straight(data: Mapping[str, Any]) -> dict[str, Any]:
    found = placed(data, ("format",), 2)
    for id, part in _shaped(data).items():
        rest = {key: value for key, value in part.items() if key != "shape"}
        found = placed(found, ("parts", id), rest | _flat(part["shape"]))
    return found


def _shaped(data: Mapping[str, Any]) -> dict[str, Mapping[str, Any]]:
    parts = data.get("parts", {})
    parts = parts if isinstance(parts, Mapping) else {}
    return {
        id: part for id, part in parts.items() if isinstance(part, Mapping) and isinstance(part.get("shape"), Mapping)
    }


def _flat(shape: Mapping[str, Any]) -> dict[str, Any]:
    takes = shape.get("takes", {})
    links = dict(takes) if isinstance(takes, Mapping) else {"takes": takes}
    return links | {key: value for key, value in shape.items() if key != "takes"}


def _says(text: str, wanted: Mapping[str, Any]) -> bool:
    try:
        return tomllib.loads(text) == wanted
    except tomllib.TOMLDecodeError:
        return False


def _blocks(text: str) -> str:
    """Move the lines of each [parts.X.shape] up into [parts.X], and shorten the headers of its own tables."""
    for id in reversed(_shaped(tomllib.loads(text))):
        places = scan(text)
        of_part = places.heads.get(("parts", id))
        if of_part is None or of_part.implied:
            continue
        for path, head in sorted(places.heads.items(), key=lambda each: -each[1].start):
            if path[:3] == ("parts", id, "shape") and len(path) > 3 and not head.implied:
                text = _shortened(text, head)
        own = scan(text).heads.get(("parts", id, "shape"))
        if own is not None and not own.implied:
            text = _lifted(text, ("parts", id), own)
    return text


def _shortened(text: str, head: Head) -> str:
    header = text[head.start : head.end]
    return text[: head.start] + header.replace(".shape", "", 1) + text[head.end :]


def _lifted(text: str, part: Path, head: Head) -> str:
    """Move what stands under a part's shape to the end of the part's own keys."""
    places = scan(text)
    begin, end = _line_end(text, head.end), _line_end(text, max(head.last, head.end))
    body, takes = text[begin:end], places.spots.get((*part, "shape", "takes"))
    if takes is not None:
        links = tomllib.loads(text)["parts"][part[1]]["shape"]["takes"]
        lines = "\n".join(f"{name} = {render(other)}" for name, other in links.items())
        body = text[begin : takes.key] + lines + text[takes.end : end]
    after = _line_end(text, places.heads[part].last)
    return text[:after] + body + text[after : head.start] + text[end:].removeprefix("\n")


def _line_end(text: str, offset: int) -> int:
    found = text.find("\n", offset)
    return len(text) if found < 0 else found + 1


def _values(text: str) -> str:
    """Write each input anew in its part, where the lines cannot simply be moved."""
    for id, part in _shaped(tomllib.loads(text)).items():
        text = put(text, ("parts", id, "shape"), ABSENT)
        for name, value in _flat(part["shape"]).items():
            text = put(text, ("parts", id, name), value)
    return text
