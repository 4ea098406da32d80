"""Wrong turns: what comes out of typical mistakes, so that an answer tells which one was made, and what it costs."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from kit.core.model import called
from kit.core.model.operations import POINT
from kit.core.quantity import show, unit
from kit.core.verdict import compare
from kit.teach.drawing_lots import chain_givens
from kit.teach.rounding import last_digit

if TYPE_CHECKING:
    from kit.core.model import Case, Given, Relation
    from kit.core.quantity import Display

INCH = 25.4  # mm, exact (international yard and pound agreement of 1959)
_EDGE = 100.0  # mm, along which a wrong angle is told
_LENGTH = unit("mm")
_EARLY = (2, 3)  # digits to which somebody rounds on the way


@dataclass(frozen=True, slots=True)
class Slip:
    """What a mistake makes of an answer, in base units; `words` follow "It looks as if "."""

    base: float
    words: str


def slips(case: Case, name: str) -> Iterator[Slip]:
    """Yield what typical mistakes make of the quantity `name`, those that the model states first; numbers alone."""
    part = case.model.part(name)
    if name in case.model.relations:
        yield from _stated(case, name)
        yield from _angles_in_radians(case, name)
        for given in _free(case, name):
            yield from _put_in_wrongly(case, name, given)
    yield from _told_wrongly(case.base[name], part)
    if name in case.model.relations:
        yield from _rounded_early(case, name)


def cost(case: Case, name: str, wrong: float, display: Display) -> str:
    """Return in a sentence what it would cost to take `wrong`, in base units, for the quantity `name`."""
    part, right = case.model.part(name), case.base[name]
    off = wrong - right
    if part.unit.dim == _LENGTH.dim:
        words = f"That is {show(abs(off), part.unit, display)} too {'much' if off > 0 else 'little'}"
    elif part.unit.angle == 1:
        over, opens = show(_EDGE, "mm", display), show(_EDGE * abs(math.tan(min(abs(off), 1.5))), "mm", display)
        words = f"Over {over} of edge that opens by {opens}"
    elif right:
        words = f"That is {100 * abs(off / right):.0f} % too {'much' if off / right > 0 else 'little'}"
    else:
        words = "That is not nothing"
    return f"{words}{_misjudged(case, name, wrong)}."


def _misjudged(case: Case, name: str, wrong: float) -> str:
    """Say which limit of this bench would be judged wrongly."""
    for check in case.checks:
        limit = case.model.limits[check.name]
        if limit.judges != name or check.allowed is None:
            continue
        value = abs(wrong) if limit.size else wrong
        taken = compare("", "", value, check.allowed, mend="", sense=limit.sense)
        if taken.ok != check.ok:
            return (
                ", and a limit that holds would seem to fail"
                if check.ok
                else ", and a limit that fails would seem to hold"
            )
    return ""


def _free(case: Case, name: str) -> list[Given]:
    return [case.model.free[each] for each in chain_givens(case.model, [name]) if each in case.model.free]


def _at(case: Case, name: str, moved: Mapping[str, float]) -> float:
    import numpy as np

    with np.errstate(all="ignore"):
        found = case.compute({key: np.array([value]) for key, value in moved.items()}, [name])[name]
    return float(np.ravel(found)[0])


def _stated(case: Case, name: str) -> Iterator[Slip]:
    """Yield the mistakes that the model states; its tape has all results after each of them."""
    results = list(case.model.results)
    if not case.model.mistakes or name not in results:
        return
    found = case.model.mistaken.at(*(entry.base for entry in case.entries.values()))
    for n, mistake in enumerate(case.model.mistakes):
        yield Slip(found[n * len(results) + results.index(name)], mistake.text)


def _angles_in_radians(case: Case, name: str) -> Iterator[Slip]:
    """Yield what a calculator shows that is set to radians: degrees go in as radians, and radians come out."""
    words = "the calculator was set to radians while the angles are in degrees"
    angles = {given.name: math.degrees(case.base[given.name]) for given in _free(case, name) if given.unit.angle == 1}
    inside = _at(case, name, angles) if angles else case.base[name]
    if angles:
        yield Slip(inside, words)
    if case.model.relations[name].unit.angle == 1:
        yield Slip(math.radians(inside), words)
        yield Slip(math.radians(case.base[name]), words)


def _put_in_wrongly(case: Case, name: str, given: Given) -> Iterator[Slip]:
    what, here = called(given).split(";")[0], case.base[given.name]
    if given.kind != "real" or not here:
        return
    yield Slip(
        _at(case, name, {given.name: 2 * here}),
        f"{what} was put in doubled: a diameter for a radius, or both sides for one",
    )
    yield Slip(
        _at(case, name, {given.name: here / 2}),
        f"{what} was put in halved: a radius for a diameter, or one side for both",
    )
    if given.unit.angle == 1:
        yield Slip(
            _at(case, name, {given.name: math.pi / 2 - here}), f"{what} was counted from the other zero, 90° away"
        )
    elif given.unit.dim == _LENGTH.dim:
        yield Slip(_at(case, name, {given.name: here * INCH}), f"{what} was put in as inches for millimeters")
        yield Slip(_at(case, name, {given.name: here / INCH}), f"{what} was put in as millimeters for inches")


def _told_wrongly(value: float, part: Given | Relation) -> Iterator[Slip]:
    """Yield what is done to an answer that was found rightly."""
    if part.unit.angle == 1:
        yield Slip(math.pi / 2 - value, "it was counted from the other zero, 90° away")
        yield Slip(math.pi - value, "the other branch was taken: two angles have this sine, and they make 180°")
        yield Slip(math.degrees(value), "radians were taken for degrees")
    yield Slip(-value, "only the sign is wrong")
    yield Slip(2 * value, "it was doubled: both sides for one, or a factor 2 too much")
    yield Slip(value / 2, "it was halved: one side for both, or a factor 2 too little")
    if part.unit.dim == _LENGTH.dim:
        yield Slip(value * INCH, "the number of millimeters was given as inches")
        yield Slip(value / INCH, "the number of inches was given as millimeters")
    for power in (10, 100, 1000):
        yield Slip(value * power, "the decimal point is off")
        yield Slip(value / power, "the decimal point is off")


def _rounded_early(case: Case, name: str) -> Iterator[Slip]:
    """Yield what comes out where every step on the way is rounded to a few digits of its own unit."""
    tape, relations = case.model.point, list(case.model.relations.values())
    steps = dict(zip(tape.outputs, relations, strict=True))
    wanted = next(at for at, relation in steps.items() if relation.name == name)
    for digits in _EARLY:
        numbers = [*(entry.base for entry in case.entries.values()), *tape.constants]
        for operation, *places in tape.operations:
            value = POINT[operation](*(numbers[place] for place in places if place >= 0))
            step = steps.get(len(numbers))
            if step is not None and len(numbers) != wanted and math.isfinite(value):
                value = _to_digits(value, step, digits)
            numbers.append(value)
        yield Slip(
            numbers[wanted], f"a step on the way was rounded to {digits} digits: carry more, and round at the end"
        )


def _to_digits(base: float, relation: Relation, digits: int) -> float:
    value = relation.unit.from_base(base)
    last = last_digit(value, digits)
    return float(relation.unit.to_base(round(value / last) * last))
