"""What takes a while: worked beside the kernel's other work, with how far it is and a way to stop it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from threading import Event

import ipywidgets as w

from kit.core.errors import KitError
from kit.ui.idle import aside
from kit.ui.page.widgets import button, line, row

Told = Callable[[float, str], None]
"""What is worked says how far it is, from 0 to 1, and what comes now; this raises KitError where it is to stop."""
STOPPED = "stopped; what is written stays"


class Working(w.VBox):
    """Buttons that begin something and what they heed, beside them how far it is, below them what came of it."""

    def __init__(self, buttons: Sequence[w.Button | w.Checkbox], what: str) -> None:
        self._buttons, self._stopping = buttons, Event()
        self.stop = button("Stop", f"stop it; {STOPPED.partition('; ')[2]}", self._stopping.set)
        self.bar = w.FloatProgress(min=0, max=1, value=0, tooltip=f"how much of {what} is done")
        self.said = w.HTML()
        self._row = row(*buttons)
        super().__init__([self._row, self.said])

    def start(self, work: Callable[[Told], str]) -> None:
        """Do something that returns what is then said, as HTML; at once where there is no loop, so nobody waits."""
        self._stopping.clear()
        self.bar.value = 0
        for each in self._buttons:
            each.disabled = True
        self._row.children = (*self._buttons, self.stop, self.bar)
        aside(partial(self._do, work))

    def _do(self, work: Callable[[Told], str]) -> None:
        try:
            self.said.value = work(self._told)
        except (KitError, OSError) as error:
            self.said.value = line(str(error), fault=not self._stopping.is_set())
        finally:
            for each in self._buttons:
                each.disabled = False
            self._row.children = tuple(self._buttons)

    def _told(self, share: float, words: str) -> None:
        self.bar.value = share
        self.said.value = line(words)
        if self._stopping.is_set():
            raise KitError(STOPPED)
