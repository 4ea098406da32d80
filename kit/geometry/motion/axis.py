"""The axis of a joint, from points touched on the machine or from registered scans of two or more positions."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from kit.core.errors import KitError
from kit.geometry.motion.rigid import Array, apply, slide, turn, unit_vector
from kit.geometry.ties import signed

LEAST_TURN = np.radians(2.0)


@dataclass(frozen=True)
class Axis:
    """A line in space: a point on it [mm] and its direction of length 1."""

    point: Array
    direction: Array


@dataclass(frozen=True)
class Fit:
    """A fitted axis with the values of the joint in each scan, and how well one axis explains them all."""

    axis: Axis
    values: Array  # (n,) [rad] for a turn, [mm] for a slide
    residual: float  # [mm] root mean square over scans and checked points
    kind: str  # "turn" or "slide"


def circle_axis(points: ArrayLike) -> tuple[Axis, float, float]:
    """Return the axis, the radius [mm] and the residual [mm] of a circle through three or more points (n, 3).

    The points are those at which one spot of the moving part was touched. The residual is the root mean
    square distance from the circle. Source: plane by singular values, circle by linear least squares (Kåsa).

    Raises:
        KitError: fewer than three points, or points on a line.
    """
    touched = np.asarray(points, dtype=float)
    if touched.ndim != 2 or touched.shape[1] != 3 or len(touched) < 3:
        raise KitError(f"{len(touched)} points are given; an axis needs at least 3 points of the same spot on its way.")
    center = touched.mean(axis=0)
    _, size, frame = np.linalg.svd(touched - center, full_matrices=True)
    if size[1] < 1e-6 * size[0] or size[0] == 0.0:
        raise KitError("The points lie on a line; an axis needs points from three clearly different positions.")
    flat = (touched - center) @ frame[:2].T
    middle = np.linalg.lstsq(np.c_[2.0 * flat, np.ones(len(flat))], (flat**2).sum(axis=1), rcond=None)[0]
    radius = float(np.sqrt(middle[2] + middle[0] ** 2 + middle[1] ** 2))
    off = np.hypot(np.hypot(*(flat - middle[:2]).T) - radius, (touched - center) @ frame[2])
    axis = Axis(center + middle[:2] @ frame[:2], _kept_up(frame[2]))
    return axis, radius, float(np.sqrt(np.mean(off**2)))


def turn_axis(moves: ArrayLike, points: ArrayLike) -> Fit:
    """Return the joint that best explains the motions (n, 4, 4) of one part, each from its first scan.

    `points` (m, 3) [mm] of the part, in the first scan, say where the residual is taken. A turn below 2° in
    every scan counts as a slide. The direction is the main one of the rotation vectors, the point the one that
    moves least, nearest to the points' center. Plane motion of a rigid body: A. Bottema, B. Roth, Theoretical
    Kinematics (1979), from memory.

    Raises:
        KitError: no motion that is large enough to show an axis.
    """
    moved, part = np.asarray(moves, dtype=float).reshape(-1, 4, 4), np.asarray(points, dtype=float)
    vectors = np.array([_rotation_vector(move[:3, :3]) for move in moved])
    angles = np.linalg.norm(vectors, axis=1)
    center = part.mean(axis=0)
    if angles.max(initial=0.0) < LEAST_TURN:
        return _slide_axis(moved, part)
    direction = _main_direction(vectors)
    values = vectors @ direction
    # The points p of the axis stay: (R - I) p = -t, solved across the axis for all scans at once.
    left = np.concatenate([move[:3, :3] - np.eye(3) for move in moved] + [direction[None]])
    right = np.concatenate([*(-moved[:, :3, 3]), [direction @ center]])
    point = np.linalg.lstsq(left, right, rcond=None)[0]
    return _checked(Axis(point, direction), values, moved, part, "turn")


def _slide_axis(moved: Array, part: Array) -> Fit:
    center = part.mean(axis=0)
    ways = moved[:, :3, :3] @ center + moved[:, :3, 3] - center
    if np.linalg.norm(ways, axis=1).max(initial=0.0) < 1.0:
        raise KitError("The scans show less than 2° of turn and less than 1 mm of slide; scan positions further apart.")
    direction = _main_direction(ways)
    return _checked(Axis(center, direction), ways @ direction, moved, part, "slide")


def _checked(axis: Axis, values: Array, moved: Array, part: Array, kind: str) -> Fit:
    one = turn(values, axis.point, axis.direction) if kind == "turn" else slide(values, axis.direction)
    off = apply(one, part) - apply(moved, part)
    return Fit(axis, values, float(np.sqrt(np.mean((off**2).sum(axis=-1)))), kind)


def _main_direction(vectors: Array) -> Array:
    _, _, frame = np.linalg.svd(vectors)
    return _kept_up(frame[0])


def _kept_up(direction: Array) -> Array:
    """Turn an axis so that its largest part is positive: the same axis always gets the same sign."""
    return unit_vector(signed(direction))


def _rotation_vector(rotation: Array) -> Array:
    from scipy.spatial.transform import Rotation

    vector: Array = Rotation.from_matrix(rotation).as_rotvec()
    return vector
