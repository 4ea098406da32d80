"""Stock and boards against shapely's growing, against sawing one piece after another, and against limiting cases."""

import numpy as np
import pytest
import shapely

from kit.core.model import find
from kit.subjects import model

STOCK, BOARDS = model("cutting.stock"), model("cutting.boards")


@pytest.mark.parametrize("corners", [3, 5, 40])
@pytest.mark.parametrize("kerf", [1.0, 4.0, 8.0])
def test_kerf_about_convex_parts_is_what_shapely_grows(corners: int, kerf: float) -> None:
    turn = np.sort(np.random.default_rng(corners).uniform(0, 2 * np.pi, corners))
    part = shapely.convex_hull(shapely.MultiPoint(np.column_stack([120 * np.cos(turn), 90 * np.sin(turn)])))
    case = STOCK.at(
        parts_area=f"{7 * part.area} mm^2",
        outline=f"{7 * part.length} mm",
        parts=7,
        kerf=kerf,
        beyond=("outline",),
    )
    assert case.base["with_kerf"] == pytest.approx(7 * part.buffer(kerf / 2, quad_segs=2000).area, rel=1e-7)


def test_a_hollow_makes_the_kerf_smaller_than_stated() -> None:
    part = shapely.Polygon([(0, 0), (200, 0), (200, 200), (100, 20), (0, 200)])
    case = STOCK.at(
        parts_area=f"{part.area} mm^2", outline=f"{part.length} mm", parts=1, kerf=6, beyond=("parts_area",)
    )
    assert case.base["with_kerf"] > part.buffer(3, quad_segs=200).area


def test_tiles_without_gaps_take_their_length() -> None:
    case = STOCK.at(parts_area=1.5, outline=24, parts=6, kerf=0, margin=0, density=100, width=1000)
    assert case.base["roll_length"] == pytest.approx(1500)
    assert case.base["yield"] == pytest.approx(1)


def test_a_point_of_density_saves_what_the_price_says() -> None:
    low, high = (STOCK.at(density=density).base["cost"] for density in (71.99, 72.01))
    assert STOCK.at(density=72).base["point_saves"] == pytest.approx((low - high) / 0.02, rel=1e-6)


def test_the_density_that_an_offer_needs_is_found() -> None:
    case = STOCK.at()
    found = find(case, "density", "roll_length", "2.2 m")
    assert STOCK.at(density=f"{found.values[0] * 100} %").base["roll_length"] == pytest.approx(2200)


def sawn(room: float, piece: float, kerf: float) -> int:
    """Saw one piece after another: the last needs no kerf."""
    count = 0
    while room >= piece - 0.001:
        count, room = count + 1, room - piece - kerf
    return count


def test_boards_are_sawn_piece_by_piece() -> None:
    draw = np.random.default_rng(3)
    for _ in range(200):
        v = {
            "length": draw.uniform(400, 3000), "width": draw.uniform(100, 1500), "end_trim": draw.uniform(0, 60),
            "edge_trim": draw.uniform(0, 30), "piece_length": draw.uniform(60, 900),
            "piece_width": draw.uniform(20, 500), "kerf": draw.uniform(0, 6),
        }  # fmt: skip
        case = BOARDS.at(**v, grain="either way").base
        long, wide = v["length"] - v["end_trim"], v["width"] - v["edge_trim"]
        along = sawn(wide, v["piece_width"], v["kerf"]) * sawn(long, v["piece_length"], v["kerf"])
        across = sawn(wide, v["piece_length"], v["kerf"]) * sawn(long, v["piece_width"], v["kerf"])
        assert (case["along"], case["turned"], case["pieces"]) == (along, across, max(along, across))
        assert case["pieces"] <= case["bound"]


def test_what_is_left_and_what_was_cut_make_the_board() -> None:
    v = BOARDS.at().base
    assert v["strip_left"] + v["strips"] * (v["piece_width"] + v["kerf"]) + v["edge_trim"] == pytest.approx(v["width"])
    assert v["end_left"] + v["rows"] * (v["piece_length"] + v["kerf"]) + v["end_trim"] == pytest.approx(v["length"])
