"""What a part may take from others: only what fits, with its value, so that a person chooses from a list."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from kit.core.errors import KitError
from kit.core.model import in_words
from kit.core.quantity import QuantityError, parse, unit
from kit.job.schema import MACHINE
from kit.job.verdict import rests_on
from kit.subjects import makes

if TYPE_CHECKING:
    from kit.core.model import Given, Relation
    from kit.core.quantity import Unit
    from kit.job.job import Job

_SMALL = frozenset(("the", "and", "for", "from", "under", "over", "that", "with", "each", "side", "zero", "none"))


@dataclass(frozen=True)
class Fit:
    """A quantity that a given may take: the part or the machine, its name, its meaning, and words with its value."""

    part: str
    name: str
    meaning: str
    words: str

    @property
    def link(self) -> str:
        """What the job's file says of it."""
        return f"{self.part}.{self.name}"


def fitting(job: Job, part_id: str, given: str) -> list[Fit]:
    """Return what a given may be linked to: the machine's measures and other parts' quantities of its dimension.

    Parts that rest on this one are left out, as a link would close a circle; so are parts that cannot be computed.
    What shares most words with the given comes first.
    """
    wanted = job.model(part_id).free[given]
    sought = _words(wanted.meaning)
    others = [id for id in job.parts if not _rests(job, id, part_id)] if wanted.kind == "real" else []
    found = [*_of_the_machine(job, wanted.unit), *_of_parts(job, wanted.unit, others)]
    return sorted(found, key=lambda fit: -len(sought & _words(fit.meaning)))


def fitting_masses(job: Job, part_id: str) -> list[Fit]:
    """Return what the mass of a part's body may be linked to: the masses of that part first, then all others."""
    kilograms, others = unit("kg"), [id for id in job.parts if id != part_id]
    return [*_of_parts(job, kilograms, [part_id]), *_of_the_machine(job, kilograms), *_of_parts(job, kilograms, others)]


def _words(text: str) -> set[str]:
    """Return the words of a meaning that tell something."""
    return {word for word in re.findall(r"[a-z]+", text.lower()) if len(word) > 2 and word not in _SMALL}


def fitting_parts(job: Job, part_id: str, name: str) -> dict[str, str]:
    """Return the parts whose build a part may take under a name, each id with its title."""
    kind = job.takes(part_id)[name]
    fits = (id for id, part in job.parts.items() if kind in makes(part.model) and not _rests(job, id, part_id))
    return {id: job.parts[id].title for id in fits if id != part_id}


def _of_the_machine(job: Job, wanted: Unit) -> Iterator[Fit]:
    for name, entry in job.machine.items():
        try:
            parse(entry.text, wanted.text)
        except QuantityError:
            continue
        yield Fit(MACHINE, name, in_words(name), f"the machine's {in_words(name)}, {entry.text}")


def _of_parts(job: Job, wanted: Unit, ids: Iterable[str]) -> Iterator[Fit]:
    for id in ids:
        part, model = job.parts[id], job.model(id)
        known: dict[str, Given | Relation] = {**model.relations, **model.givens}
        names = [
            name for name, each in known.items() if getattr(each, "kind", "real") == "real" and wanted.takes(each.unit)
        ]
        try:
            case = job.case(id) if names else None
        except KitError:
            continue
        for name in names:
            assert case is not None
            meaning = known[name].meaning or in_words(name)
            yield Fit(id, name, meaning, f"{part.title or id}: {meaning}, {case.show(name, job.display)}")


def _rests(job: Job, id: str, on: str, seen: frozenset[str] = frozenset()) -> bool:
    """Return whether a part is another or rests on it, directly or through others."""
    if id == on:
        return True
    return any(other not in seen and _rests(job, other, on, seen | {id}) for other in rests_on(job, id))
