"""How far a part stands through the inner sides of the obstacle, and whether it is outside of it altogether."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from kit.core.errors import KitError
from kit.geometry.clearance.body import BRANCH, Body
from kit.geometry.clearance.distance import Array, Frames, Index, frames, nearest_point, point_distance
from kit.geometry.clearance.field import Field
from kit.geometry.clearance.obstacle import Obstacle
from kit.geometry.clearance.sample import candidates, moved, swept_bounds

ALIKE = 1e-6  # [mm] distances that count as equal


@dataclass(frozen=True)
class Intrusion:
    """The deepest corner of the part behind an inner side: its depth [mm], board, pose and the two points."""

    board: str
    depth: float
    pose: int
    here: Array  # (3,) [mm] the corner of the part
    there: Array  # (3,) [mm] the nearest point of the inner sides


def inner_sides(obstacle: Obstacle) -> tuple[Array, Index, Array]:
    """Return the triangles (n, 3, 3) that face `obstacle.inside`, their boards (n,) and their normals (n, 3) inward.

    Of a closed board these are the sides whose outward normal points to the side of the room; of a sheet
    every triangle, turned to face the room.

    Raises:
        KitError: the obstacle does not say where its room is.
    """
    if obstacle.inside is None:
        raise KitError(
            "The obstacle does not say where its room is; give a point inside, as the middle of the turning axis."
        )
    normal = np.cross(
        obstacle.triangles[:, 1] - obstacle.triangles[:, 0], obstacle.triangles[:, 2] - obstacle.triangles[:, 0]
    )
    normal /= np.linalg.norm(normal, axis=1)[:, None]
    facing = np.einsum("ij,ij->i", obstacle.inside - obstacle.triangles[:, 0], normal)
    keep = np.ones(len(normal), dtype=bool)
    for number in range(len(obstacle.names)):
        mine = np.flatnonzero(obstacle.board == number)
        volume = _volume(obstacle.triangles[mine])
        if volume is None:
            normal[mine] *= np.sign(facing[mine])[:, None]
            keep[mine] = facing[mine] != 0.0
        else:
            normal[mine] *= np.sign(volume)
            keep[mine] = facing[mine] * np.sign(volume) > ALIKE
    return obstacle.triangles[keep], obstacle.board[keep], normal[keep]


def _volume(triangles: Array) -> float | None:
    """Return the signed volume of a closed surface, or None if an edge lacks its partner."""
    corners = triangles.reshape(-1, 3)
    size = max(float(np.ptp(corners, axis=0).max()), 1e-9)
    _, same = np.unique(np.round((corners - corners.min(axis=0)) / (1e-7 * size)), axis=0, return_inverse=True)
    same = same.reshape(-1, 3)
    edges = np.concatenate([same[:, [0, 1]], same[:, [1, 2]], same[:, [2, 0]]])
    forward, backward = np.unique(edges, axis=0), np.unique(edges[:, ::-1], axis=0)
    if len(forward) != len(edges) or not np.array_equal(forward, backward):
        return None
    a, b, c = np.moveaxis(triangles - corners.mean(axis=0), 1, 0)
    volume = float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6.0)
    return volume if volume != 0.0 else None


def intrusion(body: Body, obstacle: Obstacle, poses: ArrayLike) -> Intrusion | None:
    """Return the deepest corner of the part behind the inner sides at `poses` (n, 4, 4), or None if there is none.

    Depth is the distance to the nearest point of the inner sides, however thick the boards are; a corner that is
    nearest to an open rim is not behind. At the poses given, over the corners of the triangles: 'sampled'.

    Raises:
        KitError: the obstacle does not say where its room is.
    """
    triangles, board, normals = inner_sides(obstacle)
    moves = np.asarray(poses, dtype=float)
    if len(triangles) == 0:
        return None
    sides = frames(triangles)
    groups = np.zeros(len(triangles), dtype=np.int64)
    field = Field(sides, groups, swept_bounds(body, moves))
    nodes = len(body.levels[-1].radius)
    node, pose = np.tile(np.arange(nodes), len(moves)), np.repeat(np.arange(len(moves)), nodes)
    for number in reversed(range(len(body.levels))):
        level = body.levels[number]
        center = moved(moves[pose], level.center[node])
        depth, _ = _depth(field, sides, normals, groups, center)
        radius = level.radius[node]
        keep = (depth + radius > 0.0) & (depth + radius >= (depth - radius).max())
        node, pose = node[keep], pose[keep]
        if len(node) == 0:
            return None
        if number == 0:
            break
        node, pose = (node[:, None] * BRANCH + np.arange(BRANCH)).ravel(), np.repeat(pose, BRANCH)
        real = node < len(body.levels[number - 1].radius)
        node, pose = node[real], pose[real]
    corner = moved(np.repeat(moves[pose], 3, axis=0), body.triangles[node].reshape(-1, 3))
    depth, nearest = _depth(field, sides, normals, groups, corner)
    at = int(np.argmax(depth))
    if depth[at] <= 0.0:
        return None
    there = nearest_point(sides.take(nearest[at : at + 1]), corner[at : at + 1])[0]
    return Intrusion(obstacle.names[board[nearest[at]]], float(depth[at]), int(pose[at // 3]), corner[at], there)


def _depth(field: Field, sides: Frames, normals: Array, groups: Index, points: Array) -> tuple[Array, Index]:
    """Return the distance to the inner sides, negative in front of them, and the nearest triangle."""
    owner, triangle = candidates(field, groups, points, np.zeros(len(points), dtype=np.int64), np.zeros(len(points)))
    distance = point_distance(sides.take(triangle), points[owner])
    first = np.flatnonzero(np.diff(owner, prepend=-1))
    least = np.minimum.reduceat(distance, first)
    alike = distance <= least[owner] + ALIKE
    owner, triangle = owner[alike], triangle[alike]
    off = points[owner] - nearest_point(sides.take(triangle), points[owner])
    front = np.einsum("ij,ij->i", off, normals[triangle]) >= 0.0
    in_front = np.zeros(len(points), dtype=bool)
    in_front[owner[front]] = True
    nearest = np.zeros(len(points), dtype=np.int64)
    nearest[owner] = triangle
    back = np.zeros_like(points)
    back[owner] = off
    in_front |= ~_made_of(back, normals[triangle], owner)
    return np.where(in_front, -least, least), nearest


def _made_of(ways: Array, normals: Array, owner: Index) -> NDArray[np.bool_]:
    """Return which of `ways` (n, 3) lie in the plane or line of the normals that meet at their end.

    From behind a side, or behind an edge in which two sides meet, the way back does; beside an open rim it does not.
    """
    spread = np.zeros((len(ways), 3, 3))
    np.add.at(spread, owner, normals[:, :, None] * normals[:, None, :])
    size, frame = np.linalg.eigh(spread)
    parts = np.einsum("nij,ni->nj", frame, ways)
    left = np.where(size < 1e-9, parts, 0.0)
    made: NDArray[np.bool_] = (left**2).sum(axis=1) <= 1e-6 * (ways**2).sum(axis=1)
    return made
