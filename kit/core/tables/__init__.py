"""Materials and standards: every figure carries its unit, its source and how surely it is known.

>>> from kit.core.tables import table
>>> table("papers").row("A4")["width"]
210.0
"""

from functools import cache

from kit.core.errors import KitError, near_misses
from kit.core.resources import data_dir, notebooks_dir
from kit.core.tables.faults import Fault, TableError
from kit.core.tables.read_csv import read_table, with_rows
from kit.core.tables.schemas import SCHEMAS, Column, Schema
from kit.core.tables.table import Entry, Row, Table

__all__ = [
    "SCHEMAS",
    "Column",
    "Entry",
    "Fault",
    "Row",
    "Schema",
    "Table",
    "TableError",
    "data_dir",
    "names",
    "notebooks_dir",
    "table",
    "with_rows",
]


def names() -> tuple[str, ...]:
    """Return the names of all tables."""
    return tuple(SCHEMAS)


@cache
def table(name: str) -> Table:
    """Return the table called `name`, read and checked once.

    Raises:
        KitError: there is no such table, or its file is wrong (`TableError`, which lists every fault).
    """
    if name not in SCHEMAS:
        hint = near_misses(name, list(SCHEMAS)) or f"; there are {', '.join(SCHEMAS)}"
        raise KitError(f"there is no table {name!r}{hint}")
    return read_table(data_dir() / "tables" / f"{name}.csv", SCHEMAS[name])
