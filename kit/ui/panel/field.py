"""One row of controls: what a given means, a typed entry with its unit, and a slider or a list."""

from __future__ import annotations

import math
from collections.abc import Callable
from html import escape
from typing import Any

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.model import Entry, Given, Pick, in_words
from kit.core.quantity import Display, ValueOrigin
from kit.core.tables import Table
from kit.job.written import plain
from kit.sheet.mathml import mathml
from kit.ui.panel.origin_editor import OriginEditor, half_width
from kit.ui.panel.shop_offer import ShopOffer, Shopping
from kit.ui.panel.typed import half_text

Changed = Callable[[str, str], None]
Told = Callable[[str, str, ValueOrigin], None]

_LONG = 90  # characters of an origin that are shown; its editor has them all
_FEWEST = 10  # stops of a slider in fractions of an inch
_STOPS = 400  # about as many as a slider has pixels


class Field(w.VBox):
    """The controls of one given. `on_change` is called with the given's name and the text it now has.

    `on_told` is called with its name, its text and the origin that a person states; `refused` while the text that
    stands there, or behind it, cannot be taken; `on_fault` is called when that changes behind it.
    `shop` offers a ± of the shop's record.
    """

    def __init__(
        self,
        given: Given,
        entry: Entry,
        display: Display,
        on_change: Changed,
        on_told: Told,
        on_fault: Callable[[], None],
        *,
        linked: bool = False,
        shop: Shopping | None = None,
    ) -> None:
        self.given, self._display, self._on_change = given, display, on_change
        self._shop = shop
        self.offer: ShopOffer | None = None  # made with it
        self._entry, self._on_told, self._on_fault = entry, on_told, on_fault
        self._refused = self._quiet = self._asking = False
        self._linked = linked
        self._stop: float | None = None  # where the slider stands
        self.label = w.HTML()
        self.note = w.HTML()
        self.control = self._control()
        self.box = w.Text(continuous_update=False, tooltip=f"{given.meaning}: type a value with its unit")
        self.box.observe(self._typed, "value")
        self.control.observe(self._moved, "value")
        self.outside = w.Checkbox(
            value=False,
            indent=False,
            description="outside the span, knowingly",
            tooltip=f"use {in_words(given.name)} outside the span within which the model holds",
        )
        self.outside.observe(self._again, "value")
        self.origin: OriginEditor | None = None  # made when it is first looked at
        self.opened = w.ToggleButton(tooltip=f"{given.meaning}: measured when, how and by whom, ±, note")
        self.opened.observe(lambda _: self._fold(), "value")
        line = [self.control] if given.kind == "choice" else [self.box, self.control]
        about = w.HBox([self.opened, self.note], _dom_classes=("fw-about",))
        self._rows = (self.label, w.HBox(line, _dom_classes=("fw-entry",)), about)
        super().__init__(self._rows)
        self.add_class("fw-field")
        self.add_class(f"fw-field-{given.name}")
        self.show(entry, display)

    def _control(self) -> w.Widget:
        given = self.given
        tip = f"{given.meaning}; arrow keys move it"
        if given.kind == "choice":
            return w.Dropdown(options=list(given.options), tooltip=given.meaning)
        if given.kind == "count":
            low, high = (round(end) for end in given.span)
            return w.IntSlider(min=low, max=high, value=low, readout=False, tooltip=tip)
        return w.FloatSlider(readout=False, tooltip=tip)

    def show(
        self,
        entry: Entry,
        display: Display | None = None,
        *,
        beyond: bool | None = None,
        linked: bool | None = None,
    ) -> None:
        """Show a value (and, if given, in other units, as left open or not, as linked or not) without calling back."""
        self._linked = self._linked if linked is None else linked
        self._quiet = True
        try:
            if beyond is not None:
                self.outside.value = beyond
            if display is not None:
                self._display = display
                self._rescale()
            if self.given.kind == "choice":
                self.control.value = self.given.option(entry.base)
            else:
                whole = not entry.usual  # what nobody stated is not to be read as if it were
                self.box.value = entry.show(self._display) if whole else self.given.show(entry.base, self._display)
                self._place(entry.base)
            self.say(entry)
        finally:
            self._quiet = False

    def settle(self, entry: Entry, *, linked: bool = False) -> None:
        """Take note that an entry was accepted: bring the slider to it, the text stays as typed."""
        self._quiet, self._linked = True, linked
        if self.given.kind != "choice":
            self._place(entry.base)
        self._quiet = False
        self.say(entry)

    def say(self, entry: Entry) -> None:
        """Show the span and where the value comes from."""
        self._refused, self._entry = False, entry
        span = self.given.span_text(self._display)
        assumed = f"; no unit typed, {escape(self.given.unit.text)} taken" if entry.bare else ""
        detail = entry.origin.detail if len(entry.origin.detail) <= _LONG else f"{entry.origin.detail[: _LONG - 2]} …"
        origin = "; ".join(filter(None, (detail, "± not stated, the usual one" if entry.usual else "")))
        about = " · ".join(filter(None, (span, origin)))
        self.note.value = f'<span class="fw-note">{escape(about)}{assumed}</span>'
        self.opened.description = entry.origin.state
        if self.origin is not None:
            self._show_origin(self.origin)
        if self._asking and not self.outside.value:
            self._ask(False)

    def complain(self, sentence: str, *, about_span: bool) -> None:
        """Show what is wrong with the last entry; the entry stays as it was typed."""
        self._refused = True
        self.note.value = f'<span class="fw-fault" role="alert">{escape(sentence)}</span>'
        if about_span:
            self._ask(True)

    @property
    def refused(self) -> bool:
        """Whether something that stands here cannot be taken."""
        return self._refused or (self.origin is not None and self.origin.refused)

    @property
    def beyond(self) -> bool | None:
        """Whether the span may be left, as the person said; None if the question did not come up."""
        return bool(self.outside.value) if self._asking else None

    def _ask(self, asking: bool) -> None:
        self._asking = asking
        self._lay_out()

    def _fold(self) -> None:
        if self.opened.value and self.origin is None:
            self.origin = OriginEditor(
                self.given.meaning,
                self._told,
                self._on_fault,
                how=self.given.how,
            )
            if self._shop is not None and self.given.kind == "real":
                self.offer = self._shop.offer(self.given)
            self._show_origin(self.origin)
        self._lay_out()

    def _lay_out(self) -> None:
        behind = [each for each in (self.origin, self.offer) if each is not None and self.opened.value]
        self.children = (*self._rows, *behind, *((self.outside,) if self._asking else ()))

    def _show_origin(self, editor: OriginEditor) -> None:
        if self.offer is not None:
            self.offer.show(self._display, linked=self._linked)
        entry, half, linked = self._entry, half_text(self._entry), self._linked
        if self.given.kind != "real":
            editor.show(entry.origin, None, linked=linked)
        elif entry.usual:
            editor.show(entry.origin, "", usual=half, linked=linked)
        else:
            editor.show(entry.origin, half, linked=linked)

    def _told(self, origin: ValueOrigin, half: str | None) -> None:
        if self._refused:
            raise KitError("the value above cannot be read; correct it first")
        entry = self._entry
        if half is None:
            found = None if entry.usual else entry.spread.half
        else:
            found = half_width(half, entry.given.unit) if half else None
        self._on_told(self.given.name, plain(entry, found), origin)

    # -- between box and slider -----------------------------------------------------------------------

    def _typed(self, change: dict[str, str]) -> None:
        if not self._quiet:
            self._on_change(self.given.name, change["new"])

    def _again(self, _change: dict[str, bool]) -> None:
        if not self._quiet:
            self._on_change(self.given.name, self.box.value)

    def _moved(self, change: dict[str, Any]) -> None:
        # A browser rounds a position to the slider's stops and reports that: nobody has moved anything.
        if self._quiet or (self._stop is not None and abs(change["new"] - self._stop) < self.control.step / 2):
            return
        self._stop = None if self.given.kind == "choice" else change["new"]
        text = self._text_at(change["new"])
        self._quiet = True
        self.box.value = text
        self._quiet = False
        self._on_change(self.given.name, text)

    def _text_at(self, position: float | str) -> str:
        if isinstance(position, str):
            return position
        if self.given.kind == "count":
            return f"{position:.0f}"
        shown = self._display.unit_for(self.given.unit)
        return self.given.show(shown.to_base(position), self._display)

    def _rescale(self) -> None:
        """Give the label its text and the slider the reader's unit and round steps."""
        given = self.given
        self.label.value = f'<span class="fw-name">{mathml(given.tex)} {escape(given.meaning)}</span>'
        if given.kind != "real":
            return
        shown = self._display.unit_for(given.unit)
        low, high = (shown.from_base(end) for end in given.span)
        step = self._step(high - low, shown.text)
        slider = self.control
        with slider.hold_trait_notifications():
            # round positions inside the span, so that no stop of the slider leaves it
            slider.min, slider.max, slider.step = (
                math.ceil(low / step) * step,
                math.floor(high / step) * step,
                step,
            )
            slider.value = min(max(slider.value, slider.min), slider.max)

    def _step(self, reach: float, unit: str) -> float:
        wanted = reach / _STOPS
        if unit == "in":
            steps = [1 / n for n in (128, 64, 32, 16, 8, 4, 2, 1) if n <= self._display.denominator]
            step = next((step for step in steps if step >= wanted), steps[-1])
            if step <= reach / _FEWEST:
                return step  # else a fraction is too coarse for so short a span
        decade = 10.0 ** math.floor(math.log10(wanted))
        return next(decade * factor for factor in (1, 2, 5, 10) if decade * factor >= wanted * 0.999)

    def _place(self, base: float) -> None:
        """Put the slider on its stop nearest to a value."""
        slider = self.control
        position = self._display.unit_for(self.given.unit).from_base(base) if self.given.kind == "real" else base
        stop = slider.min + round((position - slider.min) / slider.step) * slider.step
        self._stop = slider.value = min(max(stop, slider.min), slider.max)


class PickField(w.VBox):
    """The control of a pick: which row of a table fills several givens, and where that is known from.

    `on_change` is called with the pick's name and the row, `on_told` with these and the origin that a person states.
    """

    def __init__(
        self,
        pick: Pick,
        table: Table,
        value: str,
        origin: ValueOrigin,
        on_change: Changed,
        on_told: Told,
        on_fault: Callable[[], None],
    ) -> None:
        self.pick, self._table, self._on_change, self._quiet = pick, table, on_change, False
        self._origin, self._on_told, self._on_fault = origin, on_told, on_fault
        self.control = w.Dropdown(
            options=table.ids, value=table.row(value).id, tooltip=f"{pick.meaning}: a row of the table"
        )
        self.control.observe(self._chosen, "value")
        self.note = w.HTML()
        self.origin: OriginEditor | None = None  # made when it is first looked at
        self.opened = w.ToggleButton(tooltip=f"{pick.meaning}: known when, how and by whom, note")
        self.opened.observe(lambda _: self._fold(), "value")
        label = w.HTML(f'<span class="fw-name">{escape(pick.meaning)}</span>')
        about = w.HBox([self.opened, self.note], _dom_classes=("fw-about",))
        self._rows = (label, w.HBox([self.control], _dom_classes=("fw-entry",)), about)
        super().__init__(self._rows)
        self.add_class("fw-field")
        self.add_class(f"fw-field-{pick.name}")
        self.say(origin)

    def show(self, row: str, origin: ValueOrigin) -> None:
        """Show another row, by its name or another one that the table knows it by, without calling back."""
        self._quiet = True
        self.control.value = self._table.row(row).id
        self._quiet = False
        self.say(origin)

    def say(self, origin: ValueOrigin) -> None:
        """Show which givens the row fills, and where it comes from."""
        self._origin = origin
        filled = "fills " + ", ".join(in_words(name) for name in self.pick.fills)
        detail = " · ".join(filter(None, (filled, origin.detail)))
        self.note.value = f'<span class="fw-note">{escape(detail)}</span>'
        self.opened.description = origin.state
        if self.origin is not None:
            self.origin.show(origin, None)

    def complain(self, sentence: str, row: str) -> None:
        """Show what is wrong with the row chosen, and go back to `row`."""
        self.show(row, self._origin)
        self.note.value = f'<span class="fw-fault" role="alert">{escape(sentence)}</span>'

    @property
    def refused(self) -> bool:
        """Whether something is entered behind it that cannot be taken."""
        return self.origin is not None and self.origin.refused

    def _fold(self) -> None:
        if self.opened.value and self.origin is None:
            self.origin = OriginEditor(self.pick.meaning, self._told, self._on_fault)
            self.origin.show(self._origin, None)
        self.children = (*self._rows, *((self.origin,) if self.origin is not None and self.opened.value else ()))

    def _told(self, origin: ValueOrigin, _half: str | None) -> None:
        self._on_told(self.pick.name, self.control.value, origin)

    def _chosen(self, change: dict[str, str]) -> None:
        if not self._quiet:
            self._on_change(self.pick.name, change["new"])
