"""A part: its panel, which saves by itself, what it takes from others, and what comes out of it."""

from __future__ import annotations

import asyncio
from functools import partial
from html import escape
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.subjects import subject
from kit.ui.idle import Action
from kit.ui.intake import Intake
from kit.ui.page.links_view import LinksView
from kit.ui.page.part_output import PartOutput
from kit.ui.page.widgets import Question
from kit.ui.panel import panel

if TYPE_CHECKING:
    from kit.ui.page.state import PageState

_REST = 0.8  # seconds without a change after which it is saved


class PartView(w.VBox):
    """A part of the open job."""

    def __init__(self, page: PageState, part_id: str) -> None:
        self.page, self.part = page, part_id
        self.title = page.job.parts[part_id].title or part_id
        self._waiting: asyncio.TimerHandle | None = None
        self._done: dict[str, None] = {}  # the names of the steps that are not saved yet
        self._stale = False  # whether the file says more than the panel shows
        self.panel = panel(job=page.job, part=part_id)
        self.panel.saving.by_itself(self._saved)
        self.panel.steps.layout.display = "none"  # the page undoes what was saved
        if self.panel.build_view:
            self.panel.build_view.files.layout.display = "none"  # the page writes them, and links to them
        self.panel.changed.append(self._changed)
        self.links = LinksView(page, part_id, self._again)
        self.output = PartOutput(page, part_id, self.panel)
        note = page.job.parts[part_id].note
        said = [w.HTML(f'<p class="fw-note">{escape(note)}</p>')] if note else []
        self.intake = Intake(page.job, part_id, self._taken_in) if self._takes_a_scan() else None
        intake = [self.intake] if self.intake else []
        self.asked = w.VBox()  # what is asked before what is not saved is lost
        super().__init__([self.asked, *said, *intake, self.panel, self.links, self.output])

    def leave(self, go: Action) -> bool:
        """Save what is not saved yet; return whether all is, else ask, and `go` only on a yes."""
        saving = self.panel.saving
        if saving.pending:
            self.store()
        refused, rest = self.panel.refused, saving.pending
        if not refused and not rest:
            return True
        if refused:
            text = f"{', '.join(refused)} cannot be read, so it cannot be saved."
            label = "Save the rest and leave" if rest else "Leave without it"
        else:
            text = f"{', '.join(rest)} could not be saved; the reason stands below the controls."
            label = "Leave without it"
        question = Question(text, label, partial(self._leave, go, rest_first=bool(refused)), no="Stay here")
        self.asked.children = (question,)
        return False

    def store(self) -> None:
        """Save what was changed; what was changed by hand meanwhile is asked about below the controls."""
        if self._waiting is not None:
            self._waiting.cancel()
            self._waiting = None
        if self.page.history:
            self.page.history.meet()
        self.panel.saving.store()

    # -- inside ---------------------------------------------------------------------------------------

    def _leave(self, go: Action, *, rest_first: bool) -> None:
        """Go; first save what can be read, and ask again where that fails."""
        if rest_first and self.panel.saving.pending:
            self.panel.saving.store(but_refused=True)
            if self.panel.saving.pending:
                text = "The rest could not be saved; the reason stands below the controls."
                self.asked.children = (Question(text, "Leave without it", go, no="Stay here"),)
                return
        go()

    def _changed(self) -> None:
        """Save soon: a control that moves is one change."""
        self._done |= dict.fromkeys(filter(None, [self.panel.steps.trail.undoes]))
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:  # no loop, no user who moves anything
            self.store()
            return
        if self._waiting is not None:
            self._waiting.cancel()
        self._waiting = loop.call_later(_REST, self.store)

    def _saved(self, names: list[str]) -> None:
        if names:
            done = self._done or map(self.panel.model.called, names)
            self.page.stored(f"{', '.join(done)} in {self.title}", self.part)
        self._done.clear()
        if self._stale:
            self._reread()

    def _takes_a_scan(self) -> bool:
        return subject(self.panel.model.name).intake is not None

    def _taken_in(self) -> None:
        """Show the panel of what a step of the intake saved."""
        if self.intake:
            self.page.stored(f"{self.intake.taken.done} in {self.title}", self.part)
        self._reread()

    def _reread(self) -> None:
        """Read the file again, once nothing stands in the panel that would be lost by it."""
        self._stale = self.panel.saving.pending != () or self.panel.refused != ()
        if not self._stale:
            self.panel.saving.reread()

    def _again(self) -> None:
        self.page.show_part(self.part)
