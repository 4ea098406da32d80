"""What the whole job weighs, what is bought and cut for it, in what order it is built, shown by a button."""

from __future__ import annotations

from typing import TYPE_CHECKING

import ipywidgets as w

from kit.sheet.station_pages import station_html
from kit.ui.page.widgets import button
from kit.ui.page.working import Working

if TYPE_CHECKING:
    from kit.ui.page.state import PageState
    from kit.ui.page.working import Told


class ListsView(w.VBox):
    """A button, and below it the lists."""

    def __init__(self, page: PageState) -> None:
        self.page = page
        self.go = button("Show the lists", "what it weighs, what to buy, what to cut, in what order", self.show)
        self.working = Working([self.go], "the lists")
        super().__init__([w.HTML("<h2>Weight, lists, order of work</h2>"), self.working] if page.job.parts else [])

    def show(self) -> None:
        """Work out and show the lists."""
        self.working.start(self._listed)

    def _listed(self, told: Told) -> str:
        told(0.0, "building what is listed")
        return station_html(self.page.job)
