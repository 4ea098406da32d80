"""In what order a job's tasks are done, one after the other, while what dries goes on drying; when it is finished."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from kit.job.order import upstream_first
from kit.job.tasks import Task, Work

DAY = 86_400.0  # s


@dataclass(frozen=True, slots=True)
class Step:
    """A task with when it begins, when its work ends, and when it is dry: s from the morning of the first day."""

    task: Task
    begin: float
    end: float
    ready: float


@dataclass(frozen=True, slots=True)
class Order:
    """The tasks in order, as long as they are said to take, and when all is ready at the shortest and at the longest.

    `critical` are the tasks that decide: the longest way of work and drying, were there always somebody to do it.
    `faults` say in sentences what of the tasks cannot be followed, and is left out.
    """

    steps: tuple[Step, ...]
    shortest: float
    longest: float
    critical: tuple[str, ...]
    faults: tuple[str, ...] = ()

    @property
    def work(self) -> float:
        """All work together, s."""
        return sum(step.task.takes for step in self.steps)

    @property
    def ready(self) -> float:
        """When all is ready, s from the morning of the first day."""
        return max((step.ready for step in self.steps), default=0.0)

    @property
    def waits(self) -> dict[str, tuple[str, ...]]:
        """For which tasks each waits, without those for which one of these waits already."""
        behind: dict[str, set[str]] = {}
        found = {}
        for task in _upstream_first([step.task for step in self.steps]):
            known = set().union(*(behind[each] for each in task.after))
            found[task.name] = tuple(each for each in task.after if each not in known)
            behind[task.name] = known.union(task.after)
        return {step.task.name: found[step.task.name] for step in self.steps}


def work_order(work: Work) -> Order:
    """Return an order of tasks of which none waits for another in a circle.

    Of the tasks that can be begun, the one with the longest way before it comes first. Tasks at their shortest are at
    value − half-width, at their longest at value + half-width, in the same order.
    """
    tasks = {task.name: task for task in work.tasks}
    ahead = {name: task.takes + task.dry for name, task in tasks.items()}
    for task in reversed(_upstream_first(work.tasks)):
        for other in task.after:
            own = tasks[other].takes + tasks[other].dry
            ahead[other] = max(ahead[other], own + ahead[task.name])
    order = _in_turn(tasks, ahead, work.day)
    return Order(
        tuple(_timed(order, work.day, lambda task: task.takes)),
        _last(order, work.day, lambda task: max(0.0, task.takes - task.half)),
        _last(order, work.day, lambda task: task.takes + task.half),
        _critical(work.tasks),
        work.faults,
    )


def _upstream_first(tasks: Sequence[Task]) -> list[Task]:
    """Return the tasks, each after those for which it waits."""
    named = {task.name: task for task in tasks}
    return [named[name] for name in upstream_first(named, lambda name: named[name].after)[0]]


def _in_turn(tasks: Mapping[str, Task], ahead: Mapping[str, float], day: float) -> list[Task]:
    """Return the tasks in the order in which one person takes them up."""
    places = {name: place for place, name in enumerate(tasks)}
    done: dict[str, float] = {}
    order: list[Task] = []
    now = 0.0
    while len(order) < len(tasks):
        left = [each for each in tasks.values() if each.name not in done]
        open_ = [each for each in left if all(other in done for other in each.after)]
        free = {each.name: max((done[other] for other in each.after), default=0.0) for each in open_}
        now = at_work(max(now, min(free.values())), day)
        begun = [each for each in open_ if free[each.name] <= now]
        task = min(begun, key=lambda each: (-ahead[each.name], places[each.name]))
        now = worked_until(now, task.takes, day)
        done[task.name] = now + task.dry
        order.append(task)
    return order


def _timed(order: list[Task], day: float, takes: Callable[[Task], float]) -> list[Step]:
    steps: list[Step] = []
    ready: dict[str, float] = {}
    now = 0.0
    for task in order:
        begin = at_work(max([now, *(ready[other] for other in task.after)]), day)
        now = worked_until(begin, takes(task), day)
        ready[task.name] = now + task.dry
        steps.append(Step(task, begin, now, ready[task.name]))
    return steps


def _last(order: list[Task], day: float, takes: Callable[[Task], float]) -> float:
    return max((step.ready for step in _timed(order, day, takes)), default=0.0)


def at_work(time: float, day: float) -> float:
    """Return the next time at which is worked: `time`, or the next morning; s from the first morning."""
    into = time % DAY
    return time if into < day else (math.floor(time / DAY) + 1) * DAY


def worked_until(time: float, takes: float, day: float) -> float:
    """Return when work is done that begins at `time`, with so much of each day worked; all in s."""
    now, left = at_work(time, day) if takes > 0 else time, takes
    while left > 0:
        room = day - now % DAY
        if left <= room:
            return now + left
        left -= room
        now = at_work(now + room, day)
    return now


def _critical(tasks: Sequence[Task]) -> tuple[str, ...]:
    """Return the longest way through the tasks, each as long as its work and drying."""
    long: dict[str, float] = {}
    before: dict[str, str] = {}
    for task in _upstream_first(tasks):
        long[task.name] = task.takes + task.dry
        if task.after:
            before[task.name] = max(task.after, key=long.__getitem__)
            long[task.name] += long[before[task.name]]
    way = [max(long, key=long.__getitem__)] if long else []
    while way and way[-1] in before:
        way.append(before[way[-1]])
    return tuple(reversed(way))
