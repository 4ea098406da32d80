"""Every fault of a job file at once, each with its line and what to do."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from kit.core.errors import KitError, near_misses
from kit.core.quantity.origin import value_of
from kit.job import positions as places
from kit.job.errors import JobError
from kit.job.job import Job
from kit.job.order import upstream_first
from kit.job.part_names import name_faults
from kit.job.place import stand
from kit.job.resolver import Resolver
from kit.job.schema import MACHINE, PART_KEYS, GivenEntry, JobPart, Layout, Problem, in_two, read_layout
from kit.job.tasks import work_faults
from kit.job.toml_file import FORMAT, read
from kit.subjects import RENAMED, subject

if TYPE_CHECKING:
    from kit.core.model import Calculation, Given
    from kit.core.quantity import Display
    from kit.core.tables import Fault, Table
    from kit.core.verdict import Verdict

_SEE = "correct this line"


@dataclass(frozen=True, slots=True)
class Finding:
    """One finding in a job file: a fault, or a hint that may be left as it is.

    `line` and `column` count from 1; `where` is the key, such as parts.stop.givens.length.
    """

    line: int
    column: int | None
    severity: Literal["fault", "hint"]
    where: str
    message: str
    remedy: str

    def __str__(self) -> str:
        """Return the finding as it follows the file's name and a colon."""
        place = f"{self.line}:{self.column}" if self.column else f"{self.line}"
        where = f" in {self.where}" if self.where else ""
        return f"{place}: {self.severity}{where}: {self.message}; {self.remedy}"

    def record(self) -> dict[str, str | int | None]:
        """Return the finding as plain data, for other programs; the names stay."""
        return asdict(self)


def check(path: str | Path) -> list[Finding]:
    """Return all that is wrong or odd in the job file at `path`, in the order of its lines.

    >>> from kit import open_job
    >>> job = open_job("boatshed.toml")
    >>> check(job.path)
    []
    """
    try:
        source = read(Path(path))
    except JobError as error:
        return [Finding(error.line or 1, error.column, "fault", "", *in_two(error, _SEE))]
    found = []
    if source.marked:
        message = "the file begins with a byte order mark, which is kept but not needed"
        found.append(Finding(1, 1, "hint", "", message, "save it as UTF-8 without one"))
    if source.written < FORMAT:
        message = f"the file has format {source.written}; lines are given as they are in format {FORMAT}"
        found.append(Finding(1, 1, "hint", "format", message, "saving a change brings it there"))
    layout = read_layout(source.data)
    where = places.scan(source.text)
    for problem in (*layout.problems, *_Checker(layout).problems(), *_work_problems(source.data)):
        place = problem.path
        if problem.value and (*place, "value") in where.spots:
            place = (*place, "value")  # a given with more than its text
        line, column = where.of(place, value=problem.value)
        key = ".".join(map(str, place))
        found.append(Finding(line, column, problem.severity, key, problem.message, problem.remedy))
    return sorted(found, key=lambda finding: (finding.line, finding.column or 0))


def _work_problems(data: Mapping[str, Any]) -> Iterator[Problem]:
    parts = data.get("parts", {})
    for fault in work_faults(data.get("work", {}), parts if isinstance(parts, Mapping) else {}):
        yield Problem(("work", *fault.at), fault.message, fault.remedy, value=True)


@dataclass(frozen=True, slots=True)
class Checked:
    """All that is wrong or odd in a job, verdicts on its parts if none is a fault, and how the job shows them."""

    findings: list[Finding]
    verdicts: dict[str, Verdict]
    display: Display | None

    @property
    def faults(self) -> list[Finding]:
        """The findings for which nothing can be built."""
        return [finding for finding in self.findings if finding.severity == "fault"]


def check_all(path: Path) -> Checked:
    """Return what `check` says of the job file at `path` and, if that is no fault, what building its parts says."""
    from kit.job.verdict import verdicts  # opening a job loads nothing heavy

    findings = check(path)
    if any(finding.severity == "fault" for finding in findings):
        return Checked(findings, {}, None)
    job = Job.open(path)
    sound: dict[str, Verdict] = {}
    for id, judged in verdicts(job).items():
        if isinstance(judged, KitError):
            where = ("parts", id)
            line, column = job.place(where)
            message, remedy = in_two(judged, "correct this input")
            findings.append(Finding(line, column, "fault", ".".join(where), message, remedy))
        else:
            sound[id] = judged
    findings.sort(key=lambda finding: (finding.line, finding.column or 0))
    return Checked(findings, {} if any(f.severity == "fault" for f in findings) else sound, job.display)


class _Checker:
    """What the models and tables say to a job."""

    def __init__(self, layout: Layout) -> None:
        self.layout = layout
        self.bad_rows: set[tuple[str, str]] = set()
        self.faulty: set[str] = set()

    def problems(self) -> Iterator[Problem]:
        tables, found = self.tables()
        yield from found
        self.resolver = Resolver(self.layout, tables)
        for part in self.layout.parts.values():
            for problem in self.part(part):
                if problem.severity == "fault":
                    self.faulty.add(part.id)
                yield problem
        for id, message, remedy in name_faults(self.layout.parts):
            yield Problem(("parts", id), message, remedy)
        told = self.layout
        for fault in stand(told.parts, self.resolver.links, self.resolver.model, told.display, told.machine).faults:
            yield Problem(("parts", fault.part, *fault.at), fault.message, fault.remedy, value=True)
        order, circle = upstream_first(self.layout.parts, self.resolver.linked)
        if circle:
            yield from self.circles()
        unsound = set(self.faulty)
        for id in order:
            unsound |= {id} if unsound & set(self.resolver.linked(id)) else set()
        for part in self.layout.parts.values():
            if part.id not in unsound:
                yield from self.whole(part)

    def tables(self) -> tuple[dict[str, Table], list[Problem]]:
        """Return the job's tables with all rows that are right, and what is wrong with the others."""
        from kit.core.tables import TableError, names, table, with_rows

        found: list[Problem] = []
        made: dict[str, Table] = {}
        for name, rows in self.layout.tables.items():
            if name not in names():
                remedy = near_misses(name, list(names())).removeprefix("; ") or f"there are {', '.join(names())}"
                found.append(Problem(("tables", name), f"there is no table {name!r}", remedy))
                continue
            made[name] = table(name)
            for id, cells in rows.items():
                try:
                    made[name] = with_rows(made[name], [{**cells, "id": id}])
                except TableError as error:
                    self.bad_rows.add((name, id))
                    found += [_row_problem(name, id, cells, fault) for fault in error.faults]
        return made, found

    def part(self, part: JobPart) -> Iterator[Problem]:
        path: places.Path = ("parts", part.id)
        try:
            model = self.resolver.model(part.id)
        except KitError as error:
            self.faulty.add(part.id)
            if part.model:  # else reported by the schema
                yield Problem((*path, "model"), *in_two(error, _SEE), value=True)
            return
        if part.model in RENAMED:
            message = f"{part.model} is now called {RENAMED[part.model]}; the old name is still read"
            yield Problem((*path, "model"), message, f'write model = "{RENAMED[part.model]}"', "hint", value=True)
        yield from self.names(part, model)
        for name in part.givens:
            if name in model.free:
                yield from self.given(part, model.free[name], model)
        for name, raw in {**part.picks, **part.lists}.items():
            if name in model.picks and (model.picks[name].table, str(value_of(raw))) in self.bad_rows:
                self.faulty.add(part.id)  # reported at the row
            elif name in model.picks:
                yield from self.tried(part, name, (*path, name))
        yield from self.pins(part, model)
        for name in part.built:
            if name not in model.results:
                results = list(model.results)
                remedy = near_misses(name, results).removeprefix("; ") or f"it has {', '.join(results)}"
                message = f"{model.name} has no result {name!r}; it is kept, but nothing reads it"
                yield Problem((*path, "built", name), message, remedy, "hint")

    def pins(self, part: JobPart, model: Calculation) -> Iterator[Problem]:
        """Point out pinned designs that cannot be computed any more; the part itself does not rest on them."""
        for name, kept in part.pins.items():
            typed: dict[str, Any] = {each: entry.stated for each, entry in kept.givens.items()} | dict(kept.picks)
            try:
                model.at(beyond=kept.beyond, tables=self.resolver.tables, **typed)
            except KitError as error:
                message, remedy = in_two(error, _SEE)
                yield Problem(("parts", part.id, "pins", name), f"the pin {name!r}: {message}", remedy, "hint")

    def names(self, part: JobPart, model: Calculation) -> Iterator[Problem]:
        path: places.Path = ("parts", part.id)
        for name in part.givens:
            if name not in model.free:
                remedy = near_misses(name, list(model.free)).removeprefix("; ") or f"it has {', '.join(model.free)}"
                yield Problem((*path, "givens", name), f"{model.name} has no given {name!r}", remedy)
        page = subject(part.model)
        for name in (*part.picks, *part.lists):
            if name in model.free and name not in model.inputs:
                message = f"{name} is a given of {model.name}, which is not read here"
                yield Problem((*path, name), message, f"put it under [parts.{part.id}.givens]")
            elif name in part.picks and name not in (*model.picks, *model.inputs, *page.takes):
                known = [*PART_KEYS, *model.picks, *model.inputs, *page.takes]
                remedy = near_misses(name, known).removeprefix("; ") or f"the keys here are {', '.join(known)}"
                message = f"the key {name!r} is not known here; it is kept, but nothing reads it"
                yield Problem((*path, name), message, remedy, "hint")
        yield from self.inputs(part, model)
        for name in part.beyond:
            if name not in model.free:
                remedy = near_misses(name, list(model.free)).removeprefix("; ") or f"it has {', '.join(model.free)}"
                message = f"beyond names {name!r}, but {model.name} has no such given"
                yield Problem((*path, "beyond"), message, remedy, value=True)

    def inputs(self, part: JobPart, model: Calculation) -> Iterator[Problem]:
        """Say what is wrong with inputs and links, each at its own place."""
        for fault in self.resolver.read_inputs(part.id)[1]:
            path: places.Path = ("parts", part.id, *fault.at)
            near = near_misses(str(fault.at[0]), list(PART_KEYS)) if len(fault.at) == 1 else ""
            remedy = near.removeprefix("; ") if near and fault.at[0] not in model.inputs else fault.remedy
            yield Problem(path, fault.message, remedy, value=len(fault.at) > 1)
        takes = subject(part.model).takes
        for name, other in self.resolver.links(part.id).items():
            place: places.Path = ("parts", part.id, name)
            if name not in takes:
                remedy = (
                    near_misses(name, list(takes)).removeprefix("; ") or f"it takes {', '.join(takes) or 'nothing'}"
                )
                yield Problem(place, f"{part.model} takes no {name!r}", remedy)
            elif not isinstance(other, str) or other not in self.layout.parts:
                near = near_misses(str(other), list(self.layout.parts)).removeprefix("; ")
                message = f"{name} is taken from {other!r}, but the job has no such part"
                yield Problem(place, message, near or "name a part of this job", value=True)

    def given(self, part: JobPart, given: Given, model: Calculation) -> Iterator[Problem]:
        path: places.Path = ("parts", part.id, "givens", given.name)
        entry = part.givens[given.name]
        if entry.link is None:
            unsound = list(_spread_problems(entry, path))
            yield from unsound or self.tried(part, given.name, path)
            yield from self.too_unsure(given, entry.text, path)
        elif entry.link[0] != MACHINE:
            if not self.has_model(entry.link[0]):
                self.faulty.add(part.id)  # reported at that part
                return
            try:
                self.resolver.check_link(part.id, given.name)
            except KitError as error:
                yield Problem((*path, "from"), *in_two(error, _SEE), value=True)
        else:
            yield from self.tried(part, given.name, (*path, "from"))

    def has_model(self, id: str) -> bool:
        """Whether a part's model is known; a part that does not exist is left to others to report."""
        try:
            return id not in self.layout.parts or bool(self.resolver.model(id))
        except KitError:
            return False

    def tried(self, part: JobPart, name: str, path: places.Path) -> Iterator[Problem]:
        try:
            self.resolver.try_one(part.id, name)
        except KitError as error:
            yield _refused(part, error, path)

    def too_unsure(self, given: Given, text: str, path: places.Path) -> Iterator[Problem]:
        from kit.core.quantity import parse, show

        if given.kind != "real":
            return
        with suppress(KitError):  # what cannot be read is reported already
            half, (low, high) = parse(text, given.unit).half_base or 0.0, given.span
            if half > high - low:
                message = f"{given.name} is {text}, more uncertain than its whole span of {given.span_text()} is wide"
                remedy = f"give a half-width below {show(high - low, given.unit)}"
                yield Problem(path, message, remedy, "hint", value=True)

    def circles(self) -> Iterator[Problem]:
        """Find each circle of links once, at the first part of it in the file."""
        import networkx as nx

        parts = self.layout.parts
        links = nx.DiGraph([(id, other) for id in parts for other in self.resolver.linked(id)])
        rounds = [round_ for round_ in nx.strongly_connected_components(links) if links.subgraph(round_).edges]
        self.faulty |= set().union(*rounds)
        place = {id: number for number, id in enumerate(parts)}
        for round_ in sorted((sorted(each, key=place.__getitem__) for each in rounds), key=lambda ids: place[ids[0]]):
            first = parts[round_[0]]
            name = next(n for n, entry in first.givens.items() if entry.link and entry.link[0] in round_)
            message = f"the links of {', '.join(round_)} run in a circle"
            path = ("parts", first.id, "givens", name, "from")
            yield Problem(path, message, "state one of these givens as a quantity", value=True)

    def whole(self, part: JobPart) -> Iterator[Problem]:
        """Work a part whose givens are right one by one."""
        from kit.core.model import SpanError

        try:
            case = self.resolver.case(part.id)
        except JobError as error:
            self.faulty.add(part.id)
            cause = error.__cause__ if isinstance(error.__cause__, KitError) else error
            name = cause.given if isinstance(cause, SpanError) else None
            path = ("parts", part.id, "givens", name) if name else ("parts", part.id)
            yield _refused(part, cause, path)
            return
        for name in part.beyond:
            with suppress(SpanError):
                case.with_(beyond=case.beyond - {name})
                message = f"beyond names {name}, which is inside its span"
                yield Problem(("parts", part.id, "beyond"), message, "take it out", "hint", value=True)


def _refused(part: JobPart, error: KitError, path: places.Path) -> Problem:
    """Return what a model says to a given; outside the span, the way out is given as the job file has it."""
    from kit.core.model import SpanError

    message, remedy = in_two(error, _SEE)
    if isinstance(error, SpanError):
        allowed = remedy.partition("; ")[0]
        names = ", ".join(f'"{name}"' for name in dict.fromkeys([*part.beyond, error.given]))
        remedy = f"{allowed}; to go outside knowingly, write beyond = [{names}] under [parts.{part.id}]"
    return Problem(path, message, remedy, value=True)


def _spread_problems(entry: GivenEntry, path: places.Path) -> Iterator[Problem]:
    """Say what is wrong with how a given spreads, at the key that says so."""
    from kit.core.model import Spread

    for key, stated in (
        ("spread", {"shape": entry.spread}),
        ("k", {"k": entry.k}),
        ("dof", {"dof": entry.dof}),
    ):
        try:
            Spread(0.0, **{name: value for name, value in stated.items() if value is not None})  # type: ignore[arg-type]
        except KitError as error:
            yield Problem((*path, key), *in_two(error, "change it or take it out"), value=True)


def _row_problem(table: str, id: str, cells: Mapping[str, Any], fault: Fault) -> Problem:
    """Return what is wrong with a row of the job, at the column that the fault names."""
    path: places.Path = ("tables", table, id)
    unknown = next((name for name in cells if fault.found == f"column {name!r}"), None)
    column = fault.where.rpartition("column ")[2]
    if unknown is not None:
        return Problem((*path, unknown), f"{table} has no {fault.found}", fault.allowed.rpartition("; ")[2])
    if column in cells:
        return Problem((*path, column), f"{column} of {id} is {fault.found}", fault.allowed, value=True)
    return Problem(path, f"{column} of the row {id!r} is {fault.found}", fault.allowed)
