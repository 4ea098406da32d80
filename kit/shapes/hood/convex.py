"""Convex solids whose faces keep their names while planes cut them."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray

from kit.errors import KitError

Array = NDArray[np.float64]
Index = NDArray[np.int64]

ON = 1e-7  # [mm] a corner nearer to a plane than this lies on it
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
    """One face of a solid: its plane and its corners (n, 3) [mm], counterclockwise seen from outside."""

    plane: Plane
    corners: Array

    @property
    def name(self) -> str:
        """The name of the plane that made it."""
        return self.plane.name


@dataclass(frozen=True)
class Solid:
    """A convex solid by its sides; without sides it is empty."""

    sides: tuple[Side, ...]

    def cut(self, plane: Plane) -> "Solid":
        """Return what of the solid lies behind the plane."""
        depths = [plane.depth(side.corners) for side in self.sides]
        if not depths or min(depth.min() for depth in depths) >= -ON:
            return self
        if max(depth.max() for depth in depths) <= ON:
            return Solid(())
        kept, rim = [], []
        for side, depth in zip(self.sides, depths, strict=True):
            corners = _behind(side.corners, depth)
            if len(corners) >= 3:
                kept.append(Side(side.plane, corners))
            rim.append(corners[np.abs(plane.depth(corners)) <= 2.0 * ON] if len(corners) else corners)
        cap = _ring(np.concatenate(rim), plane.normal)
        return Solid((*kept, Side(plane, cap)) if len(cap) >= 3 else tuple(kept))

    def side(self, name: str) -> Side | None:
        """Return the side of that name, or None if the cuts left nothing of it."""
        return next((side for side in self.sides if side.name == name), None)

    @cached_property
    def volume(self) -> float:
        """The volume [mm³], by the divergence theorem."""
        total = 0.0
        for side in self.sides:
            a, b, c = side.corners[0], side.corners[1:-1], side.corners[2:]
            total += float(np.einsum("ij,ij->", np.cross(b - a, c - a), np.broadcast_to(a, b.shape)))
        return total / 6.0

    @cached_property
    def mesh(self) -> tuple[Array, Index]:
        """Vertices (n, 3) [mm] and triangles (m, 3), closed, normals outward."""
        if not self.sides:
            return np.zeros((0, 3)), np.zeros((0, 3), dtype=np.int64)
        corners = np.concatenate([side.corners for side in self.sides])
        points, same = _merged(corners)
        faces, start = [], 0
        for side in self.sides:
            ring = same[start : start + len(side.corners)]
            start += len(ring)
            ring = ring[ring != np.roll(ring, 1)]
            faces += [(ring[0], ring[k], ring[k + 1]) for k in range(1, len(ring) - 1)]
        return points, np.array(faces, dtype=np.int64)


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
            sides.append(Side(Plane("", normal, FAR), FAR * (normal + square)))
    return Solid(tuple(sides))


def _behind(corners: Array, depth: Array) -> Array:
    """Cut one polygon: corners behind or on the plane stay, edges that cross it end there."""
    after, depth_after = np.roll(corners, -1, axis=0), np.roll(depth, -1)
    found = []
    for p, q, here, there in zip(corners, after, depth, depth_after, strict=True):
        if here >= -ON:
            found.append(p)
        if (here > ON and there < -ON) or (here < -ON and there > ON):
            # From the same end for both sides of the edge, so that both get the very same point.
            found.append(
                q + (p - q) * (there / (there - here))
                if here < there
                else p + (q - p) * (here / (here - there))
            )
    return np.array(found).reshape(-1, 3)


def _ring(points: Array, normal: Array) -> Array:
    """Return the different points on a plane, counterclockwise about its normal."""
    different, _ = _merged(points)
    if len(different) < 3:
        return different
    middle = different.mean(axis=0)
    first = different[np.argmax(np.linalg.norm(different - middle, axis=1))] - middle
    second = np.cross(normal, first)
    angle = np.arctan2((different - middle) @ second, (different - middle) @ first)
    return np.asarray(different[np.argsort(angle)])


def _merged(points: Array) -> tuple[Array, Index]:
    """Return points (k, 3) that are more than 4 ON apart, and which of them each of `points` is."""
    close = np.linalg.norm(points[:, None] - points[None], axis=2) <= 4.0 * ON
    first = np.argmax(close, axis=1)
    kept, same = np.unique(first, return_inverse=True)
    return points[kept], same.astype(np.int64)
