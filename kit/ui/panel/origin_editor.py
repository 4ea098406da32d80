"""Where a value comes from, read and entered: measured when, how, by whom, its ±, and a note."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from html import escape
from typing import Any

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.model import Entry
from kit.core.quantity import ValueOrigin, parse
from kit.core.quantity.origin import STATES
from kit.job.written import plain

OnTold = Callable[[str, ValueOrigin], None]
_OF_A_LINK = '<span class="fw-note">A link brings this from where it leads; type a value to replace it.</span>'
NOT_YOURS = ("example", "default", "table")
"""The origins whose ± does not become a measurement's."""


class OriginEditor(w.VBox):
    """The fields behind one value; `on_told` is called with the value's text and the origin that it then has."""

    def __init__(self, entry: Entry, on_told: OnTold) -> None:
        self._entry, self._on_told, self._quiet = entry, on_told, False
        about = entry.given.meaning
        self.kind = w.Dropdown(description="origin", tooltip=f"{about}: where the value comes from")
        self.day = w.DatePicker(description="measured on", tooltip=f"{about}: the day on which it was measured")
        self.how, self.by, self.note = (
            w.Text(description=label, continuous_update=False, tooltip=f"{about}: {tip}")
            for label, tip in (
                ("how", "how it was measured"),
                ("by whom", "who measured it"),
                ("note", "what else is to be said of it"),
            )
        )
        self.how.placeholder = entry.given.how
        self.half = w.Text(description="±", continuous_update=False, tooltip=f"{about}: half the width of its spread")
        self.words = w.HTML()
        half = [self.half] if entry.given.kind == "real" else []
        self.fields = (self.kind, self.day, self.how, self.by, *half, self.note)
        for field in self.fields:
            field.observe(self._edited, "value")
        super().__init__([*self.fields, self.words], _dom_classes=("fw-origin-of",))

    def show(self, entry: Entry, *, linked: bool = False) -> None:
        """Show a value's origin without calling back; that of a link is not changed here."""
        self._entry, origin = entry, entry.origin
        self._quiet = True
        self.kind.options = [(STATES[kind], kind) for kind in dict.fromkeys(("measured", "chosen", origin.kind))]
        self.kind.value = origin.kind
        self.day.value = _date(origin.measured)
        self.how.value, self.by.value, self.note.value = origin.how, origin.by, origin.note
        self.half.value = "" if entry.usual else _half(entry)
        self.half.placeholder = f"not stated; {_half(entry)} is usual" if entry.usual else ""
        self._quiet = False
        for field in self.fields:
            field.disabled = linked
        self.words.value = _OF_A_LINK if linked else ""

    def _edited(self, change: dict[str, Any]) -> None:
        if self._quiet:
            return
        origin = self._told(change["owner"])
        text = self.half.value.strip()
        try:
            half = self._entry.spread.half if text == _half(self._entry) else self._typed_half(text)
        except KitError as error:
            self.words.value = f'<span class="fw-fault" role="alert">{escape(str(error))}</span>'
            return
        not_yours = self._entry.origin.kind in NOT_YOURS and change["owner"] is not self.half
        self._on_told(plain(self._entry, None if not_yours else half), origin)

    def _told(self, edited: w.Widget) -> ValueOrigin:
        """Return what the fields say: a date, a method or a name makes it a measurement, another origin clears them."""
        before, note, kind = self._entry.origin, self.note.value.strip(), self.kind.value
        if edited is self.kind:
            return ValueOrigin(kind, note=note)
        day = self.day.value.isoformat() if self.day.value else ""
        told = {"measured": day, "how": self.how.value.strip(), "by": self.by.value.strip(), "note": note}
        if edited in (self.day, self.how, self.by) and (before.kind != "measured"):
            return ValueOrigin("measured", **(told if before.kind != "example" else _only_new(told, before)))
        if edited is self.half and before.kind in NOT_YOURS:
            return ValueOrigin("chosen", note=note)
        return replace(before, kind="chosen" if before.kind == "default" else before.kind, **told)

    def _typed_half(self, text: str) -> float | None:
        return parse(f"0 ± {text}", self._entry.given.unit).half_base if text else None


def _only_new(told: dict[str, str], before: ValueOrigin) -> dict[str, str]:
    """Leave out what is the example's."""
    known = before.record()
    return {key: "" if text == known[key] and key != "note" else text for key, text in told.items()}


def _half(entry: Entry) -> str:
    """Return a value's half-width in the unit in which it is stated; empty where it has none."""
    of, half = entry.unit or entry.given.unit, entry.spread.half
    return f"{half / of.factor:.6g} {of.text}".strip() if half else ""


def _date(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None
