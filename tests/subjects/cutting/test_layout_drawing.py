"""Layouts as drawings: true size, every part numbered, waste and defects hatched, a scale that fits one sheet."""

from dataclasses import replace
from math import pi
from pathlib import Path

import pytest
from pypdf import PdfReader
from shapely import Polygon, box

from kit.core.quantity import Display
from kit.drawing.export import save
from kit.drawing.layers import Layer
from kit.drawing.paper import PaperPlan
from kit.drawing.primitives import Arrow, Hatch, Polyline, Text
from kit.drawing.scene import Scene
from kit.geometry.packing.stock import TWO_WAY, CutPart, Cutting, Layout, Placed, Roll, board
from kit.subjects.cutting.layout_drawing import layout_scene, page_for, stock_used

FLAG = CutPart("flag", box(0, 0, 300, 200), 2)
RING = CutPart("ring", Polygon(box(0, 0, 200, 200).exterior, [box(50, 50, 150, 150).exterior.coords]), 1, TWO_WAY)
KNOT = box(560, 260, 590, 290)
PLACED = (
    Placed(0, 0, 0.0, False, 10, 10),
    Placed(0, 1, 0.0, False, 10, 10),
    Placed(1, 0, pi, False, 530, 220),
)
BOARDS = Layout((FLAG, RING), (board("plank", 600, 300, 3, [KNOT]),), Cutting(10, 3), PLACED, left=(0, 0))
ROLLED = tuple(replace(placed, sheet=0) for placed in PLACED[::2])
ON_ROLL = Layout((FLAG, RING), Roll("cloth", 400), Cutting(), ROLLED, left=(1, 0))
MM = Display()


def polygons(scene: Scene, layer: Layer = Layer.OUTLINE) -> list[Polygon]:
    return [Polygon(item.points) for item in scene.items if isinstance(item, Polyline) and item.layer is layer]


def test_parts_and_stock_are_drawn_at_full_size() -> None:
    areas = sorted(round(polygon.area) for polygon in polygons(layout_scene(BOARDS, MM)))
    assert areas == [
        10_000,
        40_000,
        60_000,
        60_000,
        180_000,
        180_000,
    ]  # a hole, the ring, two flags, two planks


def test_pieces_of_stock_do_not_cover_each_other() -> None:
    planks = [polygon for polygon in polygons(layout_scene(BOARDS, MM)) if polygon.area > 100_000]
    assert planks[0].distance(planks[1]) > 0


def test_every_part_has_its_number_and_grain() -> None:
    scene = layout_scene(BOARDS, MM)
    words = [item.text for item in scene.items if isinstance(item, Text)]
    assert [word[0] for word in words if "flag" in word or "ring" in word or word in "12"] == ["1", "2", "1"]
    arrows = {(round(item.angle, 3), item.both) for item in scene.items if isinstance(item, Arrow)}
    assert arrows == {(0.0, False), (round(pi, 3), True)}


def test_waste_is_hatched_and_defects_are_dark() -> None:
    scene = layout_scene(BOARDS, MM)
    hatched = sum(Polygon(item.rings[0], item.rings[1:]).area for item in scene.items if isinstance(item, Hatch))
    waste = 2 * (600 * 300 - KNOT.area) - 2 * FLAG.outline.area - RING.outline.area
    assert hatched == pytest.approx(waste, rel=1e-6)
    assert [polygon.area for polygon in polygons(scene, Layer.CONSTRUCTION)] == [KNOT.area, KNOT.area]


def test_outlines_alone_are_for_a_machine() -> None:
    scene = layout_scene(BOARDS, MM, plain=True)
    assert all(isinstance(item, Polyline) for item in scene.items)
    assert len(polygons(scene)) == 4
    assert len(polygons(scene, Layer.PHANTOM)) == 2


def test_a_roll_ends_where_its_parts_end_and_missing_parts_are_told() -> None:
    ((_, sheet, _),) = stock_used(ON_ROLL)
    assert sheet.bounds == (0, 0, 530, 400)
    assert "1 parts have no place" in layout_scene(ON_ROLL, MM).alt


@pytest.mark.parametrize("layout", [BOARDS, ON_ROLL])
def test_a_layout_is_one_page_and_fills_it(layout: Layout, tmp_path: Path) -> None:
    scene = layout_scene(layout, MM)
    plan = page_for(scene, layout, PaperPlan())
    larger = replace(plan, scale=1 / (round(1 / plan.scale) - 1))
    pages = [
        len(PdfReader(save(scene, tmp_path, "layout", ("pdf",), paper=paper)[0]).pages) for paper in (plan, larger)
    ]
    assert pages[0] == 1
    assert pages[1] > 1


def test_an_empty_layout_draws_nothing_and_does_not_fail() -> None:
    empty = Layout((FLAG,), Roll("cloth", 400), Cutting(), (), left=(2,))
    assert layout_scene(empty, MM).items == []
