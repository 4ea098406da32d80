"""The one verdict on a part: what formulas, what is built, and the parts it rests on say of it.

Panel, lesson, list of parts, sheet, book and `check` read it from here, so they cannot disagree.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Any

from kit.core.errors import KitError
from kit.core.quantity import ValueOrigin
from kit.core.verdict import LEVEL, Verdict
from kit.job.build import build
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
    upstream: Mapping[str, Verdict] | None = None,
    level: float = LEVEL,
    cells: Iterable[ValueOrigin] = (),
) -> Verdict:
    """Return the verdict on a case and what was built of it; a subject's build that is not there is said to be open.

    `cells` are the origins of what is stated beside the givens.
    """
    origins, above = (*case.origins.values(), *cells), upstream or {}
    if build is None:
        left_open = (NOT_BUILT,) if subject(case.model.name).build else ()
        return Verdict(case.checks, case.cautions, left_open, above, level, origins)
    checks, cautions = (*case.checks, *build.checks), (*case.cautions, *build.cautions)
    return Verdict(checks, cautions, build.open, above, level, origins)


def verdict(job: Job, part_id: str) -> Verdict:
    """Return the verdict on a part of a job, with those of the parts that it is linked to or takes.

    Raises:
        KitError: the part cannot be computed or built.
    """
    case = job.case(part_id)
    cells = job.cell_origins(part_id).values()
    return standalone_verdict(case, build(job, part_id), upstream=upstream(job, part_id), level=job.level, cells=cells)


def upstream(job: Job, part_id: str, links: Mapping[str, Any] | None = None) -> dict[str, Verdict]:
    """Return the verdicts of the parts that a part rests on; one that cannot be computed or built is left open.

    `links` stand for the parts that the job says it takes.
    """
    return _upstream(job, part_id, {}, links)


def rests_on(job: Job, part_id: str, links: Mapping[str, Any] | None = None) -> Iterator[str]:
    """Yield the parts that a part is linked to or takes, each once, in the order in which it names them."""
    part, taken = job.parts[part_id], job.links(part_id) if links is None else links
    linked = [entry.link[0] for entry in part.givens.values() if entry.link]
    named = [*linked, *(name for name in taken.values() if isinstance(name, str))]
    yield from dict.fromkeys(name for name in named if name in job.parts and name != part_id)


def _upstream(
    job: Job, part_id: str, known: dict[str, Verdict], links: Mapping[str, Any] | None = None
) -> dict[str, Verdict]:
    for other in rests_on(job, part_id, links):
        if other in known:
            continue
        known[other] = Verdict(level=job.level)  # what closes a circle finds this
        try:
            case, built = job.case(other), build(job, other)
        except KitError as error:
            known[other] = Verdict(open=(str(error),), level=job.level)
        else:
            above, cells = _upstream(job, other, known), job.cell_origins(other).values()
            known[other] = standalone_verdict(case, built, upstream=above, level=job.level, cells=cells)
    return {other: known[other] for other in rests_on(job, part_id, links)}
