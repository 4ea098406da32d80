"""Designs of a part that are kept beside its own in the job: named, with a reason, compared, taken back."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from kit.core.errors import KitError
from kit.core.model import Stated
from kit.job.errors import JobError
from kit.job.toml_edit import ABSENT, put
from kit.job.written import keys_of, written

if TYPE_CHECKING:
    from kit.core.model import Case, Typed
    from kit.job.job import Job
    from kit.job.positions import Path

Changes = dict[str, "Typed | None"]


@dataclass(frozen=True)
class Pin:
    """A design under a name, and why it was considered; `fault` says why it cannot be computed, where that is so."""

    name: str
    why: str
    case: Case | None
    fault: str = ""

    def __repr__(self) -> str:
        return f"<pin {self.name}: {self.fault or self.why or 'no reason stated'}>"


def pins(job: Job, part_id: str) -> tuple[Pin, ...]:
    """Return the pinned designs of a part, computed, in the order of the file.

    Raises:
        KitError: there is no such part, or its model is unknown.

    >>> from kit import open_job
    >>> pins(open_job("boatshed.toml"), "saw_pad")
    ()
    """
    model, part, found = job.model(part_id), job.parts[part_id], []
    for name, kept in part.pins.items():
        typed: dict[str, Any] = {each: entry.stated for each, entry in kept.givens.items()} | dict(kept.picks)
        try:
            found.append(Pin(name, kept.why, model.at(beyond=kept.beyond, tables=job.tables, **typed)))
        except KitError as error:
            found.append(Pin(name, kept.why, None, str(error)))
    return tuple(found)


def pin(job: Job, part_id: str, name: str, why: str = "", *, case: Case | None = None) -> None:
    """Keep a design of a part in the job's file under a name: `case`, or the part's own. Written at once.

    Its links become the values that they have now. Lists, files and builds of a part are not pinned.

    Raises:
        JobError: there is no such part, or a name that is empty or taken; as `Job.rewrite` besides.

    >>> from kit import open_job
    >>> job = open_job("boatshed.toml")
    >>> pin(job, "long_stop", "as built", "what stands in the shed")
    >>> pins(job, "long_stop")
    (<pin as built: what stands in the shed>,)
    """
    name = name.strip()
    if not name:
        raise JobError("a pinned design needs a name; write one such as two ribs")
    kept = case or job.case(part_id)
    if name in job.parts[part_id].pins:
        raise JobError(f"{part_id} has a pin called {name!r} already; take another name, or take that pin out")
    path: Path = ("parts", part_id, "pins", name)
    told: dict[Path, Any] = {(*path, "why"): why.strip()}
    if kept.beyond:
        told[(*path, "beyond")] = sorted(kept.beyond)
    told |= {(*path, "picks", each): row for each, row in kept.picks.items()}
    told |= {(*path, "givens", each): _entry(kept, each) for each in kept.model.free if each in kept.typed}

    def change(text: str) -> str:
        for place, value in told.items():
            text = put(text, place, value)
        return text

    job.rewrite(change)


def unpin(job: Job, part_id: str, name: str) -> None:
    """Take a pinned design out of the job's file. Written at once.

    Raises:
        JobError: there is no such part or pin; as `Job.rewrite` besides.
    """
    job.case(part_id)
    if name not in job.parts[part_id].pins:
        known = ", ".join(job.parts[part_id].pins) or "none"
        raise JobError(f"{part_id} has no pin called {name!r}; it has {known}")
    job.rewrite(lambda text: put(text, ("parts", part_id, "pins", name), ABSENT))


def restored(now: Case, kept: Case, known: tuple[Case, ...] = ()) -> Case:
    """Return the design `kept` in place of the case `now`, where a value that is alike in both stays as it is stated.

    So a link that brings what the pin says stays a link. `known` are other cases from whose statements a value that
    is alike in them is taken, such as what the job says.
    """
    changes: Changes = {}
    for name, row in kept.picks.items():
        if row != now.picks[name]:
            changes[name] = next((case.typed.get(name) for case in known if case.picks[name] == row), row)
    filled = {given for name in changes for given in now.model.picks[name].fills}
    for name in now.model.free:
        if name not in filled and alike(now, kept, name):
            continue
        same = next((case for case in (now, *known) if alike(case, kept, name) and name in case.typed), kept)
        changes[name] = same.typed.get(name)
    return now.changed(changes, beyond=kept.beyond)


def alike(one: Case, other: Case, name: str) -> bool:
    """Return whether a given, with its uncertainty, or a pick is the same in two cases of one model."""
    if name in one.picks:
        return one.picks[name] == other.picks[name]
    if name not in one.entries:
        return math.isclose(one.base[name], other.base[name], rel_tol=1e-9, abs_tol=1e-12)
    mine, theirs = one.entries[name], other.entries[name]
    pairs = ((mine.base, theirs.base), (mine.u, theirs.u))
    return all(math.isclose(a, b, rel_tol=1e-9, abs_tol=1e-12) for a, b in pairs)


def differing(cases: Mapping[str, Case]) -> tuple[str, ...]:
    """Return the picks and givens that are not alike in all of some cases of one model, in the order of its page."""
    first, *rest = cases.values()
    names = (*first.picks, *first.model.free)
    return tuple(name for name in names if not all(alike(first, other, name) for other in rest))


def _entry(case: Case, name: str) -> Any:
    """Return what a file is to say of a given: its text, or a table where more is known of it."""
    text, typed = written(case, name), case.typed[name]
    if not isinstance(typed, Stated):
        return text
    keys = keys_of(typed.origin)
    if typed.origin.kind == "part":
        keys["origin"] = None
    more = {"spread": typed.spread, "k": typed.k, "dof": typed.dof, **keys}
    stated = {key: value for key, value in more.items() if value is not None}
    return {"value": text, **stated} if stated else text
