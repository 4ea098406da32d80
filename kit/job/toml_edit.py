"""Changing one value of TOML text and nothing else: every other character stays as it was.

Values are rendered by tomlkit; where they go is found by `places`.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from kit.job.positions import Path, Places, Spot, past_void, scan


class _Absent:
    def __repr__(self) -> str:
        return "absent"


#: Stands for a value that is not there.
ABSENT = _Absent()


def look(data: Any, path: Path) -> Any:
    """Return what parsed TOML holds at `path`, or ABSENT."""
    for key in path:
        is_item = isinstance(data, list) and isinstance(key, int) and key < len(data)
        if not is_item and not (isinstance(data, Mapping) and key in data):
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
    """Return TOML `text` with `value` at `path`, or with nothing there if it is ABSENT.

    Of a list and of a table with the same keys, only what differs inside is written anew.
    """
    old = look(tomllib.loads(text), path)
    if old is ABSENT:
        return text if value is ABSENT else _insert(text, path, value)
    if isinstance(old, list) and isinstance(value, list):
        return _put_items(text, path, old, value)
    places = scan(text)
    spot = places.spots.get(path)
    is_row = isinstance(path[-1], int)
    if isinstance(old, Mapping) and isinstance(value, Mapping) and (is_row or old.keys() == value.keys()):
        spot = None  # each of its values is changed where it stands
    if spot is not None and value is not ABSENT:
        return text[: spot.start] + _again(places, spot, value) + text[spot.end :]
    if spot is not None:
        return _cut(text, places, spot)
    if isinstance(value, Mapping):
        # a table over several lines: each of its values is changed where it stands
        for key in [*(key for key in old if key not in value), *value]:
            if not same(old.get(key, ABSENT), value.get(key, ABSENT)):
                text = put(text, (*path, key), value.get(key, ABSENT))
        return text
    text = _without_table(text, path)
    return text if value is ABSENT else _insert(text, path, value)


def _put_items(text: str, path: Path, old: list[Any], value: list[Any]) -> str:
    """Change a list item by item: what is alike at its begin and its end stays as it was typed."""
    in_brackets = path in scan(text).spots
    if not in_brackets and not (value and all(isinstance(item, Mapping) for item in value)):
        return _insert(_without_table(text, path), path, value)
    begin = _alike(old, value)
    end = min(_alike(old[::-1], value[::-1]), min(len(old), len(value)) - begin)
    both = min(len(old), len(value)) - end
    for number in range(begin, both):
        if not same(old[number], value[number]):
            text = put(text, (*path, number), value[number])
    for number in reversed(range(both, len(old) - end)):
        text = _without_item(text, path, number) if in_brackets else _without_table(text, (*path, number))
    for number in range(both, len(value) - end):
        text = (_with_item if in_brackets else _with_row)(text, path, number, value[number])
    return text


def _alike(one: list[Any], other: list[Any]) -> int:
    """Return how many items are the same from the begin."""
    pairs = enumerate(zip(one, other, strict=False))
    return next((number for number, pair in pairs if not same(*pair)), min(len(one), len(other)))


def _without_item(text: str, path: Path, number: int) -> str:
    """Take an item out of a list in brackets: its whole lines where it has them for itself."""
    spots = scan(text).spots
    spot, after, before = (spots.get((*path, at)) for at in (number, number + 1, number - 1))
    assert spot is not None
    if _own_lines(text, spot):
        return text[: _line_start(text, spot.start)] + text[_line_end(text, spot.end) :]
    if after is not None:
        return text[: spot.start] + text[after.start :]
    if before is not None:
        return text[: before.end] + text[spot.end :]
    return f"{text[: spots[path].start]}[]{text[spots[path].end :]}"


def _with_item(text: str, path: Path, number: int, item: Any) -> str:
    """Add an item to a list in brackets, on a line of its own where the others have one."""
    spots, written = scan(text).spots, render(item)
    beside = spots.get((*path, max(number - 1, 0)))
    if beside is None:
        at = spots[path].start + 1
        return text[:at] + written + text[at:]
    if not _own_lines(text, beside):
        if number:
            return f"{text[: beside.end]}, {written}{text[beside.end :]}"
        return f"{text[: beside.start]}{written}, {text[beside.start :]}"
    line = _indent(text, beside.start) + written + "," + _newline(text)
    if not number:
        at = _line_start(text, beside.start)
        return text[:at] + line + text[at:]
    if text[past_void(text, beside.end)] != ",":
        text = f"{text[: beside.end]},{text[beside.end :]}"
    at = _line_end(text, beside.end)
    return text[:at] + line + text[at:]


def _with_row(text: str, path: Path, number: int, row: Mapping[str, Any]) -> str:
    """Add a table to an array of tables under a header of its own."""
    heads = scan(text).heads
    name = ".".join(_key(key) for key in path if isinstance(key, str))
    lines = [f"[[{name}]]", *(f"{_key(key)} = {render(item)}" for key, item in row.items())]
    if number:
        before = (*path, number - 1)
        return _after(text, max(h.last for h in heads.values() if h.path[: len(before)] == before), "", *lines)
    at = _line_start(text, heads[(*path, 0)].start)
    newline = _newline(text)
    return text[:at] + "".join(line + newline for line in (*lines, "")) + text[at:]


def _own_lines(text: str, spot: Spot) -> bool:
    """Return whether nothing but an item, its comma and a comment stands on the lines of an item."""
    rest = text[spot.end : _line_end(text, spot.end)].strip()
    if text[_line_start(text, spot.start) : spot.start].strip() or rest.lstrip(", \t")[:1] not in ("", "#"):
        return False
    return rest.startswith(",") or text[past_void(text, spot.end)] == "]"


def same(one: Any, other: Any) -> bool:
    """Return whether two values of parsed TOML are written alike: 1, 1.0 and true are not."""
    if isinstance(one, Mapping) and isinstance(other, Mapping):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(same, one, other))
    return type(one) is type(other) and bool(one == other)


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
        if inner is not None and same(typed[key], item):
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
    return text[: _line_start(text, spot.key)] + text[_line_end(text, spot.end) :]


def _braces(places: Places, spot: Spot) -> Spot:
    """Return the innermost inline table or array around a spot."""
    around = (places.spots.get(spot.path[:end]) for end in range(len(spot.path) - 1, 0, -1))
    return next(other for other in around if other is not None)


def _without_table(text: str, path: Path) -> str:
    """Take out a table over several lines: its values and its headers; comments on lines of their own stay."""
    places = scan(text)
    spots = [(s.key, s.end) for s in places.spots.values() if s.path[: len(path)] == path and not s.inline]
    heads = [(h.start, h.end) for h in places.heads.values() if h.path[: len(path)] == path and not h.implied]
    for begin, end in sorted((*spots, *heads), reverse=True):
        text = text[: _line_start(text, begin)] + text[_line_end(text, end) :]
    return text


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
    elif near := next((table for table in around if len(table) > 1 and table in places.heads), ()):
        at = max(each.last for each in places.heads.values() if each.path[: len(near)] == near)  # with its own
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
    newline = _newline(text)
    block = "".join(line + newline for line in lines)
    end = text.find("\n", at)
    return text + newline + block if end < 0 else text[: end + 1] + block + text[end + 1 :]


def _newline(text: str) -> str:
    return "\r\n" if "\r\n" in text else "\n"


def _line_start(text: str, at: int) -> int:
    return text.rfind("\n", 0, at) + 1


def _line_end(text: str, at: int) -> int:
    """Return where the line after the one in which `at` lies begins."""
    return text.find("\n", at) + 1 or len(text)


def _indent(text: str, at: int) -> str:
    """Return the blanks at the start of the line in which `at` lies."""
    line = text[_line_start(text, at) : at]
    return line[: len(line) - len(line.lstrip(" \t"))]
