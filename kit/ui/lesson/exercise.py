"""An exercise in a notebook: the task, a field or options for the answer, and the way to it for who has answered.

Until then nothing on the page, in the file or in a widget tells the answer: it is worked in the kernel when asked.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape
from itertools import count

import ipywidgets as w

from kit.core.model import Calculation, Case
from kit.core.quantity import Display
from kit.teach import Choice, Exercise, about
from kit.teach.exercise import LETTERS
from kit.teach.task import task, way
from kit.ui.lesson.html import Shown, plain
from kit.ui.lesson.sign_in import kept

_TASKS = count(1)


@dataclass(frozen=True)
class Asked:
    """An exercise as a cell shows it."""

    exercise: Exercise

    def task(self) -> str:
        """Return what is asked, as HTML."""
        return f'<div class="fw-ask fw-task">{task(self.exercise, ids=f"task{next(_TASKS)}")}</div>'

    def _ipython_display_(self) -> None:
        from IPython.display import display

        display(Shown(plain(self.task()), f"exercise on {self.exercise.case.model.name}"))
        display(Answering(self.exercise))

    def __repr__(self) -> str:
        return f"<exercise: {self.exercise.ask}>"


class Answering(w.VBox):
    """A field or options, what is said about the answer, and the way to it, once there was one."""

    def __init__(self, exercise: Exercise) -> None:
        self.exercise = exercise
        self.box = _options(exercise) if isinstance(exercise, Choice) else _field()
        self.button = w.Button(description="Check answer", tooltip="check the answer within its rounding")
        self.reveal = w.Button(description="Show the way", tooltip="show the steps to the answer", disabled=True)
        self.said, self.way = w.HTML(), w.HTML()
        self.box.observe(lambda _: self.judge(), "value")
        self.button.on_click(lambda _: self.judge())
        self.reveal.on_click(lambda _: self._show_way())
        super().__init__(
            [w.Box([self.box, self.button, self.reveal], _dom_classes=("fw-row",)), self.said, self.way],
            _dom_classes=("fw-panel", "fw-answering"),
        )

    def judge(self) -> None:
        """Say whether the answer is right; from now on the way to it can be shown."""
        typed = (self.box.value or "").strip()
        found = self.exercise.judge(typed)
        lost = kept(self.exercise.kind, self.exercise.case.model.name, self.exercise.ask, typed, found) if typed else ""
        kind, mark = ("fw-meets", "✓") if found.right else ("fw-fails", "✗")
        self.said.value = (
            f'<p class="{kind}" role="status"><span class="fw-mark" aria-hidden="true">{mark}</span> '
            f"{escape(found.words)}{lost}</p>"
        )
        self.reveal.disabled = not typed

    def _show_way(self) -> None:
        self.way.value = plain(f"<p><b>{escape(self.exercise.answer)}</b></p>{way(self.exercise)}")


def exercise(
    model: str | Calculation | Case,
    result: str,
    vary: Sequence[str],
    *,
    seed: int = 1,
    display: Display | None = None,
) -> Asked:
    """Return an exercise: the givens `vary` are drawn, round and inside their spans; `seed` draws them again.

    Raises:
        KitError: an unknown name, a given that is no number, or a result without value wherever it was tried.
    """
    from kit.subjects import model as named

    stated = named(model) if isinstance(model, str) else model
    case = stated if isinstance(stated, Case) else stated.at()
    return Asked(about(case, result, vary, seed=seed, display=display or Display()))


def _field() -> w.Text:
    tooltip = "your answer: a value with its unit"
    return w.Text(description="Answer", placeholder="value with unit", continuous_update=False, tooltip=tooltip)


def _options(exercise: Choice) -> w.RadioButtons:
    shown = [(f"{letter}) {each.text}", letter) for letter, each in zip(LETTERS, exercise.options, strict=False)]
    return w.RadioButtons(options=shown, value=None, description="Answer", tooltip="your answer")
