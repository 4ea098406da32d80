"""Where rows come from: a CSV file of the kit, or a job."""

import csv
from collections.abc import Iterable, Mapping
from pathlib import Path

from kit.core.errors import near_misses
from kit.core.quantity import QuantityError, Unit, unit
from kit.core.tables.faults import Fault, TableError
from kit.core.tables.row_check import Line, checked
from kit.core.tables.schemas import CONFIDENCE, STATED, Column, Schema
from kit.core.tables.table import Table


def read_table(path: Path, schema: Schema) -> Table:
    """Read the CSV file at `path`: a header ``name [unit]``, then a row a line.

    Raises:
        TableError: the header or some rows are wrong; every fault is listed with file, line and column.
        OSError: the file cannot be read.
    """
    try:
        records = _records(path)
    except (UnicodeDecodeError, csv.Error) as error:
        raise TableError(schema.name, [Fault(path.name, str(error), "a UTF-8 CSV is needed")]) from None
    if not records:
        raise TableError(schema.name, [Fault(path.name, "nothing", "a header line is needed")])
    units, names = _header(*records[0], schema)
    lines, faults = [], []
    for where, cells in records[1:]:
        if len(cells) == len(names):
            lines.append(Line(where, dict(zip(names, cells, strict=True))))
        else:
            faults.append(Fault(where, f"{len(cells)} cells", f"the header has {len(names)}"))
    confidences = [word for word in CONFIDENCE if word != STATED]
    return Table(schema, checked(lines, schema, units, confidences=confidences, faults=faults))


def with_rows(table: Table, rows: Iterable[Mapping[str, object]], origin: str = "your job") -> Table:
    """Return `table` with more rows, each a mapping from column to text such as ``"11.9 GPa"``.

    A number without a unit takes the column's unit; a row without a confidence is 'stated' by its origin.

    Raises:
        TableError: some rows are wrong; every fault is listed with `origin` and the row's number from 1.
    """
    schema = table.schema
    known = [*schema.text_columns, *schema.column]
    lines, faults = [], []
    for number, given in enumerate(rows, start=1):
        where = f"{origin}, row {number} of {schema.name}"
        cells = {"confidence": STATED}
        for name, text in given.items():
            if name not in known:
                faults.append(Fault(where, f"column {name!r}", _columns_are(known, name)))
            elif not isinstance(text, str):
                faults.append(Fault(f"{where}, column {name}", repr(text), "put it in quotes, with its unit"))
            else:
                cells[name] = text
        lines.append(Line(where, cells))
    units = {column.name: unit(column.unit) for column in schema.columns}
    more = checked(lines, schema, units, confidences=list(CONFIDENCE), faults=faults, present=table.rows)
    return Table(schema, (*table.rows, *more))


def _records(path: Path) -> list[tuple[str, list[str]]]:
    """Return every record that is not empty, each behind the words that find its first line again."""
    with path.open(encoding="utf-8-sig", newline="") as stream:
        reader = csv.reader(stream, strict=True)
        records, first = [], 1
        for cells in reader:
            if cells:
                records.append((f"{path.name} line {first}", cells))
            first = reader.line_num + 1
        return records


def _header(where: str, titles: list[str], schema: Schema) -> tuple[dict[str, Unit], list[str]]:
    """Return the unit of each column of figures, and the names of all columns."""
    known = [*schema.text_columns, *(f"{column.name} [{column.unit}]" for column in schema.columns)]
    units: dict[str, Unit] = {}
    names: list[str] = []
    faults = []
    for title in titles:
        name = title.partition("[")[0].strip()
        column = schema.column.get(name)
        if name in names:
            faults.append(Fault(where, f"column {name!r} twice", "a column may stand once"))
        elif column is not None:
            try:
                units[name] = _unit_of(title, column)
            except QuantityError as error:
                faults.append(Fault(where, f"column {title!r}", str(error)))
        elif title.strip() not in schema.text_columns:
            faults.append(Fault(where, f"column {title!r}", _columns_are(known, title)))
        names.append(name)
    faults += [
        Fault(where, f"no column {name!r}", "every table needs it")
        for name in ("id", "source", "confidence")
        if name not in names
    ]
    if faults:
        raise TableError(schema.name, faults)
    return units, names


def _unit_of(title: str, column: Column) -> Unit:
    _, bracket, rest = title.strip().partition("[")
    if not bracket or not rest.endswith("]"):
        raise QuantityError(f"a unit in brackets is needed, such as '{column.name} [{column.unit}]'")
    found = unit(rest.removesuffix("]").strip())
    wanted = unit(column.unit)
    if not wanted.takes(found):
        raise QuantityError(f"{wanted.kind} is needed, such as '{column.name} [{column.unit}]', not {found.kind}")
    return found


def _columns_are(known: list[str], name: str) -> str:
    return f"the columns are {', '.join(known)}{near_misses(name, known)}"
