"""Certified clearance over continuous motion, against sweeps known in closed form and dense sampling."""

import math
from types import SimpleNamespace

import numpy as np
import pytest
import trimesh

from kit.core.errors import KitError
from kit.geometry.clearance import certified, sampled
from kit.geometry.motion import Chain, Joint
from tests.geometry.clearance.cases import SWING, THREE, boards, body, box, dome, hood, potato


def proven(part: trimesh.Trimesh, shell: object, chain: Chain, tolerance: float):  # type: ignore[no-untyped-def]
    answer = certified(body(part), shell, chain, tolerance=tolerance, seconds=math.inf)[0]  # type: ignore[arg-type]
    assert answer.kind == "certified"
    assert answer.complete
    assert answer.least <= answer.found <= answer.least + tolerance + 1e-9
    return answer


@pytest.mark.parametrize("tolerance", [1.0, 0.01])
def test_a_corner_passes_a_wall_between_the_poses(tolerance: float) -> None:
    """The corner at radius √(200² + 50²) mm is straight before the wall at 14.04°, not at any limit."""
    part = box((-50, 100, 0), (50, 200, 80))
    wall = hood(("wall", box((-600, 230, -10), (600, 245, 300))))
    exact = 230.0 - math.hypot(200.0, 50.0)
    answer = proven(part, wall, SWING, tolerance)
    assert answer.least <= exact + 1e-9 <= answer.found + 2e-9
    assert answer.found - exact < 2.0 * tolerance


def test_a_turning_ball_and_a_tilting_rod() -> None:
    """A ball of 30 mm about (0, 200, 50), swung to 50°, comes as near to x = 200 mm as 200 - 200·sin 50° - 30."""
    ball = trimesh.creation.icosphere(subdivisions=4, radius=30.0)
    ball.apply_translation((0.0, 200.0, 50.0))
    wall = hood(("wall", box((200, -500, -100), (215, 500, 400))))
    answer = proven(ball, wall, SWING, 0.05)
    exact = 200.0 - 200.0 * math.sin(math.radians(50)) - 30.0
    sagitta = 30.0 * (1.0 - math.cos(math.radians(3)))  # facets of 4,° stand back from the ball by less
    assert exact - 0.05 <= answer.least
    assert answer.found <= exact + sagitta + 0.05


def test_a_cylinder_about_its_own_axis_goes_nowhere() -> None:
    """A round bar turning about its axis keeps its distance to a wall: apothem to corner of 64 sides."""
    bar = trimesh.creation.cylinder(radius=100.0, height=200.0, sections=64)
    wall = hood(("wall", box((120, -300, -300), (140, 300, 300))))
    answer = proven(bar, wall, SWING, 0.001)
    assert answer.found == pytest.approx(20.0, abs=0.001)  # corners reach the full radius


def test_the_hood_symmetric_about_the_axis_is_proven_as_well() -> None:
    """The hard case: every position is nearly as near as any other. A 48-sided ring, apothem 320 mm."""
    part = box((-50, 100, 0), (50, 200, 80))
    ring = trimesh.creation.cylinder(radius=320.0 / math.cos(math.pi / 48), height=400.0, sections=48)
    exact = 320.0 - math.hypot(200.0, 50.0)
    answer = proven(part, hood(("ring", ring)), SWING, 0.1)
    assert answer.least <= exact + 1e-6 <= answer.found + 2e-6


def test_no_dense_sample_comes_nearer_than_the_bound() -> None:
    part, shell = potato(3), hood(("shell", dome(2)))
    answer = proven(part, shell, THREE, 1.0)
    dense = sampled(body(part), shell, THREE.poses(THREE.grid((41, 11, 5))))[0]
    assert answer.least <= dense.found + 1e-9
    at_pose = sampled(body(part), shell, THREE.poses(answer.joints[None]))[0]
    assert at_pose.found == pytest.approx(answer.found, abs=1e-9)


def test_sampled_poses_miss_what_the_bound_does_not() -> None:
    part = box((-50, 100, 0), (50, 200, 80))
    wall = hood(("wall", box((-600, 230, -10), (600, 245, 300))))
    coarse = sampled(body(part), wall, SWING.poses(SWING.grid([3])))[0]
    answer = proven(part, wall, SWING, 0.1)
    assert coarse.found > answer.found + 5.0
    assert answer.least < coarse.least


def test_every_board_is_proven() -> None:
    part, parts = potato(3), boards(340.0)
    answers = certified(body(part), hood(*parts), SWING, tolerance=0.5, seconds=math.inf, by_board=True)
    assert [answer.board for answer in answers] == ["left", "right", "back", "roof"]
    for answer, (name, board) in zip(answers, parts, strict=True):
        alone = proven(part, hood((name, board)), SWING, 0.01)
        assert answer.least <= alone.found + 1e-9
        assert alone.found - 0.51 <= answer.least


def test_a_collision_between_the_poses_is_found_and_ends_the_search() -> None:
    part = box((-50, 100, 0), (50, 200, 80))
    wall = hood(("wall", box((-600, 204, -10), (600, 215, 300))))  # the corner sweeps to 206.2 mm at 14°
    answer = certified(body(part), wall, SWING, tolerance=0.1, seconds=math.inf)[0]
    assert answer.collides
    assert answer.least == 0.0
    assert abs(abs(answer.joints[0]) - math.radians(14)) < math.radians(10)


def test_a_hood_that_just_touches_is_zero_within_the_bound() -> None:
    part = box((-50, 100, 0), (50, 200, 80))
    wall = hood(("wall", box((-600, math.hypot(200, 50), -10), (600, 245, 300))))
    answer = certified(body(part), wall, SWING, tolerance=0.01, seconds=math.inf)[0]
    assert answer.complete
    assert answer.found <= 0.02
    assert answer.least == pytest.approx(0.0, abs=1e-9)


def test_the_time_limit_holds_and_the_bound_reached_is_reported(monkeypatch: pytest.MonkeyPatch) -> None:
    """On a clock that goes on by 0.1 s each time that it is read, whatever the machine needs."""
    ticks: list[float] = []

    def clock() -> float:
        ticks.append(len(ticks) * 0.1)
        return ticks[-1]

    monkeypatch.setattr("kit.geometry.clearance.certify.time", SimpleNamespace(process_time=clock))
    answer = certified(body(potato(5)), hood(("shell", dome())), THREE, tolerance=1e-6, seconds=0.5)[0]
    assert 3 <= len(ticks) <= 10, "it stops when the half second is over, not before"
    assert not answer.complete
    assert 0.0 <= answer.least < answer.found


def test_a_part_on_a_fixed_joint_is_exact() -> None:
    still = Chain((Joint("none", "slide", (0, 0, 0), (0, 0, 1), 0.0, 0.0),))
    part, shell = potato(3), hood(("shell", dome(2)))
    answer = proven(part, shell, still, 1e-6)
    assert answer.found == pytest.approx(sampled(body(part), shell, np.eye(4)[None])[0].found, abs=1e-6)


def test_wrong_wishes_get_a_sentence() -> None:
    part, shell = body(potato(1)), hood(("shell", dome(1)))
    for wrong in ({"tolerance": 0.0}, {"tolerance": math.nan}, {"seconds": 0.0}):
        with pytest.raises(KitError, match="above 0"):
            certified(part, shell, SWING, **wrong)
