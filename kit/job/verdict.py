"""The one verdict on a part: what formulas, what is built, and the parts it rests on say of it.

Panel, lesson, list of parts, sheet, book and `check` read it from here, so they cannot disagree.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

from kit.core.errors import KitError
from kit.core.quantity import ValueOrigin
from kit.core.verdict import LEVEL, State, Verdict
from kit.job.build import best_build, build
from kit.job.order import upstream_first
from kit.subjects import subject

if TYPE_CHECKING:
    from kit.core.build import Build, Progress
    from kit.core.model import Case
    from kit.job.job import Job


@dataclass(frozen=True)
class Upstream:
    """What is known of the parts that a part rests on: their states, and the nearest that have examples of values."""

    states: Mapping[str, State] = field(default_factory=dict)
    lent: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PassedOn:
    """A part's state, and the parts with examples of values that it lends: itself, or those that it rests on."""

    state: State
    lends: tuple[str, ...]


NOT_BUILT = "its geometry was not built"


def standalone_verdict(
    case: Case,
    build: Build | None = None,
    *,
    upstream: Upstream | None = None,
    level: float = LEVEL,
    cells: Iterable[ValueOrigin] = (),
) -> Verdict:
    """Return the verdict on a case and what was built of it; a subject's build that is not there is said to be open.

    `cells` are the origins of what is stated beside the givens.
    """
    origins, above = (*case.origins.values(), *cells), upstream or Upstream()
    if build is None:
        left_open = (NOT_BUILT,) if subject(case.model.name).build else ()
        return Verdict(case.checks, case.cautions, left_open, above.states, level, origins, above.lent)
    checks, cautions = (*case.checks, *build.checks), (*case.cautions, *build.cautions)
    return Verdict(checks, cautions, build.open, above.states, level, origins, above.lent)


def unsettled(build: Build, level: float) -> bool:
    """Whether what is built with more effort may change the verdict: where all holds at once, it holds all the more."""
    return bool(build.open) or any(check.outcome(level) != "holds" for check in build.checks)


def verdict(job: Job, part_id: str, progress: Progress | None = None) -> Verdict:
    """Return the verdict on a part of a job, with the states of the parts that it is linked to or takes.

    `progress` may stop what is built for it; the verdict is then that on what was built so far.

    Raises:
        KitError: the part cannot be computed or built.
    """
    return judged(job, part_id, upstream(job, part_id, progress=progress), progress)


def verdicts(job: Job) -> dict[str, Verdict | KitError]:
    """Return the verdict on each part, in the order of the file; what says why where one cannot be computed or built.

    Each part is computed and built once, after those that it rests on.
    """
    found, _ = _all_judged(job, job.parts)
    return {part_id: found[part_id] for part_id in job.parts}


def upstream(
    job: Job, part_id: str, links: Mapping[str, Any] | None = None, *, progress: Progress | None = None
) -> Upstream:
    """Return what is known of the parts that a part rests on; one that cannot be computed is not fully checked.

    `links` stand for the parts that the job says it takes.
    """
    others = list(rests_on(job, part_id, links))
    return gathered(others, _all_judged(job, others, progress)[1])


def rests_on(job: Job, part_id: str, links: Mapping[str, Any] | None = None) -> Iterator[str]:
    """Yield the parts that a part is linked to or takes, each once, in the order in which it names them."""
    part, taken = job.parts[part_id], job.links(part_id) if links is None else links
    linked = [entry.link[0] for entry in part.givens.values() if entry.link]
    named = [*linked, *(name for name in taken.values() if isinstance(name, str))]
    yield from dict.fromkeys(name for name in named if name in job.parts and name != part_id)


def _all_judged(
    job: Job, start: Iterable[str], progress: Progress | None = None
) -> tuple[dict[str, Verdict | KitError], dict[str, PassedOn]]:
    """Return what is known of each part in `start` and of all that these rest on, and what each hands on."""
    links: dict[str, list[str]] = {}

    def above(id: str) -> list[str]:
        if id not in links:
            links[id] = list(rests_on(job, id))
        return links[id]

    own: dict[str, Verdict | KitError] = {}
    for id in upstream_first(start, above)[0]:
        try:
            own[id] = judged(job, id, Upstream(), progress)
        except KitError as error:
            own[id] = error
    passed = {id: _passed(id, own, above) for id, each in own.items() if isinstance(each, Verdict)}
    found: dict[str, Verdict | KitError] = {}
    for id, each in own.items():
        known = gathered(above(id), passed)
        found[id] = replace(each, upstream=known.states, lent=known.lent) if isinstance(each, Verdict) else each
    return found, passed


def _passed(id: str, own: Mapping[str, Verdict | KitError], above: Callable[[str], Iterable[str]]) -> PassedOn:
    """Return what a part hands on, by its own verdict and those of all that it rests on, in circles or not.

    It meets its limits if all of them do. It lends its examples, or else those of the nearest that have some.
    """
    reached = [own[each] for each in upstream_first([id], above)[0]]
    sound = all(isinstance(each, Verdict) and each.state == "meets" for each in reached)
    mine = own[id]
    fails = isinstance(mine, Verdict) and mine.state == "fails"
    lends, seen, ahead = dict[str, None](), {id}, [id]
    while ahead:
        part = ahead.pop(0)
        each = own[part]
        if isinstance(each, Verdict) and each.examples:
            lends[part] = None
            continue
        ahead += [other for other in above(part) if other not in seen]
        seen |= {*above(part)}
    return PassedOn("fails" if fails else "meets" if sound else "not fully checked", tuple(lends))


def passed_on(part_id: str, verdict: Verdict) -> PassedOn:
    """Return what the verdict on a part hands on to those that rest on it."""
    return PassedOn(verdict.state, (part_id,) if verdict.examples else tuple(verdict.lent))


def gathered(others: Iterable[str], found: Mapping[str, PassedOn]) -> Upstream:
    """Return what is known of parts; one of which nothing is found, as it cannot be built, is not fully checked."""
    passed = {other: found.get(other, PassedOn("not fully checked", ())) for other in others}
    lent = dict.fromkeys(name for each in passed.values() for name in each.lends)
    return Upstream({other: each.state for other, each in passed.items()}, tuple(lent))


def judged(job: Job, part_id: str, upstream: Upstream, progress: Progress | None = None) -> Verdict:
    """Return the verdict on a part, of which the best is built, where it is known what it rests on.

    Raises:
        KitError: the part cannot be computed or built.
    """
    case, cells = job.case(part_id), job.cell_origins(part_id).values()
    built = build(job, part_id)
    if built is not None and unsettled(built, job.level):
        built = best_build(job, part_id, progress)
    return standalone_verdict(case, built, upstream=upstream, level=job.level, cells=cells)
