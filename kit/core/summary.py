"""What an object looks like in a notebook's cell: a head and a few short lines, however much it holds."""

from __future__ import annotations

from collections.abc import Iterable

WIDTH = 110
"""The longest line, in characters."""


def summary(head: str, **lines: str) -> str:
    """Return `head` and a line for each of `lines` that is not empty, each cut to `WIDTH`.

    >>> print(summary("Job Bench", parts="stop, hood", note=""))
    Job Bench
      parts: stop, hood
    """
    lines_shown = [head, *(f"  {name.replace('_', ' ')}: {text}" for name, text in lines.items() if text)]
    return "\n".join(text if len(text) <= WIDTH else f"{text[: WIDTH - 1]}…" for text in lines_shown)


def some(texts: Iterable[str], most: int = 5) -> str:
    """Return the first `most` texts in a row, and how many more there are.

    >>> some(["a", "b", "c", "d"], most=2)
    'a, b and 2 more'
    """
    every = list(texts)
    shown = ", ".join(every[:most])
    return f"{shown} and {len(every) - most} more" if len(every) > most else shown
