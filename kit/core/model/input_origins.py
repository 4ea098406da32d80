"""Where the cells of structured inputs come from, and how that is stated.

A value is written with its origin as a table, `depth = { value = "3.2 ± 0.1 mm", measured = 2026-05-02 }`; a row
or a record may state one for all its values that state none themselves.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import Any

from kit.core.model.input_fields import Amount, Count, File, Numbers
from kit.core.model.input_lists import Many, Named, Record, Rows, Steps
from kit.core.model.inputs import Input, Path, Reading
from kit.core.quantity import CHOSEN, Quantity, ValueOrigin
from kit.core.quantity.origin import KEYS, read_origin, value_of

VALUES = (Amount, Count, File, Numbers)
"""The inputs that are values; the rest are names and ways of doing, which nobody measures."""
_NOTHING: Any = object()


def cell_origins(
    inputs: Mapping[str, Input], raw: Mapping[str, Any], *, example: bool = False
) -> dict[Path, ValueOrigin]:
    """Return the origin of every value that `raw` states of `inputs`, by its place; what cannot be read has none.

    `example`: what states no origin is an example.
    """
    return {
        path: origin
        for name, asked in inputs.items()
        if name in raw
        for path, origin in origins_in(asked, raw[name], (name,), example=example).items()
    }


def origins_in(asked: Input, raw: Any, at: Path = (), *, example: bool = False) -> dict[Path, ValueOrigin]:
    """Return the origin of every value of one input, which stands at a place, by the values' own."""
    return dict(_within(asked, raw, at, usual_origin(example=example), example))


def usual_origin(*, example: bool) -> ValueOrigin:
    """Return the origin of what states none: an `example` where all values of a file are a demo's, else chosen."""
    return read_origin({}, example=example)[0]


def places(asked: Input, raw: Any) -> list[Path]:
    """Return the places within an input's data at which an origin can be stated, from the outermost in."""
    inner = [(key, *path) for key, each, value in _inner(asked, raw) for path in places(each, value)]
    return [(), *inner] if _holds(asked) or inner else []


def at_place(asked: Input, raw: Any, at: Path) -> tuple[Input, Any]:
    """Return what is asked at a place within an input's data, and what stands there."""
    for wanted in at:
        asked, raw = next((each, value) for key, each, value in _inner(asked, raw) if key == wanted)
    return asked, raw


def origin_at(asked: Input, raw: Any, at: Path, *, example: bool = False) -> ValueOrigin:
    """Return the origin of what stands at a place: the one of all values there, else what is stated of the whole."""
    found = {origin for path, origin in origins_in(asked, raw, example=example).items() if path[: len(at)] == at}
    if len(found) == 1:
        return found.pop()
    around = usual_origin(example=example)
    for depth in range(len(at) + 1):
        each, value = at_place(asked, raw, at[:depth])
        around = _own(each, value, around, example) if _holds(each) else around
    return around


def with_value(raw: Any, at: Path, value: Any) -> Any:
    """Return an input's data in which another value stands at a place; its origin stays."""
    if at:
        return _put(raw, {at[0]: with_value(raw[at[0]], at[1:], value)})
    return {**raw, "value": value} if isinstance(raw, Mapping) else value


def with_origin(asked: Input, raw: Any, at: Path, origin: ValueOrigin, *, example: bool = False) -> Any:
    """Return an input's data in which what stands at a place states an origin; a list states it at each of its values.

    What stands deeper and states its own keeps that.
    """
    return _stated_at(asked, raw, at, origin, usual_origin(example=example), example)


def restated(asked: Input, before: Any, now: Any, *, example: bool = False) -> Any:
    """Return an input's data as typed `now`, with its origins: those of `before` where the value is the same.

    What differs has been chosen, unless it says otherwise itself. `before` is None where nothing stood there.
    """
    usual = usual_origin(example=example)
    return _anew(asked, _NOTHING if before is None else before, now, usual, example)


def _anew(asked: Input, before: Any, now: Any, around: ValueOrigin, example: bool) -> Any:
    if isinstance(asked, VALUES):
        if isinstance(now, Mapping):  # typed as TOML, with whatever it says of its origin
            return now
        if before is _NOTHING or not _same(asked, value_of(before), now):
            return _stating(asked, now, CHOSEN, around, example)
        return {**before, "value": now} if isinstance(before, Mapping) else now
    if _holds(asked) and isinstance(now, Mapping):
        if not isinstance(before, Mapping):
            return now if any(key in now for key in _keys(asked)) else _stating(asked, now, CHOSEN, around, example)
        inner = _own(asked, now, around, example)
        return _put(
            now,
            {key: _anew(each, before.get(key, _NOTHING), it, inner, example) for key, each, it in _inner(asked, now)},
        )
    if isinstance(asked, Named) and isinstance(now, Mapping):
        known = before if isinstance(before, Mapping) else {}
        found = {
            key: _anew(each, known.get(key, _NOTHING), it, around, example) for key, each, it in _inner(asked, now)
        }
        return _put(now, found)
    olds = before if isinstance(before, list) else []
    return _put(
        now,
        {
            key: value if value in olds else _anew(each, _item(olds, key), value, around, example)
            for key, each, value in _inner(asked, now)
        },
    )


def _item(olds: list[Any], number: int) -> Any:
    return olds[number] if number < len(olds) else _NOTHING


def _same(asked: Input, one: Any, other: Any) -> bool:
    """Return whether two texts say the same: for quantities value and ±, in whatever unit."""
    mine, theirs = (asked.read(each, (), Reading()) for each in (one, other))
    if not isinstance(mine, Quantity) or not isinstance(theirs, Quantity):
        return bool(one == other)
    pairs = ((mine.base, theirs.base), (mine.half_base or 0.0, theirs.half_base or 0.0))
    return all(math.isclose(*pair, rel_tol=1e-12, abs_tol=1e-15) for pair in pairs)


def _stated_at(asked: Input, raw: Any, at: Path, origin: ValueOrigin, around: ValueOrigin, example: bool) -> Any:
    if not at and _holds(asked):
        return _stating(asked, raw, origin, around, example)
    inner = _own(asked, raw, around, example) if _holds(asked) else around
    changed = {
        key: _stated_at(each, value, at[1:], origin, inner, example)
        for key, each, value in _inner(asked, raw)
        if not at or key == at[0]
    }
    return _put(raw, changed)


def _stating(asked: Input, raw: Any, origin: ValueOrigin, around: ValueOrigin, example: bool) -> Any:
    """Return a value, row or record that states an origin; it says nothing where that stands around it anyway."""
    told = {} if origin == around else origin.keys(example=example)
    if isinstance(asked, VALUES):
        return {"value": value_of(raw)} | told if told else value_of(raw)
    known = _keys(asked)
    return {key: value for key, value in raw.items() if key not in known} | told if isinstance(raw, Mapping) else raw


def _put(raw: Any, changed: Mapping[Any, Any]) -> Any:
    if isinstance(raw, list):
        return [changed.get(number, item) for number, item in enumerate(raw)]
    return {**raw, **changed} if isinstance(raw, Mapping) else raw


def _within(asked: Input, raw: Any, at: Path, around: ValueOrigin, example: bool) -> Iterator[tuple[Path, ValueOrigin]]:
    """Yield the origins below a place; `around` is what the row or record around it states."""
    if isinstance(asked, Rows) and asked.found:
        return
    own = _own(asked, raw, around, example) if _holds(asked) else around
    if isinstance(asked, VALUES):
        yield at, own
    for key, each, value in _inner(asked, raw):
        yield from _within(each, value, (*at, key), own, example)


def _inner(asked: Input, raw: Any) -> Iterator[tuple[Any, Input, Any]]:
    """Yield what stands inside an input's data: its key or number, what is asked there, and what stands there."""
    if isinstance(asked, Rows | Steps | Many):
        for number, item in enumerate(raw if isinstance(raw, list) else []):
            yield number, item_of(asked, item), item
    elif isinstance(asked, Record):
        yield from ((each.name, each, raw[each.name]) for each in asked.columns if _has(raw, each.name))
    elif isinstance(asked, Named) and isinstance(raw, Mapping):
        yield from ((name, asked.value, each) for name, each in raw.items())


def item_of(asked: Rows | Steps | Many, item: Any) -> Input:
    """Return what is asked of one item of a list."""
    if isinstance(asked, Many):
        return asked.item
    if isinstance(asked, Rows):
        return Record(name=asked.name, meaning=asked.meaning, columns=asked.columns)
    kind = item.get(asked.tag) if isinstance(item, Mapping) else None
    return Record(name=asked.name, meaning=asked.meaning, columns=asked.kinds.get(str(kind), ()))


def _has(raw: Any, name: str) -> bool:
    return isinstance(raw, Mapping) and name in raw


def _holds(asked: Input) -> bool:
    """Return whether an origin can be stated beside this: a value, or the record or row that holds some."""
    return isinstance(asked, VALUES) or (isinstance(asked, Record) and not isinstance(asked, Rows))


def _keys(asked: Input) -> tuple[str, ...]:
    """Return the keys that state the origin of a value, or of a record, whose own columns come first."""
    own = {each.name for each in asked.columns} if isinstance(asked, Record) else set()
    return tuple(key for key in KEYS if key not in own)


def _own(asked: Input, raw: Any, around: ValueOrigin, example: bool) -> ValueOrigin:
    """Return what a table states of its origin, else what stands around it."""
    told = {key: raw[key] for key in _keys(asked) if key in raw} if isinstance(raw, Mapping) else {}
    return read_origin(told, example=example)[0] if told else around
