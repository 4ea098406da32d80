"""Measure what you made: a field for it, and how it compares with the prediction, which is shown only afterward."""

from __future__ import annotations

from html import escape

import ipywidgets as w

from kit.core.model import Case
from kit.core.quantity import Display
from kit.teach.measured import compare
from kit.ui.lesson.html import Shown
from kit.ui.lesson.sign_in import kept


class Measuring(w.VBox):
    """A field for a measured value with its ±, and what is said of it beside the prediction."""

    def __init__(self, case: Case, result: str, display: Display) -> None:
        self.case, self.result, self.display = case, result, display
        part = case.model.part(result)
        self.asked = f"your measured {part.meaning.split(';')[0]}"
        self.box = w.Text(
            description="Measured",
            placeholder=f"such as 100 ± 1 {display.unit_for(part.unit).text}",
            continuous_update=False,
        )
        self.box.tooltip = f"{self.asked}, with its ±"
        self.button = w.Button(description="Compare", tooltip="compare with the prediction and its uncertainty")
        self.said = w.HTML()
        self.box.observe(lambda _: self.judge(), "value")
        self.button.on_click(lambda _: self.judge())
        super().__init__(
            [w.Box([self.box, self.button], _dom_classes=("fw-row",)), self.said],
            _dom_classes=("fw-panel", "fw-measuring"),
        )

    def judge(self) -> None:
        """Compare what is typed with the prediction."""
        typed = self.box.value.strip()
        if not typed:
            return
        found = compare(self.case, self.result, typed, self.display)
        lost = kept("measure", self.case.model.name, self.asked, typed, found)
        kind, mark = ("fw-meets", "✓") if found.right else ("fw-fails", "✗")
        self.said.value = (
            f'<p class="{kind}" role="status"><span class="fw-mark" aria-hidden="true">{mark}</span> '
            f"{escape(found.words)}{lost}</p>"
        )


class Measured:
    """A task to measure as a cell shows it: in words, and with a field where a kernel is there."""

    def __init__(self, case: Case, result: str, display: Display) -> None:
        self.field = Measuring(case, result, display)

    def _ipython_display_(self) -> None:
        from IPython.display import display

        display(Shown(f'<p class="fw-ask-words">Enter {escape(self.field.asked)} with its ±.</p>', repr(self)[1:-1]))
        display(self.field)

    def __repr__(self) -> str:
        return f"<measure: {self.field.asked}>"
