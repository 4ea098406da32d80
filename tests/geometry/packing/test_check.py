"""The judge finds every wrong of a layout that was laid wrongly by hand, and nothing on one that was laid well."""

from dataclasses import replace
from math import pi

import pytest
from shapely import Polygon, box

from kit.geometry.packing.check import faults
from kit.geometry.packing.stock import CutPart, Cutting, Layout, Placed, Roll, board

SQUARE = CutPart("square", box(0, 0, 100, 100), 2)
STRIP = CutPart("strip", box(0, 0, 100, 30), 1, (0.0, pi), over=False)
KNOT = box(400, 200, 430, 230)


def laid(*placed: Placed, kerf: float = 3.0, margin: float = 5.0, left: tuple[int, ...] = ()) -> Layout:
    stock = (board("board", 500, 300, 2, [KNOT]),)
    return Layout((SQUARE, STRIP), stock, Cutting(margin, kerf), placed, left=left)


GOOD = (
    Placed(0, 0, 0.0, False, 5, 5),
    Placed(0, 0, 0.0, False, 108, 5),
    Placed(1, 1, pi, False, 105, 35),
)


def test_a_good_layout_has_no_fault() -> None:
    assert faults(laid(*GOOD)) == ()


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({1: Placed(0, 0, 0.0, False, 107.9, 5)}, "2.900 mm apart, but the kerf is 3 mm"),
        ({1: Placed(0, 0, 0.0, False, 95, 5)}, "square and square overlap by 1e+03 mm²"),
        ({1: Placed(0, 0, 0.0, False, 5, 5)}, "overlap by 1e+04 mm²"),
        ({0: Placed(0, 0, 0.0, False, 4.9, 5)}, "square lies 10 mm² outside"),
        ({1: Placed(0, 0, 0.0, False, 350, 150)}, "outside of the usable stock"),  # over the knot
        ({1: Placed(0, 0, 0.0, False, 296, 150)}, "outside of the usable stock"),  # within its margin
        ({2: Placed(1, 2, pi, False, 105, 35)}, "piece 3 of the stock, which is not there"),
        ({2: Placed(1, 1, pi / 2, False, 105, 35)}, "strip lies at 90.0°, which is not allowed"),
        ({2: Placed(1, 1, pi, True, 105, 35)}, "turned over, which is not allowed"),
        ({2: Placed(0, 1, 0.0, False, 5, 5)}, "square is wanted 2 times, but 3 lie"),
    ],
)
def test_a_wrong_is_found(change: dict[int, Placed], sentence: str) -> None:
    placed = [change.get(k, at) for k, at in enumerate(GOOD)]
    assert any(sentence in fault for fault in faults(laid(*placed))), faults(laid(*placed))


def test_a_part_that_is_neither_placed_nor_left_is_missed() -> None:
    assert "strip is wanted 1 times, but 0 lie and 0 are left" in faults(laid(*GOOD[:2]))
    assert faults(laid(*GOOD[:2], left=(0, 1))) == ()


def test_a_hole_of_stock_and_a_hole_of_a_part_count() -> None:
    ring = CutPart("ring", Polygon(box(0, 0, 100, 100).exterior, [box(20, 20, 80, 80).exterior.coords]))
    plug = CutPart("plug", box(0, 0, 50, 50))
    at = (Placed(0, 0, 0.0, False, 0, 0), Placed(1, 0, 0.0, False, 25, 25))
    layout = Layout((ring, plug), (board("board", 100, 100),), Cutting(0, 5), at)
    assert faults(layout) == ()
    assert faults(replace(layout, cutting=Cutting(0, 5.1))) != ()


def test_a_roll_is_as_wide_as_it_is() -> None:
    wide = CutPart("wide", box(0, 0, 50, 200))
    at = (Placed(0, 0, 0.0, False, 10, 0),)
    assert faults(Layout((wide,), Roll("roll", 200), Cutting(), at)) == ()
    assert "outside" in faults(Layout((wide,), Roll("roll", 199.9), Cutting(), at))[0]
    assert "outside" in faults(Layout((wide,), Roll("roll", 200, (box(30, 90, 40, 99),)), Cutting(), at))[0]
