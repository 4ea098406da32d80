"""Triangle meshes of panels: a patch over four edge curves or of a strip, its boundary, and cuts along edges."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
from scipy.sparse import coo_matrix, csr_matrix
from scipy.sparse.csgraph import connected_components

from kit.core.errors import KitError
from kit.geometry.development.arrays import Floats, Ints, cross, norm
from kit.geometry.development.curves import Curve
from kit.geometry.ties import rough


@dataclass(frozen=True)
class Panel:
    """A mesh in space: vertices (n, 3), mm, triangles (m, 3), and for each vertex its number before any cut (n,)."""

    vertices: Floats
    triangles: Ints
    origin: Ints

    @cached_property
    def areas(self) -> Floats:
        """The area of each triangle, mm²."""
        p, q, r = (self.vertices[self.triangles[:, k]] for k in range(3))
        return norm(cross(q - p, r - p)) / 2

    @cached_property
    def edges(self) -> tuple[Ints, Ints]:
        """All edges (k, 2), each once, smaller number first, and how many triangles share each."""
        sides = np.vstack([self.triangles[:, [k, (k + 1) % 3]] for k in range(3)])
        return np.unique(np.sort(sides, axis=1), axis=0, return_counts=True)

    @cached_property
    def loops(self) -> list[Ints]:
        """The boundary loops as vertex numbers, each in the direction of its triangles, the longest first."""
        sides = np.vstack([self.triangles[:, [k, (k + 1) % 3]] for k in range(3)])
        known = {(int(p), int(q)) for p, q in sides}
        after = {p: q for p, q in known if (q, p) not in known}
        loops = []
        while after:
            start, node = next(iter(after.items()))
            loop = [start]
            del after[start]
            while node != start:
                loop.append(node)
                node = after.pop(node)
            loops.append(np.array(loop))
        return sorted(loops, key=lambda loop: -rough(self._length(loop)))

    def _length(self, loop: Ints) -> float:
        return float(norm(self.vertices[loop] - self.vertices[np.roll(loop, -1)]).sum())

    @cached_property
    def graph(self) -> csr_matrix:
        """The edges as a symmetric sparse matrix of lengths (n, n), mm."""
        ends, _ = self.edges
        length = norm(self.vertices[ends[:, 0]] - self.vertices[ends[:, 1]])
        n = len(self.vertices)
        half = coo_matrix((length, (ends[:, 0], ends[:, 1])), shape=(n, n))
        return (half + half.T).tocsr()

    @cached_property
    def angle_sums(self) -> Floats:
        """The sum of the triangle angles at each vertex (n,), rad: 2π inside a surface that lies flat."""
        corners = self.vertices[self.triangles]
        total = np.zeros(len(self.vertices))
        for k in range(3):
            u = corners[:, (k + 1) % 3] - corners[:, k]
            v = corners[:, (k + 2) % 3] - corners[:, k]
            angle = np.arctan2(norm(cross(u, v)), np.einsum("ij,ij->i", u, v))
            np.add.at(total, self.triangles[:, k], angle)
        return total

    @property
    def curvature(self) -> float:
        """The total curvature inside, rad: positive for a dome, negative for a saddle."""
        inside = np.ones(len(self.vertices), dtype=bool)
        for loop in self.loops:
            inside[loop] = False
        return float((2 * np.pi - self.angle_sums[inside]).sum())

    def cut(self, path: Sequence[int] | Ints) -> "Panel":
        """Return the panel cut along a path of neighboring vertices; a vertex left on both sides is doubled.

        The path ends on the boundary with one end (a dart) or with both (a seam, which parts the panel).
        """
        path = [int(node) for node in path]
        closed = {frozenset(pair) for pair in pairwise(path)}
        triangles, vertices, origin = self.triangles.copy(), list(self.vertices), list(self.origin)
        for node in path:
            around = np.flatnonzero((self.triangles == node).any(axis=1))
            for fan in self._fans(node, around, closed)[1:]:
                triangles[fan] = np.where(self.triangles[fan] == node, len(vertices), triangles[fan])
                vertices.append(self.vertices[node])
                origin.append(self.origin[node])
        return Panel(np.array(vertices), triangles, np.array(origin))

    def _fans(self, node: int, around: Ints, cut: set[frozenset[int]]) -> list[Ints]:
        """Group the triangles round a vertex into fans that hang together over edges that are not cut."""
        others = [[int(v) for v in self.triangles[t] if v != node] for t in around]
        joined = np.array(
            [[any(v in b and frozenset((node, v)) not in cut for v in a) for b in others] for a in others]
        )
        count, label = connected_components(csr_matrix(joined), directed=False)
        return [around[label == k] for k in range(count)]

    def parts(self) -> list["Panel"]:
        """Return the connected panels, the largest first, equal ones in the order of their vertices."""
        count, label = connected_components(self.graph, directed=False)
        found = []
        for k in range(count):
            mine = np.flatnonzero(label == k)
            number = np.full(len(label), -1)
            number[mine] = np.arange(len(mine))
            triangles = number[self.triangles[label[self.triangles[:, 0]] == k]]
            if len(triangles):
                found.append(Panel(self.vertices[mine], triangles, self.origin[mine]))
        return sorted(found, key=lambda panel: -rough(panel.areas.sum()))


def panel_of(vertices: Floats, triangles: Ints) -> Panel:
    """Return a panel from vertices (n, 3), mm, and triangles (m, 3).

    Raises: KitError for a triangle without area or an edge shared by more than two triangles.
    """
    panel = Panel(np.asarray(vertices, dtype=np.float64), np.asarray(triangles), np.arange(len(vertices)))
    flat = np.flatnonzero(panel.areas < 1e-9 * panel.areas.max())
    if flat.size:
        raise KitError(f"Triangle {flat[0] + 1} of the panel has no area; its edge curves have an edge without length")
    if panel.edges[1].max() > 2:
        raise KitError("An edge of the panel is shared by more than two triangles; a panel is a single sheet")
    return panel


def patch(below: Curve, above: Curve, left: Curve, right: Curve, steps: tuple[int, int] = (24, 24)) -> Panel:
    """Return the panel that fills a frame of four edge curves (bilinearly blended, as Coons gave it).

    below and above run from left to right, left and right from below to above. steps: cells along below, along left.
    Raises: KitError when two neighboring curves do not meet at their corner, naming both.
    """
    columns, rows = steps
    u, v = np.arange(columns + 1) / columns, np.arange(rows + 1) / rows
    low, high = below.at(u * below.end), above.at(u * above.end)
    near, far = left.at(v * left.end), right.at(v * right.end)
    for one, p, other, q in (
        (below, low[0], left, near[0]),
        (below, low[-1], right, far[0]),
        (above, high[0], left, near[-1]),
        (above, high[-1], right, far[-1]),
    ):
        if np.linalg.norm(p - q) > 1e-6 * max(1.0, float(np.abs(p).max())):
            raise KitError(
                f"The {one.name} and the {other.name} end {np.linalg.norm(p - q):.3g} mm apart; "
                "neighboring edges of a frame meet at a corner"
            )
    s, t = u[None, :, None], v[:, None, None]
    ruled_up = (1 - t) * low[None] + t * high[None]
    ruled_across = (1 - s) * near[:, None] + s * far[:, None]
    corners = (1 - s) * (1 - t) * low[0] + s * (1 - t) * low[-1] + (1 - s) * t * high[0] + s * t * high[-1]
    vertices = (ruled_up + ruled_across - corners).reshape(-1, 3)
    return panel_of(vertices, grid_triangles(columns, rows))


def grid_triangles(columns: int, rows: int) -> Ints:
    """Return the triangles (n, 3) of a grid of cells numbered row by row, two for each, diagonals in turn both ways."""
    j, i = np.divmod(np.arange(columns * rows), columns)
    a = j * (columns + 1) + i
    b, c, d = a + 1, a + columns + 2, a + columns + 1
    even = ((i + j) % 2 == 0)[:, None]
    first = np.where(even, np.column_stack([a, b, c]), np.column_stack([a, b, d]))
    second = np.where(even, np.column_stack([a, c, d]), np.column_stack([b, c, d]))
    return np.vstack([first, second])
