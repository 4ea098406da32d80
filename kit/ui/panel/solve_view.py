"""Solving for a given: which one, what the result is to be, and what was found."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.model import in_words
from kit.sheet.mathml import mathml

if TYPE_CHECKING:
    from kit.core.model import Found
    from kit.ui.panel.state import PanelState


class Solving(w.VBox):
    """The row 'find … so that … is …'; a value found is put into the given's controls."""

    def __init__(self, panel: PanelState, first: str) -> None:
        """Begin with the result `first`, where it is one."""
        self.panel = panel
        model = panel.model
        real = [name for name, given in model.free.items() if given.kind == "real"]
        self.unknown = self._names([*model.free], real[0], "the given to find")
        first = first if first in model.results else next(iter(model.results))
        self.result = self._names([*model.results], first, "the result that is to take a value")
        self.target = w.Text(
            placeholder="value with unit",
            continuous_update=False,
            tooltip="the value that the result is to take",
        )
        self.button = w.Button(description="Solve", tooltip="find the given; the result then takes this value")
        self.outcome = w.HTML()
        self.button.on_click(lambda _: self.solve())
        words_between = [
            w.HTML("find"),
            self.unknown,
            w.HTML("so that"),
            self.result,
            w.HTML("is"),
            self.target,
        ]
        row = w.HBox([*words_between, self.button], _dom_classes=("fw-row",))
        super().__init__([row, self.outcome])
        self.add_class("fw-solving")

    @staticmethod
    def _names(names: list[str], first: str, tooltip: str) -> w.Dropdown:
        return w.Dropdown(options=[(in_words(name), name) for name in names], value=first, tooltip=tooltip)

    def solve(self) -> None:
        """Find the given and take the first value found into the panel."""
        panel, unknown = self.panel, self.unknown.value
        try:
            found = panel.case.find(unknown, self.result.value, self.target.value)
        except KitError as error:
            self.outcome.value = f'<p class="fw-fault" role="alert">{escape(str(error))}</p>'
            return
        self.outcome.value = self._told(found)
        if found.first is not None:
            panel.show_case(found.into(panel.case))

    def _told(self, found: Found) -> str:
        label = f'<p role="status">{escape(found.words(self.panel.display))}</p>'
        if found.formula is None:
            return label
        from kit.core.model import tex  # loads sympy, as finding did

        formula = f"{found.unknown.tex} = {tex(self.panel.model, found.formula)}"
        return f'{label}<p class="fw-formula">{mathml(formula)}</p>'
