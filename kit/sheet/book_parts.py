"""The parts of a book made one after the other, or shared among processes."""

from __future__ import annotations

import multiprocessing
import signal
from collections.abc import Collection, Generator, Mapping, Sequence
from dataclasses import dataclass
from multiprocessing.connection import Connection, wait
from pathlib import Path
from typing import TYPE_CHECKING

from kit.core.errors import KitError
from kit.core.files import write_atomic
from kit.core.lists import Lists
from kit.core.model.digest import digest
from kit.drawing.remarks import remarking
from kit.job import Job
from kit.job.build import best_build
from kit.job.part_names import file_name
from kit.job.pins import pins
from kit.job.verdict import PassedOn, Upstream, gathered, judged, passed_on, upstream
from kit.sheet.alternatives import alternatives
from kit.sheet.book_record import Written, file_digest, read_record, take_away, write_record
from kit.sheet.write import IndexEntry, part_origin, sheet
from kit.station.lists import part_lists

if TYPE_CHECKING:
    from kit.core.build import Build, Output
    from kit.core.quantity import Display
    from kit.core.verdict import Verdict


LEFT_OUT = "not written, as a limit of this part fails; `fitwright book --failing` writes them, each marked"
WORTH = 4
"""Parts for which it is worth to start a process, which loads for seconds what this one has loaded."""


@dataclass(frozen=True, slots=True)
class Order:
    """A part to be made, the parts that it rests on, those of them that are made first, and the date of its sheet.

    Where parts rest on each other in a circle, what is not made first is judged beside.
    `failing`: its drawings and solids are written even where a limit fails. `short`: its sheet leaves out how the
    numbers come about.
    """

    id: str
    rests_on: tuple[str, ...]
    after: tuple[str, ...]
    date: str
    failing: bool = False
    short: bool = False


@dataclass(frozen=True, slots=True)
class Made:
    """A part's entry in the index, what it hands on and brings, and its files by their paths from the book's folder."""

    entry: IndexEntry
    passed: PassedOn
    lists: Lists
    files: tuple[str, ...]


def parts_made(
    job: Job, orders: Sequence[Order], passed: Mapping[str, PassedOn], folder: Path, processes: int
) -> Generator[tuple[str, Made], None, None]:
    """Write the sheets and files of parts into `folder` and yield each part as it is done.

    `orders` stand after what they rest on; `passed` is what those hand on that need not be made. A job with changes
    that are not saved is worked in this process alone.

    Raises:
        KitError: a part that cannot be computed or built.
    """
    known = dict(passed)
    processes = min(processes, len(orders) // WORTH)
    if processes < 2 or job.changed:
        for order in orders:
            made = _made(job, order, _above(job, order, known), folder)
            known[order.id] = made.passed
            yield order.id, made
        return
    yield from _shared(job, orders, known, folder, processes)


def write_part(job: Job, part_id: str, folder: Path, *, failing: bool = False, short: bool = False) -> IndexEntry:
    """Write the sheet of one part and the files of its shape into `folder`; return its place there and its verdict.

    `failing` and `short` are those of a book. What an earlier one wrote of the part is taken away as a book does it.

    Raises:
        KitError: there is no such part, or it cannot be computed or built.
    """
    folder.mkdir(parents=True, exist_ok=True)
    order = Order(part_id, (), (), "", failing, short)
    made = _made(job, order, upstream(job, part_id), folder)
    lying = read_record(folder)
    if part_id in lying:
        take_away(folder, [lying[part_id]], keep=made.files)
    files = {name: file_digest(folder / name) for name in made.files}
    unlike_any = ""  # a book that is written here makes the part anew, with its own date
    write_record(folder, lying | {part_id: Written(unlike_any, "", made.entry, made.passed, made.lists, files)})
    return made.entry


def _above(job: Job, order: Order, known: Mapping[str, PassedOn]) -> Upstream:
    """Return what is known of the parts that a part rests on; in a circle not all of them are made by now."""
    if all(other in known for other in order.rests_on):
        return gathered(order.rests_on, known)
    return upstream(job, order.id)


def _made(job: Job, order: Order, upstream: Upstream, folder: Path) -> Made:
    """Make one part: what is built of it, its files, its sheet."""
    case, build = job.case(order.id), best_build(job, order.id)
    origin = part_origin(job, order.id, date=order.date)
    verdict = judged(job, order.id, upstream)
    written = _written(build, folder, order, job.display, verdict) if build else {}
    href = file_name(order.id)
    display, short = job.display, order.short
    more = alternatives(case, pins(job, order.id), display, level=job.level)
    page = sheet(
        case, display=display, origin=origin, build=build, verdict=verdict, written=written, more=more, short=short
    )
    write_atomic(folder / href, page)
    inputs = (build and build.inputs) or digest(case)
    title = origin.title or case.model.title
    entry = IndexEntry.of(title, case.model.question, href, verdict, inputs, display)
    files = (href, *(name for names in written.values() for name in names))
    return Made(entry, passed_on(order.id, verdict), part_lists(job, order.id), files)


def write_files(build: Build, folder: Path, stem: str, display: Display, verdict: Verdict) -> dict[str, list[str]]:
    """Write all files of a shape into `folder`/files; return their paths from `folder`, by what they are.

    Each carries in words the limits that fail.

    Raises:
        KitError: something that cannot be drawn or written so.
    """
    return {
        output.what: [
            path.relative_to(folder).as_posix()
            for path in write_output(output, folder / "files", stem, display, verdict)
        ]
        for output in build.outputs
    }


def write_output(output: Output, folder: Path, stem: str, display: Display, verdict: Verdict) -> list[Path]:
    """Write the files of one output into `folder`; return their paths. Marks and raises as `write_files`."""
    with remarking(tuple(f"LIMIT FAILS: {check.words(display)}" for check in verdict.failing)):
        return output.write(folder, stem, display)


def _written(build: Build, folder: Path, order: Order, display: Display, verdict: Verdict) -> dict[str, list[str]]:
    if verdict.ok or order.failing or not build.outputs:
        return write_files(build, folder, order.id, display, verdict)
    return {LEFT_OUT: []}


def _shared(
    job: Job, orders: Sequence[Order], known: dict[str, PassedOn], folder: Path, processes: int
) -> Generator[tuple[str, Made], None, None]:
    """Share the parts among processes; who built what another part takes makes that part as well, if he can."""
    groups = _groups(job, orders)
    waiting = {order.id: order for order in orders}
    context = multiprocessing.get_context("spawn")
    ends: dict[Connection, set[str]] = {}
    workers = []
    idle: list[Connection] = []
    busy: dict[Connection, str] = {}
    try:
        for _ in range(processes):
            here, there = context.Pipe()
            worker = context.Process(target=_serve, args=(there, job.path, folder), daemon=True)
            worker.start()
            there.close()
            workers.append(worker)
            ends[here] = set()
            idle.append(here)
        while waiting or busy:
            for end in list(idle):
                others = [begun for each, begun in ends.items() if each is not end]
                order = _next(waiting, busy.values(), groups, ends[end], others)
                if order is not None:
                    ends[end].add(groups[order.id])
                    end.send((waiting.pop(order.id), {each: known[each] for each in order.rests_on if each in known}))
                    busy[end] = order.id
                    idle.remove(end)
            for ready in wait(list(busy)):
                assert isinstance(ready, Connection)
                id = busy.pop(ready)
                found = _received(ready, id)
                known[id] = found.passed
                idle.append(ready)
                yield id, found
    finally:
        for worker in workers:
            worker.terminate()


def _received(end: Connection, id: str) -> Made:
    try:
        found = end.recv()
    except EOFError:
        raise KitError(f"part {id}: the process that made it ended; is there enough memory?") from None
    if isinstance(found, BaseException):
        raise found
    made: Made = found
    return made


def _next(
    waiting: Mapping[str, Order],
    busy: Collection[str],
    groups: Mapping[str, str],
    own: set[str],
    others: Sequence[set[str]],
) -> Order | None:
    """Return the order that a process should take next: of a group that it began, of a new one, of any."""
    open_ = {*waiting, *busy}
    ready = [order for order in waiting.values() if not open_ & {*order.after}]
    begun = set().union(*others)
    ranked = sorted(ready, key=lambda order: (groups[order.id] not in own, groups[order.id] in begun))
    return next(iter(ranked), None)


def _groups(job: Job, orders: Sequence[Order]) -> dict[str, str]:
    """Return for each part the first part of its group: those that take builds of each other."""
    group = {id: id for id in job.parts}
    for order in orders:
        for other in job.links(order.id).values():
            old, new = group[order.id], group.get(other, group[order.id])
            group = {id: new if each == old else each for id, each in group.items()}
    return group


def _serve(end: Connection, path: Path, folder: Path) -> None:
    """Make what is ordered, until whoever orders is gone."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # whoever orders hears it, and ends this process
    job = Job.open(path)
    while True:
        try:
            order, known = end.recv()
        except EOFError:
            return
        try:
            end.send(_made(job, order, _above(job, order, known), folder))
        except KitError as error:
            end.send(KitError(str(error)))  # others of its family may not go through a pipe
        except OSError as error:
            end.send(error)
