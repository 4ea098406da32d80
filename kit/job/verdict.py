"""The one verdict on a part: what formulas, what is built, and the parts it rests on say of it.

Panel, lesson, list of parts, sheet, book and `check` read it from here, so they cannot disagree.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Any

from kit.core.errors import KitError
from kit.core.verdict import LEVEL, State, Verdict
from kit.job.build import build
from kit.job.order import upstream_first
from kit.subjects import subject

if TYPE_CHECKING:
    from kit.core.build import Build
    from kit.core.model import Case
    from kit.job.job import Job

NOT_BUILT = "its geometry was not built"


def standalone_verdict(
    case: Case,
    build: Build | None = None,
    *,
    upstream: Mapping[str, State] | None = None,
    level: float = LEVEL,
) -> Verdict:
    """Return the verdict on a case and what was built of it; a subject's build that is not there is said to be open."""
    if build is None:
        left_open = (NOT_BUILT,) if subject(case.model.name).build else ()
        return Verdict(case.checks, case.cautions, left_open, upstream or {}, level)
    return Verdict((*case.checks, *build.checks), (*case.cautions, *build.cautions), build.open, upstream or {}, level)


def verdict(job: Job, part_id: str) -> Verdict:
    """Return the verdict on a part of a job, with the states of the parts that it is linked to or takes.

    Raises:
        KitError: the part cannot be computed or built.
    """
    return _judged(job, part_id, upstream(job, part_id))


def verdicts(job: Job) -> dict[str, Verdict | KitError]:
    """Return the verdict on each part, in the order of the file; what says why where one cannot be computed or built.

    Each part is computed and built once, after those that it rests on.
    """
    found = _all_judged(job, job.parts)
    return {part_id: found[part_id] for part_id in job.parts}


def upstream(job: Job, part_id: str, links: Mapping[str, Any] | None = None) -> dict[str, State]:
    """Return the states of the parts that a part rests on; one that cannot be computed or built is not fully checked.

    `links` stand for the parts that the job says it takes.
    """
    others = list(rests_on(job, part_id, links))
    return _states(others, _all_judged(job, others))


def rests_on(job: Job, part_id: str, links: Mapping[str, Any] | None = None) -> Iterator[str]:
    """Yield the parts that a part is linked to or takes, each once, in the order in which it names them."""
    part, taken = job.parts[part_id], job.links(part_id) if links is None else links
    linked = [entry.link[0] for entry in part.givens.values() if entry.link]
    named = [*linked, *(name for name in taken.values() if isinstance(name, str))]
    yield from dict.fromkeys(name for name in named if name in job.parts and name != part_id)


def _all_judged(job: Job, start: Iterable[str]) -> dict[str, Verdict | KitError]:
    """Return what is known of each part in `start` and of all that these rest on."""
    found: dict[str, Verdict | KitError] = {}
    for part_id in upstream_first(start, lambda id: rests_on(job, id))[0]:
        try:
            found[part_id] = _judged(job, part_id, _states(rests_on(job, part_id), found))
        except KitError as error:
            found[part_id] = error
    return found


def _states(others: Iterable[str], found: Mapping[str, Verdict | KitError]) -> dict[str, State]:
    """Return the states of parts; one without a verdict, or not yet looked at as it closes a circle, is open."""
    judged = {other: found.get(other) for other in others}
    return {id: each.state if isinstance(each, Verdict) else "not fully checked" for id, each in judged.items()}


def _judged(job: Job, part_id: str, upstream: Mapping[str, State]) -> Verdict:
    return standalone_verdict(job.case(part_id), build(job, part_id), upstream=upstream, level=job.level)
