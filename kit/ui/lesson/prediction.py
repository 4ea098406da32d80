"""Predict first: a question with answers to choose from; only who has chosen can open what is true.

Plain HTML that needs no kernel and no script: the choice is a radio button, the reveal a disclosure. Keys go
to them and not to the notebook's shortcuts.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from itertools import count

from kit.core.errors import KitError
from kit.ui.lesson.html import KEYS, Shown

_GROUPS = count(1)


def predict(question: str, options: Sequence[str], answer: int, why: str) -> Shown:
    """Return a question whose answer, `options[answer]`, and reason are revealed after a choice; plain texts.

    Raises:
        KitError: fewer than two options, or an answer that is none of them.

    >>> predict("which is longer?", ["1 in", "1 cm"], answer=0, why="An inch has 2.54 cm.")
    <predict: which is longer?>
    """
    if len(options) < 2 or not 0 <= answer < len(options):
        raise KitError(f"answer {answer} is none of {len(options)} options; give two or more and count from 0")
    correct = options[answer][:1].upper() + options[answer][1:]
    group = f"fw-predict-{next(_GROUPS)}"
    choices = "".join(
        f'<label><input type="radio" name="{group}" {KEYS}> {escape(option)}</label>' for option in options
    )
    return Shown(
        '<div class="fw-ask">'
        f"<fieldset><legend>Predict first: {escape(question)}</legend>{choices}</fieldset>"
        '<p class="fw-commit">Choose one, then the answer can be opened.</p>'
        f"<details><summary {KEYS}>Answer</summary><p><b>{escape(correct)}.</b> {escape(why)}</p></details></div>",
        f"predict: {question}",
    )
