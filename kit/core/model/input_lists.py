"""Inputs that hold others: lists, tables, rows, steps of different kinds, and tables with free names."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from kit.core.errors import near_misses
from kit.core.model.input_fields import Numbers
from kit.core.model.inputs import Input, Path, Reading, read_keys, short
from kit.core.quantity import Display


@dataclass(frozen=True, kw_only=True)
class Many(Input):
    """A list of the same, at least `least` of them and, with `most`, no more than that."""

    item: Input
    least: int = 0
    most: int | None = None

    kind = "list"

    def read(self, raw: Any, at: Path, reading: Reading) -> tuple[Any, ...] | None:
        """Return a tuple of what was read."""
        if not isinstance(raw, list):
            reading.fault(at, f"{self.name} is {short(raw)}", "write a list in square brackets")
            return None
        if len(raw) < self.least or (self.most is not None and len(raw) > self.most):
            wanted = f"{self.least}" if self.least == self.most else f"at least {self.least}"
            reading.fault(at, f"{self.name} has {len(raw)} entries", f"it needs {wanted}")
            return None
        found = [self.item.read(each, (*at, number), reading) for number, each in enumerate(raw)]
        return None if any(each is None for each in found) else tuple(found)

    def missing(self) -> tuple[Any, ...]:
        """Return none of it."""
        return ()

    def schema(self) -> dict[str, Any]:
        """Return the input as plain data."""
        return super().schema() | {"item": self.item.schema(), "least": self.least, "most": self.most}

    def words(self, value: Sequence[Any], display: Display | None = None) -> str:
        """Return the entries, joined; points and the like each in parentheses."""
        inner = "({})" if isinstance(self.item, Many | Numbers) else "{}"
        return ", ".join(inner.format(_told(self.item, each, display)) for each in value)


@dataclass(frozen=True, kw_only=True)
class Record(Input):
    """A table with named entries; `one_of` are groups of which exactly one is stated, `not_both` what excludes it."""

    columns: tuple[Input, ...] = ()
    one_of: tuple[tuple[str, ...], ...] = ()

    kind = "record"

    def read(self, raw: Any, at: Path, reading: Reading) -> dict[str, Any] | None:
        """Return what was read by name; what is not stated has its default."""
        if not isinstance(raw, Mapping):
            wanted = [column for column in self.columns if column.needed] or self.columns
            entries = ", ".join(f"{column.name} = …" for column in wanted)
            reading.fault(at, f"{self.name} is {short(raw)}", f"write a table such as {{ {entries} }}")
            return None
        before = len(reading.faults)
        read_keys(raw, [column.name for column in self.columns], at, reading)
        found = {column.name: self._entry(column, raw, at, reading) for column in self.columns}
        if self.one_of:
            self._one(raw, at, reading)
        return None if len(reading.faults) > before else found

    def _entry(self, column: Input, raw: Mapping[str, Any], at: Path, reading: Reading) -> Any:
        if column.name in raw:
            return column.read(raw[column.name], (*at, column.name), reading)
        if column.needed:
            reading.fault(at, f"{column.name} is not stated", f"add {column.name} = …, {column.meaning}")
        return column.missing()

    def _one(self, raw: Mapping[str, Any], at: Path, reading: Reading) -> None:
        stated = [way for way in self.one_of if any(name in raw for name in way)]
        ways = ", or ".join(" and ".join(way) for way in self.one_of)
        if len(stated) > 1:
            said = ", ".join(name for way in stated for name in way if name in raw)
            reading.fault(at, f"{self.name} states {said}", f"state exactly one of {ways}")
        elif not stated:
            reading.fault(at, "nothing says its size or place", f"state {ways}")
        else:
            for name in stated[0]:
                if name not in raw:
                    reading.fault(at, f"{name} is not stated", f"state {ways}")

    def schema(self) -> dict[str, Any]:
        """Return the input as plain data."""
        more: dict[str, Any] = {"columns": [column.schema() for column in self.columns]}
        return super().schema() | more | ({"one_of": [list(way) for way in self.one_of]} if self.one_of else {})

    def words(self, value: Mapping[str, Any], display: Display | None = None) -> str:
        """Return the entries with their names, joined."""
        cells = ((column, value[column.name]) for column in self.columns)
        return "; ".join(f"{column.name} {_told(column, each, display)}" for column, each in cells if _said(each))


@dataclass(frozen=True, kw_only=True)
class Rows(Record):
    """A list of tables with the same columns; the column `key` differs from row to row.

    What is `found` was found by a search and kept: nobody states or measures its values.
    """

    key: str = ""
    most: int | None = None
    found: bool = False

    kind = "rows"

    def read(self, raw: Any, at: Path, reading: Reading) -> tuple[dict[str, Any], ...] | None:  # type: ignore[override]
        """Return the rows that could be read; None where one could not."""
        if not isinstance(raw, list):
            reading.fault(at, f"{self.name} is {short(raw)}", "write a list of tables in square brackets")
            return None
        if self.most is not None and len(raw) > self.most:
            reading.fault(at, f"{self.name} has {len(raw)} rows", f"{self.most} are possible")
            return None
        found = [super(Rows, self).read(each, (*at, number), reading) for number, each in enumerate(raw)]
        taken: set[str] = set()
        for number, row in enumerate(found):
            if row is None or not self.key or row[self.key] is None:
                continue
            if row[self.key] in taken:
                message = f"two rows of {self.name} are called {row[self.key]!r}"
                reading.fault((*at, number, self.key), message, "give each its own name")
            taken.add(row[self.key])
        return None if any(row is None for row in found) else tuple(row for row in found if row is not None)

    def missing(self) -> tuple[dict[str, Any], ...]:
        """Return no rows."""
        return ()

    def words(self, value: Sequence[Mapping[str, Any]], display: Display | None = None) -> str:  # type: ignore[override]
        """Return the rows, joined."""
        return " | ".join(super(Rows, self).words(row, display) for row in value)


@dataclass(frozen=True, kw_only=True)
class Steps(Input):
    """Rows of different kinds, done in order; the entry `tag` names the kind."""

    tag: str
    kinds: Mapping[str, tuple[Input, ...]]

    kind = "steps"

    def read(self, raw: Any, at: Path, reading: Reading) -> tuple[dict[str, Any], ...] | None:
        """Return each step with its tag and what was stated for it."""
        if not isinstance(raw, list):
            reading.fault(at, f"{self.name} is {short(raw)}", "write a list of tables in square brackets")
            return None
        found = [self._step(each, (*at, number), reading) for number, each in enumerate(raw)]
        return None if any(each is None for each in found) else tuple(each for each in found if each is not None)

    def _step(self, raw: Any, at: Path, reading: Reading) -> dict[str, Any] | None:
        name = raw.get(self.tag) if isinstance(raw, Mapping) else None
        if not isinstance(name, str) or name not in self.kinds:
            near = near_misses(str(name), list(self.kinds)).removeprefix("; ")
            remedy = near or f"write {self.tag} as one of {', '.join(self.kinds)}"
            reading.fault(at, f"a step of {self.name} is {short(raw if name is None else name)}", remedy)
            return None
        record = Record(name=name, meaning=f"step {name}", columns=self.kinds[name])
        body = {key: value for key, value in raw.items() if key != self.tag}
        found = record.read(body, at, reading)
        return None if found is None else {self.tag: name} | {key: found[key] for key in found if key in raw}

    def missing(self) -> tuple[dict[str, Any], ...]:
        """Return no steps."""
        return ()

    def schema(self) -> dict[str, Any]:
        """Return the input as plain data."""
        kinds = {name: [column.schema() for column in columns] for name, columns in self.kinds.items()}
        return super().schema() | {"tag": self.tag, "kinds": kinds}

    def words(self, value: Sequence[Mapping[str, Any]], display: Display | None = None) -> str:
        """Return the steps, joined."""
        return " | ".join(self._words(step, display) for step in value)

    def _words(self, step: Mapping[str, Any], display: Display | None) -> str:
        columns = {column.name: column for column in self.kinds[step[self.tag]]}
        more = (f"{key} {_told(columns[key], each, display)}" for key, each in step.items() if key != self.tag)
        return "; ".join((str(step[self.tag]), *more))


@dataclass(frozen=True, kw_only=True)
class Named(Input):
    """A table with free names, each with the same kind of value."""

    value: Input

    kind = "named"

    def read(self, raw: Any, at: Path, reading: Reading) -> dict[str, Any] | None:
        """Return what was read by name."""
        if not isinstance(raw, Mapping):
            reading.fault(at, f"{self.name} is {short(raw)}", "write a table such as { name = … }")
            return None
        named = {str(key): replace(self.value, name=str(key)) for key in raw}
        found = {key: each.read(raw[key], (*at, key), reading) for key, each in named.items()}
        return None if any(each is None for each in found.values()) else found

    def missing(self) -> dict[str, Any]:
        """Return no names."""
        return {}

    def schema(self) -> dict[str, Any]:
        """Return the input as plain data."""
        return super().schema() | {"value": self.value.schema()}

    def words(self, value: Mapping[str, Any], display: Display | None = None) -> str:
        """Return names and values, joined."""
        return "; ".join(f"{key}: {_told(self.value, each, display)}" for key, each in value.items())


def walk(inputs: Sequence[Input]) -> Iterator[Input]:
    """Yield inputs and all that stand inside them."""
    for each in inputs:
        yield each
        match each:
            case Record():
                yield from walk(each.columns)
            case Many():
                yield from walk([each.item])
            case Named():
                yield from walk([each.value])
            case Steps():
                for columns in each.kinds.values():
                    yield from walk(columns)


def _said(value: Any) -> bool:
    return value is not None and value != () and value != {}


def _told(of: Input, value: Any, display: Display | None) -> str:
    return of.words(value, display) if _said(value) else "–"
