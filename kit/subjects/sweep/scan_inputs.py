"""What a job tells of a scanned machine: the scan with its recipe, the joints, and which faces ride on which joint.

    scan = "scan/saw.ply"
    recipe = [
      { do = "scale", lengths = [{ from = "left", to = "right", length = "520.3 ± 0.8 mm" }] },
      { do = "upright", tolerance = "2 mm", front = "front", axis = "pivot" },
    ]                                            # steps as in kit.geometry.mesh.recipe, lengths as quantities
    picks = { left = [0.31, -1.49, 0.35] }       # points of the scan, in its own units and axes
    joints = [
      { name = "swing", kind = "turn", point = ["0 mm", "0 mm", "0 mm"], direction = [0, 0, 1],
        low = "-swing_right", high = "swing_left" },      # a given's name, with or without a minus, or a quantity
      { name = "plunge", kind = "turn", touched = [["0 mm", "-235 mm", "350 mm"], …], low = "0 deg", high = "40 deg" },
    ]                                            # `touched`: one spot, touched in three or more positions of the joint
    parts = [                                    # what rides on which joint; the rest stands still
      { name = "head", rides = "swing", inside = [[["-400 mm", "-300 mm", "80 mm"], ["400 mm", "300 mm", "500 mm"]]] },
    ]

A face belongs to a part if its middle lies in one of the boxes `inside` and in none of the boxes `outside`; it may
belong to several. Lengths are in the machine's axes: x to the right, y to the back, z up from the bed, 0 on the axis.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import sqrt
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from kit.core.build import BuildInput
from kit.core.errors import KitError, near_misses
from kit.geometry.mesh import Prepared, Scan, read, replay
from kit.geometry.motion import Chain, Joint, circle_axis
from kit.subjects.told import check_keys, found, listed, quantity

LENGTHS = ("tolerance", "smaller", "low", "high")
"""Keys of a recipe's steps that are lengths or lists of lengths."""


@dataclass(frozen=True)
class Part:
    """A part of the machine by name, how many joints it rides on, and its faces as scanned."""

    name: str
    joints: int
    scan: Scan


def prepared(shape: Mapping[str, Any], folder: Path) -> tuple[Scan, Prepared]:
    """Return the scan as read and after its recipe; the same file with the same recipe is read once.

    Raises:
        KitError: no scan is told, the file is not there or cannot be read, or the recipe fails.
    """
    path = found(folder, str(told(shape, "scan")))
    picks = {name: _place(name, place) for name, place in table(shape, "picks").items()}
    return _prepared(path, path.stat().st_mtime_ns, Frozen(steps(tables(shape, "recipe"))), Frozen(picks))


def _place(name: str, place: Any) -> tuple[float, ...]:
    if not isinstance(place, list) or len(place) != 3 or not all(_number(part) for part in place):
        raise KitError(f"the pick {name!r} is {place!r}; write its three numbers on the scan")
    return tuple(map(float, place))


def _number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


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
def _prepared(path: Path, _changed: int, recipe: Frozen, picks: Frozen) -> tuple[Scan, Prepared]:
    with path.open("rb") as file:
        scan = read(file, path.name)
    return scan, replay(scan, recipe.data, picks.data)


def told(shape: Mapping[str, Any], key: str) -> Any:
    """Return what the shape tells under a key. Raises KitError where it tells nothing."""
    if key not in shape:
        raise KitError(f"the shape tells no {key}; a scan needs its path, recipe, picks, joints and parts")
    return shape[key]


def table(shape: Mapping[str, Any], key: str) -> Mapping[str, Any]:
    """Return the table under a key. Raises KitError where there is none."""
    value = told(shape, key)
    if not isinstance(value, Mapping):
        raise KitError(f"the shape's {key} is {value!r}; write a table")
    return value


def tables(shape: Mapping[str, Any], key: str) -> Sequence[Mapping[str, Any]]:
    """Return the list of tables under a key. Raises KitError where there is none."""
    value = told(shape, key)
    if not isinstance(value, list) or not all(isinstance(each, Mapping) for each in value):
        raise KitError(f"the shape's {key} is {value!r}; write a list of tables")
    return value


def steps(recipe: Sequence[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """Return the steps with lengths in millimeters, and a measured length's half-width as standard uncertainty.

    Raises:
        KitError: a text that is no length, or a measured length without a half-width.
    """
    return [{key: _plain(key, value) for key, value in step.items()} for step in recipe]


def _plain(key: str, value: Any) -> Any:
    if key == "lengths":
        return [_measured(each) for each in tables({key: value}, key)]
    if key not in LENGTHS:
        return value
    if isinstance(value, list):
        return [quantity(each, key).base for each in value]
    return quantity(value, key).base


def _measured(length: Mapping[str, Any]) -> dict[str, Any]:
    measured = quantity(told(length, "length"), "length")
    if not measured.half_base:
        raise KitError(f'the measured length {measured} has no uncertainty; write such as "{measured} ± 0.5 mm"')
    ends = {key: value for key, value in length.items() if key != "length"}
    # The half-width of a rectangular spread over √3 (JCGM 100:2008, 4.3.7).
    return {**ends, "mm": measured.base, "uncertainty": measured.half_base / sqrt(3.0)}


def chain(inputs: BuildInput) -> Chain:
    """Return the machine's joints, from the bench outward, at the limits that the givens now have.

    Raises:
        KitError: a limit that is neither a quantity nor a given, or what a joint itself says.
    """
    return Chain(tuple(_joint(inputs, each) for each in tables(inputs.shape, "joints")))


def _joint(inputs: BuildInput, each: Mapping[str, Any]) -> Joint:
    touched = "touched" in each
    check_keys(each, ("name", "kind", "low", "high", *(("touched",) if touched else ("point", "direction"))))
    kind = told(each, "kind")
    field = "mm" if kind == "slide" else "deg"
    low, high = (_limit(inputs, told(each, end), field) for end in ("low", "high"))
    axis = _touched(each) if touched else (point(each, "point"), three(each, "direction"))
    return Joint(str(told(each, "name")), kind, *axis, low, high)


def _touched(each: Mapping[str, Any]) -> tuple[tuple[float, float, float], tuple[float, float, float]]:
    spots = [point({"touched": spot}, "touched") for spot in listed(each, "touched")]
    axis, _, _ = circle_axis(spots)
    (x, y, z), (a, b, c) = axis.point, axis.direction
    return (float(x), float(y), float(z)), (float(a), float(b), float(c))


def _limit(inputs: BuildInput, text: Any, field: str) -> float:
    name = str(text).removeprefix("-")
    if name in inputs.base:
        return -inputs.base[name] if str(text).startswith("-") else inputs.base[name]
    try:
        return quantity(text, "joint's limit", field).base
    except KitError as error:
        hint = near_misses(name, list(inputs.case.model.givens))
        raise KitError(f"{error}; a given's name serves as well{hint}") from error


def point(shape: Mapping[str, Any], key: str) -> tuple[float, float, float]:
    """Return three lengths [mm]. Raises KitError where there are not three."""
    x, y, z = (quantity(each, key).base for each in _list(shape, key))
    return x, y, z


def three(shape: Mapping[str, Any], key: str) -> tuple[float, float, float]:
    """Return three bare numbers. Raises KitError where there are not three."""
    x, y, z = _list(shape, key)
    if not all(map(_number, (x, y, z))):
        raise KitError(f"the shape's {key} is {[x, y, z]!r}; write three bare numbers such as [0, 0, 1]")
    return float(x), float(y), float(z)


def _list(shape: Mapping[str, Any], key: str) -> Sequence[Any]:
    value = told(shape, key)
    if not isinstance(value, list) or len(value) != 3:
        raise KitError(f"the shape's {key} is {value!r}; write three, such as [0, 0, 1] or three lengths")
    return value


def parts(boxes: Sequence[Mapping[str, Any]], scan: Scan, names: Sequence[str]) -> tuple[list[Part], Scan | None]:
    """Return the parts that move, those on most of the joints `names` first, and what stands still, if anything.

    Raises:
        KitError: a part that rides on no joint of the chain, or boxes without a face.
    """
    middle = scan.vertices[scan.faces].mean(axis=1)
    rest = np.ones(len(scan.faces), dtype=bool)
    moving = []
    for each in boxes:
        check_keys(each, ("name", "rides", "inside", "outside"))
        name, rides = str(told(each, "name")), str(told(each, "rides"))
        if rides not in names:
            raise KitError(f"the part {name!r} rides on {rides!r}, which is no joint{near_misses(rides, list(names))}")
        faces = _within(middle, listed(each, "inside")) & ~_within(middle, listed(each, "outside"))
        if not faces.any():
            raise KitError(f"no face of the scan lies in the boxes of the part {name!r}; look at their corners")
        rest &= ~faces
        moving.append(Part(name, names.index(rides) + 1, scan.kept(faces)))
    if not moving:
        raise KitError("the shape tells no part that moves; tell the boxes in which one lies")
    moving.sort(key=lambda part: -part.joints)
    return moving, scan.kept(rest) if rest.any() else None


def _within(points: NDArray[np.float64], boxes: Sequence[Any]) -> NDArray[np.bool_]:
    inside = np.zeros(len(points), dtype=bool)
    for box in boxes:
        if not isinstance(box, list) or len(box) != 2:
            raise KitError(f"a box is {box!r}; write its two corners, three lengths each")
        low, high = (np.array(point({"box": corner}, "box")) for corner in box)
        inside |= ((points >= low) & (points <= high)).all(axis=1)
    return inside
