"""The first page of a tiled drawing: which sheets there are, where each one lies, and how to print and join them."""

from collections.abc import Mapping

from kit.drawing.ink import Pen
from kit.drawing.layers import Layer
from kit.drawing.legend import legend_marks
from kit.drawing.marks import Box, Label, Mark, shifted
from kit.drawing.paper import FOOT, PaperPlan
from kit.drawing.primitives import TEXT
from kit.drawing.sheetmarks import HAIR, INCH, LONG_BAR, check_bar
from kit.drawing.tiles import Cell, Grid, name

# All in mm.
ROW = 4.0  # of words
WORDS = 2.0  # height of their capitals
HEAD = 4.0  # height of the title's capitals
THIN = 0.4  # width of lines on the map, as a share of that on the drawing


def assembly_map(
    pen: Pen,
    grid: Grid,
    cells: list[Cell],
    marks: list[Mark],
    box: Box,
    plan: PaperPlan,
    title: str,
    legend: tuple[list[Layer], Mapping[Layer, str]],
) -> None:
    """Draw the map in the window of a sheet: title, directions, the drawing under its sheets, and the legend."""
    width, height = grid.sheet.window
    top = FOOT + height
    pen.words((0, top - HEAD), title, height=HEAD, bold=True, room=width)
    top -= HEAD + 2.5
    for line in _directions(grid, cells, box, plan):
        top -= ROW
        pen.words((0, top), line, height=WORDS, room=width - 1.0)
    top -= 4.0
    key, key_size = legend_marks(*legend, width)
    pen.marks([shifted(mark, 0.0, FOOT + 3.0) for mark in key])
    bottom = FOOT + 4.0 + key_size[1]
    if width >= LONG_BAR > height:
        check_bar(pen, (HAIR, bottom + 3.0), grid.sheet.sides[0], hundreds=2)
        bottom += 9.0
    _map(pen, grid, cells, marks, Box(0.5, bottom, width - 0.5, top))


def _directions(grid: Grid, cells: list[Cell], box: Box, plan: PaperPlan) -> list[str]:
    """Return the lines of words above the map."""
    lying = "landscape" if grid.sheet.lying else "portrait"
    size = f"{box.right - box.left:.0f} × {box.top - box.bottom:.0f} mm"
    inches = f"{(box.right - box.left) / INCH:.1f} × {(box.top - box.bottom) / INCH:.1f} in"
    blank = grid.rows * grid.columns - len(cells)
    left_out = f"; {blank} of the {grid.rows} × {grid.columns} grid would be blank and are left out" if blank else ""
    x, y = plan.printer.factors
    if x == y == 1:
        measure = [
            "2  Measure a check bar along x and one along y, the 200 mm bar where there is one.",
            "    x: along the short side of the paper, y: along its long side. "
            "Should they be off, enter both lengths as your printer's.",
        ]
    else:
        measure = [
            f"2  Drawn {x:.4f} times as large along x, {y:.4f} times along y, to suit this printer: check the bars.",
            "    x: along the short side of the paper, y: along its long side.",
        ]
    return [
        f"{len(cells)} sheet{'s' * (len(cells) != 1)} of {plan.name} {lying} and this page{left_out}.",
        f"Drawing {size} ({inches}) on paper, overlap {plan.overlap:g} mm.",
        "1  Print at actual size (100 %), on one side only; switch off every kind of fitting to the page.",
        *measure,
        "3  Begin at the upper left. Trim each sheet at left and top, where it says so, and lay it on its neighbors.",
        "4  Crosses must meet on both sheets and lines run on across the joint; then tape.",
    ]


def _map(pen: Pen, grid: Grid, cells: list[Cell], marks: list[Mark], room: Box) -> None:
    """Draw the sheets after trimming, with names, over the reduced drawing."""
    first, last = grid.window((0, 0)), grid.window((grid.rows - 1, grid.columns - 1))
    whole = Box(first.left, last.bottom, last.right, first.top)
    wide, high = whole.right - whole.left, whole.top - whole.bottom
    reduced = min((room.right - room.left) / wide, (room.top - room.bottom) / high, 1.0)
    left = (room.left + room.right - wide * reduced) / 2
    low = room.top - high * reduced
    canvas = pen.canvas
    canvas.saveState()
    canvas.translate(left - whole.left * reduced, low - whole.bottom * reduced)
    canvas.scale(reduced, reduced)
    pen.marks(marks, thicker=THIN / reduced, words=False)
    printed = set(cells)
    for row in range(grid.rows):
        for column in range(grid.columns):
            cell = grid.cell((row, column))
            corners = (
                (cell.left, cell.bottom),
                (cell.right, cell.bottom),
                (cell.right, cell.top),
                (cell.left, cell.top),
            )
            if (row, column) in printed:
                pen.line(*corners, width=2 * HAIR / reduced, closed=True)
                tall = min(6.0, 0.25 * reduced * min(grid.step)) / reduced
                at = ((cell.left + cell.right) / 2, (cell.bottom + cell.top - tall) / 2)
                pen.words(at, name((row, column)), height=tall, anchor="middle", bold=True)
    for mark in marks:
        # Captions name the pieces; they are the only bold words of a drawing.
        if isinstance(mark, Label) and mark.bold:
            pen.words(mark.at, mark.text, height=TEXT / reduced, anchor=mark.anchor, bold=True)
    canvas.restoreState()
