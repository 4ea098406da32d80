"""From the givens and inputs of `hood.shape` to the boards, openings and rails of the hood."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from math import sin
from typing import Any

import numpy as np

from kit.core.errors import KitError
from kit.geometry.remembered import remembered
from kit.geometry.solids.convex import Array, Index
from kit.subjects.hood.geometry.boards import Board, boards, room
from kit.subjects.hood.geometry.form import FLOOR, Brow, Chute, HoodDimensions, Notch
from kit.subjects.hood.geometry.openings import CHORD, outlines, pierced, wood_left
from kit.subjects.hood.geometry.rails import Rail, brow_rail, rails

Stated = Mapping[str, Any]

LIVE_CHORD = 0.5  # [mm] arcs are coarser while a control moves: wood is added, never left out


@dataclass(frozen=True, eq=False)
class HoodBoards:
    """A hood's boards with the outlines of their openings, by board, and the volume of its shell [mm³].

    One is only like itself, so that what hangs on it can be kept by it.
    """

    form: HoodDimensions
    boards: tuple[Board, ...]
    openings: Mapping[str, Mapping[str, Array]]
    shell: float

    @property
    def misfit(self) -> float:
        """What the boards together, before openings, differ from the shell, as a share of it."""
        return sum(board.solid.volume for board in self.boards) / self.shell - 1.0

    @cached_property
    def meshes(self) -> dict[str, tuple[Array, Index]]:
        """Vertices (n, 3) [mm] and triangles (m, 3) of each board with its openings, by board."""
        return {board.name: pierced(board, self.openings.get(board.name, {})) for board in self.boards}

    @property
    def wood_left(self) -> dict[str, float]:
        """The least wood [mm] beside each hole or notch, by opening."""
        by_name = {board.name: board for board in self.boards}
        return {
            f"{name} of the {face} board": wood_left(by_name[face], outline)
            for face, cut in self.openings.items()
            for name, outline in cut.items()
            if name != "brow" and face in by_name
        }


def form_of(value: Mapping[str, float], stated: Stated | None = None) -> HoodDimensions:
    """Return the hood's measures from the values of `hood.shape`, base units, and the openings of its inputs."""
    holes, notches = _openings(stated) if stated else ([], [])
    if value["chute"] > 0.0:
        holes.insert(0, Chute("back", value["chute"], value["chute_height"]))
    if value["fence_height"] > 0.0 and value["fence_front"] + value["fence_back"] > 0.0:
        # Seen from outside, the front lies to the left of the right board and to the right of the left board.
        notches = [
            Notch("right", -value["fence_front"], value["fence_back"], value["fence_height"]),
            Notch("left", -value["fence_back"], value["fence_front"], value["fence_height"]),
            *notches,
        ]
    slopes = {f"slope_{face}": value[f"slope_{face}"] for face in ("front", "back", "left", "right", "rear")}
    sizes = {name: value[name] for name in ("front", "back", "left", "right", "chamfer", "height", "thickness")}
    rise = value["brow_rise"] if value["brow"] > 0.5 else 0.0
    brow = Brow(value["brow_width"], value["brow_height"], rise)
    return HoodDimensions(**sizes, **slopes, brow=brow, chutes=tuple(holes), notches=tuple(notches))


def _openings(stated: Stated) -> tuple[list[Chute], list[Notch]]:
    """Return the holes and notches stated beyond those of the givens."""
    holes = [
        Chute(
            each["face"],
            each["width"].base,
            each["height"].base,
            each["along"].base,
            None if each["up"] is None else each["up"].base,
        )
        for each in stated["holes"]
    ]
    notches = [
        Notch(each["face"], each["begin"].base, each["end"].base, each["height"].base) for each in stated["notches"]
    ]
    return holes, notches


@lru_cache(maxsize=16)
def built(form: HoodDimensions, chord: float = LIVE_CHORD) -> HoodBoards:
    """Return the boards of a hood.

    Raises:
        KitError: measures that leave no room, or an opening without size.
    """
    faces = form.faces()
    shell = room(faces, FLOOR).volume - room(faces, FLOOR, inside=True).volume
    if not shell > 0.0:
        raise KitError("The hood has no room inside; make it larger or its boards thinner.")
    return HoodBoards(form, boards(faces, FLOOR), outlines(form, chord), shell)


def smooth(form: HoodDimensions) -> HoodBoards:
    """Return the boards with fine arcs, for files."""
    return built(form, CHORD)


@remembered(most=16)
def sticks(made: HoodBoards, width: float) -> tuple[Rail, ...]:
    """Return rails and posts `width` [mm] wide in place of the boards; the front is left open below its brow.

    Raises:
        KitError: a width that is not above 0, or a brow without room for its rail.
    """
    found: list[Rail] = []
    for board in made.boards:
        found += rails(board, width, ("bench",) if board.name == "front" else ())
        if board.name == "front" and made.form.brow is not None:
            spring = made.form.brow.height / sin(made.form.slope_front)
            found.append(brow_rail(board, spring, width, made.openings["front"]))
    return tuple(found)


def machine_boxes(stated: Sequence[Stated]) -> list[tuple[Array, Array]]:
    """Return the corners (3,), low and high [mm], of the boxes stated in place of a machine.

    Raises:
        KitError: a low corner that is not below its high one.
    """
    found = []
    for number, box in enumerate(stated, 1):
        low, high = (np.array([each.base for each in box[end]]) for end in ("low", "high"))
        if not (low < high).all():
            raise KitError(f"boxes, number {number}: each length of the low corner must be below that of the high one")
        found.append((low, high))
    return found
