"""A question in a notebook: options to choose from; what is right, and why, is told by the kernel after a choice.

Until then neither the page nor the notebook's file nor the widget's state holds more than the question and its options.
"""

from __future__ import annotations

from collections.abc import Callable
from html import escape
from importlib.resources import files
from typing import Any

import anywidget
import traitlets as t

from kit.teach.question import Posed
from kit.ui.lesson.html import Shown
from kit.ui.lesson.sign_in import kept

ALONE: list[Callable[[Posed], str]] = []
"""What shows a question where it is to be answered without a kernel; empty where there is one."""


class Predicting(anywidget.AnyWidget):
    """Options and a button that commits to one of them; then `said` tells what is true, and the choice stays."""

    _esm = (files("kit.ui.lesson") / "question.js").read_text(encoding="utf-8")
    ask = t.Unicode().tag(sync=True)
    options = t.List(t.Unicode()).tag(sync=True)
    chosen = t.Int(-1).tag(sync=True)
    right = t.Bool(False).tag(sync=True)
    said = t.Unicode().tag(sync=True)

    def __init__(self, posed: Posed) -> None:
        self._posed = posed
        super().__init__(ask=posed.question.ask, options=list(posed.options))
        self.add_class("fw-panel")
        self.add_class("fw-lesson")
        self.on_msg(lambda _, content, __: self.commit(content.get("chosen")))

    def commit(self, at: Any) -> None:
        """Take the choice of the option `at`, once; anything else is left unheard."""
        if self.said or not isinstance(at, int) or not 0 <= at < len(self.options):
            return
        found = self._posed.judge(self.options[at])
        lost = kept("predict", self._posed.model, self.ask, self.options[at], found)
        with self.hold_sync():
            self.chosen, self.right, self.said = at, found.right, found.words + lost


class Prediction:
    """A question as a cell shows it: to commit to where a kernel is there, in words where there is none."""

    def __init__(self, posed: Posed) -> None:
        self.posed = posed

    def words(self) -> Shown:
        """Return the question with its options."""
        rows = "".join(f"<li>{escape(text)}</li>" for text in self.posed.options)
        return Shown(
            f'<div class="fw-ask fw-asked"><p class="fw-ask-words">Predict first: {escape(self.posed.question.ask)}</p>'
            f'<ul class="fw-options">{rows}</ul></div>',
            f"predict: {self.posed.question.ask}",
        )

    def _ipython_display_(self) -> None:
        from IPython.display import display

        if ALONE:
            display(Shown(ALONE[-1](self.posed), repr(self)[1:-1]))
            return
        display(self.words())
        display(Predicting(self.posed))

    def __repr__(self) -> str:
        return repr(self.words())
