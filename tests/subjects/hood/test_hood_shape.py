"""The hood's closed forms against the boards as solids, cut from planes, and against outlines measured by shapely."""

import numpy as np
import pytest
from shapely import Polygon
from shapely.geometry import box

from kit.core.model import find
from kit.core.quantity import Quantity, parse
from kit.subjects import model
from kit.subjects.hood.geometry.boards import boards
from kit.subjects.hood.geometry.form import FLOOR, HoodDimensions
from kit.subjects.hood.geometry.openings import outlines
from kit.subjects.hood.hood_boards import form_of

HOOD = model("hood.shape")
CASES = [
    {},
    {"slope_front": "88 deg", "slope_back": "70 deg", "slope_left": "76 deg", "slope_right": "86 deg",
     "chamfer": "270 mm"},
    {"slope_rear": "70 deg", "chamfer": "110 mm", "left": "420 mm", "height": "500 mm", "brow_height": "300 mm",
     "brow": "straight"},
    {"slope_front": "96 deg", "front": "250 mm", "height": "600 mm", "brow_height": "350 mm", "brow_rise": "215 mm"},
]  # fmt: skip


def form(givens: dict[str, str]) -> tuple[HoodDimensions, dict[str, float]]:
    value = dict(HOOD.at(**givens).base)
    return form_of(value), value


@pytest.mark.parametrize("givens", CASES)
def test_sizes_and_bevels_are_those_of_the_solids(givens: dict[str, str]) -> None:
    hood, value = form(givens)
    assert value["least_top"] > 0.0, "every face reaches the top"
    made = {board.name: board for board in boards(hood.faces(), FLOOR)}
    edges = {name: {edge.meets: edge for edge in board.edges} for name, board in made.items()}
    for face in ("front", "right", "back", "left"):
        assert value[f"width_{face}"] == pytest.approx(np.ptp(made[face].outline()[:, 1]), rel=1e-9)
    assert value["width_rear"] == pytest.approx(np.ptp(made["rear left"].outline()[:, 1]), rel=1e-9)
    tops = {"front": "width", "right": "right", "left": "left", "back": "back", "rear right": "rear_right",
            "rear left": "rear_left"}  # fmt: skip
    for face, name in tops.items():
        assert value[f"top_{name}"] == pytest.approx(edges[face]["top"].outside, rel=1e-9), face
    for one, two, boards_met in (
        ("front", "right", ("front", "right")), ("left", "front", ("left", "front")),
        ("right", "rear", ("right", "rear right")), ("rear", "left", ("rear left", "left")),
        ("rear", "back", ("rear right", "back")),
    ):  # fmt: skip
        here, there = edges[boards_met[0]][boards_met[1]], edges[boards_met[1]][boards_met[0]]
        assert value[f"tilt_{one}_{two}"] == pytest.approx(here.tilt, abs=1e-9)
        assert value[f"tilt_{one}_{two}"] == pytest.approx(there.tilt, abs=1e-9)
        assert value[f"dihedral_{one}_{two}"] == pytest.approx(here.dihedral, abs=1e-9)
        assert value[f"miter_{one}_{two}"] == pytest.approx(here.miter, abs=1e-9)
        assert value[f"miter_{two}_{one}"] == pytest.approx(there.miter, abs=1e-9)


@pytest.mark.parametrize("givens", CASES)
def test_areas_are_those_of_the_outlines(givens: dict[str, str]) -> None:
    hood, value = form(givens)
    cut = outlines(hood, 0.001)
    above = box(-1e4, 0.0, 1e4, 1e4)  # what lies above the bench
    assert value["opening"] == pytest.approx(Polygon(cut["front"]["brow"]).intersection(above).area, rel=1e-5)
    assert value["outlet"] == pytest.approx(Polygon(cut["back"]["hole 1"]).area, rel=1e-4)
    sides = sum(
        Polygon(cut[face][name]).intersection(above).area for face, name in (("right", "notch 1"), ("left", "notch 2"))
    )
    assert value["inlet"] - value["opening"] == pytest.approx(sides, rel=1e-9)
    front = next(board for board in boards(hood.faces(), FLOOR) if board.name == "front")
    outline = Polygon(front.outline())
    crown = cut["front"]["brow"][:, 1].max()
    assert value["band"] == pytest.approx(outline.bounds[3] - crown, abs=1e-6)
    level = outline.intersection(box(-1e4, value["brow_up"] - 1e-6, 1e4, value["brow_up"] + 1e-6)).bounds
    beside = min(-value["brow_width"] / 2 - level[0], level[2] - value["brow_width"] / 2)
    assert value["jamb"] == pytest.approx(beside, abs=1e-3)


@pytest.mark.parametrize("toward", ["front", "right", "back", "left"])
def test_the_points_clearance_is_its_depth_behind_the_board(toward: str) -> None:
    hood, value = form({"toward": toward, "reach": "201 mm", "reach_height": "317 mm"})
    way = {"front": (0, -1), "right": (1, 0), "back": (0, 1), "left": (-1, 0)}[toward]
    point = np.array([[201.0 * way[0], 201.0 * way[1], 317.0]])
    face = next(face for face in hood.faces() if face.name == toward)
    assert value["clear"] == pytest.approx(float(face.plane.depth(point)[0]) - hood.thickness, abs=1e-9)


@pytest.mark.parametrize(
    ("unknown", "result", "target"),
    [
        ("left", "clear", "20 mm"),
        ("slope_left", "clear", "20 mm"),
        ("brow_width", "opening", "2000 cm^2"),
        ("brow_height", "opening", "2500 cm^2"),
        ("brow_rise", "brow_radius", "600 mm"),
        ("chute", "outlet", "120 cm^2"),
        ("slope_back", "width_back", "700 mm"),
        ("chamfer", "top_back", "150 mm"),
    ],
)
def test_turned_round_it_gives_the_target_again(unknown: str, result: str, target: str) -> None:
    case = HOOD.at()
    found = find(case, unknown, result, target)
    assert found.values
    wanted, given = parse(target, HOOD.part(result).unit), HOOD.givens[unknown].unit
    for value in found.values:
        again = case.with_(**{unknown: Quantity.from_base(value, given)})
        assert again.base[result] == pytest.approx(wanted.base, rel=1e-6)
