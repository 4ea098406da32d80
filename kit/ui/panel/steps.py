"""What was done in a panel, step by step and by name, so that it can be undone and redone."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from time import monotonic
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from kit.core.model import in_words
from kit.job.pins import differing

if TYPE_CHECKING:
    from kit.core.model import Case
    from kit.ui.panel.state import PanelState

MOST = 300
"""Steps that are kept."""
ONE_MOVE = 1.0  # seconds within which changes of one given are one step, as of a slider that is drawn
_LONG = 44  # characters of a step's name on a button


@dataclass(frozen=True)
class Step:
    """What a panel showed after a step, and what the step was."""

    case: Case
    raw: Mapping[str, Any]
    links: Mapping[str, Any]
    what: str


class Steps(w.HBox):
    """The buttons that undo and redo, each with the name of its step. `named` is the name of the step under way."""

    def __init__(self, panel: PanelState) -> None:
        self.panel, self.named = panel, ""
        self._steps = [Step(panel.case, panel.raw, panel.links, "opened")]
        self._at, self._when, self._going = 0, 0.0, False
        self.undo, self.redo = w.Button(icon="undo"), w.Button(icon="repeat")
        self.undo.on_click(lambda _: self.go(-1))
        self.redo.on_click(lambda _: self.go(1))
        super().__init__([self.undo, self.redo], _dom_classes=("fw-row", "fw-steps"))
        self._write()

    @property
    def undoes(self) -> str:
        """What the next undo takes back; nothing where there is none."""
        return self._steps[self._at].what if self._at else ""

    @property
    def redoes(self) -> str:
        """What the next redo does again; nothing where there is none."""
        return self._steps[self._at + 1].what if self._at + 1 < len(self._steps) else ""

    def note(self) -> None:
        """Remember what the panel shows now as a step; nothing where it shows what it showed."""
        panel, last, named = self.panel, self._steps[self._at], self.named
        self.named = ""
        if self._going or (panel.case is last.case and panel.raw is last.raw and panel.links is last.links):
            return
        what = named or self._changed(last)
        if not what:
            return
        now, step = monotonic(), Step(panel.case, panel.raw, panel.links, what)
        if self._at and last.what == what and now - self._when < ONE_MOVE:
            self._steps[self._at :] = [step]
        else:
            self._steps[self._at + 1 :] = [step]
            del self._steps[:-MOST]
        self._at, self._when = len(self._steps) - 1, now
        self._write()

    def go(self, by: int) -> None:
        """Undo (-1) or redo (1) a step."""
        if not 0 <= self._at + by < len(self._steps):
            return
        self._at += by
        step = self._steps[self._at]
        self._going = True
        try:
            self.panel.go_to(step.case, step.raw, step.links)
        finally:
            self._going, self._when = False, 0.0
        self._write()

    # -- inside ---------------------------------------------------------------------------------------

    def _changed(self, last: Step) -> str:
        """Return what differs from the last step, in words."""
        panel = self.panel
        names = list(differing({"then": last.case, "now": panel.case}))
        if not names and panel.case.typed != last.case.typed:
            then, now = last.case.typed, panel.case.typed
            names = [name for name in {**then, **now} if then.get(name) != now.get(name)]
        for before, after in ((last.raw, panel.raw), (last.links, panel.links)):
            names += [name for name in {**before, **after} if before.get(name) != after.get(name)]
        return ", ".join(map(in_words, dict.fromkeys(names)))

    def _write(self) -> None:
        for button, verb, what in ((self.undo, "Undo", self.undoes), (self.redo, "Redo", self.redoes)):
            button.disabled = not what
            button.description = f"{verb}: {_short(what)}" if what else verb
            button.tooltip = f"{verb.lower()}: {what}" if what else f"there is nothing to {verb.lower()}"


def _short(what: str) -> str:
    return what if len(what) <= _LONG else f"{what[: _LONG - 1]}…"
