"""A figure in small, for a list."""

from __future__ import annotations

from itertools import count
from typing import TYPE_CHECKING

from kit.sheet import sections

if TYPE_CHECKING:
    from kit.core.model import Case
    from kit.core.quantity import Display

_PICTURES = count(1)


def thumbnail(case: Case, display: Display) -> str:
    """Return a case's figure as a picture that needs no words: what it shows stands beside it."""
    figure = sections.figure(case, display, ids=f"small{next(_PICTURES)}", legend=False)
    return f'<div aria-hidden="true">{figure}</div>'.replace(' data-testid="figure"', "")
