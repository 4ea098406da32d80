"""Placing a folded sheet: faces and neutral fiber of straight parts and bends, one after the other."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import ceil, cos, pi, sin

from kit.drawing.primitives import Point

_STEP = pi / 30  # largest turn of one chord of an arc


@dataclass
class Folded:
    """A folded sheet seen on edge, mm: its faces and neutral fiber, and each bend's center.

    `right` and `left` are the faces on the right and left hand going along the sheet. `ends` holds, before the
    first and after each straight part and bend, the point on the right face and the heading (rad).
    """

    right: list[Point] = field(default_factory=list)
    left: list[Point] = field(default_factory=list)
    neutral: list[Point] = field(default_factory=list)
    centers: list[Point] = field(default_factory=list)
    ends: list[tuple[Point, float]] = field(default_factory=list)

    @property
    def outline(self) -> list[Point]:
        """The closed outline of the sheet's edge."""
        return [*self.right, *reversed(self.left)]


def fold_up(
    straights: Sequence[float],
    bends: Sequence[tuple[float, float]],
    thickness: float,
    neutral_factor: float,
    start: Point = (0.0, 0.0),
    heading: float = 0.0,
) -> Folded:
    """Return the sheet of `straights` (mm) and, between them, `bends`: angle (rad, positive to the left), radius.

    Radii are inside radii, mm; the neutral fiber lies `neutral_factor` thicknesses from the inside face.
    """
    neutral = neutral_factor * thickness
    folded = Folded()
    at = start

    def add(heading: float, inside_left: bool) -> None:
        # beside the right face, toward the left: the neutral fiber and the left face
        across = (-sin(heading), cos(heading))
        depth = thickness - neutral if inside_left else neutral
        folded.right.append(at)
        folded.neutral.append((at[0] + depth * across[0], at[1] + depth * across[1]))
        folded.left.append((at[0] + thickness * across[0], at[1] + thickness * across[1]))

    side = bends[0][0] >= 0 if bends else True
    add(heading, side)
    folded.ends.append((at, heading))
    for number, length in enumerate(straights):
        at = (at[0] + length * cos(heading), at[1] + length * sin(heading))
        add(heading, side)
        folded.ends.append((at, heading))
        if number >= len(bends):
            break
        turn, radius = bends[number]
        side = turn >= 0
        sign = 1.0 if side else -1.0
        reach = radius + thickness if side else radius  # of the right face from the bend's center
        center = (at[0] - sign * reach * sin(heading), at[1] + sign * reach * cos(heading))
        folded.centers.append(center)
        steps = max(1, ceil(abs(turn) / _STEP))
        for step in range(steps + 1):
            now = heading + turn * step / steps
            at = (center[0] + sign * reach * sin(now), center[1] - sign * reach * cos(now))
            add(now, side)
        heading += turn
        folded.ends.append((at, heading))
    return folded
