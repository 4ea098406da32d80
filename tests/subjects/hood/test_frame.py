"""Rails and posts, edge curves for cloth, openings beside edges, and the cutting order."""

from itertools import combinations, pairwise
from math import degrees, pi, radians, sin

import numpy as np
import pytest
import trimesh

from kit.core.errors import KitError
from kit.subjects.cloth.geometry.skin_panels import shared_edges, skin
from kit.subjects.hood.geometry.boards import boards
from kit.subjects.hood.geometry.cut_order import SMALL, cutting_order, is_small
from kit.subjects.hood.geometry.edges import edge_curves, wall_panels
from kit.subjects.hood.geometry.form import FLOOR, Brow, Chute, Notch
from kit.subjects.hood.geometry.openings import outlines, wood_left
from kit.subjects.hood.geometry.rails import brow_rail, rails
from tests.subjects.hood.forms import form, volume


def test_rails_of_a_hood_meet_without_overlap() -> None:
    hood = form(chutes=(), notches=())
    made = [rail for board in boards(hood.faces(), FLOOR) for rail in rails(board, 40.0)]
    assert len(made) == 6 * 4 + 6
    solids = [trimesh.Trimesh(*rail.mesh, process=False) for rail in made]
    assert all(solid.is_watertight for solid in solids)
    total = sum(solid.volume for solid in solids)
    joined = trimesh.boolean.union(solids, engine="manifold")
    assert joined.volume == pytest.approx(total, rel=1e-6)
    largest = max(abs(volume(part)) for part in joined.split(only_watertight=False))
    assert largest == pytest.approx(total, rel=1e-6)  # one frame; the rest are slivers without volume


def test_rails_of_an_upright_box_are_picture_frames() -> None:
    """A 600 × 400 wall: four sticks mitered at 45°, their volume that of the ring less the two beveled ends."""
    up = pi / 2
    hood = form(
        front=300.0, back=300.0, left=300.0, right=300.0, chamfer=0.0, height=400.0, slope_front=up, slope_back=up,
        slope_left=up, slope_right=up, thickness=20.0, brow=None, chutes=(), notches=(),
    )  # fmt: skip
    wall = next(board for board in boards(hood.faces(), FLOOR) if board.name == "left")
    made = {rail.along: rail for rail in rails(wall, 50.0)}
    assert made["front"].length == pytest.approx(400.0)
    assert made["bench"].length == pytest.approx(600.0)
    for rail in made.values():
        assert [degrees(angle) for angle in rail.miters] == pytest.approx([45.0, 45.0])
    # Layer by layer, x into the wall: (600 - 2 x) (400 - x), as both ends and the top are mitered.
    assert wall.solid.volume == pytest.approx(600 * 400 * 20 - 1400 * 20**2 / 2 + 2 * 20**3 / 3)
    assert sum(rail.part.solid.volume for rail in made.values()) == pytest.approx(
        wall.solid.volume - 500.0 * 300.0 * 20.0
    )


def test_without_its_foot_the_posts_run_to_the_bench() -> None:
    front = boards(form().faces(), FLOOR)[0]
    made = rails(front, 40.0, without=("bench",))
    assert [rail.along for rail in made].count("bench") == 0
    posts = [rail for rail in made if rail.along in ("left", "right")]
    for post in posts:
        low = min(side.corners[:, 2].min() for side in post.part.solid.sides)
        assert low == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("rise", [0.0, 45.0])
def test_the_brows_rail_sits_between_the_posts(rise: float) -> None:
    hood = form(brow=Brow(410.0, 470.0, rise))
    front = boards(hood.faces(), FLOOR)[0]
    posts = [rail for rail in rails(front, 40.0, ("bench",)) if rail.along in ("left", "right")]
    rail = brow_rail(front, 470.0 / sin(hood.slope_front), 40.0, outlines(hood)["front"])
    solid = trimesh.Trimesh(*rail.mesh, process=False)
    assert solid.is_watertight
    assert solid.vertices[:, 2].min() == pytest.approx(470.0, abs=12.0)  # the board leans: outside and inside differ
    for post in posts:
        shared = trimesh.boolean.intersection([solid, trimesh.Trimesh(*post.mesh, process=False)], engine="manifold")
        assert abs(volume(shared)) < 1.0


def test_edge_curves_are_the_corner_lines_and_make_a_skin() -> None:
    hood = form()
    curves = edge_curves(hood)
    assert next(iter(curves)) == "front-right corner"
    walls = wall_panels(hood)
    assert [name for name, _, _ in walls] == ["right", "rear right", "back", "rear left", "left"]
    panels = skin(list(curves.values()), walls)
    made = {board.name: board for board in boards(hood.faces(), FLOOR)}
    for panel in panels:
        outline = made[panel.name].outline()
        x, y = outline.T
        area = 0.5 * float(x @ np.roll(y, -1) - y @ np.roll(x, -1))
        assert panel.development.flat.area == pytest.approx(area, rel=1e-9)
    assert len(shared_edges(panels)) == 4
    brow = curves["brow"].at(np.array([0.0, 0.5, 1.0]))
    assert brow[0, 2] == pytest.approx(470.0)
    assert brow[1, 2] == pytest.approx(470.0 + 45.0 * sin(hood.slope_front))
    assert np.allclose(curves["foot"].at(np.array([0.0])), [[-350.0, -350.0, 0.0]])
    assert np.allclose(curves["top rim"].at(np.array([5.0]))[0, 2], 660.0)


def test_edges_that_do_not_meet_get_a_sentence() -> None:
    with pytest.raises(KitError, match="do not meet from the bench"):
        edge_curves(form(chamfer=20.0, slope_rear=radians(99)))


def test_wood_beside_an_opening_is_measured_to_the_nearest_edge() -> None:
    """Upright back of 400 mm between its corners: a hole of 100 mm in the middle leaves 150 mm, inside 12 mm less."""
    up = pi / 2
    hood = form(
        slope_back=up, slope_left=up, slope_right=up, slope_rear=up, slope_front=up, left=300.0, right=300.0,
        chamfer=100.0, chutes=(Chute("back", 100.0, 300.0),), notches=(Notch("left", -50.0, 50.0, 100.0),),
    )  # fmt: skip
    made = {board.name: board for board in boards(hood.faces(), FLOOR)}
    hole = outlines(hood)["back"]["hole 1"]
    inner = 12.0 * np.tan(pi / 8)  # a miter between boards that meet at 135°
    assert wood_left(made["back"], hole) == pytest.approx(150.0 - inner, abs=0.05)
    notch = outlines(hood)["left"]["notch 1"]
    assert wood_left(made["left"], notch) == pytest.approx(245.0 - 50.0 - inner, abs=1e-6)


def test_holes_are_never_drawn_larger_than_bored() -> None:
    ring = outlines(form())["back"]["hole 1"] - [0.0, 130.0 / sin(form().slope_back)]
    assert np.hypot(*ring.T).max() <= 50.0 + 1e-9
    middles = (ring + np.roll(ring, -1, axis=0)) / 2.0
    assert np.hypot(*middles.T).min() >= 50.0 - 0.05
    square = outlines(form(chutes=(Chute("back", 100.0, 300.0, 10.0, up=60.0),)))["back"]["hole 1"]
    assert np.ptp(square, axis=0) == pytest.approx([100.0, 60.0])


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"chutes": (Chute("bakc", 100.0, 100.0),)}, "did you mean 'back'"),
        ({"notches": (Notch("left", 50.0, 50.0, 100.0),)}, "has no area"),
    ],
)
def test_an_opening_without_a_place_gets_a_sentence(changed: dict[str, object], sentence: str) -> None:
    with pytest.raises(KitError, match=sentence):
        outlines(form(**changed))


def test_small_boards_come_last_and_on_a_carrier() -> None:
    hood = form(chamfer=60.0)
    made = boards(hood.faces(), FLOOR)
    steps = cutting_order(made, outlines(hood))
    small = {board.name for board in made if is_small(board)}
    assert {"rear right", "rear left"} <= small
    assert all(min(board.size) < SMALL for board in made if board.name in small)
    kinds = ["blank", "opening", "long cut", "end cut"]
    assert sorted(range(len(steps)), key=lambda k: kinds.index(steps[k].what)) == list(range(len(steps)))
    for what in ("long cut", "end cut"):
        carried = [step.carrier for step in steps if step.what == what]
        assert carried == sorted(carried)  # free cuts first
    for step in steps:
        if step.what.endswith("cut"):
            assert step.carrier == (step.board in small)
    assert len([step for step in steps if step.what.endswith("cut")]) == sum(len(board.edges) for board in made)


def test_one_setting_serves_all_cuts_of_the_same_tilt() -> None:
    """The blade is set once for each tilt among the large boards' long cuts."""
    made = boards(form().faces(), FLOOR)
    tilts = [
        round(degrees(abs(step.tilt)), 1)
        for step in cutting_order(made, {})
        if step.what == "long cut" and not step.carrier
    ]
    changes = sum(a != b for a, b in pairwise(tilts))
    assert changes == len(set(tilts)) - 1


def test_pairs_of_rails_share_nothing() -> None:
    top = boards(form().faces(), FLOOR)[-1]
    solids = [trimesh.Trimesh(*rail.mesh, process=False) for rail in rails(top, 30.0)]
    for one, two in combinations(solids, 2):
        shared = trimesh.boolean.intersection([one, two], engine="manifold")
        assert abs(volume(shared)) < 1e-6 * one.volume
