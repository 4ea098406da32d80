"""Convex solids whose faces keep their names while planes cut them."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import atan2

import numpy as np
from numpy.typing import ArrayLike, NDArray

from kit.core.errors import KitError

Array = NDArray[np.float64]
Index = NDArray[np.int64]
Point = tuple[float, float, float]

ON = 1e-7  # [mm] a corner nearer to a plane than this lies on it
SAME = 4.0 * ON  # [mm] corners that are nearer to each other along every axis are one
FAR = 1e5  # [mm] half the side of the block that is cut to begin with


@dataclass(frozen=True)
class Plane:
    """The half space normal · p ≤ offset [mm], with the name that the cut face gets."""

    name: str
    normal: Array  # (3,) unit, outward
    offset: float

    @classmethod
    def of(cls, name: str, normal: ArrayLike, offset: float) -> "Plane":
        """Return the half space normal · p ≤ offset, the normal of any length.

        Raises:
            KitError: a normal without direction.
        """
        array = np.asarray(normal, dtype=float)
        length = float(np.linalg.norm(array))
        if not np.isfinite(length) or length < 1e-12:
            raise KitError(f"The plane {name!r} has no direction; give a normal that is not zero.")
        return cls(name, array / length, offset / length)

    def depth(self, points: ArrayLike) -> Array:
        """Return how far `points` (n, 3) lie behind the plane [mm], below 0 in front of it."""
        return np.asarray(self.offset - np.asarray(points, dtype=float) @ self.normal)


@dataclass(frozen=True)
class Side:
    """One face of a solid: its plane and its corners [mm], counterclockwise seen from outside.

    The corners are plain numbers: a body is cut by hundreds of planes, and sides have few corners.
    """

    plane: Plane
    points: tuple[Point, ...]

    @property
    def name(self) -> str:
        """The name of the plane that made it."""
        return self.plane.name

    @cached_property
    def corners(self) -> Array:
        """The corners (n, 3) [mm]."""
        return np.array(self.points)


@dataclass(frozen=True)
class Solid:
    """A convex solid by its sides; without sides it is empty."""

    sides: tuple[Side, ...]

    def cut(self, plane: Plane) -> "Solid":
        """Return what of the solid lies behind the plane."""
        (a, b, c), offset = plane.normal.tolist(), float(plane.offset)
        depths = [[offset - a * x - b * y - c * z for x, y, z in side.points] for side in self.sides]
        if not depths or min(map(min, depths)) >= -ON:
            return self
        if max(map(max, depths)) <= ON:
            return Solid(())
        kept: list[Side] = []
        rim: list[Point] = []
        for side, depth in zip(self.sides, depths, strict=True):
            points = _behind(side.points, depth, rim)
            if len(points) >= 3:
                kept.append(side if len(points) == len(depth) and min(depth) >= -ON else Side(side.plane, points))
        cap = _ring(rim, plane.normal)
        return Solid((*kept, Side(plane, cap)) if len(cap) >= 3 else tuple(kept))

    def side(self, name: str) -> Side | None:
        """Return the side of that name, or None if the cuts left nothing of it."""
        return next((side for side in self.sides if side.name == name), None)

    @cached_property
    def volume(self) -> float:
        """The volume [mm³], by the divergence theorem."""
        total = 0.0
        for side in self.sides:
            (ax, ay, az), *rest = side.points
            for (bx, by, bz), (cx, cy, cz) in pairwise(rest):
                total += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)
        return total / 6.0

    @cached_property
    def mesh(self) -> tuple[Array, Index]:
        """Vertices (n, 3) [mm] and triangles (m, 3), closed, normals outward."""
        different: list[Point] = []
        faces = []
        for side in self.sides:
            ring = [_number(point, different) for point in side.points]
            ring = [k for k, before in zip(ring, [ring[-1], *ring[:-1]], strict=True) if k != before]
            faces += [(ring[0], ring[k], ring[k + 1]) for k in range(1, len(ring) - 1)]
        return np.array(different).reshape(-1, 3), np.array(faces, dtype=np.int64).reshape(-1, 3)


def solid(planes: Iterable[Plane]) -> Solid:
    """Return the solid that lies behind all planes.

    Raises:
        KitError: the planes do not close it on every side.
    """
    block = _block()
    for plane in planes:
        block = block.cut(plane)
    open_sides = [side for side in block.sides if side.name == ""]
    if open_sides:
        raise KitError("The faces do not close round a room; give faces that lean together on every side.")
    return block


def _block() -> Solid:
    sides = []
    for axis in range(3):
        for sign in (1.0, -1.0):
            normal = np.zeros(3)
            normal[axis] = sign
            first, second = np.roll(normal, 1), np.cross(normal, np.roll(normal, 1))
            square = np.array([first + second, second - first, -first - second, first - second])
            points = tuple((x, y, z) for x, y, z in (FAR * (normal + square)).tolist())
            sides.append(Side(Plane("", normal, FAR), points))
    return Solid(tuple(sides))


def _behind(points: tuple[Point, ...], depth: list[float], rim: list[Point]) -> tuple[Point, ...]:
    """Cut one polygon: corners behind or on the plane stay, edges that cross end there; `rim` takes what is on it."""
    found = []
    for number, (p, here) in enumerate(zip(points, depth, strict=True)):
        q, there = points[number - len(points) + 1], depth[number - len(points) + 1]
        if here >= -ON:
            found.append(p)
            if here <= ON:
                rim.append(p)
        if (here > ON and there < -ON) or (here < -ON and there > ON):
            # From the same end for both sides of the edge, so that both get the very same point.
            new = _between(q, p, there / (there - here)) if here < there else _between(p, q, here / (here - there))
            found.append(new)
            rim.append(new)
    return tuple(found)


def _between(p: Point, q: Point, share: float) -> Point:
    return (p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share, p[2] + (q[2] - p[2]) * share)


def _ring(points: list[Point], normal: Array) -> tuple[Point, ...]:
    """Return the different points on a plane, counterclockwise about its normal."""
    different: list[Point] = []
    for point in points:
        _number(point, different)
    if len(different) < 3:
        return tuple(different)
    middle = [sum(part) / len(different) for part in zip(*different, strict=True)]
    arms = [(x - middle[0], y - middle[1], z - middle[2]) for x, y, z in different]
    a, b, c = max(arms, key=lambda arm: arm[0] ** 2 + arm[1] ** 2 + arm[2] ** 2)
    n, m, k = normal.tolist()
    u, v, w = m * c - k * b, k * a - n * c, n * b - m * a  # across the longest arm, counterclockwise
    angles = [atan2(x * u + y * v + z * w, x * a + y * b + z * c) for x, y, z in arms]
    return tuple(point for _, point in sorted(zip(angles, different, strict=True)))


def _number(point: Point, different: list[Point]) -> int:
    """Return which of the points that are told apart this one is; a new one is added."""
    x, y, z = point
    for number, (a, b, c) in enumerate(different):
        if abs(x - a) <= SAME and abs(y - b) <= SAME and abs(z - c) <= SAME:
            return number
    different.append(point)
    return len(different) - 1
