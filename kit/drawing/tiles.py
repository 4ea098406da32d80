"""Which sheets a drawing takes: a grid of overlapping windows, without those on which no line is drawn.

Neighboring windows share the overlap. Its middle is where the upper sheet is trimmed, so the grid's cells, which
part the plane without gap or overlap, are what one sees of each sheet in the end. A sheet is left out when no line
crosses its cell: every point of a line is then on paper, at least half an overlap from the edge of its sheet.
"""

from collections.abc import Iterable, Iterator
from itertools import pairwise
from math import acos, ceil, cos, floor, isfinite, pi, sin
from typing import NamedTuple

from kit.core.errors import KitError
from kit.drawing.marks import Box, Curve, Label, Mark, extent, label_corners
from kit.drawing.paper import PaperPlan, Sheet
from kit.drawing.primitives import Point

MOST_SHEETS = 400
"""More than anyone would tape together."""
SPARE = 1.0  # kept free around the drawing, mm: half a line's width and a hair
CHORD = 0.05  # how far an arc may stray from the chords that stand for it here, mm

Cell = tuple[int, int]
"""Row from the top and column from the left, both from 0."""


class Grid(NamedTuple):
    """Windows of one size over a drawing (its mm, y up): `left` and `top` of the first, `step` to the next."""

    sheet: Sheet
    left: float
    top: float
    step: tuple[float, float]
    overlap: float
    columns: int
    rows: int

    def window(self, cell: Cell) -> Box:
        """Return what the sheet of a cell shows of the drawing."""
        left, top = self.left + cell[1] * self.step[0], self.top - cell[0] * self.step[1]
        width, height = self.sheet.window
        return Box(left, top - height, left + width, top)

    def cell(self, cell: Cell) -> Box:
        """Return what remains of a sheet after trimming along the middle of each overlap."""
        box, half = self.window(cell), self.overlap / 2
        return Box(
            box.left + half * (cell[1] > 0),
            box.bottom + half * (cell[0] < self.rows - 1),
            box.right - half * (cell[1] < self.columns - 1),
            box.top - half * (cell[0] > 0),
        )

    def at(self, x: float, y: float) -> Cell:
        """Return the cell in which a point lies, the nearest one if outside."""
        half = self.overlap / 2
        row = floor((self.top - y - half) / self.step[1])
        column = floor((x - self.left - half) / self.step[0])
        return min(max(row, 0), self.rows - 1), min(max(column, 0), self.columns - 1)


def name(cell: Cell) -> str:
    """Return the label of a sheet: the row's letters and the column's number, ``"B3"``."""
    row, letters = cell[0] + 1, ""
    while row:
        row, letter = divmod(row - 1, 26)
        letters = chr(ord("A") + letter) + letters
    return f"{letters}{cell[1] + 1}"


def neighbors(cell: Cell) -> dict[str, Cell]:
    """Return the cells to the left and right, above and below, wherever they are."""
    row, column = cell
    return {
        "left": (row, column - 1),
        "right": (row, column + 1),
        "above": (row - 1, column),
        "below": (row + 1, column),
    }


def plan_tiles(marks: list[Mark], plan: PaperPlan) -> tuple[Grid, list[Cell]]:
    """Return the grid that takes the fewest sheets, and the cells to print, row by row.

    Raises:
        KitError: nothing is drawn, or it takes more than 400 sheets.
    """
    box = drawn_box(marks)
    found = []
    for sheet in plan.sheets():
        grid = _grid(box, sheet, plan)
        found.append((grid, sorted(crossed(marks, grid))))
    # Upright comes first and stays where the other is no better.
    grid, cells = min(found, key=lambda each: (len(each[1]), each[0].rows * each[0].columns))
    if len(cells) > MOST_SHEETS:
        raise _too_many(box, plan, f"{len(cells)}")
    return grid, cells


def drawn_box(marks: list[Mark]) -> Box:
    """Return the box around everything drawn.

    Raises:
        KitError: nothing is drawn, or its size is zero both ways or not finite.
    """
    box = extent(marks)
    if box is None or (box.left == box.right and box.bottom == box.top):
        raise KitError(
            "The drawing has no extent, so there is nothing to print; draw at least one line longer than zero."
        )
    if not isfinite(box.right - box.left + box.top - box.bottom):
        raise KitError("The drawing is too large for a number; check the values it is drawn from.")
    return box


def _grid(box: Box, sheet: Sheet, plan: PaperPlan) -> Grid:
    window, needed = sheet.window, (box.right - box.left + 2 * SPARE, box.top - box.bottom + 2 * SPARE)
    step = (window[0] - plan.overlap, window[1] - plan.overlap)
    counts = [
        max(1.0, (need - plan.overlap) / one) if isfinite(need) else need
        for need, one in zip(needed, step, strict=True)
    ]
    if max(counts) > MOST_SHEETS:
        raise _too_many(box, plan, f"{max(counts):.3g} or more")
    columns, rows = (ceil(count - 1e-9) for count in counts)
    # The drawing lies in the middle of its sheets.
    left = (box.left + box.right - columns * step[0] - plan.overlap) / 2
    top = (box.bottom + box.top + rows * step[1] + plan.overlap) / 2
    return Grid(sheet, left, top, step, plan.overlap, columns, rows)


def _too_many(box: Box, plan: PaperPlan, count: str) -> KitError:
    return KitError(
        f"A drawing of {box.right - box.left:.5g} × {box.top - box.bottom:.5g} mm on paper takes {count} sheets of "
        f"{plan.name}; at most {MOST_SHEETS} are printed: take a larger paper, a roll, or a smaller scale than "
        f"{plan.scale_words}."
    )


def crossed(marks: Iterable[Mark], grid: Grid) -> set[Cell]:
    """Return the cells that a line or a word crosses; the inside of a filled outline does not count."""
    cells: set[Cell] = set()
    for mark in marks:
        points = _lines(mark)
        last = next(points)
        before = grid.at(*last)
        cells.add(before)
        for point in points:
            now = grid.at(*point)
            if now != before:
                cells.update(_between(last, point, grid, before, now))
            last, before = point, now
    return cells


def _between(p: Point, q: Point, grid: Grid, first: Cell, last: Cell) -> Iterator[Cell]:
    """Yield the cells of a straight line, each found in the middle of the piece that the cells' borders cut."""
    cuts = [0.0, 1.0]
    half = grid.overlap / 2
    for column in range(min(first[1], last[1]), max(first[1], last[1])):
        border = grid.left + half + (column + 1) * grid.step[0]
        cuts.append((border - p[0]) / (q[0] - p[0]))
    for row in range(min(first[0], last[0]), max(first[0], last[0])):
        border = grid.top - half - (row + 1) * grid.step[1]
        cuts.append((border - p[1]) / (q[1] - p[1]))
    cuts.sort()
    for a, b in pairwise(cuts):
        t = (a + b) / 2
        yield grid.at(p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]))


def _lines(mark: Mark) -> Iterator[Point]:
    """Yield the corners of straight lines that stand for a mark."""
    if isinstance(mark, Label):
        corners = label_corners(mark)
        if len(corners) == 2:
            (left, low), (right, high) = corners
            corners = ((left, low), (right, low), (right, high), (left, high))
        yield from corners
        yield corners[0]
    elif isinstance(mark, Curve):
        part = 2 * acos(max(1 - CHORD / mark.radius, 0.0)) if mark.radius > CHORD else pi / 2
        count = ceil(abs(mark.sweep) / part)
        for k in range(count + 1):
            angle = mark.start + mark.sweep * (k / max(count, 1))
            yield mark.center[0] + mark.radius * cos(angle), mark.center[1] + mark.radius * sin(angle)
    else:
        yield from mark.points
        if getattr(mark, "closed", True):
            yield mark.points[0]
