"""What a panel offers to look round its design; it is made when it is first opened."""

from __future__ import annotations

from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.model.grid import axes_of

if TYPE_CHECKING:
    from kit.ui.explore.map_view import MapView
    from kit.ui.panel.state import PanelState

TITLE = "The room round this design"


class Room(w.Accordion):
    """The map of a panel, folded away until it is wanted. A model with fewer than two axes has none."""

    def __init__(self, panel: PanelState) -> None:
        self._panel = panel
        self.map: MapView | None = None
        self._slot = w.VBox()
        super().__init__([self._slot], titles=[TITLE], selected_index=None)
        if len(axes_of(panel.case)) < 2:
            self.layout.display = "none"
        self.observe(lambda _: self.refresh(), "selected_index")

    def refresh(self) -> None:
        """Draw the map of the panel's case if it is open; a closed one waits until somebody looks."""
        if self.selected_index is None:
            return
        if self.map is None:
            from kit.ui.explore.map_view import MapView

            self.map = MapView(self._panel)
            self._slot.children = (self.map,)
        self.map.refresh()
