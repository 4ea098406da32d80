"""What a panel offers to look round its design; each view is made when it is first opened."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Protocol, cast

import ipywidgets as w

from kit.core.model.grid import axes_of
from kit.ui.explore.pin_board import PinBoard

if TYPE_CHECKING:
    from kit.ui.explore.map_view import MapView
    from kit.ui.panel.state import PanelState

MAP, PINS, BEST, MATTERS = "The room round this design", "Pinned designs", "The best design", "What matters"


class View(Protocol):
    """What stands under one title."""

    def refresh(self) -> None:
        """Show the panel's case."""

    def sections(self) -> list[tuple[str, str]]:
        """Return what of it goes with the sheet: headings and HTML."""


class Room(w.Accordion):
    """The views of a panel, folded away until one is wanted. What needs two axes is left out of a model without."""

    def __init__(self, panel: PanelState) -> None:
        self._panel = panel
        self.pins = PinBoard(panel)
        makers: dict[str, Callable[[], View]] = {PINS: self._pins, BEST: self._best, MATTERS: self._matters}
        if len(axes_of(panel.case)) >= 2:
            makers = {MAP: self._map} | makers
        self._makers, self.views = makers, dict[str, View]()
        self._slots = [w.VBox() for _ in makers]
        super().__init__(self._slots, titles=tuple(makers), selected_index=None)
        self.observe(lambda _: self.refresh(), "selected_index")

    @property
    def map(self) -> MapView | None:
        """The map, if it was opened."""
        return cast("MapView | None", self.views.get(MAP))

    def unfold(self, title: str) -> View:
        """Unfold a view and return it."""
        self.selected_index = list(self._makers).index(title)
        return self.views[title]

    def refresh(self) -> None:
        """Show the panel's case in the view that is open; a closed one waits until somebody looks."""
        opened: int | None = self.selected_index
        if opened is None:
            return
        title = list(self._makers)[opened]
        if title not in self.views:
            self.views[title] = self._makers[title]()
            self._slots[opened].children = (self.views[title],)
        self.views[title].refresh()

    def sections(self) -> list[tuple[str, str]]:
        """Return what goes with the sheet: the pinned designs, and the views that are to be printed."""
        chosen = [section for view in self.views.values() for section in view.sections()]
        return [*self.pins.sections(), *chosen]

    # -- inside ---------------------------------------------------------------------------------------

    def _map(self) -> View:
        from kit.ui.explore.map_view import MapView

        return MapView(self._panel)

    def _pins(self) -> View:
        from kit.ui.explore.pins_view import PinsView

        return PinsView(self._panel, self.pins)

    def _best(self) -> View:
        from kit.ui.explore.best_view import BestView

        return BestView(self._panel)

    def _matters(self) -> View:
        from kit.ui.explore.matters_view import MattersView

        return MattersView(self._panel)
