"""Upright and zero: the bed plane by a robust fit, the front, and the origin on the turning axis."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from kit.core.errors import KitError
from kit.geometry.mesh.mesh import Array, Scan
from kit.geometry.motion.rigid import unit_vector
from kit.geometry.ties import signed

TRIES = 500
LOOKED_AT = 20_000  # points of a scan in the search for its bed
AT_ONCE = 4  # planes whose points are counted together


@dataclass(frozen=True)
class Plane:
    """A fitted plane and how flat its points lie."""

    point: Array  # (3,) the center of the used points
    normal: Array  # (3,) of length 1
    flatness: float  # from the lowest to the highest of the used points
    residual: float  # root mean square distance of the used points
    used: NDArray[np.bool_]  # (n,) which points


def fit_plane(points: ArrayLike, tolerance: float, *, seed: int = 1) -> Plane:
    """Return the plane on which most of `points` (n, 3) lie within `tolerance`, fitted to these by least squares.

    Three random points at a time (seeded) propose a plane; the best is refined on its points until they stay
    the same. Source: M. A. Fischler, R. C. Bolles, Random sample consensus, Comm. ACM 24 (1981) 381–395.

    Raises:
        KitError: fewer than three points, points on a line, or a tolerance that is not positive.
    """
    cloud = np.asarray(points, dtype=float)
    if cloud.ndim != 2 or cloud.shape[1] != 3 or len(cloud) < 3:
        raise KitError(f"{len(cloud)} points are given; a bed plane needs at least 3.")
    if not tolerance > 0.0:
        raise KitError(f"The tolerance of the bed plane is {tolerance:g}; it must be above 0.")
    rng = np.random.default_rng(seed)
    few = cloud if len(cloud) <= LOOKED_AT else cloud[rng.choice(len(cloud), LOOKED_AT, replace=False)]
    corners = few[rng.integers(0, len(few), (TRIES, 3))]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    size = np.linalg.norm(normals, axis=1)
    wide = size > 1e-9 * max(float(np.ptp(few, axis=0).max()) ** 2, 1e-300)
    if not wide.any():
        raise KitError("The points for the bed plane lie on a line; pick points that are spread over the bed.")
    normals, starts = normals[wide] / size[wide, None], corners[wide, 0]
    best = int(np.argmax(_near(few, normals, np.einsum("ij,ij->i", starts, normals), tolerance)))
    point, normal = starts[best], normals[best]
    used = np.abs((cloud - point) @ normal) <= tolerance
    for _ in range(20):
        if used.sum() < 3:
            raise KitError(f"No three points lie on a plane within {tolerance:g}; give a larger tolerance.")
        point = cloud[used].mean(axis=0)
        normal = np.linalg.svd(cloud[used] - point, full_matrices=False)[2][2]
        now = np.abs((cloud - point) @ normal) <= tolerance
        if np.array_equal(now, used):
            break
        used = now
    height = (cloud[used] - point) @ normal
    return Plane(point, signed(normal), float(np.ptp(height)), float(np.sqrt(np.mean(height**2))), used)


def _near(points: Array, normals: Array, offsets: Array, tolerance: float) -> NDArray[np.intp]:
    """Return how many points (n, 3) lie near each of the planes (m,), a few planes at a time: they stay in cache."""
    columns = np.ascontiguousarray(points.T)
    blocks = (slice(at, at + AT_ONCE) for at in range(0, len(normals), AT_ONCE))
    counts = [
        np.count_nonzero(np.abs(normals[block] @ columns - offsets[block, None]) <= tolerance, axis=1)
        for block in blocks
    ]
    return np.concatenate(counts)


def find_bed(scan: Scan, tolerance: float, *, seed: int = 1) -> Plane:
    """Return the plane with most of the scan's surface within `tolerance`, its normal toward most of the rest.

    Points are spread evenly over the surface (seeded), so that a dense spot does not count more.

    Raises:
        KitError: as `fit_plane`.
    """
    triangles = scan.vertices[scan.faces]
    area = np.linalg.norm(np.cross(triangles[:, 1] - triangles[:, 0], triangles[:, 2] - triangles[:, 0]), axis=1)
    rng = np.random.default_rng(seed)
    chosen = rng.choice(len(area), LOOKED_AT, p=area / area.sum())
    share = np.sqrt(rng.random(LOOKED_AT))[:, None], rng.random(LOOKED_AT)[:, None]
    a, b, c = np.moveaxis(triangles[chosen], 1, 0)
    points = (1.0 - share[0]) * a + share[0] * ((1.0 - share[1]) * b + share[1] * c)
    plane = fit_plane(points, tolerance, seed=seed)
    rest = (points[~plane.used] - plane.point) @ plane.normal
    up = plane.normal if rest.sum() >= 0.0 else -plane.normal
    return Plane(plane.point, up, plane.flatness, plane.residual, plane.used)


def machine_frame(plane: Plane, up: ArrayLike, front: ArrayLike, origin: ArrayLike) -> Array:
    """Return the motion (4, 4) of a scan that lays the bed on z = 0, with the front toward -y.

    `up` (3,) is any direction that points up from the bed, `front` (3,) from the machine to the person before it,
    `origin` (3,) a point of the turning axis: its foot on the bed becomes the origin. x goes to the right.

    Raises:
        KitError: up in the bed, or a front square to it.
    """
    normal = plane.normal * np.sign(plane.normal @ unit_vector(up, "The direction up") or 1.0)
    if abs(float(normal @ unit_vector(up, "The direction up"))) < 0.1:
        raise KitError("The direction up lies in the bed plane; give one that points away from the bed.")
    toward = unit_vector(front, "The front direction")
    level = toward - (toward @ normal) * normal
    if np.linalg.norm(level) < 0.1:
        raise KitError("The front direction is square to the bed; give one along it.")
    back = -level / np.linalg.norm(level)
    move = np.eye(4)
    move[:3, :3] = [np.cross(back, normal), back, normal]
    place = np.asarray(origin, dtype=float)
    foot = place - ((place - plane.point) @ normal) * normal
    move[:3, 3] = -move[:3, :3] @ foot
    return move
