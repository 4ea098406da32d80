"""A part: its panel, which saves by itself, what it takes from others, and what comes out of it."""

from __future__ import annotations

import asyncio
from html import escape
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.model import in_words
from kit.ui.page.links_view import LinksView
from kit.ui.page.part_output import PartOutput
from kit.ui.panel import panel

if TYPE_CHECKING:
    from kit.ui.page.state import PageState

_REST = 0.8  # seconds without a change after which it is saved


class PartView(w.VBox):
    """A part of the open job."""

    def __init__(self, page: PageState, part_id: str) -> None:
        self.page, self.part = page, part_id
        self._waiting: asyncio.TimerHandle | None = None
        self.panel = panel(job=page.job, part=part_id)
        self.panel.saving.by_itself(self._saved)
        self.panel.changed.append(self._changed)
        self.links = LinksView(page, part_id, self._again)
        self.output = PartOutput(page, part_id, self.panel)
        note = page.job.parts[part_id].note
        said = [w.HTML(f'<p class="fw-note">{escape(note)}</p>')] if note else []
        super().__init__([*said, self.panel, self.links, self.output])

    def leave(self) -> None:
        """Save what is not saved yet."""
        if self._waiting is not None:
            self.store()

    def store(self) -> None:
        """Save what was changed; what was changed by hand meanwhile is asked about below the controls."""
        if self._waiting is not None:
            self._waiting.cancel()
            self._waiting = None
        if self.page.history:
            self.page.history.meet()
        self.panel.saving.store()

    # -- inside ---------------------------------------------------------------------------------------

    def _changed(self) -> None:
        """Save soon: a control that moves is one change."""
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
            self.page.stored(f"{', '.join(map(in_words, names))} of {self.part}", self.part)

    def _again(self) -> None:
        self.page.show_part(self.part)
