"""What joint after joint makes of balls: solid runs go on by their skin alone, and what that encloses is found again.

What lies deep in runs has filled columns on all four sides, so that every way out of it leads through the skin. In a
column of the next joint no ball of the skin lies in a gap between two runs: hence all of that gap is filled, or
nothing of it, and one point tells which.
"""

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from kit.geometry.envelope.runs import Balls, Runs, merged, pieces, spread
from kit.geometry.motion.joint_chain import Joint
from kit.geometry.motion.rigid import Array, apply

Index = NDArray[np.int64]

COLUMN = 0.5  # side of the columns of cells before the last, of the last cells' size
PIECE = 0.5  # length of the pieces of runs, of the last cells' size
TURN = 2.0 * math.pi
SIDES = ((0, 0), (1, 0), (-1, 0), (0, 1), (0, -1))  # a column and those beside it


@dataclass(frozen=True)
class Solid:
    """Balls about all that is swept but what lies deep in the `runs`; those are None where balls hold all."""

    balls: Balls
    runs: Runs | None = None

    def moved(self, move: Array) -> "Solid":
        """Return it after a motion (4, 4)."""
        balls = replace(self.balls, center=apply(move, self.balls.center))
        return Solid(balls, None if self.runs is None else replace(self.runs, frame=self.runs.frame.moved(move)))


def carried(balls: Balls, joints: tuple[Joint, ...], size: float) -> Solid:
    """Return what the joints, nearest to the bench first, make of the balls; `size` [mm] is that of the last cells."""
    solid = Solid(balls)
    for joint in reversed(joints):
        if joint.low == joint.high:
            solid = solid.moved(joint.moves(np.array([joint.low]))[0])
        else:
            runs = filling(solid, joint, COLUMN * size, joint.low, joint.high)
            solid = Solid(pieces(skin(runs), PIECE * size), runs)
    return solid


def filling(solid: Solid, joint: Joint, size: float, low: float, high: float, rounding: float = 0.0) -> Runs:
    """Return the runs that it fills while the joint goes from `low` to `high` [rad or mm]; all else as in `spread`."""
    runs, inner = spread(solid.balls, joint, size, low, high, rounding), solid.runs
    if inner is None:
        return runs
    first, second, begin, end = _gaps(runs)
    middle = (begin + end) / 2.0 - (low + high) / 2.0  # where the middle of the gap was before the joint moved
    columns = (first.astype(float) + 0.5) * size, (second.astype(float) + 0.5) * size
    full = holds(inner, runs.frame.outside(columns, middle))
    gaps = _columns(runs, first[full], second[full])
    key, begin, end = merged(
        np.concatenate([_columns(runs, runs.first, runs.second), gaps]),
        np.concatenate([runs.begin, begin[full]]),
        np.concatenate([runs.end, end[full]]),
    )
    if runs.frame.turns:
        end = np.minimum(end, begin + TURN)
    first, second = _numbers(runs, key)
    off, reach = max(runs.off, inner.reach), max(runs.reach, inner.reach)
    return replace(runs, first=first, second=second, begin=begin, end=end, off=off, reach=reach)


def skin(runs: Runs) -> Runs:
    """Return the runs without what lies deep in them."""
    span = float(runs.end.max() - runs.begin.min()) + 1.0
    own = _columns(runs, runs.first, runs.second)
    keys = np.concatenate([_columns(runs, runs.first + i, runs.second + j) for i, j in SIDES])
    ends = np.concatenate([np.tile(runs.begin, len(SIDES)), np.tile(runs.end, len(SIDES))])
    order = np.argsort(np.tile(keys, 2) * span + ends, kind="stable")
    filled = np.cumsum(np.where(order < len(keys), 1, -1))
    deep = np.flatnonzero(filled == len(SIDES))
    key = np.concatenate([own, np.tile(keys, 2)[order[deep]]])
    begin = np.concatenate([runs.begin, ends[order[deep + 1]]])
    end = np.concatenate([runs.end, ends[order[deep]]])
    starts, ends = (np.argsort(key * span + each, kind="stable") for each in (begin, end))
    first, second = _numbers(runs, key[starts])
    return replace(runs, first=first, second=second, begin=begin[starts], end=end[ends])


def _gaps(runs: Runs) -> tuple[Index, Index, Array, Array]:
    """Return the gaps (first, second, begin, end) between the runs of a column; about a turn all round, so of any."""
    key, begin, end = _columns(runs, runs.first, runs.second), runs.begin, runs.end
    if runs.frame.turns:
        back = np.floor((begin + math.pi) / TURN) * TURN
        round_ = [(begin - back + way, end - back + way) for way in (-TURN, 0.0, TURN)]
        key, begin, end = merged(np.tile(key, 3), *(np.concatenate(each) for each in zip(*round_, strict=True)))
    between = np.flatnonzero(key[1:] == key[:-1])
    key, begin, end = key[between], end[between], begin[between + 1]
    if runs.frame.turns:
        once = np.flatnonzero((begin >= -math.pi) & (begin < math.pi))
        rows = np.arange(runs.first.min(), runs.first.max() + 1)[:, None]
        every = _columns(runs, rows, np.arange(runs.second.max() + 1)).ravel()
        free = np.setdiff1d(every, _columns(runs, runs.first, runs.second))
        key, begin, end = (
            np.concatenate([some[once], np.full(len(free), value) if value else free])
            for some, value in ((key, 0.0), (begin, -math.pi), (end, math.pi))
        )
    return (*_numbers(runs, key), begin, end)


def holds(runs: Runs, points: Array) -> NDArray[np.bool_]:
    """Return which of `points` (n, 3) lie in the runs."""
    one, two, along = runs.frame.inside(points)
    first, second = (np.floor(place / runs.size).astype(np.int64) for place in (one, two))
    key, own = _columns(runs, first, second), _columns(runs, runs.first, runs.second)
    least, most = float(runs.begin.min()), float(runs.end.max())
    span = most - least + 1.0
    starts = own * span + (runs.begin - least)
    found = np.zeros(len(points), dtype=bool)
    within = np.ones(len(points), dtype=bool)
    for place, known in ((first, runs.first), (second, runs.second)):
        within &= (place >= known.min()) & (place <= known.max())
    turns = np.arange(math.floor((least - math.pi) / TURN), math.ceil((most + math.pi) / TURN) + 1)
    for way in turns * TURN if runs.frame.turns else (0.0,):
        here = along + way
        at = np.searchsorted(starts, key * span + (here - least), side="right") - 1
        found |= (own[at] == key) & (here <= runs.end[at]) & (here >= runs.begin[at])
    return found & within


def _columns(runs: Runs, first: Index, second: Index) -> Index:
    """Return one number for each column (first, second), also for those beside the runs and nearer to a turn's axis."""
    low, wide = _least(runs)
    number: Index = (first - runs.first.min() + 1) * wide + second - low
    return number


def _numbers(runs: Runs, key: Index) -> tuple[Index, Index]:
    low, wide = _least(runs)
    return key // wide + runs.first.min() - 1, key % wide + low


def _least(runs: Runs) -> tuple[int, int]:
    """Return the least second number of a column, and how many there may be."""
    low = (0 if runs.frame.turns else int(runs.second.min())) - 1
    return low, int(runs.second.max()) + 2 - low
