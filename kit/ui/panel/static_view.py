"""The static view of a panel: what a notebook shows where no kernel moves the panel.

A notebook keeps the static view as plain HTML before the live panel and hides it while the live one is there; without
a kernel, or in an export, the static view is what remains.
"""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from kit.sheet import sections
from kit.sheet.style import static_style

if TYPE_CHECKING:
    from kit.ui.panel.state import PanelState

_REST = 1.0  # seconds without a change after which the static view is written again

# Where the live panel is, its static view is hidden; where it is not, the place that it left empty is.
_HIDING = """<style>
.jp-OutputArea:has(.fw-live) .fw-static { display: none; }
.jp-OutputArea:has(.fw-static):not(:has(.fw-live)) .jp-OutputArea-output.jupyter-widgets { display: none; }
</style>"""


class StaticView:
    """Shows a panel with its static view, and keeps that up to date."""

    def __init__(self, panel: PanelState) -> None:
        self.panel = panel
        self._shown: Any = None
        self._waiting: asyncio.TimerHandle | None = None

    def html(self) -> str:
        """Return the static view: the worked sheet's content without its page."""
        panel = self.panel
        content = sections.static(
            panel.case,
            panel.display,
            ids=f"static{id(self)}",
            build=panel.shown_build,
            verdict=panel.judged,
            more=panel.more_of_sheet(),
        )
        return f'{_HIDING}{static_style()}<div class="fw-static fw-sheet">{content}</div>'

    def display(self, live: w.VBox) -> None:
        """Display the static view and the live panel, in that order."""
        from IPython.display import HTML, display

        self._shown = display(HTML(self.html()), display_id=True)
        display(w.VBox._repr_mimebundle_(live), raw=True)

    def refresh_soon(self) -> None:
        """Write the static view again once the controls have come to rest."""
        if self._shown is None:
            return
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:  # no loop, no user who moves anything
            return
        if self._waiting is not None:
            self._waiting.cancel()
        self._waiting = loop.call_later(_REST, self._refresh)

    def _refresh(self) -> None:
        from IPython.display import HTML

        self._waiting = None
        self._shown.update(HTML(self.html()))
