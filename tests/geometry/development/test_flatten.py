"""Flattening of doubly curved panels against plate theory, a general flattening library and exact cases."""

import igl
import numpy as np
import pytest
import trimesh
from scipy.spatial import Delaunay

from kit.core.errors import KitError
from kit.geometry.development.arrays import Floats
from kit.geometry.development.develop import develop
from kit.geometry.development.flatten import flatten
from kit.geometry.development.mesh import Panel, grid_triangles, panel_of, patch
from kit.geometry.development.primitives import arc, circle, line, rectangle
from kit.geometry.development.strain import thread_strain
from kit.geometry.development.unroll import unroll
from kit.subjects.cloth.geometry.darts import relieve


def sheet(height: Floats, side: float) -> Panel:
    n = len(height) - 1
    x = np.linspace(-side / 2, side / 2, n + 1)
    X, Y = np.meshgrid(x, x)
    return panel_of(np.column_stack([X.ravel(), Y.ravel(), height.ravel()]), grid_triangles(n, n))


def grid(side: float, n: int = 24) -> tuple[Floats, Floats]:
    x = np.linspace(-side / 2, side / 2, n + 1)
    return np.meshgrid(x, x)  # type: ignore[return-value]


def dome(radius: float, side: float) -> Panel:
    X, Y = grid(side)
    return sheet(np.sqrt(radius**2 - X**2 - Y**2), side)


def saddle(side: float = 300.0, bend: float = 400.0) -> Panel:
    X, Y = grid(side)
    return sheet(X * Y / bend, side)


def cap(radius: float, reach: float, rings: int = 16) -> Panel:
    """A round cap of a sphere: reach is its radius along the surface."""
    places = [(0.0, 0.0)] + [
        (reach * k / rings, 2 * np.pi * j / (6 * k)) for k in range(1, rings + 1) for j in range(6 * k)
    ]
    r, turn = np.array(places).T
    flat = np.column_stack([r * np.cos(turn), r * np.sin(turn)])
    angle = r / radius
    vertices = radius * np.column_stack([np.sin(angle) * np.cos(turn), np.sin(angle) * np.sin(turn), np.cos(angle)])
    return panel_of(vertices, Delaunay(flat).simplices)


def test_a_cap_takes_the_strain_of_plate_theory() -> None:
    """A shallow disk of radius a and curvature K, flattened with free edge and Poisson's ratio 0.

    Airy's function with ∇⁴χ = -K and a free edge is χ = -K (r² - a²)²/64, so the strains are K (a² - r²)/16 along the
    radius and K (a² - 3 r²)/16 round it: K a²/16 in the middle and -K a²/8 at the rim (flat against shape; worked
    out here from the equations of shallow shells).
    """
    radius, reach = 600.0, 100.0
    found = thread_strain(flatten(cap(radius, reach)), 0.0)
    strains = np.concatenate([found.warp, found.weft])
    share = (reach / radius) ** 2
    assert strains.max() == pytest.approx(share / 16, rel=0.01)
    assert strains.min() == pytest.approx(-share / 8, rel=0.03)


def test_a_bent_sheet_lies_flat_without_strain() -> None:
    u, v = np.meshgrid(np.linspace(0, 2, 25), np.linspace(0, 150, 25))
    bent = panel_of(
        np.column_stack([100 * np.cos(u.ravel()), 100 * np.sin(u.ravel()), v.ravel()]), grid_triangles(24, 24)
    )
    piece = flatten(bent)
    assert max(thread_strain(piece, 0.3).largest) < 1e-9
    assert piece.areas.sum() == pytest.approx(bent.areas.sum(), rel=1e-9)


@pytest.mark.parametrize("panel", [dome(500, 300), dome(300, 300), saddle()], ids=["dome", "deep dome", "saddle"])
def test_the_strain_energy_is_below_that_of_a_general_library(panel: Panel) -> None:
    """Conformal map and as-rigid-as-possible of libigl, from the same mesh; energy of the strain ½ (FᵀF - 1)."""
    piece = flatten(panel)
    held = np.array([0, len(panel.vertices) - 1])
    start, _ = igl.lscm(panel.vertices, panel.triangles, held, piece.flat[held])
    data = igl.ARAPData()
    data.max_iter = 60
    igl.arap_precomputation(panel.vertices, panel.triangles, 2, held[:1].astype(np.int32), data)
    rigid = igl.arap_solve(start[:1], data, start)
    assert 0 < energy(panel, rigid) < energy(panel, start), "the library has done its work"
    assert energy(panel, piece.flat) <= energy(panel, rigid)


def energy(panel: Panel, flat: Floats) -> float:
    """Area-weighted square of the strain, from edge vectors: written apart from the code under test."""
    total = 0.0
    for triangle in panel.triangles:
        p, q, r = panel.vertices[triangle]
        x = (q - p) / np.linalg.norm(q - p)
        y = (r - p) - ((r - p) @ x) * x
        height = float(np.linalg.norm(y))
        space = np.array([[np.linalg.norm(q - p), (r - p) @ x], [0.0, height]])
        u, v, w = flat[triangle]
        f = np.column_stack([v - u, w - u]) @ np.linalg.inv(space)
        total += np.linalg.det(space) / 2 * float((((f.T @ f - np.eye(2)) / 2) ** 2).sum())
    return total


def test_three_ways_to_lay_a_transition_flat_agree() -> None:
    """Unrolled, flattened by least strain, and by the conformal map of libigl: one shape, up to shift and turn."""
    strip = develop(rectangle(300, 200, radius=40), circle(60, (20, 10, 200))).strip.part(0, 60)
    unrolled = unroll(strip)
    ia, ib = strip.zigzag
    nodes = [(0, int(k)) for k in np.unique(ia)] + [(1, int(k)) for k in np.unique(ib)]
    vertices, flat = (
        np.array([(pair[0], pair[1])[side][k] for side, k in nodes])
        for pair in ((strip.a, strip.b), (unrolled.a, unrolled.b))
    )
    keep, number = np.unique(np.round(vertices, 9), axis=0, return_index=False, return_inverse=True)
    place = {node: int(number[k]) for k, node in enumerate(nodes)}
    triangles = []
    for k in range(len(ia) - 1):
        moved = (0, int(ia[k + 1])) if ia[k + 1] > ia[k] else (1, int(ib[k + 1]))
        corner = [place[0, int(ia[k])], place[moved], place[1, int(ib[k])]]
        if len(set(corner)) == 3:
            triangles.append(corner)
    panel = panel_of(keep, np.array(triangles))
    goal = np.zeros((len(keep), 2))
    goal[number] = flat
    ends = np.array([place[0, 0], place[0, int(ia[-1])]])
    library, _ = igl.lscm(panel.vertices, panel.triangles, ends, goal[ends])
    assert laid_on(flatten(panel).flat, goal) == pytest.approx(goal, abs=1e-6)
    assert library == pytest.approx(goal, abs=1e-2)


def laid_on(flat: Floats, goal: Floats) -> Floats:
    """Shift and turn points onto a goal."""
    middle, aim = flat.mean(axis=0), goal.mean(axis=0)
    u, _, v = np.linalg.svd((flat - middle).T @ (goal - aim))
    return np.asarray((flat - middle) @ u @ v + aim)


def test_strain_follows_the_thread_it_is_asked_for() -> None:
    """A plane square stretched by hand: 2 % along x, -1 % along y, none of it in the other thread."""
    plain = sheet(np.zeros((5, 5)), 100)
    piece = flatten(plain)
    pulled = type(piece)(panel_of(plain.vertices * [1.02, 0.99, 1], plain.triangles), plain.vertices[:, :2].copy(), 0)
    along = thread_strain(pulled, 0.0)
    assert along.warp == pytest.approx(np.full(len(along.warp), 0.02))
    assert along.weft == pytest.approx(np.full(len(along.warp), -0.01))
    assert along.shear == pytest.approx(np.zeros(len(along.warp)), abs=1e-12)
    bias = thread_strain(pulled, np.pi / 4)
    assert np.abs(bias.shear) == pytest.approx(
        np.full(len(bias.shear), np.arcsin((1.02**2 - 0.99**2) / (1.02**2 + 0.99**2)))
    )


@pytest.mark.parametrize(
    ("panel", "limit", "kinds"),
    [(dome(300, 400), (0.02, 0.02), {"seam"}), (saddle(), (0.012, 0.02), {"seam"})],
    ids=["dome", "saddle"],
)
def test_cuts_are_proposed_until_the_cloth_can_take_it(
    panel: Panel, limit: tuple[float, float], kinds: set[str]
) -> None:
    before = flatten(panel)
    found = relieve(panel, limit, most=12)
    assert max(w / m for w, m in zip(thread_strain(before, 0.0).largest, limit, strict=True)) > 1
    assert found.met
    assert {cut.kind for cut in found.cuts} == kinds
    for piece in found.pieces:
        warp, weft = thread_strain(piece, found.grain).largest
        assert warp <= limit[0]
        assert weft <= limit[1]
        assert piece.areas.min() > 0
    area = sum(piece.panel.areas.sum() for piece in found.pieces)
    # Facets between vertices that slid lie askew on the given ones and cut their edges short.
    assert area == pytest.approx(panel.areas.sum(), rel=2e-3)
    for piece in found.pieces:
        assert away_from(piece.panel.vertices, panel) < 1e-9


def away_from(points: Floats, panel: Panel) -> float:
    """How far points are from a mesh at most, by the library's nearest point of every triangle."""
    every = np.repeat(panel.vertices[panel.triangles], len(points), axis=0)
    asked = np.tile(points, (len(panel.triangles), 1))
    far = np.linalg.norm(trimesh.triangles.closest_point(every, asked) - asked, axis=1)
    return float(far.reshape(len(panel.triangles), -1).min(axis=0).max())


@pytest.mark.parametrize("panel", [dome(400, 300), dome(500, 300)], ids=["400", "500"])
def test_cuts_run_smoothly_however_the_mesh_lies(panel: Panel) -> None:
    """Along the edges of the mesh a way that is not along a row turns by 45° again and again."""
    found = relieve(panel, (0.006, 0.006), most=4)
    for cut in found.cuts:
        step = np.diff(cut.points, axis=0)
        step /= np.linalg.norm(step, axis=1)[:, None]
        turn = np.degrees(np.arccos(np.clip((step[1:] * step[:-1]).sum(axis=1), -1, 1)))
        assert turn.max(initial=0) < 12


def test_what_is_not_met_within_the_allowed_cuts_is_said() -> None:
    assert not relieve(dome(300, 400), (0.001, 0.001), most=1).met


def test_total_curvature() -> None:
    """Gauss-Bonnet: a cap that reaches to polar angle φ turns through 2π (1 - cos φ); a cut changes nothing."""
    panel = cap(100, 80, rings=24)
    assert panel.curvature == pytest.approx(2 * np.pi * (1 - np.cos(0.8)), rel=0.07)
    # The mesh's own total: the outermost inner ring is all that the formula on the whole cap has more.
    inner = 2 * np.pi * (1 - np.cos(0.8 * 23.5 / 24))
    assert panel.curvature == pytest.approx(inner, rel=0.01)


def test_a_patch_goes_through_its_four_edge_curves() -> None:
    a, b, c, d = (0, 0, 0), (100, 0, 0), (100, 80, 30), (0, 80, 0)
    below, above = arc(a, (50, 0, 20), b), arc(d, (50, 80, 40), c)
    frame = patch(below, above, line(a, d), line(b, c), (12, 8))
    row = frame.vertices[:13]
    assert row == pytest.approx(below.at(np.arange(13) / 12))
    assert frame.vertices[-13:] == pytest.approx(above.at(np.arange(13) / 12))
    assert len(frame.loops) == 1
    assert len(frame.loops[0]) == 2 * (12 + 8)


def test_bad_panels_are_refused_with_a_sentence() -> None:
    with pytest.raises(KitError, match="The below and the right end 5 mm apart"):
        patch(
            line((0, 0, 0), (9, 0, 0), "below"),
            line((0, 9, 0), (9, 9, 0), "above"),
            line((0, 0, 0), (0, 9, 0), "left"),
            line((9, 0, 5), (9, 9, 0), "right"),
        )
    ball = np.array([[0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]], dtype=float)
    with pytest.raises(KitError, match="has no edge"):
        flatten(panel_of(ball, np.array([[0, 2, 1], [0, 1, 3], [1, 2, 3], [0, 3, 2]])))
    with pytest.raises(KitError, match="Triangle 1 of the panel has no area"):
        panel_of(
            np.array([[0, 0, 0], [1, 0, 0], [2, 0, 0], [0, 1, 0]], dtype=float),
            np.array([[0, 1, 2], [0, 2, 3]]),
        )
    with pytest.raises(KitError, match="must be above 0 in both"):
        relieve(saddle(), (0.01, 0))
