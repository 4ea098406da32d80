"""What is stated of a part beside its givens, as tables for a reader."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from kit.core.build import BuildInput, Table
from kit.core.model.input_lists import Many, Record, Rows, Steps
from kit.core.model.input_origins import origins_in
from kit.core.model.inputs import Input, Path
from kit.core.quantity import Display, ValueOrigin

Origins = Mapping[Path, ValueOrigin]

BESIDE = "Stated beside the givens"
_NOTHING = "–"


def stated_tables(inputs: BuildInput) -> tuple[Table, ...]:
    """Return what is stated beside the givens with its state: a table for each list of rows, and one for all else.

    What only a default says is left out.
    """
    asked, display = inputs.case.model.inputs, inputs.display
    stated = {name: each for name, each in asked.items() if name in inputs.raw}
    origins = {name: origins_in(each, inputs.raw[name], example=inputs.example) for name, each in stated.items()}
    beside = [
        row
        for name, each in stated.items()
        if not isinstance(each, Rows)
        for row in _told(each, _only(each, inputs.raw[name], inputs.stated[name]), origins[name], display)
    ]
    lists = [
        _rows(each, inputs.raw[name], inputs.stated[name], origins[name], display)
        for name, each in stated.items()
        if isinstance(each, Rows) and inputs.raw[name]
    ]
    return (*((_with_states(BESIDE, ("What", "Value"), beside),) if beside else ()), *lists)


def _told(asked: Input, value: Any, origins: Origins, display: Display) -> Iterator[tuple[tuple[str, ...], Origins]]:
    """Yield what an input is and what it says, with the origins of that; steps one by one."""
    name = asked.name.replace("_", " ")
    if isinstance(asked, Steps):
        of_steps = _by_number(origins)
        for number, step in enumerate(value):
            yield (f"{name}, step {number + 1}", asked.words((step,), display)), of_steps.get(number, {})
    else:
        yield (f"{name}: {asked.meaning}", asked.words(value, display)), origins


def _by_number(origins: Origins) -> dict[int | str, dict[Path, ValueOrigin]]:
    """Return the origins within each row or step of a list, by its number."""
    found: dict[int | str, dict[Path, ValueOrigin]] = {}
    for path, origin in origins.items():
        found.setdefault(path[0], {})[path[1:]] = origin
    return found


def _with_states(title: str, heads: tuple[str, ...], rows: Sequence[tuple[tuple[str, ...], Origins]]) -> Table:
    """Return a table whose last column tells where the values come from; its title, where that is the same for all."""
    states = [_state(origins) for _, origins in rows]
    told = {state for state in states if state}
    if len(told) == 1 and len(rows) > 1:
        return Table(f"{title}. State of all: {told.pop()}", heads, tuple(cells for cells, _ in rows))
    if not told:
        return Table(title, heads, tuple(cells for cells, _ in rows))
    return Table(
        title,
        (*heads, "State"),
        tuple((*cells, state or _NOTHING) for (cells, _), state in zip(rows, states, strict=True)),
    )


def _state(origins: Origins) -> str:
    """Return where values come from, each origin once; what most of them have is told last, for the rest."""
    groups: dict[str, list[str]] = {}
    for path, origin in origins.items():
        name = " ".join(str(key + 1) if isinstance(key, int) else key.replace("_", " ") for key in path)
        groups.setdefault(origin.words, []).append(name)
    ranked = sorted(groups.items(), key=lambda group: len(group[1]))
    if len(ranked) < 2:
        return "".join(groups)
    *few, (most, _) = ranked
    return "; ".join((*(f"{', '.join(names)}: {words}" for words, names in few), f"else: {most}"))


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


def _rows(
    asked: Rows,
    raw: list[Mapping[str, Any]],
    value: tuple[Mapping[str, Any], ...],
    origins: Origins,
    display: Display,
) -> Table:
    """Return the rows with the columns that at least one of them states."""
    columns = [column for column in asked.columns if any(column.name in row for row in raw)] or asked.columns
    of_rows = _by_number(origins)
    rows = [
        (
            tuple(
                column.words(_only(column, row[column.name], read[column.name]), display)
                if column.name in row
                else _NOTHING
                for column in columns
            ),
            of_rows.get(number, {}),
        )
        for number, (row, read) in enumerate(zip(raw, value, strict=True))
    ]
    heads = tuple(column.name.replace("_", " ") for column in columns)
    return _with_states(f"{asked.name.replace('_', ' ').capitalize()}: {asked.meaning}", heads, rows)
