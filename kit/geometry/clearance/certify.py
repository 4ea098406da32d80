"""The least distance between a moving part and the obstacle over every position of the joints, with a proven bound."""

import time
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from kit.core.errors import KitError
from kit.geometry.clearance.answer import Clearance
from kit.geometry.clearance.body import BRANCH, Body
from kit.geometry.clearance.distance import (
    Array,
    Index,
    Pairs,
    nearest_point,
    point_distance,
    triangle_distance,
)
from kit.geometry.clearance.field import Field
from kit.geometry.clearance.obstacle import Obstacle
from kit.geometry.clearance.sample import Search, candidates, swept_bounds
from kit.geometry.motion import Chain, Reach
from kit.geometry.ties import least_few

BATCH = 1 << 13  # pieces that are looked at before the best and the clock are asked again
FIRST_POSES = 250  # at which a small distance is looked for to begin with
FIRST_WIDTH = 2000  # balls of each level that are followed there
MOST_PIECES = 3_000_000


class _Pieces(NamedTuple):
    """Balls of the part in boxes of joint values, each against one group of the obstacle."""

    level: Index
    node: Index
    center: Array  # (n, joints)
    half: Array  # (n, joints)
    group: Index
    least: Array  # [mm]
    joint: Index  # the joint that moves the ball most
    split_ball: NDArray[np.bool_]  # what makes the bound wide: the ball or the box

    def chosen(self, keep: NDArray[np.bool_] | Index) -> "_Pieces":
        return _Pieces._make(part[keep] for part in self)


def certified(
    body: Body,
    obstacle: Obstacle,
    chain: Chain,
    *,
    tolerance: float = 1.0,
    seconds: float = 10.0,
    by_board: bool = False,
) -> list[Clearance]:
    """Return the clearance over every position within the limits, proven to `tolerance` [mm].

    `least` is proven: no position comes nearer. It is within `tolerance` of `found` unless `seconds` were
    over first, or two surfaces were found to touch (`found` is 0 and the search ends). One answer for the whole
    obstacle, or one for each board in order.

    Raises:
        KitError: a tolerance or a time that is not positive.
    """
    if not tolerance > 0.0 or not seconds > 0.0:
        raise KitError(f"A tolerance of {tolerance:g} mm and {seconds:g} s are given; both must be above 0.")
    begin = time.process_time()
    groups = obstacle.board if by_board else np.zeros(len(obstacle.triangles), dtype=np.int64)
    start = chain.grid([max(2, round(FIRST_POSES ** (1.0 / len(chain.joints))))] * len(chain.joints))
    poses = chain.poses(start)
    field = Field(obstacle.frames, groups, swept_bounds(body, poses))
    glimpse = Search(body, obstacle, poses, field, groups)
    glimpse.run(FIRST_WIDTH)
    search = _Search(body, obstacle, chain, field, groups, tolerance)
    search.best, search.here, search.there = glimpse.best, glimpse.here, glimpse.there
    search.joints = start[glimpse.pose]
    search.run(begin + seconds)
    least, complete = search.reached()
    spent = time.process_time() - begin
    return [
        Clearance(
            name,
            float(search.best[group]),
            float(least[group]),
            "certified",
            None,
            search.joints[group],
            search.here[group],
            search.there[group],
            spent,
            bool(complete[group]),
        )
        for group, name in enumerate(obstacle.names if by_board else ("obstacle",))
    ]


class _Contacts(NamedTuple):
    """Pieces against single triangles: the bound, and what makes it wide."""

    least: Array
    joint: Index
    split_ball: NDArray[np.bool_]


class _Search:
    def __init__(
        self, body: Body, obstacle: Obstacle, chain: Chain, field: Field, groups: Index, tolerance: float
    ) -> None:
        self.body, self.obstacle, self.chain, self.field, self.groups = body, obstacle, chain, field, groups
        self.tolerance = tolerance
        count = field.groups
        self.best, self.dropped = np.full((2, count), np.inf)
        self.joints = np.zeros((count, len(chain.joints)))
        self.here, self.there = np.zeros((2, count, 3))
        self.pool = self._whole()

    def run(self, end: float) -> None:
        """Split the pieces with the least bounds until none is below the tolerance, or the time is over."""
        while len(self.pool.node) and time.process_time() < end and len(self.pool.node) < MOST_PIECES:
            if len(self.pool.node) > BATCH:
                chosen = least_few(self.pool.least, BATCH)
                batch, rest = self.pool.chosen(chosen), self.pool.chosen(~chosen)
            else:
                batch, rest = self.pool, self.pool.chosen(np.arange(0))
            parts = [self._kept(rest)]
            children = self._split(self._kept(batch))
            for first in range(0, len(children.node), 2 * BATCH):
                part = children.chosen(np.arange(first, min(first + 2 * BATCH, len(children.node))))
                parts.append(self._bounded(part))
            self.pool = _joined(parts)

    def reached(self) -> tuple[Array, NDArray[np.bool_]]:
        """Return the proven bound of each group and whether it is within the tolerance."""
        least = np.minimum(self.best, self.dropped)
        np.minimum.at(least, self.pool.group, self.pool.least)
        least = np.maximum(least, 0.0)
        return least, (self.best - least <= self.tolerance) | (self.best == 0.0)

    def _whole(self) -> _Pieces:
        number = len(self.body.levels) - 1
        nodes, groups = len(self.body.levels[number].radius), len(self.best)
        count = nodes * groups
        low, high = self.chain.low, self.chain.high
        pieces = _Pieces(
            np.full(count, number),
            np.tile(np.arange(nodes), groups),
            np.tile((low + high) / 2.0, (count, 1)),
            np.tile((high - low) / 2.0, (count, 1)),
            np.repeat(np.arange(groups), nodes),
            np.zeros(count),
            np.zeros(count, dtype=np.int64),
            np.ones(count, dtype=bool),
        )
        return self._bounded(pieces)

    def _kept(self, pieces: _Pieces) -> _Pieces:
        """Drop the pieces that cannot undercut the best by more than the tolerance, and remember their bound."""
        keep = (pieces.least < self.best[pieces.group] - self.tolerance) & (self.best[pieces.group] > 0.0)
        np.minimum.at(self.dropped, pieces.group[~keep], pieces.least[~keep])
        return pieces if keep.all() else pieces.chosen(keep)

    def _split(self, pieces: _Pieces) -> _Pieces:
        balls, boxes = pieces.chosen(pieces.split_ball), pieces.chosen(~pieces.split_ball)
        smaller = _Pieces._make(np.repeat(part, BRANCH, axis=0) for part in balls)
        node = (balls.node[:, None] * BRANCH + np.arange(BRANCH)).ravel()
        smaller = smaller._replace(node=node, level=smaller.level - 1)
        sizes = np.array([len(level.radius) for level in self.body.levels])
        smaller = smaller.chosen(node < sizes[smaller.level])
        row = np.arange(len(boxes.node))
        half = boxes.half.copy()
        half[row, boxes.joint] /= 2.0
        step = np.zeros_like(half)
        step[row, boxes.joint] = half[row, boxes.joint]
        halves = [boxes._replace(half=half, center=boxes.center + sign * step) for sign in (-1.0, 1.0)]
        return _joined([smaller, *halves])

    def _balls(self, pieces: _Pieces) -> tuple[Array, Array]:
        center, radius = np.zeros((len(pieces.node), 3)), np.zeros(len(pieces.node))
        for number in np.unique(pieces.level):
            mine = pieces.level == number
            center[mine] = self.body.levels[number].center[pieces.node[mine]]
            radius[mine] = self.body.levels[number].radius[pieces.node[mine]]
        return center, radius

    def _bounded(self, pieces: _Pieces) -> _Pieces:
        """Bound each piece by the field, then against single triangles; drop what cannot undercut the best."""
        center, radius = self._balls(pieces)
        reach = self.chain.reach(center, pieces.center, pieces.half)
        way = reach.each.sum(axis=1)
        wanted = self.best[pieces.group] - self.tolerance + radius + way
        bound = self.field.bound(reach.place, pieces.group, radius + way, wanted)
        far = pieces._replace(
            least=np.maximum(bound - radius - way, pieces.least),
            joint=np.argmax(reach.each, axis=1),
            split_ball=(pieces.level > 0) & (radius >= way),
        )
        close = (radius + way <= self.field.widest) & self.field.covers(reach.place)
        close |= (far.level == 0) & (way <= radius)
        near = close & self._promising(far.least, far.group)
        pieces = far.chosen(near)
        owner, triangle = candidates(self.field, self.groups, reach.place[near], pieces.group, (radius + way)[near])
        gap = (
            point_distance(self.obstacle.frames.take(triangle), reach.place[near][owner]) - (radius + way)[near][owner]
        )
        contacts = _Contacts(gap, pieces.joint[owner], pieces.split_ball[owner])
        self._narrow(contacts, Reach._make(part[near] for part in reach), radius[near], pieces.group, owner, triangle)
        leaf = pieces.level[owner] == 0
        open_ = np.flatnonzero(leaf & self._promising(contacts.least, pieces.group[owner]))
        self._sharpen(pieces, owner, triangle, contacts, open_)
        return self._kept(_joined([self._kept(far.chosen(~near)), _worst(pieces, owner, contacts)]))

    def _narrow(
        self, contacts: _Contacts, reach: Reach, radius: Array, group: Index, owner: Index, triangle: Index
    ) -> None:
        """Bound the promising contacts along the direction in which the ball's center is nearest."""
        at = np.flatnonzero(self._promising(contacts.least, group[owner]))
        ball, place = owner[at], reach.place[owner[at]]
        direction = _unit(place - nearest_point(self.obstacle.frames.take(triangle[at]), place))
        along = self._along(Reach._make(part[ball] for part in reach), direction, triangle[at], radius[ball])
        contacts.least[at] = np.maximum(contacts.least[at], along.least)
        contacts.joint[at], contacts.split_ball[at] = along.joint, along.split_ball

    def _promising(self, least: Array, group: Index) -> NDArray[np.bool_]:
        best = self.best[group]
        return (least < best - self.tolerance) & (best > 0.0)

    def _sharpen(self, pieces: _Pieces, owner: Index, triangle: Index, contacts: _Contacts, at: Index) -> None:
        """Replace the bounds of the contacts `at` by those of the triangles themselves, first roughly, then exactly."""
        for exact in (False, True):
            at = at[self._promising(contacts.least[at], pieces.group[owner[at]])]
            if len(at) == 0:
                return
            piece = pieces.chosen(owner[at])
            reach = self.chain.reach(
                self.body.triangles[piece.node].reshape(-1, 3),
                np.repeat(piece.center, 3, axis=0),
                np.repeat(piece.half, 3, axis=0),
            )
            place, to = reach.place.reshape(-1, 3, 3), self.obstacle.frames.take(triangle[at])
            if exact:
                pairs = triangle_distance(place, self.obstacle.triangles[triangle[at]], to)
                self._remember(piece, pairs)
                direction = _unit(pairs.here - pairs.there)
            else:
                middle = place.mean(axis=1)
                direction = _unit(middle - nearest_point(to, middle))
            corners = self._along(reach, np.repeat(direction, 3, axis=0), np.repeat(triangle[at], 3), 0.0)
            least = corners.least.reshape(-1, 3)
            corner = 3 * np.arange(len(at)) + np.argmin(least, axis=1)
            contacts.least[at] = np.maximum(contacts.least[at], least.min(axis=1))
            contacts.joint[at], contacts.split_ball[at] = corners.joint[corner], False

    def _remember(self, piece: _Pieces, pairs: Pairs) -> None:
        for group in np.unique(piece.group):
            mine = np.flatnonzero(piece.group == group)
            at = mine[np.argmin(pairs.distance[mine])]
            if pairs.distance[at] < self.best[group]:
                self.best[group], self.joints[group] = pairs.distance[at], piece.center[at]
                self.here[group], self.there[group] = pairs.here[at], pairs.there[at]

    def _along(self, reach: Reach, direction: Array, triangle: Index, radius: Array | float) -> _Contacts:
        """Bound the distance of moving balls to triangles by how far each lies along a direction."""
        way = reach.first * np.abs(np.einsum("nkj,nj->nk", reach.jacobian, direction)) + reach.second
        high = np.einsum("nkj,nj->nk", self.obstacle.triangles[triangle], direction).max(axis=1)
        total = way.sum(axis=1)
        least = np.einsum("nj,nj->n", reach.place, direction) - high - radius - total
        return _Contacts(least, np.argmax(way, axis=1), radius >= total)


def _worst(pieces: _Pieces, owner: Index, contacts: _Contacts) -> _Pieces:
    """Return the pieces with the least bound among their contacts, and how to split it."""
    if len(owner) == 0:
        return pieces
    first = np.flatnonzero(np.diff(owner, prepend=-1))
    least = np.minimum.reduceat(contacts.least, first)
    at = np.zeros(len(pieces.node), dtype=np.int64)
    found = np.flatnonzero(contacts.least == least[owner])
    at[owner[found]] = found
    return pieces._replace(
        least=np.maximum(least, pieces.least),
        joint=contacts.joint[at],
        split_ball=contacts.split_ball[at] & (pieces.level > 0),
    )


def _joined(parts: list[_Pieces]) -> _Pieces:
    return _Pieces._make(np.concatenate(part) for part in zip(*parts, strict=True))


def _unit(vectors: Array) -> Array:
    unit: Array = vectors / np.maximum(np.linalg.norm(vectors, axis=1), 1e-300)[:, None]
    return unit
