"""The one error that quantities raise, and how it quotes what was typed."""

from kit.core.errors import KitError

_SHOWN = 40


class QuantityError(KitError):
    """A text that is no quantity, no unit, or of another dimension than its field."""


class UnreadError(QuantityError):
    """Why a text is not read, raised where neither the whole text nor its field is known."""

    def __init__(self, why: str, hint: str = "") -> None:
        super().__init__(f"A quantity {why}{hint}")
        self.why = why
        self.hint = hint

    def about(self, text: object, allowed: str = "") -> QuantityError:
        """Return the error for the reader: what was typed, why it is not read, what is allowed, a hint."""
        what = said(text) if isinstance(text, str) else f"A value of type {type(text).__name__}"
        return QuantityError(f"{what} {self.why}{allowed}{self.hint}")


def said(text: str) -> str:
    """Return `text` in quotation marks, shortened, with what cannot be printed written as escapes."""
    shown = "".join(c if c.isprintable() else ascii(c)[1:-1] for c in text[: _SHOWN + 1])
    return f"“{shown if len(shown) <= _SHOWN else shown[: _SHOWN - 1] + '…'}”"
