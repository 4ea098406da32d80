"""The room that a machine sweeps, as cells about its turning axis: never smaller than the truth.

The cells are counted by azimuth, radius and height about the vertical axis; all joints are done exactly, see
kit.geometry.envelope.runs. From the cells come height maps, outlines and sections; a point outside of all cells is
reached by nothing.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import ArrayLike, NDArray

from kit.core.errors import KitError
from kit.geometry.clearance.body import Body
from kit.geometry.envelope.runs import BALL, Runs, add_up, cells_of, covering
from kit.geometry.envelope.solid import carried, filling
from kit.geometry.motion.joint_chain import Chain, Joint
from kit.geometry.motion.rigid import Array, unit_vector

Index = NDArray[np.int64]

MOST_CELLS = 20_000_000
CRACK = 1e-3  # mm, half the width of one that is closed


@dataclass(frozen=True, eq=False)
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
        """Return the outline of the chosen cells (azimuths, radii) of the plan, like sectors as one piece."""
        around = len(filled)
        step = 2.0 * math.pi / around
        stretch = 1.0 / math.cos(step / 2.0)  # so that the chords of the outer edge lie outside
        fresh = np.flatnonzero(np.concatenate([[True], (filled[1:] != filled[:-1]).any(axis=1)]))
        pieces = []
        for begin, end in zip(fresh, [*fresh[1:], around], strict=True):
            ways = np.arange(begin, end + 1) * step
            ways = np.column_stack([np.cos(ways), np.sin(ways)])
            for low, high in _runs(filled[begin]):
                outer = high * self.size * stretch * ways
                inner = low * self.size / stretch * ways
                if low == 0:
                    ring = outer if end - begin == around else np.concatenate([outer, [[0.0, 0.0]]])
                    pieces.append(shapely.Polygon(ring + self.axis))
                elif end - begin == around:
                    pieces.append(shapely.Polygon(outer + self.axis, [inner + self.axis]))
                else:
                    pieces.append(shapely.Polygon(np.concatenate([outer, inner[::-1]]) + self.axis))
        joined = shapely.union_all(pieces, grid_size=1e-6)  # some cracks stay along the ray between two sectors
        return joined.buffer(CRACK, join_style="mitre").buffer(-CRACK, join_style="mitre")

    def side(self, azimuth: float = 0.0) -> shapely.Geometry:
        """Return the outline seen level along `azimuth` [rad]: 0 from the left end, π/2 from the front.

        The first coordinate runs to the viewer's right from the axis, the second is the height z [mm].
        """
        around, _, up = self.cells.shape
        edges = np.arange(around + 1) * 2.0 * math.pi / around
        aside = np.sin(edges - azimuth) * -1.0  # to the right of one who looks along the azimuth
        low, high = np.minimum(aside[:-1], aside[1:]), np.maximum(aside[:-1], aside[1:])
        sides = {}  # a sector over the very side reaches its full radius
        for sign in (1.0, -1.0):
            turn = np.mod(azimuth - sign * math.pi / 2.0, 2.0 * math.pi)
            sides[sign] = int(turn / (2.0 * math.pi) * around) % around
        begin, end, ring, level = self._around
        least, most = np.minimum(low[begin], low[end]), np.maximum(high[begin], high[end])
        for sign in (1.0, -1.0):
            across = sides[sign]
            over = (begin <= across) & (across <= end)
            (most if sign > 0 else least)[over] = sign
        inner, outer = ring * self.size, (ring + 1) * self.size
        least, most = np.minimum(least * inner, least * outer), np.maximum(most * inner, most * outer)
        order = np.argsort(level, kind="stable")
        least, most = least[order], most[order]
        bounds = np.searchsorted(level[order], np.arange(up + 1))
        boxes = []
        for number in range(up):
            here = slice(bounds[number], bounds[number + 1])
            z = self.floor + number * self.size
            boxes += [(a, z, b, z + self.size) for a, b in _merged(least[here], most[here])]
        return shapely.union_all(shapely.box(*np.array(boxes).reshape(-1, 4).T))

    @cached_property
    def _around(self) -> tuple[Index, Index, Index, Index]:
        """Return the runs along the azimuth: first and last cell, number of the ring and of the level (n,)."""
        first, last = self.cells.copy(), self.cells.copy()
        first[1:] &= ~self.cells[:-1]
        last[:-1] &= ~self.cells[1:]
        wide = self.cells[0].size
        found = []
        for ends in (first, last):
            sector, column = np.divmod(np.flatnonzero(ends), wide)
            order = np.argsort(column, kind="stable")
            found.append((sector[order], column[order]))
        ring, level = np.divmod(found[0][1], self.cells.shape[2])
        return found[0][0], found[1][0], ring, level

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
        filled = self._near(place + middle[:, None, None] * frame[1] + middle[:, None] * frame[0])
        boxes = [
            (ticks[low], ticks[number], ticks[high], ticks[number + 1])
            for number in np.flatnonzero(filled.any(axis=1))
            for low, high in _runs(filled[number])
        ]
        return shapely.union_all(shapely.box(*np.array(boxes).reshape(-1, 4).T)), frame

    def _near(self, points: Array) -> NDArray[np.bool_]:
        """Return which of `points` (…, 3) lie in a cell that is filled or within one cell size of a filled one."""
        around, out, up = self.cells.shape
        ring = np.arange(out + 1)
        aside = np.where(ring > 1, np.arcsin(np.minimum(1.0, 1.0 / np.maximum(ring - 1, 1))), math.pi)
        reach = np.ceil(aside * around / (2.0 * math.pi)).astype(int)
        off = points - [*self.axis, self.floor - self.size]
        radius = np.floor(np.hypot(off[..., 0], off[..., 1]) / self.size).astype(int)
        height = np.floor(off[..., 2] / self.size).astype(int)
        found = np.zeros(off.shape[:-1], dtype=bool)
        within = (radius <= out) & (height >= 0) & (height < up + 2)
        if not within.any():
            return found
        lowest, highest = max(0, int(height[within].min()) - 2), int(height[within].max()) + 1
        some = self.cells[:, :, lowest:highest]  # of the levels that matter
        higher = np.zeros((around, out + 1, some.shape[2] + 2), dtype=bool)
        for shift in range(3):
            higher[:, :out, shift : some.shape[2] + shift] |= some
        wider = higher.copy()
        wider[:, 1:] |= higher[:, :-1]
        wider[:, :-1] |= higher[:, 1:]
        counted = np.zeros((around + 1, *wider.shape[1:]), dtype=np.int16)  # those before an azimuth
        counted[1:] = wider
        add_up(counted)
        x, y = off[within, 0], off[within, 1]
        azimuth = np.floor(np.arctan2(y, x) * around / (2.0 * math.pi)).astype(int) % around
        rings, levels = radius[within], height[within] - lowest
        span = np.minimum(2 * reach[rings] + 1, around)
        begin = (azimuth - reach[rings]) % around
        past = begin + span
        number = counted[np.minimum(past, around), rings, levels] - counted[begin, rings, levels]
        number += np.where(past > around, counted[np.maximum(past - around, 0), rings, levels], 0)
        found[within] = number > 0
        return found


def envelope(body: Body, chain: Chain, size: float = 6.0) -> Envelope:
    """Return the envelope of one part with cells of `size` [mm]; see `envelope_of`."""
    return envelope_of([(body, chain)], size)


def envelope_of(parts: Sequence[tuple[Body, Chain]], size: float = 6.0) -> Envelope:
    """Return the envelope of parts that ride on the same first joint, with cells of `size` [mm]; see `unswung`.

    Raises:
        KitError: a size that is not positive, or so small that the cells become too many; parts whose first joints
            differ.
    """
    first = parts[0][1].joints[0]
    return unswung(parts, size).swung(first.low, first.high)


@dataclass(frozen=True, eq=False)
class Unswung:
    """What all joints but a vertical first one sweep, ready to be swung through any range at once."""

    runs: tuple[Runs, ...]
    shape: tuple[int, int, int]
    axis: Array  # (2,) [mm] x and y
    lowest: int  # number of the lowest row of cells
    sense: float  # 1 where the first joint turns to the left seen from above, -1 to the right, 0 where it is done

    def swung(self, low: float, high: float) -> Envelope:
        """Return the envelope when the first joint goes from `low` to `high` [rad]."""
        ends = sorted((self.sense * low, self.sense * high))
        cells = cells_of(self.runs, self.shape, self.lowest, ends[0], ends[1])
        size = self.runs[0].size
        slack = max(runs.reach for runs in self.runs)
        return Envelope(cells, self.axis, self.lowest * size, size, slack)


def swings(joint: Joint) -> bool:
    """Return whether a joint is a turn about a vertical axis."""
    return joint.kind == "turn" and abs(unit_vector(joint.direction)[2]) > 1.0 - 1e-12


def unswung(parts: Sequence[tuple[Body, Chain]], size: float = 6.0) -> Unswung:
    """Return what parts that ride on the same first joint sweep without it, in cells of `size` [mm].

    Every joint is done in its own coordinates, where its whole motion is one shift: see kit.geometry.envelope.runs.

    Raises:
        KitError: a size that is not positive, or so small that the cells become too many; parts whose first joints
            differ.
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
    swung = swings(first)
    axis = np.array(first.point[:2]) if swung else np.zeros(2)
    upright = Joint("swing", "turn", (float(axis[0]), float(axis[1]), 0.0), (0.0, 0.0, 1.0), 0.0, 0.0)
    swept = []
    for body, chain in parts:
        joints = chain.joints[1:] if swung else chain.joints
        moving = [joint for joint in joints if joint.low < joint.high]
        balls = covering(body.triangles, BALL * size, moving[-1] if moving else upright)
        swept.append(carried(balls, joints, size))
    held = [solid.balls for solid in swept]
    out = max(float((np.hypot(*(balls.center[:, :2] - axis).T) + balls.radius).max()) for balls in held)
    low = min(float((balls.center[:, 2] - balls.radius).min()) for balls in held)
    high = max(float((balls.center[:, 2] + balls.radius).max()) for balls in held)
    around = max(8, math.ceil(2.0 * math.pi * out / size))
    lowest = math.floor(low / size) - 1
    shape = (around, math.ceil(out / size) + 1, math.ceil(high / size) + 1 - lowest)
    if math.prod(shape) > MOST_CELLS:
        raise KitError(
            f"Cells of {size:g} mm make {math.prod(shape):,}; at most {MOST_CELLS:,} are allowed: give larger ones."
        )
    runs = tuple(filling(solid, upright, size, 0.0, 0.0, 2.0 * math.pi / around) for solid in swept)
    return Unswung(runs, shape, axis, lowest, float(np.sign(first.direction[2])) if swung else 0.0)


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
    if not len(low):
        return []
    order = np.argsort(low, kind="stable")
    begin, end = low[order], np.maximum.accumulate(high[order])
    cut = np.flatnonzero(begin[1:] > end[:-1] + 1e-9)
    firsts, lasts = np.concatenate([[0], cut + 1]), np.concatenate([cut, [len(begin) - 1]])
    return [(float(begin[a]), float(end[b])) for a, b in zip(firsts, lasts, strict=True)]
