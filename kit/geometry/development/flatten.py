"""Flattening a doubly curved panel with the least strain: a conformal start, then least squares of the strain.

No flat piece keeps all lengths of a dome or a saddle. The conformal map (least squares, Lévy et al. 2002) keeps angles
and needs one linear solve; from there damped Gauss-Newton steps bring down the energy of the strain
½ (Fᵀ F - 1) of each triangle (Green's), weighted by area, which counts stretch in all directions and shear alike.
Both sides of a dart are made equally long, edge by edge, and the sides of a seam as long as on the shape.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from scipy.sparse import coo_matrix, csr_matrix, eye, vstack
from scipy.sparse.linalg import splu

from kit.core.errors import KitError
from kit.geometry.development.arrays import Floats, Ints, cross, dot, norm, unit_rows
from kit.geometry.development.mesh import Panel
from kit.geometry.ties import first_largest

HOLD = 1e3  # times the strain of the cloth beside it that the strain of a sewn edge counts
NONE: Ints = np.zeros((0, 2), dtype=np.int64)
PAIRS: Ints = np.zeros((0, 2, 2), dtype=np.int64)


@dataclass(frozen=True)
class Flattened:
    """A panel and its flat vertices (n, 2), mm, counterclockwise like its triangles; steps: solver steps taken."""

    panel: Panel
    flat: Floats
    steps: int

    @property
    def areas(self) -> Floats:
        """The flat area of each triangle, mm²; negative where one is turned over."""
        p, q, r = (self.flat[self.panel.triangles[:, k]] for k in range(3))
        u, v = q - p, r - p
        return np.asarray((u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]) / 2)


def flatten(
    panel: Panel, *, held: Ints = NONE, paired: Ints = PAIRS, steps: int = 60, still: float = 1e-7
) -> Flattened:
    """Return the panel laid flat with the least strain.

    held (k, 2): neighboring vertices whose distance is kept. paired (k, 2, 2): two pairs each of neighboring vertices
    whose distances are made equal. steps: most solver steps; still: relative gain in energy below which the solver
    stops.
    Raises: KitError when the panel has no boundary to open, or holes and handles.
    """
    if not panel.loops:
        raise KitError("The panel has no edge; cut it open along a seam before it is laid flat")
    ends, _ = panel.edges
    if len(panel.vertices) - len(ends) + len(panel.triangles) != 1:
        raise KitError("The panel is not a single sheet without holes; part it by seams before it is laid flat")
    local = local_corners(panel)
    flat = _conformal(panel, local)
    sewn = _Sewn(panel, held, 1.0), _Sewn(panel, paired[:, 0], 1.0), _Sewn(panel, paired[:, 1], -1.0)
    return _least_strain(panel, local, flat, steps, still, sewn)


@dataclass(frozen=True)
class _Sewn:
    """Edges (k, 2) of a panel whose strain on the table counts, with a sign."""

    panel: Panel
    ends: Ints
    sign: float

    @cached_property
    def _length(self) -> Floats:
        here = self.panel.vertices
        return norm(here[self.ends[:, 1]] - here[self.ends[:, 0]])

    @cached_property
    def _weight(self) -> float:
        return self.sign * float(np.sqrt(HOLD * self.panel.areas.mean()))

    def strain(self, flat: Floats) -> Floats:
        """Return the weighted strain of each edge, (k,)."""
        now = norm(flat[self.ends[:, 1]] - flat[self.ends[:, 0]])
        return np.asarray(self._weight * (now / self._length - 1))

    def slopes(self, flat: Floats) -> csr_matrix:
        """Return the derivatives of the strain by x, then y of all vertices, (k, 2 n)."""
        n, k = len(flat), len(self.ends)
        way = unit_rows(flat[self.ends[:, 1]] - flat[self.ends[:, 0]]) * self._weight / self._length[:, None]
        columns = np.column_stack([self.ends, self.ends + n])
        values = np.column_stack([-way[:, 0], way[:, 0], -way[:, 1], way[:, 1]])
        return _sparse(np.repeat(np.arange(k), 4), columns.ravel(), values.ravel(), (k, 2 * n))


Seams = tuple[_Sewn, _Sewn, _Sewn]


def _sewn_strain(sewn: Seams, flat: Floats) -> Floats:
    """Return the weighted strains of held edges, then the differences of those of paired ones."""
    held, one, other = sewn
    return np.concatenate([held.strain(flat), one.strain(flat) + other.strain(flat)])


def local_corners(panel: Panel) -> Floats:
    """Return each triangle in its own plane, corners (m, 3, 2), the first at the origin and the second on x."""
    p, q, r = (panel.vertices[panel.triangles[:, k]] for k in range(3))
    x = unit_rows(q - p)
    y = cross(unit_rows(cross(q - p, r - p)), x)
    zero = np.zeros(len(p))
    corners = [(zero, zero), (norm(q - p), zero), (dot(r - p, x), dot(r - p, y))]
    return np.stack([np.column_stack(corner) for corner in corners], axis=1)


def gradients(local: Floats) -> Floats:
    """Return the gradients of the three corner weights of each triangle, shape (m, 3, 2), 1/mm."""
    opposite = np.roll(local, -2, axis=1) - np.roll(local, -1, axis=1)
    twice = _twice_area(local)[:, None]
    return np.stack([-opposite[:, :, 1] / twice, opposite[:, :, 0] / twice], axis=2)


def _twice_area(local: Floats) -> Floats:
    return np.asarray(local[:, 1, 0] * local[:, 2, 1])


def _conformal(panel: Panel, local: Floats) -> Floats:
    """Return the least squares conformal map with two far vertices held at their distance."""
    n, gradient, tri = len(panel.vertices), gradients(local), panel.triangles
    root = np.sqrt(_twice_area(local) / 2)[:, None]
    m = len(tri)
    row = np.repeat(np.arange(m), 3)
    gx, gy = (gradient[:, :, k] * root for k in range(2))
    # Cauchy-Riemann in each triangle: u_x = v_y and u_y = - v_x.
    first = _sparse(np.r_[row, row], np.r_[tri.ravel(), tri.ravel() + n], np.r_[gx.ravel(), -gy.ravel()], (m, 2 * n))
    second = _sparse(np.r_[row, row], np.r_[tri.ravel(), tri.ravel() + n], np.r_[gy.ravel(), gx.ravel()], (m, 2 * n))
    square = (first.T @ first + second.T @ second).tocsc()
    loop = panel.loops[0]
    here = panel.vertices[loop]
    one = first_largest(norm(here - here.mean(axis=0)))
    other = first_largest(norm(here - here[one]))
    held = np.array([loop[one], loop[other], loop[one] + n, loop[other] + n])
    values = np.array([0.0, float(np.linalg.norm(here[one] - here[other])), 0.0, 0.0])
    free = np.setdiff1d(np.arange(2 * n), held)
    found = np.zeros(2 * n)
    found[held] = values
    found[free] = splu(square[free][:, free]).solve(-square[free][:, held] @ values)
    flat = np.column_stack([found[:n], found[n:]])
    size = Flattened(panel, flat, 0).areas.sum()
    return np.asarray(flat * np.sqrt(panel.areas.sum() / size))


def _sparse(rows: Ints, columns: Ints, values: Floats, shape: tuple[int, int]) -> csr_matrix:
    return coo_matrix((values, (rows, columns)), shape=shape).tocsr()


def _green(flat: Floats, tri: Ints, gradient: Floats) -> tuple[Floats, Floats]:
    """Return the deformation gradient (m, 2, 2) from the panel to the flat and its strain rows (m, 3)."""
    f = np.einsum("mki,mkj->mij", flat[tri], gradient)
    c = np.einsum("mki,mkj->mij", f, f)
    return f, np.column_stack([(c[:, 0, 0] - 1) / 2, (c[:, 1, 1] - 1) / 2, c[:, 0, 1] / np.sqrt(2)])


def _least_strain(panel: Panel, local: Floats, flat: Floats, steps: int, still: float, sewn: Seams) -> Flattened:
    """Bring down the area-weighted squares of the strain by damped Gauss-Newton steps (Levenberg-Marquardt)."""
    tri, gradient, n = panel.triangles, gradients(local), len(flat)
    weight = np.sqrt(_twice_area(local) / 2)[:, None]
    m = len(tri)
    columns = np.stack([tri, tri + n], axis=2)  # (m, corner, axis)
    rows = np.arange(m)[:, None, None] + m * np.arange(3)[None, :, None]
    rows = np.broadcast_to(rows, (m, 3, 6))
    column = np.broadcast_to(columns.reshape(m, 1, 6), (m, 3, 6))
    f, strain = _green(flat, tri, gradient)
    energy, damping = float(((weight * strain) ** 2).sum() + (_sewn_strain(sewn, flat) ** 2).sum()), 1e-3
    taken = 0
    while taken < steps:
        taken += 1
        # d(FᵀF) from moving corner k along axis i by one: the products of row i of F with gradient k.
        d_xx = f[:, None, :, 0] * gradient[:, :, None, 0]
        d_yy = f[:, None, :, 1] * gradient[:, :, None, 1]
        d_xy = (f[:, None, :, 0] * gradient[:, :, None, 1] + f[:, None, :, 1] * gradient[:, :, None, 0]) / np.sqrt(2)
        slope = np.stack([d_xx, d_yy, d_xy], axis=1).reshape(m, 3, 6) * weight[:, :, None]
        jacobian = _sparse(rows.ravel(), column.ravel(), slope.ravel(), (3 * m, 2 * n))
        held, one, other = (each.slopes(flat) for each in sewn)
        jacobian = vstack([jacobian, held, one + other]).tocsr()
        residual = np.concatenate([(weight * strain).T.ravel(), _sewn_strain(sewn, flat)])
        square, pull = (jacobian.T @ jacobian).tocsc(), jacobian.T @ residual
        scale = square.diagonal().mean()
        gained = 0.0
        for _ in range(8):
            move = splu((square + damping * scale * eye(2 * n, format="csc")).tocsc()).solve(-pull)
            tried = flat + np.column_stack([move[:n], move[n:]])
            f_new, strain_new = _green(tried, tri, gradient)
            energy_new = float(((weight * strain_new) ** 2).sum() + (_sewn_strain(sewn, tried) ** 2).sum())
            if energy_new < energy and np.linalg.det(f_new).min() > 0:
                gained = energy - energy_new
                flat, f, strain, energy = tried, f_new, strain_new, energy_new
                damping = max(damping / 10, 1e-12)
                break
            damping *= 10
        if gained <= still * energy or energy < 1e-18 * panel.areas.sum():
            break
    return Flattened(panel, flat, taken)
