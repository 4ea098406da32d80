"""What takes a while: worked beside the kernel's other work, with how far it is and a way to stop it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from threading import Event, Lock

import ipywidgets as w

from kit.core.errors import KitError
from kit.ui.idle import aside
from kit.ui.page.widgets import button, line, row

Told = Callable[[float, str], None]
"""What is worked says how far it is, from 0 to 1, and what comes now; this raises KitError where it is to stop."""
STOPPED = "stopped; what is written stays"


class Working(w.VBox):
    """Buttons that begin something and what they heed, beside them how far it is, below them what came of it.

    `head` and `said` may be shown apart from each other, in the place of the whole.
    """

    def __init__(self, buttons: Sequence[w.Button | w.Checkbox], what: str) -> None:
        self._buttons, self._stopping = buttons, Event()
        self._turn, self._busy = Lock(), False
        self._next: Callable[[Told], str] | None = None
        self.stop = button("Stop", f"stop it; {STOPPED.partition('; ')[2]}", self._stopping.set)
        self.bar = w.FloatProgress(min=0, max=1, value=0, tooltip=f"how much of {what} is done")
        self.said = w.HTML()
        self.head = row(*buttons)
        super().__init__([self.head, self.said])

    def start(self, work: Callable[[Told], str]) -> None:
        """Do something that returns what is then said, as HTML; at once where there is no loop, so nobody waits.

        What begins while something else is worked takes its place: that is stopped, or what it says is not told.
        """
        with self._turn:
            if self._busy:
                self._next = work
                self._stopping.set()
                return
            self._busy = True
        self._stopping.clear()
        self.bar.value = 0
        for each in self._buttons:
            each.disabled = True
        self.head.children = (*self._buttons, self.stop, self.bar)
        aside(partial(self._do, work))

    def _do(self, work: Callable[[Told], str]) -> None:
        try:
            said = work(self._told)
        except (KitError, OSError) as error:
            said = line(str(error), fault=not self._stopping.is_set())
        finally:
            with self._turn:
                following, self._next, self._busy = self._next, None, False
            for each in self._buttons:
                each.disabled = False
            self.head.children = tuple(self._buttons)
        if following is not None:
            self.start(following)
        else:
            self.said.value = said

    def _told(self, share: float, words: str) -> None:
        self.bar.value = share
        self.said.value = line(words)
        if self._stopping.is_set():
            raise KitError(STOPPED)
