"""Where the cells of structured inputs come from.

A quantity is written with its origin as a table, `depth = { value = "3.2 ± 0.1 mm", measured = 2026-05-02 }`; a row
or a record may state one for all its quantities that state none themselves.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from kit.core.model.input_fields import Amount, Count, File, Numbers
from kit.core.model.input_lists import Many, Named, Record, Rows, Steps
from kit.core.model.inputs import Input, Path
from kit.core.quantity import ValueOrigin
from kit.core.quantity.origin import KEYS, read_origin

_VALUES = (Amount, Count, File, Numbers)  # the rest are names and ways of doing, which nobody measures


def cell_origins(
    inputs: Mapping[str, Input], raw: Mapping[str, Any], *, example: bool = False
) -> dict[Path, ValueOrigin]:
    """Return the origin of every value that `raw` states of `inputs`, by its place; what cannot be read has none.

    `example`: what states no origin is an example.
    """
    usual, _ = read_origin({}, example=example)
    return {
        path: origin
        for name, asked in inputs.items()
        if name in raw
        for path, origin in _within(asked, raw[name], (name,), usual, example)
    }


def _within(asked: Input, raw: Any, at: Path, around: ValueOrigin, example: bool) -> Iterator[tuple[Path, ValueOrigin]]:
    """Yield the origins below a place; `around` is what the row or record around it states."""
    if isinstance(asked, _VALUES):
        yield at, _own(raw, around, example) if isinstance(asked, Amount) else around
    elif isinstance(asked, Rows) and isinstance(raw, list):
        for number, row in enumerate(raw):
            yield from _record(asked.columns, row, (*at, number), around, example)
    elif isinstance(asked, Steps) and isinstance(raw, list):
        for number, step in enumerate(raw):
            kind = step.get(asked.tag) if isinstance(step, Mapping) else None
            yield from _record(asked.kinds.get(str(kind), ()), step, (*at, number), around, example)
    elif isinstance(asked, Record):
        yield from _record(asked.columns, raw, at, around, example)
    elif isinstance(asked, Many) and isinstance(raw, list):
        for number, item in enumerate(raw):
            yield from _within(asked.item, item, (*at, number), around, example)
    elif isinstance(asked, Named) and isinstance(raw, Mapping):
        for name, each in raw.items():
            yield from _within(asked.value, each, (*at, name), around, example)


def _record(
    columns: tuple[Input, ...], raw: Any, at: Path, around: ValueOrigin, example: bool
) -> Iterator[tuple[Path, ValueOrigin]]:
    if not isinstance(raw, Mapping):
        return
    inner = _own(raw, around, example)
    for column in columns:
        if column.name in raw:
            yield from _within(column, raw[column.name], (*at, column.name), inner, example)


def _own(raw: Any, around: ValueOrigin, example: bool) -> ValueOrigin:
    """Return what a table states of its origin, else what stands around it."""
    if not isinstance(raw, Mapping) or not any(key in raw for key in KEYS):
        return around
    return read_origin(raw, example=example)[0]
