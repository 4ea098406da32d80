"""What the keys of a job file mean, apart from the models: job, machine, parts and their givens."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING, Any, Literal

from kit.core.errors import KitError, near_misses
from kit.core.quantity import CHOSEN, Display, QuantityError, ValueOrigin, parse
from kit.core.quantity.origin import KEYS as ORIGIN_KEYS
from kit.core.quantity.origin import read_origin
from kit.core.verdict import LEVEL
from kit.job.errors import JobError
from kit.job.positions import Path, scan

if TYPE_CHECKING:
    from kit.core.model import Stated

#: The keys that a person may write, at the top, under [job], in a part, and in a given's inline table.
TOP_KEYS = ("format", "job", "machine", "tables", "work", "parts")
HEAD_KEYS = ("prepared_by", "checked_by", "date", "revision")  # of [job]: what the head of a printed sheet says
JOB_KEYS = ("name", "about", "maker", *HEAD_KEYS, "units", "denominator", "decimals", "sure", "example")
PART_KEYS = ("model", "title", "note", "beyond", "wishes", "givens", "pins", "built", "place", "body", "record")
PIN_KEYS = ("why", "beyond", "picks", "givens")
GIVEN_KEYS = ("value", "from", "spread", "k", "dof", *ORIGIN_KEYS)

#: The id under which links find the machine's own measures.
MACHINE = "machine"

_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]*")


@dataclass(frozen=True, slots=True)
class Problem:
    """Something wrong at a path of the file, or worth a hint; `value` points at the value, not the key."""

    path: Path
    message: str
    remedy: str
    severity: Literal["fault", "hint"] = "fault"
    value: bool = False


@dataclass(frozen=True, slots=True)
class GivenEntry:
    """A given as the job states it: a text with what is known about it, or a link to another part's result.

    What is None about its spread keeps what the model says.
    """

    text: str = ""
    link: tuple[str, str] | None = None
    spread: str | None = None
    k: float | None = None
    dof: float | None = None
    origin: ValueOrigin = CHOSEN

    @property
    def stated(self) -> Stated:
        """The given as a model takes it; for one that is no link."""
        from kit.core.model import Stated

        return Stated(self.text, self.spread, self.k, self.dof, self.origin)  # type: ignore[arg-type]


@dataclass(frozen=True, slots=True)
class JobPin:
    """A design of a part that is kept beside its own: why, and all that is stated for it. Nothing in it is a link."""

    why: str = ""
    beyond: tuple[str, ...] = ()
    picks: Mapping[str, str] = field(default_factory=dict)
    givens: Mapping[str, GivenEntry] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class JobPart:
    """A part of the job: the model that works it out (empty if it names none), and what is given for it.

    `picks` are its texts beside these keys, `lists` all else beside them: rows of tables, inputs and links, which
    the model distinguishes. A row may stand in a table with its origin; then it is among the lists.
    """

    id: str
    model: str
    title: str = ""
    note: str = ""
    beyond: tuple[str, ...] = ()
    picks: Mapping[str, str] = field(default_factory=dict)
    givens: Mapping[str, GivenEntry] = field(default_factory=dict)
    lists: Mapping[str, Any] = field(default_factory=dict)
    wishes: tuple[str, ...] = ()
    pins: Mapping[str, JobPin] = field(default_factory=dict)
    built: Mapping[str, GivenEntry] = field(default_factory=dict)  # results as measured of what was built
    place: Any = None  # where it stands, and what it is there, as in the file
    body: Any = None


@dataclass(frozen=True)
class Layout:
    """A whole job as read, and the problems found on the way; what is wrong is left out of the rest."""

    name: str = ""
    about: str = ""
    maker: str = ""
    head: Mapping[str, str] = field(default_factory=dict)
    display: Display = field(default_factory=Display)
    level: float = LEVEL
    example: bool = False  # the file is a demo's: what states no origin is an example
    machine: Mapping[str, GivenEntry] = field(default_factory=dict)
    tables: Mapping[str, Mapping[str, Mapping[str, Any]]] = field(default_factory=dict)
    parts: Mapping[str, JobPart] = field(default_factory=dict)
    problems: tuple[Problem, ...] = ()


def read_layout(data: Mapping[str, Any]) -> Layout:
    """Return the job that parsed TOML describes, with every problem found."""
    return _Reader(data).layout()


def sound(layout: Layout, text: str, name: str) -> Layout:
    """Return the layout if it has no fault.

    Raises:
        JobError: it has; all faults are listed with their lines.
    """
    faults = [problem for problem in layout.problems if problem.severity == "fault"]
    if faults:
        where = scan(text)
        lines = [f"line {where.of(p.path, value=p.value)[0]}: {p.message}; {p.remedy}" for p in faults]
        raise JobError("\n  ".join([f"{name} cannot be read as a job:", *lines]))
    return layout


class _Reader:
    def __init__(self, data: Mapping[str, Any]) -> None:
        self.data = data
        self.problems: list[Problem] = []
        self.example = False

    def layout(self) -> Layout:
        self.unknown((), self.data, TOP_KEYS)
        job = self.table(("job",), self.data.get("job", {}))
        self.unknown(("job",), job, JOB_KEYS)
        texts = {key: self.text(("job", key), job.get(key, "")) for key in ("name", "about", "maker")}
        self.example = self.flag(("job", "example"), job.get("example", False))
        machine = self.table((MACHINE,), self.data.get(MACHINE, {}))
        parts = self.table(("parts",), self.data.get("parts", {}))
        if "parts" not in self.data:
            self.fault((), "the job has no parts", 'add one, such as [parts.stop] with model = "stop.deflection"')
        return Layout(
            **texts,
            head={key: self.head(key, job[key]) for key in HEAD_KEYS if key in job},
            display=self.display(job),
            level=self.level(job),
            example=self.example,
            machine={name: entry for name, entry in self.entries((MACHINE,), machine) if not self.linked(name, entry)},
            tables=self.tables(),
            parts={id: part for id, found in parts.items() if (part := self.part(id, found))},
            problems=tuple(self.problems),
        )

    def fault(self, path: Path, message: str, remedy: str, *, value: bool = False) -> None:
        self.problems.append(Problem(path, message, remedy, value=value))

    def unknown(self, path: Path, found: Mapping[str, Any], known: Sequence[str]) -> None:
        for key in found:
            if key not in known:
                near = near_misses(key, list(known)).removeprefix("; ")
                remedy = near or f"the keys here are {', '.join(known)}"
                message = f"the key {key!r} is not known here; it is kept, but nothing reads it"
                self.problems.append(Problem((*path, key), message, remedy, "hint"))

    def table(self, path: Path, found: Any) -> Mapping[str, Any]:
        if isinstance(found, Mapping):
            return found
        name = ".".join(map(str, path))
        self.fault(path, f"{name} is {_kind(found)}, but must be a table", f"write [{name}] on a line of its own")
        return {}

    def text(self, path: Path, found: Any) -> str:
        if isinstance(found, str):
            return found
        self.fault(path, f"{path[-1]} is {_kind(found)}, but must be a text", "put it in quotes", value=True)
        return ""

    def flag(self, path: Path, found: Any) -> bool:
        if not isinstance(found, bool):
            self.fault(path, f"{path[-1]} is {_kind(found)}", "write true or false", value=True)
        return found is True

    def display(self, job: Mapping[str, Any]) -> Display:
        names = {"units": "system", "denominator": "denominator", "decimals": "decimals"}
        settings: dict[str, Any] = {}
        for key, name in names.items():
            if key not in job:
                continue
            try:
                Display(**{name: job[key]})
            except KitError as error:
                message, remedy = in_two(error, f"correct {key} under [job]")
                self.fault(("job", key), message, remedy, value=True)
            else:
                settings[name] = job[key]
        return Display(**settings)

    def head(self, key: str, found: Any) -> str:
        """What the head of a sheet says; a date may stand as TOML's own."""
        if key == "date" and isinstance(found, date):
            return found.isoformat()
        return self.text(("job", key), found)

    def level(self, job: Mapping[str, Any]) -> float:
        """How sure a limit must be to hold without a word more."""
        if "sure" not in job:
            return LEVEL
        typed = self.text(("job", "sure"), job["sure"])
        try:
            level = parse(typed, "%").base
            if not 0.5 <= level < 1:
                raise QuantityError(f"sure is {typed!r}; it may be from 50 % to less than 100 %")
        except QuantityError as error:
            message, remedy = in_two(error, 'write it such as sure = "95 %"')
            self.fault(("job", "sure"), message, remedy, value=True)
            return LEVEL
        return level

    def tables(self) -> dict[str, dict[str, Mapping[str, Any]]]:
        found = self.table(("tables",), self.data.get("tables", {}))
        return {
            name: {row: self.table(("tables", name, row), cells) for row, cells in rows.items()}
            for name, rows in ((name, self.table(("tables", name), rows)) for name, rows in found.items())
        }

    def part(self, id: str, found: Any) -> JobPart | None:
        path = ("parts", id)
        body = self.table(path, found)
        if not isinstance(found, Mapping):
            return None
        if id == MACHINE or not _ID.fullmatch(id):
            self.fault(path, f"{id!r} cannot name a part", "use letters, digits, - and _, and not the word machine")
        if "model" not in body:
            self.fault(path, f"part {id} names no model", 'add a line such as model = "stop.deflection"')
        givens = self.table((*path, "givens"), body.get("givens", {}))
        # what is no key of every part may be a pick, an input or a link of its model; the model knows which
        own = {key: row for key, row in body.items() if key not in PART_KEYS}
        picks = {key: row for key, row in own.items() if isinstance(row, str)}
        return JobPart(
            id,
            self.text((*path, "model"), body.get("model", "")),
            self.text((*path, "title"), body.get("title", "")),
            self.text((*path, "note"), body.get("note", "")),
            self.names(path, body, "beyond", 'such as beyond = ["length"]'),
            picks,
            dict(self.entries((*path, "givens"), givens)),
            {key: row for key, row in own.items() if key not in picks},
            self.names(path, body, "wishes", 'such as wishes = ["least tip_error"]'),
            self.pins(path, body),
            self.built((*path, "built"), body.get("built", {})),
            body.get("place"),
            body.get("body"),
        )

    def built(self, path: Path, found: Any) -> dict[str, GivenEntry]:
        """Results as measured; what else stands there is kept and not read."""
        told = {name: raw for name, raw in self.table(path, found).items() if _is_quantity(raw)}
        return dict(self.entries(path, told))

    def names(self, path: Path, body: Mapping[str, Any], key: str, example: str) -> tuple[str, ...]:
        found = body.get(key, [])
        if isinstance(found, list) and all(isinstance(name, str) for name in found):
            return tuple(found)
        self.fault((*path, key), f"{key} is not a list of texts", f"write it {example}", value=True)
        return ()

    def pins(self, path: Path, body: Mapping[str, Any]) -> dict[str, JobPin]:
        found = self.table((*path, "pins"), body.get("pins", {}))
        return {name: self.pin((*path, "pins", name), pin) for name, pin in found.items()}

    def pin(self, path: Path, found: Any) -> JobPin:
        body = self.table(path, found)
        self.unknown(path, body, PIN_KEYS)
        picks = self.table((*path, "picks"), body.get("picks", {}))
        givens = dict(self.entries((*path, "givens"), self.table((*path, "givens"), body.get("givens", {}))))
        for name in [name for name, entry in givens.items() if entry.link]:
            message = f"{name} of the pin {path[-1]} is a link; a pin keeps what a design was"
            self.fault((*path, "givens", name), message, "write the value")
        return JobPin(
            self.text((*path, "why"), body.get("why", "")),
            self.names(path, body, "beyond", 'such as beyond = ["length"]'),
            {name: self.text((*path, "picks", name), row) for name, row in picks.items()},
            givens,
        )

    def linked(self, name: str, entry: GivenEntry) -> bool:
        if entry.link is not None:
            self.fault((MACHINE, name), f"{name} of the machine is a link", "write what was measured")
        return entry.link is not None

    def entries(self, path: Path, found: Mapping[str, Any]) -> Iterable[tuple[str, GivenEntry]]:
        for name, value in found.items():
            given = self.given((*path, name), value)
            if given is not None:
                yield name, given

    def given(self, path: Path, value: Any) -> GivenEntry | None:
        if not isinstance(value, Mapping):
            text = self.typed(path, value)
            return None if text is None else GivenEntry(text, origin=read_origin({}, example=self.example)[0])
        self.unknown(path, value, GIVEN_KEYS)
        if "from" in value:
            return self.link(path, value)
        origin, faults = read_origin(value, example=self.example)
        for fault in faults:
            self.fault((*path, fault.key), fault.message, fault.remedy, value=True)
        more: dict[str, Any] = {
            "spread": self.text((*path, "spread"), value["spread"]) if "spread" in value else None,
            "k": self.number((*path, "k"), value, "write the coverage factor such as k = 2"),
            "dof": self.number((*path, "dof"), value, "write the degrees of freedom such as dof = 4"),
            "origin": origin,
        }
        if "value" not in value:
            self.fault(path, f"{path[-1]} has neither a value nor a link", 'add value = "…" or from = "part.result"')
            return None
        text = self.typed((*path, "value"), value["value"])
        return None if text is None else GivenEntry(text, **more)

    def number(self, path: Path, given: Mapping[str, Any], remedy: str) -> float | None:
        found = given.get(str(path[-1]))
        if isinstance(found, bool) or not isinstance(found, int | float | None):
            self.fault(path, f"{path[-1]} is not a number", remedy, value=True)
            return None
        return found

    def typed(self, path: Path, value: Any) -> str | None:
        """Return a value as text: a number keeps its digits and takes the field's unit."""
        if isinstance(value, str):
            return value
        if isinstance(value, int | float) and not isinstance(value, bool):
            return repr(value)
        message = f'{path[-1]} is {_kind(value)}, but must be a text such as "600 ± 0.2 mm" or a number'
        self.fault(path, message, "put the quantity in quotes", value=True)
        return None

    def link(self, path: Path, value: Mapping[str, Any]) -> GivenEntry | None:
        whole = self.text((*path, "from"), value["from"])
        part, dot, name = whole.partition(".")
        for key in ("value", "spread", "k", "dof", "origin", "measured", "by"):
            if key in value:
                message = f"{path[-1]} is a link, which brings its own value and uncertainty, and has {key} as well"
                self.fault((*path, key), message, f"take out either {key} or from")
                return None
        if not (part and dot and name):
            if isinstance(value["from"], str):
                message = f"the link {whole!r} does not name a part and a result"
                self.fault((*path, "from"), message, 'write it such as from = "frame.bevel"', value=True)
            return None
        texts = {key: self.text((*path, key), value[key]) for key in ("how", "source", "note") if key in value}
        return GivenEntry(link=(part, name), origin=ValueOrigin("part", **texts))


def in_two(error: KitError, otherwise: str) -> tuple[str, str]:
    """Return an error's sentence as what is wrong and what to do about it."""
    message, _, remedy = str(error).partition("; ")
    return message, remedy or otherwise


def _is_quantity(raw: Any) -> bool:
    """Whether something is written as a quantity is: a text, a number, or a table with its value."""
    if isinstance(raw, Mapping):
        return "value" in raw and "from" not in raw
    return isinstance(raw, str | int | float) and not isinstance(raw, bool)


def _kind(value: Any) -> str:
    if isinstance(value, bool):
        return "true or false"
    if isinstance(value, int | float):
        return f"the number {value}"
    if isinstance(value, str):
        return "a text"
    return "a list" if isinstance(value, list) else "a table" if isinstance(value, Mapping) else "a date"
