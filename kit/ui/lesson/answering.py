"""The field into which a reader types the answer of an exercise."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

import ipywidgets as w

if TYPE_CHECKING:
    from kit.ui.lesson.exercise import Exercise


class Answering(w.VBox):
    """A field and what is said about the answer in it; Enter or the button judges."""

    def __init__(self, exercise: Exercise) -> None:
        self.exercise = exercise
        self.box = w.Text(
            placeholder="value with unit",
            continuous_update=False,
            tooltip="your answer: a value with its unit",
        )
        self.button = w.Button(description="Judge it", tooltip="judge the answer within its rounding")
        self.said = w.HTML()
        self.box.observe(lambda _: self.judge(), "value")
        self.button.on_click(lambda _: self.judge())
        super().__init__([w.HBox([self.box, self.button], _dom_classes=("fw-row",)), self.said])
        self.add_class("fw-panel")
        self.add_class("fw-answering")

    def judge(self) -> None:
        """Say whether the answer typed is right."""
        found = self.exercise.judge(self.box.value)
        kind, mark = ("fw-meets", "✓") if found.right else ("fw-fails", "✗")
        self.said.value = (
            f'<p class="{kind}" role="status"><span class="fw-mark" aria-hidden="true">{mark}</span> '
            f"{escape(found.words)}</p>"
        )
