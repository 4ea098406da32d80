"""Rigid motions as 4 × 4 matrices: turns, slides, the best one between two sets of matched points."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from kit.core.errors import KitError

Array = NDArray[np.float64]


def unit_vector(direction: ArrayLike, name: str = "The direction") -> Array:
    """Return the direction as a (3,) vector of length 1.

    Raises:
        KitError: not three finite numbers, or all zero.
    """
    vector = np.asarray(direction, dtype=float)
    if vector.shape != (3,) or not np.isfinite(vector).all():
        raise KitError(f"{name} is {direction!r}; it needs three finite numbers.")
    length = float(np.linalg.norm(vector))
    if length == 0.0:
        raise KitError(f"{name} is {direction!r}, which points nowhere; at least one of the numbers must not be 0.")
    return vector / length


def cross_matrix(vector: Array) -> Array:
    """Return the matrix (3, 3) that multiplies a column to the cross product of `vector` with it."""
    x, y, z = vector
    return np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])


def turn(angle: ArrayLike, point: ArrayLike, direction: ArrayLike) -> Array:
    """Return the turns by `angle` (n,) [rad] about the axis through `point` [mm]: (n, 4, 4).

    A positive angle turns counterclockwise seen against `direction` (right-hand rule). One number gives (4, 4).
    """
    cross = cross_matrix(unit_vector(direction))
    angles = np.asarray(angle, dtype=float)
    sine, cosine = np.sin(angles)[..., None, None], np.cos(angles)[..., None, None]
    moves = np.zeros((*angles.shape, 4, 4))
    moves[..., :3, :3] = np.eye(3) + sine * cross + (1.0 - cosine) * (cross @ cross)
    origin = np.asarray(point, dtype=float)
    moves[..., :3, 3] = origin - moves[..., :3, :3] @ origin
    moves[..., 3, 3] = 1.0
    return moves


def slide(way: ArrayLike, direction: ArrayLike) -> Array:
    """Return the slides by `way` (n,) [mm] along `direction`: (n, 4, 4). One number gives (4, 4)."""
    ways = np.asarray(way, dtype=float)
    moves = np.zeros((*ways.shape, 4, 4))
    moves[...] = np.eye(4)
    moves[..., :3, 3] = ways[..., None] * unit_vector(direction)
    return moves


def apply(moves: ArrayLike, points: ArrayLike) -> Array:
    """Return `points` (m, 3) [mm] moved by one (4, 4) or many (n, 4, 4) motions: (m, 3) or (n, m, 3)."""
    matrix, given = np.asarray(moves, dtype=float), np.asarray(points, dtype=float)
    moved: Array = given @ np.swapaxes(matrix[..., :3, :3], -1, -2) + matrix[..., None, :3, 3]
    return moved


def inverse(moves: ArrayLike) -> Array:
    """Return the motions that undo `moves` (…, 4, 4)."""
    matrix = np.asarray(moves, dtype=float)
    back = np.zeros_like(matrix)
    back[..., :3, :3] = np.swapaxes(matrix[..., :3, :3], -1, -2)
    back[..., :3, 3] = -np.einsum("...ij,...j->...i", back[..., :3, :3], matrix[..., :3, 3])
    back[..., 3, 3] = 1.0
    return back


def motion_of(before: ArrayLike, after: ArrayLike, weights: ArrayLike | None = None) -> Array:
    """Return the rigid motion (4, 4) that brings `before` (n, 3) nearest to `after` (n, 3) [mm].

    The weighted sum of squared distances is least; mirror images are never returned.
    Source: K. S. Arun, T. S. Huang, S. D. Blostein, Least-squares fitting of two 3-D point sets, IEEE Trans.
    PAMI 9 (1987) 698–700, with the sign of the determinant after S. Umeyama (1991); from memory.

    Raises:
        KitError: fewer than three pairs, or sets of different size.
    """
    old, new = np.asarray(before, dtype=float), np.asarray(after, dtype=float)
    if old.shape != new.shape or old.ndim != 2 or old.shape[1] != 3 or len(old) < 3:
        raise KitError(
            f"Matched points of shape {old.shape} and {new.shape} are given; both sets need the same n × 3 "
            "numbers, with at least 3 points."
        )
    share = np.ones(len(old)) if weights is None else np.asarray(weights, dtype=float)
    share = share / share.sum()
    old_center, new_center = share @ old, share @ new
    u, _, vt = np.linalg.svd((old - old_center).T @ ((new - new_center) * share[:, None]))
    flip = np.diag([1.0, 1.0, np.sign(np.linalg.det(u @ vt))])
    move = np.eye(4)
    move[:3, :3] = vt.T @ flip @ u.T
    move[:3, 3] = new_center - move[:3, :3] @ old_center
    return move
