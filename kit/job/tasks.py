"""The tasks by which a job is built, as its file states them under [work]: what comes after what, how long it takes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from kit.core.errors import KitError, near_misses
from kit.core.model.input_terms import amount, count, many, rows, text
from kit.core.model.inputs import Fault, read_inputs
from kit.job.order import upstream_first
from kit.job.toml_file import read

WORK = {
    each.name: each
    for each in (
        amount("day", "how long is worked on a day", "h", span=(0.1, 24), default="8 h"),
        rows(
            "tasks",
            "what is done",
            text("name", "what is done", needed=True),
            text("part", "the part that it is done for"),
            many("after", "the tasks that come before it", text("task", "a task")),
            amount("takes", "how long it takes, with its ±", "h", span=(0, 1000), needed=True),
            amount("dry", "how long it then dries or rests", "h", span=(0, 5000), default="0 h"),
            count("helpers", "who helps beside who builds", 0, (0, 20)),
            text("tools", "tools for it"),
            text("check", "what is measured or looked at before the next task"),
            key="name",
        ),
    )
}


@dataclass(frozen=True, slots=True)
class Task:
    """One task; times in s, `half` is the half-width of how long it takes."""

    name: str
    part: str
    after: tuple[str, ...]
    takes: float
    half: float
    dry: float
    helpers: int
    tools: str
    check: str


@dataclass(frozen=True, slots=True)
class Work:
    """How long is worked on a day, s, and the tasks in the order of the file."""

    day: float
    tasks: tuple[Task, ...]


def work_of(path: Path) -> Work:
    """Return the work that a job's file states; without any tasks where it states none.

    Raises:
        KitError: the file cannot be read, or the work is faulty: every fault in a sentence.
    """
    source = read(path)
    raw, parts = source.data.get("work", {}), source.data.get("parts", {})
    faults = list(work_faults(raw, parts))
    if faults:
        raise KitError("; ".join(f"work, {each.words}" for each in faults))
    return _read(raw)[0]


def work_faults(raw: Any, parts: Mapping[str, Any]) -> Iterator[Fault]:
    """Yield what is wrong with the work that a file states, by its place below `work`."""
    if not isinstance(raw, Mapping):
        yield Fault((), "the work is no table", "write [[work.tasks]] on a line of its own for each task")
        return
    work, faults = _read(raw)
    yield from faults
    if faults:
        return
    names = [task.name for task in work.tasks]
    for number, task in enumerate(work.tasks):
        if task.part and task.part not in parts:
            hint = near_misses(task.part, list(parts)).removeprefix("; ") or f"the parts are {', '.join(parts)}"
            yield Fault(("tasks", number, "part"), f"the job has no part {task.part!r}", hint)
        for place, other in enumerate(task.after):
            if other not in names:
                hint = near_misses(other, names).removeprefix("; ") or f"the tasks are {', '.join(names)}"
                yield Fault(("tasks", number, "after", place), f"there is no task {other!r}", hint)
    above = {task.name: [other for other in task.after if other in names] for task in work.tasks}
    circle = upstream_first(names, above.__getitem__)[1]
    if circle:
        message = f"{' → '.join(circle)} wait for each other in a circle"
        yield Fault(("tasks",), message, "take one of these out of after")


def _read(raw: Mapping[str, Any]) -> tuple[Work, list[Fault]]:
    found, faults = read_inputs(WORK, raw)
    if faults:
        return Work(0.0, ()), faults
    tasks = tuple(
        Task(
            row["name"],
            row["part"] or "",
            tuple(row["after"]),
            row["takes"].base,
            row["takes"].half_base or 0.0,
            row["dry"].base,
            row["helpers"],
            row["tools"] or "",
            row["check"] or "",
        )
        for row in found["tasks"]
    )
    return Work(found["day"].base, tasks), []
