"""What a view in space consists of: solids, lines and named points, in millimeters, z up, the front at -y."""

from dataclasses import dataclass
from functools import cached_property, lru_cache
from html import escape
from math import cos, radians, sin

import numpy as np
from numpy.typing import ArrayLike, NDArray

from kit.core.errors import KitError, near_misses

Floats = NDArray[np.float64]
Index = NDArray[np.int64]

PAINTS = {
    "wood": "#E6C794",
    "dark wood": "#B88A55",
    "bench": "#D3CEC4",
    "metal": "#B4BCC6",
    "machine": "#86A9D0",
    "ghost": "#9FB7D3",
    "cloth": "#8CC9B4",
    "air": "#8FD0F0",
    "accent": "#E69F00",
    "warn": "#D55E00",
    "light": "#EDEDED",
    "medium": "#D6D6D6",
    "strong": "#B2B2B2",
    "ink": "#111111",
    "gray": "#6B6B6B",
    "blue": "#0068A8",
    "green": "#00745A",
    "red": "#B84A00",
    "purple": "#A8407F",
}
"""Names of colors for fills and lines; told apart by lightness too, edges and words carry the meaning."""
MOST_FACES = 200_000
"""Faces in a view: more would make a page of tens of megabytes."""
FARTHEST = 1e7
"""Largest coordinate, mm."""
_SMALL = 1000
"""Faces of a solid that is never thinned."""
_WELD = 1e-6
"""Corners nearer than this, mm, are one corner."""


def paint(name: str) -> str:
    """Return a color as ``#RRGGBB`` by its name in `PAINTS`.

    Raises:
        KitError: no color has this name; the message lists the nearest ones.
    """
    if name not in PAINTS:
        raise KitError(f"There is no color {name!r} for a view in space{near_misses(name, list(PAINTS))}.")
    return PAINTS[name]


def _points(what: str, given: ArrayLike) -> Floats:
    points = np.asarray(given, dtype=np.float64)
    if points.ndim != 2 or points.shape[1] != 3 or not len(points):
        raise KitError(f"{what} has points of shape {points.shape}; give one or more rows of x, y, z.")
    if not bool((np.abs(points) <= FARTHEST).all()):  # also refuses what is not a number
        raise KitError(f"{what} has a point that is not within {FARTHEST:g} mm of the zero; check its unit.")
    return points


@dataclass(frozen=True, eq=False)
class Solid:
    """A body or a surface of triangles: vertices (n, 3) in mm, faces (m, 3) by number of vertex.

    `fill` is a name of `PAINTS`; `opacity` below 1 makes a pale ghost; edges sharper than `crease` [deg] are
    drawn, and borders, unless `crease` is 180: then outlines alone. A closed body may be turned inside out, an open
    surface is seen from both sides.

    Raises:
        KitError: wrong shapes, a vertex that is not there or not finite, an unknown fill, an opacity outside 0 to 1.
    """

    name: str
    vertices: ArrayLike
    faces: ArrayLike
    fill: str = "wood"
    opacity: float = 1.0
    crease: float = 30.0

    def __post_init__(self) -> None:
        vertices = _points(f"The solid {self.name!r}", self.vertices)
        faces = np.asarray(self.faces)
        if faces.ndim != 2 or faces.shape[1] != 3 or faces.dtype.kind not in "iu":
            raise KitError(f"The solid {self.name!r} needs faces of three numbers of vertices each.")
        if not len(faces) or faces.min() < 0 or faces.max() >= len(vertices):
            raise KitError(f"The solid {self.name!r} names a vertex that it has not; it has {len(vertices)}.")
        if not 0 < self.opacity <= 1:
            raise KitError(f"The opacity of {self.name!r} is {self.opacity:g}; it must be above 0 and at most 1.")
        paint(self.fill)
        object.__setattr__(self, "vertices", vertices)
        object.__setattr__(self, "faces", faces.astype(np.int64))

    @cached_property
    def shape(self) -> "Shape":
        """Return what does not depend on where it is seen from."""
        return _shape(np.asarray(self.vertices), np.asarray(self.faces), self.crease)


@lru_cache(maxsize=16)
def thinned(solid: Solid, most: int) -> Solid:
    """Return a solid with at most `most` faces for a small picture: its finer corners drawn together."""
    from kit.geometry.mesh import Scan, lighter

    less = lighter(Scan(np.asarray(solid.vertices), np.asarray(solid.faces)), most)
    return Solid(solid.name, less.vertices, less.faces, solid.fill, solid.opacity, solid.crease)


@dataclass(frozen=True, eq=False)
class Line:
    """A line through points (n, 3) in mm; `ink` is a name of `PAINTS`, `width_mm` on paper.

    Raises:
        KitError: fewer than two points, a point that is not finite, an unknown ink, a width not above 0.
    """

    name: str
    points: ArrayLike
    ink: str = "ink"
    width_mm: float = 0.35
    dashed: bool = False

    def __post_init__(self) -> None:
        points = _points(f"The line {self.name!r}", self.points)
        if len(points) < 2:
            raise KitError(f"The line {self.name!r} has one point; give two or more.")
        if not 0 < self.width_mm <= 5:
            raise KitError(f"The line {self.name!r} is {self.width_mm:g} mm wide; give more than 0 and at most 5 mm.")
        paint(self.ink)
        object.__setattr__(self, "points", points)


@dataclass(frozen=True, eq=False)
class Mark:
    """Words at a point (3,) in mm; drawn over everything.

    Raises:
        KitError: the point is not three finite numbers.
    """

    text: str
    point: ArrayLike

    def __post_init__(self) -> None:
        point = np.asarray(self.point, dtype=np.float64).reshape(1, -1)
        object.__setattr__(self, "point", _points(f"The mark {self.text!r}", point)[0])


@dataclass(frozen=True, eq=False)
class View:
    """A picture in space. The order of the solids does not matter; ghosts let through what is behind them.

    Raises:
        KitError: nothing to see, or more than `MOST_FACES` faces.
    """

    solids: tuple[Solid, ...] | list[Solid]
    lines: tuple[Line, ...] | list[Line] = ()
    marks: tuple[Mark, ...] | list[Mark] = ()
    title: str = ""

    def __post_init__(self) -> None:
        for name in ("solids", "lines", "marks"):
            object.__setattr__(self, name, tuple(getattr(self, name)))
        if not self.solids and not self.lines:
            raise KitError(f"The view {self.title!r} has nothing to show; give it a solid or a line.")
        if self.face_count > MOST_FACES:
            raise KitError(
                f"The view {self.title!r} has {self.face_count} faces; at most {MOST_FACES} are shown, thin the mesh."
            )

    @property
    def face_count(self) -> int:
        """Return the number of faces of all solids."""
        return sum(len(np.asarray(solid.faces)) for solid in self.solids)

    def lighter(self, most: int) -> "View":
        """Return the view with its large solids thinned to about `most` faces in all."""
        if self.face_count <= most:
            return self
        solids = []
        for solid in self.solids:
            faces = len(np.asarray(solid.faces))
            share = most * faces // self.face_count
            solids.append(solid if faces <= _SMALL else thinned(solid, max(share, _SMALL)))
        return View(solids, self.lines, self.marks, self.title)

    @property
    def box(self) -> tuple[Floats, Floats]:
        """Return the lowest and the highest corner (3,) of everything, mm."""
        parts = [
            *(np.asarray(solid.vertices)[np.unique(np.asarray(solid.faces))] for solid in self.solids),
            *(np.asarray(line.points) for line in self.lines),
            *(np.asarray(mark.point)[None] for mark in self.marks),
        ]
        return np.min([p.min(axis=0) for p in parts], axis=0), np.max([p.max(axis=0) for p in parts], axis=0)

    @property
    def words(self) -> str:
        """Return the names of what is seen, for those who cannot see it."""
        seen = [f"{solid.name}{' (pale ghost)' if solid.opacity < 1 else ''}" for solid in self.solids]
        seen += [line.name for line in self.lines]
        return ", ".join(dict.fromkeys(name for name in seen if name))


@dataclass(frozen=True)
class Camera:
    """Where one looks from: degrees around from the front (counterclockwise from above), degrees up.

    Raises:
        KitError: an angle that is not finite, or more than 90° up or down.
    """

    around: float
    up: float
    name: str = ""

    def __post_init__(self) -> None:
        if not (abs(self.around) < 1e6 and abs(self.up) <= 90):
            raise KitError(
                f"A camera was turned {self.around:g}° around and {self.up:g}° up; up must lie between -90° and 90°."
            )

    @property
    def axes(self) -> Floats:
        """Return the unit vectors (3, 3) to the right, upward and toward the eye."""
        a, e = radians(self.around), radians(self.up)
        ca, sa, ce, se = cos(a), sin(a), cos(e), sin(e)
        return np.array([(ca, sa, 0.0), (-sa * se, ca * se, ce), (sa * ce, -ca * ce, se)])

    def project(self, points: ArrayLike) -> Floats:
        """Return points (..., 3) as right, up and toward the eye, mm; parallel projection."""
        return np.asarray(np.asarray(points, dtype=np.float64) @ self.axes.T)


STANDARD = {
    "front": Camera(0, 0, "front"),
    "back": Camera(180, 0, "back"),
    "left": Camera(-90, 0, "left"),
    "right": Camera(90, 0, "right"),
    "top": Camera(0, 90, "top"),
    "corner": Camera(35, 25, "front right corner, above"),
}
"""The standard views by name."""


def camera_of(camera: str | Camera) -> Camera:
    """Return a camera, or the standard one of this name.

    Raises:
        KitError: no standard view has this name.
    """
    if isinstance(camera, Camera):
        return camera
    if camera not in STANDARD:
        raise KitError(
            f"There is no standard view {camera!r}{near_misses(camera, list(STANDARD))}; "
            f"there are {', '.join(STANDARD)}."
        )
    return STANDARD[camera]


@dataclass(frozen=True, eq=False)
class Shape:
    """A solid's corners welded, its faces' unit normals, and its edges with the two faces beside each."""

    corners: Floats
    faces: Index  # outward, if closed
    normals: Floats
    closed: bool
    sides: Index  # (m, 3) number of the edge from corner k to k + 1 of each face
    beside: Index  # (e, 2) the first two faces of each edge, twice the same at a border
    sharp: NDArray[np.bool_]  # (e,) creases and borders


def _shape(vertices: Floats, given: Index, crease: float) -> Shape:
    used, faces = np.unique(given, return_inverse=True)
    keys = np.round(vertices[used] / _WELD).astype(np.int64)
    _, first, same = np.unique(keys, axis=0, return_index=True, return_inverse=True)
    corners, faces = vertices[used][first], same.reshape(-1)[faces.reshape(given.shape)]
    whole = (faces != np.roll(faces, 1, axis=1)).all(axis=1)
    faces = faces[whole]
    count = len(faces)
    start, end = faces.reshape(-1), np.roll(faces, -1, axis=1).reshape(-1)
    low, high = np.minimum(start, end), np.maximum(start, end)
    _, sides, times = np.unique(low * (len(corners) + 1) + high, return_inverse=True, return_counts=True)
    sides = sides.reshape(-1)
    turns = np.bincount(sides, np.where(start < end, 1, -1), minlength=len(times))
    closed = bool(count and (times == 2).all() and (turns == 0).all())
    owner = np.repeat(np.arange(count), 3)
    beside = np.empty((len(times), 2), dtype=np.int64)
    beside[sides[::-1], 0] = owner[::-1]  # the first of each
    beside[sides, 1] = owner  # the last of each
    a, b, c = (corners[faces[:, k]] for k in range(3))
    normals = np.cross(b - a, c - a)
    if closed and np.einsum("ij,ij->", a, normals) < 0:
        faces, normals = faces[:, ::-1], -normals
        sides = sides.reshape(-1, 3)[:, [1, 0, 2]].reshape(-1)
    normals /= np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-300)
    bent = np.einsum("ij,ij->i", normals[beside[:, 0]], normals[beside[:, 1]]) < cos(radians(crease))
    return Shape(corners, faces, normals, closed, sides.reshape(-1, 3), beside, bent | ((times == 1) & (crease < 180)))


def described(view: View, camera: Camera) -> str:
    """Return the words under a picture's title, escaped for HTML."""
    seen = (
        f"Seen from the {camera.name}." if camera.name else f"Seen from {camera.around:g}° around, {camera.up:g}° up."
    )
    marks = f" Marked: {', '.join(mark.text for mark in view.marks)}." if view.marks else ""
    return escape(f"{seen} Shows {view.words}.{marks}" if view.words else f"{seen}{marks}")
