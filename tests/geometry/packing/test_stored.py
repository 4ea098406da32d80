"""Layouts written as rows and read back: the same, and refused where they no longer hold."""

from dataclasses import replace
from typing import Any

import pytest
from shapely import box

from kit.core.errors import KitError
from kit.geometry.packing.check import faults
from kit.geometry.packing.pack import pack
from kit.geometry.packing.stock import TWO_WAY, CutPart, Cutting, Roll, any_of, board
from kit.geometry.packing.stored import KEPT, Row, restored, to_rows
from tests.geometry.packing.orders import garment, offcuts

TILES = (CutPart("tile", box(0, 0, 100, 50), 4, TWO_WAY, over=True), CutPart("strip", box(0, 0, 200, 20), 2))
BOARD = (board("board", 420, 300, 2),)
CUT = Cutting(5, 3)


def test_what_is_kept_comes_back() -> None:
    on_offcuts = garment(4, 30, turns=any_of(4), scale=0.4)
    stock = offcuts(4, sum(part.outline.area * part.count for part in on_offcuts) * 0.7)
    for layout in (
        pack(garment(2, 12), Roll("cloth", 1500), CUT, effort=0),
        pack(on_offcuts, stock, CUT, effort=0),
    ):
        again = restored(to_rows(layout), layout.parts, layout.stock, layout.cutting)
        assert again == replace(layout, by=KEPT)
        assert faults(again) == ()
    assert layout.missing > 0, "the offcuts hold all, so that nothing shows what is left over"


def test_a_layout_that_no_longer_holds_is_refused() -> None:
    rows = to_rows(pack(TILES, BOARD, CUT, effort=0))
    wide = (replace(TILES[0], outline=box(0, 0, 104, 54)), TILES[1])
    with pytest.raises(KitError, match=r"no longer holds: tile.*; pack again"):
        restored(rows, wide, BOARD, CUT)
    with pytest.raises(KitError, match="no longer holds"):
        restored(rows, TILES, BOARD, Cutting(5, 4))
    with pytest.raises(KitError, match="wanted 3 times, but 4 lie"):
        restored(rows, (replace(TILES[0], count=3), TILES[1]), BOARD, CUT)
    more = restored(rows, (replace(TILES[0], count=6), TILES[1]), BOARD, CUT)
    assert more.left == (2, 0)


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"part": "tle"}, "lays 'tle', which is no part any more; did you mean 'tile'"),
        ({"turn": 3}, "turn number 3, of 2"),
        ({"piece": 9}, "piece 9 of the stock, which is not there"),
    ],
)
def test_a_row_that_leads_nowhere_gets_a_sentence(change: dict[str, Any], sentence: str) -> None:
    with pytest.raises(KitError, match=sentence):
        restored([replace(Row("tile", 1, 1, False, 5.0, 5.0), **change)], TILES, BOARD, CUT)
