"""Where a value comes from, read and entered: measured when, how, by whom, its ±, and a note."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from html import escape
from typing import Any

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.quantity import Unit, ValueOrigin, parse
from kit.core.quantity.origin import STATES

OnTold = Callable[[ValueOrigin, str | None], None]
_OF_A_LINK = '<span class="fw-note">A link brings this from where it leads; type a value to replace it.</span>'
NOT_YOURS = ("example", "default", "table")
"""The origins whose ± does not become a measurement's."""


class OriginEditor(w.VBox):
    """The fields behind a value, or a row of values; `refused` while what is entered there cannot be taken.

    `on_told` is called with the origin that a person states, and with the ± as a text: empty for none, None for the
    one that stands there. It raises KitError where that cannot be taken. `on_fault` is called when `refused` changes.
    """

    def __init__(
        self,
        about: str,
        on_told: OnTold,
        on_fault: Callable[[], None],
        *,
        how: str = "",
    ) -> None:
        self._on_told, self._on_fault, self._quiet = on_told, on_fault, False
        self._origin, self._half, self.refused = ValueOrigin("chosen"), "", False
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
        self.how.placeholder = how
        self.half = w.Text(description="±", continuous_update=False, tooltip=f"{about}: half the width of its spread")
        self.words = w.HTML()
        self.fields = (self.kind, self.day, self.how, self.by, self.half, self.note)
        for field in self.fields:
            field.observe(self._edited, "value")
        super().__init__([*self.fields, self.words], _dom_classes=("fw-origin-of",))

    def show(self, origin: ValueOrigin, half: str | None, *, usual: str = "", linked: bool = False) -> None:
        """Show an origin without calling back, with the ± as a text; that of a link is not changed here.

        `half` is empty where none is stated, and `usual` the one that is taken then; None: there can be none.
        """
        self._origin, self._half = origin, half or ""
        self._quiet = True
        self.kind.options = [(STATES[kind], kind) for kind in dict.fromkeys(("measured", "chosen", origin.kind))]
        self.kind.value = origin.kind
        self.day.value = _date(origin.measured)
        self.how.value, self.by.value, self.note.value = origin.how, origin.by, origin.note
        self.half.layout.display = "none" if half is None else ""
        self.half.value, self.half.placeholder = half or "", f"not stated; {usual} is usual" if usual else ""
        self._quiet = False
        for field in self.fields:
            field.disabled = linked
        self._say(_OF_A_LINK if linked else "", refused=False)

    def _edited(self, change: dict[str, Any]) -> None:
        if self._quiet:
            return
        owner, text = change["owner"], self.half.value.strip()
        origin, half = self._told(owner), None if text == self._half else text
        becomes_yours = self._origin.kind in NOT_YOURS and origin.kind not in NOT_YOURS
        if half is None and becomes_yours and owner is not self.half:
            half = ""  # it says nothing of the reader's own value
        try:
            self._on_told(origin, half)
        except KitError as error:
            self._say(f'<span class="fw-fault" role="alert">{escape(str(error))}</span>', refused=True)
        else:
            self._say("", refused=False)

    def _say(self, words: str, *, refused: bool) -> None:
        changed, self.refused, self.words.value = refused != self.refused, refused, words
        if changed:
            self._on_fault()

    def _told(self, edited: w.Widget) -> ValueOrigin:
        """Return what the fields say: a date, a method or a name makes it a measurement, another origin clears them."""
        before, note, kind = self._origin, self.note.value.strip(), self.kind.value
        if edited is self.kind:
            return ValueOrigin(kind, note=note)
        day = self.day.value.isoformat() if self.day.value else ""
        told = {"measured": day, "how": self.how.value.strip(), "by": self.by.value.strip(), "note": note}
        new = _only_new(told, before)
        entered = edited in (self.day, self.how, self.by)
        if edited is self.half and before.kind in NOT_YOURS:  # what was entered before it waited for this ±
            entered = any(new[key] for key in ("measured", "how", "by"))
        if entered and before.kind != "measured":
            return ValueOrigin("measured", **(new if before.kind == "example" else told))
        if edited is self.half and before.kind in NOT_YOURS:
            return ValueOrigin("measured" if kind == "measured" else "chosen", note=note)
        return replace(before, kind="chosen" if before.kind == "default" else before.kind, **told)


def half_width(text: str, of: Unit) -> float:
    """Return a ± as it is typed, in base units. Raises KitError where it is none."""
    try:
        half = parse(f"0 ± {text}", of).half_base
    except KitError:
        half = None
    if half is None:
        raise KitError(f"the ± is {text!r}; write half the width of the spread, such as '{f'0.2 {of.text}'.strip()}'")
    return half


def _only_new(told: dict[str, str], before: ValueOrigin) -> dict[str, str]:
    """Leave out what is the example's."""
    known = before.record()
    return {key: "" if text == known[key] and key != "note" else text for key, text in told.items()}


def _date(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None
