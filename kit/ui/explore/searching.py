"""A search that takes longer: done beside the kernel's other work, with words on how far it is, and stopped."""

from __future__ import annotations

from collections.abc import Callable
from time import monotonic
from typing import TypeVar

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.search.watch import StoppedError, Watch
from kit.ui.idle import aside

T = TypeVar("T")
_OFTEN = 0.2  # seconds between two reports


class Searching(w.HBox):
    """The button that stops what is searched. `say` is told how far it is; one search begun ends the one before."""

    def __init__(self, say: Callable[[str], None]) -> None:
        self._say, self._run = say, object()
        self.stop = w.Button(description="Stop", tooltip="end the search; nothing changes")
        self.stop.on_click(lambda _: self.end())
        super().__init__([self.stop])
        self._show(running=False)

    def end(self) -> None:
        """End the search that is under way, if one is."""
        self._run = object()
        if not self.stop.disabled:
            self._show(running=False)
            self._say("stopped; nothing has changed")

    def _show(self, *, running: bool) -> None:
        """Show the button only while there is something to stop."""
        self.stop.disabled = not running
        self.stop.layout.display = "" if running else "none"

    def begin(self, work: Callable[[Watch], T], done: Callable[[T], None], failed: Callable[[str], None]) -> None:
        """Do some work and pass on what it finds, or why it failed; at once where there is no loop, so nobody waits."""
        run, said = object(), 0.0
        self._run = run
        self._show(running=True)

        def watch(words: str) -> bool:
            nonlocal said
            if self._run is run and monotonic() - said > _OFTEN:
                said = monotonic()
                self._say(f"{words} …")
            return self._run is run

        def go() -> None:
            try:
                found = work(watch)
            except (KitError, StoppedError) as error:
                if self._run is run:
                    self._show(running=False)
                    failed(str(error))
                return
            if self._run is run:
                self._show(running=False)
                done(found)

        aside(go)
