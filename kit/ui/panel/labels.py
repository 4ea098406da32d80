"""What quantities are called in menus and sentences: as beside their controls."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING

from kit.core.model import called, in_words

if TYPE_CHECKING:
    from kit.core.model import Calculation


def labels(model: Calculation, names: Iterable[str]) -> list[tuple[str, str]]:
    """Return the meaning and the name of each quantity or pick, for a menu; of two alike with the name."""
    names = list(names)
    words = [called(model.picks[name] if name in model.picks else model.part(name)) for name in names]
    return [
        (word if words.count(word) == 1 else f"{word} ({in_words(name)})", name)
        for word, name in zip(words, names, strict=True)
    ]


def in_labels(model: Calculation, sentence: str) -> str:
    """Return a sentence in which quantities that it names as code does are called as beside their controls."""
    names = "|".join(map(re.escape, (*model.givens, *model.relations, *model.picks)))
    joined = (
        "|".join(re.escape(name) for name in (*model.givens, *model.relations, *model.picks) if "_" in name) or "(?!)"
    )
    return re.sub(rf"^(?:{names})(?= is |: )|\b(?:{joined})\b", lambda found: model.called(found[0]), sentence)
