"""What every sheet carries beside the drawing: check bars, title block, registration crosses and trim lines."""

from dataclasses import dataclass
from math import pi

from kit.core.errors import KitError
from kit.core.version import __version__
from kit.drawing.ink import Pen
from kit.drawing.paper import FOOT, SIDE, PaperPlan, Sheet
from kit.drawing.primitives import Point
from kit.drawing.tiles import Cell, Grid, name, neighbors

# All in mm.
HAIR = 0.13  # width of lines that are no part of the drawing
INCH = 25.4
SMALL = 1.8  # height of capitals in remarks
CROSS = 4.0  # longest arm of a registration cross
CROSS_FORM = "cross"
STATIONS = (1 / 6, 1 / 2, 5 / 6)  # of a trimmed edge, where its crosses stand
BAR_ROOM = 117.0  # width of the check bar with its words
LONG_BAR = 2 * 4 * INCH + 17.0  # length of the 200 mm bar with its words
LABEL = 17.0  # kept for the name of the sheet


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """What is stated on every sheet: date and design as the caller writes them, piece `piece` of `pieces`.

    `digest` tells drawings apart; where it is empty, digits are made from what is drawn.
    """

    date: str = ""
    piece: int = 1
    pieces: int = 1
    digest: str = ""
    version: str = __version__

    def __post_init__(self) -> None:
        if not 1 <= self.piece <= self.pieces:
            raise KitError(f"Piece {self.piece} of {self.pieces} does not exist; count pieces from 1.")


def check_bar(pen: Pen, at: Point, side: str, *, turned: bool = False, hundreds: int = 1) -> None:
    """Draw `hundreds` × 100 mm above `hundreds` × 4 in, from `at` to the right, or `turned` upward.

    `side` names the printer's direction, x or y.
    """
    pen.canvas.saveState()
    pen.canvas.translate(*at)
    if turned:
        pen.canvas.rotate(90)
    ends = (100.0 * hundreds, 4 * INCH * hundreds)
    for up, end, tick, count in ((1, ends[0], 10.0, 10 * hundreds), (-1, ends[1], INCH / 4, 16 * hundreds)):
        y = 0.5 * up
        pen.line((0, y), (end, y), width=2 * HAIR)
        for k in range(count + 1):
            long = 2.2 if k in (0, count) else 1.5 if k % (count // 2 if up > 0 else 4) == 0 else 0.9
            pen.line((k * tick, y), (k * tick, y + long * up), width=HAIR)
    edge = ends[1] + 1.5
    pen.words((edge, 0.7), f"{ends[0]:.0f} mm {side}", height=SMALL)
    pen.words((edge, -0.7 - SMALL), f"{4 * hundreds} in {side}", height=SMALL)
    pen.canvas.restoreState()


def check_bars(pen: Pen, sheet: Sheet, *, long: bool = False) -> None:
    """Draw the check bars below and beside the window; the latter is 200 mm `long` where it has room."""
    width, height = sheet.window
    x, y = sheet.sides
    pen.line((0, FOOT), (width, FOOT), (width, FOOT + height), width=HAIR)
    check_bar(pen, (HAIR, 4.0), x)
    check_bar(pen, (width + SIDE / 2, FOOT + 1.0), y, turned=True, hundreds=1 + (long and height >= LONG_BAR))


def title_block(pen: Pen, sheet: Sheet, label: str, what: str, lines: tuple[str, str]) -> None:
    """Write title, two lines of words and the name of the sheet into the strip below the window."""
    room = sheet.room[0]
    pen.words((0, FOOT - 4.2), what, bold=True, room=room - LABEL - 2)
    pen.words((room, 2.0), label, height=7.0, anchor="end", bold=True, room=LABEL)
    for line, up in zip(lines, (5.2, 1.8), strict=True):
        pen.words((BAR_ROOM, up), line, height=SMALL, room=room - BAR_ROOM - LABEL - 2)


def lines_of(title: TitleBlock, plan: PaperPlan, digest: str, count: str) -> tuple[str, str]:
    """Return the two lines of words in the title block; `count` says which sheet of how many this is."""
    scale = "full size 1:1" if plan.scale == 1 else f"scale {plan.scale_words}"
    x, y = plan.printer.factors
    compensated = "" if x == y == 1 else f"printer x × {x:.4f}, y × {y:.4f}"
    piece = f"piece {title.piece} of {title.pieces}"
    first = [scale, piece, count, title.date]
    second = [f"Fitwright {title.version}", digest, compensated]
    return " · ".join(filter(None, first)), " · ".join(filter(None, second))


def joins(pen: Pen, grid: Grid, cell: Cell, printed: set[Cell]) -> None:
    """Draw where a sheet meets its printed neighbors: trim lines and crosses in the middle of each overlap.

    In mm of the drawing, as everything inside the window. Sheets are laid from the upper left, each one trimmed
    at its left and top and put on top of those already there.
    """
    window, cut = grid.window(cell), grid.cell(cell)
    small = min(SMALL, 0.3 * grid.overlap)
    edge = grid.overlap / 4 - small / 2  # puts words in the middle of the half overlap outside the trim line
    for side, other in neighbors(cell).items():
        if other not in printed:
            continue
        trimmed = side in ("left", "above")
        upright = side in ("left", "right")
        at = {"left": cut.left, "right": cut.right, "above": cut.top, "below": cut.bottom}[side]
        low, high = (cut.bottom, cut.top) if upright else (cut.left, cut.right)
        ends = (window.bottom, window.top) if upright else (window.left, window.right)
        pen.line(_turn(at, ends[0], upright), _turn(at, ends[1], upright), width=HAIR)
        for station in STATIONS:
            pen.form(CROSS_FORM, _turn(at, low + station * (high - low), upright))
        words = (
            f"trim along this line, lay on {name(other)}" if trimmed else f"{name(other)} lies on top, up to this line"
        )
        outer = edge if side in ("right", "above") else -edge - small
        middle = low + (STATIONS[0] + STATIONS[1]) / 2 * (high - low)
        if upright:
            # Read from the right: words run upward, so that their height points to the left.
            at = at + (edge + small if side == "right" else -edge)
            pen.words((at, middle), words, height=small, anchor="middle", angle=pi / 2)
        else:
            pen.words((middle, at + outer), words, height=small, anchor="middle")


def _turn(across: float, along: float, upright: bool) -> Point:
    return (across, along) if upright else (along, across)


def cross(pen: Pen, overlap: float) -> None:
    """Draw a registration cross about the origin that stays inside the overlap."""
    arm = min(CROSS, 0.45 * overlap)
    pen.line((-arm, 0), (arm, 0), width=2 * HAIR)
    pen.line((0, -arm), (0, arm), width=2 * HAIR)
    pen.circle((0, 0), arm / 2, HAIR)
