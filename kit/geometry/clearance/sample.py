"""The least distance between a moving part and the obstacle at given poses, exact at these poses."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from kit.core.errors import KitError
from kit.geometry.clearance.answer import Clearance
from kit.geometry.clearance.body import BRANCH, Body
from kit.geometry.clearance.distance import Array, Index, nearest_point, point_distance, triangle_distance
from kit.geometry.clearance.field import Field, Nearness
from kit.geometry.clearance.obstacle import Obstacle
from kit.geometry.motion import apply
from kit.geometry.ties import least_few

FIRST_NODES = 64  # the coarsest level that is looked at has at least so many balls, if the part has them
AT_ONCE = 1 << 17  # balls at poses that are moved at once
TRIES = 48  # points of the part that are measured at each level
GLIMPSE = 256  # balls of each level that are followed for a first guess
PAIRS = 1 << 12  # pairs of triangles that are measured exactly at once


def sampled(
    body: Body, obstacle: Obstacle, poses: ArrayLike, *, by_board: bool = False, field: Nearness | None = None
) -> list[Clearance]:
    """Return the least distance over `poses` (n, 4, 4): one for the whole obstacle, or one for each board in order.

    Exact at these poses for the surfaces as triangulated; between the poses the part may come nearer. Where
    surfaces touch or cross, the distance is 0. `field` may be kept from an earlier call with the same obstacle and
    the same grouping.

    Raises:
        KitError: no pose, or poses of another shape.
    """
    moves = np.asarray(poses, dtype=float)
    if moves.ndim != 3 or moves.shape[1:] != (4, 4) or len(moves) == 0 or not np.isfinite(moves).all():
        raise KitError(f"Poses of shape {moves.shape} are given; at least one 4 × 4 matrix is needed: n × 4 × 4.")
    groups = obstacle.board if by_board else np.zeros(len(obstacle.triangles), dtype=np.int64)
    field = field or Field(obstacle.frames, groups, swept_bounds(body, moves))
    search = Search(body, obstacle, moves, field, groups)
    if not search.run(GLIMPSE):  # at a crossing all balls would be followed without it
        search.run()
    return [
        Clearance(
            name,
            search.best[group],
            search.best[group],
            "sampled",
            int(search.pose[group]),
            None,
            search.here[group],
            search.there[group],
        )
        for group, name in enumerate(obstacle.names if by_board else ("obstacle",))
    ]


def swept_bounds(body: Body, moves: Array) -> Array:
    """Return least and greatest corner (2, 3) [mm] of what the part sweeps at the poses, a little generous."""
    level = next(
        level for level in reversed(body.levels) if len(level.radius) >= FIRST_NODES or level is body.levels[0]
    )
    low, high = np.full(3, np.inf), np.full(3, -np.inf)
    step = max(1, AT_ONCE // len(level.radius))
    for first in range(0, len(moves), step):
        center = apply(moves[first : first + step], level.center)
        low = np.minimum(low, (center - level.radius[:, None]).min(axis=(0, 1)))
        high = np.maximum(high, (center + level.radius[:, None]).max(axis=(0, 1)))
    return np.array([low, high])


class _Pairs(NamedTuple):
    """Balls of one level at poses, each against one group, with what their distance is at least."""

    node: Index
    pose: Index
    group: Index
    least: Array

    def chosen(self, keep: NDArray[np.bool_] | Index) -> "_Pairs":
        return _Pairs._make(part[keep] for part in self)


class Search:
    """The least distance of each group found so far, and the way down the levels of balls."""

    def __init__(self, body: Body, obstacle: Obstacle, moves: Array, field: Nearness, groups: Index) -> None:
        self.body, self.obstacle, self.moves, self.field, self.groups = body, obstacle, moves, field, groups
        count = field.groups
        self.best = np.full(count, np.inf)
        self.pose = np.zeros(count, dtype=np.int64)
        self.here, self.there = np.zeros((2, count, 3))

    def run(self, width: int | None = None) -> bool:
        """Find the least distances; with a `width`, follow so many balls of each level and group, for a first guess.

        Return whether all balls were followed that could be nearer: then it was no guess.
        """
        whole = True
        number = next(
            (n for n in reversed(range(len(self.body.levels))) if len(self.body.levels[n].radius) >= FIRST_NODES),
            0,
        )
        found = self._joined(self._bounded(number, start) for start in self._starts(number))
        while True:
            self._try(number, found)
            found = self._sharpened(number, found.chosen(found.least < self.best[found.group]))
            self._try(number, found)
            found = found.chosen(found.least < self.best[found.group])
            if width is not None:
                few = self._few(number, found, width)
                whole, found = whole and len(few.node) == len(found.node), few
            if number == 0 or len(found.node) == 0:
                break
            number -= 1
            found = self._joined(self._bounded(number, part) for part in self._children(number, found))
        self._finish(found)
        return whole

    def _few(self, number: int, found: _Pairs, width: int) -> _Pairs:
        """Return the most promising balls, so many of each group: one that is far must be guessed as well."""
        kept = []
        for group in range(len(self.best)):
            mine = np.flatnonzero(found.group == group)
            few = least_few(self._centers(number, found.chosen(mine)), width) if len(mine) > width else slice(None)
            kept.append(mine[few])
        return found.chosen(np.concatenate(kept))

    def _starts(self, number: int) -> Iterator[_Pairs]:
        nodes = len(self.body.levels[number].radius)
        step = max(1, AT_ONCE // nodes)
        for group in range(len(self.best)):
            for first in range(0, len(self.moves), step):
                poses = np.arange(first, min(first + step, len(self.moves)))
                pose, node = np.repeat(poses, nodes), np.tile(np.arange(nodes), len(poses))
                yield _Pairs(node, pose, np.full(len(node), group), np.zeros(len(node)))

    def _children(self, number: int, found: _Pairs) -> Iterator[_Pairs]:
        count = len(self.body.levels[number].radius)
        for first in range(0, len(found.node), AT_ONCE // BRANCH):
            part = found.chosen(np.arange(first, min(first + AT_ONCE // BRANCH, len(found.node))))
            node = (part.node[:, None] * BRANCH + np.arange(BRANCH)).ravel()
            repeated = _Pairs._make(np.repeat(given, BRANCH) for given in part)
            yield repeated._replace(node=node).chosen(node < count)

    @staticmethod
    def _joined(parts: Iterator[_Pairs]) -> _Pairs:
        return _Pairs._make(np.concatenate(part) for part in zip(*parts, strict=True))

    def _bounded(self, number: int, found: _Pairs) -> _Pairs:
        """Look up in the field what each distance is at least, and drop what cannot beat the best."""
        level = self.body.levels[number]
        center, radius = moved(self.moves[found.pose], level.center[found.node]), level.radius[found.node]
        best = self.best[found.group]
        bound = self.field.bound(center, found.group, radius, best + radius)
        found = found._replace(least=np.maximum(bound - radius, np.maximum(found.least, 0.0)))
        return found.chosen(found.least < best)

    def _sharpened(self, number: int, found: _Pairs) -> _Pairs:
        """Measure the distance of the centers of balls that are smaller than the field's largest lists are for."""
        level = self.body.levels[number]
        center, radius = moved(self.moves[found.pose], level.center[found.node]), level.radius[found.node]
        fine = np.flatnonzero((radius < self.field.widest / 2.0) & self.field.covers(center))
        if len(fine):
            exact = self.field.distance(center[fine], found.group[fine]) - radius[fine]
            found.least[fine] = np.maximum(found.least[fine], exact)
        return found

    def _centers(self, number: int, found: _Pairs) -> Array:
        """Return about how far the centers of the balls are: small where a small distance is likely."""
        near: Array = found.least + self.body.levels[number].radius[found.node]
        return near

    def _try(self, number: int, found: _Pairs) -> None:
        """Measure points of the most promising balls, so that the best is small early."""
        level = self.body.levels[number]
        for group in range(len(self.best)):
            mine = np.flatnonzero(found.group == group)
            if len(mine) > TRIES:
                mine = mine[least_few(self._centers(number, found)[mine], TRIES)]
            spot = moved(self.moves[found.pose[mine]], level.spot[found.node[mine]])
            triangle = np.flatnonzero(self.groups == group)
            to = self.obstacle.frames.take(np.tile(triangle, len(spot)))
            distance = point_distance(to, np.repeat(spot, len(triangle), axis=0))
            if len(distance) and distance.min() < self.best[group]:
                at = int(np.argmin(distance))
                self.best[group] = distance[at]
                self.pose[group] = found.pose[mine[at // len(triangle)]]
                self.here[group] = spot[at // len(triangle)]
                to = to.take(np.array([at]))
                self.there[group] = nearest_point(to, self.here[group][None])[0]

    def _finish(self, found: _Pairs) -> None:
        """Measure triangle against triangle, the most promising first."""
        level = self.body.levels[0]
        for first in range(0, len(found.node), AT_ONCE // 8):
            part = found.chosen(np.arange(first, min(first + AT_ONCE // 8, len(found.node))))
            part = part.chosen(part.least < self.best[part.group])
            move = self.moves[part.pose]
            center, radius = moved(move, level.center[part.node]), level.radius[part.node]
            owner, triangle = candidates(self.field, self.groups, center, part.group, radius)
            to = self.obstacle.frames.take(triangle)
            near = point_distance(to, center[owner]) - radius[owner] < self.best[part.group[owner]]
            owner, triangle, to = owner[near], triangle[near], to.take(np.flatnonzero(near))
            least = plane_bound(
                self._moved_triangles(part, owner),
                self.obstacle.triangles[triangle],
                center[owner],
                nearest_point(to, center[owner]),
            )[0]
            order = np.argsort(least, kind="stable")
            for begin in range(0, len(order), PAIRS):
                now = order[begin : begin + PAIRS]
                now = now[least[now] < self.best[part.group[owner[now]]]]
                self._exact(part, owner[now], triangle[now])

    def _moved_triangles(self, part: _Pairs, owner: Index) -> Array:
        corners = self.body.triangles[part.node[owner]]
        matrix = self.moves[part.pose[owner]]
        turned: Array = np.einsum("nij,nkj->nki", matrix[:, :3, :3], corners) + matrix[:, None, :3, 3]
        return turned

    def _exact(self, part: _Pairs, owner: Index, triangle: Index) -> None:
        pairs = triangle_distance(
            self._moved_triangles(part, owner), self.obstacle.triangles[triangle], self.obstacle.frames.take(triangle)
        )
        group = part.group[owner]
        for number in np.unique(group):
            mine = np.flatnonzero(group == number)
            at = mine[np.argmin(pairs.distance[mine])]
            if pairs.distance[at] < self.best[number]:
                self.best[number], self.pose[number] = pairs.distance[at], part.pose[owner[at]]
                self.here[number], self.there[number] = pairs.here[at], pairs.there[at]


def moved(moves: Array, points: Array) -> Array:
    """Return each of `points` (n, 3) moved by the motion of its row (n, 4, 4)."""
    rows: Array = np.einsum("nij,nj->ni", moves[:, :3, :3], points) + moves[:, :3, 3]
    return rows


def candidates(field: Nearness, groups: Index, center: Array, group: Index, radius: Array) -> tuple[Index, Index]:
    """Return (ball, triangle) in the order of the balls: the triangles that can be nearest to a point in one."""
    listed = (radius <= field.widest) & field.covers(center)
    small = np.flatnonzero(listed)
    owner, triangle = field.lists(center[small], group[small], radius[small])
    owners, triangles = [small[owner]], [triangle]
    large = np.flatnonzero(~listed)
    for number in np.unique(group[large]):
        mine, members = large[group[large] == number], np.flatnonzero(groups == number)
        owners.append(np.repeat(mine, len(members)))
        triangles.append(np.tile(members, len(mine)))
    owner, triangle = np.concatenate(owners), np.concatenate(triangles)
    if len(large) == 0:
        return owner, triangle
    order = np.argsort(owner, kind="stable")
    return owner[order], triangle[order]


def plane_bound(here: Array, there: Array, center: Array, nearest: Array) -> tuple[Array, Array]:
    """Return what the distance of each pair of triangles is at least, and the direction (n, 3) that shows it.

    Both triangles lie on their own sides of two planes across the direction from `nearest` to `center`.
    """
    direction = center - nearest
    direction /= np.maximum(np.linalg.norm(direction, axis=1), 1e-300)[:, None]
    low = np.einsum("nkj,nj->nk", here, direction).min(axis=1)
    high = np.einsum("nkj,nj->nk", there, direction).max(axis=1)
    return low - high, direction
