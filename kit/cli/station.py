"""What the command does with whole jobs."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from kit.cli.plain import print_json
from kit.core.errors import KitError
from kit.core.quantity import show
from kit.core.summary import some
from kit.job import Job

if TYPE_CHECKING:
    import argparse

    from kit.station.compare import Change, Comparison


MOST_PROCESSES = 4  # that make a book: each takes some hundred megabytes
LONGEST = 44  # letters of a part's title in a table


def compare(options: argparse.Namespace) -> int:
    """Print what differs between two jobs; return 0.

    Raises:
        KitError: one of them cannot be read as a job.
    """
    from kit.station import record
    from kit.station.compare import compare_jobs

    found = compare_jobs(Job.open(options.first), Job.open(options.second))
    if options.json:
        print_json(record.compared(found))
    else:
        print(*compared(found), sep="\n")
    return 0


def compared(found: Comparison) -> Iterator[str]:
    """Yield the lines that tell a comparison."""
    yield f"{found.first}  →  {found.second}"
    for part in found.parts:
        yield ""
        yield f"{part.title}  ({part.id})"
        for change in part.changes:
            yield f"  {_told(change)}"
        if part.fault:
            yield f"  not compared further: {part.fault}"
    yield ""
    yield from map(_told, found.whole)
    for name, only in ((found.first, found.only_first), (found.second, found.only_second)):
        if only:
            yield from (f"only in {name}:", *(f"  {title}" for title in only))
    alike = f"{found.same} part{' is' if found.same == 1 else 's are'} the same in both"
    yield alike if found.parts or found.only_first or found.only_second else f"nothing differs; {alike}"


def lists(options: argparse.Namespace) -> int:
    """Print the weights, the shopping list and the cut list of a job; return 0.

    Raises:
        KitError: it cannot be read as a job.
    """
    from kit.station import record
    from kit.station.list_tables import list_tables
    from kit.station.lists import station_lists

    job = Job.open(options.job)
    found = station_lists(job)
    if options.json:
        print_json(record.listed(found))
        return 0
    for table in list_tables(found):
        rows = [
            ((", ".join(job.parts[id].title or id for id in ids) or "Together"), *cells) for cells, ids in table.rows
        ]
        print(table.title, *_columns([("Part", *table.heads), *rows]), table.below, "", sep="\n")
    print(*(f"not known: {each}" for each in found.open), sep="\n", end="\n" if found.open else "")
    return 0


def _columns(rows: list[tuple[str, ...]]) -> Iterator[str]:
    """Yield rows with their cells below each other; a long first cell is cut."""
    short = [(row[0] if len(row[0]) <= LONGEST else f"{row[0][: LONGEST - 1]}…", *row[1:]) for row in rows]
    wide = [max(map(len, column)) for column in zip(*short, strict=True)]
    yield from ("  " + "  ".join(f"{cell:<{w}}" for cell, w in zip(row, wide, strict=True)).rstrip() for row in short)


def _told(change: Change) -> str:
    by = f"  ({change.by})" if change.by else ""
    return f"{change.kind:<8} {change.name}: {change.first} → {change.second}{by}"


def order(options: argparse.Namespace) -> int:
    """Print the order of work of a job; return 0, or 2 where something of its tasks cannot be followed.

    Raises:
        KitError: it cannot be read as a job.
    """
    from kit.job.tasks import work_of
    from kit.sheet.order_page import NO_TASKS, finish, when
    from kit.station import record
    from kit.station.order import work_order

    found = work_order(work_of(Job.open(options.job).path))
    code = 2 if found.faults else 0
    if options.json:
        print_json(record.ordered(found))
        return code
    _complain(found.faults)
    if not found.steps:
        print(NO_TASKS)
        return code
    heads = ("Task", "When", "Look before you go on")
    rows = [(f"{number} {step.task.name}", when(step), step.task.check) for number, step in enumerate(found.steps, 1)]
    print(finish(found), *_columns([heads, *rows]), sep="\n")
    return code


def built(options: argparse.Namespace) -> int:
    """Print what was measured beside what is predicted; return 0, or 1 where they do not agree.

    Raises:
        KitError: it cannot be read as a job.
    """
    from kit.station import record
    from kit.station.as_built import HEADS, as_built, rows

    job = Job.open(options.job)
    found = as_built(job)
    code = 0 if all(each.beside.agree for each in found.found) and not found.faults else 1
    if options.json:
        print_json(record.measured(found))
        return code
    lines = [(job.parts[part].title or part, *cells) for part, cells in rows(found)]
    if lines:
        print(*_columns([("Part", *HEADS), *lines]), sep="\n")
    print(*found.faults, sep="\n", end="\n" if found.faults else "")
    if not lines and not found.faults:
        print("nothing of this job is stated as built: write it under [parts.NAME.built] in its file")
    return code


def shop(options: argparse.Namespace) -> int:
    """Print a shop's record, after adding an entry to it if wanted; return 0.

    Raises:
        KitError: the record, the entry or what it comes from cannot be read.
    """
    from kit.core.quantity import parse, unit
    from kit.station import record
    from kit.station.as_built import measured
    from kit.station.shop import add_entry, read_shop, shop_file

    path = options.record or shop_file(Path.cwd())
    if options.add and options.source:
        job, (part, _, name) = Job.open(Path(options.source[0])), options.source[1].partition(".")
        seen = measured(job, part, name)
        entry = {"date": seen.origin.measured, "job": job.name, "what": options.source[1], "note": options.note}
        add_entry(path, options.add, seen.beside.off, seen.result.unit, entry)
    elif options.add and options.off:
        typed = parse(options.off, None)
        add_entry(path, options.add, typed.value * typed.unit.factor, unit(typed.unit.text), {"note": options.note})
    elif options.add or options.source or options.off:
        raise KitError("an entry needs --add NAME, and --from JOB PART.RESULT or --off '0.1 deg'")
    found = read_shop(path)
    if options.json:
        print_json(record.kept(found))
        return 0
    for spread in found.spreads.values():
        print(f"{spread.name}: {spread.words()}")
        for each in spread.entries:
            off = show(each.off, spread.unit)
            print("  " + "  ".join(filter(None, (each.date, off, each.job, each.what, each.note))))
    if not found.spreads:
        print(f"{path} has no entries yet; add one with --add NAME --from JOB PART.RESULT")
    return 0


def book(options: argparse.Namespace) -> int:
    """Write the station book of a job; return 0, 1 where a limit fails, or 2 where some of its tasks are faulty.

    Raises:
        KitError: a part cannot be computed or built, the folder holds what is no book, or one file would be too large.
    """
    from kit.core.files import write_atomic
    from kit.job.tasks import work_of
    from kit.sheet.book import in_the_way, write_book
    from kit.sheet.single import single_file

    job = Job.open(options.job)
    names = in_the_way(job, options.out)
    if names and not options.over:
        _ask(f"{options.out} holds {some(names)}, which no book has written", "write over them")
    live = sys.stderr.isatty()

    def progress(done: int, total: int, what: str) -> None:
        begin, end = ("\r\x1b[K", "" if done < total else "\n") if live else ("", "\n")
        print(f"{begin}{done}/{total} {what}", end=end, file=sys.stderr, flush=True)

    processes = min(os.cpu_count() or 1, MOST_PROCESSES)
    pages = write_book(job, options.out, progress, failing=options.failing, full=options.full, processes=processes)
    if options.single:
        write_atomic(options.single, single_file(options.out))
    failing = [page for page in pages if page.state == "fails"]
    print(f"{options.out / 'index.html'}: {len(pages)} sheets, {len(failing)} with a limit that fails")
    for page in failing:
        print(f"  {page.title}: {page.words}")
    if failing and not options.failing:
        print("  their drawings and solids are left out; --failing writes them, each with the limit that fails")
    faults = work_of(job.path).faults
    _complain(faults)
    return 2 if faults else 1 if failing else 0


def _complain(faults: Sequence[str]) -> None:
    """Print what of the tasks cannot be followed, beside the answer."""
    for fault in faults:
        print(fault, file=sys.stderr)


def _ask(what: str, to_do: str) -> None:
    """Ask whether to go on where somebody sits there to answer.

    Raises:
        KitError: nobody does, or the answer is no.
    """
    if not sys.stdin.isatty():
        raise KitError(f"{what}; name another folder, or say --over to {to_do}")
    if input(f"{what}. {to_do.capitalize()}? [y/N] ").strip().lower() not in ("y", "yes"):
        raise KitError("nothing was written")


COMMANDS = {"compare": compare, "lists": lists, "order": order, "built": built, "shop": shop, "book": book}
