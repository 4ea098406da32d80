"""The tasks by which a job is built, as its file states them under [work]: what comes after what, how long it takes."""

from __future__ import annotations

import tomllib
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from kit.core.errors import near_misses
from kit.core.model.input_terms import amount, count, many, rows, text
from kit.core.model.inputs import Fault, read_inputs
from kit.job.errors import JobError
from kit.job.order import upstream_first
from kit.job.toml_edit import ABSENT, look, put, render, same
from kit.job.toml_file import read

if TYPE_CHECKING:
    from kit.job.job import Job

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
    """How long is worked on a day, s, the tasks in the order of the file, and what of them cannot be followed."""

    day: float
    tasks: tuple[Task, ...]
    faults: tuple[str, ...] = ()


def work_of(path: Path) -> Work:
    """Return the work that a job's file states; without any tasks where it states none.

    Raises:
        KitError: the file cannot be read.
    """
    data = read(path).data
    work, faults = read_work(data.get("work", {}), data.get("parts", {}))
    return replace(work, faults=tuple(each.words for each in faults))


def work_faults(raw: Any, parts: Collection[str]) -> list[Fault]:
    """Return what is wrong with the work that a file states, by its place below `work`."""
    return read_work(raw, parts)[1]


def read_work(raw: Any, parts: Collection[str]) -> tuple[Work, list[Fault]]:
    """Return what can be followed of the work that a file states, and what is wrong with the rest, by its place.

    What cannot be read of a task is left out of it, and so is a part that the job does not have, a task that is not
    there, and the last step of a circle: the task takes no time, or waits for one task less.
    """
    if not isinstance(raw, Mapping):
        fault = Fault((), "the work is no table", "write [[work.tasks]] on a line of its own for each task")
        return Work(0.0, ()), [fault]
    faults = read_inputs(WORK, raw)[1]
    stated = raw.get("tasks", [])
    rows = _readable(stated, faults) if isinstance(stated, list) else {}
    day = {"day": raw["day"]} if "day" in raw and not any(each.at[:1] == ("day",) for each in faults) else {}
    found = read_inputs(WORK, {"tasks": list(rows.values()), **day})[0]
    numbers = {row["name"]: number for number, row in zip(rows, found["tasks"], strict=True)}
    tasks = {row["name"]: _task(row) for row in found["tasks"]}
    for name, number in numbers.items():
        tasks[name] = _linked(tasks[name], number, tasks, parts, faults)
    while circle := upstream_first(tasks, lambda name: tasks[name].after)[1]:
        *_, last, first = circle
        place = ("tasks", numbers[last], "after")
        message = f"{' → '.join(circle)} wait for each other in a circle"
        faults.append(Fault(place, message, "take one of these out of after"))
        tasks[last] = replace(tasks[last], after=tuple(each for each in tasks[last].after if each != first))
    return Work(found["day"].base, tuple(tasks.values())), faults


def stated_work(path: Path) -> Mapping[str, Any]:
    """Return the work as it stands in a job's file; nothing where it states none.

    Raises:
        KitError: the file cannot be read, or its work is no table.
    """
    raw = read(path).data.get("work", {})
    if not isinstance(raw, Mapping):
        raise JobError("the work is no table; write [[work.tasks]] on a line of its own for each task")
    return raw


def set_work(job: Job, raw: Mapping[str, Any], before: Mapping[str, Any]) -> None:
    """Write the work into a job's file at once, and nothing else; `before` is what stood there when it was read.

    Raises:
        JobError: something in it cannot be followed, every fault is listed; or the file's work was changed meanwhile.
        OSError: the folder cannot be written; nothing is written.
    """
    faults = work_faults(raw, job.parts)
    if faults:
        raise JobError("\n".join(each.words for each in faults))

    def change(text: str) -> str:
        now = look(tomllib.loads(text), ("work",))
        if not same({} if now is ABSENT else now, before):
            raise JobError(
                f"the tasks of {job.path.name} were changed meanwhile; open them again and change them there"
            )
        return _with_tasks(put(text, ("work", "day"), raw.get("day", ABSENT)), raw.get("tasks", []))

    job.rewrite(change)


def _with_tasks(text: str, tasks: Sequence[Mapping[str, Any]]) -> str:
    path = ("work", "tasks")
    if not tasks or look(tomllib.loads(text), path) is not ABSENT:
        return put(text, path, list(tasks) or ABSENT)
    rows = ("".join(f"{key} = {render(value)}\n" for key, value in task.items()) for task in tasks)
    return text.rstrip("\n") + "\n" + "".join(f"\n[[work.tasks]]\n{row}" for row in rows)


def follow_names(before: Sequence[Mapping[str, Any]], tasks: Sequence[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """Return tasks of which one was given another name: those that waited for it wait for it by the new one."""
    made = [dict(task) for task in tasks]
    pairs = zip(before, tasks, strict=False) if len(before) == len(tasks) else ()
    differ = [(old.get("name"), new.get("name")) for old, new in pairs if old.get("name") != new.get("name")]
    if len(differ) == 1 and all(differ[0]):
        old, new = differ[0]
        for task in made:
            if isinstance(task.get("after"), list):
                task["after"] = [new if each == old else each for each in task["after"]]
    return made


def _readable(stated: list[Any], faults: list[Fault]) -> dict[int, dict[str, Any]]:
    """Return by their numbers the rows that can be read, without those of their entries that cannot."""
    faulty = {each.at[1] for each in faults if each.at[:1] == ("tasks",) and len(each.at) > 1}
    rows: dict[int, dict[str, Any]] = {}
    for number, row in enumerate(stated):
        names = [other["name"] for other in rows.values()]
        if not isinstance(row, Mapping) or row.get("name") in names:
            continue
        kept = dict(row) if number not in faulty else _kept(row)
        if "name" in kept:
            rows[number] = kept
    return rows


def _kept(row: Mapping[str, Any]) -> dict[str, Any]:
    """Return what can be read of a faulty row; it takes no time where that is not known."""
    kept: dict[str, Any] = {"takes": "0 h"}
    for key, value in row.items():
        tried = {"name": "a task", **kept, key: value}
        if not read_inputs(WORK, {"tasks": [tried]})[1]:
            kept[key] = value
    return kept


def _linked(task: Task, number: int, tasks: Mapping[str, Task], parts: Collection[str], faults: list[Fault]) -> Task:
    """Return a task without the part and the tasks that are not there, of which the faults tell."""
    if task.part and task.part not in parts:
        hint = near_misses(task.part, list(parts)).removeprefix("; ") or f"the parts are {', '.join(parts)}"
        faults.append(Fault(("tasks", number, "part"), f"the job has no part {task.part!r}", hint))
        task = replace(task, part="")
    for place, other in enumerate(task.after):
        if other not in tasks:
            hint = near_misses(other, list(tasks)).removeprefix("; ") or f"the tasks are {', '.join(tasks)}"
            faults.append(Fault(("tasks", number, "after", place), f"there is no task {other!r}", hint))
    return replace(task, after=tuple(each for each in dict.fromkeys(task.after) if each in tasks))


def _task(row: Mapping[str, Any]) -> Task:
    return Task(
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
