"""Under which name the answers of this folder's lessons are kept; what is kept goes into a file of the pupil's own."""

from __future__ import annotations

from html import escape
from pathlib import Path

import ipywidgets as w

from kit.core.errors import KitError
from kit.teach import Judgment
from kit.teach.answers import FOLDER, keep, sign_in, signed_in
from kit.ui.page.widgets import button, labeled, line, row


class SignIn(w.VBox):
    """A field for a pupil's name, and what is done with it."""

    def __init__(self) -> None:
        self.name = w.Text(
            value=signed_in(),
            placeholder="your name, or the one that your teacher gave you",
            continuous_update=False,  # while the kernel is busy a press would overtake the letters
        )
        self.button = button("Keep my answers", "keep answers under this name from now on", self._sign, kind="fw-main")
        self.said = w.HTML(_words(signed_in()))
        super().__init__(
            [labeled("Your name", self.name), row(self.button), self.said], _dom_classes=("fw-panel", "fw-sign-in")
        )

    def _sign(self) -> None:
        try:
            self.said.value = _words(sign_in(self.name.value))
        except (KitError, OSError) as error:
            self.said.value = line(str(error), fault=True)

    def __repr__(self) -> str:
        return "<sign in, to keep your answers>"


def _words(name: str) -> str:
    if not name:
        return line("No answers are kept. Only right, wrong and what you answered would be, in a file of this folder.")
    return line(f"Answers are kept as those of {name}, in the folder {FOLDER} beside this notebook.")


def kept(kind: str, model: str, asked: str, said: str, judged: Judgment) -> str:
    """Keep an answer of who has signed in; return a sentence where that failed, to be shown beside what is said."""
    try:
        keep(kind, model, asked, said, judged.right, judged.mistake, folder=Path.cwd())
    except (KitError, OSError) as error:
        return f" Your answer was not kept: {escape(str(error))}."
    return ""
