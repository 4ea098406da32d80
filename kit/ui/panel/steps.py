"""What was done in a panel, step by step and by name, so that it can be undone and redone."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from time import monotonic
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from kit.core.trail import Trail
from kit.job.pins import differing

if TYPE_CHECKING:
    from kit.core.model import Case
    from kit.ui.panel.state import PanelState

ONE_MOVE = 1.0  # seconds within which changes of one given are one step, as of a slider that is drawn
_LONG = 44  # characters of a step's name on a button


@dataclass(frozen=True, eq=False)
class Shown:
    """What a panel shows: its case, and what is stated beside the givens."""

    case: Case
    raw: Mapping[str, Any]
    links: Mapping[str, Any]

    def same(self, other: Shown) -> bool:
        """Whether nothing was put in the place of what another shows."""
        return self.case is other.case and self.raw is other.raw and self.links is other.links


class Steps(w.HBox):
    """The buttons that undo and redo, each with the name of its step; `named` is the name of the one under way."""

    def __init__(self, panel: PanelState) -> None:
        self.panel, self.named = panel, ""
        self.trail = Trail(Shown(panel.case, panel.raw, panel.links))
        self._when, self._going = 0.0, False
        self.undo, self.redo = w.Button(icon="undo"), w.Button(icon="repeat")
        self.undo.on_click(lambda _: self.go(-1))
        self.redo.on_click(lambda _: self.go(1))
        super().__init__([self.undo, self.redo], _dom_classes=("fw-row", "fw-steps"))
        self._write()

    def note(self) -> None:
        """Remember what the panel shows now as a step; nothing where it shows what it showed."""
        panel, last, named = self.panel, self.trail.now, self.named
        shown, self.named = Shown(panel.case, panel.raw, panel.links), ""
        if self._going or shown.same(last):
            return
        what = named or self._changed(last)
        if not what:
            return
        now = monotonic()
        self.trail.add(shown, what, instead=what == self.trail.undoes and now - self._when < ONE_MOVE)
        self._when = now
        self._write()

    def go(self, by: int) -> None:
        """Undo (-1) or redo (1) a step."""
        step = self.trail.beside(by)
        if step is None:
            return
        self.trail.go(by)
        shown, self._going = step[0], True
        try:
            self.panel.go_to(shown.case, shown.raw, shown.links)
        finally:
            self._going, self._when = False, 0.0
        self._write()

    # -- inside ---------------------------------------------------------------------------------------

    def _changed(self, last: Shown) -> str:
        """Return what differs from the last step, in words."""
        panel = self.panel
        names = list(differing({"then": last.case, "now": panel.case}))
        if not names and panel.case.typed != last.case.typed:
            then, now = last.case.typed, panel.case.typed
            names = [name for name in {**then, **now} if then.get(name) != now.get(name)]
        for before, after in ((last.raw, panel.raw), (last.links, panel.links)):
            names += [name for name in {**before, **after} if before.get(name) != after.get(name)]
        return ", ".join(map(panel.model.called, dict.fromkeys(names)))

    def _write(self) -> None:
        name_button(self.undo, "Undo", self.trail.undoes)
        name_button(self.redo, "Redo", self.trail.redoes)


def name_button(button: w.Button, verb: str, what: str) -> None:
    """Let a button say what it undoes or redoes, or that there is nothing."""
    button.disabled = not what
    button.description = f"{verb}: {_short(what)}" if what else verb
    button.tooltip = f"{verb.lower()}: {what}" if what else f"there is nothing to {verb.lower()}"


def _short(what: str) -> str:
    return what if len(what) <= _LONG else f"{what[: _LONG - 1]}…"
