"""What a part sweeps joint after joint, as runs of cells in each joint's own coordinates, where its motion is a shift.

About the axis of a turn a point has a place along the axis, a radius and an azimuth; the turn shifts the azimuth
alone, so that a whole arc is one run of azimuths in a column of cells (place, radius). Along a slide it is the same
with the place along the slide. Balls that cover the surface make runs; runs that meet become one; cut into short
pieces they are balls again, for the next joint nearer to the bench. Nothing is ever stepped through poses.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from kit.core.errors import KitError
from kit.geometry.motion.joint_chain import Joint
from kit.geometry.motion.rigid import Array, apply, unit_vector

Index = NDArray[np.int64]

BALL = 0.4  # radius of the balls that cover the surface, of the last cells' size
NEAR = 0.3  # of the distance from a turn's axis: the radius of a ball there, at least a quarter of the usual
MOST_BALLS = 6_000_000  # that cover surfaces or pieces of runs, above which a finer requirement is refused
MOST_ROWS = 40_000_000  # of balls in columns
AT_ONCE = 50_000  # balls brought into columns
LEAST_BITS = 18  # to which the ends of runs are rounded outward, at least
TOUCH = 1e-6  # what lies on the border between two cells fills both, mm
ROUNDED = 0.05  # more than rounding moves the end of a run, mm


@dataclass(frozen=True)
class Balls:
    """Balls that hold all that is swept; no center is farther than `off` [mm] from a point that is truly reached."""

    center: Array  # (n, 3) [mm]
    radius: Array  # (n,) [mm]
    off: float


@dataclass(frozen=True)
class Frame:
    """The coordinates of a joint: `point` on its axis, the three directions (3, 3), the last one along the axis.

    For a turn: place along the axis, radius, azimuth [rad]. For a slide: two places across, one along it [mm].
    """

    point: Array
    directions: Array
    turns: bool

    @classmethod
    def of(cls, joint: Joint) -> "Frame":
        """Return the coordinates of a joint; azimuth 0 of a vertical turn lies along x."""
        axis = unit_vector(joint.direction)
        aside = np.array([1.0, 0.0, 0.0]) if abs(axis[0]) < 0.9 else np.array([0.0, 1.0, 0.0])
        first = unit_vector(aside - (aside @ axis) * axis)
        return cls(
            np.asarray(joint.point, dtype=float),
            np.array([first, np.cross(axis, first), axis]),
            joint.kind == "turn",
        )

    def moved(self, move: Array) -> "Frame":
        """Return the coordinates after a motion (4, 4) of all."""
        return Frame(apply(move, self.point[None])[0], self.directions @ move[:3, :3].T, self.turns)

    def inside(self, points: Array) -> tuple[Array, Array, Array]:
        """Return the coordinates (n,) three times: both of the column, then the one that the joint shifts."""
        off = points - self.point
        x, y, z = (off[:, 0] * way[0] + off[:, 1] * way[1] + off[:, 2] * way[2] for way in self.directions)
        return (z, np.hypot(x, y), np.arctan2(y, x)) if self.turns else (x, y, z)

    def outside(self, column: tuple[Array, Array], along: Array) -> Array:
        """Return the points (n, 3) [mm] at such coordinates."""
        one, two = column
        own = [two * np.cos(along), two * np.sin(along), one] if self.turns else [one, two, along]
        points: Array = np.empty((len(along), 3))
        for axis in range(3):
            ways = self.directions[:, axis]
            points[:, axis] = own[0] * ways[0] + own[1] * ways[1] + own[2] * ways[2] + self.point[axis]
        return points


@dataclass(frozen=True)
class Runs:
    """Runs of a column of cells: first and second number of the column, begin and end [rad or mm].

    Cells are `size` [mm] wide and begin at 0. `off` [mm]: no point of a column's middle line within a run is farther
    from one that is reached; `reach` [mm]: no point of the column within a run is.
    """

    frame: Frame
    size: float
    first: Index
    second: Index
    begin: Array
    end: Array
    off: float
    reach: float


def covering(triangles: Array, radius: float, axis: Joint | None) -> Balls:
    """Return balls of at most `radius` [mm] that cover triangles (n, 3, 3), smaller near the axis of a turn.

    Each triangle is divided into equal ones, like it in shape, whose centers of mass are the balls' centers.

    Raises:
        KitError: so small a radius that the balls become too many.
    """
    middle = triangles.mean(axis=1)
    wide = np.sqrt(((triangles - middle[:, None]) ** 2).sum(axis=2).max(axis=1))
    allowed = np.full(len(wide), radius)
    if axis is not None and axis.kind == "turn":
        away = Frame.of(axis).inside(middle)[1] - wide
        allowed = np.clip(NEAR * away, radius / 4.0, radius)
    count = np.maximum(1, np.ceil(wide / allowed)).astype(int)
    if float((count.astype(float) ** 2).sum()) > MOST_BALLS:
        raise KitError(f"{float((count.astype(float) ** 2).sum()):,.0f} balls of {radius:g} mm are needed to cover "
                       "the scan; give larger cells.")  # fmt: skip
    centers, radii = [], []
    for n in np.unique(count):
        chosen = triangles[count == n]
        i, j = np.indices((n, n)).reshape(2, -1)
        upright = np.stack([i, j])[:, i + j < n] + 1.0 / 3.0
        turned = np.stack([i, j])[:, i + j < n - 1] + 2.0 / 3.0
        share = np.concatenate([upright, turned], axis=1) / n
        begin, first, second = (chosen[:, corner, None] for corner in range(3))
        along, across = share[:, :, None]
        centers.append((begin + along * (first - begin) + across * (second - begin)).reshape(-1, 3))
        radii.append(np.repeat(wide[count == n] / n + TOUCH, n * n))
    return Balls(np.concatenate(centers), np.concatenate(radii), 0.0)


def spread(balls: Balls, joint: Joint, size: float, low: float, high: float, rounding: float = 0.0) -> Runs:
    """Return the runs of columns of `size` [mm] that the balls fill while the joint goes from `low` to `high`.

    rounding: by how much the ends of the runs are moved on afterward [rad or mm], which `reach` allows for.

    Raises:
        KitError: so many balls in columns that there is no room for them.
    """
    frame = Frame.of(joint)
    one, two, along = frame.inside(balls.center)
    radius = balls.radius
    if frame.turns:
        half = np.where(two > radius, np.arcsin(np.minimum(1.0, radius / np.maximum(two, 1e-12))), math.pi)
    else:
        half = radius
    nearest = np.maximum(two - radius, 0.0) if frame.turns else two - radius
    bottom = [np.floor(least / size - TOUCH).astype(np.int64) for least in (one - radius, nearest)]
    if frame.turns:
        np.maximum(bottom[1], 0, out=bottom[1])
    tops = [np.floor((place + radius) / size + TOUCH).astype(np.int64) + 1 for place in (one, two)]
    counts = [top - least for top, least in zip(tops, bottom, strict=True)]
    total = float(np.prod(counts, axis=0).sum())
    if total > MOST_ROWS:
        raise KitError(f"Cells of {size:g} mm make {total:,.0f} pieces of what is swept; at most {MOST_ROWS:,} are "
                       "allowed: give larger ones or thin the scan.")  # fmt: skip
    lows = int(bottom[0].min()), int(bottom[1].min())
    long, wide = (int(top.max()) - least for top, least in zip(tops, lows, strict=True))
    begin, end = along - half + low, along + half + high
    packing = Packing.of(long * wide, float(begin.min()), float(end.max()))
    packed = packing.pack((bottom[0] - lows[0]) * wide + bottom[1] - lows[1], begin, end)
    found = []
    for part in range(0, len(radius), AT_ONCE):
        now = slice(part, part + AT_ONCE)
        rows = [
            packed[now][(shift < counts[0][now]) & (across < counts[1][now])] + packing.shift(shift * wide + across)
            for shift in range(int(counts[0][now].max()))
            for across in range(int(counts[1][now].max()))
        ]
        found.append(packing.union(np.concatenate(rows)))
    key, begin, end = packing.unpack(packing.union(np.concatenate(found)))
    if frame.turns:
        end = np.minimum(end, begin + 2.0 * math.pi)
    asides = [
        np.maximum(place - least * size, top * size - place)
        for place, least, top in zip((one, two), bottom, tops, strict=True)
    ]
    off = balls.off + _farthest(two, half, [aside - size / 2.0 for aside in asides], frame)
    reach = balls.off + _farthest(two, half + rounding, asides, frame)
    return Runs(frame, size, key // wide + lows[0], key % wide + lows[1], begin, end, off, reach)


def pieces(runs: Runs, length: float) -> Balls:
    """Return balls about pieces of the runs, each at most `length` [mm] long.

    Raises:
        KitError: so short a length that the pieces become too many.
    """
    frame, size = runs.frame, runs.size
    outer = (runs.second + 1) * size if frame.turns else np.ones(len(runs.first))
    count = np.maximum(1, np.ceil((runs.end - runs.begin) * outer / length)).astype(np.int64)
    if count.sum() > MOST_BALLS:
        raise KitError(f"{count.sum():,} pieces of {length:g} mm are swept; at most {MOST_BALLS:,} are allowed: give "
                       "larger cells or thin the scan.")  # fmt: skip
    each = np.repeat(np.arange(len(count)), count)
    number = np.arange(len(each)) - np.repeat(np.cumsum(count) - count, count)
    step = (runs.end - runs.begin) / count
    along = (runs.begin + step / 2.0)[each] + step[each] * number
    first = (runs.first[each].astype(float) + 0.5) * size
    second = (runs.second[each].astype(float) + 0.5) * size
    if frame.turns:
        middle = outer - size / 2.0
        flat = (size / 2.0) ** 2 + 4.0 * middle * outer * np.sin(step / 4.0) ** 2
    else:
        flat = (size / 2.0) ** 2 + (step / 2.0) ** 2
    radius = np.sqrt(flat + (size / 2.0) ** 2)
    return Balls(frame.outside((first, second), along), radius[each], runs.off)


def cells_of(
    swept: Sequence[Runs], shape: tuple[int, int, int], floor: int, low: float, high: float
) -> NDArray[np.bool_]:
    """Return the cells (azimuth, radius, height) that runs about the vertical axis fill, turned from `low` to `high`.

    floor: the number of the lowest row of cells.
    """
    around, out, up = shape
    cell = around / (2.0 * math.pi)
    counted = np.zeros((around + 1, out * up), dtype=np.int16)
    for runs in swept:
        begin = np.floor((runs.begin + low) * cell - 1e-9).astype(np.int64)
        span = np.minimum(np.floor((runs.end + high) * cell + 1e-9).astype(np.int64) + 1 - begin, around)
        begin %= around
        row = runs.second * up + runs.first - floor
        past = begin + span
        np.add.at(counted, (begin, row), 1)
        np.subtract.at(counted, (np.minimum(past, around), row), 1)
        over = past > around  # goes on from azimuth 0
        np.add.at(counted, (0, row[over]), 1)
        np.subtract.at(counted, (past[over] - around, row[over]), 1)
    add_up(counted)
    return (counted[:around] > 0).reshape(shape)


def add_up(counted: NDArray[np.int16]) -> None:
    """Make sums of all before along the first axis, in place: row by row, which is far faster than `cumsum`."""
    for number in range(1, len(counted)):
        np.add(counted[number], counted[number - 1], out=counted[number])


def _farthest(two: Array, half: Array, asides: Sequence[Array], frame: Frame) -> float:
    """How far a point of a column may be from the center of a ball that fills it, both brought together by the joint.

    asides: the most that it is off along each coordinate of the column [mm].
    """
    turned = 4.0 * two * (two + asides[1]) * np.sin(np.minimum(half, math.pi) / 2.0) ** 2
    over = turned if frame.turns else half**2
    return float(np.sqrt(asides[0] ** 2 + asides[1] ** 2 + over).max()) + ROUNDED


@dataclass(frozen=True)
class Packing:
    """Runs (key, begin, end) as whole numbers, which sort fast; the ends are rounded outward."""

    bits: int  # of each end
    least: float
    unit: float

    @classmethod
    def of(cls, most: int, least: float, greatest: float) -> "Packing":
        """Return the packing of runs with keys up to `most` between `least` and `greatest`.

        Raises:
            KitError: the keys leave too little room.
        """
        bits = (63 - most.bit_length()) // 2
        if bits < LEAST_BITS:
            raise KitError("The cells are too small for what is swept; give larger ones.")
        return cls(bits, least, max(greatest - least, 1e-9) / (2**bits - 2))

    def pack(self, key: Index, begin: Array, end: Array) -> Index:
        """Return the runs as numbers."""
        low = np.floor((begin - self.least) / self.unit).astype(np.int64)
        high = np.ceil((end - self.least) / self.unit).astype(np.int64)
        packed: Index = (key << (2 * self.bits)) | (low << self.bits) | high
        return packed

    def shift(self, key: int) -> int:
        """Return what is added to a number to add to its key."""
        return key << (2 * self.bits)

    def union(self, packed: Index) -> Index:
        """Return the runs in order, with those that meet made one."""
        most = 2**self.bits - 1
        packed = np.sort(packed)
        far = np.maximum.accumulate(((packed >> (2 * self.bits)) << self.bits) | (packed & most))
        fresh = np.ones(len(packed), dtype=bool)
        fresh[1:] = (packed[1:] >> self.bits) > far[:-1]
        starts = np.flatnonzero(fresh)
        ends = far[np.append(starts[1:], len(packed)) - 1] & most
        joined: Index = (packed[starts] & ~most) | ends
        return joined

    def unpack(self, packed: Index) -> tuple[Index, Array, Array]:
        """Return (key, begin, end)."""
        most = 2**self.bits - 1
        low, high = (packed >> self.bits) & most, packed & most
        return packed >> (2 * self.bits), self.least + low * self.unit, self.least + high * self.unit


def merged(key: Index, begin: Array, end: Array) -> tuple[Index, Array, Array]:
    """Return runs (key, begin, end) in order, with those that meet made one."""
    packing = Packing.of(int(key.max()), float(begin.min()), float(end.max()))
    return packing.unpack(packing.union(packing.pack(key, begin, end)))
