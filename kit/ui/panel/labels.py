"""What quantities are called in menus: as beside their controls."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from kit.core.model import called, in_words

if TYPE_CHECKING:
    from kit.core.model import Calculation


def labels(model: Calculation, names: Iterable[str]) -> list[tuple[str, str]]:
    """Return the meaning and the name of each quantity, for a menu; where two mean the same, the name is added."""
    names = list(names)
    words = [called(model.part(name)) for name in names]
    return [
        (word if words.count(word) == 1 else f"{word} ({in_words(name)})", name)
        for word, name in zip(words, names, strict=True)
    ]
