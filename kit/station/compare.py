"""Two jobs set against each other, part by part: what is given, what comes out of it, what is known of it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

from kit.core.errors import KitError
from kit.core.files import MOST_BYTES, content_digest
from kit.core.model import in_words
from kit.core.quantity import show, unit
from kit.core.quantity.origin import value_of
from kit.job.build import PRINTER, read_files
from kit.job.order import upstream_first
from kit.job.pins import alike, differing
from kit.job.toml_edit import render
from kit.job.verdict import rests_on
from kit.station.list_tables import known_to, told_mass
from kit.station.lists import station_lists

if TYPE_CHECKING:
    from kit.core.build import Number
    from kit.core.model import Case
    from kit.core.quantity import Display, Unit
    from kit.core.verdict import Verdict
    from kit.job.job import Job

Kind = Literal["model", "given", "list", "result", "shape", "limit", "verdict", "place", "whole"]
MOST = 12
"""Entries of a list that are told one by one; of more only their number."""


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that is not the same in both jobs; `by` is the second less the first, where that is a quantity."""

    kind: Kind
    name: str
    first: str
    second: str
    by: str = ""


@dataclass(frozen=True, slots=True)
class PartChanges:
    """What differs in a part that both jobs have; `fault` says why one of them cannot be computed or built."""

    id: str
    title: str
    changes: tuple[Change, ...]
    fault: str = ""


@dataclass(frozen=True, slots=True)
class Comparison:
    """What differs between two jobs, by part; the titles of those that one of them lacks; how many are the same.

    `whole` is what differs in the mass and the cost of all that is listed.
    """

    first: str
    second: str
    parts: tuple[PartChanges, ...]
    only_first: tuple[str, ...]
    only_second: tuple[str, ...]
    same: int
    whole: tuple[Change, ...] = ()

    def __repr__(self) -> str:
        return f"<{self.second} beside {self.first}: {len(self.parts)} parts differ, {self.same} are the same>"


def compare_jobs(first: Job, second: Job) -> Comparison:
    """Return what differs between two jobs; parts are the same ones by their ids, numbers are shown as the first does.

    What neither differs nor rests on what differs is not built.
    """
    both = [id for id in first.parts if id in second.parts]
    own = {id: list(_stated(first, second, id)) for id in both}
    all_anew = first.level != second.level or _bars(first) != _bars(second)
    lacking = {*first.parts, *second.parts} - {*both}
    found = []
    for id in both:
        above = {*upstream_first([id], lambda part: _above(first, second, part))[0]}
        if not own[id] and not all_anew and not above & lacking and not any(own.get(other) for other in above):
            continue
        changes, fault = own[id], ""
        try:
            changes = [*changes, *(each for each in _comes_out(first, second, id) if each.first != each.second)]
        except KitError as error:
            fault = str(error)
        if changes or fault:
            found.append(PartChanges(id, _title(first, id), tuple(changes), fault))
    return Comparison(
        first.name,
        second.name,
        tuple(found),
        tuple(_title(first, id) for id in first.parts if id not in second.parts),
        tuple(_title(second, id) for id in second.parts if id not in first.parts),
        len(both) - len(found),
        tuple(each for each in _whole(first, second) if each.first != each.second) if found or lacking else (),
    )


def _whole(first: Job, second: Job) -> Iterator[Change]:
    """Yield mass and cost of the two jobs where they differ; what cannot be built is in neither."""
    one, other = station_lists(first), station_lists(second)
    mine, theirs = (told_mass(each.mass, first.display) for each in (one, other))
    step = known_to(max(one.mass, other.mass))
    before, after = (round(each.mass / step) * step for each in (one, other))
    by = _by(before, after, unit("kg" if step > 1e-6 else "g"), first.display, step)
    yield Change("whole", "mass of all that is listed", mine, theirs, by)
    if not math.isclose(one.cost, other.cost, rel_tol=1e-9):
        costs = f"{one.cost:.2f}", f"{other.cost:.2f}"
        yield Change("whole", "cost of all that has a price", *costs, f"{other.cost - one.cost:+.2f}")


def _title(job: Job, id: str) -> str:
    return job.parts[id].title or id


def _bars(job: Job) -> list[str | None]:
    """Return how the job's printer prints, which every build may look at."""
    return [job.machine[name].text if name in job.machine else None for name in PRINTER.values()]


def _above(first: Job, second: Job, id: str) -> list[str]:
    return [other for job in (first, second) if id in job.parts for other in rests_on(job, id)]


def _stated(first: Job, second: Job, id: str) -> Iterator[Change]:
    """Yield what a part is given otherwise; where it cannot be computed, that is told in place of its values."""
    models = first.parts[id].model, second.parts[id].model
    if models[0] != models[1]:
        yield Change("model", "model", *models)
        return
    one, other = _case(first, id), _case(second, id)
    if isinstance(one, str) or isinstance(other, str):
        words = [each if isinstance(each, str) else "can be computed" for each in (one, other)]
        if words[0] != words[1]:
            yield Change("given", "values", *words)
    else:
        for name in differing({"first": one, "second": other}):
            yield _given(one, other, name, first.display)
    yield from _lists(first, second, id)
    for name in ("place", "body"):
        texts = [
            "–" if raw is None else render(raw) for raw in (getattr(job.parts[id], name) for job in (first, second))
        ]
        if texts[0] != texts[1]:
            yield Change("place", {"place": "where it stands", "body": "its body"}[name], *texts)


def _case(job: Job, id: str) -> Case | str:
    try:
        return job.case(id)
    except KitError as error:
        return str(error)


def _given(one: Case, other: Case, name: str, display: Display) -> Change:
    if name in one.picks:
        return Change("given", one.model.called(name), one.picks[name], other.picks[name])
    given = one.model.part(name)
    by = "" if getattr(given, "options", ()) else _by(one.base[name], other.base[name], given.unit, display)
    return Change("given", one.model.called(name), one.show(name, display), other.show(name, display), by)


def _by(first: float, second: float, of: Unit, display: Display, resolution: float | None = None) -> str:
    """Return a difference with its sign; nothing where both are alike or one is no number."""
    change = second - first
    if not math.isfinite(change) or math.isclose(first, second, rel_tol=1e-9, abs_tol=1e-12):
        return ""
    return f"{'+' if change > 0 else ''}{show(change, of, display, resolution=resolution)}"


def _lists(first: Job, second: Job, id: str) -> Iterator[Change]:
    """Yield what is stated otherwise beside the givens, entry by entry; a file is another one if its content is."""
    one, other = ({**job.raw_inputs(id), **job.links(id)} for job in (first, second))
    for name in dict.fromkeys((*one, *other)):
        mine, theirs = (dict(_leaves(raw.get(name), "")) for raw in (one, other))
        places = [each for each in dict.fromkeys((*mine, *theirs)) if mine.get(each) != theirs.get(each)]
        if len(places) > MOST:
            count = f"{len(mine)} entries", f"{len(theirs)} entries, {len(places)} not as there"
            yield Change("list", in_words(name), *count)
            continue
        for each in places:
            yield Change("list", f"{in_words(name)}{each}", mine.get(each, "–"), theirs.get(each, "–"))
    contents = [
        {path.name: content_digest(path, MOST_BYTES) for path in read_files(job.raw_inputs(id), job.path.parent)}
        for job in (first, second)
    ]
    for name in contents[0].keys() & contents[1].keys():
        if contents[0][name] != contents[1][name]:
            yield Change("list", f"content of {name}", "one file", "another of that name")


def _leaves(raw: Any, at: str) -> Iterator[tuple[str, str]]:
    """Yield each value within stated data by its place; of a value with its origin only the value."""
    plain = value_of(raw)
    if isinstance(plain, Mapping):
        for key, value in plain.items():
            yield from _leaves(value, f"{at}, {in_words(str(key))}")
    elif isinstance(plain, list | tuple):
        for number, value in enumerate(plain, 1):
            yield from _leaves(value, f"{at} {number}")
    elif plain is not None:
        yield at, str(plain)


def _comes_out(first: Job, second: Job, id: str) -> Iterator[Change]:
    """Yield results, numbers of the shape, limits and the verdict, as far as they differ.

    Raises:
        KitError: one of the parts cannot be computed or built.
    """
    if first.parts[id].model == second.parts[id].model:
        yield from _results(first.case(id), second.case(id), first.display)
        yield from _shapes(first, second, id)
    verdicts = first.verdict(id), second.verdict(id)
    yield from _limits(*verdicts, first.display)
    if verdicts[0].words != verdicts[1].words:
        yield Change("verdict", "verdict", verdicts[0].words, verdicts[1].words)


def _results(one: Case, other: Case, display: Display) -> Iterator[Change]:
    from kit.core.uncertainty.answers import answered

    for name, result in one.model.results.items():
        if not alike(one, other, name):
            by = _by(one.base[name], other.base[name], result.unit, display, result.resolution)
            answers = answered(one, result, display), answered(other, result, display)
            yield Change("result", one.model.called(name), *answers, by)


def _shapes(first: Job, second: Job, id: str) -> Iterator[Change]:
    builds = first.best_build(id), second.best_build(id)
    if builds[0] is None or builds[1] is None:
        return
    theirs: dict[str, Number] = {each.name: each for each in builds[1].numbers}
    for mine in builds[0].numbers:
        beside = theirs.get(mine.name)
        if beside is None or math.isclose(mine.base, beside.base, rel_tol=1e-9, abs_tol=1e-12):
            continue
        by = _by(mine.base, beside.base, unit(mine.unit), first.display, mine.resolution)
        yield Change("shape", mine.meaning, mine.show(first.display), beside.show(first.display), by)


def _limits(one: Verdict, other: Verdict, display: Display) -> Iterator[Change]:
    """Yield each limit whose outcome is another."""
    theirs = {(check.name, check.where): check for check in other.checks}
    for mine in one.checks:
        check = theirs.get((mine.name, mine.where))
        if check is not None and check.outcome(other.level) != mine.outcome(one.level):
            told = (
                f"{each.outcome(level)}: {each.words(display, level)}"
                for each, level in ((mine, one.level), (check, other.level))
            )
            yield Change("limit", in_words(mine.name), *told)
