"""Gaps of the boards: against a collision library, for a hood that just touches, and for one that collides."""

from math import inf, radians

import numpy as np
import pytest
import trimesh

from kit.geometry.clearance import Body, Obstacle, certified, sampled
from kit.geometry.envelope.envelope import envelope
from kit.geometry.motion import Chain, Joint, apply
from kit.subjects.hood.geometry.boards import boards
from kit.subjects.hood.geometry.depth import depth
from kit.subjects.hood.geometry.form import FLOOR, Brow, HoodDimensions
from kit.subjects.hood.geometry.gaps import Gap, gaps, room_left, swept
from kit.subjects.hood.geometry.openings import outlines, pierced
from kit.subjects.hood.geometry.proposal import cell_corners, propose
from tests.geometry.clearance.cases import judged
from tests.subjects.hood.forms import form, meshes

SWING = Joint("swing", "turn", (0, 0, 0), (0, 0, 1), radians(-50), radians(50))
PLUNGE = Joint("plunge", "turn", (0, 205, 280), (-1, 0, 0), 0.0, 0.7)
CHAIN = Chain((SWING, PLUNGE))


def arm() -> trimesh.Trimesh:
    """An arm with a motor and a handle that comes out below the brow; chosen small for the collision library."""
    parts = [
        trimesh.creation.cylinder(28.0, segment=[[0, 205, 280], [0, -20, 320]]),
        trimesh.creation.cylinder(130.0, segment=[[-28, -30, 222], [28, -30, 222]]),
        trimesh.creation.cylinder(50.0, segment=[[28, -20, 262], [190, -20, 262]]),
        trimesh.creation.cylinder(16.0, segment=[[0, -140, 300], [0, -420, 350]]),
    ]
    joined = trimesh.util.concatenate(parts)
    assert isinstance(joined, trimesh.Trimesh)
    return joined


def at(hood: HoodDimensions, mesh: trimesh.Trimesh, poses: np.ndarray) -> list[Gap]:
    part = swept(Body.of(mesh.vertices, mesh.faces), poses)
    return gaps([part], boards(hood.faces(), FLOOR), outlines(hood))


# The handle passes below the brow; in the second hood it grazes the brow, in the third the foot falls into the hole.
HOODS = [
    form(front=300.0, brow=Brow(560.0, 560.0, 40.0)),
    form(front=300.0, slope_front=radians(88), brow=Brow(640.0, 420.0, 20.0), height=700.0),
    form(front=300.0, brow=Brow(620.0, 560.0, 40.0), chutes=(form().chutes[0].__class__("back", 240.0, 280.0),)),
]


@pytest.mark.parametrize("hood", HOODS)
def test_every_gap_is_that_of_a_collision_library(hood: HoodDimensions) -> None:
    mesh, poses = arm(), CHAIN.poses(CHAIN.grid((9, 6)))
    found = at(hood, mesh, poses)
    made = boards(hood.faces(), FLOOR)
    for gap, board, solid in zip(found, made, meshes(made, hood), strict=True):
        there = judged(mesh, solid, poses)
        assert gap.board == board.name
        assert max(gap.gap, 0.0) == pytest.approx(max(float(there.min()), 0.0), abs=2e-4), board.name
        if gap.gap > 0.0:
            assert np.linalg.norm(gap.here - gap.there) == pytest.approx(gap.gap, abs=1e-9)
            assert there[gap.pose] == pytest.approx(float(there.min()), abs=2e-4)


def test_the_handle_through_the_opening_is_not_a_collision() -> None:
    """It stands 120 mm before the front at square; the gap is the distance to the jambs and the brow."""
    gap = at(HOODS[0], arm(), CHAIN.poses(np.zeros((1, 2))))[0]
    assert gap.board == "front"
    assert 50.0 < gap.gap < 200.0


def box(low: tuple[float, float, float], high: tuple[float, float, float]) -> trimesh.Trimesh:
    return trimesh.creation.box(bounds=[low, high])


def test_a_hood_that_just_touches_and_one_that_collides() -> None:
    """A box that turns about the axis: its corner sweeps a circle of 250 mm; the upright left board stands there."""
    hood = form(slope_left=radians(90), left=262.0, right=400.0, back=400.0, front=400.0, notches=(), chamfer=50.0)
    mesh = box((-200.0, -150.0, 50.0), (200.0, 150.0, 300.0))  # corners at 250 mm by 3, 4, 5
    turn = Chain((Joint("swing", "turn", (0, 0, 0), (0, 0, 1), radians(-80), radians(80)),))
    corner = float(np.arctan2(150.0, 200.0))  # at this swing a corner points to the left
    touching = {gap.board: gap for gap in at(hood, mesh, turn.poses([[0.0], [corner], [-corner]]))}
    assert touching["left"].gap == pytest.approx(0.0, abs=1e-9)
    assert touching["left"].pose in (1, 2)
    made = boards(hood.faces(), FLOOR)
    parts = [(board.name, *pierced(board, outlines(hood).get(board.name, {}))) for board in made]
    body = Body.of(mesh.vertices, mesh.faces)
    answer = certified(
        body, Obstacle.of([part for part in parts if part[0] == "left"]), turn, tolerance=0.05, seconds=inf
    )[0]
    assert answer.least == pytest.approx(0.0, abs=0.05)
    assert answer.found <= 0.05 + 1e-9
    hit = {gap.board: gap for gap in at(form_closer(hood), mesh, turn.poses([[0.0], [corner]]))}
    assert hit["left"].gap == pytest.approx(-7.0, abs=1e-9)


def form_closer(hood: HoodDimensions) -> HoodDimensions:
    """The same hood with its left board 7 mm nearer."""
    from dataclasses import replace

    return replace(hood, left=hood.left - 7.0)


def test_several_parts_count_together() -> None:
    near, far = box((-20, -20, 30), (250, 20, 60)), box((-250, -20, 30), (20, 20, 60))
    still = np.eye(4)[None]
    parts = [swept(Body.of(each.vertices, each.faces), still) for each in (near, far)]
    hood = form(notches=(), slope_left=radians(90), slope_right=radians(90))
    found = {gap.board: gap for gap in gaps(parts, boards(hood.faces(), FLOOR), outlines(hood))}
    assert (found["right"].part, found["right"].gap) == (0, pytest.approx(365.0 - 12.0 - 250.0))
    assert (found["left"].part, found["left"].gap) == (1, pytest.approx(350.0 - 12.0 - 250.0))
    least, board = room_left(parts[1], boards(hood.faces(), FLOOR))
    assert (least, board) == (pytest.approx(88.0), "left")


def test_the_proposed_hood_keeps_the_margin_and_no_more_than_the_cells_need() -> None:
    """Against the certified clearance: at least the margin, at most the margin and the slack of the cells more."""
    mesh = arm()
    body = Body.of(mesh.vertices, mesh.faces)
    room = envelope(body, CHAIN, 8.0)
    reached, slopes = (
        cell_corners(room),
        dict.fromkeys(("front", "back", "left", "right", "rear"), radians(80)),
    )
    least = propose(reached, 25.0, 12.0, slopes, 480.0)
    hood = HoodDimensions(
        least.front, least.back, least.left, least.right, least.chamfer, least.height, 12.0, *slopes.values(),
        brow=Brow(least.opening, 480.0),
    )  # fmt: skip
    made = boards(hood.faces(), FLOOR)
    parts = [(board.name, *pierced(board, outlines(hood).get(board.name, {}))) for board in made]
    for answer in certified(body, Obstacle.of(parts), CHAIN, tolerance=0.5, seconds=inf, by_board=True):
        assert answer.least >= 25.0, answer.board
        if answer.board in ("back", "left", "right", "top"):
            assert answer.found <= 25.0 + room.slack


def test_the_proposed_hood_keeps_clear_of_what_stands_and_leaves_it_the_opening() -> None:
    """A press stands still under its hood: its head rises above the brow, its foot comes out below it."""
    mesh = arm()
    reached = cell_corners(envelope(Body.of(mesh.vertices, mesh.faces), CHAIN, 8.0))
    pieces = (
        trimesh.creation.box(bounds=[(-100, -420, 420), (100, 200, 600)]),
        trimesh.creation.cone(60.0, 700.0),  # one face from below the brow to above it
        trimesh.creation.box(bounds=[(-330, -520, 0), (330, 200, 60)]),
    )
    joined = trimesh.util.concatenate(pieces)
    still = swept(Body.of(joined.vertices, joined.faces), np.eye(4)[None])
    slopes = dict.fromkeys(("front", "back", "left", "right", "rear"), radians(80))
    least = propose(reached, 25.0, 12.0, slopes, 480.0, still)
    assert least.opening == pytest.approx(2.0 * (330.0 + 25.0))
    hood = HoodDimensions(
        least.front, least.back, least.left, least.right, least.chamfer, least.height, 12.0, *slopes.values(),
        brow=Brow(least.opening, 480.0),
    )  # fmt: skip
    found = gaps([still], boards(hood.faces(), FLOOR), outlines(hood))
    assert min(gap.gap for gap in found) >= 25.0 - 1e-4
    front = next(gap for gap in found if gap.board == "front")
    assert front.gap == pytest.approx(25.0, abs=1e-4), "not farther than need be"


def test_the_corners_hold_every_filled_cell_in_every_direction() -> None:
    """Support of the corners against points thrown into the cells, and against the part at positions between."""
    mesh, rng = arm(), np.random.default_rng(3)
    room = envelope(Body.of(mesh.vertices, mesh.faces), CHAIN, 12.0)
    reached = cell_corners(room)
    low, high = reached.min(axis=0), reached.max(axis=0)
    thrown = low + (high - low) * rng.random((200_000, 3))
    inside = thrown[room.contains(thrown)]
    assert len(inside) > 10_000
    poses = CHAIN.poses(CHAIN.low + (CHAIN.high - CHAIN.low) * rng.random((200, 2)))
    met = apply(poses, mesh.vertices).reshape(-1, 3)
    for way in rng.normal(size=(60, 3)):
        furthest = (reached @ way).max()
        assert (inside @ way).max() <= furthest + 1e-9
        assert (met @ way).max() <= furthest + 1e-9


def test_plain_search_finds_the_same() -> None:
    """The closed form of the plates against the grid about the triangles, board by board."""
    hood, mesh, poses = HOODS[0], arm(), CHAIN.poses(CHAIN.grid((9, 6)))
    found = at(hood, mesh, poses)
    cut = outlines(hood)
    parts = [(b.name, *pierced(b, cut.get(b.name, {}))) for b in boards(hood.faces(), FLOOR)]
    plain = sampled(Body.of(mesh.vertices, mesh.faces), Obstacle.of(parts), poses, by_board=True)
    for gap, answer in zip(found, plain, strict=True):
        assert max(gap.gap, 0.0) == pytest.approx(answer.found, abs=2e-5)


def test_how_deep_a_fine_part_stands_in_a_board_is_what_all_its_corners_say() -> None:
    """The triangles that are looked at are chosen by their balls; here all are looked at, one by one."""
    hood = form(front=300.0, brow=Brow(560.0, 560.0, 40.0), chutes=(), notches=())
    made, cut = boards(hood.faces(), FLOOR), outlines(hood)
    fine = trimesh.creation.icosphere(subdivisions=5, radius=330.0)
    part = Body.of(fine.vertices, fine.faces)
    for up in (200.0, 420.0):
        pose = np.eye(4)
        pose[2, 3] = up
        points = apply(pose, fine.vertices)
        out = np.array([points @ one.face.plane.normal - one.face.plane.offset + one.face.thickness for one in made])
        for number, board in enumerate(made):
            if board.name in cut:
                continue  # the way aside into an opening is another
            wanted = max(0.0, float(out[number, np.argmax(out, axis=0) == number].max(initial=0.0)))
            found, here = depth(part, pose, made, number, {})
            assert found == pytest.approx(wanted, abs=1e-9), board.name
            if wanted > 0.0:
                back = here @ board.face.plane.normal - board.face.plane.offset + board.face.thickness
                assert back == pytest.approx(wanted, abs=1e-9)
