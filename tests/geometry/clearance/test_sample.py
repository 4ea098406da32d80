"""Sampled clearance, against a collision library on small cases and against sweeps known in closed form."""

import math
from typing import Any

import numpy as np
import pytest
import trimesh

from kit.core.errors import KitError
from kit.geometry.clearance import Body, Obstacle, sampled
from kit.geometry.clearance.sample import Search
from kit.geometry.motion import apply, slide
from tests.geometry.clearance.cases import SWING, THREE, boards, body, box, dome, hood, judged, potato

SAME = 1e-6  # mm


@pytest.mark.parametrize("chain", [SWING, THREE])
def test_the_clearance_is_that_of_the_collision_library(chain) -> None:  # type: ignore[no-untyped-def]
    part, shell = potato(), dome()
    poses = chain.poses(chain.grid([4] * len(chain.joints)))
    theirs = judged(part, shell, poses)
    found = sampled(body(part), hood(("shell", shell)), poses)[0]
    assert found.kind == "sampled"
    assert found.found == pytest.approx(theirs.min(), abs=SAME)
    assert found.least == found.found
    assert theirs[found.pose] == pytest.approx(theirs.min(), abs=SAME)


def test_every_board_gets_its_own_answer() -> None:
    part, parts = potato(), boards(330.0)
    poses = THREE.poses(THREE.grid([3, 2, 2]))
    found = sampled(body(part), hood(*parts), poses, by_board=True)
    assert [answer.board for answer in found] == ["left", "right", "back", "roof"]
    for answer, (_, board) in zip(found, parts, strict=True):
        assert answer.found == pytest.approx(judged(part, board, poses).min(), abs=SAME)


def test_the_two_points_are_on_the_surfaces_at_the_pose() -> None:
    part, shell = potato(3), dome(2)
    poses = SWING.poses(SWING.grid([7]))
    found = sampled(body(part), hood(("shell", shell)), poses)[0]
    assert np.linalg.norm(found.here - found.there) == pytest.approx(found.found, abs=SAME)
    moved = trimesh.Trimesh(apply(poses[found.pose], part.vertices), part.faces, process=False)
    for mesh, point in ((moved, found.here), (shell, found.there)):
        assert trimesh.triangles.closest_point(mesh.triangles, np.tile(point, (len(mesh.faces), 1))) is not None
        nearest = trimesh.triangles.closest_point(mesh.triangles, np.tile(point, (len(mesh.faces), 1)))
        assert np.linalg.norm(nearest - point, axis=1).min() < SAME


def test_long_triangles_are_measured_over_their_whole_surface() -> None:
    """A beam of twelve triangles passes 20 mm under a spike: no corner is nearer than 400 mm, the surface is."""
    beam = box((-500, -20, 0), (500, 20, 40))
    spike = trimesh.Trimesh([[0, 0, 60], [1, 0, 90], [0, 1, 90]], [[0, 1, 2]])
    found = sampled(body(beam), hood(("spike", spike)), np.eye(4)[None])[0]
    assert found.found == pytest.approx(20.0, abs=1e-9)


def test_sweeps_of_a_box_known_in_closed_form() -> None:
    """Corners of a box at radius √(200² + 50²) = 206.155 mm pass a wall square to the way at y = 230 mm."""
    part = box((-50, 100, 0), (50, 200, 80))
    corner = math.hypot(200.0, 50.0)
    angles = [[math.atan2(50.0, 200.0)], [0.0]]  # one upper corner straight ahead, and the box square on
    wall = hood(("wall", box((-600, 230, -10), (600, 245, 300))))
    poses = SWING.poses(angles)
    assert sampled(body(part), wall, poses[:1])[0].found == pytest.approx(230.0 - corner, abs=1e-9)
    assert sampled(body(part), wall, poses[1:])[0].found == pytest.approx(30.0, abs=1e-9)


def test_a_hood_that_just_touches_has_no_clearance() -> None:
    part = box((-50, 100, 0), (50, 200, 80))
    wall = hood(("wall", box((-600, 200, -10), (600, 215, 300))))
    found = sampled(body(part), wall, np.eye(4)[None])[0]
    assert found.found == pytest.approx(0.0, abs=SAME)


def test_crossing_surfaces_are_a_collision_even_if_no_corner_is_near() -> None:
    rod = box((-500, -5, -5), (500, 5, 5))
    plate = hood(("plate", box((-1, -300, -300), (1, 300, 300))))
    found = sampled(body(rod), plate, np.eye(4)[None])[0]
    assert found.collides
    assert found.found == 0.0


def test_the_answer_does_not_depend_on_a_field_that_does_not_cover_the_way() -> None:
    part, shell = potato(3), hood(("shell", dome(2)))
    near = SWING.poses([[0.0]])
    from kit.geometry.clearance import Field
    from kit.geometry.clearance.sample import swept_bounds

    field = Field(shell.frames, shell.board, swept_bounds(body(part), near))
    away = slide([0.0, -150.0, 100.0], (0.2, 1.0, 0.3))
    kept = sampled(body(part), shell, away, field=field)[0]
    assert kept.found == pytest.approx(sampled(body(part), shell, away)[0].found, abs=1e-9)


def test_a_large_clearance_is_exact_too() -> None:
    part, wall = potato(3), box((5000, -50, -50), (5010, 50, 50))
    poses = SWING.poses(SWING.grid([5]))
    found = sampled(body(part), hood(("wall", wall)), poses)[0]
    assert found.found == pytest.approx(judged(part, wall, poses).min(), abs=SAME)


@pytest.mark.parametrize(
    ("boards_given", "sentence"),
    [
        ([], "no board"),
        ([("a", np.zeros((3, 3)), [[0, 1, 2]])], "no area"),
        ([("a", [[0, 0, np.nan]], [[0, 0, 0]])], "finite"),
        ([("a", np.eye(3), [[0, 1, 3]])], "outside 0 to 2"),
        ([("a", np.eye(3), np.zeros((0, 3), dtype=int))], "m × 3"),
        ([("a", np.eye(3), [[0, 1, 2]]), ("a", np.eye(3), [[0, 1, 2]])], "same name"),
    ],
)
def test_a_wrong_hood_gets_a_sentence(boards_given, sentence) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(KitError, match=sentence):
        Obstacle.of(boards_given)


def test_wrong_bodies_and_poses_get_a_sentence() -> None:
    part, shell = body(box((0, 0, 0), (1, 1, 1))), hood(("a", box((2, 0, 0), (3, 1, 1))))
    with pytest.raises(KitError, match="no face"):
        Body.of(np.eye(3), np.zeros((0, 3), dtype=int))
    with pytest.raises(KitError, match="missing vertices"):
        Body.of(np.eye(3), [[0, 1, 7]])
    with pytest.raises(KitError, match="4 × 4"):
        sampled(part, shell, np.zeros((0, 4, 4)))
    with pytest.raises(KitError, match="4 × 4"):
        sampled(part, shell, np.eye(4))


def test_of_a_part_that_crosses_not_all_that_crosses_is_followed(monkeypatch: pytest.MonkeyPatch) -> None:
    """Once one pair of triangles crosses, nothing comes nearer: a fine scan through a wall is no work."""
    followed: list[int] = []
    finish = Search._finish

    def counted(self: Search, found: Any) -> None:
        followed.append(len(found.node))
        finish(self, found)

    monkeypatch.setattr(Search, "_finish", counted)
    fine = trimesh.creation.icosphere(subdivisions=5, radius=50.0)
    corners = np.array([[0.0, -99.0, -99.0], [0.0, 99.0, -99.0], [0.0, 99.0, 99.0], [0.0, -99.0, 99.0]])
    wall = Obstacle.of([("wall", corners, np.array([[0, 1, 2], [0, 2, 3]]))])
    moves = np.tile(np.eye(4), (20, 1, 1))
    moves[:, :2, 3] = np.column_stack([np.full(20, 0.37), np.arange(20)])  # no corner lies on the wall
    (answer,) = sampled(Body.of(fine.vertices, fine.faces), wall, moves)
    assert answer.found == 0.0
    assert followed[-1] == 0
    assert sum(followed) < 2000
