"""Footnotes: where things come from, each text once, numbered as it is first met."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from kit.sheet.words import sentence


class Notes:
    """The sources of one sheet; a text that comes again keeps its number."""

    def __init__(self, texts: Iterable[str] = ()) -> None:
        self.texts = list(dict.fromkeys(texts))

    def mark(self, text: str) -> str:
        """Return the mark that leads to a text, as HTML; nothing for no text."""
        if not text:
            return ""
        if text not in self.texts:
            self.texts.append(text)
        return f'<span class="fw-note">[{self.texts.index(text) + 1}]</span>'

    def html(self) -> str:
        """Return the numbered list of all texts so far."""
        items = "".join(f"<li>{escape(sentence(text))}</li>" for text in self.texts)
        return f'<ol class="fw-sources">{items}</ol>' if items else ""
