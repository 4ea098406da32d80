"""What was done one after the other, each step with its name, so that it can be undone and redone."""

from __future__ import annotations

from typing import Generic, TypeVar

State = TypeVar("State")

MOST = 300
"""Steps that are kept."""


class Trail(Generic[State]):
    """States one after the other, each with what led to it, and the one that holds now."""

    def __init__(self, state: State) -> None:
        self._steps, self._at = [(state, "opened")], 0

    @property
    def now(self) -> State:
        """The state that holds."""
        return self._steps[self._at][0]

    @property
    def undoes(self) -> str:
        """What the next undo takes back; nothing where there is none."""
        return self._steps[self._at][1] if self._at else ""

    @property
    def redoes(self) -> str:
        """What the next redo does again; nothing where there is none."""
        return self._steps[self._at + 1][1] if self._at + 1 < len(self._steps) else ""

    def add(self, state: State, what: str, *, instead: bool = False) -> None:
        """Go on to a state, after the one that holds or `instead` of it; what was undone before is forgotten."""
        self._steps[self._at + (not instead) :] = [(state, what)]
        del self._steps[:-MOST]
        self._at = len(self._steps) - 1

    def beside(self, by: int) -> tuple[State, str] | None:
        """Return the state that an undo (-1) or a redo (1) leads to, and what it takes back or does; None at an end."""
        if not 0 <= self._at + by < len(self._steps):
            return None
        return self._steps[self._at + by][0], self._steps[max(self._at, self._at + by)][1]

    def go(self, by: int) -> None:
        """Undo (-1) or redo (1) a step that is there."""
        self._at += by
