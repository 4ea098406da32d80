"""A machine of measured boxes and cylinders as a surface, where there is no scan.

A cylinder becomes a prism that encloses it and stands proud of it by no more than `PROUD`: it errs to the safe side.
"""

from collections.abc import Sequence
from math import acos, ceil, cos, pi

import numpy as np
from numpy.typing import ArrayLike

from kit.core.errors import KitError
from kit.geometry.mesh.mesh import Array, Scan
from kit.geometry.motion.rigid import unit_vector

PROUD = 0.2  # mm, of a cylinder's prism beyond it, at most
CORNERS = np.array([[i, j, k] for k in (0, 1) for j in (0, 1) for i in (0, 1)], dtype=float)
FACES = np.array(
    [
        *([0, 2, 1], [1, 2, 3], [4, 5, 6], [5, 7, 6], [0, 1, 4], [1, 5, 4]),
        *([2, 6, 3], [3, 6, 7], [0, 4, 2], [2, 4, 6], [1, 3, 5], [3, 7, 5]),
    ]
)


def box(low: ArrayLike, high: ArrayLike) -> Scan:
    """Return the box from its low to its high corner (3,), mm, faces outward.

    Raises:
        KitError: a side is not longer than 0.
    """
    least, most = np.asarray(low, dtype=float), np.asarray(high, dtype=float)
    if not (least < most).all():
        raise KitError(f"A box goes from {least.tolist()} to {most.tolist()} mm; each side must be longer than 0.")
    return Scan(least + CORNERS * (most - least), FACES)


def cylinder(start: ArrayLike, end: ArrayLike, radius: float) -> Scan:
    """Return the prism round a closed cylinder between the middles (3,) of its ends, mm, faces outward.

    Raises:
        KitError: ends at one place, or a radius not above 0.
    """
    one, other = np.asarray(start, dtype=float), np.asarray(end, dtype=float)
    if not radius > 0.0:
        raise KitError(f"The radius of a cylinder is {radius:g} mm; it must be above 0.")
    if (one == other).all():
        raise KitError(f"Both ends of a cylinder lie at {one.tolist()} mm; they must be apart.")
    way = unit_vector(other - one)
    aside = unit_vector(np.cross(way, np.eye(3)[int(np.argmin(np.abs(way)))]))
    count = max(6, ceil(pi / acos(radius / (radius + PROUD))))
    angle = np.arange(count) * 2.0 * pi / count
    ring: Array = (np.cos(angle)[:, None] * aside + np.sin(angle)[:, None] * np.cross(way, aside)) * (
        radius / cos(pi / count)
    )
    return prism(one + ring, other + ring, (one, other))


def prism(low: ArrayLike, high: ArrayLike, middles: ArrayLike | None = None) -> Scan:
    """Return the solid between two rings (n, 3), mm, point by point, faces outward.

    Both run counterclockwise seen from the high one. Each is seen wholly from its middle, of `middles` (2, 3), mm, or
    its mean.
    """
    ends = np.stack([np.asarray(low, dtype=float), np.asarray(high, dtype=float)])
    hubs = ends.mean(axis=1) if middles is None else np.asarray(middles, dtype=float)
    count = ends.shape[1]
    here = np.arange(count)
    then = (here + 1) % count
    faces = np.concatenate(
        [
            np.stack([here, then, here + count], axis=1),
            np.stack([then, then + count, here + count], axis=1),
            np.stack([np.full(count, 2 * count), then, here], axis=1),
            np.stack([np.full(count, 2 * count + 1), here + count, then + count], axis=1),
        ]
    )
    return Scan(np.concatenate([*ends, hubs]), faces)


def joined(scans: Sequence[Scan]) -> Scan:
    """Return several surfaces as one, their faces in order."""
    starts = np.cumsum([0, *(len(scan.vertices) for scan in scans[:-1])])
    faces = [scan.faces + start for scan, start in zip(scans, starts, strict=True)]
    return Scan(np.concatenate([scan.vertices for scan in scans]), np.concatenate(faces))
