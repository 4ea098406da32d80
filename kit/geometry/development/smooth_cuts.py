"""Cuts that run smoothly over a mesh: the vertices of a way along edges are drawn onto a smooth line, the others give.

The line is straight on the panel as it was first laid flat, or where that way would leave the piece, the way itself
with its corners worn off. Vertices slide on the surface as it was given: each has a place on the first flat layout, and
the point in space is read off there.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from scipy.sparse import coo_matrix, csr_matrix
from scipy.sparse.linalg import splu
from scipy.spatial import KDTree
from shapely import LineString, Polygon

from kit.geometry.development.arrays import Floats, Ints, cumulative
from kit.geometry.development.flatten import Flattened
from kit.geometry.development.mesh import Panel

WORN = (40, 10, 4)  # times that each inner point of a way moves toward the mean of its neighbors, in turn
CROWDED = 0.35  # of the mean step along a straight way, the least step
LEAST = 0.1  # share of its area that a triangle keeps on the layout when vertices slide


@dataclass(frozen=True)
class Sheet:
    """A panel as it was given, laid flat whole: what places on the layout mean in space."""

    whole: Flattened

    @cached_property
    def _middles(self) -> KDTree:
        return KDTree(self.whole.flat[self.whole.panel.triangles].mean(axis=1))

    def in_space(self, at: Floats) -> Floats:
        """Return the points (n, 3) of the panel at places (n, 2) of its layout."""
        flat, panel = self.whole.flat, self.whole.panel
        _, near = self._middles.query(at, k=min(16, len(panel.triangles)))
        p, q, r = (flat[panel.triangles[near, k]] for k in range(3))  # (n, k, 2)
        twice = _turn(q - p, r - p)
        here = at[:, None]
        share = np.stack([_turn(q - here, r - here), _turn(r - here, p - here), _turn(p - here, q - here)])
        share = share / twice
        best = share.min(axis=0).argmax(axis=1)
        row = np.arange(len(at))
        found = share[:, row, best].T  # (n, 3)
        corners = panel.vertices[panel.triangles[near[row, best]]]
        return np.asarray(np.einsum("nk,nkj->nj", found, corners))


def _turn(u: Floats, v: Floats) -> Floats:
    return np.asarray(u[..., 0] * v[..., 1] - u[..., 1] * v[..., 0])


def drawn_smooth(panel: Panel, path: Ints, places: Floats, sheet: Sheet) -> tuple[Panel, Floats] | None:
    """Return a panel whose vertices along a path (vertex numbers) lie on a smooth line, and the new places.

    places (n, 2): of all vertices of the panel as it was given, on the sheet's layout. The path's ends stay, and so
    does the boundary. None where triangles would turn over on any smooth line: the mesh is too coarse there.
    """
    at = places[panel.origin]
    tri = panel.triangles
    before = _turn(at[tri[:, 1]] - at[tri[:, 0]], at[tri[:, 2]] - at[tri[:, 0]])
    for goal in _smooth(at[path], Polygon(at[panel.loops[0]])):
        move = _given_way(panel, path, goal - at[path])
        moved = at + move
        after = _turn(moved[tri[:, 1]] - moved[tri[:, 0]], moved[tri[:, 2]] - moved[tri[:, 0]])
        if (after > LEAST * before).all():
            slid = np.abs(move).max(axis=1) > 0
            vertices, new = panel.vertices.copy(), places.copy()
            vertices[slid] = sheet.in_space(moved[slid])
            new[panel.origin[slid]] = moved[slid]
            return Panel(vertices, tri, panel.origin), new
    return None


def _smooth(way: Floats, piece: Polygon) -> Iterator[Floats]:
    """Yield smooth lines with the same ends and as many points, about where they are: the smoothest first."""
    whole = way[-1] - way[0]
    step = np.diff(way @ whole) / float(whole @ whole)
    share = cumulative(np.maximum(step, CROWDED / len(step)))
    straight = way[0] + (share / share[-1])[:, None] * whole
    inner = LineString(straight[1:-1] if len(way) > 3 else straight)
    edge = float(np.linalg.norm(whole)) / len(way)
    if piece.contains(inner) and piece.exterior.distance(inner) > edge / 4:
        yield straight
    for times in WORN:
        worn = way
        for _ in range(times):
            worn = np.vstack([worn[:1], (worn[:-2] + 2 * worn[1:-1] + worn[2:]) / 4, worn[-1:]])
        yield worn


def _given_way(panel: Panel, path: Ints, move: Floats) -> Floats:
    """Return the moves (n, 2) of all vertices: those of the path are given, the boundary stays, the rest evens out."""
    n = len(panel.vertices)
    ends, _ = panel.edges
    ones = np.ones(len(ends))
    half = coo_matrix((ones, (ends[:, 0], ends[:, 1])), shape=(n, n))
    joined: csr_matrix = (half + half.T).tocsr()
    laplace = (coo_matrix((joined.sum(axis=1).A1, (range(n), range(n))), shape=(n, n)) - joined).tocsr()
    found = np.zeros((n, 2))
    found[path] = move
    held = np.zeros(n, dtype=bool)
    held[path] = True
    for loop in panel.loops:
        held[loop] = True
        found[loop] = 0.0
    free = np.flatnonzero(~held)
    if len(free):
        pull = -laplace[free][:, np.flatnonzero(held)] @ found[held]
        found[free] = splu(laplace[free][:, free].tocsc()).solve(pull)
    return found
