"""The room that a machine sweeps, as cells about its turning axis: never smaller than the truth.

The cells are counted by azimuth, radius and height about the vertical axis. The balls that cover the moving part
fill them at the poses of all joints but the first; one spread along the azimuth then does the whole swing at once.
From the cells come height maps, outlines and sections; a point outside of all cells is reached by nothing.
"""

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import ArrayLike, NDArray
from scipy import ndimage

from kit.core.errors import KitError
from kit.geometry.clearance.body import Body, Level
from kit.geometry.motion.joint_chain import Chain
from kit.geometry.motion.rigid import Array, unit_vector

MOST_CELLS = 20_000_000
MOST_BALLS = 60_000_000
KEPT = 2_000_000  # balls that are kept from measuring the room to filling it; more are made twice
AT_ONCE = 500_000  # balls; fewer count the same cells more often, more take memory
TOUCH = 1e-9  # of a cell: what lies on the border between two cells fills both


@dataclass(frozen=True)
class Envelope:
    """Cells (azimuth, radius, height) that the part can touch; azimuth 0 lies along x, height from `floor`.

    Every point that the part reaches lies in a cell. No cell is farther than `slack` [mm] from such a point.
    """

    cells: NDArray[np.bool_]
    axis: Array  # (2,) [mm] x and y
    floor: float  # [mm]
    size: float  # [mm] of a cell along radius and height
    slack: float  # [mm]

    def contains(self, points: ArrayLike) -> NDArray[np.bool_]:
        """Return which of `points` (n, 3) [mm] lie in the envelope."""
        off = np.asarray(points, dtype=float) - [*self.axis, self.floor]
        around, out, up = self.cells.shape
        azimuth = np.floor(np.arctan2(off[:, 1], off[:, 0]) * around / (2.0 * math.pi)).astype(int) % around
        radius = np.floor(np.hypot(off[:, 0], off[:, 1]) / self.size).astype(int)
        height = np.floor(off[:, 2] / self.size).astype(int)
        within = (radius < out) & (height >= 0) & (height < up)
        found = np.zeros(len(off), dtype=bool)
        found[within] = self.cells[azimuth[within], radius[within], height[within]]
        return found

    def outer(self) -> Array:
        """Return the largest radius (azimuths, heights) [mm] that is reached, 0 where nothing is."""
        return self.size * _last(np.moveaxis(self.cells, 1, 2))

    def top(self) -> Array:
        """Return the greatest height z (azimuths, radii) [mm] that is reached, -inf where nothing is."""
        last = _last(self.cells)
        return np.where(last > 0.0, self.floor + self.size * last, -np.inf)

    def plan(self) -> shapely.Geometry:
        """Return the outline seen from above, x and y [mm]."""
        return self._sectors(np.any(self.cells, axis=2))

    def above(self, height: float) -> shapely.Geometry:
        """Return where something comes above a height z [mm], as seen from above, x and y [mm]."""
        return self._sectors(self.top() > height)

    def _sectors(self, filled: NDArray[np.bool_]) -> shapely.Geometry:
        """Return the outline of the chosen cells (azimuths, radii) of the plan."""
        step = 2.0 * math.pi / len(filled)
        pieces = []
        for number, row in enumerate(filled):
            for low, high in _runs(row):
                inner, outer = (
                    low * self.size,
                    high * self.size / math.cos(step / 2.0),
                )  # the chord lies outside
                ends = [np.array([math.cos(a), math.sin(a)]) for a in (number * step, (number + 1) * step)]
                inner *= math.cos(step / 2.0)
                ring = np.array([inner * ends[0], outer * ends[0], outer * ends[1], inner * ends[1]])
                pieces.append(shapely.Polygon(ring + self.axis))
        return shapely.union_all(pieces, grid_size=1e-6)

    def side(self, azimuth: float = 0.0) -> shapely.Geometry:
        """Return the outline seen level along `azimuth` [rad]: 0 from the left end, π/2 from the front.

        The first coordinate runs to the viewer's right from the axis, the second is the height z [mm].
        """
        around, out, up = self.cells.shape
        edges = np.arange(around + 1) * 2.0 * math.pi / around
        aside = np.sin(edges - azimuth) * -1.0  # to the right of one who looks along the azimuth
        low, high = np.minimum(aside[:-1], aside[1:]), np.maximum(aside[:-1], aside[1:])
        for sign in (1.0, -1.0):  # a sector over the very side reaches its full radius
            turn = np.mod(azimuth - sign * math.pi / 2.0, 2.0 * math.pi)
            low_edge = int(turn / (2.0 * math.pi) * around) % around
            (high if sign > 0 else low)[low_edge] = sign
        radii = np.arange(out) * self.size
        least = np.minimum(low[:, None] * radii, low[:, None] * (radii + self.size))
        most = np.maximum(high[:, None] * radii, high[:, None] * (radii + self.size))
        boxes = []
        for level in range(up):
            chosen = self.cells[:, :, level]
            if chosen.any():
                z = self.floor + level * self.size
                for begin, end in _merged(least[chosen], most[chosen]):
                    boxes.append(shapely.box(begin, z, end, z + self.size))
        return shapely.union_all(boxes)

    def front(self) -> shapely.Geometry:
        """Return the outline seen from the front: x from the axis and z [mm]."""
        return self.side(math.pi / 2.0)

    def section(self, point: ArrayLike, normal: ArrayLike) -> tuple[shapely.Geometry, Array]:
        """Return the section at a plane, and its frame (2, 3): the section's two axes in space, from `point`.

        The section is looked up on squares of the cell size; each square near enough to a filled cell counts, so
        that the section is wider than that of the cells by less than 3 squares.

        Raises:
            KitError: a normal without direction.
        """
        up = unit_vector(normal, "The normal of the section")
        first = np.cross([0.0, 0.0, 1.0], up)
        first = np.array([1.0, 0.0, 0.0]) if np.linalg.norm(first) < 1e-9 else first / np.linalg.norm(first)
        frame = np.array([first, np.cross(up, first)])
        place = np.asarray(point, dtype=float)
        far = self.size * math.hypot(*self.cells.shape[1:]) + math.dist(place, (*self.axis, self.floor))
        count = math.ceil(2.0 * far / self.size)
        ticks = (np.arange(count + 1) - count / 2.0) * self.size
        middle = (ticks[1:] + ticks[:-1]) / 2.0
        wide = self._widened()
        boxes = []
        for number, v in enumerate(middle):
            filled = wide.contains(place + middle[:, None] * frame[0] + v * frame[1])
            boxes += [
                shapely.box(ticks[low], ticks[number], ticks[high], ticks[number + 1])
                for low, high in _runs(filled)
            ]
        return shapely.union_all(boxes), frame

    def _widened(self) -> "Envelope":
        """Return the envelope with all cells filled that are within one cell size of a filled one."""
        around, out, up = self.cells.shape
        cells = np.zeros((around, out + 1, up + 2), dtype=bool)
        cells[:, :out, 1:-1] = self.cells
        for axis in (1, 2):
            cells = ndimage.maximum_filter1d(cells, 3, axis=axis, mode="constant", cval=False)
        for ring in range(out + 1):
            aside = math.asin(min(1.0, 1.0 / max(ring - 1, 1))) if ring > 1 else math.pi
            count = min(around, 2 * math.ceil(aside * around / (2.0 * math.pi)) + 1)
            cells[:, ring] = ndimage.maximum_filter1d(cells[:, ring], count, axis=0, mode="wrap")
        return Envelope(cells, self.axis, self.floor - self.size, self.size, self.slack)


def envelope(body: Body, chain: Chain, size: float = 6.0) -> Envelope:
    """Return the envelope of one part with cells of `size` [mm]; see `envelope_of`."""
    return envelope_of([(body, chain)], size)


def envelope_of(parts: Sequence[tuple[Body, Chain]], size: float = 6.0) -> Envelope:
    """Return the envelope of parts that ride on the same first joint, with cells of `size` [mm].

    If the first joint turns about a vertical axis, it is done exactly; all other joints are stepped so finely that
    nothing moves by more than `size` from the nearest pose, and every ball is widened by what it moves.

    Raises:
        KitError: a size that is not positive, or so small that the cells or poses become too many; parts whose
            first joints differ.
    """
    if not size > 0.0:
        raise KitError(f"The cell size is {size:g} mm; it must be above 0.")
    first = parts[0][1].joints[0]
    for _, chain in parts:
        if chain.joints[0] != first:
            raise KitError(
                f"One part rides on the joint {first.name!r}, another on {chain.joints[0].name!r}; all parts must "
                "ride on the same first joint."
            )
    swings = first.kind == "turn" and abs(unit_vector(first.direction)[2]) > 1.0 - 1e-12
    axis = np.array(first.point[:2]) if swings else np.zeros(2)
    floor, out, top, widest, total = math.inf, 0.0, -math.inf, 0.0, 0
    balls: Iterable[tuple[Array, Array]] = (kept := [])
    for center, radius in _all_balls(parts, size, swings):
        floor = min(floor, float((center[:, 2] - radius).min()))
        top = max(top, float((center[:, 2] + radius).max()))
        out = max(out, float((np.hypot(*(center[:, :2] - axis).T) + radius).max()))
        widest = max(widest, float(radius.max()))
        total += len(radius)
        if total <= KEPT:
            kept.append((center, radius))
    if total > KEPT:
        balls = _all_balls(parts, size, swings)
    shape = (
        max(8, math.ceil(2.0 * math.pi * out / size)),
        math.ceil(out / size) + 1,
        math.ceil((top - floor) / size) + 1,
    )
    if math.prod(shape) > MOST_CELLS:
        raise KitError(
            f"Cells of {size:g} mm make {math.prod(shape):,}; at most {MOST_CELLS:,} are allowed: give larger ones."
        )
    ends = (0.0, 0.0)
    if swings:
        sense = float(np.sign(unit_vector(first.direction)[2]))
        ends = (min(sense * first.low, sense * first.high), max(sense * first.low, sense * first.high))
    cells = _filled(shape, balls, np.array([*axis, floor]), size, ends)
    return Envelope(cells, axis, floor, size, 2.0 * widest + 2.0 * math.sqrt(3.0) * size)


def _all_balls(
    parts: Sequence[tuple[Body, Chain]], size: float, swings: bool
) -> Iterator[tuple[Array, Array]]:
    """Yield the balls of all parts at all poses, many at a time."""
    kept: list[tuple[Array, Array]] = []
    for body, chain in parts:
        for pair in _balls(body.levels[0], chain, size, swings):
            kept.append(pair)
            if sum(len(radius) for _, radius in kept) >= AT_ONCE:
                yield np.concatenate([c for c, _ in kept]), np.concatenate([r for _, r in kept])
                kept = []
    if kept:
        yield np.concatenate([c for c, _ in kept]), np.concatenate([r for _, r in kept])


def _balls(level: Level, chain: Chain, size: float, swings: bool) -> Iterator[tuple[Array, Array]]:
    """Yield centers and radii of the balls at each pose, widened by what they move to the middle of the next."""
    count, joints = len(level.center), len(chain.joints)
    middle, half = (chain.low + chain.high) / 2.0, (chain.high - chain.low) / 2.0
    if swings:
        middle[0], half[0] = 0.0, 0.0
    stepped = half > 0.0
    whole = chain.ways(level.center, middle, half)[1].max(axis=0)
    turns = np.array([joint.kind == "turn" for joint in chain.joints])
    # A chord over a long arc hides how long the arc is: put it back before it is divided.
    way = np.where(
        turns, whole * half / np.maximum(2.0 * np.sin(np.minimum(half, math.pi) / 2.0), 1e-12), whole
    )
    counts = np.where(stepped, np.maximum(1, np.ceil(way * stepped.sum() / size)), 1).astype(int)
    if math.prod(counts.tolist()) * count > MOST_BALLS:
        raise KitError(
            f"{math.prod(counts.tolist()):,} poses of {count:,} balls are needed for cells of {size:g} mm; give larger "
            "cells or thin the scan."
        )
    step = half / counts
    ticks = [middle[n] + step[n] * (2 * np.arange(counts[n]) + 1 - counts[n]) for n in range(joints)]
    for values in itertools.product(*ticks):
        place, each = chain.ways(level.center, np.array(values), step)
        yield place, level.radius + each.sum(axis=1)


def _filled(
    shape: tuple[int, int, int],
    balls: Iterable[tuple[Array, Array]],
    origin: Array,
    size: float,
    ends: tuple[float, float],
) -> NDArray[np.bool_]:
    """Return the cells that any ball, swung between the two ends, can touch: corners of blocks, then running sums."""
    around, out, up = shape
    full = (2 * around + 1, out + 1, up + 1)
    corners = np.zeros(math.prod(full), dtype=np.int32)
    for center, radius in balls:
        off = center - origin
        away = np.hypot(off[:, 0], off[:, 1])
        aside = np.where(away > radius, np.arcsin(np.minimum(1.0, radius / np.maximum(away, 1e-12))), math.pi)
        azimuth = np.arctan2(off[:, 1], off[:, 0])
        cell = around / (2.0 * math.pi)
        begin = np.floor((azimuth - aside + ends[0]) * cell - TOUCH).astype(np.int64)
        span = np.floor((azimuth + aside + ends[1]) * cell + TOUCH).astype(np.int64) + 1 - begin
        begin %= around
        sides = [(begin, begin + np.minimum(span, around))]
        for middle, count in ((away, out), (off[:, 2], up)):
            first = np.floor((middle - radius) / size - TOUCH).astype(np.int64)
            last = np.floor((middle + radius) / size + TOUCH).astype(np.int64) + 1
            sides.append((np.clip(first, 0, count), np.clip(last, 0, count)))
        for picks in itertools.product((0, 1), repeat=3):
            at = np.ravel_multi_index([side[pick] for side, pick in zip(sides, picks, strict=True)], full)
            counted = np.bincount(at, minlength=len(corners)).astype(np.int32)
            corners += -counted if sum(picks) % 2 else counted
    blocks = corners.reshape(full)
    for axis in range(3):
        np.cumsum(blocks, axis=axis, out=blocks)
    filled = blocks[: 2 * around, :out, :up] > 0
    return filled[:around] | filled[around:]


def _last(cells: NDArray[np.bool_]) -> Array:
    """Return the number of the last filled cell along the last axis, counted from 1, or 0."""
    last = cells.shape[-1] - np.argmax(cells[..., ::-1], axis=-1)
    return np.where(cells.any(axis=-1), last, 0).astype(float)


def _runs(row: NDArray[np.bool_]) -> list[tuple[int, int]]:
    """Return where each run of filled cells begins and ends."""
    change = np.flatnonzero(np.diff(np.concatenate([[False], row, [False]]).astype(np.int8)))
    return [(int(low), int(high)) for low, high in change.reshape(-1, 2)]


def _merged(low: Array, high: Array) -> list[tuple[float, float]]:
    """Return intervals as few that do not meet."""
    order = np.argsort(low)
    begin, end = low[order], np.maximum.accumulate(high[order])
    cut = np.flatnonzero(begin[1:] > end[:-1] + 1e-9)
    firsts, lasts = np.concatenate([[0], cut + 1]), np.concatenate([cut, [len(begin) - 1]])
    return [(float(begin[a]), float(end[b])) for a, b in zip(firsts, lasts, strict=True)]
