"""What was measured of the built parts of a job, beside what was predicted."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from kit.core.errors import KitError
from kit.core.model import Relation
from kit.core.quantity import ValueOrigin, parse, show
from kit.core.uncertainty import budget
from kit.core.uncertainty.beside import Beside
from kit.core.verdict import percent
from kit.job.job import Job

MOST = 3
"""Givens that are told for a difference."""


@dataclass(frozen=True, slots=True)
class Measured:
    """A result of a part as measured, beside the prediction, and where the measured value comes from."""

    part: str
    result: Relation
    beside: Beside
    origin: ValueOrigin


@dataclass(frozen=True, slots=True)
class AsBuilt:
    """All that was measured of a job, and in sentences what cannot be compared."""

    job: Job
    found: tuple[Measured, ...]
    faults: tuple[str, ...]


def as_built(job: Job) -> AsBuilt:
    """Return what was measured beside what is predicted now."""
    found, faults = [], []
    for id, part in job.parts.items():
        for name in part.built:
            try:
                if name in job.model(id).results:
                    found.append(measured(job, id, name))
            except KitError as error:
                faults.append(f"{part.title or id}, as built: {error}")
    return AsBuilt(job, tuple(found), tuple(faults))


def measured(job: Job, part: str, name: str) -> Measured:
    """Return one measured result of a part beside its prediction.

    Raises:
        KitError: nothing was measured of that name, it is no result, cannot be read, or has no ±.
    """
    if part not in job.parts or name not in job.parts[part].built:
        raise KitError(f"the job states nothing as built of {part}.{name}; write it under [parts.{part}.built]")
    entry, case = job.parts[part].built[name], job.case(part)
    if name not in case.model.results:
        raise KitError(f"{name} is no result of {case.model.name}; it has {', '.join(case.model.results)}")
    result = case.model.results[name]
    typed = parse(entry.text, result.unit)
    if not typed.half_base:
        raise KitError(f"{name} is {entry.text!r} and has no ±; add how surely it was measured")
    return Measured(part, result, Beside(budget(case, name), typed.base, typed.half_base), entry.origin)


HEADS = ("Result", "Predicted", "Measured", "Measured less predicted", "Normalized error", "What explains it")


def rows(found: AsBuilt) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Yield a row of texts under `HEADS` for each measured result, with the part that it belongs to."""
    for each in found.found:
        yield each.part, _row(each, found.job)


def _row(each: Measured, job: Job) -> tuple[str, ...]:
    beside, result, display = each.beside, each.result, job.display

    def told(base: float, half: float | None = None) -> str:
        return show(base, result.unit, display, half=half, resolution=result.resolution)

    sign = "+" if beside.off > 0 else ""
    judged = "they agree" if beside.agree else "they do not agree"
    when = f" ({each.origin.measured})" if each.origin.measured else ""
    return (
        job.model(each.part).called(result.name),
        told(beside.predicted.base, beside.predicted.expanded or None),
        told(beside.measured, beside.expanded) + when,
        f"{sign}{told(beside.off)}",
        f"{beside.normalized:+.2f}: {judged}",
        explained(each, job),
    )


def explained(each: Measured, job: Job) -> str:
    """Return which givens, each alone, would have to be off by how much, and how likely that is."""
    if each.beside.agree:
        return "nothing needs to"
    parts = []
    for alone in each.beside.explained[:MOST]:
        given = alone.entry.given
        sign = "+" if alone.off > 0 else ""
        off = show(alone.off, given.unit, job.display, resolution=abs(alone.off) / 50)
        parts.append(f"{job.model(each.part).called(given.name)} off by {sign}{off} ({percent(alone.chance)} likely)")
    return "; or ".join(parts) or "no given is uncertain: something else than stated acts"
