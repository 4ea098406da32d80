"""Something that a notebook displays: HTML in the looks of panels and sheets."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from kit.sheet.style import panel_style

KEYS = 'data-lm-suppress-shortcuts="true"'
"""An attribute of what takes keys itself: JupyterLab then leaves arrows, space and Enter to it."""


@dataclass(frozen=True, slots=True)
class Shown:
    """A piece of HTML, framed for a notebook; without a browser only `words` appear."""

    html: str
    words: str = "shown as HTML"

    def _repr_html_(self) -> str:
        return f'<div class="fw-panel fw-lesson">{self.html}</div>'

    def __repr__(self) -> str:
        return f"<{self.words}>"


def plain(html: str) -> str:
    """Return a fragment without its `data-testid`s, which belong to the live panel."""
    return re.sub(r' data-testid="[^"]*"', "", html)


@cache
def style() -> str:
    """Return the style element that a notebook needs once."""
    own = (files("kit.ui.lesson") / "lesson.css").read_text(encoding="utf-8")
    return f"{panel_style()}<style>{own}</style>"
