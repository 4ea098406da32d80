"""How far a search has come, told to whoever waits for it, and stopped by him."""

from __future__ import annotations

from collections.abc import Callable

Watch = Callable[[str], bool]
"""Is told in words what is looked at; False ends the search."""


class StoppedError(Exception):
    """The search was stopped before it had an answer. No fault in a value, for which scipy would take a ValueError."""


def go_on(watch: Watch | None, words: str) -> None:
    """Tell what is looked at. Raises StoppedError where whoever waits does so no longer."""
    if watch is not None and not watch(words):
        raise StoppedError("the search was stopped; nothing has changed")
