"""The curves from which skins are made: polyline, arc, circle with offset and tilt, rounded rectangle, spline, apex."""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
from scipy.interpolate import CubicSpline

from kit.core.errors import KitError
from kit.geometry.development.arrays import CLOSE, Floats, Point, lengths_along, norm, points
from kit.geometry.development.curves import Curve
from kit.geometry.development.segments import Arc, Dot, Line, Piece, Spline


def apex(point: Point, name: str = "apex") -> Curve:
    """Return a single point (3,) as a closed curve, for cones and pyramids that end in a tip."""
    return Curve((Dot(np.asarray(point, dtype=np.float64)),), True, name)


def polyline(vertices: Sequence[Point] | Floats, *, closed: bool = False, name: str = "polyline") -> Curve:
    """Return straight edges through (n, 3) vertices; a closed one does not repeat the first.

    Raises: KitError for fewer than two vertices (three if closed) or an edge without length.
    """
    array = points(vertices, 3)
    if len(array) < 2 + closed:
        raise KitError(f"The {name} has {len(array)} points; a {'closed ' * closed}line needs at least {2 + closed}")
    ends = np.vstack([array, array[:1]]) if closed else array
    return Curve(tuple(Line(p, q) for p, q in pairwise(ends)), closed, name)


def line(begin: Point, end: Point, name: str = "line") -> Curve:
    """Return the straight line between two points (3,)."""
    return polyline([begin, end], name=name)


def arc(begin: Point, through: Point, end: Point, name: str = "arc") -> Curve:
    """Return the circular arc from begin over through to end, points (3,), mm.

    Raises: KitError when the three points lie on one line.
    """
    p, q, r = (np.asarray(point, dtype=np.float64) for point in (begin, through, end))
    a, b = q - p, r - p
    normal = np.cross(a, b)
    square = normal @ normal
    if square < CLOSE**2:
        raise KitError(f"The three points of the {name} lie on one line; move the middle one, or use a line")
    center = p + np.cross((a @ a) * b - (b @ b) * a, normal) / (2 * square)
    major = p - center
    minor = np.cross(normal / np.sqrt(square), major)
    sweep = float(np.arctan2((r - center) @ minor, (r - center) @ major)) % (2 * np.pi)
    return Curve((Arc(center, major, minor, 0.0, sweep),), False, name)


def tilted(tilt: float, azimuth: float) -> Floats:
    """Return the rotation (3, 3) by tilt (rad) that lowers the side at azimuth (rad from x) of a horizontal plane."""
    x, y = -np.sin(azimuth), np.cos(azimuth)
    c, s = np.cos(tilt), np.sin(tilt)
    return np.array(
        [
            [c + x * x * (1 - c), x * y * (1 - c), y * s],
            [x * y * (1 - c), c + y * y * (1 - c), -x * s],
            [-y * s, x * s, c],
        ]
    )


def circle(
    radius: float,
    center: Point = (0.0, 0.0, 0.0),
    *,
    tilt: float = 0.0,
    azimuth: float = 0.0,
    start: float = 0.0,
    name: str = "circle",
) -> Curve:
    """Return a closed circle, counterclockwise seen from above, in four arcs.

    radius, center (3,): mm; tilt lowers the side at azimuth; the curve starts at angle start from x; all rad.
    Raises: KitError for a radius that is not above zero.
    """
    return ellipse(radius, radius, center, tilt=tilt, azimuth=azimuth, start=start, name=name)


def ellipse(
    half_x: float,
    half_y: float,
    center: Point = (0.0, 0.0, 0.0),
    *,
    tilt: float = 0.0,
    azimuth: float = 0.0,
    start: float = 0.0,
    name: str = "ellipse",
) -> Curve:
    """Return a closed ellipse with half axes (mm) along x and y before it is tilted; otherwise as `circle`.

    Raises:
        KitError: a half axis that is not above 0 mm.
    """
    if min(half_x, half_y) <= 0:
        raise KitError(f"The {name} has a radius of {min(half_x, half_y):g} mm; it must be above 0 mm")
    turn = tilted(tilt, azimuth)
    major, minor = turn @ [half_x, 0.0, 0.0], turn @ [0.0, half_y, 0.0]
    middle = np.asarray(center, dtype=np.float64)
    quarters = start + np.pi / 2 * np.arange(4)
    return Curve(tuple(Arc(middle, major, minor, begin, np.pi / 2) for begin in quarters), True, name)


def rectangle(
    width: float,
    depth: float,
    center: Point = (0.0, 0.0, 0.0),
    *,
    radius: float = 0.0,
    tilt: float = 0.0,
    azimuth: float = 0.0,
    name: str = "rectangle",
) -> Curve:
    """Return a closed rectangle with sharp or round corners, counterclockwise from the middle of its +x side.

    width (x), depth (y), radius of the corners, center (3,): mm; tilt and azimuth as in `circle`.
    Raises: KitError for a side that is not above zero, or a radius above half the shorter side.
    """
    if min(width, depth) <= 0:
        raise KitError(f"The {name} has a side of {min(width, depth):g} mm; it must be above 0 mm")
    if not 0 <= radius <= min(width, depth) / 2:
        raise KitError(
            f"The corners of the {name} have radius {radius:g} mm; with these sides it may be 0 to "
            f"{min(width, depth) / 2:g} mm"
        )
    x, y = width / 2, depth / 2
    ahead = [(x, y, 0.0), (-x, y, np.pi / 2), (-x, -y, np.pi), (x, -y, 1.5 * np.pi)]
    pieces: list[Piece] = []
    last = np.array([x, 0.0, 0.0])
    for corner_x, corner_y, begin in ahead:
        middle = np.array([corner_x - np.copysign(radius, corner_x), corner_y - np.copysign(radius, corner_y), 0.0])
        bend = Arc(middle, np.array([radius, 0.0, 0.0]), np.array([0.0, radius, 0.0]), begin, np.pi / 2)
        first, second = bend.at(np.array([0.0, 1.0]))
        if norm(first - last) > CLOSE:
            pieces.append(Line(last, first))
        if radius > 0:
            pieces.append(bend)
        last = second
    if y > radius:
        pieces.append(Line(last, np.array([x, 0.0, 0.0])))
    flat = Curve(tuple(pieces), True, name)
    return flat.moved(tilted(tilt, azimuth), np.asarray(center, dtype=np.float64))


def sampled(through: Sequence[Point] | Floats, *, closed: bool = False, name: str = "sampled curve") -> Curve:
    """Return the cubic spline through measured (n, 3) points, spaced by chord; a closed one does not repeat the first.

    Raises: KitError for fewer than three points, or two neighbors at the same place.
    """
    array = points(through, 3)
    if len(array) < 3:
        raise KitError(f"The {name} has {len(array)} points; a smooth curve needs at least 3")
    if closed:
        array = np.vstack([array, array[:1]])
    along = lengths_along(array)
    if np.diff(along).min() < CLOSE:
        raise KitError(
            f"Points {int(np.diff(along).argmin()) + 1} and {int(np.diff(along).argmin()) + 2} of the {name} "
            "lie at the same place; leave one out"
        )
    ends = "periodic" if closed else ("not-a-knot" if len(array) > 3 else "natural")
    return Curve((Spline(CubicSpline(along / along[-1], array, bc_type=ends)),), closed, name)
