"""Solving for a given: which one, what the result is to be, and what was found; it is taken when that is asked for."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.model import called
from kit.sheet.mathml import mathml
from kit.sheet.words import sentence
from kit.ui.panel.labels import in_labels, labels

if TYPE_CHECKING:
    from kit.core.model import Case, Found
    from kit.ui.panel.state import PanelState

SENSES = (("equal to", "="), ("at most", "<="), ("at least", ">="))


class Solving(w.VBox):
    """The row 'find … so that … is at most …', the answer, and the button that takes it into the panel."""

    def __init__(self, panel: PanelState, first: str) -> None:
        """Begin with the result `first`, where it is one."""
        self.panel = panel
        model = panel.model
        real = [name for name, given in model.free.items() if given.kind == "real"]
        self.unknown = self._names([*model.free], real[0], "the given to find")
        first = first if first in model.results else next(iter(model.results))
        self.result = self._names([*model.results], first, "the result that is to take a value")
        self.sense = w.Dropdown(
            options=SENSES, value="=", tooltip="what the result is to be", _dom_classes=("fw-short",)
        )
        self.target = w.Text(
            placeholder="value with unit",
            continuous_update=False,
            tooltip="the value that the result is to take",
        )
        self.button = w.Button(description="Solve", tooltip="find the given; nothing changes until it is taken")
        self.accept = w.Button(tooltip="put what was found into the given's controls; undo takes it back")
        self.outcome = w.HTML()
        self.button.on_click(lambda _: self.solve())
        self.accept.on_click(lambda _: self.apply())
        self._found: tuple[Case, Found] | None = None
        words_between = [
            w.HTML("find"),
            self.unknown,
            w.HTML("so that"),
            self.result,
            w.HTML("is"),
            self.sense,
            self.target,
        ]
        row = w.HBox([*words_between, self.button], _dom_classes=("fw-row",))
        super().__init__([row, self.outcome, self.accept])
        self.add_class("fw-solving")
        self._offer()

    def _names(self, names: list[str], first: str, tooltip: str) -> w.Dropdown:
        return w.Dropdown(options=labels(self.panel.model, names), value=first, tooltip=tooltip)

    def solve(self) -> None:
        """Find the given and show what was found; the panel stays as it is."""
        panel, unknown = self.panel, self.unknown.value
        self._found = None
        try:
            found = panel.case.find(unknown, self.result.value, self.target.value, self.sense.value)
        except KitError as error:
            self._refuse(error)
        else:
            self.outcome.value = self._told(found)
            if found.first is not None and found.first != panel.case.base[unknown]:
                self._found = panel.case, found
        self._offer()

    def _refuse(self, error: KitError) -> None:
        words = sentence(in_labels(self.panel.model, str(error)))
        self.outcome.value = f'<p class="fw-fault" role="alert">{escape(words)}</p>'

    def apply(self) -> None:
        """Take what was found into the panel as it is now, as one step."""
        if self._found is None:
            return
        _, found = self._found
        self._found = None
        try:
            self.panel.show_case(found.into(self.panel.case), what=f"solve for {called(found.unknown)}")
        except KitError as error:
            self._refuse(error)
        self._offer()

    def refresh(self) -> None:
        """Withdraw what was found for another design than the panel shows."""
        if self._found is not None and self._found[0] is not self.panel.case:
            self._found = None
            self.outcome.value = '<p role="status">The design has changed since; solve again.</p>'
            self._offer()

    def _offer(self) -> None:
        """Show the button that takes what was found, if there is something."""
        self.accept.layout.display = "" if self._found else "none"
        if self._found:
            found = self._found[1]
            assert found.first is not None
            self.accept.description = f"Take {found.unknown.show(found.first, self.panel.display)}"

    def _told(self, found: Found) -> str:
        label = f'<p role="status">{escape(sentence(found.words(self.panel.display, full=True)))}</p>'
        if found.formula is None:
            return label
        from kit.core.model import tex  # loads sympy, as finding did

        formula = f"{found.unknown.tex} = {tex(self.panel.model, found.formula)}"
        return f'{label}<p class="fw-formula">{mathml(formula)}</p>'
