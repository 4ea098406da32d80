"""Parts slid along x and y until they touch: what the cells left between them, exactly."""

from collections.abc import Callable, Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

Edges = NDArray[np.float64]  # (n, 4): x and y of the begin, x and y of the end

THIN = 1e-7  # edges that overlap by less across the slide pass each other, mm
TOUCH = 1e-5  # faces that rounding has pressed into each other by less still touch, mm
APART = 1e-6  # what is left between parts that have met, mm
ENOUGH = 0.01  # a sweep that moves all parts by less ends the sliding, mm


def edges(shape: BaseGeometry) -> Edges:
    """Return every edge of every ring of polygons, what they enclose on the left."""
    found = []
    for polygon in shapely.get_parts(shape):
        if isinstance(polygon, Polygon):
            whole = orient(polygon)
            for ring in (whole.exterior, *whole.interiors):
                points = np.asarray(ring.coords)
                found.append(np.hstack([points[:-1], points[1:]]))
    return np.concatenate(found) if found else np.zeros((0, 4))


def free_way(moving: Edges, standing: Edges) -> float:
    """Return how far [mm] edges may slide toward -x until they touch others; inf where nothing stands in the way.

    Only faces that look at each other count: of `moving` those that run down, of `standing` those that run up.
    """
    mine, theirs = (
        moving[moving[:, 1] > moving[:, 3]][:, [2, 3, 0, 1]],
        standing[standing[:, 1] < standing[:, 3]],
    )
    low, high = mine[:, 1].min(), mine[:, 3].max()
    near = (theirs[:, 3] > low) & (theirs[:, 1] < high)
    near &= np.minimum(theirs[:, 0], theirs[:, 2]) < mine[:, ::2].max() + TOUCH
    theirs = theirs[near]
    bottom = np.maximum(mine[:, None, 1], theirs[None, :, 1])
    top = np.minimum(mine[:, None, 3], theirs[None, :, 3])
    i, j = np.nonzero(top - bottom > THIN)
    if not len(i):
        return np.inf
    gaps = np.stack([_at(mine[i], y[i, j]) - _at(theirs[j], y[i, j]) for y in (bottom, top)])
    steep = np.minimum(_steepness(mine)[i], _steepness(theirs)[j])
    ahead = gaps.mean(axis=0) * steep > -TOUCH
    return max(0.0, float(gaps[:, ahead].min()) - APART) if ahead.any() else np.inf


def _steepness(given: Edges) -> NDArray[np.float64]:
    """The share of an edge's length that lies across the slide."""
    along = given[:, 2:] - given[:, :2]
    return np.asarray(np.abs(along[:, 1]) / np.hypot(*along.T))


def _at(given: Edges, y: NDArray[np.float64]) -> NDArray[np.float64]:
    share = (y - given[:, 1]) / (given[:, 3] - given[:, 1])
    return np.asarray(given[:, 0] + share * (given[:, 2] - given[:, 0]))


def slide(
    bare: Sequence[Polygon],
    around: Sequence[Polygon],
    room: BaseGeometry,
    sweeps: int,
    going: Callable[[], bool],
) -> NDArray[np.float64]:
    """Return the moves (n, 2) that bring parts as near to the origin as sliding along -x and -y by turns does.

    bare: the parts where they lie; around: they with half the kerf about them, apart; room: where `bare` may lie;
    going: once it returns False, no further part is moved: all lie soundly at any moment.
    """
    inner, outer = [edges(p) for p in bare], [edges(p) for p in around]
    boxes = np.array([p.bounds for p in around]).reshape(-1, 4)
    wall = edges(room)[:, [2, 3, 0, 1]]  # what bounds the room lies outside of it
    moves = np.zeros((len(bare), 2))
    for _ in range(sweeps):
        before = moves.copy()
        for axis in (0, 1):
            swap = [0, 1, 2, 3] if axis == 0 else [3, 2, 1, 0]  # mirrored, so run backward
            for k in np.argsort(boxes[:, axis], kind="stable"):
                if not going():
                    return moves
                in_the_way = (boxes[:, 1 - axis] < boxes[k, 3 - axis]) & (boxes[:, 3 - axis] > boxes[k, 1 - axis])
                in_the_way &= boxes[:, axis] < boxes[k, 2 + axis] + TOUCH
                in_the_way[k] = False
                others = np.concatenate([outer[j] for j in np.flatnonzero(in_the_way)] or [np.zeros((0, 4))])
                way = min(free_way(outer[k][:, swap], others[:, swap]), free_way(inner[k][:, swap], wall[:, swap]))
                if np.isfinite(way) and way > 0:
                    for moved in (inner[k], outer[k]):
                        moved[:, axis::2] -= way
                    boxes[k, axis::2] -= way
                    moves[k, axis] -= way
        if np.abs(moves - before).max(initial=0.0) < ENOUGH:
            break
    return moves
