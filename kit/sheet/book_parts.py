"""One part of a book: what is built of it, its files, its sheet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from kit.core.files import write_atomic
from kit.core.lists import Lists
from kit.core.model.digest import digest
from kit.drawing.remarks import remarking
from kit.job import Job
from kit.job.build import best_build
from kit.job.part_names import file_name
from kit.job.pins import pins
from kit.job.verdict import PassedOn, Upstream, gathered, judged, passed_on, rests_on, upstream
from kit.sheet.alternatives import alternatives
from kit.sheet.book_record import Written, file_digest, read_record, take_away, write_record
from kit.sheet.write import IndexEntry, part_origin, sheet
from kit.station.lists import part_lists

if TYPE_CHECKING:
    from kit.core.build import Build, Output
    from kit.core.quantity import Display
    from kit.core.verdict import Verdict


LEFT_OUT = "not written, as a limit of this part fails; `fitwright book --failing` writes them, each marked"


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


def make_part(job: Job, order: Order, known: Mapping[str, PassedOn], folder: Path) -> Made:
    """Make one part in `folder`: what is built of it, its files, its sheet; `known` is what other parts hand on.

    Raises:
        KitError: it cannot be computed or built.
    """
    case, build = job.case(order.id), best_build(job, order.id)
    origin = part_origin(job, order.id, date=order.date)
    verdict = judged(job, order.id, _above(job, order, known))
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


def write_part(job: Job, part_id: str, folder: Path, *, failing: bool = False, short: bool = False) -> IndexEntry:
    """Write the sheet of one part and the files of its shape into `folder`; return its place there and its verdict.

    `failing` and `short` are those of a book. What an earlier one wrote of the part is taken away as a book does it.

    Raises:
        KitError: there is no such part, or it cannot be computed or built.
    """
    folder.mkdir(parents=True, exist_ok=True)
    order = Order(part_id, tuple(rests_on(job, part_id)), (), "", failing, short)
    made = make_part(job, order, {}, folder)
    lying = read_record(folder)
    if part_id in lying:
        take_away(folder, [lying[part_id]], keep=made.files)
    files = {name: file_digest(folder / name) for name in made.files}
    unlike_any = ""  # a book that is written here makes the part anew, with its own date
    write_record(folder, lying | {part_id: Written(unlike_any, "", made.entry, made.passed, made.lists, files)})
    return made.entry


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


def _above(job: Job, order: Order, known: Mapping[str, PassedOn]) -> Upstream:
    """Return what is known of the parts that a part rests on; in a circle not all of them are made by now."""
    if all(other in known for other in order.rests_on):
        return gathered(order.rests_on, known)
    return upstream(job, order.id)
