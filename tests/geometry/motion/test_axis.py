"""Axes from touched points and from scans in several positions, against the axis that made them."""

import math

import numpy as np
import pytest
import trimesh

from kit.core.errors import KitError
from kit.geometry.motion import apply, circle_axis, motion_of, register, slide, turn, turn_axis

POINT, DIRECTION = np.array([30.0, -20.0, 5.0]), np.array([0.1, 0.2, 1.0]) / np.linalg.norm([0.1, 0.2, 1.0])


def part(count: int = 6000, seed: int = 3) -> np.ndarray:
    """Points on an arm: a long box with a knob, so that every turn and slide of it shows."""
    arm = trimesh.creation.box((300.0, 60.0, 40.0))
    knob = trimesh.creation.icosphere(subdivisions=3, radius=45.0)
    knob.apply_translation((110.0, 40.0, 30.0))
    both = trimesh.util.concatenate([arm, knob])
    return np.asarray(trimesh.sample.sample_surface(both, count, seed=seed)[0])


def off_axis(point: np.ndarray) -> float:
    return float(np.linalg.norm(np.cross(point - POINT, DIRECTION)))


def test_an_axis_from_three_touched_points() -> None:
    spot = np.array([[200.0, 30.0, 60.0]])
    touched = np.concatenate([apply(turn(a, POINT, DIRECTION), spot) for a in (-0.8, 0.1, 0.7)])
    axis, radius, residual = circle_axis(touched)
    np.testing.assert_allclose(axis.direction, DIRECTION, atol=1e-12)
    assert off_axis(axis.point) < 1e-9
    assert radius == pytest.approx(np.linalg.norm(np.cross(spot[0] - POINT, DIRECTION)))
    assert residual < 1e-9


def test_the_residual_of_a_circle_is_that_of_its_points() -> None:
    """By hand: four points of a circle of 100 mm, two lifted by +1 and two by -1 in turn: off by 1 mm each."""
    square = [[100, 0, 1], [0, 100, -1], [-100, 0, 1], [0, -100, -1]]
    axis, radius, residual = circle_axis(square)
    np.testing.assert_allclose(axis.direction, [0, 0, 1], atol=1e-12)
    assert (radius, residual) == (pytest.approx(100.0), pytest.approx(1.0))


def test_the_axis_of_a_turn_between_scans() -> None:
    points = part()
    moves = turn([-0.6, 0.3, 0.9], POINT, DIRECTION)
    fit = turn_axis(moves, points)
    assert fit.kind == "turn"
    np.testing.assert_allclose(fit.axis.direction, DIRECTION, atol=1e-9)
    assert off_axis(fit.axis.point) < 1e-6
    np.testing.assert_allclose(fit.values, [-0.6, 0.3, 0.9], atol=1e-9)
    assert fit.residual < 1e-8


def test_the_residual_shows_a_slide_along_a_turning_axis() -> None:
    """A screw by 3 mm is no turn: the best fixed axis leaves those 3 mm at every point."""
    screw = slide(3.0, DIRECTION) @ turn(0.9, POINT, DIRECTION)
    fit = turn_axis(screw[None], part())
    assert fit.residual == pytest.approx(3.0, rel=1e-3)


def test_a_slide_between_scans() -> None:
    fit = turn_axis(slide([100.0, 250.0], (1.0, 2.0, 0.0)), part())
    assert fit.kind == "slide"
    np.testing.assert_allclose(fit.axis.direction, np.array([1.0, 2.0, 0.0]) / math.sqrt(5), atol=1e-12)
    np.testing.assert_allclose(fit.values, [100.0, 250.0])


def test_registering_two_scans_of_different_points_finds_the_motion() -> None:
    """Noise of 0.3 mm on 6,000 points leaves the motion good to about 0.3 mm/√6000 times a few: 0.1 mm is ample."""
    rng = np.random.default_rng(5)
    true = turn(0.35, POINT, DIRECTION)
    before = part(seed=1) + rng.normal(scale=0.3, size=(6000, 3))
    after = apply(true, part(seed=2)) + rng.normal(scale=0.3, size=(6000, 3))
    match = register(before, after)
    corners = np.array([[150, 30, 20], [-150, -30, -20], [150, -30, 20.0]])
    assert np.linalg.norm(apply(match.move, corners) - apply(true, corners), axis=1).max() < 0.1
    assert 0.2 < match.residual < 0.6


def test_registering_leaves_out_what_has_no_partner() -> None:
    true = turn(0.2, POINT, DIRECTION)
    stray = np.random.default_rng(7).uniform((-300, -300, 100), (300, 300, 700), (700, 3))
    match = register(np.concatenate([part(seed=1), stray]), apply(true, part(seed=2)), overlap=0.85)
    corners = np.array([[150, 30, 20], [-150, -30, -20], [150, -30, 20.0]])
    assert np.linalg.norm(apply(match.move, corners) - apply(true, corners), axis=1).max() < 0.2


def test_registering_agrees_with_an_independent_library() -> None:
    true = turn(0.05, POINT, DIRECTION)
    before, after = part(2000, seed=1), apply(true, part(20000, seed=2))
    ours = register(before, after, start=np.eye(4), overlap=1.0)
    theirs = trimesh.registration.icp(before, after, max_iterations=100, reflection=False, scale=False)[0]
    corners = np.array([[150, 30, 20], [-150, -30, -20], [150, -30, 20.0]])
    assert np.linalg.norm(apply(ours.move, corners) - apply(theirs, corners), axis=1).max() < 1.0


def test_matched_points_never_give_a_mirror_image() -> None:
    flat = np.array([[0, 0, 0], [100, 0, 0], [0, 50, 0], [100, 50, 1e-9]])
    move = motion_of(flat, flat * [-1, 1, 1])
    assert np.linalg.det(move[:3, :3]) == pytest.approx(1.0)


def test_what_shows_no_axis_gets_a_sentence() -> None:
    with pytest.raises(KitError, match="at least 3 points"):
        circle_axis([[0, 0, 0], [1, 0, 0]])
    with pytest.raises(KitError, match="on a line"):
        circle_axis([[0, 0, 0], [1, 0, 0], [2, 0, 0]])
    with pytest.raises(KitError, match="further apart"):
        turn_axis(np.eye(4)[None], part(100))
    with pytest.raises(KitError, match="at least 30"):
        register(part(20), part(100))
    with pytest.raises(KitError, match="overlap"):
        register(part(100), part(100), overlap=0.0)
    with pytest.raises(KitError, match="at least 3 points"):
        motion_of([[0, 0, 0]], [[0, 0, 0]])
