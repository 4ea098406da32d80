"""Under the hood, through an opening, or in the wood: places known by hand, distances by a collision library."""

from math import inf, radians

import numpy as np
import pytest
import trimesh

from kit.geometry.clearance import Body
from kit.geometry.motion import Chain, Joint
from kit.subjects.hood.geometry.boards import boards
from kit.subjects.hood.geometry.form import FLOOR, Brow, Chute, HoodDimensions, Notch
from kit.subjects.hood.geometry.gaps import Gap, Swept, gaps, swept
from kit.subjects.hood.geometry.openings import outlines
from kit.subjects.hood.geometry.under import Outside, Room, outside, proven_outside, touching
from tests.geometry.clearance.cases import judged
from tests.subjects.hood.forms import form, meshes

Corner = tuple[float, float, float]
HERE = np.eye(4)[None]
UPRIGHT = {f"slope_{face}": radians(90.0) for face in ("front", "back", "left", "right", "rear")}
SLIDE = Chain((Joint("slide", "slide", (0, 0, 0), (0, -1, 0), 0.0, 800.0),))


def box(low: Corner, high: Corner) -> trimesh.Trimesh:
    return trimesh.creation.box(bounds=[low, high])


def part(*pieces: trimesh.Trimesh, poses: np.ndarray = HERE) -> Swept:
    joined = trimesh.util.concatenate(list(pieces))
    assert isinstance(joined, trimesh.Trimesh)
    return swept(Body.of(joined.vertices, joined.faces), poses)


def found(hood: HoodDimensions, *parts: Swept, still: Swept | None = None, joined: float = 1e-6) -> Outside | None:
    return outside(parts, still, Room(hood.faces(), below=joined), joined)


def by_board(hood: HoodDimensions, *parts: Swept) -> dict[str, Gap]:
    return {gap.board: gap for gap in gaps(parts, boards(hood.faces(), FLOOR), outlines(hood))}


INSIDE = box((-100, -100, 0), (100, 100, 300))


def test_a_machine_before_the_hood_is_not_under_it() -> None:
    hood = form(**UPRIGHT)
    out = found(hood, part(box((-100, -980, 0), (100, -900, 100))))
    assert out is not None
    assert out.away == pytest.approx(900.0 - (350.0 - 12.0))  # to the inside of the upright front
    assert out.here[1] == pytest.approx(-900.0)
    assert found(hood, part(INSIDE)) is None


@pytest.mark.parametrize(
    "piece",
    [
        box((-100, -980, 0), (100, -900, 100)),
        box((-50, -50, 700), (50, 50, 800)),  # on the top
        box((-50, -50, -300), (50, 50, -100)),  # under the bench
        box((-2000, -2000, -500), (2000, 2000, 2000)),  # round the whole hood: it touches no board
    ],
)
def test_a_piece_apart_from_the_machine_is_not_under_the_hood(piece: trimesh.Trimesh) -> None:
    hood = form(**UPRIGHT)
    assert all(gap.gap > 0.0 for gap in by_board(hood, part(piece)).values())
    assert found(hood, part(INSIDE, piece)) is not None


def test_what_touches_the_machine_may_lie_outside() -> None:
    """An arm out of the front opening, a grip as a box of its own; then 2 mm away; then as a scan within 2.5 mm."""
    hood = form(**UPRIGHT)
    arm = box((-20, -500, 200), (20, 0, 240))
    grip, loose = (box((-20, -600 - gap, 200), (20, -500 - gap, 240)) for gap in (0.0, 2.0))
    assert found(hood, part(INSIDE, arm, grip)) is None
    out = found(hood, part(INSIDE, arm, loose))
    assert out is not None
    assert out.here[1] == pytest.approx(-502.0)
    assert found(hood, part(INSIDE, arm, loose), joined=2.5) is None
    assert found(hood, part(INSIDE), part(grip), still=part(arm)) is None


@pytest.mark.parametrize(("back", "under"), [(-100.0, False), (0.0, False), (80.0, True)])
def test_a_machine_that_is_outside_for_the_most_part_is_not_under_the_hood(back: float, under: bool) -> None:
    """A box 800 mm long through the front opening, whose inside is at −338: its middle is 400 mm before its back."""
    hood = form(**UPRIGHT, brow=Brow(410.0, 470.0, 0.0))
    out = found(hood, part(box((-100, back - 800.0, 0), (100, back, 100))))
    assert (out is None) is under
    if out is not None:
        assert out.away == pytest.approx(400.0 - back - 338.0)
        assert out.here == pytest.approx([0.0, back - 400.0, 50.0])


def test_a_long_triangle_reaches_into_the_room_with_its_middle() -> None:
    """A blade of steel through both notches: its corners are outside, however it is cut into triangles."""
    hood = form(**UPRIGHT, notches=(Notch("right", -60, 60, 150), Notch("left", -60, 60, 150)))
    blade = trimesh.Trimesh([[-9000, 0, 40], [9000, 0, 40], [0, 0.0, 41]], [[0, 1, 2]], process=False)
    assert found(hood, part(blade, box((-9000, -1, 39), (9000, 1, 41)))) is None


def test_a_machine_that_slides_out_is_lost_at_a_position_that_is_told() -> None:
    """A bar 300 mm long, its end at y = 0, slides to the front, whose inside is at −338: it is out after 338 mm."""
    hood = form(**UPRIGHT, brow=Brow(410.0, 470.0, 0.0))
    bar = box((-30, -300, 100), (30, 0, 200))
    poses = SLIDE.poses(SLIDE.grid((9,)))  # each 100 mm
    moving = part(bar, poses=poses)
    assert all(gap.gap > 0.0 for gap in by_board(hood, moving).values())
    out = found(hood, moving)
    assert out is not None
    assert out.pose is not None
    assert out.pose >= 4
    room = Room(hood.faces())
    proven, sure = proven_outside([moving], [SLIDE], None, room, 1e-6, end=inf)
    assert proven is not None
    assert proven.joints is not None
    assert proven.joints[0] > 338.0
    assert sure
    short = Chain((Joint("slide", "slide", (0, 0, 0), (0, -1, 0), 0.0, 337.0),))
    half, sure = proven_outside([moving], [short], None, room, 1e-6, end=inf)
    assert half is not None
    assert half.joints is not None
    assert not half.wholly
    assert half.joints[0] >= 338.0 - 150.0  # its middle, at first at y = −150, is out
    short = Chain((Joint("slide", "slide", (0, 0, 0), (0, -1, 0), 0.0, 187.0),))
    assert proven_outside([moving], [short], None, room, 1e-6, end=inf) == (None, True)
    late = proven_outside([moving], [short], None, room, 1e-6, end=-inf)
    assert late == (None, False)


def test_a_position_between_the_sampled_ones_is_found_by_the_proof() -> None:
    """A bar on a turning arm leaves through the front between its ends at ± 90°, where it is under the hood."""
    hood = form(**UPRIGHT, left=500.0, right=500.0, brow=Brow(960.0, 470.0, 0.0))
    turn = Chain((Joint("swing", "turn", (0, 0, 0), (0, 0, 1), radians(-90), radians(90)),))
    bar = box((-20, -420, 100), (20, -345, 140))
    ends = part(bar, poses=turn.poses([[radians(-90)], [radians(90)]]))
    assert found(hood, ends) is None
    out, _ = proven_outside([ends], [turn], None, Room(hood.faces()), 1e-6, end=inf)
    assert out is not None
    assert out.joints is not None
    assert abs(out.joints[0]) < np.arccos(338.0 / 420.0)  # beyond, a corner of it is back in the room


NOTCHED = {"notches": (Notch("right", -70, 70, 150), Notch("left", -70, 70, 150))}


@pytest.mark.parametrize("half", [400.0, 600.0, 1200.0])
@pytest.mark.parametrize("leaning", [False, True])
def test_a_fence_through_both_notches_is_as_clear_as_a_collision_library_says(half: float, leaning: bool) -> None:
    """Its ends lie behind the planes of the rear boards, which it never comes near."""
    hood = form(**NOTCHED) if leaning else form(**UPRIGHT, **NOTCHED)
    fence = box((-half, -30, 0), (half, 30, 80))
    made = boards(hood.faces(), FLOOR)
    told = by_board(hood, part(fence))
    for board, solid in zip(made, meshes(made, hood), strict=True):
        assert told[board.name].gap == pytest.approx(float(judged(fence, solid, HERE)[0]), abs=2e-4)
    if not leaning:
        assert told["right"].gap == pytest.approx(40.0, abs=1e-6)  # 70 - 30
    assert found(hood, part(fence)) is None


@pytest.mark.parametrize(
    ("low", "high", "deep"),
    [
        ((0, -30, 0), (900, 75, 80), 5.0),  # 5 mm into the notch's end, and far out through it
        ((0, -30, 0), (900, 30, 153), 3.0),  # 3 mm into the notch's top
        ((0, -30, 0), (357, 75, 80), 4.0),  # only 4 mm behind the inside, at 353
        ((0, 100, 0), (360, 130, 80), 7.0),  # beside the notch, 7 mm behind the inside
        ((0, -300, 300), (361, 300, 400), 8.0),  # above the notch
    ],
)
def test_depth_is_the_least_way_back_out_of_the_pierced_board(low: Corner, high: Corner, deep: float) -> None:
    hood = form(**UPRIGHT, **NOTCHED, chamfer=20.0)
    assert by_board(hood, part(box(low, high)))["right"].gap == pytest.approx(-deep, abs=1e-6)


def test_a_pipe_into_a_hole_that_is_too_narrow_is_as_deep_as_it_overlaps() -> None:
    """A square bar of 60 mm in a hole of 50 mm, far out through it; its corner is at 30 √2 mm."""
    hood = form(**UPRIGHT, chutes=(Chute("back", 50.0, 300.0),))
    gap = by_board(hood, part(box((-30, 0, 270), (30, 900, 330))))["back"]
    assert gap.gap == pytest.approx(-(30.0 * 2.0**0.5 - 25.0), abs=0.06)  # the hole's chords lie 0.05 mm inside


def test_triangles_that_touch_cross_or_stay_apart() -> None:
    one = np.array([[[0.0, 0, 0], [1, 0, 0], [0, 1, 0]]])
    for height, within, holds in ((0.0, 1e-9, True), (0.5, 0.4, False), (0.5, 0.6, True), (3.0, 1.0, False)):
        assert touching([one, one + 9.0], one + np.array([0.2, 0.2, height]), within).tolist() == [
            holds,
            False,
        ]
    assert touching([], one, 1.0).tolist() == []
