"""The parts of a book made one after the other, or shared between this process and others."""

from __future__ import annotations

import multiprocessing
import signal
from collections.abc import Collection, Generator, Iterator, Mapping, Sequence
from contextlib import ExitStack, contextmanager
from multiprocessing.connection import Connection
from pathlib import Path
from queue import SimpleQueue
from threading import Condition, Thread
from typing import TYPE_CHECKING

from kit.core.errors import KitError
from kit.job import Job
from kit.sheet.book_parts import Made, Order, make_part

if TYPE_CHECKING:
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
    with ExitStack() as helpers:
        for _ in range(others):
            helpers.enter_context(_helper(plan, job.path, folder))
        own: set[str] = plan.begin()
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
    """Return the order that a process should take next: of a group that it began, of a new one, of any."""
    open_ = {*waiting, *busy}
    ready = [order for order in waiting.values() if not open_ & {*order.after}]
    begun = set().union(*others)
    ranked = sorted(ready, key=lambda order: (groups[order.id] not in own, groups[order.id] in begun))
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
def _helper(plan: _Plan, path: Path, folder: Path) -> Iterator[None]:
    """Let another process make parts until nothing is left; it ends with the block."""
    context = multiprocessing.get_context("spawn")
    here, there = context.Pipe()
    process = context.Process(target=_serve, args=(there, path, folder), daemon=True)
    process.start()
    there.close()
    thread = Thread(target=_ordered, args=(plan, plan.begin(), here), daemon=True)
    thread.start()
    try:
        yield
    finally:
        process.terminate()


def _ordered(plan: _Plan, own: set[str], end: Connection) -> None:
    """Have parts made by the process at the other end."""
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


def _serve(end: Connection, path: Path, folder: Path) -> None:
    """Make what is ordered, until whoever orders is gone."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # whoever orders hears it, and ends this process
    job = Job.open(path)
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
