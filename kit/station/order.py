"""In what order a job's tasks are done, one after the other, while what dries goes on drying; when it is finished."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import networkx as nx

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
        graph = nx.transitive_reduction(_graph([step.task for step in self.steps]))
        return {
            step.task.name: tuple(each for each in step.task.after if graph.has_edge(each, step.task.name))
            for step in self.steps
        }


def work_order(work: Work) -> Order:
    """Return an order of tasks of which none waits for another in a circle.

    Of the tasks that can be begun, the one with the longest way before it comes first. Tasks at their shortest are at
    value − half-width, at their longest at value + half-width, in the same order.
    """
    tasks = {task.name: task for task in work.tasks}
    graph = _graph(work.tasks)
    ahead: dict[str, float] = {}
    for name in reversed(list(nx.lexicographical_topological_sort(graph))):
        own = tasks[name].takes + tasks[name].dry
        ahead[name] = own + max((ahead[each] for each in graph.successors(name)), default=0.0)
    order = _in_turn(tasks, ahead, work.day)
    return Order(
        tuple(_timed(order, work.day, lambda task: task.takes)),
        _last(order, work.day, lambda task: max(0.0, task.takes - task.half)),
        _last(order, work.day, lambda task: task.takes + task.half),
        _critical(graph, tasks),
        work.faults,
    )


def _graph(tasks: Sequence[Task]) -> nx.DiGraph[str]:
    graph: nx.DiGraph[str] = nx.DiGraph()
    graph.add_nodes_from(task.name for task in tasks)
    graph.add_edges_from((other, task.name) for task in tasks for other in task.after)
    return graph


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


def _critical(graph: nx.DiGraph[str], tasks: Mapping[str, Task]) -> tuple[str, ...]:
    """Return the longest way through the tasks, each as long as its work and drying."""
    weighed = nx.DiGraph()
    weighed.add_nodes_from(graph)
    for task in tasks.values():
        weighed.add_edge((task.name, "begun"), (task.name, "ready"), weight=task.takes + task.dry)
        for other in task.after:
            weighed.add_edge((other, "ready"), (task.name, "begun"), weight=0.0)
    way = nx.dag_longest_path(weighed)
    return tuple(dict.fromkeys(node[0] for node in way if isinstance(node, tuple)))
