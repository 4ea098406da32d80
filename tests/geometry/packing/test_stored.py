"""Layouts stated as plain data and read back: the same to the last bit, and refused where they no longer hold."""

import json
from dataclasses import replace
from typing import Any

import pytest
import tomlkit
from shapely import box

from kit.core.errors import KitError
from kit.geometry.packing.check import faults
from kit.geometry.packing.pack import pack
from kit.geometry.packing.stock import TWO_WAY, CutPart, Cutting, Roll, any_of, board
from kit.geometry.packing.stored import restored, to_data
from tests.geometry.packing.orders import garment, offcuts

TILES = (CutPart("tile", box(0, 0, 100, 50), 4, TWO_WAY, over=True), CutPart("strip", box(0, 0, 200, 20), 2))
BOARD = (board("board", 420, 300, 2),)
CUT = Cutting(5, 3)


def by_json(data: dict[str, Any]) -> Any:
    return json.loads(json.dumps(data))


def by_toml(data: dict[str, Any]) -> Any:
    return tomlkit.parse(tomlkit.dumps(data)).unwrap()


@pytest.mark.parametrize("by_way", [by_json, by_toml])
def test_what_is_told_comes_back_to_the_last_bit(by_way: Any) -> None:
    on_offcuts = garment(4, 30, turns=any_of(4), scale=0.4)
    stock = offcuts(4, sum(part.outline.area * part.count for part in on_offcuts) * 0.7)
    for layout in (
        pack(garment(2, 12), Roll("cloth", 1500), CUT, effort=0),
        pack(on_offcuts, stock, CUT, effort=0),
    ):
        again = restored(by_way(to_data(layout)), layout.parts, layout.stock, layout.cutting)
        assert again == layout
        assert faults(again) == ()
    assert layout.missing > 0, "the offcuts hold all, so that nothing shows what is left over"


def test_a_layout_that_no_longer_holds_is_refused() -> None:
    layout = pack(TILES, BOARD, CUT, effort=0)
    data = to_data(layout)
    wide = (replace(TILES[0], outline=box(0, 0, 104, 54)), TILES[1])
    with pytest.raises(KitError, match=r"no longer holds: tile.*; pack again"):
        restored(data, wide, BOARD, CUT)
    with pytest.raises(KitError, match="no longer holds"):
        restored(data, TILES, BOARD, Cutting(5, 4))
    with pytest.raises(KitError, match="wanted 3 times, but 4 lie"):
        restored(data, (replace(TILES[0], count=3), TILES[1]), BOARD, CUT)
    more = restored(data, (replace(TILES[0], count=6), TILES[1]), BOARD, CUT)
    assert more.left == (2, 0)


@pytest.mark.parametrize(
    ("row", "sentence"),
    [
        (["tle", 1, 1, False, 5.0, 5.0], "lays 'tle', which is no part; did you mean 'tile'"),
        (["tile", 1, 3, False, 5.0, 5.0], "turn number 3, of 2"),
        (["tile", 9, 1, False, 5.0, 5.0], "piece 9 of the stock, which is not there"),
        (["tile", 1, 1, 0, 5.0, 5.0], "row 1 of the stored layout is"),
        (["tile", 1.0, 1, False, 5.0, 5.0], "row 1 of the stored layout is"),
        (["tile", 1, 1, False, "5", 5.0], "row 1 of the stored layout is"),
        (["tile", 1, 1, False, float("nan"), 5.0], "row 1 of the stored layout is"),
        (["tile"], "it holds part, piece of stock"),
        ("tile", "it holds part, piece of stock"),
    ],
)
def test_rows_that_cannot_be_read_get_a_sentence(row: Any, sentence: str) -> None:
    with pytest.raises(KitError, match=sentence):
        restored({"placed": [row]}, TILES, BOARD, CUT)
    with pytest.raises(KitError, match="no list 'placed'"):
        restored({}, TILES, BOARD, CUT)
