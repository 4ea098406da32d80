"""A machine as measured boxes and cylinders, where it is not scanned: what moves, what stands, how sure it is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import hypot
from typing import Any

from kit.core.errors import KitError, near_misses
from kit.core.quantity import Quantity
from kit.geometry.mesh import Scan, box, cylinder, joined
from kit.subjects.sweep.scan_inputs import MovingPart, millimeters

Stated = Mapping[str, Any]


def surface(block: Stated) -> Scan:
    """Return the surface of a block, mm. Raises KitError where it is no body."""
    if block["low"]:
        return box(millimeters(block["low"]), millimeters(block["high"]))
    return cylinder(millimeters(block["start"]), millimeters(block["end"]), block["diameter"].base / 2.0)


def error(blocks: Sequence[Stated]) -> float:
    """Return by how much a surface may be off [mm]: a corner by its ± in all axes; a wall by end and radius."""
    return max((_error(block) for block in blocks), default=0.0)


def _error(block: Stated) -> float:
    if block["low"]:
        return max(_off(block["low"]), _off(block["high"]))
    return max(_off(block["start"]), _off(block["end"])) + _half(block["diameter"]) / 2.0


def _off(point: Sequence[Quantity]) -> float:
    return hypot(*map(_half, point))


def _half(length: Quantity) -> float:
    return length.half_base or 0.0


def moving(blocks: Sequence[Stated], names: Sequence[str]) -> tuple[list[MovingPart], Scan | None]:
    """Return what rides on each of the joints `names`, farthest from the bench first, and what stands, if anything.

    Raises:
        KitError: a block that rides on no joint or is no body, or nothing that moves.
    """
    on: dict[int, list[Stated]] = {}
    for block in blocks:
        on.setdefault(rides(block, names), []).append(block)
    parts = [
        MovingPart(", ".join(block["name"] for block in own), count, joined([surface(block) for block in own]))
        for count, own in sorted(on.items(), reverse=True)
    ]
    if not any(part.joints for part in parts):
        raise KitError("no block moves; state for one the joint on which it rides")
    standing = next((part.scan for part in parts if not part.joints), None)
    return [part for part in parts if part.joints], standing


def rides(block: Stated, names: Sequence[str]) -> int:
    """Return on how many of the joints `names` a block rides. Raises KitError where it rides on another."""
    name = block["rides"]
    if name and name not in names:
        raise KitError(
            f"the block {block['name']!r} rides on {name!r}, which is no joint{near_misses(name, list(names))}"
        )
    return names.index(name) + 1 if name else 0
