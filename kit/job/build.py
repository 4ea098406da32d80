"""From a part of a job to what is built of it, each once for the same inputs."""

from __future__ import annotations

import json
from collections import OrderedDict
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from hashlib import sha256
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Any

from kit.core.build import Build, BuildInput
from kit.core.errors import KitError, near_misses
from kit.core.files import MOST_BYTES, content_digest, located
from kit.core.model.digest import digest
from kit.core.model.inputs import stated_inputs
from kit.job.stated import stated_tables
from kit.subjects import subject

if TYPE_CHECKING:
    from kit.core.build import Progress
    from kit.core.model import Case
    from kit.core.quantity import Display
    from kit.core.subject import Task
    from kit.job.job import Job

    Builder = Callable[[BuildInput], Build]

PRINTER = {"x": "printer_x", "y": "printer_y"}
"""The measures of a job's [machine] that state how long its printer prints the check bars along x and along y."""
_KEPT = 48
_built: OrderedDict[str, Build] = OrderedDict()
_making: dict[str, Lock] = {}


def standalone(case: Case, display: Display, raw: Mapping[str, Any] | None = None) -> BuildInput:
    """Return the input for a case without a job, `raw` stated beside it; paths are relative to the kit's own data.

    Raises:
        KitError: something in `raw` that the page cannot read.
    """
    from kit.core.resources import data_dir

    model, raw = case.model, raw or {}
    return BuildInput(case, display, stated_inputs(model.inputs, raw, model.givens), data_dir(), raw=raw)


def build_input(
    job: Job, part_id: str, *, raw: Mapping[str, Any] | None = None, links: Mapping[str, Any] | None = None
) -> BuildInput:
    """Return what a part is built from, with what it takes already built.

    `raw` and `links` stand for what the job states beside the givens and for the parts that it takes.

    Raises:
        KitError: the part cannot be computed, or what it takes is not stated, not there, or cannot be built.
    """
    return _input(job, part_id, (), raw, links)


def build(job: Job, part_id: str) -> Build | None:
    """Return what is built of a part, or None where its subject builds nothing.

    Raises:
        KitError: as `build_input`, or what the builder itself says.
    """
    return _build(build_input(job, part_id), part_id)


def best_build(job: Job, part_id: str, progress: Progress | None = None) -> Build | None:
    """Return the best that can be built of a part, the same every time, or the answer of `build`.

    `progress` may stop it: what is stopped is not kept.

    Raises:
        KitError: as `build`.
    """
    return best_of(build_input(job, part_id), part_id, progress or to_the_end)


def to_the_end(_share: float, _words: str) -> bool:
    """Let a task go on: nobody waits for word of it, or wants to stop it."""
    return True


def best_of(inputs: BuildInput, part_id: str, progress: Progress = to_the_end) -> Build | None:
    """Return the best that can be built for inputs at hand, as `best_build`; what is stopped is not kept.

    Raises:
        KitError: what the builder says.
    """
    return _build(inputs, part_id, best=progress)


def best_known(inputs: BuildInput) -> Build | None:
    """Return the best that was built for the same inputs before, or None."""
    known = _built.get(_key(inputs, input_digest(inputs), best=True))
    return known and replace(known, stated=stated_tables(inputs))


def propose(job: Job, part_id: str) -> dict[str, str]:
    """Return the givens to begin with that a part's subject proposes from what it takes and is stated beside them.

    Raises:
        KitError: as `build_input`, or a subject that proposes nothing.
    """
    inputs = build_input(job, part_id)
    proposes = subject(inputs.case.model.name).propose
    if proposes is None:
        raise KitError(f"part {part_id} is computed by {inputs.case.model.name}, which proposes no givens")
    return proposes(inputs)


def forget() -> None:
    """Forget what was built so far."""
    _built.clear()


def input_digest(inputs: BuildInput) -> str:
    """Return 12 hexadecimal digits that change with the case, what is stated beside it, its files and what it takes."""
    if not inputs.raw and not inputs.printer:
        return digest(inputs.case)
    stated = json.dumps([inputs.raw, inputs.printer], sort_keys=True, default=str)
    read = [content_digest(path, MOST_BYTES) for path in read_files(inputs.raw, inputs.folder)]
    taken = [build.inputs for build in inputs.takes.values()]
    return sha256("\n".join([digest(inputs.case), stated, *read, *taken]).encode()).hexdigest()[:12]


def read_files(stated: Any, folder: Path) -> Iterator[Path]:
    """Yield whatever texts lead to, in the job's folder or outside: what a builder may read."""
    for text in _texts(stated):
        path = located(folder, text) if text else None
        if path is not None and not path.is_dir():
            yield path


def _texts(stated: Any) -> Iterator[str]:
    if isinstance(stated, Mapping):
        stated = list(stated.values())
    if isinstance(stated, list):
        for each in stated:
            yield from _texts(each)
    elif isinstance(stated, str):
        yield stated


def _input(
    job: Job,
    part_id: str,
    ahead: tuple[str, ...],
    raw: Mapping[str, Any] | None = None,
    links: Mapping[str, Any] | None = None,
) -> BuildInput:
    if part_id in ahead:
        raise KitError(f"{' → '.join((*ahead, part_id))} are linked in a circle; take one link out")
    case, links = job.case(part_id), job.links(part_id) if links is None else links
    takes = subject(case.model.name).takes
    for name in links:
        if name not in takes:
            hint = near_misses(name, list(takes)) or f"; it takes {', '.join(takes) or 'nothing'}"
            raise KitError(f"part {part_id}: {case.model.name} does not take {name!r}{hint}")
    taken = {name: _taken(job, other, part_id, name, (*ahead, part_id)) for name, other in links.items()}
    bars = {side: job.machine[name].text for side, name in PRINTER.items() if name in job.machine}
    stated = job.inputs(part_id) if raw is None else stated_inputs(case.model.inputs, raw, case.model.givens)
    raw = job.raw_inputs(part_id) if raw is None else raw
    signed = {**raw, "takes": links} if links else raw
    return BuildInput(case, job.display, stated, job.path.parent, taken, bars, signed, example=job.example)


def _taken(job: Job, other: Any, part_id: str, name: str, ahead: tuple[str, ...]) -> Build:
    if other not in job.parts:
        hint = near_misses(str(other), list(job.parts))
        raise KitError(f"part {part_id} takes its {name} from {other!r}, but the job has no such part{hint}")
    build = _build(_input(job, other, ahead), other)
    if build is None:
        raise KitError(f"part {part_id} takes its {name} from {other}, but {other} has no geometry")
    return build


def _build(inputs: BuildInput, part_id: str, *, best: Progress | None = None) -> Build | None:
    page = subject(inputs.case.model.name)
    if page.build is None:
        return None
    task, signed = page.best if best else None, input_digest(inputs)
    key, stopped = _key(inputs, signed, best=task is not None), False

    def going(share: float, words: str) -> bool:
        nonlocal stopped
        stopped = stopped or not (best and best(share, words))
        return not stopped

    try:
        with _making.setdefault(key, Lock()):  # who asks for it meanwhile waits for it
            if key not in _built:
                try:
                    made = page.build(inputs) if task is None else _tasked(task, page.build, inputs, going)
                    fresh = replace(made, inputs=signed, stated=stated_tables(inputs))
                except KitError as error:
                    raise KitError(f"part {part_id}: {error}") from error
                if stopped or input_digest(inputs) != signed:
                    return fresh  # it is built anew when it is asked for again, as where a file changed meanwhile
                _built[key] = fresh
                while len(_built) > _KEPT:
                    _built.popitem(last=False)
            _built.move_to_end(key)
            return _built[key]
    finally:
        _making.pop(key, None)


def _tasked(task: Task, builder: Builder, inputs: BuildInput, progress: Progress) -> Build:
    """Return the answer of a task; where it has none, what is built without it, left open why."""
    try:
        return task(inputs, progress)
    except KitError as error:
        made = builder(inputs)
        return replace(made, open=(str(error), *made.open))


def _key(inputs: BuildInput, signed: str, *, best: bool) -> str:
    return f"{signed} {inputs.display} {inputs.example} {best}"
