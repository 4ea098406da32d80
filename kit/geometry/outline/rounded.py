"""Outlines of feet: typed corners with radii, checked so that they bound one region, and laid straight."""

import numpy as np
from numpy.typing import ArrayLike, NDArray
from shapely import Polygon
from shapely.validation import explain_validity

from kit.core.errors import KitError

Floats = NDArray[np.float64]


def region(outline: ArrayLike, what: str = "the outline") -> Polygon:
    """Return the region within an outline : (n, 2), mm, counterclockwise.

    Raises: KitError for fewer than three corners, numbers that are not finite, or an outline that crosses or touches
    itself; the place is named.
    """
    points = np.asarray(outline, dtype=float)
    if points.ndim != 2 or points.shape[1] != 2 or len(points) < 3:
        raise KitError(f"{what} comes as an array {points.shape}; give at least three corners with x and y each")
    if not np.isfinite(points).all():
        raise KitError(f"{what} has a corner that is not a finite number; measure it again")
    polygon = Polygon(points)
    if not polygon.is_valid:
        reason = explain_validity(polygon)  # such as 'Self-intersection[3 4]'
        where = reason.partition("[")[2].rstrip("]").split()
        place = f" near x = {float(where[0]):.1f} mm, y = {float(where[1]):.1f} mm" if len(where) >= 2 else ""
        raise KitError(f"{what} crosses or touches itself{place}; go round the foot once, in order")
    if polygon.area <= 0:
        raise KitError(f"{what} encloses no area; give corners that do not lie in one line")
    return Polygon(polygon.exterior.coords if polygon.exterior.is_ccw else polygon.exterior.coords[::-1])


def straightened(outline: ArrayLike) -> Floats:
    """Return an outline : (n, 2), mm, turned so that its smallest enclosing rectangle lies along x and y.

    It is turned by 45° at most, and moved until that rectangle begins at x = y = 0: a foot that lay a little askew on
    the scanner. Raises KitError as `region`.
    """
    shape = region(outline)
    box = np.asarray(shape.minimum_rotated_rectangle.exterior.coords)
    side = box[1] - box[0]
    angle = np.arctan2(side[1], side[0])
    angle -= np.round(angle / (np.pi / 2)) * np.pi / 2
    c, s = np.cos(angle), np.sin(angle)
    turned = np.asarray(shape.exterior.coords)[:-1] @ np.array([[c, -s], [s, c]])
    return np.asarray(turned - turned.min(axis=0))


def rounded(corners: ArrayLike, radii: ArrayLike, error: float = 0.01) -> Floats:
    """Return the outline : (m, 2), mm, through typed corners : (n, 2), mm, each rounded by its radius.

    radii : (n,) or one for all, mm, zero for a sharp corner. error: how far a chord may stay inside its arc, mm.
    Raises: KitError for a radius below zero, radii that do not fit on a side, or what `region` refuses.
    """
    polygon = region(corners)
    points = np.asarray(corners, dtype=float)
    r = np.broadcast_to(np.asarray(radii, dtype=float), len(points))
    if not np.isfinite(r).all() or r.min() < 0:
        raise KitError(f"a corner's radius is {r.min():g} mm; give 0 or more")
    if error <= 0:
        raise KitError(f"the error of a chord is {error:g} mm; give a number above 0")
    if np.asarray(polygon.exterior.coords)[1].tolist() != points[1].tolist():
        points, r = points[::-1], r[::-1]
    into, out = points - np.roll(points, 1, axis=0), np.roll(points, -1, axis=0) - points
    lengths = np.hypot(*out.T)
    t_in, t_out = into / np.roll(lengths, 1)[:, None], out / lengths[:, None]
    turn = np.arctan2(t_in[:, 0] * t_out[:, 1] - t_in[:, 1] * t_out[:, 0], (t_in * t_out).sum(axis=1))
    cut = r * np.abs(np.tan(turn / 2))  # taken off both sides of a corner
    room = lengths - cut - np.roll(cut, -1)
    if room.min() < -1e-9:
        i = int(room.argmin())
        raise KitError(
            f"the side from corner {i + 1} is {lengths[i]:g} mm long, but its two radii take "
            f"{lengths[i] - room[i]:.4g} mm "
            "of it; make them smaller"
        )
    made = []
    for corner, back, angle, radius, short, straight in zip(points, t_in, turn, r, cut, t_out, strict=True):
        if radius == 0 or angle == 0:
            made.append(corner[None])
            continue
        side = np.sign(angle)
        normal = side * np.array([-back[1], back[0]])
        center = corner - short * back + radius * normal
        pieces = max(1, int(np.ceil(abs(angle) / (2 * np.arccos(max(1 - error / radius, -1.0))))))
        swing = angle * np.arange(pieces + 1) / pieces
        c, s = np.cos(swing), np.sin(swing)
        arm = -radius * normal
        arc = center + np.column_stack([c * arm[0] - s * arm[1], s * arm[0] + c * arm[1]])
        arc[-1] = corner + short * straight  # exactly on the side
        made.append(arc)
    outline = np.concatenate(made)
    kept: Floats = outline[np.hypot(*(outline - np.roll(outline, 1, axis=0)).T) > 1e-9]
    return kept
