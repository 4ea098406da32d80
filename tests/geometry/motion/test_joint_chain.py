"""Chains of joints, against scipy's rotations and against the arcs that a compass draws."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from kit.core.errors import KitError
from kit.geometry.motion import Chain, Joint, apply, inverse, slide, turn

SWING = Joint("swing", "turn", (0.0, 300.0, 0.0), (0.0, 0.0, 1.0), math.radians(-50), math.radians(50))
TILT = Joint("tilt", "turn", (10.0, 0.0, 20.0), (0.0, 1.0, 0.2), 0.0, math.radians(45))
SLIDE = Joint("slide", "slide", (0.0, 0.0, 0.0), (0.3, -1.0, 0.0), 0.0, 300.0)
CHAIN = Chain((SWING, TILT, SLIDE))


def test_a_turn_is_the_rotation_of_an_independent_library() -> None:
    axis = np.array([1.0, -2.0, 0.5])
    ours = turn(0.7, (0, 0, 0), axis)[:3, :3]
    theirs = Rotation.from_rotvec(0.7 * axis / np.linalg.norm(axis)).as_matrix()
    np.testing.assert_allclose(ours, theirs, atol=1e-15)


def test_a_quarter_turn_about_a_shifted_axis() -> None:
    """By hand: about the vertical through (100, 0, 0), the origin goes to (100, -100, 0)."""
    moved = apply(turn(math.pi / 2, (100, 0, 7), (0, 0, 2)), [[0.0, 0.0, 5.0]])
    np.testing.assert_allclose(moved, [[100.0, -100.0, 5.0]], atol=1e-12)


def test_points_of_the_axis_stay() -> None:
    point, direction = np.array([10.0, 20.0, 30.0]), np.array([1.0, 2.0, 3.0])
    axis = point + np.arange(-2, 3)[:, None] * direction
    np.testing.assert_allclose(apply(turn(1.1, point, direction), axis), axis, atol=1e-12)


def test_the_inverse_undoes_every_pose() -> None:
    poses = CHAIN.poses(CHAIN.grid((3, 3, 3)))
    np.testing.assert_allclose(inverse(poses) @ poses, np.broadcast_to(np.eye(4), poses.shape), atol=1e-12)


def test_the_last_joint_moves_first_and_the_first_joint_moves_all() -> None:
    """Slide by 100 along y, then swing by 90° about the origin: (0, 0, 0) goes to (-100, 0, 0)."""
    chain = Chain(
        (
            Joint("swing", "turn", (0, 0, 0), (0, 0, 1), -2, 2),
            Joint("slide", "slide", (0, 0, 0), (0, 1, 0), 0, 200),
        )
    )
    pose = chain.poses([[math.pi / 2, 100.0]])
    np.testing.assert_allclose(apply(pose[0], [[0.0, 0.0, 0.0]]), [[-100.0, 0.0, 0.0]], atol=1e-12)
    np.testing.assert_allclose(chain.first(1).poses([[math.pi / 2]])[0], turn(math.pi / 2, (0, 0, 0), (0, 0, 1)))


def test_a_grid_holds_the_limits_and_the_middle() -> None:
    grid = CHAIN.grid((3, 1, 2))
    assert grid.shape == (6, 3)
    np.testing.assert_allclose(np.unique(grid[:, 0]), np.radians([-50.0, 0.0, 50.0]), atol=1e-15)
    np.testing.assert_allclose(np.unique(grid[:, 1]), math.radians(22.5))
    np.testing.assert_allclose(np.unique(grid[:, 2]), [0.0, 300.0])


def test_values_by_name() -> None:
    np.testing.assert_allclose(CHAIN.values({"tilt": 0.5}), [0.0, 0.5, 0.0])
    with pytest.raises(KitError, match="did you mean 'tilt'"):
        CHAIN.values({"tlit": 0.5})


boxes = st.tuples(st.integers(0, 2**32 - 1), st.floats(0.0, 3.5), st.floats(0.0, 3.5), st.floats(0.0, 200.0))


@settings(deadline=None)
@given(boxes)
def test_no_point_leaves_its_reach(box: tuple[int, float, float, float]) -> None:
    """Both parts of the bound hold at 200 random places of a random box, measured by the poses themselves."""
    seed, *half = box
    rng = np.random.default_rng(seed)
    points = rng.uniform(-400, 400, (5, 3))
    center = rng.uniform([-1, -1, -100], [1, 1, 100], 3)
    reach = CHAIN.reach(points, np.tile(center, (5, 1)), np.tile(half, (5, 1)))
    values = center + rng.uniform(-1, 1, (200, 3)) * half
    home = apply(CHAIN.poses(center[None])[0], points)
    np.testing.assert_allclose(reach.place, home, atol=1e-9)
    off = apply(CHAIN.poses(values), points) - home
    assert (np.linalg.norm(off, axis=2) <= reach.each.sum(axis=1) + 1e-9).all()
    for direction in rng.normal(size=(10, 3)):
        unit = direction / np.linalg.norm(direction)
        bound = (reach.first * np.abs(reach.jacobian @ unit) + reach.second).sum(axis=1)
        assert (np.abs(off @ unit) <= bound + 1e-9).all()


@pytest.mark.parametrize("number", [0, 1, 2])
def test_ways_are_the_chords_of_each_joint_alone(number: int) -> None:
    """One joint at an end of its box, those nearer to the bench and further out at the middle, by whole poses."""
    rng = np.random.default_rng(number)
    points, center = rng.uniform(-300, 300, (6, 3)), np.array([0.3, 0.4, 120.0])
    half = np.array([0.2, 0.1, 15.0])
    place, each = CHAIN.ways(points, center, half)
    np.testing.assert_allclose(place, apply(CHAIN.poses(center[None])[0], points), atol=1e-9)
    there = center.copy()
    there[number] += half[number]
    moved = apply(CHAIN.poses(there[None])[0], points)
    np.testing.assert_allclose(np.linalg.norm(moved - place, axis=1), each[:, number], atol=1e-9)


def test_the_bound_is_the_chord_and_the_sagitta_of_the_arc() -> None:
    """Compass: on radius 500 mm, 5° off, the chord is 2·500·sin 2.5° and the sagitta 500·(1 - cos 5°)."""
    swing = Chain((Joint("swing", "turn", (0, 0, 0), (0, 0, 1), -1, 1),))
    reach = swing.reach([[500.0, 0.0, 40.0]], [[0.0]], [[math.radians(5)]])
    assert reach.each[0, 0] == pytest.approx(43.6193873653, abs=1e-9)
    assert reach.second[0, 0] == pytest.approx(1.9026509541, abs=1e-9)


@pytest.mark.parametrize(("across", "order"), [(False, 1.0), (True, 2.0)])
def test_the_bound_falls_with_the_spacing_of_poses(across: bool, order: float) -> None:
    """Along the way it halves with the half-width; across the way (the sagitta) it falls to a quarter."""
    swing = Chain((Joint("swing", "turn", (0, 0, 0), (0, 0, 1), -1, 1),))
    direction = np.array([1.0, 0.0, 0.0]) if across else np.array([0.0, 1.0, 0.0])
    bounds = []
    for half in (0.02, 0.01, 0.005):
        reach = swing.reach([[500.0, 0.0, 0.0]], [[0.0]], [[half]])
        bounds.append(float((reach.first * np.abs(reach.jacobian @ direction) + reach.second).sum()))
    rates = np.log2(np.array(bounds[:-1]) / bounds[1:])
    np.testing.assert_allclose(rates, order, atol=0.02)


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"kind": "roll"}, "'turn' or a 'slide'"),
        ({"direction": (0, 0, 0)}, "points nowhere"),
        ({"direction": (0, float("nan"), 1)}, "three finite numbers"),
        ({"low": 1.0, "high": 0.0}, "must not be above"),
        ({"high": float("inf")}, "must not be above"),
        ({"low": -4.0, "high": 4.0}, "at most one full turn"),
    ],
)
def test_a_wrong_joint_gets_a_sentence(change: dict[str, object], sentence: str) -> None:
    right = {"name": "a", "kind": "turn", "point": (0, 0, 0), "direction": (0, 0, 1), "low": 0.0, "high": 1.0}
    with pytest.raises(KitError, match=sentence):
        Joint(**(right | change))  # type: ignore[arg-type]


def test_wrong_chains_and_values_get_a_sentence() -> None:
    with pytest.raises(KitError, match="no joint"):
        Chain(())
    with pytest.raises(KitError, match="Two joints are called 'swing'"):
        Chain((SWING, SWING))
    with pytest.raises(KitError, match="3 joints"):
        CHAIN.poses([[1.0, 2.0]])
    with pytest.raises(KitError, match="at most 1,000,000"):
        CHAIN.grid((1000, 1000, 1000))
    with pytest.raises(KitError, match="at least 1"):
        CHAIN.grid((0, 1, 1))


def test_slides_add() -> None:
    np.testing.assert_allclose(slide(3.0, (0, 2, 0)) @ slide(4.0, (0, 1, 0)), slide(7.0, (0, 1, 0)))
