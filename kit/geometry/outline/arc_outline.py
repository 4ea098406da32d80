"""Closed outlines of arcs and straight lines that touch without a corner, as exact geometry.

An outline is a belt round disks: walked counterclockwise, it runs round a disk of positive radius on its outside
and round one of negative radius on its inside, a hollow. From disk to disk it goes straight, along the line that
touches both.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, ceil, cos, hypot, pi, sin, sqrt, tau

import numpy as np
from numpy.typing import NDArray
from shapely import Polygon

from kit.core.errors import KitError

TOUCH = 1e-12
"""Centers this much nearer than their radii ask for, relative, still touch: rounding of the input."""

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Disk:
    """What the outline bends round: `radius` is positive for a lobe, negative for a hollow, mm."""

    center: Point
    radius: float


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of an outline: about `center` from angle `start` by `sweep` (rad, negative in a hollow); radius mm."""

    center: Point
    radius: float
    start: float
    sweep: float

    @property
    def length(self) -> float:
        """Length, mm."""
        return self.radius * abs(self.sweep)

    def point(self, part: float) -> Point:
        """Return the point after `part` of the arc."""
        angle = self.start + part * self.sweep
        return self.center[0] + self.radius * cos(angle), self.center[1] + self.radius * sin(angle)

    def heading(self, part: float) -> float:
        """Return the direction of travel after `part` of the arc, rad."""
        return self.start + part * self.sweep + (pi / 2 if self.sweep >= 0 else -pi / 2)

    def moment(self) -> float:
        """Return the integral of x dy - y dx along the arc, mm²."""
        (x, y), end = self.center, self.start + self.sweep
        turned = x * (sin(end) - sin(self.start)) - y * (cos(end) - cos(self.start))
        return self.radius * (turned + self.radius * self.sweep)


@dataclass(frozen=True, slots=True)
class Line:
    """Straight part of an outline from `p` to `q`, mm."""

    p: Point
    q: Point

    @property
    def length(self) -> float:
        """Length, mm."""
        return hypot(self.q[0] - self.p[0], self.q[1] - self.p[1])

    def point(self, part: float) -> Point:
        """Return the point after `part` of the line."""
        return self.p[0] + part * (self.q[0] - self.p[0]), self.p[1] + part * (self.q[1] - self.p[1])

    def heading(self, _part: float) -> float:
        """Return the direction of travel, rad."""
        return atan2(self.q[1] - self.p[1], self.q[0] - self.p[0])

    def moment(self) -> float:
        """Return the integral of x dy - y dx along the line, mm²."""
        return self.p[0] * self.q[1] - self.q[0] * self.p[1]


@dataclass(frozen=True)
class Outline:
    """A closed chain of arcs and lines, counterclockwise; neighbors share a point and a direction."""

    disks: tuple[Disk, ...]
    parts: tuple[Arc | Line, ...]

    @property
    def length(self) -> float:
        """Length of the whole outline, mm."""
        return sum(part.length for part in self.parts)

    @property
    def area(self) -> float:
        """Area inside, mm², by Green's theorem part by part."""
        return sum(part.moment() for part in self.parts) / 2

    def joints(self) -> tuple[float, float]:
        """Return the widest gap between neighboring parts, mm, and their largest corner, rad."""
        gaps, corners = [], []
        for part, following in zip(self.parts, (*self.parts[1:], self.parts[0]), strict=True):
            (x, y), (u, v) = part.point(1.0), following.point(0.0)
            gaps.append(hypot(u - x, v - y))
            corners.append(abs((following.heading(0.0) - part.heading(1.0) + pi) % tau - pi))
        return max(gaps), max(corners)

    def points(self, deviation: float = 0.01) -> NDArray[np.float64]:
        """Return points (n, 2) on the outline, mm, whose chords stay within `deviation` of it."""
        found: list[Point] = []
        for part in self.parts:
            count = 1
            if isinstance(part, Arc):
                step = sqrt(8 * deviation / part.radius)  # rise of a chord: radius times angle squared over 8
                count = max(2, ceil(abs(part.sweep) / step))
            found += [part.point(i / count) for i in range(count)]
        return np.array(found)

    def offset(self, distance: float) -> "Outline":
        """Return the outline at a constant `distance` outside this one (negative: inside), mm.

        Raises:
            KitError: an arc is too small for it, or the outline crosses itself there.
        """
        for disk in self.disks:
            if (disk.radius + distance) * disk.radius <= 0:
                what, side = ("lobe", "inside") if disk.radius > 0 else ("hollow", "outside")
                raise KitError(
                    f"The outline has a {what} of radius {abs(disk.radius):g} mm, which comes to a corner "
                    f"{abs(distance):g} mm {side}; stay below that radius, or make the {what} larger."
                )
        return belt([Disk(disk.center, disk.radius + distance) for disk in self.disks])


def belt(disks: Sequence[Disk]) -> Outline:
    """Return the outline round `disks` in counterclockwise order.

    Raises:
        KitError: fewer than two disks, a radius of zero, neighbors that no line can touch as asked, or an outline
            that crosses itself.
    """
    if len(disks) < 2:
        raise KitError(f"An outline was asked for round {len(disks)} disk(s); give two at least.")
    headings, lines = [], []
    for disk, following in zip(disks, (*disks[1:], disks[0]), strict=True):
        if disk.radius == 0:
            raise KitError("A disk of the outline has a radius of 0 mm; a corner needs one, if only a small one.")
        heading = _tangent(disk, following)
        p, q = (
            (d.center[0] + d.radius * sin(heading), d.center[1] - d.radius * cos(heading)) for d in (disk, following)
        )
        headings.append(heading)
        lines.append(Line(p, q))
    parts: list[Arc | Line] = []
    for i, (disk, line) in enumerate(zip(disks, lines, strict=True)):
        turn = (headings[i] - headings[i - 1]) % tau
        if disk.radius > 0:
            parts.append(Arc(disk.center, disk.radius, headings[i - 1] - pi / 2, turn))
        else:
            parts.append(Arc(disk.center, -disk.radius, headings[i - 1] + pi / 2, turn - tau if turn else 0.0))
        if line.length > TOUCH * max(abs(disk.radius), 1.0):
            parts.append(line)
    found = Outline(tuple(disks), tuple(parts))
    if found.area <= 0 or not Polygon(found.points(0.05)).is_valid:
        raise KitError(
            "The outline crosses itself; put the disks in counterclockwise order, farther apart, or make them smaller."
        )
    return found


def star(count: int, outer: float, lobe: float, waist: float, hollow: float, *, first: float = 0.0) -> Outline:
    """Return a star of `count` lobes, `outer` from the middle to their tops, `waist` to the hollows' bottoms, mm.

    `lobe` and `hollow` are the radii of their arcs, mm; `first` is the direction of a lobe, rad.

    Raises:
        KitError: fewer than two lobes, a size of zero or below, or arcs that cannot be joined.
    """
    if count < 2:
        raise KitError(f"A star of {count} lobe(s) was asked for; it needs two at least.")
    for what, size in (("lobe", lobe), ("hollow", hollow), ("waist", waist)):
        if not size > 0:
            raise KitError(f"The {what} of a star was given a radius of {size:g} mm; it must be above 0 mm.")
    disks = []
    for i in range(count):
        at, between = first + tau * i / count, first + tau * (i + 0.5) / count
        disks.append(Disk(((outer - lobe) * cos(at), (outer - lobe) * sin(at)), lobe))
        far = waist + hollow
        disks.append(Disk((far * cos(between), far * sin(between)), -hollow))
    return belt(disks)


def _tangent(disk: Disk, following: Disk) -> float:
    """Return the heading of the line that leaves `disk` and meets `following`, each on its own side."""
    dx, dy = following.center[0] - disk.center[0], following.center[1] - disk.center[1]
    distance, step = hypot(dx, dy), following.radius - disk.radius
    square = distance**2 - step**2
    if square < -TOUCH * max(distance**2, step**2) or distance == 0:
        raise KitError(
            f"Two neighboring arcs of the outline have centers {distance:.4g} mm apart, but their radii ask for "
            f"{abs(step):.4g} mm at least; move them apart or make them smaller."
        )
    along = sqrt(square) if square > TOUCH * distance**2 else 0.0
    # Seen along the line, both centers lie to the left by their radii.
    return atan2(dy, dx) - atan2(step, along)
