"""What is ordered of a work, and what it gives back: plain data that panel, sheet, book and notebook show."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from kit.core.errors import KitError, near_misses
from kit.core.quantity import Display, show, unit
from kit.core.summary import some, summary
from kit.core.verdict import Check, Verdict

if TYPE_CHECKING:
    from kit.core.model import Case, Entry

T = TypeVar("T")

Progress = Callable[[float, str], bool]
"""Passed the share done (0 to 1) and what is being done; False asks to stop and to keep the best so far."""


@dataclass(frozen=True)
class BuildInput:
    """What a part is built from: its case, what is stated beside its givens, and what it takes from other parts.

    `stated` are the page's inputs as read, by name; `raw` is what the job's file says of them. Paths of files are
    relative to `folder`. `printer`: the check bars as the job's printer prints them, by "x" and "y", measured once
    for all parts. `quick`: a control is moving, so that a coarser answer will do; it says so. `example`: the job is a
    demo's, so that what states no origin is an example.
    """

    case: Case
    display: Display
    stated: Mapping[str, Any]
    folder: Path
    takes: Mapping[str, Build] = field(default_factory=dict)
    printer: Mapping[str, str] = field(default_factory=dict)
    raw: Mapping[str, Any] = field(default_factory=dict)
    quick: bool = False
    example: bool = False

    @property
    def base(self) -> Mapping[str, float]:
        """Every symbol's value in base units, by name."""
        return self.case.base

    def entry(self, name: str) -> Entry:
        """Return a given with its uncertainty and source."""
        return self.case.entries[name]

    def __repr__(self) -> str:
        return f"<input of {self.case.model.name}, takes {some(self.takes) or 'nothing'}>"


@dataclass(frozen=True)
class Number:
    """A number of the shape, in base units, with the unit in which it is stated."""

    name: str
    meaning: str
    base: float
    unit: str = "mm"
    half: float | None = None
    resolution: float | None = None

    def show(self, display: Display | None = None) -> str:
        """Return the number with its unit, as a person reads it."""
        return show(self.base, unit(self.unit), display, half=self.half, resolution=self.resolution)

    def __repr__(self) -> str:
        return f"<{self.name} {self.show()}: {self.meaning}>"


@dataclass(frozen=True)
class Picture:
    """A picture, drawn when it is looked at: a scene, a view in space, a plot, or SVG; `words` say what is to be seen.

    `rests_on`: all that the drawing depends on beside the display, so that a picture of the very same objects (equal
    texts and numbers) need not be drawn again; empty where that is not known.
    """

    name: str
    title: str
    words: str
    draw: Callable[[Display], Any]
    rests_on: tuple[Any, ...] = ()

    def same(self, other: Picture) -> bool:
        """Whether this picture is known to show what the other one does."""
        told = (self.name, self.title, self.words) == (other.name, other.title, other.words)
        pairs = zip(self.rests_on, other.rests_on, strict=False)
        same = all(one is two or (isinstance(one, str | int | float) and one == two) for one, two in pairs)
        return bool(self.rests_on) and len(self.rests_on) == len(other.rests_on) and told and same

    def __repr__(self) -> str:
        return f"<picture {self.name}: {self.title}>"


@dataclass(frozen=True)
class Table:
    """A table of plain texts."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]

    def __repr__(self) -> str:
        return f"<table {self.title}: {len(self.rows)} rows of {', '.join(self.heads)}>"


class LateTable(Table):
    """A table whose rows are written when somebody looks at them: a control that moves does not wait for them."""

    def __init__(self, title: str, heads: tuple[str, ...], write: Callable[[], Iterable[tuple[str, ...]]]) -> None:
        for name, value in (("title", title), ("heads", heads), ("_write", write)):
            object.__setattr__(self, name, value)

    @cached_property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """The rows."""
        return tuple(self._write())  # type: ignore[attr-defined]


@dataclass(frozen=True)
class Output:
    """Files that can be written: into a folder, their names beginning with a stem, for a reader's display."""

    name: str
    what: str
    write: Callable[[Path, str, Display], list[Path]]

    def __repr__(self) -> str:
        return f"<files {self.name}: {self.what}>"


@dataclass(frozen=True)
class Build:
    """What a work gives back. `data` is what other works take; the first picture is the one shown live.

    `inputs` stands for all that went in, `stated` shows what is stated beside the givens; both are filled in where
    it is built. `coarse`: made while a control moved, so that a finer one is due when it rests. `kept`: inputs to
    state, as a job's file has them, so that what a search found is built again at once.
    """

    numbers: tuple[Number, ...] = ()
    checks: tuple[Check, ...] = ()
    cautions: tuple[str, ...] = ()
    open: tuple[str, ...] = ()
    pictures: tuple[Picture, ...] = ()
    tables: tuple[Table, ...] = ()
    outputs: tuple[Output, ...] = ()
    data: Any = None
    inputs: str = ""
    stated: tuple[Table, ...] = ()
    coarse: bool = False
    kept: Mapping[str, Any] = field(default_factory=dict)

    @property
    def ok(self) -> bool:
        """Whether every check of what is built is met."""
        return all(check.ok for check in self.checks)

    def picture(self, name: str) -> Picture:
        """Return the picture of that name. Raises KitError where there is none."""
        return _found({each.name: each for each in self.pictures}, name, "picture")

    def output(self, name: str) -> Output:
        """Return the files of that name. Raises KitError where there are none."""
        return _found({each.name: each for each in self.outputs}, name, "output")

    def number(self, name: str) -> Number:
        """Return the number of that name. Raises KitError where there is none."""
        return _found({each.name: each for each in self.numbers}, name, "number")

    def check(self, name: str) -> Check:
        """Return the check of that name. Raises KitError where there is none."""
        return _found({each.name: each for each in self.checks}, name, "check")

    def rows(self, title: str) -> Table:
        """Return the table of that title. Raises KitError where there is none."""
        by_title = {table.title: table for table in self.tables}
        return _found(by_title, title, "table")

    def __repr__(self) -> str:
        return summary(
            f"Build: {Verdict(self.checks, self.cautions, self.open).words}",
            numbers=some(f"{number.name} {number.show()}" for number in self.numbers),
            pictures=some((picture.name for picture in self.pictures), most=8),
            tables=some(table.title for table in self.tables),
            files=some((output.name for output in self.outputs), most=8),
        )


def _found(known: Mapping[str, T], name: str, kind: str) -> T:
    if name not in known:
        hint = near_misses(name, list(known)) or f"; there are {', '.join(known) or 'none'}"
        raise KitError(f"this build has no {kind} {name!r}{hint}")
    return known[name]
