"""Touching a surface, against an independent library (libigl) and closed forms."""

import igl
import numpy as np
import pytest
import trimesh

from kit.core.errors import KitError
from kit.geometry.mesh import Scan, cast, nearest

BALL = trimesh.creation.icosphere(subdivisions=4, radius=100.0)
TWO = trimesh.util.concatenate([BALL, trimesh.creation.box((80.0, 60.0, 500.0))])
SCAN = Scan(np.asarray(TWO.vertices, dtype=float), np.asarray(TWO.faces, dtype=np.int64))


def test_a_ray_meets_a_box_where_plane_geometry_says() -> None:
    block = trimesh.creation.box((20.0, 40.0, 60.0))
    touch = cast(Scan(np.asarray(block.vertices), np.asarray(block.faces)), (3.0, -4.0, 500.0), (0.0, 0.0, -7.0))
    assert touch is not None
    np.testing.assert_allclose(touch.point, (3.0, -4.0, 30.0), atol=1e-12)
    np.testing.assert_allclose(block.face_normals[touch.face], (0.0, 0.0, 1.0))


def test_rays_meet_the_same_face_and_point_as_with_the_library() -> None:
    rng = np.random.default_rng(3)
    for origin, aim in zip(rng.normal(0, 300, (300, 3)), rng.normal(0, 60, (300, 3)), strict=True):
        way = aim - origin
        mine, theirs = cast(SCAN, origin, way), igl.ray_mesh_intersect(origin, way, SCAN.vertices, SCAN.faces)
        assert (mine is None) == (not theirs)
        if mine is not None:
            np.testing.assert_allclose(mine.point, origin + theirs[0][1] * way, atol=1e-3)  # it counts in 32 bits


def test_no_ray_slips_through_between_two_faces() -> None:
    for corner in SCAN.vertices[:200]:
        assert cast(SCAN, corner * 5.0, -corner) is not None


def test_a_ray_that_starts_behind_meets_nothing() -> None:
    assert cast(SCAN, (0.0, 0.0, 400.0), (0.0, 0.0, 1.0)) is None
    assert cast(SCAN, (400.0, 0.0, 0.0), (0.0, 0.0, 1.0)) is None
    with pytest.raises(KitError, match="points nowhere"):
        cast(SCAN, (0.0, 0.0, 0.0), (0.0, 0.0, 0.0))


def test_the_nearest_point_is_that_of_the_library() -> None:
    places = np.random.default_rng(4).normal(0, 150, (300, 3))
    squares, _, points = igl.point_mesh_squared_distance(places, SCAN.vertices, SCAN.faces)
    for place, square, point in zip(places, squares, points, strict=True):
        mine = nearest(SCAN, place)
        assert ((mine.point - place) ** 2).sum() == pytest.approx(square, rel=1e-9, abs=1e-12)
        np.testing.assert_allclose(mine.point, point, atol=1e-6)
    with pytest.raises(KitError, match="three finite numbers"):
        nearest(SCAN, (0.0, np.nan, 0.0))
