"""How far a moving part comes in a direction, against circles known in closed form and dense sampling."""

import math

import numpy as np
import pytest

from kit.geometry.clearance import Body, farthest
from kit.geometry.motion import Chain, Joint, apply
from tests.geometry.clearance.cases import SWING, THREE, body, box, potato

BACK = np.array([0.0, 1.0, 0.0])


@pytest.mark.parametrize("tolerance", [1.0, 0.01, 1e-6])
def test_a_corner_is_farthest_between_the_limits(tolerance: float) -> None:
    """At radius √(200² + 50²) mm, straight ahead at 14.04°."""
    answer = farthest(body(box((-50, 100, 0), (50, 200, 80))), SWING, BACK, tolerance, math.inf)
    exact = math.hypot(200.0, 50.0)
    assert answer.found <= exact + 1e-9 <= answer.sure + 2e-9
    assert answer.sure - answer.found <= tolerance


def test_a_corner_is_farthest_at_a_limit() -> None:
    """Swung to 50° only, the corner (200, -50) is still on its way to the right."""
    right = np.array([1.0, 0.0, 0.0])
    answer = farthest(body(box((-50, 100, 0), (50, 200, 80))), SWING, right, 0.001, math.inf)
    exact = 50.0 * math.cos(math.radians(50)) + 200.0 * math.sin(math.radians(50))
    assert answer.found == pytest.approx(exact, abs=1e-9)
    assert exact <= answer.sure <= exact + 0.001
    assert answer.joints == pytest.approx([math.radians(-50)])


@pytest.mark.parametrize("seed", range(12))
def test_no_dense_sample_comes_farther_than_the_bound(seed: int) -> None:
    way = np.random.default_rng(seed).normal(size=3)
    way /= np.linalg.norm(way)
    part = body(potato(3))
    answer = farthest(part, THREE, way, 0.01, math.inf)
    points = np.unique(part.triangles.reshape(-1, 3), axis=0)
    poses = THREE.poses(THREE.grid((101, 91, 3)))
    toward = np.einsum("nij,i->nj", poses[:, :3, :3], way)
    dense = float((toward @ points.T + (poses[:, :3, 3] @ way)[:, None]).max())
    assert dense - 1e-9 <= answer.sure <= answer.found + 0.01
    assert answer.found == pytest.approx(dense, abs=0.05)
    there = apply(THREE.poses(answer.joints[None])[0], part.corners)
    assert float((there @ way).max()) == pytest.approx(answer.found, abs=1e-9)
    assert float(np.linalg.norm(there - answer.here, axis=1).min()) < 1e-9


def test_what_takes_nothing_along_is_not_looked_at() -> None:
    """Up along the swing's axis nothing depends on the swing: the first look is exact."""
    answer = farthest(body(potato(3)), SWING, np.array([0.0, 0.0, 1.0]), 1e-6, math.inf)
    assert answer.found == pytest.approx(float(potato(3).vertices[:, 2].max()), abs=1e-9)
    assert answer.sure == answer.found


def test_the_corners_of_a_flat_sheet_are_its_own() -> None:
    """Turned about its middle, each of them comes straight ahead."""
    turn = Chain((Joint("turn", "turn", (0, 0, 0), (0, 0, 1), -math.pi, math.pi),))
    sheet = Body.of([[-30, -40, 0], [30, -40, 0], [30, 40, 0], [-30, 40, 0]], [[0, 1, 2], [0, 2, 3]])
    answer = farthest(sheet, turn, BACK, 0.01, math.inf)
    assert answer.found <= 50.0 <= answer.sure <= answer.found + 0.01


def test_out_of_time_the_bound_reached_is_told() -> None:
    part = body(potato(3))
    early = farthest(part, THREE, BACK, 1e-6, -1.0)
    late = farthest(part, THREE, BACK, 1e-6, math.inf)
    assert early.found <= late.found <= late.sure <= late.found + 1e-6
    assert early.sure > late.sure + 1.0
