"""The parts of a job put together: added, copied, renamed, moved, taken out; every change is written at once."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from kit.job import part_text
from kit.job.errors import JobError
from kit.job.place import BODY_KEYS, body_faults, place_links, read_place, standing
from kit.job.positions import Path
from kit.job.schema import MACHINE
from kit.job.toml_edit import ABSENT, look, put
from kit.subjects import heading, makes, names, subject

if TYPE_CHECKING:
    from kit.job.job import Job


@dataclass(frozen=True)
class Link:
    """A link to a part: which part has it, under which name, and what it takes ("frame.tilt"; a build by its part)."""

    part: str
    name: str
    takes: str
    path: Path

    @property
    def cut(self) -> Path:
        """What goes with the part that it leads to: who stands on that has no place any more."""
        return self.path[: 3 if self.path[2] == "place" else 4]

    @property
    def words(self) -> str:
        """What is linked, as a person reads it."""
        return f"{self.name.replace('_', ' ')} of {self.part}"


def links_to(job: Job, part_id: str) -> tuple[Link, ...]:
    """Return every link of other parts to a part, those of their places and bodies too."""
    found = (link for id in job.parts for link in (*_links(job, id), *_of_place(job, id)))
    return tuple(link for link in found if link.takes.partition(".")[0] == part_id != link.part)


def links_of(job: Job, part_id: str) -> tuple[Link, ...]:
    """Return every link of a part to others and to the machine's measures."""
    return tuple(_links(job, part_id))


def _links(job: Job, id: str) -> Iterator[Link]:
    for name, other in job.links(id).items():
        if isinstance(other, str):
            yield Link(id, name, other, ("parts", id, name))
    for name, entry in job.parts[id].givens.items():
        if entry.link:
            yield Link(id, name, ".".join(entry.link), ("parts", id, "givens", name, "from"))


def _of_place(job: Job, id: str) -> Iterator[Link]:
    yield from (Link(id, name, takes, ("parts", id, *at)) for name, takes, at in place_links(job.parts[id]))


def free_id(job: Job, wanted: str) -> str:
    """Return an id for a new part that is made of words and not taken yet.

    >>> from kit import open_job
    >>> free_id(open_job("boatshed.toml"), "Long stop")
    'long_stop_2'
    """
    plain, number = _plain(wanted), 1
    while (id := plain if number == 1 else f"{plain}_{number}") in job.parts:
        number += 1
    return id


def _plain(wanted: str) -> str:
    plain = re.sub(r"[^a-z0-9]+", "_", wanted.lower()).strip("_") or "part"
    return f"{plain}_part" if plain == MACHINE else plain


def add_part(job: Job, model: str, title: str = "", *, says: Mapping[str, Any] | None = None) -> str:
    """Add a part in building order, linked to what it can take from the parts before it; return its id.

    Raises:
        KitError: an unknown model, or a file that cannot be written as it is; nothing is written.
    """
    said = {**offered(job, model), **(says or {})}  # raises for an unknown model
    id, order = free_id(job, title or model), names().index(model)
    title = title or heading(model)[0]
    later = [other for other, part in job.parts.items() if part.model in names() and names().index(part.model) > order]
    told = {"model": model, "title": title, **said}
    job.rewrite(lambda text: part_text.with_part(text, id, told, later[0] if later else None))
    return id


def offered(job: Job, model: str) -> dict[str, str]:
    """Return the first part of the job that makes each thing which a page takes; no part twice."""
    found: dict[str, str] = {}
    for name, kind in subject(model).takes.items():
        made = (id for id in job.parts if kind in makes(job.parts[id].model) and id not in found.values())
        first = next(made, None)
        if first is not None and kind not in [subject(model).takes[other] for other in found]:
            found[name] = first
    return found


def copy_part(job: Job, part_id: str) -> str:
    """Add a copy of a part right below it, with the same links; return its id. Raises as `add_part`.

    Two cannot stand at one place: the copy of what stands in the station does not stand there.
    """
    title = f"{job.parts[part_id].title or part_id} (copy)"
    new = free_id(job, f"{part_id}_copy")
    stands = part_id in standing(job).frames

    def change(text: str) -> str:
        text = part_text.with_copy(text, part_id, new, title)
        return put(text, ("parts", new, "place"), False) if stands else text

    job.rewrite(change)
    return new


def rename_part(job: Job, part_id: str, title: str) -> str:
    """Give a part another title, and an id made of it to which links and tasks follow; return that id.

    Raises:
        JobError: an empty title, or as `add_part`.
    """
    if not title.strip():
        raise JobError("a part needs a name; write what it is, such as Long stop")
    new = part_id if _plain(title) == part_id else free_id(job, title)
    own = (link for link in _of_place(job, part_id) if link.takes.partition(".")[0] == part_id)
    links = [link.path for link in (*links_to(job, part_id), *own)]

    def change(text: str) -> str:
        text = put(text, ("parts", part_id, "title"), title.strip())
        return text if new == part_id else _with_tasks(part_text.with_name(text, part_id, new, links), part_id, new)

    job.rewrite(change)
    return new


def remove_part(job: Job, part_id: str) -> tuple[Link, ...]:
    """Take a part out, and the links to it; return these links. What was linked stands as its page has it.

    Tasks that are done for it stay, for no part.

    Raises:
        JobError: as `add_part`.
    """
    links = links_to(job, part_id)

    def change(text: str) -> str:
        for link in links:
            text = put(text, link.cut, ABSENT)
        return _with_tasks(part_text.without_part(text, part_id), part_id, ABSENT)

    job.rewrite(change)
    return links


def _with_tasks(text: str, part_id: str, new: Any) -> str:
    """State another part, or none, for the tasks that are done for a part."""
    tasks = look(tomllib.loads(text), ("work", "tasks"))
    for number, task in enumerate(tasks if isinstance(tasks, list) else []):
        if isinstance(task, Mapping) and task.get("part") == part_id:
            text = put(text, ("work", "tasks", number, "part"), new)
    return text


def move_part(job: Job, part_id: str, by: int) -> None:
    """Move a part up (-1) or down (1) among the others; at the end of the list it stays. Raises as `add_part`."""
    order = [id for id in job.parts if id != part_id]
    at = list(job.parts).index(part_id) + by
    if 0 <= at <= len(order):
        before = order[at] if at < len(order) else None
        job.rewrite(lambda text: part_text.with_part_moved(text, part_id, before))


def place_part(job: Job, part_id: str, place: Mapping[str, Any] | bool | None) -> None:
    """Say where a part stands in the station, as in its file; False: it does not, None: nothing is said of it.

    Raises:
        JobError: something of it cannot be read, it would stand on itself, or as `add_part`.
    """
    if isinstance(place, Mapping):
        read_place(part_id, place, job)
    told = ABSENT if place is None or place is True else dict(place) if place else False
    job.rewrite(lambda text: put(text, ("parts", part_id, "place"), told))


def state_body(job: Job, part_id: str, body: Mapping[str, Any]) -> None:
    """State of a part's body what its page does not know, as in its file; nothing where it is empty.

    Raises:
        JobError: something of it cannot be read, or as `add_part`.
    """
    for fault in body_faults(part_id, body, job):
        raise JobError(fault.words)
    at = ("parts", part_id, "body")

    def change(text: str) -> str:
        if not body or not isinstance(job.parts[part_id].body, Mapping):
            return put(text, at, dict(body) or ABSENT)
        for key in BODY_KEYS:  # one by one, so that a list over several lines stays as it is typed
            text = put(text, (*at, key), body.get(key, ABSENT))
        return text

    job.rewrite(change)
