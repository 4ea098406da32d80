"""A part in a few words: its verdict, what it takes from which other part, when it was measured."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from kit.core.errors import KitError
from kit.job.arrange import links_of
from kit.job.schema import MACHINE
from kit.job.verdict import verdict

if TYPE_CHECKING:
    from kit.core.build import Progress
    from kit.core.verdict import Verdict
    from kit.job.job import Job


@dataclass(frozen=True)
class Overview:
    """What a list of parts says of one: its verdict or the fault that hinders it, and what goes into it.

    `takes` says what comes from which other part; `measured` is the newest date of a measured value, empty without any.
    """

    verdict: Verdict | None
    fault: str
    takes: tuple[str, ...]
    measured: str


def overview(job: Job, part_id: str, progress: Progress | None = None) -> Overview:
    """Return what is to be said of a part; one that cannot be computed or built has a fault in place of its verdict.

    `progress` may stop what is built for the verdict.
    """
    judged, fault = None, ""
    try:
        judged = verdict(job, part_id, progress)
    except KitError as error:
        fault = str(error)
    return Overview(
        judged,
        fault,
        taken(job, part_id),
        max((entry.origin.measured for entry in job.parts[part_id].givens.values()), default=""),
    )


def taken(job: Job, part_id: str) -> tuple[str, ...]:
    """Return what a part takes, by the part that it comes from."""
    found: dict[str, list[str]] = {}
    for link in links_of(job, part_id):
        found.setdefault(link.takes.partition(".")[0], []).append(job.model(part_id).called(link.name))
    titles = {MACHINE: "the machine", **{id: part.title or id for id, part in job.parts.items()}}
    return tuple(f"{', '.join(names)} from {titles.get(other, other)}" for other, names in found.items())
