"""A scanned machine as a job states it: the scan after its recipe, its joints, and which faces ride on which joint.

A face belongs to a part if its middle lies in one of the boxes `inside`, or it is connected to one of the spots
`pieces`, and its middle lies in none of the boxes `outside`; it may belong to several. Lengths are in the machine's
axes: x to the right, y to the back, z up from the bed, 0 on the axis.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from hashlib import sha256
from io import BytesIO
from math import sqrt
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from kit.core.build import BuildInput
from kit.core.errors import KitError, near_misses
from kit.core.files import MOST_BYTES, beside, content_digest, read_regular
from kit.core.quantity import Quantity, unit
from kit.geometry.mesh import Prepared, Scan, names_in, nearest, piece_numbers, read, replay
from kit.geometry.motion import Chain, Joint, apply, circle_axis

Stated = Mapping[str, Any]
Triple = tuple[float, float, float]
WAY = {"turn": "deg", "slide": "mm"}
"""The unit of a joint's way, by its kind."""


@dataclass(frozen=True)
class MovingPart:
    """A part of the machine by name, how many joints it rides on, and its faces as scanned."""

    name: str
    joints: int
    scan: Scan


def prepared(scan: str, recipe: Sequence[Stated], picks: Mapping[str, Triple], folder: Path) -> tuple[Scan, Prepared]:
    """Return the scan as read and after its recipe, as stated; the same file with the same recipe is read once.

    Raises:
        KitError: the file is not there or cannot be read, or the recipe fails.
    """
    path, steps_ = beside(folder, scan), steps(recipe)
    used = {name: place for name, place in picks.items() if name in names_in(steps_)}
    return _prepared(path, content_digest(path, MOST_BYTES), Frozen(steps_), Frozen(used))


class Frozen:
    """Plain data as a key: equal where its text is."""

    def __init__(self, data: Any) -> None:
        self.data = data
        self._text = repr(data)

    def __hash__(self) -> int:
        return hash(self._text)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Frozen) and self._text == other._text


@lru_cache(maxsize=8)
def _prepared(path: Path, content: str, recipe: Frozen, picks: Frozen) -> tuple[Scan, Prepared]:
    scan = _read(path, content)
    return scan, replay(scan, recipe.data, picks.data)


@lru_cache(maxsize=2)
def _read(path: Path, content: str) -> Scan:
    data = read_regular(path, MOST_BYTES)
    if sha256(data).hexdigest() != content:
        raise KitError(f"{path.name} was changed while it was read; look again when it is whole")
    return read(BytesIO(data), path.name)


def steps(recipe: Sequence[Stated]) -> list[dict[str, Any]]:
    """Return the steps with lengths in millimeters, and a measured length's half-width as standard uncertainty."""
    return [{key: _plain(value) for key, value in step.items()} for step in recipe]


def _plain(value: Any) -> Any:
    match value:
        case Quantity():
            return value.base
        case tuple():
            return [_plain(each) for each in value]
        case {"length": Quantity() as length, **ends}:
            # The half-width of a rectangular spread over √3 (JCGM 100:2008, 4.3.7).
            return {**ends, "mm": length.base, "uncertainty": (length.half_base or 0.0) / sqrt(3.0)}
    return value


def chain(inputs: BuildInput) -> Chain:
    """Return the machine's joints, from the bench outward, at the limits that the givens now have.

    Raises:
        KitError: a limit of another kind than the joint's way, or what a joint itself says.
    """
    return Chain(tuple(_joint(inputs, each) for each in inputs.stated["joints"]))


def _joint(inputs: BuildInput, each: Stated) -> Joint:
    name, kind = each["name"], each["kind"]
    low, high = (_limit(inputs, each[end], kind, f"the {end} end of the {name}") for end in ("low", "high"))
    spot, along = _touched(each["touched"]) if each["touched"] else (millimeters(each["point"]), each["direction"])
    return Joint(name, kind, spot, along, low, high)


def _touched(spots: Sequence[Sequence[Quantity]]) -> tuple[Triple, Triple]:
    axis, _, _ = circle_axis([millimeters(spot) for spot in spots])
    (x, y, z), (a, b, c) = axis.point, axis.direction
    return (float(x), float(y), float(z)), (float(a), float(b), float(c))


def _limit(inputs: BuildInput, stated: Quantity | str, kind: str, what: str) -> float:
    if isinstance(stated, Quantity):
        return base_way(stated, kind, what)
    name = stated.removeprefix("-")
    wanted, given = unit(WAY[kind]), inputs.case.model.givens[name]
    if not wanted.takes(given.unit):
        raise KitError(f"{what} is the given {name!r}, {given.unit.kind}; this joint takes {wanted.kind}")
    return -inputs.base[name] if stated.startswith("-") else inputs.base[name]


def base_way(stated: Quantity, kind: str, what: str) -> float:
    """Return how far a joint of a kind goes [rad or mm]; a bare number is in degrees or in millimeters.

    Raises:
        KitError: an angle for a slide, or a length for a turn.
    """
    wanted = unit(WAY[kind])
    if stated.bare:
        return wanted.to_base(stated.value)
    if not wanted.takes(stated.unit):
        raise KitError(f"{what} is {stated}; this joint takes {wanted.kind} such as {wanted.example}")
    return stated.base


def millimeters(point: Sequence[Quantity]) -> Triple:
    """Return the place of a point of three lengths [mm]."""
    x, y, z = (each.base for each in point)
    return x, y, z


def parts(
    stated: Sequence[Stated], scan: Scan, names: Sequence[str], spots: Mapping[str, NDArray[np.float64]]
) -> tuple[list[MovingPart], Scan | None]:
    """Return the parts that move, those on most of the joints `names` first, and what stands still, if anything.

    `spots` (3,) [mm] are the picks in the machine's axes, by name.

    Raises:
        KitError: a part that rides on no joint of the chain, or boxes and pieces without a face.
    """
    rest = np.ones(len(scan.faces), dtype=bool)
    moving = []
    for each in stated:
        number, faces = part_faces(each, scan, names, spots)
        rest &= ~faces
        moving.append(MovingPart(each["name"], number, scan.kept(faces)))
    if not moving:
        raise KitError("no part moves; add the boxes in which one lies to parts")
    moving.sort(key=lambda part: -part.joints)
    return moving, scan.kept(rest) if rest.any() else None


def part_faces(
    each: Stated, scan: Scan, names: Sequence[str], spots: Mapping[str, NDArray[np.float64]]
) -> tuple[int, NDArray[np.bool_]]:
    """Return on how many of the joints `names` a part rides, and which faces (m,) of the scan belong to it.

    Raises:
        KitError: as `parts`.
    """
    name, rides, touched = each["name"], each["rides"], each["pieces"]
    if rides not in names:
        raise KitError(f"the part {name!r} rides on {rides!r}, which is no joint{near_misses(rides, list(names))}")
    middle = scan.vertices[scan.faces].mean(axis=1)
    faces = _within(middle, each["inside"])
    if touched:
        piece = _pieces(scan)
        faces |= np.isin(piece, [piece[nearest(scan, spots[spot]).face] for spot in touched])
    faces &= ~_within(middle, each["outside"])
    if not faces.any():
        raise KitError(f"no face of the scan belongs to the part {name!r}; look at the corners of its boxes")
    return names.index(rides) + 1, faces


@lru_cache(maxsize=4)
def _pieces(scan: Scan) -> NDArray[np.int64]:
    return piece_numbers(scan)


def spots_of(picks: Mapping[str, Triple], prepared: Prepared) -> dict[str, NDArray[np.float64]]:
    """Return the picks (3,) [mm] in the machine's axes, by name."""
    return {name: apply(prepared.move, np.array([place]))[0] for name, place in picks.items()}


def _within(points: NDArray[np.float64], boxes: Sequence[Sequence[Sequence[Quantity]]]) -> NDArray[np.bool_]:
    inside = np.zeros(len(points), dtype=bool)
    for box in boxes:
        low, high = (np.array(millimeters(corner)) for corner in box)
        inside |= ((points >= low) & (points <= high)).all(axis=1)
    return inside
