"""Where a thing stands in the station: moved, and turned about the vertical; x to the right, y to the back, z up."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, sin

Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Frame:
    """The axes of a thing in others: its zero at `at` (mm), turned counterclockwise from above by `turn` (rad)."""

    at: Point = (0.0, 0.0, 0.0)
    turn: float = 0.0

    @property
    def axes(self) -> tuple[Point, Point, Point]:
        """Its unit vectors along x, y and z."""
        c, s = cos(self.turn), sin(self.turn)
        return (c, s, 0.0), (-s, c, 0.0), (0.0, 0.0, 1.0)

    def point(self, inner: Point) -> Point:
        """Return where a point (mm) of the thing lies."""
        x, y, z = (
            zero + sum(share * axis[k] for share, axis in zip(inner, self.axes, strict=True))
            for k, zero in enumerate(self.at)
        )
        return x, y, z

    def holds(self, inner: Frame) -> Frame:
        """Return the axes of a thing that stands in those of this one."""
        return Frame(self.point(inner.at), self.turn + inner.turn)
