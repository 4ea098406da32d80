"""Cleaning: what is dropped, cut and thinned, and that the stated error holds."""

import numpy as np
import pytest
import trimesh
from scipy.spatial import cKDTree

from kit.core.errors import KitError
from kit.geometry.mesh import Scan, crop, drop_small, lighter, moving_part, piece_numbers, thin
from kit.geometry.mesh.mesh import welded


def scan_of(*meshes: trimesh.Trimesh) -> Scan:
    whole = trimesh.util.concatenate(list(meshes))
    return Scan(np.asarray(whole.vertices, dtype=float), np.asarray(whole.faces, dtype=np.int64))


def ball(radius: float, x: float = 0.0, subdivisions: int = 3) -> trimesh.Trimesh:
    mesh = trimesh.creation.icosphere(subdivisions=subdivisions, radius=radius)
    return mesh.apply_translation((x, 0.0, 0.0))


def test_pieces_are_numbered_from_the_largest() -> None:
    """An icosphere of n subdivisions has 20·4^n faces."""
    scan = scan_of(ball(5, 100, 1), ball(50, 0, 3), ball(8, -100, 2))
    np.testing.assert_array_equal(np.bincount(piece_numbers(scan)), [20 * 64, 20 * 16, 20 * 4])
    np.testing.assert_array_equal(piece_numbers(scan)[:80], 2)


def test_pieces_below_a_size_are_dropped_and_told() -> None:
    """The box about a ball of 8 mm has the diagonal 2·8·√3 = 27.7 mm."""
    scan = scan_of(ball(50), ball(8, 100), ball(5, -100))
    kept = drop_small(scan, 27.0)
    assert len(np.unique(piece_numbers(kept))) == 2
    assert kept.notes == ("Dropped below 27 mm: pieces 1, faces 1,280.",)
    assert drop_small(scan, 1.0) is scan
    with pytest.raises(KitError, match="the largest has 173"):
        drop_small(scan, 500.0)


def test_a_crop_keeps_what_has_a_corner_in_the_box() -> None:
    scan = scan_of(ball(50), ball(8, 100))
    kept = crop(scan, (80, -60, -60), (120, 60, 60))
    assert len(kept.faces) == 1280
    assert crop(scan, (-60, -60, -60), (120, 60, 60)) is scan
    with pytest.raises(KitError, match="No part of the scan"):
        crop(scan, (500, 0, 0), (600, 1, 1))
    with pytest.raises(KitError, match="below the second"):
        crop(scan, (0, 0, 0), (1, -1, 1))


@pytest.mark.parametrize("tolerance", [0.5, 4.0, 30.0, 200.0])
def test_thinning_moves_neither_surface_by_more_than_it_says(tolerance: float) -> None:
    """Dense points of each surface, measured to the other by an independent library; a spike stays a spike."""
    spike = trimesh.Trimesh([[40, 0, 0], [140, 0, 0], [40, 0.1, 0]], [[0, 1, 2]])
    scan = scan_of(ball(50, 0, 4), spike)
    thinned, error = thin(scan, tolerance)
    assert error <= tolerance
    assert f"{error:.3g} mm" in thinned.notes[-1]
    if tolerance > 1.0:
        assert len(thinned.vertices) < len(scan.vertices)
    for there, back in ((scan, thinned), (thinned, scan)):
        triangles = there.vertices[there.faces]
        weights = np.random.default_rng(2).dirichlet([0.4, 0.4, 0.4], len(triangles))
        points = np.concatenate([np.einsum("nk,nkj->nj", weights, triangles), there.vertices[there.faces[:, 0]]])
        others = back.vertices[back.faces]
        for point in points[:: max(1, len(points) // 150)]:
            nearest = trimesh.triangles.closest_point(others, np.tile(point, (len(others), 1)))
            assert np.nanmin(np.linalg.norm(nearest - point, axis=1)) <= error + 1e-9


def test_thinning_makes_the_points_as_sparse_as_the_tolerance() -> None:
    thinned, _ = thin(scan_of(ball(50, 0, 6)), 8.0)
    distance = cKDTree(thinned.vertices).query(thinned.vertices, k=2)[0][:, 1]
    assert np.median(distance) > 2.0
    with pytest.raises(KitError, match="above 0"):
        thin(scan_of(ball(50)), 0.0)
    with pytest.raises(KitError, match="at least"):
        thin(scan_of(ball(50)), 1e-6)


def test_what_stood_still_is_told_from_what_moved() -> None:
    still, arm = ball(50, 0, 4), ball(20, 100, 3)
    before = scan_of(still, arm)
    after = scan_of(still.copy(), arm.copy().apply_translation((0, 60, 0)))
    moved = moving_part(before, after, 1.0)
    assert len(moved.faces) == 1280
    assert moved.vertices[:, 0].min() >= 80.0 - 1e-9
    with pytest.raises(KitError, match="Nothing moved"):
        moving_part(before, before, 1.0)


@pytest.mark.parametrize("spread", [None, (0, 0, 0)])
def test_welding_keeps_every_triangle_in_place(
    monkeypatch: pytest.MonkeyPatch, spread: tuple[int, int, int] | None
) -> None:
    """Also where all places have the same sum."""
    if spread:
        monkeypatch.setattr("kit.geometry.mesh.mesh.MIXED", spread)
    mesh = ball(10, 0, 2)
    loose = mesh.vertices[mesh.faces].reshape(-1, 3)
    points, faces = welded(loose, np.arange(len(loose)).reshape(-1, 3))
    assert len(points) == len(mesh.vertices)
    np.testing.assert_array_equal(points[faces], mesh.vertices[mesh.faces])


def test_a_lighter_scan_has_few_faces_and_keeps_its_size() -> None:
    scan = scan_of(ball(50, 0, 5))
    less = lighter(scan, 500)
    assert 100 < len(less.faces) <= 500
    np.testing.assert_allclose(less.extent, scan.extent, rtol=0.15)
    assert lighter(less, 500) is less
