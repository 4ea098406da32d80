"""Bed plane and machine frame, against planes that are known."""

import numpy as np
import pytest
import trimesh

from kit.core.errors import KitError
from kit.geometry.mesh import Scan, find_bed, fit_plane, machine_frame
from kit.geometry.motion import apply, turn

TILTED = turn(0.6, (0, 0, 0), (1.0, 2.0, 0.3)) @ turn(0.0, (0, 0, 0), (0, 0, 1))


def bed(seed: int = 1, count: int = 3000, noise: float = 0.3) -> np.ndarray:
    rng = np.random.default_rng(seed)
    return np.c_[rng.uniform(-300, 300, (count, 2)), rng.uniform(-noise, noise, count)]


def test_the_plane_is_found_among_four_times_as_many_others() -> None:
    """3,000 points within ± 0.3 mm of a plane, 12,000 anywhere: the normal is good to 0.3/300/√3000 times a few."""
    stray = np.random.default_rng(2).uniform(-300, 300, (12000, 3))
    plane = fit_plane(apply(TILTED, np.concatenate([bed(), stray])), 1.0)
    assert abs(plane.normal @ TILTED[:3, 2]) == pytest.approx(1.0, abs=1e-6)
    assert abs((plane.point - TILTED[:3, 3]) @ TILTED[:3, 2]) < 0.1
    assert plane.used[:3000].all()
    assert 0.5 < plane.flatness <= 2.0


def test_flatness_and_residual_by_hand() -> None:
    """Four corners of a square lifted by +1, -1, +1, -1 mm in turn: 2 mm from lowest to highest, 1 mm mean square."""
    plane = fit_plane([[0, 0, 1], [100, 0, -1], [100, 100, 1], [0, 100, -1]], 5.0)
    np.testing.assert_allclose(plane.normal, [0, 0, 1], atol=1e-12)
    assert (plane.flatness, plane.residual) == (pytest.approx(2.0), pytest.approx(1.0))


def test_the_same_seed_gives_the_same_plane() -> None:
    points = np.concatenate([bed(), np.random.default_rng(2).uniform(-300, 300, (5000, 3))])
    first, second = fit_plane(points, 1.0, seed=5), fit_plane(points, 1.0, seed=5)
    np.testing.assert_array_equal(first.normal, second.normal)


def test_the_bed_is_found_and_points_to_the_machine() -> None:
    """A fine mesh on a box must not pull the plane away from a bed of two triangles."""
    table = trimesh.Trimesh([[-400, -400, 0], [400, -400, 0], [400, 400, 0], [-400, 400, 0]], [[0, 1, 2], [0, 2, 3]])
    machine = trimesh.creation.box((200, 200, 150)).subdivide().subdivide().subdivide()
    machine.apply_translation((0, 0, 75.5))
    whole = trimesh.util.concatenate([table, machine]).apply_transform(TILTED)
    plane = find_bed(Scan(np.asarray(whole.vertices), np.asarray(whole.faces)), 0.2)
    np.testing.assert_allclose(plane.normal, TILTED[:3, 2], atol=1e-6)


def test_the_frame_puts_up_front_and_origin_where_they_belong() -> None:
    up, front, pivot = (
        apply(TILTED, np.array([place], dtype=float))[0] for place in ((9, 9, 50), (0, -1, 0), (7, 8, 90))
    )
    zero = apply(TILTED, np.zeros((1, 3)))[0]
    plane = fit_plane(apply(TILTED, bed()), 1.0)
    move = machine_frame(plane, up - zero, front - zero, pivot)
    assert np.linalg.det(move[:3, :3]) == pytest.approx(1.0)
    seen = apply(move, apply(TILTED, np.array([[7.0, 8, 90], [7, -92, 0], [107, 8, 0]])))
    np.testing.assert_allclose(seen, [[0, 0, 90], [0, -100, 0], [100, 0, 0]], atol=0.1)


def test_points_that_show_no_plane_get_a_sentence() -> None:
    with pytest.raises(KitError, match="at least 3"):
        fit_plane([[0, 0, 0], [1, 0, 0]], 1.0)
    with pytest.raises(KitError, match="on a line"):
        fit_plane([[0, 0, 0], [1, 0, 0], [2, 0, 0]], 1.0)
    with pytest.raises(KitError, match="above 0"):
        fit_plane(bed(), 0.0)
    plane = fit_plane(bed(), 1.0)
    with pytest.raises(KitError, match="in the bed plane"):
        machine_frame(plane, (1, 0, 0), (0, -1, 0), (0, 0, 0))
    with pytest.raises(KitError, match="square to the bed"):
        machine_frame(plane, (0, 0, 1), (0, 0, 1), (0, 0, 0))
