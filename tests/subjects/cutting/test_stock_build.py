"""What a job tells of parts and stock, what the layout says, and the files, read back."""

import csv
from dataclasses import replace
from pathlib import Path
from typing import Any

import ezdxf
import pytest
from PIL import Image, ImageDraw
from shapely import Polygon

from kit.core.build import BuildInput
from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.geometry.packing.check import faults
from kit.geometry.packing.stock import Layout
from kit.job import Job
from kit.job.build import build, build_input, standalone
from kit.subjects import model, subject
from kit.subjects.cutting.stock_build import TASKS, packed_by_count
from kit.subjects.cutting.stock_build import build as build_shape
from tests import ROOT
from tests.builds import build_input as case_input
from tests.builds import restated

JOB = Job.open(ROOT / "data" / "boatshed.toml")
TILE = {"name": "tile", "length": "200 mm", "width": "100 mm", "count": 6}
MM = Display()


def asked(shape: dict[str, Any], **givens: Any) -> BuildInput:
    return case_input(model("cutting.stock").at(**givens), shape, display=MM)


def test_a_page_without_a_list_lays_rectangles_of_its_area() -> None:
    found = build_shape(standalone(model("cutting.stock").at(parts=12, parts_area=1.2), MM))
    assert found.number("found_area").base == pytest.approx(1.2e6)
    assert len(found.data.placed) == 12


def test_tiles_fill_a_board_and_the_numbers_say_so() -> None:
    found = build_shape(
        asked({"parts": [TILE]}, stock="boards", width=300, length=400, kerf=0, margin=0, price_board=7)
    )
    assert found.number("pieces").base == 1
    assert found.number("found_yield").base == pytest.approx(1)
    assert found.number("found_density").base == pytest.approx(1)
    assert found.number("found_cost").base == 7
    assert found.ok


def test_offcuts_are_taken_before_a_board_is_bought() -> None:
    offcut = {
        "name": "rest",
        "outline": [["0 mm", "0 mm"], ["410 mm", "0 mm"], ["410 mm", "310 mm"], ["0 mm", "310 mm"]],
    }
    told = {"parts": [TILE], "stock": [offcut]}
    found = build_shape(asked(told, stock="boards", width=900, length=900, kerf=3, margin=0))
    shopping = {row[0]: row for row in found.rows("Shopping list").rows}
    assert shopping["rest"][2] == "1"
    assert shopping["new board"][2] == "0"
    assert shopping["new board"][5] == "0.00"


def test_what_finds_no_place_is_told_with_what_would_mend_it() -> None:
    found = build_shape(
        asked({"parts": [TILE | {"count": 7}]}, stock="boards", width=300, length=400, kerf=0, margin=0)
    )
    told = {held.name: held for held in found.checks}
    assert not told["all_placed"].ok
    assert told["all_placed"].words().startswith("6 of 7 parts have a place; to mend it, add stock")
    assert found.rows("Cut list").rows[0][-1] == "6, 1 without a place"


def test_a_roll_that_is_too_short_is_told() -> None:
    found = build_shape(asked({"parts": [TILE]}, width=300, length=500, kerf=0, margin=0, beyond=("length",)))
    held = {held.name: held for held in found.checks}["long_enough"]
    assert held.ok
    assert "400 mm of 500 mm" in held.words()
    short = build_shape(asked({"parts": [TILE | {"count": 9}]}, width=300, length=500, kerf=0, margin=0))
    assert not short.ok


@pytest.mark.parametrize(
    ("shape", "sentence"),
    [
        ({"parts": [{"name": "rail", "length": "9 mm"}]}, "number 1: width is not stated; state length and width"),
        ({"parts": [TILE, TILE]}, "two parts are called 'tile'"),
        ({"parts": [TILE | {"turns": "twoway"}]}, "did you mean 'two way'"),
        ({"parts": [TILE | {"count": 0}]}, "parts, number 1: count is 0; write a whole number from 1"),
        ({"parts": [TILE | {"over": "yes"}]}, "over is 'yes'; write true"),
        ({"parts": [TILE | {"colour": "red"}]}, "unknown input 'colour'"),
        ({"parts": ["tile"]}, "write a table such as"),
        (
            {"parts": [{"name": "x", "outline": [["0", "0"], ["9 kg", "0"], ["0", "9"]]}]},
            "parts, number 1, outline, number 2, number 1: corner: .*mass",
        ),
        ({"parts": [TILE | {"length": "2 m", "width": "1.6 m"}]}, "the part tile is at least 1600.0 mm across"),
        ({"parts": [TILE], "stock": [TILE]}, "the stock tile is stated, but the parts are cut from a roll"),
    ],
)  # fmt: skip
def test_what_cannot_be_read_gets_a_sentence(shape: dict[str, Any], sentence: str) -> None:
    with pytest.raises(KitError, match=sentence.replace("(", r"\(")):
        build_shape(asked(shape))


def unpacked(part: str) -> BuildInput:
    """Return a part of the demo without the layout that was kept."""
    return build_input(JOB, part, raw={name: it for name, it in JOB.raw_inputs(part).items() if name != "layout"})


def test_packing_by_count_is_the_same_twice_and_told_of() -> None:
    heard: list[float] = []

    def watch(share: float, words: str) -> bool:
        heard.append(share)
        return bool(words)

    asked_for = unpacked("skirt_cloth")
    quick = build_shape(asked_for)
    one, two = (
        packed_by_count(
            restated(asked_for, {**{k: v for k, v in asked_for.raw.items() if k != "takes"}, "effort": 300}), watch
        )
        for _ in range(2)
    )
    assert one.data.placed == two.data.placed
    assert one.number("length").base < quick.number("length").base
    assert len(heard) > 0


def test_what_was_packed_is_kept_and_built_again() -> None:
    asked_for = unpacked("skirt_cloth")
    packed = TASKS["Pack"](asked_for, lambda share, _words: share < 0.3)
    assert packed.ok
    assert packed.number("length").base <= build_shape(asked_for).number("length").base
    keeping = build_input(JOB, "skirt_cloth", raw={**JOB.raw_inputs("skirt_cloth"), **packed.kept})
    again = build_shape(keeping)
    assert again.data.by == "kept"
    assert again.number("length").base == pytest.approx(packed.number("length").base, abs=1e-6)
    assert packed_by_count(keeping, lambda _share, _words: True).data == again.data, "the book searches anew"


def test_a_layout_that_no_longer_holds_gives_way_with_a_word() -> None:
    asked_for = unpacked("skirt_cloth")
    kept = TASKS["Pack"](asked_for, lambda share, _words: share < 0.1).kept["layout"]
    moved = [{**row, "x": "0 mm", "y": "0 mm"} for row in kept]
    made = build_shape(build_input(JOB, "skirt_cloth", raw={**JOB.raw_inputs("skirt_cloth"), "layout": moved}))
    assert made.data.by != "kept"
    assert made.ok
    assert any(words.startswith("The layout that was kept no longer holds") for words in made.cautions)
    assert not made.kept


def test_parts_come_from_cloth_and_hood_works() -> None:
    for part, name in (("skirt_cloth", "skin front"), ("bench_boards", "top board")):
        found = build(JOB, part)
        assert found is not None
        layout: Layout = found.data
        assert name in {each.name for each in layout.parts}
        assert faults(layout) == ()


def test_what_is_proposed_is_what_the_layout_measures() -> None:
    work = subject("cutting.stock")
    assert work is not None
    assert work.propose is not None
    found = build(JOB, "skirt_cloth")
    assert found is not None
    case = model("cutting.stock").at(**{**work.propose(build_input(JOB, "skirt_cloth")), "kerf": 0, "margin": 12})
    assert case.base["roll_length"] == pytest.approx(found.number("length").base, rel=2e-3)


def test_an_offcut_is_traced_from_a_picture(tmp_path: Path) -> None:
    dots = 0.5  # per mm
    corners = [(60, 60), (360, 60), (360, 200), (210, 260), (60, 260)]  # mm from the lower left
    picture = Image.new("L", (300, 200), 255)
    pen = ImageDraw.Draw(picture)
    pen.polygon([(x * dots, 199 - y * dots) for x, y in corners], fill=20)
    pen.rectangle((450 * dots, 30, 455 * dots, 30 + 199 * dots), fill=20)  # 200 mm
    picture.save(tmp_path / "offcut.png")
    told = {
        "parts": [TILE | {"count": 1}],
        "stock": [{"name": "rest", "picture": "offcut.png", "bar": "200 mm"}],
    }
    found = build_shape(replace(asked(told, stock="boards", kerf=3, margin=0), folder=tmp_path))
    outline = found.data.stock[0].outline
    assert outline.area == pytest.approx(Polygon(corners).area, rel=0.03)
    assert Polygon(corners).buffer(4).contains(outline)
    assert found.data.sheets_used == (0,)
    with pytest.raises(KitError, match="bar is not stated"):
        build_shape(replace(asked({"parts": [{"name": "x", "picture": "offcut.png"}]}), folder=tmp_path))


def test_files_hold_the_layout_at_full_size(tmp_path: Path) -> None:
    found = build(JOB, "bench_boards")
    assert found is not None
    paths = {p.suffix: p for p in found.output("outlines").write(tmp_path, "boards", MM)}
    drawing = ezdxf.readfile(paths[".dxf"]).modelspace()
    closed = [Polygon([(v[0], v[1]) for v in line.get_points()]) for line in drawing.query("LWPOLYLINE") if line.closed]
    layout: Layout = found.data
    rings = [len(polygon.interiors) + 1 for polygon in layout.polygons]
    cut = [polygon for polygon in closed if polygon.area < 0.9e6 and polygon.area > 0]
    assert len(cut) >= sum(rings)
    area = max(polygon.area for polygon in layout.polygons)
    assert any(polygon.area == pytest.approx(area, rel=1e-6) for polygon in cut)
    page = found.output("layout").write(tmp_path, "boards", MM)
    assert {path.suffix for path in page} == {".pdf", ".svg"}
    assert all("1to" in path.name for path in page)
    table = found.output("cut_list").write(tmp_path, "boards", MM)[0]
    with table.open(encoding="utf-8") as lines:
        assert [row["Part"] for row in csv.DictReader(lines)] == [part.name for part in layout.parts]


def test_full_size_sheets_are_written_when_asked(tmp_path: Path) -> None:
    small = {"parts": [TILE | {"count": 2}], "tiled": True}
    found = build_shape(asked(small, width=300, kerf=0, margin=0))
    (path,) = found.output("tiled").write(tmp_path, "tiles", MM)
    assert "fullsize" in path.name
    assert path.read_bytes().startswith(b"%PDF")
