"""What the command prints of whole jobs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from kit.job import Job

if TYPE_CHECKING:
    import argparse

    from kit.station.compare import Change, Comparison


def compare(options: argparse.Namespace) -> int:
    """Print what differs between two jobs; return 0.

    Raises:
        KitError: one of them cannot be read as a job.
    """
    from kit.station.compare import compare_jobs

    print(*compared(compare_jobs(Job.open(options.first), Job.open(options.second))), sep="\n")
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
    for name, only in ((found.first, found.only_first), (found.second, found.only_second)):
        if only:
            yield from (f"only in {name}:", *(f"  {title}" for title in only))
    alike = f"{found.same} part{' is' if found.same == 1 else 's are'} the same in both"
    yield alike if found.parts or found.only_first or found.only_second else f"nothing differs; {alike}"


def _told(change: Change) -> str:
    by = f"  ({change.by})" if change.by else ""
    return f"{change.kind:<8} {change.name}: {change.first} → {change.second}{by}"
