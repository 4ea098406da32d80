"""Layouts by seed: sound by an independent check, the same twice, stopped when asked, exact where it must be."""

from dataclasses import replace
from math import pi

import numpy as np
import pytest
import shapely
from shapely import Polygon, affinity, box

from kit.core.errors import KitError
from kit.geometry.packing.pack import pack
from kit.geometry.packing.roll import nest
from kit.geometry.packing.stock import (
    ONE_WAY,
    TWO_WAY,
    CutPart,
    Cutting,
    Layout,
    Roll,
    Sheet,
    any_of,
    board,
    each,
)
from tests.geometry.packing.orders import garment, offcuts

ROLL = Roll("cloth", 1500)
HOURS = 1e4  # s: never over in a test, so that nothing depends on how fast it is


def sound(layout: Layout) -> None:
    """Judge by areas alone: grown by half the kerf, parts share no area and none is lost outside of the stock."""
    half = layout.cutting.kerf / 2 - 1e-6
    for number in {p.sheet for p in layout.placed}:
        here = [q for p, q in zip(layout.placed, layout.polygons, strict=True) if p.sheet == number]
        wide = [q.buffer(half) if half > 0 else q for q in here]
        assert shapely.union_all(wide).area == pytest.approx(sum(q.area for q in wide), rel=1e-6)
        if isinstance(layout.stock, Roll):
            stock = box(0, 0, layout.length, layout.stock.width)
            bad = list(layout.stock.defects)
        else:
            sheet = each(layout.stock)[number]
            stock, bad = sheet.outline, list(sheet.defects)
        inside = shapely.union_all(here)
        assert inside.difference(stock).area < 1e-3
        assert all(inside.intersection(defect).area < 1e-3 for defect in bad)
        edge = min(inside.distance(stock.boundary), *(inside.distance(defect) for defect in bad), np.inf)
        assert edge >= layout.cutting.margin - 1e-5


@pytest.mark.parametrize(("kerf", "margin"), [(0.0, 0.0), (3.2, 10.0)])
def test_a_roll_is_laid_soundly_and_the_effort_pays(kerf: float, margin: float) -> None:
    parts, cutting = garment(2, 24), Cutting(margin, kerf)
    first = pack(parts, ROLL, cutting, effort=0)
    better = pack(parts, ROLL, cutting, effort=400)
    for layout in (first, better):
        sound(layout)
        assert layout.missing == 0
        assert len(layout.placed) == 24
        assert layout.length >= sum(p.outline.area * p.count for p in parts) / 1500
    assert better.length < first.length


def test_offcuts_with_holes_and_defects_are_laid_soundly() -> None:
    parts = garment(4, 30, turns=any_of(4), scale=0.4)
    stock = offcuts(4, sum(part.outline.area * part.count for part in parts) / 0.8)
    stain = affinity.translate(box(0, 0, 60, 40), *np.asarray(stock[0].outline.representative_point().coords[0]))
    stock = (replace(stock[0], defects=(stain,)), *stock[1:])
    first = pack(parts, stock, Cutting(4, 3), effort=0)
    better = pack(parts, stock, Cutting(4, 3), effort=100)
    sound(first)
    sound(better)
    assert better.area > first.area
    assert better.missing == 30 - len(better.placed)


def test_a_defect_of_a_roll_is_gone_round() -> None:
    parts = garment(3, 10)
    stain = box(100, 200, 400, 700)
    sound(pack(parts, Roll("cloth", 1500, (stain,)), Cutting(5, 2), effort=0))


def test_the_same_seed_lays_the_same() -> None:
    parts = garment(7, 20)
    one, two = (pack(parts, ROLL, effort=1500, seed=5) for _ in range(2))
    assert one.placed == two.placed
    assert pack(parts, ROLL, effort=1500, seed=6).placed != one.placed


def test_who_watches_may_stop_and_keeps_the_best() -> None:
    parts, told = garment(2, 24), []

    def watch(share: float, words: str) -> bool:
        told.append((share, words))
        return len(told) < 12

    stopped = pack(parts, ROLL, effort=100_000, progress=watch)
    sound(stopped)
    assert len(told) < 15
    assert all(0 <= share <= 1 and words for share, words in told)
    assert [share for share, _ in told] == sorted(share for share, _ in told)
    assert stopped.length <= pack(parts, ROLL, effort=0).length * 1.05


def test_squares_fill_a_board_to_the_last() -> None:
    layout = pack([CutPart("tile", box(0, 0, 100, 100), 12)], (board("board", 400, 300),), effort=0)
    assert layout.missing == 0
    assert layout.density == pytest.approx(1.0)


def test_kerfs_are_counted_between_parts_and_not_at_the_edge() -> None:
    tiles = [CutPart("tile", box(0, 0, 97, 97), 12)]
    assert pack(tiles, (board("board", 4 * 97 + 3 * 4, 3 * 97 + 2 * 4),), Cutting(0, 4), effort=0).missing == 0
    tight = pack(tiles, (board("board", 4 * 97 + 3 * 4 - 1, 3 * 97 + 2 * 4),), Cutting(0, 4), effort=0)
    assert tight.missing == 3


def test_a_part_as_wide_as_the_roll_between_its_margins_fits() -> None:
    layout = pack([CutPart("wide", box(0, 0, 300, 1480), 2)], ROLL, Cutting(10, 3), effort=50)
    assert layout.length == pytest.approx(2 * 10 + 2 * 300 + 3, abs=0.01)


def test_a_hole_of_a_part_is_used() -> None:
    ring = CutPart("ring", Polygon(box(0, 0, 300, 300).exterior, [box(50, 50, 250, 250).exterior.coords]))
    plug = CutPart("plug", box(0, 0, 170, 170))
    layout = pack([ring, plug], (board("board", 300, 300),), Cutting(0, 4), effort=0)
    assert layout.missing == 0


def test_nap_keeps_parts_from_being_turned() -> None:
    wedge = Polygon([(0, 0), (400, 0), (0, 300)])
    for turns in (ONE_WAY, TWO_WAY):
        layout = pack([CutPart("wedge", wedge, 8, turns)], Roll("velvet", 620), effort=300)
        assert {p.turn for p in layout.placed} == set(turns)
        assert not any(p.over for p in layout.placed)
    pairs = pack([CutPart("wedge", wedge, 8, ONE_WAY, over=True)], Roll("canvas", 620), effort=300)
    assert {p.turn for p in pairs.placed} == {0.0}
    assert {p.over for p in pairs.placed} == {False, True}


def test_two_way_wedges_make_rectangles() -> None:
    wedge = CutPart("wedge", Polygon([(0, 0), (400, 0), (0, 300)]), 8, TWO_WAY)
    layout = pack([wedge], Roll("canvas", 640), effort=600)
    assert layout.length < 900  # four rectangles 400 × 300, two and two: 800 mm


def test_a_second_board_is_begun_only_when_the_first_is_full() -> None:
    parts = [CutPart("shelf", box(0, 0, 500, 200), 9, TWO_WAY)]
    layout = pack(parts, (Sheet("scrap", box(0, 0, 520, 420)), board("board", 1040, 640, 3)), effort=100)
    assert layout.sheets_used == (0, 1, 2)
    assert [sum(p.sheet == k for p in layout.placed) for k in (0, 1)] == [2, 6]


def test_a_stack_of_boards_and_many_small_parts_keep_the_grid_small() -> None:
    many = [CutPart("chip", box(0, 0, 30, 20), 150), CutPart("panel", box(0, 0, 900, 700), 1)]
    layout = pack(many, (Sheet("scrap", box(0, 0, 200, 100)), board("board", 2440, 1220, 500)), effort=0)
    sound(layout)
    assert layout.missing == 0
    assert layout.sheets_used == (0, 1)
    assert pack([CutPart("chip", box(0, 0, 8, 5), 200)], ROLL, effort=0).missing == 0


@pytest.mark.parametrize(
    ("work", "sentence"),
    [
        (lambda: pack([], ROLL), "nothing to pack"),
        (lambda: pack([CutPart("banner", box(0, 0, 400, 1600))], ROLL), "the part banner is at least 1600.0 mm across"),
        (
            lambda: pack([CutPart("table", box(0, 0, 900, 400))], (board("plank", 800, 500),)),
            "the part table is 900.0 mm by 400.0 mm as it may be turned, larger than all pieces of stock",
        ),
        (
            lambda: pack([CutPart("rail", box(0, 0, 90, 1490))], ROLL, Cutting(10, 0)),
            "less 10 mm of margin on each side; take a wider roll",
        ),
        (lambda: CutPart("flap", box(0, 0, 9, 9), 0), "the part flap is wanted 0 times"),
        (lambda: CutPart("bow", Polygon([(0, 0), (9, 9), (9, 0), (0, 9)])), "the part bow has an outline that crosses"),
        (lambda: CutPart("line", Polygon([(0, 0), (9, 9), (18, 18)])), "the part line encloses no area"),
        (lambda: CutPart("stiff", box(0, 0, 9, 9), 1, ()), "the part stiff may lie at no angle"),
        (lambda: Cutting(0, -1), "the kerf is -1 mm; give 0 mm or more"),
        (lambda: Cutting(float("nan"), 0), "the edge margin is nan mm"),
        (lambda: Roll("cloth", 0), "the cloth is 0 mm wide"),
        (lambda: Roll("roll", 0), "the roll is 0 mm wide"),
        (lambda: board("plank", 100, -5), "the board plank is 100 mm by -5 mm"),
        (lambda: Sheet("plank", box(0, 0, 9, 9), 0), "the stock plank is there 0 times"),
        (lambda: any_of(0), "turned to 0 angles"),
        (lambda: pack([CutPart("chip", box(0, 0, 9, 9))], (board("slat", 100, 30),), Cutting(15, 0)), "take all of"),
    ],
)
def test_bad_input_gets_one_sentence(work: object, sentence: str) -> None:
    with pytest.raises(KitError) as error:
        work()  # type: ignore[operator]
    assert sentence in str(error.value)
    assert "\n" not in str(error.value)


def test_the_library_lays_soundly_and_the_shorter_of_two_layouts_is_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    parts, cutting = garment(6, 20), Cutting(8, 3)
    library = nest(parts, ROLL, cutting, HOURS, 1, lambda _share, words: words.startswith("0 "))
    assert library is not None
    sound(library)
    assert library.missing == 0

    def packed(other: Layout | None) -> Layout:
        monkeypatch.setattr("kit.geometry.packing.pack.nest", lambda *_: other)
        return pack(parts, ROLL, cutting, effort=1, seconds=HOURS)

    own, both = packed(None), packed(library)
    sound(both)
    assert both.missing == 0
    assert both.length <= min(own.length, library.length + 1e-6)


def test_a_turn_is_about_the_grain() -> None:
    part = CutPart("flag", Polygon([(0, 0), (50, 0), (50, 20), (0, 10)]), over=True)
    over = part.laid(0.0, True)
    assert over.equals(Polygon([(0, 0), (50, 0), (50, -20), (0, -10)]))
    assert part.laid(pi / 2, False).bounds == pytest.approx((-20, 0, 0, 50))


@pytest.mark.parametrize("last", ["packing", "library"])
def test_a_stop_ends_the_library_at_once(last: str) -> None:
    told: list[str] = []

    def progress(_share: float, words: str) -> bool:
        told.append(words)
        return last not in words

    layout = pack(garment(6, 20), ROLL, effort=1, seconds=HOURS, progress=progress)
    assert [last in words for words in told].count(True) == 1, "it went on after it was told to stop"
    assert last in told[-1]
    sound(layout)
