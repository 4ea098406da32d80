"""A table in memory: rows of figures, each with unit, source and confidence; nothing in it can change."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from kit.core.errors import KitError, near_misses
from kit.core.quantity import Unit, show
from kit.core.summary import some
from kit.core.tables.schemas import CONFIDENCE, Schema


@dataclass(frozen=True)
class Entry:
    """One figure: `base` and its half-width `half` (or None) in base units, `unit` as printed, its origin."""

    base: float
    unit: Unit
    source: str
    confidence: str
    half: float | None = None

    def __repr__(self) -> str:
        return show(self.base, self.unit, half=self.half)

    @property
    def cited(self) -> str:
        """The source, and how surely the figure is known where it was not read there and the source does not say so."""
        known = CONFIDENCE[self.confidence]
        told = self.confidence == "read" or known.partition(",")[0] in self.source
        return self.source if told else f"{self.source} ({known})"


@dataclass(frozen=True)
class Row:
    """One material or part: ``row["density"]`` is the bare figure in base units, `entry` states all of it."""

    schema: Schema = field(repr=False)
    id: str
    also: tuple[str, ...]
    entries: Mapping[str, Entry]
    source: str
    confidence: str
    note: str

    def entry(self, column: str) -> Entry:
        """Return the figure in `column` with its unit, source and confidence.

        Raises:
            KitError: the table has no such column, or no such figure for this row.
        """
        if column in self.entries:
            return self.entries[column]
        known = self.schema.column
        if column not in known:
            near = near_misses(column, list(known))
            raise KitError(
                f"the table of {self.schema.name} has no column {column!r}{near}; its columns are {', '.join(known)}"
            )
        note = f" (note: {self.note})" if self.note else ""
        raise KitError(
            f"the table of {self.schema.name} has no {column} ({known[column].meaning}) for {self.id!r}, "
            f"because its source gives none{note}; measure it, type it, or add a row of your own to the job"
        )

    def __repr__(self) -> str:
        return f"<{self.id}: {some((f'{name} {entry!r}' for name, entry in self.entries.items()), most=4)}>"

    def __getitem__(self, column: str) -> float:
        return self.entry(column).base

    def __contains__(self, column: str) -> bool:
        return column in self.entries


@dataclass(frozen=True)
class Table:
    """Rows of one schema, found by name or synonym, in any case."""

    schema: Schema
    rows: tuple[Row, ...]
    _by_key: Mapping[str, Row] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        by_key = {key(name): row for row in self.rows for name in (row.id, *row.also)}
        object.__setattr__(self, "_by_key", MappingProxyType(by_key))

    @property
    def name(self) -> str:
        """The table's name."""
        return self.schema.name

    @property
    def ids(self) -> tuple[str, ...]:
        """The names of the rows, in the table's order."""
        return tuple(row.id for row in self.rows)

    def row(self, name: str) -> Row:
        """Return the row called `name`.

        Raises:
            KitError: no row has this name; the nearest ones are listed.
        """
        found = self._by_key.get(key(name))
        if found is None:
            close = near_misses(key(name), list(self._by_key)) or f"; its rows are {', '.join(self.ids)}"
            raise KitError(f"the table of {self.name} has no row {name!r}{close}")
        return found

    def __iter__(self) -> Iterator[Row]:
        return iter(self.rows)

    def __len__(self) -> int:
        return len(self.rows)


def key(name: str) -> str:
    """Return `name` as it is compared: without case, spaces single."""
    return " ".join(name.casefold().split())
