"""Reach and bound of a moving point, against chains of joints moved in space and against search over all positions."""

import math

import numpy as np
import pytest
from scipy.optimize import differential_evolution

from kit.core.model import Case, find
from kit.geometry.motion import Chain, Joint, apply
from kit.subjects import model

POINTS = [
    {},
    {"arm_low": -35, "tilt": 20, "tilt_most": 80, "slide": 100, "slide_most": 300},
    {"arm_low": -70, "tilt": 5, "tilt_most": 30, "axis_out": 200},
    {"slide_angle": 90, "slide": 150, "slide_most": 250, "aside": 60, "axis_out": 10, "arm_low": 60, "tilt_most": 45},
    {"slide_angle": 40, "arm_low": 70, "tilt_most": 90, "axis_out": 300, "arm": 200, "slide_most": 500},
]  # fmt: skip


def chain(case: Case) -> tuple[Chain, np.ndarray]:
    """The machine as joints: swing, slide, tilt; x the way the arm points. The point stands at no tilt and no slide."""
    v = case.base
    axis = (v["axis_out"], 0.0, v["axis_height"])
    joints = Chain((
        Joint("swing", "turn", (0, 0, 0), (0, 0, 1), -math.pi / 2, math.pi / 2),
        Joint("slide", "slide", (0, 0, 0), (math.cos(v["slide_angle"]), math.sin(v["slide_angle"]), 0), 0.0,
              v["slide_most"]),
        Joint("tilt", "turn", axis, (0, -1, 0), 0.0, v["tilt_most"]),
    ))  # fmt: skip
    arm = v["arm"] * np.array([math.cos(v["arm_low"]), 0.0, math.sin(v["arm_low"])])
    return joints, np.array(axis) + arm + [0.0, v["aside"], 0.0]


@pytest.mark.parametrize("givens", POINTS)
def test_a_point_goes_where_the_joints_take_it(givens: dict[str, float]) -> None:
    case = model("sweep.point").at(**givens)
    v = case.base
    joints, start = chain(case)
    place = apply(joints.poses([[v["swing"], v["slide"], v["tilt"]]])[0], start[None])[0]
    np.testing.assert_allclose(place, [v["place_out"], v["place_aside"], v["height"]], atol=1e-9)
    assert math.hypot(*place[:2]) == pytest.approx(v["reach"], abs=1e-9)
    step = 1e-5
    near = apply(joints.poses([[0, v["slide"], v["tilt"] + way * step] for way in (-1, 1)]), start[None])[:, 0]
    slope = np.diff(np.hypot(near[:, 0], near[:, 1]))[0] / (2 * step)
    assert v["reach_rate"] == pytest.approx(slope, abs=1e-5)


@pytest.mark.parametrize("givens", POINTS)
def test_no_position_reaches_farther_or_higher(givens: dict[str, float]) -> None:
    """A search over slide and tilt by a library that knows nothing of the formula."""
    case = model("sweep.point").at(**givens)
    joints, start = chain(case)
    spans = [(0.0, max(high, 1e-9)) for high in joints.high[1:]]

    def place(values: np.ndarray) -> np.ndarray:
        return np.asarray(apply(joints.poses([[0.0, *values]])[0], start[None])[0])

    for result, wanted in (
        ("reach_most", lambda q: -math.hypot(*place(q)[:2])),
        ("height_most", lambda q: -place(q)[2]),
    ):
        found = differential_evolution(wanted, spans, seed=3, tol=1e-10, polish=True)
        assert case.base[result] == pytest.approx(-found.fun, abs=1e-5)


def test_a_point_that_swings_behind_the_axis_fails_its_limit() -> None:
    behind = model("sweep.point").at(axis_out=-500, arm=300, slide=0, slide_most=0)
    assert not next(limit for limit in behind.checks if limit.name == "front").ok


def test_the_tilt_for_a_wished_reach_is_found() -> None:
    case = model("sweep.point").at()
    found = find(case, "arm", "reach_most", "320 mm")
    assert any(case.with_(arm=value).base["reach_most"] == pytest.approx(320.0) for value in found.values)


STEPS = [
    {"swing_left": 50, "swing_right": 50, "tilt_most": 40, "slide_most": 0, "poses_swing": 9, "poses_tilt": 7},
    {"swing_left": 180, "swing_right": 180, "tilt_most": 0, "poses_swing": 4, "poses_tilt": 1},
    {"swing_left": 10, "swing_right": 30, "tilt_most": 90, "slide_most": 300, "poses_swing": 3, "poses_tilt": 5,
     "poses_slide": 4},
]  # fmt: skip


@pytest.mark.parametrize("givens", STEPS)
def test_no_motion_is_farther_from_the_nearest_position_than_the_bound(givens: dict[str, float]) -> None:
    """Points at random, moved to random positions and to the nearest sampled ones; arms are measured."""
    rng = np.random.default_rng(8)
    axis, across = np.array([0.0, 205.0, 280.0]), np.array([-1.0, 0.0, 0.0])
    points = rng.uniform([-150, -250, 0], [150, 250, 500], (40, 3))
    tilt_arm = np.linalg.norm(np.cross(points - axis, across), axis=1).max()
    stated = model("sweep.step").at(**givens)
    v = stated.base
    counts = [round(v[f"poses_{joint}"]) for joint in ("swing", "slide", "tilt")]
    lows = np.array([-v["swing_left"], 0.0, 0.0])
    spans = np.array([v["swing_left"] + v["swing_right"], v["slide_most"], v["tilt_most"]])
    joints = Chain((
        Joint("swing", "turn", (0, 0, 0), (0, 0, 1), lows[0], lows[0] + spans[0]),
        Joint("slide", "slide", (0, 0, 0), (0, -1, 0), 0.0, spans[1]),
        Joint("tilt", "turn", tuple(axis), tuple(across), 0.0, spans[2]),
    ))  # fmt: skip
    values = lows + rng.random((3000, 3)) * spans
    values[:27] = lows + np.stack(np.meshgrid(*[[0.0, 0.5, 1.0]] * 3), axis=-1).reshape(-1, 3) * spans
    part = spans / counts
    whole = np.where(
        part > 0, np.clip(np.floor((values - lows) / np.where(part > 0, part, 1)), 0, np.array(counts) - 1), 0
    )
    nearest = lows + (whole + 0.5) * part
    here, there = apply(joints.poses(values), points), apply(joints.poses(nearest), points)
    swing_arm = max(np.hypot(at[..., 0], at[..., 1]).max() for at in (here, there))
    moved = np.linalg.norm(here - there, axis=-1).max()
    case = stated.with_(arm_swing=float(swing_arm), arm_tilt=float(tilt_arm))
    assert moved <= case.base["motion"]
    assert moved > 0.4 * case.base["motion"]


def test_the_sagitta_is_what_positions_miss_of_the_reach() -> None:
    """The farthest way of an arm past a straight board, from positions half a step off and at its height."""
    case = model("sweep.step").at(swing_left=30, swing_right=30, poses_swing=6, arm_swing=500)
    half = case.base["half_swing"]
    seen = max(500 * math.cos(angle) for angle in np.radians(-30) + half * (2 * np.arange(6) + 1))
    assert case.base["sagitta"] == pytest.approx(500 - seen, abs=1e-9)


@pytest.mark.parametrize("wish", [2.0, 5.0, 20.0])
@pytest.mark.parametrize("slide", [0, 250])
def test_as_many_positions_as_needed_keep_the_bound_and_fewer_do_not(wish: float, slide: float) -> None:
    case = model("sweep.step").at(wish=wish, slide_most=slide)
    counts = {f"poses_{name}": round(case.base[f"needed_{name}"]) for name in ("swing", "tilt", "slide")}
    enough = case.with_(**counts)
    assert enough.base["bound"] <= wish + 1e-9
    assert enough.ok
    half = {name: max(1, count // 2) for name, count in counts.items()}
    assert case.with_(**half).base["bound"] > wish
