"""Which sheets are printed, and that they join: grids against brute force, joints measured in the PDF itself."""

from itertools import pairwise
from math import ceil, cos, dist, hypot, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.core.errors import KitError
from kit.drawing.marks import Box, Curve, Label, Mark, Stroke
from kit.drawing.paper import FOOT, PaperPlan, PrinterScale
from kit.drawing.pdf import pdf
from kit.drawing.scene import Layer, Scene
from kit.drawing.tiles import Cell, Grid, crossed, name, plan_tiles
from tests.drawing.pattern import pattern
from tests.drawing.pdf_reading import Path, Point, dark, pages, paths, size

Points = list[tuple[float, float]]
coordinate = st.floats(0, 1500, allow_nan=False)
corners = st.lists(st.tuples(coordinate, coordinate), min_size=2, max_size=6)


def line(points: Points, *, closed: bool = False) -> list[Mark]:
    return [Stroke(Layer.OUTLINE, tuple(points), closed)]


def touches(box: Box, p: Point, q: Point, grow: float) -> bool:
    """Whether the straight line from p to q comes into a box grown by `grow`: the slab method."""
    low, high = 0.0, 1.0
    for k, (least, most) in enumerate(((box.left - grow, box.right + grow), (box.bottom - grow, box.top + grow))):
        step = q[k] - p[k]
        if step == 0:
            if not least <= p[k] <= most:
                return False
            continue
        ends = sorted(((least - p[k]) / step, (most - p[k]) / step))
        low, high = max(low, ends[0]), min(high, ends[1])
    return low <= high


def all_cells(grid: Grid) -> list[Cell]:
    return [(row, column) for row in range(grid.rows) for column in range(grid.columns)]


@pytest.mark.parametrize(
    ("cell", "label"), [((0, 0), "A1"), ((1, 2), "B3"), ((25, 9), "Z10"), ((26, 0), "AA1"), ((52, 0), "BA1")]
)
def test_rows_have_letters_and_columns_numbers(cell: Cell, label: str) -> None:
    assert name(cell) == label


@given(corners)
@settings(max_examples=60, deadline=None)
def test_sheets_are_those_whose_trimmed_part_a_line_comes_into(points: Points) -> None:
    marks = line([*points, (1500.0, 0.0), (1500.0, 0.1)])
    grid, _ = plan_tiles(marks, PaperPlan())
    cells = crossed(marks, grid)
    edges = list(pairwise(marks[0].points))  # type: ignore[union-attr]
    for cell in all_cells(grid):
        box = grid.cell(cell)
        if cell in cells:
            assert any(touches(box, p, q, 1e-6) for p, q in edges)
        else:
            assert not any(touches(box, p, q, -1e-6) for p, q in edges)


@given(corners)
@settings(max_examples=60, deadline=None)
def test_every_point_of_a_line_is_on_a_printed_sheet_clear_of_its_edge(points: Points) -> None:
    marks = line([*points, (1500.0, 0.0), (1500.0, 0.1)])
    plan = PaperPlan("Letter", overlap=12)
    grid, cells = plan_tiles(marks, plan)
    windows = [grid.window(cell) for cell in cells]
    corner = marks[0].points  # type: ignore[union-attr]
    for p, q in pairwise(corner):
        for k in range(41):
            x, y = p[0] + k / 40 * (q[0] - p[0]), p[1] + k / 40 * (q[1] - p[1])
            clear = max(min(x - w.left, w.right - x, y - w.bottom, w.top - y) for w in windows)
            # Half an overlap from an inner edge, the spare millimeter from the outermost.
            assert clear >= 1 - 1e-6


def test_cells_part_the_grid_without_gap_or_overlap() -> None:
    grid, _ = plan_tiles(line([(0, 0), (900, 700)]), PaperPlan())
    first, last = grid.window((0, 0)), grid.window((grid.rows - 1, grid.columns - 1))
    area = sum((c.right - c.left) * (c.top - c.bottom) for c in map(grid.cell, all_cells(grid)))
    assert area == pytest.approx((last.right - first.left) * (first.top - last.bottom), rel=1e-12)
    for row, column in all_cells(grid):
        if column:
            assert grid.cell((row, column)).left == pytest.approx(grid.cell((row, column - 1)).right, abs=1e-9)
            assert grid.window((row, column)).left == pytest.approx(grid.window((row, column - 1)).right - 10, abs=1e-9)
        if row:
            assert grid.cell((row, column)).top == pytest.approx(grid.cell((row - 1, column)).bottom, abs=1e-9)


def test_the_inside_of_a_filled_outline_is_left_out() -> None:
    square = [Stroke(Layer.OUTLINE, ((0, 0), (1500, 0), (1500, 1500), (0, 1500)), True, "medium")]
    grid, cells = plan_tiles(square, PaperPlan())
    # Only the rim of the grid, counted by hand: 2 rows + 2 columns less the 4 corners counted twice.
    assert len(cells) == 2 * (grid.rows + grid.columns) - 4
    disk: list[Mark] = [Curve(Layer.OUTLINE, (0, 0), 900, 0, 2 * pi, "strong")]
    grid, cells = plan_tiles(disk, PaperPlan())
    assert grid.at(0, 0) not in cells
    for k in range(720):
        assert grid.at(900 * cos(k * pi / 360), 900 * sin(k * pi / 360)) in cells


def test_words_alone_are_printed_too() -> None:
    marks = [*line([(0, 0), (0, 1000)]), Label((600, 500), "μ", "middle"), *line([(1000, 0), (1000, 1000)])]
    grid, cells = plan_tiles(marks, PaperPlan())
    assert grid.at(600, 501) in cells


@pytest.mark.parametrize(
    ("width", "height", "lying", "count"),
    [
        # A4 leaves a window of 190 × 270 upright and 277 × 183 lying; overlap 10, spare 2 × 1 mm.
        (180, 260, False, 1),
        (270, 180, True, 1),
        (270, 260, False, 2),  # two beside each other; lying, two above each other: upright stays
        (530, 340, True, 4),  # 2 × 2 lying, 3 × 2 upright
        (340, 520, False, 4),  # 2 × 2 upright, 2 × 3 lying
    ],
)
def test_the_orientation_takes_the_fewest_sheets(width: float, height: float, lying: bool, count: int) -> None:
    grid, cells = plan_tiles(line([(0, 0), (width, 0), (width, height), (0, height)], closed=True), PaperPlan())
    assert (grid.sheet.lying, len(cells)) == (lying, count)


# Joints, measured in the PDF.


def crosses(page_paths: list[Path]) -> Points:
    """The centers of registration crosses: circles of fine line, their center the mean of opposite points."""
    rings = [path for path in page_paths if path.curved and path.width == pytest.approx(0.13)]
    half = [(r.points[0], r.points[len(r.points) // 2]) for r in rings]
    return [((p[0] + q[0]) / 2, (p[1] + q[1]) / 2) for p, q in half]


def zigzag() -> Points:
    return [(k * 23.0, 350 + 340 * sin(k * 1.1)) for k in range(41)]


@pytest.mark.parametrize(
    "plan",
    [PaperPlan(), PaperPlan("Letter", overlap=25, printer=PrinterScale.measured("98.9 mm", "100.7 mm"))],
    ids=["A4", "Letter for a printer"],
)
def test_a_line_runs_on_across_every_joint(plan: PaperPlan) -> None:
    scene = Scene("Zigzag", "A zigzag over many sheets.")
    scene.polyline(zigzag())
    _, cells = plan_tiles(line(zigzag()), plan)
    read = pages(pdf(scene, plan))[1:]
    assert len(read) == len(cells)
    found = {cell: paths(page) for cell, page in zip(cells, read, strict=True)}
    rings = {cell: crosses(each) for cell, each in found.items()}
    lines = {cell: next(p.points for p in each if len(p.points) == 41) for cell, each in found.items()}
    extent = size(read[0])
    joints = 0
    for row, column in cells:
        for other, axis in (((row, column + 1), 0), ((row + 1, column), 1)):
            if other not in found:
                continue
            joints += 1
            # On the one sheet the crosses near its right or lower edge, on the other those near left or upper.
            here, there = (
                sorted(p for p in rings[cell] if (p[axis] > extent[axis] / 2) == far)
                for cell, far in (((row, column), axis == 0), (other, axis == 1))
            )
            here = [p for p in here if sum(abs(p[axis] - q[axis]) < 1e-3 for q in here) >= 3]
            there = [p for p in there if sum(abs(p[axis] - q[axis]) < 1e-3 for q in there) >= 3]
            assert len(here) == len(there) == 3
            shifts = [(b[0] - a[0], b[1] - a[1]) for a, b in zip(here, there, strict=True)]
            for shift in shifts:
                assert shift == pytest.approx(shifts[0], abs=0.01), "the crosses themselves fit"
            for p, q in zip(lines[(row, column)], lines[other], strict=True):
                assert hypot(q[0] - p[0] - shifts[0][0], q[1] - p[1] - shifts[0][1]) <= 0.01
    assert joints >= 6


def test_crosses_stand_only_where_there_is_a_neighbor() -> None:
    scene = Scene("Square", "A square of 1500 mm.")
    scene.rectangle((0, 0), (1500, 1500))
    plan = PaperPlan()
    _, cells = plan_tiles(line([(0, 0), (1500, 0), (1500, 1500), (0, 1500)], closed=True), plan)
    for cell, page in zip(cells, pages(pdf(scene, plan))[1:], strict=True):
        row, column = cell
        around = [(row, column - 1), (row, column + 1), (row - 1, column), (row + 1, column)]
        assert len(crosses(paths(page))) == 3 * sum(other in cells for other in around)


def inked(ink: list[list[bool]], across: float, down: float) -> bool:
    """Whether a dark pixel lies within one pixel of a place."""
    row, column = int(down), int(across)
    return any(any(line[column - 1 : column + 2]) for line in ink[row - 1 : row + 2])


def test_what_the_drawing_shows_is_seen_on_paper_piece_by_piece() -> None:
    """Rendered pages: ink lies where the line's own coordinates say, and all of the line is seen somewhere."""
    scene = Scene("Zigzag", "A zigzag over many sheets.")
    scene.polyline(zigzag())
    plan = PaperPlan("A3", orientation="portrait")
    samples = [
        (i, t / ceil(dist(p, q) / 5))
        for i, (p, q) in enumerate(pairwise(zigzag()))
        for t in range(ceil(dist(p, q) / 5))
    ]
    seen = set[tuple[int, float]]()
    per_mm = 4
    for page in pages(pdf(scene, plan))[1:]:
        corner = next(p.points for p in paths(page) if len(p.points) == 41)
        ink = dark(page, per_mm)
        # The window by hand: margins of 6, the title below, the check bar on the right.
        left, low, right, top = 6, 6 + FOOT, 297 - 6 - 8, 420 - 6
        for i, t in samples:
            x = corner[i][0] + t * (corner[i + 1][0] - corner[i][0])
            y = corner[i][1] + t * (corner[i + 1][1] - corner[i][1])
            if left + 0.5 < x < right - 0.5 and low + 0.5 < y < top - 0.5:
                assert inked(ink, x * per_mm, (420 - y) * per_mm), f"no ink at {x:.1f}, {y:.1f}"
                seen.add((i, t))
            elif (x < left - 0.5 or y > top + 0.5) and 1 < x < 296 and 1 < y < 419:
                assert not inked(ink, x * per_mm, (420 - y) * per_mm), "ink in the margin"
    assert seen == set(samples)


# Refusals.


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        (
            {"paper": "A6"},
            r"A6 leaves .* mm for the drawing .* take a larger paper, or a smaller margin or overlap",
        ),
        ({"overlap": 80}, r"A4 leaves 277 × 183 mm .* overlap of 80 mm at least 240 × 240 mm are needed"),
        ({"margin": 60}, r"A4 leaves .* inside margins of 60 mm"),
        ({"margin": -1}, r"margin the printer cannot reach is -1 mm; it must be between 0 and 100 mm"),
        ({"overlap": 3}, r"overlap of the sheets is 3 mm; it must be between 4 mm"),
        ({"overlap": float("nan")}, r"overlap of the sheets is nan"),
        ({"scale": float("inf")}, r"scale of the drawing is inf"),
        ({"scale": 0}, r"scale of the drawing is 0"),
        ({"roll": float("nan")}, r"roll is nan mm wide"),
        ({"roll": 90}, r"roll90 leaves"),
        ({"paper": "A44"}, r"no row 'A44'; did you mean"),
        ({"orientation": "upright"}, r"given as 'upright'; allowed are 'auto', 'portrait' and 'landscape'"),
    ],
)
def test_a_plan_that_cannot_be_is_refused(given: dict[str, object], sentence: str) -> None:
    with pytest.raises(KitError, match=sentence):
        PaperPlan(**given)  # type: ignore[arg-type]


@pytest.mark.parametrize("lengths", [("94.9 mm", "100 mm"), ("100 mm", "105.1 mm"), ("212 mm", "200 mm"), ("0", "100")])
def test_a_printer_error_beyond_five_percent_is_a_wrong_setting(lengths: tuple[str, str]) -> None:
    with pytest.raises(KitError, match="print at actual size, without fitting to the page, and measure again"):
        PrinterScale.measured(*lengths)


def test_a_printer_error_is_told_in_the_unit_in_which_it_was_typed() -> None:
    with pytest.raises(KitError, match=r"along y was measured as 3 1/2 in"):
        PrinterScale.measured("100 mm", "3.5 in")
    with pytest.raises(KitError, match="measured as nan mm"):
        PrinterScale(y=float("nan"))


def test_a_bar_measured_in_inches_counts_as_the_same_length() -> None:
    assert PrinterScale.measured("99.6 mm", "7 15/16 in") == PrinterScale(99.6, 7.9375 * 25.4)
    assert PrinterScale.measured("99.6", "201.6").factors == pytest.approx((100 / 99.6, 200 / 201.6))


@pytest.mark.parametrize("length", [0.0, 1e6, 1e300])
def test_a_drawing_of_no_or_absurd_size_is_refused_at_once(length: float) -> None:
    scene = Scene("Line", "A line.")
    scene.line((0, 0), (length, 0))
    sentence = "no extent, so there is nothing to print" if not length else "sheets of A4; at most 400 are printed"
    with pytest.raises(KitError, match=sentence):
        pdf(scene)


def test_an_empty_scene_is_refused() -> None:
    with pytest.raises(KitError, match="draw at least one line longer than zero"):
        pdf(Scene("", ""))


def test_more_than_400_sheets_are_refused_with_their_number() -> None:
    scene = Scene("Lines", "Many long lines.")
    for k in range(40):
        scene.line((0, 150 * k), (6000, 150 * k))
    with pytest.raises(KitError, match=r"6000 × 5850 mm on paper takes \d{3} sheets of A4; .* smaller scale than 1:1"):
        pdf(scene)


def test_the_demo_pattern_takes_the_sheets_counted_by_hand() -> None:
    # 914 × 732 mm with its notes: upright 6 × 3 = 18 windows of 190 × 270 with 10 mm of overlap; lying 4 × 5.
    assert len(pages(pdf(pattern()))) == 1 + 18
