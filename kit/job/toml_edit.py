"""Changing one value of TOML text and nothing else: every other character stays as it was.

Values are rendered by tomlkit; where they go is found by `places`.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from kit.job.positions import Path, Places, Spot, scan


class _Absent:
    def __repr__(self) -> str:
        return "absent"


#: Stands for a value that is not there.
ABSENT = _Absent()


def look(data: Any, path: Path) -> Any:
    """Return what parsed TOML holds at `path`, or ABSENT."""
    for key in path:
        if not isinstance(data, Mapping) or key not in data:
            return ABSENT
        data = data[key]
    return data


def placed(data: Mapping[str, Any], path: Path, value: Any) -> dict[str, Any]:
    """Return parsed TOML with `value` at `path`, or without it where the value is ABSENT; `data` stays."""
    key, *rest = path
    changed = dict(data)
    if rest:
        inner = changed.get(str(key), {})
        if value is ABSENT and not isinstance(inner, Mapping):
            return changed
        changed[str(key)] = placed(inner if isinstance(inner, Mapping) else {}, tuple(rest), value)
    elif value is ABSENT:
        changed.pop(str(key), None)
    else:
        changed[str(key)] = value
    return changed


def put(text: str, path: Path, value: Any) -> str:
    """Return TOML `text` with `value` at `path`, or with nothing there if it is ABSENT."""
    old = look(tomllib.loads(text), path)
    if old is ABSENT:
        return text if value is ABSENT else _insert(text, path, value)
    places = scan(text)
    spot = places.spots.get(path)
    if spot is not None and value is not ABSENT:
        return text[: spot.start] + _again(places, spot, value) + text[spot.end :]
    if spot is not None:
        return _cut(text, places, spot)
    if isinstance(value, Mapping):
        # a table over several lines: each of its values is changed where it stands
        for key in [*(key for key in old if key not in value), *value]:
            if old.get(key, ABSENT) != value.get(key, ABSENT):
                text = put(text, (*path, key), value.get(key, ABSENT))
        return text
    text = _without_table(text, path)
    return text if value is ABSENT else _insert(text, path, value)


def render(value: Any) -> str:
    """Return a value as TOML on one line."""
    if isinstance(value, Mapping):
        inside = ", ".join(f"{_key(key)} = {render(item)}" for key, item in value.items())
        return f"{{ {inside} }}" if inside else "{}"
    if isinstance(value, list):
        return f"[{', '.join(map(render, value))}]"
    import tomlkit

    return str(tomlkit.item(value).as_string())


def _key(name: str) -> str:
    import tomlkit

    bare = name.isascii() and name.replace("-", "_").replace("_", "a").isalnum()
    return name if bare else tomlkit.item(name).as_string()


def _again(places: Places, spot: Spot, value: Any) -> str:
    """Render the new value of a spot; what an inline table keeps is kept as it was typed."""
    if spot.kind != "inline" or not isinstance(value, Mapping):
        return render(value)
    typed = tomllib.loads(f"k = {places.text[spot.start : spot.end]}")["k"]
    pieces = []
    for key, item in value.items():
        inner = places.spots.get((*spot.path, key))
        if inner is not None and typed[key] == item:
            pieces.append(places.text[inner.key : inner.end])
        elif inner is not None:
            pieces.append(places.text[inner.key : inner.start] + render(item))
        else:
            pieces.append(f"{_key(key)} = {render(item)}")
    return f"{{ {', '.join(pieces)} }}" if pieces else "{}"


def _cut(text: str, places: Places, spot: Spot) -> str:
    """Take a value out with its key: its whole lines, or its part of an inline table."""
    if spot.inline:
        braces = _braces(places, spot)
        beside = [other for other in places.spots.values() if other.inline and _braces(places, other) is braces]
        beside.sort(key=lambda other: other.key)
        number = beside.index(spot)
        if number + 1 < len(beside):
            return text[: spot.key] + text[beside[number + 1].key :]
        start = beside[number - 1].end if number else spot.key
        return text[:start] + text[spot.end :]
    start = text.rfind("\n", 0, spot.key) + 1
    end = text.find("\n", spot.end)
    return text[:start] + (text[end + 1 :] if end >= 0 else "")


def _braces(places: Places, spot: Spot) -> Spot:
    """Return the innermost inline table or array around a spot."""
    around = (places.spots.get(spot.path[:end]) for end in range(len(spot.path) - 1, 0, -1))
    return next(other for other in around if other is not None)


def _without_table(text: str, path: Path) -> str:
    """Take out a table over several lines: its values and its headers; comments on lines of their own stay."""
    while True:
        places = scan(text)
        spot = next((s for s in places.spots.values() if s.path[: len(path)] == path and not s.inline), None)
        if spot is not None:
            text = _cut(text, places, spot)
            continue
        head = next((h for h in places.heads.values() if h.path[: len(path)] == path and not h.implied), None)
        if head is None:
            return text
        end = text.find("\n", head.end)
        text = text[: head.start] + (text[end + 1 :] if end >= 0 else "")


def _insert(text: str, path: Path, value: Any) -> str:
    """Add a value that is not there yet, in the way in which the table that holds it is written."""
    places = scan(text)
    holder, key = path[:-1], str(path[-1])
    pair = f"{_key(key)} = {render(value)}"
    if holder in places.spots:
        return _into_braces(text, places.spots[holder], pair)
    head = places.heads.get(holder)
    if head is not None and not head.implied:
        return _after(text, head.last, _indent(text, head.last) + pair)
    around = [holder[:end] for end in range(len(holder), 0, -1)]
    if any(table in places.spots for table in around):
        return _insert(text, holder, {key: value})
    if any(table in places.dotted for table in around):
        return _beside_dotted(places, path, value)
    header = f"[{'.'.join(_key(str(name)) for name in holder)}]"
    parent = places.heads.get(holder[:-1])
    at = len(text.rstrip())
    if parent is not None and parent.path and not parent.implied:
        at = parent.last
    return _after(text, at, "", header, pair)


def _into_braces(text: str, spot: Spot, pair: str) -> str:
    inside = text[spot.start + 1 : spot.end - 1].rstrip()
    joined = f"{inside}, {pair}" if inside else f" {pair}"
    return f"{text[: spot.start]}{{{joined} }}{text[spot.end :]}"


def _beside_dotted(places: Places, path: Path, value: Any) -> str:
    """Add a dotted key where the same table has its others."""
    known = next(path[:end] for end in range(len(path) - 1, 0, -1) if path[:end] in places.dotted)
    first = places.dotted[known]
    holder = _braces(places, first).path if first.inline else first.head.path
    pair = f"{'.'.join(_key(str(name)) for name in path[len(holder) :])} = {render(value)}"
    if first.inline:
        return _into_braces(places.text, places.spots[holder], pair)
    own = (s for s in places.spots.values() if s.head is first.head and s.path[: len(known)] == known)
    last = max(spot.end for spot in own)
    return _after(places.text, last, _indent(places.text, first.key) + pair)


def _after(text: str, at: int, *lines: str) -> str:
    """Put lines below the one in which `at` lies, with the file's own line ends."""
    newline = "\r\n" if "\r\n" in text else "\n"
    block = "".join(line + newline for line in lines)
    end = text.find("\n", at)
    return text + newline + block if end < 0 else text[: end + 1] + block + text[end + 1 :]


def _indent(text: str, at: int) -> str:
    """Return the blanks at the start of the line in which `at` lies."""
    line = text[text.rfind("\n", 0, at) + 1 : at]
    return line[: len(line) - len(line.lstrip(" \t"))]
