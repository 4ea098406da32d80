"""Adding a part by the question that it answers: search, look at its picture, add it."""

from __future__ import annotations

from functools import partial
from html import escape
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.job.arrange import add_part
from kit.subjects import CHAPTERS, heading, model, names
from kit.ui.idle import Idle
from kit.ui.page.thumbnail import thumbnail
from kit.ui.page.widgets import button, labeled, row

if TYPE_CHECKING:
    from collections.abc import Callable

    from kit.ui.page.state import PageState

_MOST = 8  # questions that are shown at a time
_REST = 0.3  # seconds without a key after which the questions are searched


class AddView(w.VBox):
    """The questions that the kit answers; `added` is called with the new part's id."""

    def __init__(self, page: PageState, added: Callable[[str], None]) -> None:
        self.page, self._added, self._drawing, self._resting = page, added, Idle([]), Idle([])
        chapters = [("everything", ""), *((each.title, each.name) for each in CHAPTERS)]
        self.opened = w.ToggleButton(description="Add a part", tooltip="choose a part by the question that it answers")
        self.opened.add_class("fw-main")
        self.opened.observe(lambda _: self._write(), "value")
        self.sought = w.Text(placeholder="how high must pads be?")
        self.chapter = w.Dropdown(options=chapters, value="")
        self.found = w.VBox()
        self.sought.observe(lambda _: self._typing(), "value")
        self.chapter.observe(lambda _: self.search(), "value")
        self._form = w.VBox(
            [
                row(
                    labeled("What do you want to know?", self.sought, "words of the question"),
                    labeled("About", self.chapter, "the chapter of the trade"),
                ),
                self.found,
            ]
        )
        super().__init__([self.opened], _dom_classes=("fw-adding",))
        if not page.job.parts:
            self.opened.value = True

    def leave(self) -> None:
        """Search and draw nothing more."""
        self._drawing.stop()
        self._resting.stop()

    def search(self) -> None:
        """Show the questions that have all the words sought."""
        self._drawing.stop()
        fits = matches(self.sought.value, self.chapter.value)
        shown = [_Answer(self, name) for name in fits[:_MOST]]
        more = len(fits) - len(shown)
        words = (
            f"and {more} more: type a word of your question"
            if more
            else ""
            if fits
            else "no question has all of these words"
        )
        self.found.children = (*shown, w.HTML(f'<p class="fw-note" role="status">{words}</p>'))
        self._drawing = Idle([each.draw for each in shown])

    def add(self, name: str) -> None:
        """Add a part that answers a question."""
        new: list[str] = []

        def do() -> str:
            new.append(add_part(self.page.job, name))
            return f"added {self.page.job.parts[new[0]].title}"

        if self.page.attempt(do):
            self._added(new[0])

    def _typing(self) -> None:
        """Search once the keys rest."""
        self._resting.stop()
        self._resting = Idle([self.search], first=_REST)

    def _write(self) -> None:
        self.children = (self.opened, self._form) if self.opened.value else (self.opened,)
        if self.opened.value:
            self.search()
        else:
            self._drawing.stop()


class _Answer(w.HBox):
    """A question with its picture and the button that adds a part for it."""

    def __init__(self, view: AddView, name: str) -> None:
        self.view, self.name = view, name
        title, question = heading(name)
        self.picture = w.HTML()
        self.picture.add_class("fw-thumb")
        self.button = button("Add", f"add a part: {title}", partial(view.add, name))
        told = w.HTML(f'<p class="fw-name">{escape(question)}</p><p class="fw-note">{escape(title)}</p>')
        super().__init__([self.picture, told, self.button], _dom_classes=("fw-part", "fw-item"))

    def draw(self) -> None:
        """Show the picture of the page's own example."""
        self.picture.value = thumbnail(model(self.name).at(), self.view.page.job.display)


def matches(sought: str, chapter: str = "") -> list[str]:
    """Return the models whose question, title and name have most of the words sought, the best first.

    >>> matches("How high must pads be?")[0]
    'level.pads'
    """
    words = [word for word in sought.lower().replace("?", " ").split() if len(word) > 2]
    fits = [name for name in names() if not chapter or name.startswith(f"{chapter}.")]
    if not words:
        return fits
    score = {name: sum(word in " ".join((name, *heading(name))).lower() for word in words) for name in fits}
    return sorted((name for name in fits if 2 * score[name] > len(words)), key=lambda name: -score[name])
