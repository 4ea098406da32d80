"""Distances of points and triangles, against an independent library and against figures known by hand."""

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.geometry.clearance.distance import frames, nearest_point, point_distance, triangle_distance
from tests.geometry.clearance.cases import judged


def test_points_and_triangles_as_an_independent_library_measures_them() -> None:
    rng = np.random.default_rng(1)
    triangles, points = rng.normal(size=(5000, 3, 3)), 2.0 * rng.normal(size=(5000, 3))
    theirs = trimesh.triangles.closest_point(triangles, points)
    flat = frames(triangles)
    np.testing.assert_allclose(nearest_point(flat, points), theirs, atol=1e-9)
    np.testing.assert_allclose(point_distance(flat, points), np.linalg.norm(points - theirs, axis=1), atol=1e-12)


@pytest.mark.parametrize(
    "triangle",
    [
        [[0, 0, 0], [10, 0, 0], [20, 0, 0]],
        [[0, 0, 0], [20, 0, 0], [10, 0, 0]],
        [[0, 0, 0], [0, 0, 0], [20, 0, 0]],
        [[20, 0, 0], [0, 0, 0], [20, 0, 0]],
    ],
)
def test_a_sliver_is_measured_as_its_edges(triangle: list[list[float]]) -> None:
    flat = frames(np.array([triangle], dtype=float))
    assert point_distance(flat, np.array([[15.0, 3.0, 4.0]]))[0] == pytest.approx(5.0)
    assert point_distance(flat, np.array([[23.0, 4.0, 0.0]]))[0] == pytest.approx(5.0)


def test_a_triangle_shrunk_to_a_point() -> None:
    flat = frames(np.full((1, 3, 3), 2.0))
    assert point_distance(flat, np.array([[2.0, 5.0, 6.0]]))[0] == pytest.approx(5.0)


@settings(deadline=None, max_examples=50)
@given(st.integers(0, 2**32 - 1), st.floats(0.1, 3.0))
def test_pairs_of_triangles_as_the_collision_library_measures_them(seed: int, apart: float) -> None:
    rng = np.random.default_rng(seed)
    first, second = rng.normal(size=(20, 3, 3)), rng.normal(loc=(apart, 0.0, 0.0), size=(20, 3, 3))
    ours = triangle_distance(first, second, frames(second))
    theirs = [
        judged(*(trimesh.Trimesh(t, [[0, 1, 2]], process=False) for t in pair), np.eye(4)[None])[0]
        for pair in zip(first, second, strict=True)
    ]
    np.testing.assert_allclose(ours.distance, np.maximum(theirs, 0.0), atol=1e-7)
    np.testing.assert_allclose(np.linalg.norm(ours.here - ours.there, axis=1), ours.distance, atol=1e-12)


def test_edges_that_pass_each_other() -> None:
    """By hand: two upright fins whose edges cross at a right angle, 7 mm apart."""
    low = np.array([[[-10.0, 0, 0], [10, 0, 0], [0, 0, -10]]])
    high = np.array([[[0.0, -10, 7], [0, 10, 7], [0, 0, 17]]])
    pairs = triangle_distance(low, high, frames(high))
    assert pairs.distance[0] == pytest.approx(7.0)
    np.testing.assert_allclose(pairs.here[0], [0, 0, 0], atol=1e-12)
    np.testing.assert_allclose(pairs.there[0], [0, 0, 7], atol=1e-12)


def test_triangles_that_cross_or_touch_have_no_distance() -> None:
    floor = np.array([[[-10.0, -10, 0], [10, -10, 0], [0, 10, 0]]])
    through = np.array([[[0.0, 0, -5], [1, 0, 5], [-1, 0, 5]]])
    touching = np.array([[[0.0, 0, 0], [1, 0, 5], [-1, 0, 5]]])
    for other in (through, touching):
        assert triangle_distance(floor, other, frames(other)).distance[0] == 0.0
        assert triangle_distance(other, floor, frames(floor)).distance[0] == 0.0
