"""The lists of a whole job: what each part weighs, what is cut, what is bought, how machines are set."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property, partial

from kit.core.build import Build
from kit.core.errors import KitError
from kit.core.lists import ONE_PERSON, TEAM, Body, Lists, Need, Piece, Setting
from kit.core.place import Point
from kit.job.build import best_build, build_input
from kit.job.job import Job
from kit.job.place import Standing, standing
from kit.station.bodies import own_bodies
from kit.subjects import subject

CUT = "pieces to cut"
"""The kind of what a part makes and another lays out: its pieces then stand on the list of that one."""
_LIFTERS = ("one person", "two persons", "three persons")


@dataclass(frozen=True)
class StationLists:
    """What the parts of a job bring, by their ids, and in sentences what is not known."""

    job: Job
    parts: dict[str, Lists]
    open: tuple[str, ...]
    standing: Standing = field(default_factory=Standing)

    @cached_property
    def weights(self) -> dict[str, Weight]:
        """Mass and center of mass of each part that brings bodies of known mass."""
        every = {id: weight(found.bodies) for id, found in self.parts.items() if found.bodies}
        return {id: each for id, each in every.items() if each.mass > 0.0}

    @cached_property
    def whole(self) -> Whole:
        """The mass and the center of mass of all that stands in the station, as far as they are known."""
        return _whole(self)

    @property
    def mass(self) -> float:
        """The mass of all that is known, t."""
        return sum(each.mass for each in self.weights.values())

    @property
    def pieces(self) -> Iterator[tuple[str, Piece]]:
        """Every piece that is cut, with the part on whose list it stands."""
        laid = {
            other
            for id in self.parts
            for name, other in self.job.links(id).items()
            if self.job.takes(id).get(name) == CUT
        }
        yield from ((id, piece) for id, found in self.parts.items() if id not in laid for piece in found.pieces)

    @property
    def needs(self) -> list[Bought]:
        """What is bought: what is alike in one line, with the parts that need it."""
        found: dict[tuple[str, str, tuple[float, ...]], Bought] = {}
        for id, brought in self.parts.items():
            for need in brought.needs:
                key = (need.name, need.unit, need.sides)
                old = found.get(key)
                found[key] = Bought(need, (id,)) if old is None else old.with_(need, id)
        return list(found.values())

    @property
    def cost(self) -> float:
        """What all with a price costs."""
        return sum(each.need.cost or 0.0 for each in self.needs)

    @property
    def settings(self) -> Iterator[tuple[str, Setting]]:
        """Every setting of a machine, with the part that asks for it."""
        yield from ((id, each) for id, found in self.parts.items() for each in found.settings)


@dataclass(frozen=True, slots=True)
class Weight:
    """The mass of some bodies (t), their common center of mass (mm) where all their centers are known, who lifts it.

    `without` are the names of those of which the mass is not known: they are not in it.
    """

    mass: float
    center: Point | None
    without: tuple[str, ...] = ()

    @property
    def lifted(self) -> str:
        """Who may lift it, at best: near the body, with a good grip, now and then."""
        enough = (words for share, words in zip(TEAM, _LIFTERS, strict=True) if self.mass <= share * ONE_PERSON)
        return next(enough, "more than three persons, or a hoist")


@dataclass(frozen=True, slots=True)
class Bought:
    """A line of the shopping list, and the parts that need it."""

    need: Need
    parts: tuple[str, ...]

    def with_(self, more: Need, part: str) -> Bought:
        """Return the line with the need of another part added."""
        priced = [each for each in (self.need.cost, more.cost) if each is not None]
        cost = sum(priced) if priced else None
        both = max if more.tool else sum
        need = replace(more, amount=both((self.need.amount, more.amount)), cost=cost)
        return Bought(need, (*self.parts, part))


@dataclass(frozen=True, slots=True)
class Whole:
    """What stands in the station: the mass (t) and the center of mass (mm, in common axes) of the parts counted in it.

    `missing` says by part why it is not counted, or not wholly.
    """

    mass: float
    center: Point | None
    counted: tuple[str, ...]
    missing: dict[str, str]


def weight(bodies: Iterable[Body]) -> Weight:
    """Return what bodies weigh together, and where their common center of mass lies."""
    known: list[tuple[float, Point | None]] = []
    without = []
    for body in bodies:
        if body.mass is None:
            without.append(body.name)
        else:
            known.append((body.mass, body.center))
    mass = sum(share for share, _ in known)
    return Weight(mass, None if without else _center(known), tuple(without))


def _center(shares: list[tuple[float, Point | None]]) -> Point | None:
    """Return where masses balance; None where one has no known place, or there are none."""
    mass = sum(share for share, _ in shares)
    centers = [(share, center) for share, center in shares if center is not None]
    if len(centers) < len(shares) or not mass > 0:
        return None
    x, y, z = (sum(share * center[axis] for share, center in centers) / mass for axis in range(3))
    return x, y, z


NO_PLACE, NO_MASS, NO_CENTER = "it has no place in the station", "its mass is not known", "its center is not known"


def _whole(found: StationLists) -> Whole:
    shares: dict[str, tuple[float, Point | None]] = {}
    missing: dict[str, str] = {}
    for id, brought in found.parts.items():
        if not brought.bodies or found.job.parts[id].place is False:
            continue
        each, frame = weight(brought.bodies), found.standing.frames.get(id)
        known = [(body.mass, body.center) for body in brought.bodies if body.mass is not None]
        center = _center(known)
        if frame is None:
            missing[id] = NO_PLACE
        elif not known:
            missing[id] = NO_MASS
        elif center is None:
            missing[id] = NO_CENTER
        else:
            shares[id] = each.mass, frame.point(center)
            if each.without:
                missing[id] = f"the mass of its {', '.join(each.without)} is not known"
    mass = sum(share for share, _ in shares.values())
    return Whole(mass, _center(list(shares.values())), tuple(shares), missing)


def _best(job: Job, id: str) -> Build:
    found = best_build(job, id)
    if found is None:
        raise KitError("nothing is built of it")
    return found


def part_lists(job: Job, id: str) -> Lists:
    """Return what one part of a job brings; of a part that cannot be computed or built, why."""
    bring = subject(job.parts[id].model).lists
    if bring is None:
        return Lists()
    try:
        return bring(build_input(job, id), partial(_best, job, id))
    except KitError as error:
        return Lists(open=(str(error),))


def station_lists(job: Job, known: Mapping[str, Lists] | None = None) -> StationLists:
    """Return the lists of a job; `known` are those of parts that need not be worked out, by their ids.

    Of a part that cannot be computed or built they say so, and go on with the rest.
    """
    known, stands = known or {}, standing(job)
    found: dict[str, Lists] = {}
    for id in job.parts:
        brought = known[id] if id in known else part_lists(job, id)
        try:
            bodies = own_bodies(job, id, brought.bodies, stands.bodies.get(id))
            found[id] = replace(brought, bodies=bodies)
        except KitError as error:
            found[id] = replace(brought, open=(*brought.open, str(error)))
    missing = [(id, each) for id, brought in found.items() for each in brought.open]
    missing += [(fault.part, fault.words) for fault in stands.faults]
    return StationLists(job, found, tuple(f"{job.parts[id].title or id}: {each}" for id, each in missing), stands)
