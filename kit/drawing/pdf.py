"""A scene on paper at true size: sheets to be joined, or one page for a roll plotter.

The drawing is written once, as a form that every sheet shows through a window of its own. So what two sheets share
is the same on both, to the last digit and dash.
"""

from collections.abc import Callable, Iterable
from dataclasses import replace
from hashlib import sha256
from io import BytesIO

from kit.core.errors import KitError
from kit.core.version import __version__
from kit.drawing.ink import POINTS, Pen, finished, new_canvas
from kit.drawing.legend import used_layers
from kit.drawing.marks import Box
from kit.drawing.page import Page, Rows, lay_out, measure
from kit.drawing.paper import FOOT, LEAST, LONGEST, SIDE, PaperPlan, Sheet
from kit.drawing.remarks import remarks
from kit.drawing.scene import Scene
from kit.drawing.sheetmarks import CROSS_FORM, SMALL, TitleBlock, check_bars, cross, joins, lines_of, title_block
from kit.drawing.tiles import SPARE, drawn_box, name, plan_tiles
from kit.drawing.tiling_plan import assembly_map

DRAWING, BARS = "drawing", "bars"  # forms
ONE = "one page: print at actual size (100 %)"


def pdf(scene: Scene, plan: PaperPlan | None = None, title: TitleBlock | None = None) -> bytes:
    """Return a scene as PDF at the plan's scale: one page on a roll or where one sheet holds it, else a map and sheets.

    The same scene, plan and title give the same bytes.

    Raises:
        KitError: nothing is drawn, it takes more than 400 sheets, or it is wider than the roll.
    """
    plan, title = plan or PaperPlan(), title or TitleBlock()
    writer = _Writer(scene, plan, title)
    if plan.roll is not None:
        return writer.roll()
    return writer.one_sheet() or writer.sheets()


def fitted(scene: Scene, plan: PaperPlan, scales: Iterable[float]) -> PaperPlan:
    """Return the plan at the first of `scales` [paper mm per model mm] at which one sheet holds the scene, or the last.

    Raises:
        KitError: nothing is drawn.
    """
    for scale in scales:
        plan = replace(plan, scale=scale)
        if _on_one_sheet(scene, plan, measure(scene, scale)) is not None:
            break
    return plan


def _on_one_sheet(scene: Scene, plan: PaperPlan, measured: Rows) -> tuple[Sheet, Page] | None:
    """Return the sheet on which scene and legend fit, and both laid out on it."""
    for sheet in plan.sheets():
        across, up = sheet.window
        page = lay_out(scene, across - 2 * SPARE, 0.0, legend=True, scale=plan.scale, measured=measured)
        box = drawn_box(page.marks)
        if max(box.right - box.left - across, box.top - box.bottom - up) + 2 * SPARE <= 0:
            return sheet, page
    return None


class _Writer:
    """A PDF on its way: the laid-out drawing, the canvas and what every page states."""

    def __init__(self, scene: Scene, plan: PaperPlan, title: TitleBlock) -> None:
        self.scene, self.plan, self.title = scene, plan, title
        self.rows = measure(scene, plan.scale)
        self.page = lay_out(scene, 0.0, 0.0, legend=False, scale=plan.scale, measured=self.rows)
        self.box = drawn_box(self.page.marks)
        if plan.roll is not None:
            self.page = lay_out(scene, self.page.width, 0.0, legend=True, scale=plan.scale, measured=self.rows)
        self.digest = title.digest or sha256(repr(self.page.marks).encode()).hexdigest()[:12]
        self.stream = BytesIO()
        self.canvas = new_canvas(self.stream, title=scene.title, subject=scene.alt, creator=f"Fitwright {__version__}")
        self.pen = Pen(self.canvas)

    def one_sheet(self) -> bytes:
        """Return the one page that shows drawing and legend; nothing where they do not fit on a sheet."""
        found = _on_one_sheet(self.scene, self.plan, self.rows)
        if found is None:
            return b""
        sheet, self.page = found
        box = drawn_box(self.page.marks)
        across, up = sheet.window
        x, y = (across - box.left - box.right) / 2, (up - box.bottom - box.top) / 2
        return self._whole(sheet, x, y, ONE)

    def sheets(self) -> bytes:
        """Return the map and the sheets."""
        grid, cells = plan_tiles(self.page.marks, self.plan)
        sheet, printed = grid.sheet, set(cells)
        reach = self.plan.overlap
        self._form(DRAWING, Box(0, 0, self.page.width, self.page.height), lambda: self.pen.marks(self.page.marks))
        self._form(BARS, Box(0, 0, *sheet.room), lambda: check_bars(self.pen, sheet))
        self._form(CROSS_FORM, Box(-reach, -reach, reach, reach), lambda: cross(self.pen, reach))
        self._begin(sheet, "Map")
        legend = used_layers(self.scene), self.scene.words
        assembly_map(self.pen, grid, cells, self.page.marks, self.box, self.plan, self.scene.title, legend)
        check_bars(self.pen, sheet, long=True)
        self._end(sheet, "Map", f"map of {len(cells)} sheet{'s' * (len(cells) != 1)}")
        for number, cell in enumerate(cells, 1):
            self._begin(sheet, name(cell))
            self._through_window(sheet, grid.window(cell))
            joins(self.pen, grid, cell, printed)
            self.canvas.restoreState()
            self.pen.form(BARS)
            self._end(sheet, name(cell), f"sheet {number} of {len(cells)}")
        return self._bytes()

    def roll(self) -> bytes:
        """Return one page across the roll, as long as the drawing needs, whichever way round takes less."""
        return self._whole(self._roll_sheet(), 0.0, 0.0, "one page")

    def _whole(self, sheet: Sheet, x: float, y: float, count: str) -> bytes:
        """Return one page with the drawing moved by (x, y) in its window."""
        self._begin(sheet, "")
        self.canvas.saveState()
        self.canvas.translate(x, FOOT + y)
        self.pen.marks(self.page.marks)
        self.canvas.restoreState()
        check_bars(self.pen, sheet, long=True)
        self._end(sheet, "", count)
        return self._bytes()

    def _roll_sheet(self) -> Sheet:
        across, up = max(self.page.width, LEAST[0]), max(self.page.height, LEAST[1])
        fit = [sheet for sheet in self.plan.sheets() if across <= sheet.window[0] and up <= sheet.window[1]]
        if not fit:
            raise KitError(
                f"The drawing takes {self.page.width:.0f} × {self.page.height:.0f} mm with margins; it does not fit "
                f"on a roll {self.plan.roll:g} mm wide in a page of at most {LONGEST:g} mm, with {SIDE:g} and "
                f"{FOOT:g} mm for check bars and title: take a wider roll, sheets, or a smaller scale."
            )
        # Cut along the feed; across the roll the page is the roll.
        cut = [
            sheet.cut_to(across, sheet.window[1]) if sheet.lying else sheet.cut_to(sheet.window[0], up) for sheet in fit
        ]
        return min(cut, key=lambda sheet: sheet.width * sheet.height)

    def _form(self, name: str, box: Box, draw: Callable[[], None]) -> None:
        self.canvas.beginForm(name, *box)
        draw()
        self.canvas.endForm()

    def _begin(self, sheet: Sheet, label: str) -> None:
        """Begin a page whose unit is one millimeter as printed, from the corner of the margins."""
        canvas = self.canvas
        canvas.setPageSize((sheet.width * POINTS, sheet.height * POINTS))
        canvas.addPageLabel(canvas.getPageNumber() - 1, prefix=label)
        canvas.translate(sheet.margin * POINTS, sheet.margin * POINTS)
        canvas.scale(sheet.stretch_x * POINTS, sheet.stretch_y * POINTS)

    def _through_window(self, sheet: Sheet, shown: Box) -> None:
        """Draw what a window shows of the drawing, and leave the canvas in the drawing's mm."""
        canvas = self.canvas
        canvas.saveState()
        clip = canvas.beginPath()
        clip.rect(0, FOOT, *sheet.window)
        canvas.clipPath(clip, stroke=0, fill=0)
        canvas.translate(-shown.left, FOOT - shown.bottom)
        canvas.doForm(DRAWING)

    def _end(self, sheet: Sheet, label: str, count: str) -> None:
        lines = lines_of(self.title, self.plan, self.digest, count)
        title_block(self.pen, sheet, label, self.scene.title, lines)
        for row, remark in enumerate(remarks()):
            at = (1.0, FOOT + 1.0 + 1.6 * SMALL * row)
            self.pen.words(at, remark, height=SMALL, bold=True, room=sheet.window[0] - 2)
        self.canvas.showPage()

    def _bytes(self) -> bytes:
        finished(self.canvas)
        return self.stream.getvalue()
