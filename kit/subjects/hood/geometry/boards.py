"""The shell of a hood shared out among its boards: every point belongs to the face that it is nearest behind.

Depth behind a face is counted in thicknesses of its board. Where two faces are equally deep lies the miter: for
boards of one thickness that is the plane that halves the angle between them, and in any case it goes through the
outer and the inner corner line. Each board is therefore convex, no two overlap and nothing is left between them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import acos, asin, atan2, pi

import numpy as np
from numpy.typing import ArrayLike

from kit.core.errors import KitError
from kit.geometry.solids.convex import Array, Plane, Side, Solid, solid

OUTSIDE, INSIDE = "outside", "inside"


@dataclass(frozen=True)
class Face:
    """The outside plane of a board, its thickness [mm], and the point (3,) from which it is measured."""

    plane: Plane
    thickness: float
    origin: Array

    @classmethod
    def of(cls, name: str, normal: ArrayLike, offset: float, thickness: float) -> "Face":
        """Return the face normal · p = offset [mm], measured from its lowest line's point nearest to the z axis.

        A level face is measured from the z axis.

        Raises:
            KitError: a thickness that is not above 0, or a normal without direction.
        """
        if not thickness > 0.0:
            raise KitError(f"The board {name!r} is {thickness:g} mm thick; it must be above 0 mm.")
        plane = Plane.of(name, normal, offset)
        level = plane.normal * [1.0, 1.0, 0.0]
        reach = float(level @ level)
        if reach > 1e-12:
            origin = level * (plane.offset / reach)
        else:
            origin = np.array([0.0, 0.0, plane.offset * plane.normal[2]])
        return cls(plane, thickness, origin)

    @property
    def name(self) -> str:
        """The name of the face and of its board."""
        return self.plane.name

    @cached_property
    def axes(self) -> Array:
        """The rows u, v, n: level to the right seen from outside, up the face (or back, if level), outward."""
        n = self.plane.normal
        level = np.linalg.norm(n[:2])
        u = np.array([-n[1], n[0], 0.0]) / level if level > 1e-6 else np.array([np.sign(n[2]), 0.0, 0.0])
        return np.array([u, np.cross(n, u), n])

    @property
    def slope(self) -> float:
        """The angle from the horizontal [rad]: π/2 is upright, more leans outward."""
        return float(np.arccos(np.clip(self.plane.normal[2], -1.0, 1.0)))

    def flat(self, points: ArrayLike) -> Array:
        """Return `points` (n, 3) on the face's own axes (n, 3) [mm]: along, up, and outward from the outside."""
        return np.asarray((np.asarray(points, dtype=float) - self.origin) @ self.axes.T)

    def raised(self, flat: ArrayLike) -> Array:
        """Return points in space (n, 3) from those on the face's axes (n, 2) or (n, 3) [mm]."""
        array = np.asarray(flat, dtype=float)
        return np.asarray(self.origin + array @ self.axes[: array.shape[1]])


@dataclass(frozen=True)
class Edge:
    """One cut of a board: what it meets, its two lengths [mm], and how the saw is set for it [rad].

    `miter` is counted from a square cut across the board, above 0 where the board narrows upward; a cut along the
    board has none. `tilt` is the blade's tilt from vertical with the outside on the table, above 0 if the outside
    stays longer. `dihedral` is the inside angle to the neighboring face.
    """

    meets: str
    outside: float
    inside: float
    along: bool
    miter: float
    tilt: float
    dihedral: float | None
    line: Array  # (2, 3) [mm] the outer corner line


@dataclass(frozen=True)
class Board:
    """A board as a convex solid, before openings are cut into it."""

    face: Face
    solid: Solid
    edges: tuple[Edge, ...]

    @property
    def name(self) -> str:
        """The name of its face."""
        return self.face.name

    def outline(self, side: str = OUTSIDE) -> Array:
        """Return the corners (n, 2) [mm] of its outside or inside on the face's own axes."""
        found = self.solid.side(side)
        if found is None:
            return np.zeros((0, 2))
        flat = self.face.flat(found.corners)[:, :2]
        return flat if side == OUTSIDE else flat[::-1]

    @cached_property
    def size(self) -> tuple[float, float]:
        """Length along and width up the board [mm], outside and inside together: the least rectangle to cut from."""
        both = np.concatenate([self.outline(OUTSIDE), self.outline(INSIDE)])
        along, up = np.ptp(both, axis=0)
        return float(along), float(up)


def room(faces: Sequence[Face], floor: Sequence[Plane] = (), *, inside: bool = False) -> Solid:
    """Return what the outside planes enclose, or the room that the insides leave; `floor` closes it below."""
    planes = [Plane(face.name, face.plane.normal, face.plane.offset - face.thickness * inside) for face in faces]
    return solid([*planes, *floor])


def boards(faces: Sequence[Face], floor: Sequence[Plane] = ()) -> tuple[Board, ...]:
    """Return the board of each face that has any; `floor` are planes on which boards end without a partner.

    Raises:
        KitError: two faces of one name, or faces that do not close round a room.
    """
    names = [face.name for face in faces]
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        raise KitError(f"Two faces of the hood are called {twice[0]!r}; give each its own name.")
    whole = room(faces, floor)
    outer = {face.name: face.plane for face in faces}
    made = []
    for face in faces:
        part = whole
        if part.side(face.name) is None:
            continue
        part = _renamed(part, face.name)
        part = part.cut(Plane(INSIDE, -face.plane.normal, face.thickness - face.plane.offset))
        for other in faces:
            if other is not face:
                part = part.cut(_miter(face, other))
        made.append(Board(face, part, _edges(face, part, outer)))
    return tuple(made)


def _renamed(part: Solid, name: str) -> Solid:
    """Call the outside of the board so; the other faces of the hood are cut away by the miters."""
    return Solid(
        tuple(
            Side(Plane(OUTSIDE, side.plane.normal, side.plane.offset), side.points) if side.name == name else side
            for side in part.sides
        )
    )


def _miter(face: Face, other: Face) -> Plane:
    """Return the half space of points that lie less deep behind `face` than behind `other`, in thicknesses."""
    here, there = face.plane, other.plane
    normal = there.normal / other.thickness - here.normal / face.thickness
    return Plane.of(other.name, normal, there.offset / other.thickness - here.offset / face.thickness)


def _edges(face: Face, part: Solid, outer: dict[str, Plane]) -> tuple[Edge, ...]:
    """Read each cut of a board off its solid."""
    found = []
    for side in part.sides:
        if side.name in (OUTSIDE, INSIDE):
            continue
        flat = face.flat(side.corners)
        outer_line, inner_line = (_line(side.corners, flat[:, 2] - depth) for depth in (0.0, -face.thickness))
        along, up, out = (float(part) for part in face.axes @ side.plane.normal)
        lengthwise = abs(along) < 1e-9
        partner = outer.get(side.name)
        found.append(
            Edge(
                side.name,
                float(np.linalg.norm(outer_line[1] - outer_line[0])),
                float(np.linalg.norm(inner_line[1] - inner_line[0])),
                along=lengthwise,
                miter=0.0 if lengthwise else atan2(up, abs(along)),
                tilt=-asin(max(-1.0, min(1.0, out))),
                dihedral=None if partner is None else _inside_angle(partner, face.plane),
                line=outer_line,
            )
        )
    return tuple(found)


def _line(corners: Array, height: Array) -> Array:
    """Return the two ends (2, 3) of what lies at height 0, alike if there is no line."""
    on = corners[np.abs(height) < 1e-5]
    return on[[0, -1]] if len(on) >= 2 else np.zeros((2, 3))


def _inside_angle(one: Plane, two: Plane) -> float:
    return pi - acos(max(-1.0, min(1.0, float(one.normal @ two.normal))))
