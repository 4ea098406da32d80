"""The parts of a book made one after the other, or shared between this process and others."""

from __future__ import annotations

import signal
import sys
import threading
from collections import Counter
from collections.abc import Collection, Generator, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from multiprocessing import get_context
from multiprocessing.connection import Connection
from pathlib import Path
from queue import SimpleQueue
from threading import Condition, Thread
from typing import TYPE_CHECKING

from kit.core.errors import KitError
from kit.job import Job
from kit.sheet.book_parts import Made, Order, make_part

if TYPE_CHECKING:
    from multiprocessing.context import ForkContext, SpawnContext

    from kit.job.verdict import PassedOn

WORTH = 4
"""Parts for which it is worth to start a process, which loads for seconds what this one has loaded."""


def parts_made(
    job: Job, orders: Sequence[Order], passed: Mapping[str, PassedOn], folder: Path, processes: int
) -> Generator[tuple[str, Made], None, None]:
    """Write the sheets and files of parts into `folder` and yield each part as it is done.

    `orders` stand after what they rest on; `passed` is what those hand on that need not be made. This process is one
    of `processes`; a job with changes that are not saved is worked in this one alone.

    Raises:
        KitError: a part that cannot be computed or built.
    """
    others = 0 if job.changed else min(processes, len(orders) // WORTH) - 1
    plan = _Plan(orders, dict(passed), _groups(job, orders))
    own = plan.begin()
    with _helpers(others, plan, job.path, folder):
        while (order := plan.next(own)) is not None:
            plan.done(order, make_part(job, order, plan.known, folder))
            yield from plan.told()
        plan.rest()
        yield from plan.told()


class _Plan:
    """What is still to be made, who is at what, and what came out; asked by several threads."""

    def __init__(self, orders: Sequence[Order], known: dict[str, PassedOn], groups: Mapping[str, str]) -> None:
        self.known = known
        self._waiting = {order.id: order for order in orders}
        self._busy: set[str] = set()
        self._groups = groups
        self._begun: list[set[str]] = []
        self._came_out: SimpleQueue[tuple[str, Made | BaseException]] = SimpleQueue()
        self._changed = Condition()

    def begin(self) -> set[str]:
        """Return the groups that one more process has begun: none yet."""
        with self._changed:
            self._begun.append(set())
            return self._begun[-1]

    def next(self, own: set[str]) -> Order | None:
        """Wait for what a process should make next, and take it: None where nothing is left."""
        with self._changed:
            while self._waiting:
                others = [begun for begun in self._begun if begun is not own]
                order = _next(self._waiting, self._busy, self._groups, own, others)
                if order is not None:
                    own.add(self._groups[order.id])
                    self._busy.add(order.id)
                    return self._waiting.pop(order.id)
                self._changed.wait()
            return None

    def rest(self) -> None:
        """Wait until nobody is at anything."""
        with self._changed:
            while self._busy:
                self._changed.wait()

    def done(self, order: Order, made: Made) -> None:
        """Tell that a part is made."""
        with self._changed:
            self._busy.discard(order.id)
            self.known[order.id] = made.passed
            self._came_out.put((order.id, made))
            self._changed.notify_all()

    def failed(self, order: Order, error: BaseException) -> None:
        """Tell that a part cannot be made: nothing else is begun."""
        with self._changed:
            self._busy.discard(order.id)
            self._waiting.clear()
            self._came_out.put((order.id, error))
            self._changed.notify_all()

    def told(self) -> Iterator[tuple[str, Made]]:
        """Yield what came out since it was last asked; raise what went wrong."""
        while not self._came_out.empty():
            id, found = self._came_out.get()
            if isinstance(found, BaseException):
                raise found
            yield id, found


def _next(
    waiting: Mapping[str, Order],
    busy: Collection[str],
    groups: Mapping[str, str],
    own: set[str],
    others: Sequence[set[str]],
) -> Order | None:
    """Return the order that a process should take next: of a group that it began, or of the largest new one.

    What another began is left to it: to build again what a group takes costs more than to wait.
    """
    open_ = {*waiting, *busy}
    size = Counter(groups[id] for id in waiting)
    begun = set().union(*others)
    ready = [order for order in waiting.values() if not open_ & {*order.after} and groups[order.id] not in begun]
    ranked = sorted(ready, key=lambda order: (groups[order.id] not in own, -size[groups[order.id]]))
    return next(iter(ranked), None)


def _groups(job: Job, orders: Sequence[Order]) -> dict[str, str]:
    """Return for each part the first part of its group: those that take builds of each other."""
    group = {id: id for id in job.parts}
    for order in orders:
        for other in job.links(order.id).values():
            old, new = group[order.id], group.get(other, group[order.id])
            group = {id: new if each == old else each for id, each in group.items()}
    return group


@contextmanager
def _helpers(number: int, plan: _Plan, path: Path, folder: Path) -> Iterator[None]:
    """Let other processes make parts until nothing is left; they end with the block."""
    context = _context()
    pipes = [context.Pipe() for _ in range(number)]
    helpers = []
    for _, there in pipes:
        strange = [end for pipe in pipes for end in pipe if end is not there]
        helpers.append(context.Process(target=_serve, args=(there, strange, path, folder), daemon=True))
        helpers[-1].start()
    for here, there in pipes:
        there.close()
        Thread(target=_ordered, args=(plan, plan.begin(), here), daemon=True).start()
    try:
        yield
    finally:
        for helper in helpers:
            helper.terminate()


def _context() -> ForkContext | SpawnContext:
    """Return how to start a process: as a copy of this one, which has loaded all by now, where that is safe.

    A copy has no other threads, and whatever lock they held stays held in it.
    """
    if sys.platform == "linux" and threading.active_count() == 1:
        return get_context("fork")
    return get_context("spawn")


def _ordered(plan: _Plan, own: set[str], end: Connection) -> None:
    """Have parts made by the process at the other end, once it has loaded what it needs."""
    with suppress(EOFError, OSError):
        end.recv()
    while (order := plan.next(own)) is not None:
        try:
            end.send((order, {each: plan.known[each] for each in order.rests_on if each in plan.known}))
            found = end.recv()
        except (EOFError, OSError):
            found = KitError(f"part {order.id}: the process that made it ended; is there enough memory?")
        if isinstance(found, BaseException):
            plan.failed(order, found)
        else:
            plan.done(order, found)


def _serve(end: Connection, strange: Sequence[Connection], path: Path, folder: Path) -> None:
    """Make what is ordered, until whoever orders is gone; `strange` are ends that others hold."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # whoever orders hears it, and ends this process
    for each in strange:
        each.close()  # or nobody here would be told that they are gone
    job = Job.open(path)
    end.send(None)
    while True:
        try:
            order, known = end.recv()
        except EOFError:
            return
        try:
            end.send(make_part(job, order, known, folder))
        except KitError as error:
            end.send(KitError(str(error)))  # others of its family may not go through a pipe
        except OSError as error:
            end.send(error)
