"""From a part of a job to what its work makes of it, each once for the same inputs."""

from __future__ import annotations

import json
from collections import OrderedDict
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from hashlib import sha256
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING, Any

from kit.errors import KitError, near_misses
from kit.files import MOST_BYTES, content_digest
from kit.model.digest import digest
from kit.works.told import located
from kit.works.work import Made, Order, Progress

if TYPE_CHECKING:
    from kit.job import Job
    from kit.model import Case
    from kit.quantity import Display

PRINTER = {"x": "printer_x", "y": "printer_y"}
"""The measures of a job's [machine] that tell how long its printer prints the check bars along x and along y."""
_KEPT = 24
_LONGEST_PATH = 200  # what is longer is a text
_made: OrderedDict[str, Made] = OrderedDict()


@dataclass(frozen=True)
class Work:
    """A work's module, with what it leaves out filled in."""

    make: Callable[[Order], Made]
    takes: tuple[str, ...]
    tasks: Mapping[str, Callable[[Order, Progress], Made]]
    propose: Callable[[Order], dict[str, str]] | None


def work_of(model_name: str) -> Work | None:
    """Return the work that hangs on a model, or None."""
    name = model_name.replace(".", "_")
    if find_spec(f"kit.works.{name}") is None:
        return None
    module = import_module(f"kit.works.{name}")
    return Work(
        module.make,
        getattr(module, "TAKES", ()),
        getattr(module, "TASKS", {}),
        getattr(module, "propose", None),
    )


def alone(case: Case, display: Display) -> Order:
    """Return the order for a case without a job; paths are relative to the kit's own data."""
    from kit.tables import data_dir

    return Order(case, display, {}, data_dir())


def order(job: Job, part_id: str) -> Order:
    """Return the order for a part, what it takes made.

    Raises:
        KitError: the part cannot be worked, or what it takes is not told, not there, or cannot be made.
    """
    return _order(job, part_id, ())


def _order(job: Job, part_id: str, ahead: tuple[str, ...]) -> Order:
    if part_id in ahead:
        raise KitError(f"the shapes of {' → '.join((*ahead, part_id))} take each other in a circle; cut it")
    case, shape = job.case(part_id), job.parts[part_id].shape
    work = work_of(case.model.name)
    named = shape.get("takes", {})
    if not isinstance(named, Mapping):
        raise KitError(
            f'part {part_id}: takes is no table; write it such as takes = {{ envelope = "sweep" }}'
        )
    for name in named:
        if work is None or name not in work.takes:
            known = list(work.takes) if work else []
            hint = near_misses(name, known) or f"; it takes {', '.join(known) or 'nothing'}"
            raise KitError(f"part {part_id}: {case.model.name} does not take {name!r}{hint}")
    takes = {name: _made_of(job, other, part_id, name, (*ahead, part_id)) for name, other in named.items()}
    bars = {side: job.machine[name].text for side, name in PRINTER.items() if name in job.machine}
    return Order(case, job.display, shape, job.path.parent, takes, bars)


def _made_of(job: Job, other: Any, part_id: str, name: str, ahead: tuple[str, ...]) -> Made:
    if other not in job.parts:
        hint = near_misses(str(other), list(job.parts))
        raise KitError(f"part {part_id} takes its {name} from {other!r}, but the job has no such part{hint}")
    made = _make(_order(job, other, ahead), other)
    if made is None:
        raise KitError(f"part {part_id} takes its {name} from {other}, but {other} makes no shape")
    return made


def made(job: Job, part_id: str) -> Made | None:
    """Return what a part's work makes, or None where the part's model has no work.

    Raises:
        KitError: as `order`, or what the work itself says.
    """
    return _make(order(job, part_id), part_id)


def _make(wanted: Order, part_id: str) -> Made | None:
    work = work_of(wanted.case.model.name)
    if work is None:
        return None
    told = inputs(wanted)
    key = f"{told} {wanted.display}"
    if key not in _made:
        try:
            fresh = replace(work.make(wanted), inputs=told)
        except KitError as error:
            raise KitError(f"part {part_id}: {error}") from error
        if inputs(wanted) != told:
            return fresh  # a file changed meanwhile: it is made anew when it is asked for again
        _made[key] = fresh
        while len(_made) > _KEPT:
            _made.popitem(last=False)
    _made.move_to_end(key)
    return _made[key]


def forget() -> None:
    """Forget what was made so far."""
    _made.clear()


def thorough(job: Job, part_id: str) -> Made | None:
    """Return the best that a part's work can do: the answer of its first task, or of `make` if it has none.

    Raises:
        KitError: as `made`.
    """
    wanted = order(job, part_id)
    work = work_of(wanted.case.model.name)
    if work is None or not work.tasks:
        return _make(wanted, part_id)
    try:
        best = next(iter(work.tasks.values()))(wanted, lambda _share, _words: True)
    except KitError as error:
        raise KitError(f"part {part_id}: {error}") from error
    return replace(best, inputs=inputs(wanted))


def inputs(wanted: Order) -> str:
    """Return 12 hexadecimal digits that change with the case, the shape as told, its files, and what it takes."""
    if not wanted.shape and not wanted.printer:
        return digest(wanted.case)
    told = json.dumps([wanted.shape, wanted.printer], sort_keys=True, default=str)
    read = [content_digest(path, MOST_BYTES) for path in _read_files(wanted.shape, wanted.folder)]
    taken = [made.inputs for made in wanted.takes.values()]
    return sha256("\n".join([digest(wanted.case), told, *read, *taken]).encode()).hexdigest()[:12]


def _read_files(told: Any, folder: Path) -> Iterator[Path]:
    """Yield whatever the texts in a shape lead to, in the job's folder or outside: what a work may read."""
    for text in _texts(told):
        path = located(folder, text) if text else None
        if path is not None and not path.is_dir():
            yield path


def _texts(told: Any) -> Iterator[str]:
    if isinstance(told, Mapping):
        told = list(told.values())
    if isinstance(told, list):
        for each in told:
            yield from _texts(each)
    elif isinstance(told, str):
        yield told


def named_files(told: Any, folder: Path) -> Iterator[Path]:
    """Yield each file below a job's folder that a text in a shape names."""
    for text in _texts(told):
        if "." not in text or len(text) >= _LONGEST_PATH:
            continue
        path = folder / text
        if path.is_file() and path.resolve().is_relative_to(folder.resolve()):
            yield path
