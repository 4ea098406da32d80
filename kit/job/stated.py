"""What is stated of a part beside its givens, as tables for a reader."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from kit.core.build import BuildInput, Table
from kit.core.model.input_lists import Many, Record, Rows, Steps
from kit.core.model.inputs import Input
from kit.core.quantity import Display

BESIDE = "Stated beside the givens"
_NOTHING = "–"


def stated_tables(inputs: BuildInput) -> tuple[Table, ...]:
    """Return what is stated beside the givens: a table for each list of rows, and one for all else.

    What only a default says is left out.
    """
    asked, display = inputs.case.model.inputs, inputs.display
    stated = {name: each for name, each in asked.items() if name in inputs.raw}
    beside = [
        row
        for name, each in stated.items()
        if not isinstance(each, Rows)
        for row in _told(each, _only(each, inputs.raw[name], inputs.stated[name]), display)
    ]
    lists = [
        _rows(each, inputs.raw[name], inputs.stated[name], display)
        for name, each in stated.items()
        if isinstance(each, Rows) and inputs.raw[name]
    ]
    return (*((Table(BESIDE, ("What", "Value"), tuple(beside)),) if beside else ()), *lists)


def _told(asked: Input, value: Any, display: Display) -> Iterator[tuple[str, str]]:
    """Yield what an input is and what it says; steps one by one."""
    name = asked.name.replace("_", " ")
    if isinstance(asked, Steps):
        for number, step in enumerate(value, start=1):
            yield f"{name}, step {number}", asked.words((step,), display)
    else:
        yield f"{name}: {asked.meaning}", asked.words(value, display)


def _only(asked: Input, raw: Any, value: Any) -> Any:
    """Return what was read without what only a default says."""
    match asked:
        case Rows():
            return tuple(_entries(asked, row, read) for row, read in zip(raw, value, strict=True))
        case Record():
            return _entries(asked, raw, value)
        case Many():
            return tuple(_only(asked.item, item, read) for item, read in zip(raw, value, strict=True))
    return value


def _entries(asked: Record, raw: Mapping[str, Any], value: Mapping[str, Any]) -> dict[str, Any]:
    return {
        each.name: _only(each, raw[each.name], value[each.name]) if each.name in raw else None for each in asked.columns
    }


def _rows(asked: Rows, raw: list[Mapping[str, Any]], value: tuple[Mapping[str, Any], ...], display: Display) -> Table:
    """Return the rows with the columns that at least one of them states."""
    columns = [column for column in asked.columns if any(column.name in row for row in raw)] or asked.columns
    cells = tuple(
        tuple(
            column.words(_only(column, row[column.name], read[column.name]), display)
            if column.name in row
            else _NOTHING
            for column in columns
        )
        for row, read in zip(raw, value, strict=True)
    )
    heads = tuple(column.name.replace("_", " ") for column in columns)
    return Table(f"{asked.name.replace('_', ' ').capitalize()}: {asked.meaning}", heads, cells)
