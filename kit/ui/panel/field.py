"""One row of controls: what a given means, a typed entry with its unit, and a slider or a list."""

from __future__ import annotations

import math
from collections.abc import Callable
from html import escape
from typing import Any

import ipywidgets as w

from kit.core.model import Entry, Given, Pick, in_words
from kit.core.quantity import Display
from kit.sheet.mathml import mathml

Changed = Callable[[str, str], None]

_STOPS = 400  # about as many as a slider has pixels


class Field(w.VBox):
    """The controls of one given. `on_change` is called with the given's name and the text it now has."""

    def __init__(self, given: Given, entry: Entry, display: Display, on_change: Changed) -> None:
        self.given, self._display, self._on_change = given, display, on_change
        self._quiet = self._asking = False
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
        line = [self.control] if given.kind == "choice" else [self.box, self.control]
        self._rows = (self.label, w.HBox(line, _dom_classes=("fw-entry",)), self.note)
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

    def show(self, entry: Entry, display: Display | None = None, *, beyond: bool | None = None) -> None:
        """Show a value (and, if given, in another reader's units, or as left open or not) without calling back."""
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
                self.box.value = entry.show(self._display)
                self._place(entry.base)
            self.say(entry)
        finally:
            self._quiet = False

    def settle(self, entry: Entry) -> None:
        """Take note that an entry was accepted: bring the slider to it, the text stays as typed."""
        self._quiet = True
        if self.given.kind != "choice":
            self._place(entry.base)
        self._quiet = False
        self.say(entry)

    def say(self, entry: Entry) -> None:
        """Show the span and where the value comes from."""
        span = self.given.span_text(self._display)
        assumed = f"; no unit typed, {escape(self.given.unit.text)} taken" if entry.bare else ""
        origin = f"{entry.origin.words}{'; ± not stated, the usual one' if entry.usual else ''}"
        self.note.value = f'<span class="fw-note">{escape(span)} · {escape(origin)}{assumed}</span>'
        if self._asking and not self.outside.value:
            self._ask(False)

    def complain(self, sentence: str, *, about_span: bool) -> None:
        """Show what is wrong with the last entry; the entry stays as it was typed."""
        self.note.value = f'<span class="fw-fault" role="alert">{escape(sentence)}</span>'
        if about_span:
            self._ask(True)

    @property
    def beyond(self) -> bool | None:
        """Whether the span may be left, as the person said; None if the question did not come up."""
        return bool(self.outside.value) if self._asking else None

    def _ask(self, asking: bool) -> None:
        self._asking = asking
        self.children = (*self._rows, self.outside) if asking else self._rows

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
            return next((step for step in steps if step >= wanted), steps[-1])
        decade = 10.0 ** math.floor(math.log10(wanted))
        return next(decade * factor for factor in (1, 2, 5, 10) if decade * factor >= wanted * 0.999)

    def _place(self, base: float) -> None:
        """Put the slider on its stop nearest to a value."""
        slider = self.control
        position = self._display.unit_for(self.given.unit).from_base(base) if self.given.kind == "real" else base
        stop = slider.min + round((position - slider.min) / slider.step) * slider.step
        self._stop = slider.value = min(max(stop, slider.min), slider.max)


class PickField(w.VBox):
    """The control of a pick: which row of a table fills several givens."""

    def __init__(self, pick: Pick, rows: tuple[str, ...], value: str, on_change: Changed) -> None:
        self.pick, self._on_change, self._quiet = pick, on_change, False
        self.control = w.Dropdown(options=rows, value=value, tooltip=f"{pick.meaning}: a row of the table")
        self.control.observe(self._chosen, "value")
        self.note = w.HTML()
        label = w.HTML(f'<span class="fw-name">{escape(pick.meaning)}</span>')
        super().__init__([label, w.HBox([self.control], _dom_classes=("fw-entry",)), self.note])
        self.add_class("fw-field")
        self.add_class(f"fw-field-{pick.name}")
        self.say()

    def show(self, row: str) -> None:
        """Show another row without calling back."""
        self._quiet = True
        self.control.value = row
        self._quiet = False

    def say(self) -> None:
        """Show which givens the row fills."""
        filled = ", ".join(in_words(name) for name in self.pick.fills)
        self.note.value = f'<span class="fw-note">fills {escape(filled)}</span>'

    def complain(self, sentence: str, row: str) -> None:
        """Show what is wrong with the row chosen, and go back to `row`."""
        self.show(row)
        self.note.value = f'<span class="fw-fault" role="alert">{escape(sentence)}</span>'

    def _chosen(self, change: dict[str, str]) -> None:
        if not self._quiet:
            self._on_change(self.pick.name, change["new"])
