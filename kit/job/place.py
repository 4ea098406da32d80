"""Where the parts of a job stand in the station, and what is stated of a body that a part's page does not know.

    place = { at = ["600 mm", "-40 mm", "0 mm"], turn = "90 deg", on = "bench" }
    body = { boxes = [[["0 mm", "0 mm", "0 mm"], ["1800 mm", "640 mm", "40 mm"]]], mass = { from = "bench.mass" } }

The station's axes are those of the machine: x to the right, y to the back, z up from the plane that it stands on. A
part stands in them, or in those of the part that it is `on`; it is turned counterclockwise from above. A part whose
page says that it has another's axes stands where that one does; `place = false` says that it does not stand there.
Boxes are added to what the page knows of the body; a stated mass is theirs, or, without boxes, that of what the page
does not weigh. It may be taken from a part, or from the machine: mass = { from = "machine.weight" }.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

from kit.core.errors import KitError, near_misses
from kit.core.place import Frame, Point
from kit.core.quantity import Display, parse, unit
from kit.job.errors import JobError
from kit.job.order import upstream_first
from kit.job.positions import Path
from kit.job.schema import MACHINE, GivenEntry, JobPart, in_two
from kit.subjects import subject

if TYPE_CHECKING:
    from kit.core.model import Calculation
    from kit.job.job import Job

PLACE_KEYS = ("at", "turn", "on")
BODY_KEYS = ("boxes", "mass", "center")
FARTHEST = 1e5  # mm from the station's zero
STATION = Frame()
_AXES = ("x", "y", "z")
_AT = 'write it such as at = ["600 mm", "-40 mm", "0 mm"], for x, y and z'


@dataclass(frozen=True, slots=True)
class Place:
    """Where a part stands: in the station's axes, or in those of the part that it is on."""

    frame: Frame = STATION
    on: str = ""


@dataclass(frozen=True, slots=True)
class OwnBody:
    """What is stated of a body: boxes by two corners (mm), its mass (t, or what it is linked to), its center (mm)."""

    boxes: tuple[tuple[Point, Point], ...] = ()
    mass: float | tuple[str, str] | None = None
    center: Point | None = None


@dataclass(frozen=True, slots=True)
class PlaceFault:
    """What is wrong with a place or a body, at its keys below the part, and what to do."""

    part: str
    at: Path
    message: str
    remedy: str

    @property
    def words(self) -> str:
        """The fault as one sentence."""
        return f"{self.message}; {self.remedy}"


@dataclass(frozen=True)
class Standing:
    """Where parts stand in the station, what is stated of their bodies, and what is wrong; what is, is left out."""

    frames: Mapping[str, Frame] = field(default_factory=dict)
    bodies: Mapping[str, OwnBody] = field(default_factory=dict)
    faults: tuple[PlaceFault, ...] = ()


def standing(job: Job) -> Standing:
    """Return where the parts of a job stand."""
    return stand(job.parts, job.links, job.model, job.display, job.machine)


def stand(
    parts: Mapping[str, JobPart],
    links: Callable[[str], Mapping[str, Any]],
    model: Callable[[str], Calculation],
    display: Display,
    machine: Mapping[str, GivenEntry],
) -> Standing:
    """Return where parts stand: by what they state, by what each takes of others, and by their models."""
    places: dict[str, Place] = {}
    bodies: dict[str, OwnBody] = {}
    faults: list[PlaceFault] = []
    for id, part in parts.items():
        reader = _Reader(id, parts, model, display, machine, faults)
        if part.place is False:
            continue
        place = _by_itself(part, links, parts) if part.place is None else reader.place(part.place)
        if place is not None:
            places[id] = place
        if part.body is not None and (own := reader.body(part.body)) is not None:
            bodies[id] = own
    order, circle = upstream_first(places, lambda id: filter(None, [places[id].on] if id in places else []))
    if circle:
        message = f"{' → '.join(circle)} stand on each other in a circle"
        faults.append(PlaceFault(circle[0], ("place", "on"), message, "say of one where it stands without another"))
    frames: dict[str, Frame] = {}
    for id in (id for id in order if id in places and id not in circle):
        on = places[id].on
        if not on or on in frames:
            frames[id] = (frames[on] if on else STATION).holds(places[id].frame)
        elif on not in circle and parts[id].place is not None and on not in {fault.part for fault in faults}:
            message = f"{id} stands on {on}, of which it is not known where it stands"
            faults.append(PlaceFault(id, ("place", "on"), message, f"give {on} a place"))
    return Standing(frames, bodies, tuple(faults))


def read_place(id: str, raw: Any, job: Job) -> Place:
    """Return a place as it may stand in a job's file.

    Raises:
        JobError: something of it cannot be read, or the part would stand on itself; the first fault is told.
    """
    with_it = {**job.parts, id: replace(job.parts[id], place=raw)}
    found = stand(with_it, job.links, job.model, job.display, job.machine)
    for fault in found.faults:
        if fault.part == id or fault.at[-1] == "on":
            raise JobError(fault.words)
    place = _Reader(id, with_it, job.model, job.display, job.machine, []).place(raw)
    assert place is not None  # or there would be a fault
    return place


def body_faults(id: str, raw: Any, job: Job) -> list[PlaceFault]:
    """Return what is wrong with a body as it may stand in a job's file."""
    faults: list[PlaceFault] = []
    _Reader(id, job.parts, job.model, job.display, job.machine, faults).body(raw)
    return faults


def _by_itself(part: JobPart, links: Callable[[str], Mapping[str, Any]], parts: Mapping[str, JobPart]) -> Place | None:
    """Return where a part stands that states no place: with what has the same axes, or where the machine is."""
    try:
        page = subject(part.model)
        other = links(part.id).get(page.lies_with) if page.lies_with else None
    except KitError:  # an unknown model
        return None
    if isinstance(other, str) and other in parts:
        return Place(on=other)
    return Place() if page.at_machine else None


class _Reader:
    """Reads what a part states; faults are gathered."""

    def __init__(
        self,
        id: str,
        parts: Mapping[str, JobPart],
        model: Callable[[str], Calculation],
        display: Display,
        machine: Mapping[str, GivenEntry],
        faults: list[PlaceFault],
    ) -> None:
        self.id, self.parts, self.model, self.display, self.faults = id, parts, model, display, faults
        self.machine = machine

    def place(self, raw: Any) -> Place | None:
        before = len(self.faults)
        told = self.table(("place",), raw, PLACE_KEYS, 'place = { at = ["600 mm", "0 mm", "0 mm"] }')
        at = self.point(("place", "at"), told.get("at", ["0", "0", "0"]), _AT, "at")
        turn = self.number(("place", "turn"), told.get("turn", "0"), "deg", "its turn")
        on = told.get("on", "")
        if on and (not isinstance(on, str) or on not in self.parts):
            remedy = near_misses(str(on), list(self.parts)).removeprefix("; ") or "name a part of this job"
            self.fault(("place", "on"), f"{self.id} stands on {on!r}, but the job has no such part", remedy)
        if len(self.faults) > before or at is None or turn is None:
            return None
        return Place(Frame(at, turn), on)

    def body(self, raw: Any) -> OwnBody | None:
        before = len(self.faults)
        told = self.table(("body",), raw, BODY_KEYS, 'body = { mass = "12 kg" }')
        read = (self.box(number, each) for number, each in enumerate(self.rows(told.get("boxes", []))))
        boxes = [box for box in read if box is not None]
        mass = self.mass(told["mass"]) if "mass" in told else None
        example = 'write it such as center = ["0 mm", "40 mm", "120 mm"]'
        stated = "center" in told
        center = self.point(("body", "center"), told["center"], example, "the center") if stated else None
        return None if len(self.faults) > before else OwnBody(tuple(boxes), mass, center)

    def fault(self, at: Path, message: str, remedy: str) -> None:
        self.faults.append(PlaceFault(self.id, at, message, remedy))

    def table(self, at: Path, raw: Any, keys: tuple[str, ...], example: str) -> Mapping[str, Any]:
        if not isinstance(raw, Mapping):
            self.fault(at, f"the {at[0]} of {self.id} must be a table", f"write {example}")
            return {}
        for key in raw:
            if key not in keys:
                near = near_misses(key, list(keys)).removeprefix("; ") or f"it has {', '.join(keys)}"
                self.fault((*at, key), f"a {at[0]} has no {key!r}", near)
        return raw

    def rows(self, raw: Any) -> list[Any]:
        if isinstance(raw, list):
            return raw
        self.fault(("body", "boxes"), f"the boxes of {self.id} must be a list", "write each by its two corners")
        return []

    def box(self, number: int, raw: Any) -> tuple[Point, Point] | None:
        at = ("body", "boxes", number)
        pair = raw if isinstance(raw, list) and len(raw) == 2 else []
        names = (f"the {which} corner of box {number + 1}" for which in ("low", "high"))
        corners = [
            self.point((*at, k), each, "write three lengths", name)
            for k, (each, name) in enumerate(zip(pair, names, strict=False))
        ]
        if len(corners) < 2:
            example = 'such as [["0 mm", "0 mm", "0 mm"], ["600 mm", "400 mm", "38 mm"]]'
            self.fault(at, f"box {number + 1} of {self.id} is not two corners", f"write it {example}")
            return None
        low, high = corners
        if low is None or high is None:
            return None
        if flat := [axis for axis, a, b in zip(_AXES, low, high, strict=True) if not a < b]:
            message = f"the high corner of box {number + 1} of {self.id} is not beyond the low one in {', '.join(flat)}"
            self.fault(at, message, "write the low corner first")
            return None
        return low, high

    def mass(self, raw: Any) -> float | tuple[str, str] | None:
        at = ("body", "mass")
        if not isinstance(raw, Mapping):
            mass = self.number(at, raw, "kg", "its mass")
            if mass is not None and not mass > 0.0:
                self.fault(at, f"the mass of {self.id} is {raw}", "write more than 0 kg")
            return mass
        part, _, name = str(raw.get("from", "")).partition(".")
        if part == MACHINE and (measured := _mass(self.machine.get(name))) is not None:
            return measured
        try:
            found = self.model(part).part(name) if part in self.parts else None
        except (KitError, KeyError):
            found = None
        if found is None or not unit("kg").takes(found.unit):
            link = repr(raw.get("from"))
            message = f"the mass of {self.id} is linked to {link}, which is no mass of a part or of the machine"
            self.fault(at, message, 'link it such as mass = { from = "bench_tip.bench" }')
            return None
        return part, name

    def point(self, at: Path, raw: Any, remedy: str, what: str) -> Point | None:
        if not isinstance(raw, list) or len(raw) != 3:
            self.fault(at, f"{what} of {self.id} is not three lengths", remedy)
            return None
        found = [
            self.number((*at, k), each, self.display.system, axis if what == "at" else f"{axis} of {what}")
            for k, (axis, each) in enumerate(zip(_AXES, raw, strict=True))
        ]
        x, y, z = found
        return None if x is None or y is None or z is None else (x, y, z)

    def number(self, at: Path, raw: Any, of: str, what: str) -> float | None:
        """Return a quantity in the base; a bare number takes the job's unit of length, degrees or kilograms."""
        if isinstance(raw, bool) or not isinstance(raw, str | int | float):
            self.fault(at, f"{self.id}: {what} is no quantity", f"write it such as {unit(of).example}")
            return None
        try:
            read = parse(str(raw), of)
        except KitError as error:
            message, remedy = in_two(error, "correct it")
            self.fault(at, f"{self.id}: {what}: {message}", remedy)
            return None
        if read.half is not None:
            self.fault(at, f"{self.id}: {what} is {raw}, but a ± is not counted here", "write the value alone")
            return None
        if of in ("mm", "in") and not abs(read.base) <= FARTHEST:
            self.fault(at, f"{self.id}: {what} is {raw}", "a station fits into 100 m, so check the unit")
            return None
        return read.base


def _mass(entry: GivenEntry | None) -> float | None:
    """Return a measure of the machine as a mass (t), None where it is none."""
    try:
        return parse(entry.text, "kg").base if entry else None
    except KitError:
        return None


def place_links(part: JobPart) -> Iterator[tuple[str, str, Path]]:
    """Yield what a part's place and body name of other parts: under which name, what, and at which keys."""
    if isinstance(part.place, Mapping) and isinstance(part.place.get("on"), str):
        yield "place", part.place["on"], ("place", "on")
    mass = part.body.get("mass") if isinstance(part.body, Mapping) else None
    if isinstance(mass, Mapping) and isinstance(mass.get("from"), str):
        yield "mass", mass["from"], ("body", "mass", "from")
