"""Rows of text into checked rows of figures; every fault found is listed, not only the first."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from kit.core.errors import near_misses
from kit.core.quantity import QuantityError, Unit, parse, show_in, unit
from kit.core.tables.faults import Fault, TableError
from kit.core.tables.schemas import EXCEPTIONS, Column, Schema
from kit.core.tables.table import Entry, Row, key


@dataclass(frozen=True)
class Line:
    """The cells of one row by column, and the words that find it again."""

    where: str
    cells: Mapping[str, str]

    def cell(self, column: str) -> str:
        """Return the text in `column`; a column that is not there is empty."""
        return self.cells.get(column, "").strip()

    def parts(self, column: str) -> tuple[str, ...]:
        """Return the texts in `column` that semicolons part."""
        return tuple(part.strip() for part in self.cell(column).split(";") if part.strip())

    def fault(self, column: str, allowed: str, found: str | None = None) -> Fault:
        """Return the fault of this row in `column`, where by default its whole cell was found."""
        text = self.cell(column) if found is None else found
        return Fault(f"{self.where}, column {column}", repr(text) if text else "nothing", allowed)


def checked(
    lines: Iterable[Line],
    schema: Schema,
    units: Mapping[str, Unit],
    *,
    confidences: Sequence[str],
    faults: Iterable[Fault] = (),
    present: Iterable[Row] = (),
) -> tuple[Row, ...]:
    """Return `lines` as rows of `schema`; a number without a unit is in its column's `units`.

    Raises:
        TableError: the `faults` found before or any found here, such as a name taken by a row in `present`.
    """
    found = list(faults)
    taken = {key(name): f"the row {row.id!r}" for row in present for name in (row.id, *row.also)}
    rows = []
    for line in lines:
        found += _name_faults(line, taken)
        found += _source_faults(line, schema, confidences)
        entries: dict[str, Entry] = {}
        for column in schema.columns:
            try:
                entry = _entry(line, column, units) or _derived(column, entries)
            except _BadCell as bad:
                found.append(bad.fault)
            else:
                if entry is not None:
                    entries[column.name] = entry
        also, source, confidence = line.parts("also"), line.cell("source"), line.cell("confidence")
        figures = MappingProxyType(entries)
        rows.append(Row(schema, line.cell("id"), also, figures, source, confidence, line.cell("note")))
    if found:
        raise TableError(schema.name, found)
    return tuple(rows)


class _BadCell(Exception):  # noqa: N818 - it never leaves this file
    def __init__(self, fault: Fault) -> None:
        self.fault = fault


def _name_faults(line: Line, taken: dict[str, str]) -> Iterable[Fault]:
    if not line.cell("id"):
        yield line.fault("id", "a row needs a name")
    for column, names in (("id", (line.cell("id"),)), ("also", line.parts("also"))):
        for name in filter(None, names):
            if key(name) in taken:
                yield line.fault(column, f"this name is taken by {taken[key(name)]}; choose another", name)
            taken.setdefault(key(name), line.where)


def _source_faults(line: Line, schema: Schema, confidences: Sequence[str]) -> Iterable[Fault]:
    if not line.cell("source"):
        yield line.fault("source", "say where the row is from")
    if line.cell("confidence") not in confidences:
        yield line.fault("confidence", f"the words are {', '.join(confidences)}")
    excepted: dict[str, str] = {}
    for exceptions in EXCEPTIONS.values():
        for name in line.parts(exceptions):
            if name not in schema.column:
                near = near_misses(name, list(schema.column))
                yield line.fault(exceptions, f"the columns are {', '.join(schema.column)}{near}", name)
            elif not line.cell(name):
                yield line.fault(exceptions, "this row has no figure in that column", name)
            elif name in excepted:
                yield line.fault(exceptions, f"that column stands in {excepted[name]} already", name)
            excepted.setdefault(name, exceptions)


def _entry(line: Line, column: Column, units: Mapping[str, Unit]) -> Entry | None:
    if not line.cell(column.name):
        return None
    try:
        quantity = parse(line.cell(column.name), units[column.name])
    except QuantityError as error:
        raise _BadCell(line.fault(column.name, str(error))) from None
    base, half = quantity.base, quantity.half_base
    low, high = (bound * unit(column.unit).factor for bound in (column.low, column.high))
    if not low <= base - (half or 0) <= base + (half or 0) <= high:
        bounds = f"{show_in(low, quantity.unit)} to {show_in(high, quantity.unit)}"
        reach = "" if half is None else ", its ± included"
        raise _BadCell(line.fault(column.name, f"{column.meaning} may be {bounds}{reach}"))
    source = line.cell(column.source_column) or line.cell("source")
    excepted = (word for word, names in EXCEPTIONS.items() if column.name in line.parts(names))
    return Entry(base, quantity.unit, source, next(excepted, line.cell("confidence")), half)


def _derived(column: Column, entries: Mapping[str, Entry]) -> Entry | None:
    rule = column.derived
    if rule is None or rule.column not in entries:
        return None
    printed, factor = entries[rule.column], rule.factor * unit(rule.unit).factor
    half = None if printed.half is None else factor * printed.half
    source = f"{printed.source}; {rule.column} {rule.because}"
    return Entry(factor * printed.base, unit(column.unit), source, printed.confidence, half)
