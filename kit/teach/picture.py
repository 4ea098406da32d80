"""The figure of an exercise: with all its numbers, or without those that follow from the givens."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from kit.drawing.primitives import Note
from kit.drawing.svg import svg
from kit.subjects import subject

if TYPE_CHECKING:
    from kit.core.model import Case
    from kit.core.quantity import Display
    from kit.drawing.scene import Scene

_WIDTH = 640  # CSS pixels
_NUMBER = r"(?<![\w{.])\d+(?:[.,/ ]\d+)*"  # not one in a name or under it: x1, x_{1}


def figure(case: Case, display: Display, *, whole: bool, ids: str) -> str:
    """Return the model's figure as inline SVG; unless it is `whole`, only numbers that are givens stand in it.

    Raises:
        KitError: a value of the case that cannot be drawn.
    """
    scene = subject(case.model.name).draw(case.base, display)
    if not whole:
        _hide(scene, {entry.given.show(entry.base, display) for entry in case.entries.values()})
    return f'<figure class="fw-figure">{svg(scene, _WIDTH, None, ids=ids, legend=whole)}</figure>'


def told(case: Case, display: Display) -> list[str]:
    """Return the words that stand in the model's figure."""
    scene = subject(case.model.name).draw(case.base, display)
    return [item.text for view in scene.views for item in view.items if isinstance(item, Note)]


def _hide(scene: Scene, given: set[str]) -> None:
    """Put a question mark for each number in the scene's words that is none of the `given` values."""
    for view in scene.views:
        view.caption = hidden(view.caption, given)
        view.items = [
            replace(item, text=hidden(item.text, given)) if isinstance(item, Note) else item for item in view.items
        ]
    scene.title, scene.alt = hidden(scene.title, given), hidden(scene.alt, given)


def hidden(words: str, given: set[str]) -> str:
    """Return words with a question mark for each number that does not stand in one of the `given` values.

    >>> hidden("L = 360.0 mm, d = 12.5 mm", {"360.0 mm"})
    'L = 360.0 mm, d = ? mm'
    """
    kept = "|".join(re.escape(value) for value in sorted(given, key=len, reverse=True))
    found = re.compile(rf"(?P<kept>(?<![\w{{.])(?:{kept})(?![\w.]))|{_NUMBER}")
    return found.sub(lambda match: match["kept"] or "?", words)
