"""Pinned designs: named with a reason, side by side in a table, as curves, taken back with a click."""

from __future__ import annotations

from functools import partial
from html import escape
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.model.grid import axes_of
from kit.job.pins import restored
from kit.sheet.alternatives import alternatives_table
from kit.ui.explore.printing import Printing
from kit.ui.panel.labels import labels

if TYPE_CHECKING:
    from collections.abc import Callable

    from kit.job.pins import Pin
    from kit.ui.explore.pin_board import PinBoard
    from kit.ui.panel.state import PanelState

HERE = "this design"


class PinsView(w.VBox):
    """The pinned designs beside the panel's."""

    def __init__(self, panel: PanelState, board: PinBoard) -> None:
        self.panel, self.board = panel, board
        self.name = w.Text(
            description="name", placeholder="two ribs", tooltip="name of the design to pin", continuous_update=False
        )
        self.why = w.Text(
            description="why", placeholder="stiffer, more wood", tooltip="why it is considered", continuous_update=False
        )
        self.add = w.Button(description="Pin this design", tooltip="keep the design that the panel shows")
        self.add.on_click(lambda _: self.pin())
        self.whole = w.ToggleButton(description="All givens", tooltip="show also what is alike in all designs")
        axes, results = axes_of(panel.case), list(panel.model.results)
        self.over = w.Dropdown(
            options=labels(panel.model, axes), description="over", tooltip="the given below the curves"
        )
        self.of = w.Dropdown(options=labels(panel.model, results), description="curves of", tooltip="the result")
        for each in (self.whole, self.over, self.of):
            each.observe(lambda _: self.refresh(), "value")
        self.buttons, self.table, self.curves = w.VBox(), w.HTML(), w.HTML()
        self.printing = Printing(panel, "curves of designs")
        where = "the job's file" if board.in_file else "this session only: there is no job file of your own to write to"
        head = w.HTML(
            f"<p>Pin a design to compare it with others; pins are kept in {where}, and stand on the sheet.</p>"
        )
        rows = [w.HBox(each, _dom_classes=("fw-row",)) for each in ([self.name, self.why, self.add, self.whole],)]
        self._curve_row = w.HBox([self.of, self.over], _dom_classes=("fw-row",))
        self._below = [self.buttons, self.table]
        if axes and results:
            self._below += [self._curve_row, self.curves, self.printing]
        super().__init__([head, *rows, *self._below], _dom_classes=("fw-explore", "fw-pins"))

    def refresh(self) -> None:
        """Show all pins beside the panel's case."""
        pins = self.board.all
        sound = {each.name: each.case for each in pins if each.case is not None}
        cases = {HERE: self.panel.case, **sound}
        self.buttons.children = tuple(self._row(each) for each in pins)
        whys = {each.name: each.why for each in pins}
        table = alternatives_table(
            cases, self.panel.display, whys=whys, level=self.panel.judged.level, whole=self.whole.value
        )
        self.table.value = table if pins else "<p>Nothing is pinned yet.</p>"
        self._draw()
        for each in self._below:
            if each not in (self.buttons, self.table):
                each.layout.display = "" if sound else "none"

    def sections(self) -> list[tuple[str, str]]:
        """Return the curves, where they are to be printed; the table stands on every sheet."""
        return self.printing.sections()

    def pin(self) -> None:
        """Pin what the panel shows, under the name and the reason that are typed."""
        if self._done(lambda: self.board.add(self.name.value, self.why.value), f"pinned {self.name.value.strip()}"):
            self.name.value = self.why.value = ""

    def restore(self, pin: Pin) -> None:
        """Take a pinned design into the panel."""
        assert pin.case is not None
        now, known = self.panel.case, (self.panel.start,)
        try:
            case = restored(now, pin.case, known)
        except KitError as error:
            self.printing.say(str(error), fault=True)
            return
        self.panel.show_case(case, what=f"take {pin.name}")

    def remove(self, name: str) -> None:
        """Take a pin out."""
        self._done(lambda: self.board.remove(name), f"took out {name}")

    # -- inside ---------------------------------------------------------------------------------------

    def _done(self, action: Callable[[], None], said: str) -> bool:
        try:
            action()
        except (KitError, OSError) as error:
            self.said(str(error), fault=True)
            return False
        self.refresh()
        self.said(said)
        self.panel.restate_static()
        return True

    def said(self, words: str, *, fault: bool = False) -> None:
        """Show a sentence below the pins."""
        kind = 'class="fw-fault" role="alert"' if fault else 'role="status"'
        line = w.HTML(f"<p {kind}>{escape(words)}</p>")
        self.buttons.children = (*(each for each in self.buttons.children if isinstance(each, w.HBox)), line)

    def _row(self, pin: Pin) -> w.HBox:
        take = w.Button(description=f"Take {pin.name}", tooltip=f"show {pin.name} in the panel; undo takes it back")
        take.disabled = pin.case is None
        take.on_click(lambda _: self.restore(pin))
        out = w.Button(description="Take out", tooltip=f"take the pin {pin.name} out")
        out.on_click(lambda _: partial(self.remove, pin.name)())
        words = pin.fault or pin.why
        said = w.HTML(f'<span class="{"fw-fault" if pin.fault else "fw-note"}">{escape(words)}</span>')
        return w.HBox([take, out, said], _dom_classes=("fw-row",))

    def _draw(self) -> None:
        """Draw the curves of all designs."""
        sound = {each.name: each.case for each in self.board.all if each.case is not None}
        if not sound or self.over.value is None:
            self.printing.pictures = {}
            return
        from kit.drawing.charts_svg import curves_svg

        cases = {HERE: self.panel.case, **sound}
        try:
            picture = curves_svg(cases, self.over.value, self.of.value, self.panel.display)
        except KitError as error:
            self.curves.value, self.printing.pictures = "", {}
            self.printing.say(str(error), fault=True)
            return
        self.curves.value = picture
        self.printing.pictures = {f"{self.of.value} over {self.over.value}": picture}
        self.printing.say()
