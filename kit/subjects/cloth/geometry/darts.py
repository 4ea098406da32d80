"""Darts and seams, proposed one after another until the strain of a doubly curved panel stays below the limit."""

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import numpy as np
from scipy.sparse.csgraph import dijkstra
from shapely import Polygon

from kit.core.errors import KitError
from kit.geometry.development.arrays import Floats, Ints, norm
from kit.geometry.development.flatten import Flattened, flatten
from kit.geometry.development.mesh import Panel
from kit.geometry.development.smooth_cuts import Sheet, drawn_smooth
from kit.geometry.development.strain import thread_strain
from kit.geometry.ties import first_largest, first_least, signed

REACH = 0.7  # of the way from the edge to the middle that a dart runs; beyond, it relieves nothing more
EQUAL = 1e-3  # share by which strains or sides must differ to decide where a cut runs; flattening leaves 3e-4
WORTH = 0.9  # a dart must bring the strain down to this part of it, else a seam is proposed


@dataclass(frozen=True)
class Cut:
    """A proposed dart or seam.

    Its points on the shape (k, 3), mm, from the edge on, and their vertex numbers in the panel as it was given.
    """

    kind: Literal["dart", "seam"]
    points: Floats
    vertices: Ints

    @property
    def sides(self) -> set[frozenset[int]]:
        """The sides of triangles along it, by vertex numbers of the panel as it was given."""
        return {frozenset(pair) for pair in pairwise(self.vertices.tolist())}


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
    layout = _Layout(Sheet(first), first.flat.copy())
    parts, seams = [_Part(first)], list[Cut]()
    while len(seams) + sum(len(part.darts) for part in parts) < most:
        loads = [_load(part.flat, limit, grain) for part in parts]
        worst = first_largest(loads, EQUAL)
        if loads[worst] <= 1:
            break
        sides = set().union(*(cut.sides for cut in (*seams, *(cut for part in parts for cut in part.darts))))
        if (opened := _dart(parts[worst], limit, grain, layout, sides)) is not None:
            parts[worst], layout = opened
        elif (parted := _seam(parts[worst], layout, set().union(*(cut.sides for cut in seams)))) is not None:
            halves, seam, layout = parted
            parts[worst : worst + 1] = halves
            seams.append(seam)
        else:
            break
    cuts = (*seams, *(cut for part in parts for cut in part.darts))
    load = max(_load(part.flat, limit, grain) for part in parts)
    return Relieved(tuple(part.flat for part in parts), cuts, load, grain)


@dataclass(frozen=True)
class _Part:
    """A part of the panel between seams, laid flat, and the darts in it."""

    flat: Flattened
    darts: tuple[Cut, ...] = ()

    @property
    def healed(self) -> Panel:
        """The part as if it had no darts."""
        panel = self.flat.panel
        origin, first, number = np.unique(panel.origin, return_index=True, return_inverse=True)
        return Panel(panel.vertices[first], number[panel.triangles], origin)


Sides = set[frozenset[int]]


@dataclass(frozen=True)
class _Layout:
    """The panel laid flat whole, and where on it each of its vertices lies now (n, 2), mm."""

    sheet: Sheet
    places: Floats

    def laid(self, panel: Panel, sides: Sides) -> Flattened:
        """Return a part of the panel laid flat, turned like the whole.

        sides: of all cuts. Those that the part has twice belong to a dart, and are made equal; the others belong to
        a seam, and keep their length.
        """
        loop = panel.loops[0]
        pairs = np.column_stack([loop, np.roll(loop, -1)])
        of_cut: dict[frozenset[int], list[Ints]] = {}
        for pair, number in zip(pairs, panel.origin[pairs].tolist(), strict=True):
            if frozenset(number) in sides:
                of_cut.setdefault(frozenset(number), []).append(pair)
        held = [pair for found in of_cut.values() if len(found) == 1 for pair in found]
        paired = [np.stack(found) for found in of_cut.values() if len(found) == 2]
        laid = flatten(
            panel,
            held=np.array(held, dtype=np.int64).reshape(-1, 2),
            paired=np.array(paired, dtype=np.int64).reshape(-1, 2, 2),
        )
        return _turned(laid, self.places)


def _load(piece: Flattened, limit: tuple[float, float], grain: float) -> float:
    warp, weft = thread_strain(piece, grain).largest
    return max(warp / limit[0], weft / limit[1])


def _turned(piece: Flattened, places: Floats | None) -> Flattened:
    """Turn a flat piece so that it lies as the whole does, or with its longer side along x."""
    flat = piece.flat - piece.flat.mean(axis=0)
    if places is None:
        x, y = _longer_side(flat)
        turn = np.array([[x, -y], [y, x]])
        return Flattened(piece.panel, flat @ turn, piece.steps)
    old = places[piece.panel.origin]
    u, _, v = np.linalg.svd(flat.T @ (old - old.mean(axis=0)))
    turn = u @ np.diag([1, np.sign(np.linalg.det(u @ v))]) @ v
    return Flattened(piece.panel, flat @ turn + old.mean(axis=0), piece.steps)


def _longer_side(flat: Floats) -> Floats:
    """Return the direction (2,) in which points (n, 2) about their middle reach further, or x if there is none."""
    _, (long, short), axes = np.linalg.svd(flat, full_matrices=False)
    return signed(axes[0]) if long - short > EQUAL * long else np.array([1.0, 0.0])


def _dart(
    part: _Part, limit: tuple[float, float], grain: float, layout: _Layout, sides: Sides
) -> tuple[_Part, _Layout] | None:
    """Return the part with a dart from its worst place on the edge toward its middle, if that is worth it.

    A dart takes out what is too much at the edge of a dome. On a saddle cloth is missing there, so no dart helps.
    """
    piece, panel = part.flat, part.flat.panel
    if panel.curvature <= 0:
        return None
    loop = panel.loops[0]
    strain = thread_strain(piece, grain)
    load = np.maximum(np.abs(strain.warp) / limit[0], np.abs(strain.weft) / limit[1])
    at_vertex = np.zeros(len(panel.vertices))
    np.maximum.at(at_vertex, panel.triangles.ravel(), np.repeat(load, 3))
    outer = ~np.isin(panel.origin[loop], [number for side in sides for number in side])
    if not outer.any():
        return None
    start = int(loop[first_largest(np.where(outer, at_vertex[loop], -1.0), EQUAL)])
    to_edge = dijkstra(panel.graph, indices=loop, min_only=True)
    tip = first_largest(to_edge)
    beside = _beside(piece.flat, piece.flat[start], piece.flat[tip])
    inner = _inner_cost(panel, {start})
    path = _path(panel, start, tip, inner * (1 + 40 * beside))
    along = np.r_[0.0, np.cumsum(norm(np.diff(panel.vertices[path], axis=0)))]
    path = path[along <= REACH * along[-1]]
    if len(path) < 2 or (inner[path] > 1).any():
        return None
    if (smooth := drawn_smooth(panel, path, layout.places, layout.sheet)) is None:
        return None
    panel, places = smooth
    layout = _Layout(layout.sheet, places)
    cut = Cut("dart", panel.vertices[path], panel.origin[path])
    opened = layout.laid(panel.cut(path), sides | cut.sides)
    if not _is_clear(opened) or _load(opened, limit, grain) > WORTH * load.max():
        return None
    return _Part(opened, (*part.darts, cut)), layout


def _seam(part: _Part, layout: _Layout, sides: Sides) -> tuple[list[_Part], Cut, _Layout] | None:
    """Return the two parts on both sides of a seam along the middle of the longer side: strain goes by the width.

    Darts that did not suffice are given up: the halves may need none. None where the mesh is too coarse for a seam.
    """
    panel = part.healed
    flat = layout.places[panel.origin]
    middle = flat - (panel.areas @ flat[panel.triangles].mean(axis=1)) / panel.areas.sum()
    x, y = _longer_side(middle)
    along, beside = middle @ [x, y], np.abs(middle @ [-y, x])
    loop = panel.loops[0]
    size = float(np.abs(along).max())
    ends = [int(loop[first_least(np.where(side * along[loop] > 0, beside[loop], np.inf))]) for side in (-1, 1)]
    inner = _inner_cost(panel, set(ends))
    path = _path(panel, ends[0], ends[1], inner * (1 + 40 * beside / size))
    if len(path) < 3 or (inner[path[1:-1]] > 1).any():
        return None
    if (smooth := drawn_smooth(panel, path, layout.places, layout.sheet)) is None:
        return None
    panel, places = smooth
    halves = panel.cut(path).parts()
    if len(halves) < 2:
        return None
    layout, cut = _Layout(layout.sheet, places), Cut("seam", panel.vertices[path], panel.origin[path])
    return [_Part(layout.laid(half, sides | cut.sides)) for half in halves], cut, layout


def _beside(flat: Floats, begin: Floats, end: Floats) -> Floats:
    """Return how far points (n, 2) lie beside the line through two others, over the distance of the two."""
    way = end - begin
    arms = flat - begin
    return np.asarray(np.abs(arms[:, 0] * way[1] - arms[:, 1] * way[0]) / (way @ way))


def _inner_cost(panel: Panel, ends: set[int]) -> Floats:
    """Return a cost factor of each vertex that keeps a path off the edge but for its ends."""
    cost = np.ones(len(panel.vertices))
    for loop in panel.loops:
        cost[loop] = 1e4
    cost[list(ends)] = 1.0
    return cost


def _path(panel: Panel, start: int, end: int, cost: Floats) -> Ints:
    """Return the cheapest way along edges from start to end, as vertex numbers, that takes one side of a triangle."""
    graph = panel.graph.tocoo()
    graph.data = graph.data * (cost[graph.row] + cost[graph.col]) / 2
    _, before = dijkstra(graph.tocsr(), indices=start, return_predecessors=True)
    path = [end]
    while path[-1] != start:
        path.append(int(before[path[-1]]))
    return _shortened(panel, path[::-1])


def _shortened(panel: Panel, path: list[int]) -> Ints:
    """Leave out vertices that neighbors on a way can do without: two sides of a triangle make no straight line."""
    ends, _ = panel.edges
    joined = {frozenset(pair) for pair in ends.tolist()}
    found = path[:1]
    for node in path[1:]:
        while len(found) > 1 and frozenset((found[-2], node)) in joined:
            found.pop()
        found.append(node)
    return np.array(found)


def _is_clear(piece: Flattened) -> bool:
    """Whether no triangle is turned over and the flat outline does not cross itself."""
    outline = piece.flat[piece.panel.loops[0]]
    return bool(piece.areas.min() > 0 and Polygon(outline).is_valid)
