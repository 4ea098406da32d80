"""How deep a part stands in the hood or behind it, against depths known by hand."""

import numpy as np
import pytest
import trimesh

from kit.core.errors import KitError
from kit.geometry.clearance import intrusion, sampled
from kit.geometry.motion import slide, turn
from tests.geometry.clearance.cases import boards, body, box, hood, potato

INSIDE = (0.0, 0.0, 100.0)
HERE = np.eye(4)[None]


def test_a_part_in_the_room_intrudes_nowhere() -> None:
    assert intrusion(body(potato(3)), hood(*boards(340.0), inside=INSIDE), HERE) is None


@pytest.mark.parametrize(("reach", "depth"), [(305.0, 5.0), (312.0, 12.0), (350.0, 50.0)])
def test_the_depth_behind_a_wall_however_thin_the_wall(reach: float, depth: float) -> None:
    arm = box((0, 50, 50), (reach, 90, 90))
    found = intrusion(body(arm), hood(*boards(300.0), inside=INSIDE), HERE)
    assert found is not None
    assert (found.board, found.depth) == ("right", pytest.approx(depth, abs=1e-6))


def test_the_depth_behind_a_corner_is_the_way_back_to_the_corner() -> None:
    """A corner of the part 30 mm and 40 mm behind two sheets is 50 mm from the edge in which they meet."""
    arm = box((200, 200, 50), (330, 340, 90))
    sheets = [
        ("right", [[300, -200, 0], [300, 300, 0], [300, 300, 400], [300, -200, 400]]),
        ("back", [[-300, 300, 0], [300, 300, 0], [300, 300, 400], [-300, 300, 400]]),
    ]
    parts = [(name, trimesh.Trimesh(points, [[0, 1, 2], [0, 2, 3]])) for name, points in sheets]
    found = intrusion(body(arm), hood(*parts, inside=INSIDE), HERE)
    assert found is not None
    assert found.depth == pytest.approx(50.0, abs=1e-6)
    np.testing.assert_allclose(found.there[:2], [300, 300], atol=1e-6)


def test_where_a_board_ends_behind_another_the_depth_behind_its_side_counts() -> None:
    """Butted boards: the corner is beside the back board's end, and counts as no deeper than behind one side."""
    found = intrusion(body(box((200, 200, 50), (330, 340, 90))), hood(*boards(300.0), inside=INSIDE), HERE)
    assert found is not None
    assert (found.board, found.depth) == ("back", pytest.approx(40.0, abs=1e-6))


def test_the_pose_with_the_largest_depth_is_named() -> None:
    arm = box((-20, 0, 50), (20, 295, 90))
    poses = slide([0.0, 4.0, 9.0, 7.0], (0, 1, 0))
    found = intrusion(body(arm), hood(*boards(300.0), inside=INSIDE), poses)
    assert found is not None
    assert (found.board, found.pose, found.depth) == ("back", 2, pytest.approx(4.0, abs=1e-6))


def test_standing_out_of_the_open_front_is_no_intrusion() -> None:
    arm = box((-280, -500, 50), (280, 100, 90))
    assert intrusion(body(arm), hood(*boards(300.0), inside=INSIDE), HERE) is None
    wide = box((-600, -500, 50), (600, -210, 90))  # beside the rim, before the hood
    assert intrusion(body(wide), hood(*boards(300.0), inside=INSIDE), HERE) is None


def test_a_scan_wholly_outside_the_hood_is_found_out() -> None:
    part, around = potato(3), hood(*boards(340.0), inside=INSIDE)
    aside = slide([900.0], (1, 0, 0))
    assert not sampled(body(part), around, aside)[0].collides
    found = intrusion(body(part), around, aside)
    assert found is not None
    assert found.board == "right"
    assert found.depth > 400.0


def test_a_sheet_counts_from_the_side_of_the_room_whichever_way_it_is_wound() -> None:
    sheet = trimesh.Trimesh([[-500, 250, 0], [500, 250, 0], [0, 250, 900.0]], [[0, 1, 2]])
    arm = box((-10, 0, 50), (10, 263, 90))
    for faces in (sheet.faces, sheet.faces[:, ::-1]):
        turned = trimesh.Trimesh(sheet.vertices, faces, process=False)
        found = intrusion(body(arm), hood(("cloth", turned), inside=INSIDE), HERE)
        assert found is not None
        assert found.depth == pytest.approx(13.0, abs=1e-6)


def test_turning_everything_changes_nothing() -> None:
    arm = box((0, 50, 50), (312, 90, 90))
    move = turn(0.4, (3, 4, 5), (1, 2, 3))
    parts = [(name, board.copy().apply_transform(move)) for name, board in boards(300.0)]
    inside = tuple(move[:3, :3] @ INSIDE + move[:3, 3])
    found = intrusion(body(arm.apply_transform(move)), hood(*parts, inside=inside), HERE)
    assert found is not None
    assert found.depth == pytest.approx(12.0, abs=1e-6)


def test_without_a_place_inside_there_is_no_depth() -> None:
    with pytest.raises(KitError, match="where its room is"):
        intrusion(body(potato(1)), hood(*boards()), HERE)
