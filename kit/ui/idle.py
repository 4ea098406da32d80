"""Work between or beside the kernel's other work."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from threading import Thread
from typing import TypeVar

_PAUSE = 0.02  # seconds in which the kernel answers a person between two steps

T = TypeVar("T")
Action = Callable[[], object]


def aside(work: Callable[[], T], then: Callable[[T], object] = lambda _: None) -> None:
    """Do some work beside the kernel's other work, in a thread; at once where there is no loop, so nobody waits.

    `then` is called with what it gives, where the kernel's other work is done: nothing changes meanwhile.
    """
    try:
        loop = asyncio.get_running_loop()
    except RuntimeError:
        then(work())
        return

    def worked() -> None:
        found = work()
        with suppress(RuntimeError):  # the loop has ended meanwhile: nobody waits any more
            loop.call_soon_threadsafe(then, found)

    Thread(target=worked, daemon=True).start()


class Idle:
    """Steps done one by one between the kernel's other work; all at once where there is no loop, so nobody waits."""

    def __init__(self, steps: Iterable[Action], *, first: float = _PAUSE) -> None:
        """Begin with the steps after `first` seconds."""
        self._steps: Iterator[Action] = iter(steps)
        self._waiting: asyncio.TimerHandle | None = None
        try:
            self._loop = asyncio.get_running_loop()
        except RuntimeError:
            for step in self._steps:
                step()
        else:
            self._waiting = self._loop.call_later(first, self._next)

    def stop(self) -> None:
        """Do none of the steps that are left."""
        if self._waiting is not None:
            self._waiting.cancel()
            self._waiting = None

    def _next(self) -> None:
        step = next(self._steps, None)
        if step is None:
            self._waiting = None
            return
        step()
        self._waiting = self._loop.call_later(_PAUSE, self._next)
