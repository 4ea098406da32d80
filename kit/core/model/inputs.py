"""Structured inputs: what a person states of a part beyond single numbers, stated once.

A page names them after its givens, and everything else derives from that one statement: reading with units, spans
and ± cell by cell, the list of models, the check of a job with each fault at its own place, tables to edit, and the
sheet's table of what is given:

    M.inputs(
        rows(
            "gaps",
            "gaps beyond the three of this page",
            amount("x", "place along the bed", span=(-5000, 5000)),
            amount("depth", "depth below the straightedge", span=(0, 50), sure=True),
        ),
    )

What is read are plain values: a `Quantity`, text, a tuple, or a mapping by name.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from kit.core.errors import KitError, near_misses
from kit.core.quantity import Display, Quantity, QuantityError, parse, show, show_in, unit

Path = tuple[str | int, ...]
MISSING = object()


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong at a place below a part: what was given, and what to do."""

    at: Path
    message: str
    remedy: str

    @property
    def words(self) -> str:
        """The fault in one sentence, with its place where it stands inside a list or table."""
        inner = self.at[:-1] if self.at and isinstance(self.at[-1], str) else self.at
        place = ", ".join(f"number {key + 1}" if isinstance(key, int) else str(key) for key in inner)
        return f"{place}: {self.message}; {self.remedy}" if place else f"{self.message}; {self.remedy}"


@dataclass
class Reading:
    """One reading of a part's inputs: the faults found on the way, and the names that bounds may use."""

    names: Collection[str] = ()
    faults: list[Fault] = field(default_factory=list)

    def fault(self, at: Path, message: str, remedy: str) -> None:
        """Note a fault and read on."""
        self.faults.append(Fault(at, message, remedy))


@dataclass(frozen=True, kw_only=True)
class Input:
    """Something that can be stated: its key, its meaning, and whether it must be."""

    name: str
    meaning: str
    needed: bool = False

    kind = "input"

    def read(self, raw: Any, at: Path, reading: Reading) -> Any:
        """Return what `raw` says; what is wrong goes to `reading`, and None is returned in its place."""
        raise NotImplementedError

    def missing(self) -> Any:
        """Return what stands where nothing is stated."""
        return None

    def schema(self) -> dict[str, Any]:
        """Return the input as plain data."""
        return {"name": self.name, "kind": self.kind, "meaning": self.meaning, "needed": self.needed}

    def words(self, value: Any, display: Display | None = None) -> str:
        """Return what was read as a person reads it."""
        return str(value)


@dataclass(frozen=True, kw_only=True)
class Amount(Input):
    """A quantity in the field's unit, within a span in that unit; `sure`: it needs its ±."""

    in_unit: str = "mm"
    span: tuple[float, float] | None = None
    default: str | None = None
    sure: bool = False

    kind = "amount"

    def read(self, raw: Any, at: Path, reading: Reading) -> Quantity | None:
        """Return the quantity."""
        if isinstance(raw, bool) or not isinstance(raw, str | int | float):
            reading.fault(at, f"{self.name} is {_short(raw)}", f'write a quantity such as "12 {self.in_unit}"')
            return None
        try:
            found = parse(str(raw), self.in_unit)
        except QuantityError as error:
            message, _, remedy = str(error).partition("; ")
            reading.fault(at, f"{self.name}: {message}", remedy or f'write such as "12 {self.in_unit}"')
            return None
        if self.span is not None:
            low, high = (unit(self.in_unit).to_base(end) for end in self.span)
            slack = 1e-12 * max(abs(low), abs(high))
            if not low - slack <= found.base <= high + slack:
                ends = " to ".join(show_in(end, found.unit) for end in (low, high))
                reading.fault(at, f"{self.name} is {found}", f"allowed is {ends}")
                return None
        if self.sure and not found.half_base:
            told = show_in(found.base, found.unit)
            reading.fault(at, f"{self.name} is {found}, without its uncertainty", f'write such as "{told} ± 0.5"')
            return None
        return found

    def missing(self) -> Quantity | None:
        """Return the default."""
        return None if self.default is None else parse(self.default, self.in_unit)

    def schema(self) -> dict[str, Any]:
        """Return the input as plain data."""
        more = {"unit": self.in_unit, "default": self.default, "sure": self.sure}
        return super().schema() | more | ({"span": list(self.span)} if self.span else {})

    def words(self, value: Quantity, display: Display | None = None) -> str:
        """Return the quantity in the reader's units."""
        return show(value.base, unit(self.in_unit), display, half=value.half_base)


@dataclass(frozen=True, kw_only=True)
class Count(Input):
    """A whole number within a span."""

    span: tuple[int, int] = (1, 1_000_000)
    default: int | None = None

    kind = "count"

    def read(self, raw: Any, at: Path, reading: Reading) -> int | None:
        """Return the number."""
        low, high = self.span
        if isinstance(raw, bool) or not isinstance(raw, int) or not low <= raw <= high:
            reading.fault(at, f"{self.name} is {_short(raw)}", f"write a whole number from {low} to {high}")
            return None
        return raw

    def missing(self) -> int | None:
        """Return the default."""
        return self.default

    def schema(self) -> dict[str, Any]:
        """Return the input as plain data."""
        return super().schema() | {"span": list(self.span), "default": self.default}


@dataclass(frozen=True, kw_only=True)
class Choice(Input):
    """One of a few words; with `number`, a whole number from 1 up serves as well."""

    options: tuple[str, ...]
    default: str | None = None
    number: bool = False

    kind = "choice"

    def read(self, raw: Any, at: Path, reading: Reading) -> str | int | None:
        """Return the word, or the number."""
        if isinstance(raw, str) and raw in self.options:
            return raw
        if self.number and isinstance(raw, int) and not isinstance(raw, bool) and raw >= 1:
            return raw
        near = near_misses(str(raw), list(self.options)).removeprefix("; ")
        more = ", or a whole number" if self.number else ""
        reading.fault(at, f"{self.name} is {_short(raw)}", near or f"write one of {', '.join(self.options)}{more}")
        return None

    def missing(self) -> str | None:
        """Return the default."""
        return self.default

    def schema(self) -> dict[str, Any]:
        """Return the input as plain data."""
        return super().schema() | {"options": list(self.options), "default": self.default}


@dataclass(frozen=True, kw_only=True)
class Flag(Input):
    """True or false; false where nothing is stated."""

    kind = "flag"

    def read(self, raw: Any, at: Path, reading: Reading) -> bool | None:
        """Return it."""
        if not isinstance(raw, bool):
            reading.fault(at, f"{self.name} is {_short(raw)}", "write true or false")
            return None
        return raw

    def missing(self) -> bool:
        """Return false."""
        return False

    def words(self, value: bool, display: Display | None = None) -> str:
        """Return yes or no."""
        return "yes" if value else "no"


@dataclass(frozen=True, kw_only=True)
class Text(Input):
    """A text; `refers` names the rows, or the joined text of what it may name, for a menu."""

    default: str | None = None
    refers: str = ""

    kind = "text"

    def read(self, raw: Any, at: Path, reading: Reading) -> str | None:
        """Return the text."""
        if not isinstance(raw, str) or not raw:
            reading.fault(at, f"{self.name} is {_short(raw)}", "write a text in quotes")
            return None
        return raw

    def missing(self) -> str | None:
        """Return the default."""
        return self.default

    def schema(self) -> dict[str, Any]:
        """Return the input as plain data."""
        return super().schema() | ({"refers": self.refers} if self.refers else {})


@dataclass(frozen=True, kw_only=True)
class File(Text):
    """The path of a file beside the job, with one of a few endings."""

    endings: tuple[str, ...] = ()

    kind = "file"

    def read(self, raw: Any, at: Path, reading: Reading) -> str | None:
        """Return the path as it is written."""
        found = super().read(raw, at, reading)
        if found is not None and self.endings and not found.lower().endswith(self.endings):
            reading.fault(at, f"{self.name} is {found!r}", f"give a file that ends in {', '.join(self.endings)}")
            return None
        return found

    def schema(self) -> dict[str, Any]:
        """Return the input as plain data."""
        return super().schema() | {"endings": list(self.endings)}


@dataclass(frozen=True, kw_only=True)
class Bound(Amount):
    """A quantity, or the name of a given of the page, with or without a minus before it."""

    kind = "bound"

    def read(self, raw: Any, at: Path, reading: Reading) -> Quantity | str | None:  # type: ignore[override]
        """Return the quantity, or the given's name with its minus."""
        if isinstance(raw, str) and raw.removeprefix("-") in reading.names:
            return raw
        if isinstance(raw, str) and raw.removeprefix("-").isidentifier():
            near = near_misses(raw.removeprefix("-"), list(reading.names)).removeprefix("; ")
            remedy = near or f'write a quantity such as "30 {self.in_unit}", or a given\'s name'
            reading.fault(at, f"{self.name} is {raw!r}, which is no given of this page", remedy)
            return None
        return super().read(raw, at, reading)

    def words(self, value: Quantity | str, display: Display | None = None) -> str:
        """Return the quantity, or the given's name."""
        return value.replace("_", " ") if isinstance(value, str) else super().words(value, display)


@dataclass(frozen=True, kw_only=True)
class Numbers(Input):
    """A list of so many bare numbers."""

    count: int = 3

    kind = "numbers"

    def read(self, raw: Any, at: Path, reading: Reading) -> tuple[float, ...] | None:
        """Return the numbers."""
        good = isinstance(raw, list) and len(raw) == self.count
        if not good or not all(isinstance(each, int | float) and not isinstance(each, bool) for each in raw):
            reading.fault(at, f"{self.name} is {_short(raw)}", f"write its {self.count} numbers, such as [0, 0, 1]")
            return None
        return tuple(map(float, raw))

    def words(self, value: Sequence[float], display: Display | None = None) -> str:
        """Return the numbers, joined."""
        return ", ".join(f"{number:g}" for number in value)


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
            reading.fault(at, f"{self.name} is {_short(raw)}", "write a list in square brackets")
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
            reading.fault(at, f"{self.name} is {_short(raw)}", f"write a table such as {{ {entries} }}")
            return None
        before = len(reading.faults)
        known = [column.name for column in self.columns]
        for key in raw:
            if key not in known:
                near = near_misses(str(key), known).removeprefix("; ")
                reading.fault((*at, key), f"unknown input {key!r}", near or f"the entries here are {', '.join(known)}")
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
        told = ((column, value[column.name]) for column in self.columns)
        return "; ".join(f"{column.name} {_told(column, each, display)}" for column, each in told if _said(each))


@dataclass(frozen=True, kw_only=True)
class Rows(Record):
    """A list of tables with the same columns; the column `key` differs from row to row."""

    key: str = ""
    most: int | None = None

    kind = "rows"

    def read(self, raw: Any, at: Path, reading: Reading) -> tuple[dict[str, Any], ...] | None:  # type: ignore[override]
        """Return the rows that could be read; None where one could not."""
        if not isinstance(raw, list):
            reading.fault(at, f"{self.name} is {_short(raw)}", "write a list of tables in square brackets")
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
                told = f"two rows of {self.name} are called {row[self.key]!r}"
                reading.fault((*at, number, self.key), told, "give each its own name")
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
            reading.fault(at, f"{self.name} is {_short(raw)}", "write a list of tables in square brackets")
            return None
        found = [self._step(each, (*at, number), reading) for number, each in enumerate(raw)]
        return None if any(each is None for each in found) else tuple(each for each in found if each is not None)

    def _step(self, raw: Any, at: Path, reading: Reading) -> dict[str, Any] | None:
        name = raw.get(self.tag) if isinstance(raw, Mapping) else None
        if not isinstance(name, str) or name not in self.kinds:
            near = near_misses(str(name), list(self.kinds)).removeprefix("; ")
            remedy = near or f"write {self.tag} as one of {', '.join(self.kinds)}"
            reading.fault(at, f"a step of {self.name} is {_short(raw if name is None else name)}", remedy)
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
            reading.fault(at, f"{self.name} is {_short(raw)}", "write a table such as { name = … }")
            return None
        found = {str(key): self.value.read(each, (*at, key), reading) for key, each in raw.items()}
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


def read_inputs(
    inputs: Mapping[str, Input], raw: Mapping[str, Any], names: Collection[str] = ()
) -> tuple[dict[str, Any], list[Fault]]:
    """Return what `raw` states of `inputs`, defaults where it states nothing, and every fault with its place.

    `names` are the givens that a bound may name.
    """
    reading = Reading(names)
    for key in raw:
        if key not in inputs:
            near = near_misses(str(key), list(inputs)).removeprefix("; ")
            remedy = near or (f"the inputs are {', '.join(inputs)}" if inputs else "this page takes none; take it out")
            reading.fault((key,), f"unknown input {key!r}", remedy)
    found = {
        name: each.read(raw[name], (name,), reading) if name in raw else each.missing() for name, each in inputs.items()
    }
    for name, each in inputs.items():
        if each.needed and name not in raw:
            reading.fault((), f"{name} is not stated", f"add its {each.meaning}")
    return found, reading.faults


def stated_inputs(inputs: Mapping[str, Input], raw: Mapping[str, Any], names: Collection[str] = ()) -> dict[str, Any]:
    """Return what `raw` states of `inputs`.

    Raises:
        KitError: something cannot be read; all faults are told.
    """
    found, faults = read_inputs(inputs, raw, names)
    if faults:
        raise KitError("\n".join(each.words for each in faults))
    return found


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


def _short(raw: Any) -> str:
    text = repr(raw)
    return text if len(text) < 60 else f"{text[:56]} …"
