"""Darts and seams, proposed one after another until the strain of a doubly curved panel stays below the limit."""

from dataclasses import dataclass
from typing import Literal

import numpy as np
from scipy.sparse.csgraph import dijkstra
from shapely import Polygon

from kit.core.errors import KitError
from kit.geometry.development.arrays import Floats, Ints, norm
from kit.geometry.development.flatten import Flattened, flatten
from kit.geometry.development.mesh import Panel
from kit.geometry.development.strain import thread_strain

REACH = 0.7  # of the way from the edge to the middle that a dart runs; beyond, it relieves nothing more
WORTH = 0.9  # a dart must bring the strain down to this part of it, else a seam is proposed


@dataclass(frozen=True)
class Cut:
    """A proposed dart or seam.

    Its points on the shape (k, 3), mm, from the edge on, and their vertex numbers in the panel as it was given.
    """

    kind: Literal["dart", "seam"]
    points: Floats
    vertices: Ints


@dataclass(frozen=True)
class Relieved:
    """The flat pieces of a panel after the proposed cuts; load: the largest strain over its limit, at most 1 if met.

    grain: the warp direction on every flat piece, rad (all are turned alike).
    """

    pieces: tuple[Flattened, ...]
    cuts: tuple[Cut, ...]
    load: float
    grain: float

    @property
    def met(self) -> bool:
        """Whether the strain stays within the limit in both thread directions."""
        return self.load <= 1


def relieve(panel: Panel, limit: tuple[float, float], *, grain: float = np.pi / 2, most: int = 8) -> Relieved:
    """Flatten a panel, and cut it by darts and seams until the cloth can take the strain.

    limit: allowed strain along warp and weft, both above zero. grain: direction of the warp (rad) on the first flat
    piece, whose longer side lies along x. most: cuts proposed at most; look at `met`.
    Raises: KitError for a limit that is not above zero.
    """
    if min(limit) <= 0:
        raise KitError(f"The allowed strain is {min(limit):g}; it must be above 0 in both thread directions")
    first = _turned(flatten(panel), None)
    pieces, cuts = [first], list[Cut]()
    while len(cuts) < most:
        loads = [_load(piece, limit, grain) for piece in pieces]
        worst = int(np.argmax(loads))
        if loads[worst] <= 1:
            break
        piece = pieces.pop(worst)
        new, cut = _dart(piece, limit, grain, first) or _seam(piece, first)
        pieces += new
        cuts.append(cut)
    return Relieved(tuple(pieces), tuple(cuts), max(_load(piece, limit, grain) for piece in pieces), grain)


def _load(piece: Flattened, limit: tuple[float, float], grain: float) -> float:
    warp, weft = thread_strain(piece, grain).largest
    return max(warp / limit[0], weft / limit[1])


def _turned(piece: Flattened, like: Flattened | None) -> Flattened:
    """Turn a flat piece so that it lies as it did in the first one, or with its longer side along x."""
    flat = piece.flat - piece.flat.mean(axis=0)
    if like is None:
        _, _, axes = np.linalg.svd(flat, full_matrices=False)
        turn = axes.T if np.linalg.det(axes) > 0 else axes.T * [1, -1]
        return Flattened(piece.panel, flat @ turn, piece.steps)
    old = like.flat[piece.panel.origin]
    u, _, v = np.linalg.svd(flat.T @ (old - old.mean(axis=0)))
    turn = u @ np.diag([1, np.sign(np.linalg.det(u @ v))]) @ v
    return Flattened(piece.panel, flat @ turn + old.mean(axis=0), piece.steps)


def _dart(
    piece: Flattened, limit: tuple[float, float], grain: float, first: Flattened
) -> tuple[list[Flattened], Cut] | None:
    """Return the piece with a dart from its worst place on the edge toward its middle, if that is worth it.

    A dart takes out what is too much at the edge of a dome. On a saddle cloth is missing there, so no dart helps.
    """
    panel = piece.panel
    if panel.curvature <= 0:
        return None
    loop = panel.loops[0]
    strain = thread_strain(piece, grain)
    load = np.maximum(np.abs(strain.warp) / limit[0], np.abs(strain.weft) / limit[1])
    at_vertex = np.zeros(len(panel.vertices))
    np.maximum.at(at_vertex, panel.triangles.ravel(), np.repeat(load, 3))
    start = int(loop[at_vertex[loop].argmax()])
    to_edge = dijkstra(panel.graph, indices=loop, min_only=True)
    path = _path(panel, start, int(to_edge.argmax()), _inner_cost(panel, {start}))
    along = np.r_[0.0, np.cumsum(norm(np.diff(panel.vertices[path], axis=0)))]
    path = path[along <= REACH * along[-1]]
    if len(path) < 2:
        return None
    cut = panel.cut(path)
    opened = _turned(flatten(cut), first)
    if not _is_clear(opened) or _load(opened, limit, grain) > WORTH * load.max():
        return None
    return [opened], Cut("dart", panel.vertices[path], panel.origin[path])


def _seam(piece: Flattened, first: Flattened) -> tuple[list[Flattened], Cut]:
    """Return the two pieces on both sides of a seam along the middle of the longer side: strain goes by the width."""
    panel, flat = piece.panel, piece.flat
    middle = flat - (piece.areas @ flat[panel.triangles].mean(axis=1)) / piece.areas.sum()
    _, _, axes = np.linalg.svd(middle, full_matrices=False)
    along, beside = middle @ axes[0], np.abs(middle @ axes[1])
    loop = panel.loops[0]
    size = float(np.abs(along).max())
    ends = [int(loop[np.where(side * along[loop] > 0, beside[loop], np.inf).argmin()]) for side in (-1, 1)]
    path = _path(panel, ends[0], ends[1], _inner_cost(panel, set(ends)) * (1 + 40 * beside / size))
    parts = panel.cut(path).parts()
    if len(parts) < 2:
        raise KitError("The panel cannot be parted by a seam: its mesh is too coarse there; give it more steps")
    return [_turned(flatten(part), first) for part in parts], Cut("seam", panel.vertices[path], panel.origin[path])


def _inner_cost(panel: Panel, ends: set[int]) -> Floats:
    """Return a cost factor of each vertex that keeps a path off the edge but for its ends."""
    cost = np.ones(len(panel.vertices))
    for loop in panel.loops:
        cost[loop] = 1e4
    cost[list(ends)] = 1.0
    return cost


def _path(panel: Panel, start: int, end: int, cost: Floats) -> Ints:
    """Return the cheapest way along edges from start to end, as vertex numbers."""
    graph = panel.graph.tocoo()
    graph.data = graph.data * (cost[graph.row] + cost[graph.col]) / 2
    _, before = dijkstra(graph.tocsr(), indices=start, return_predecessors=True)
    path = [end]
    while path[-1] != start:
        path.append(int(before[path[-1]]))
    return np.array(path[::-1])


def _is_clear(piece: Flattened) -> bool:
    """Whether no triangle is turned over and the flat outline does not cross itself."""
    outline = piece.flat[piece.panel.loops[0]]
    return bool(piece.areas.min() > 0 and Polygon(outline).is_valid)
