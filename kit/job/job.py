"""An open job: read, computed, changed, and saved without losing anyone's edits."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from kit.core.errors import near_misses
from kit.core.files import write_atomic
from kit.core.quantity import Display
from kit.core.quantity.origin import KEYS as ORIGIN_KEYS
from kit.core.quantity.origin import value_of
from kit.core.summary import some, summary
from kit.job import positions as places
from kit.job import toml_edit as edit
from kit.job.entry import repicked, restated, restated_head
from kit.job.errors import JobError
from kit.job.merge import alone, merged, on_disk
from kit.job.resolver import Resolver
from kit.job.schema import GIVEN_KEYS, GivenEntry, JobPart, Layout, read_layout, sound
from kit.job.toml_edit import ABSENT
from kit.job.toml_file import Source, read, to_write

if TYPE_CHECKING:
    from kit.core.build import Build
    from kit.core.model import Calculation, Case
    from kit.core.quantity import ValueOrigin
    from kit.core.tables import Table
    from kit.core.verdict import Verdict

_META = tuple(key for key in GIVEN_KEYS if key not in ("value", "from"))


class Job:
    """A job file and the changes made to it since it was opened; made by `Job.open`."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._changes: dict[places.Path, Any] = {}
        self.reload()

    @classmethod
    def open(cls, path: str | Path) -> Job:
        """Open the job file at `path`.

        Raises:
            JobError: the file cannot be read as a job; every fault is listed with its line. What a part's model
                thinks of its givens shows when the part is computed, or through `check`.
        """
        return cls(Path(path))

    # -- reading -------------------------------------------------------------------------------------

    @property
    def name(self) -> str:
        """The job's name, or the file's if it has none."""
        return self._layout.name or self.path.stem

    @property
    def about(self) -> str:
        """What the job is about."""
        return self._layout.about

    @property
    def maker(self) -> str:
        """Who makes it, if stated."""
        return self._layout.maker

    @property
    def head(self) -> Mapping[str, str]:
        """What the head of a printed sheet says, as far as stated: prepared_by, checked_by, date, revision."""
        return self._layout.head

    @property
    def display(self) -> Display:
        """The reader's units and fractions."""
        return self._layout.display

    @property
    def machine(self) -> Mapping[str, GivenEntry]:
        """The machine's own measures by name."""
        return self._layout.machine

    @property
    def parts(self) -> Mapping[str, JobPart]:
        """The parts by id, in the order of the file."""
        return self._layout.parts

    @property
    def tables(self) -> Mapping[str, Table]:
        """The tables to which the job adds rows, with these rows; the others are the kit's own."""
        return self._resolver.tables

    def model(self, part_id: str) -> Calculation:
        """Return the model that works out a part."""
        return self._resolver.model(part_id)

    def case(self, part_id: str) -> Case:
        """Return a part computed, with its links to other parts resolved; see `Resolver.case`.

        >>> from kit import open_job
        >>> open_job("boatshed.toml").case("long_stop").show("long_reach")
        '640.0 ± 1 mm'
        """
        return self._resolver.case(part_id)

    def build(self, part_id: str) -> Build | None:
        """Return what is built of a part, or None where its subject builds nothing; see `kit.job.build.build`.

        Raises:
            KitError: the part, or one whose build it takes, cannot be computed or built.

        >>> from kit import open_job
        >>> open_job("boatshed.toml").build("saw_pad").number("twist")
        <twist 0.00 mm: twist that the pads' steps leave>
        """
        from kit.job.build import build  # opening a job loads nothing heavy

        return build(self, part_id)

    def best_build(self, part_id: str) -> Build | None:
        """Return the best that can be built of a part, as the station book shows it; it may take some seconds.

        Raises:
            KitError: as `build`.
        """
        from kit.job.build import best_build

        return best_build(self, part_id)

    def propose(self, part_id: str) -> dict[str, str]:
        """Return the givens to begin with that a part's subject proposes, by name.

        Raises:
            KitError: as `build`, or a subject that proposes nothing.

        >>> from kit import open_job
        >>> open_job("boatshed.toml").propose("test_cuts")["mean"]
        '420.120 mm'
        """
        from kit.job.build import propose

        return propose(self, part_id)

    def verdict(self, part_id: str) -> Verdict:
        """Return what is known of a part: its formulas' and geometry's checks, and the parts it rests on.

        Raises:
            KitError: the part cannot be computed or built, or one that it rests on cannot.

        >>> from kit import open_job
        >>> open_job("boatshed.toml").verdict("long_stop").words
        'all 3 limits hold; 17 of 22 values are examples, not yet yours'
        """
        from kit.job.verdict import verdict

        return verdict(self, self._resolver.part(part_id).id)

    @property
    def example(self) -> bool:
        """Whether the file is a demo's, so that what states no origin is an example."""
        return self._layout.example

    def cell_origins(self, part_id: str) -> dict[tuple[str | int, ...], ValueOrigin]:
        """Return where each value of a part's inputs comes from, by its place; see `Resolver.cell_origins`."""
        return self._resolver.cell_origins(part_id)

    @property
    def level(self) -> float:
        """How sure a limit must be to hold without a word more, from 0.5 to 1."""
        return self._layout.level

    def raw_inputs(self, part_id: str) -> dict[str, Any]:
        """Return what a part states beyond givens and picks, as it stands in the file, without its links."""
        return self._resolver.raw_inputs(part_id)

    def links(self, part_id: str) -> dict[str, Any]:
        """Return the parts whose builds a part takes, by what it takes of them."""
        return self._resolver.links(part_id)

    def takes(self, part_id: str) -> Mapping[str, str]:
        """Return what a part can take of other parts' builds, each with its kind."""
        return self._resolver.takes(part_id)

    def inputs(self, part_id: str) -> dict[str, Any]:
        """Return a part's inputs as its page reads them; see `Resolver.inputs`."""
        return self._resolver.inputs(part_id)

    def place(self, path: places.Path) -> tuple[int, int]:
        """Return line and column of what stands at a path of keys in the file, or of the nearest that holds it."""
        return places.scan(self._source.text).of(path)

    def __repr__(self) -> str:
        return summary(
            f"Job {self.name!r} in {self.path.name}",
            about=self.about,
            parts=some(self.parts, most=6),
            machine=some(f"{name} {entry.text}" for name, entry in self.machine.items()),
            changed="not saved" if self.changed else "",
        )

    # -- changing ------------------------------------------------------------------------------------

    @property
    def changed(self) -> bool:
        """Whether there are changes that are not saved."""
        return bool(self._changes)

    def set(self, part_id: str, name: str, text: str | float, **meta: str | float | None) -> None:
        """State a given of a part, or pick a row of a table; it is written by `save`.

        `meta` are the other keys, None takes one out: spread, k, dof (a row has none of these), origin, measured, how,
        by, source, note. Another quantity than before (value, unit, ±) takes out what was stated about the old one but
        the note; the file's own brings back what the file says of it. Another row takes out what it fills.

        Raises:
            KitError: an unknown part, name or key, or a text that the model cannot read there.

        >>> from kit import open_job
        >>> job = open_job("boatshed.toml")
        >>> job.set("floor_strips", "kerf", "3 ± 0.1 mm", how="calipers")
        >>> job.case("floor_strips")["kerf"], job.changed
        (Quantity('3 mm'), True)
        """
        part, model = self._resolver.part(part_id), self._resolver.model(part_id)
        known = [*model.free, *model.picks]
        if name not in known:
            raise JobError(f"{part.model} has no given {name!r}{near_misses(name, known)}")
        keys = ORIGIN_KEYS if name in model.picks else _META
        for key in meta.keys() - set(keys):
            raise JobError(f"{key!r} cannot be stated for {name}; it has {', '.join(keys)}")
        if name in model.picks:
            now = edit.look(self._data, ("parts", part_id, name))
            row = repicked(now, str(text), meta, example=self.example)
            filled = model.picks[name].fills if value_of(now) != text else ()
            away: dict[tuple[str, ...], Any] = {("givens", given): ABSENT for given in filled if given in part.givens}
            self._change(part, {**away, (name,): row})
            return
        path = ("parts", part_id, "givens", name)
        now, saved = edit.look(self._data, path), edit.look(self._source.data, path)
        self._change(part, {path[2:]: restated(model.free[name], now, saved, text, meta, example=self.example)})

    def set_head(self, **texts: str | None) -> None:
        """State prepared_by, checked_by, date or revision of the sheets; None takes one out. Written by `save`."""
        self._put(restated_head(texts))

    def unset(self, part_id: str, name: str) -> None:
        """Take a given or pick back to what the model says.

        Raises:
            JobError: there is no such part.
        """
        part = self._resolver.part(part_id)
        if name in part.givens:
            self._change(part, {("givens", name): ABSENT})
        elif name in part.picks or name in part.lists:
            self._change(part, {(name,): ABSENT})

    def set_input(self, part_id: str, name: str, raw: Any) -> None:
        """State an input of a part beyond its givens, as plain TOML data; None takes it out. Written by `save`.

        Raises:
            JobError: an unknown part or input, or something in it that the page cannot read; every fault is listed.
        """
        from kit.core.model.inputs import read_inputs

        part, model = self._resolver.part(part_id), self._resolver.model(part_id)
        if name not in model.inputs:
            hint = near_misses(name, list(model.inputs)) or f"; it has {', '.join(model.inputs) or 'none'}"
            raise JobError(f"{part.model} has no input {name!r}{hint}")
        if raw is not None:
            faults = read_inputs({name: model.inputs[name]}, {name: raw}, model.givens)[1]
            if faults:
                raise JobError("\n".join(fault.words for fault in faults))
        self._change(part, {(name,): ABSENT if raw is None else raw})

    def set_link(self, part_id: str, name: str, other: str | None) -> None:
        """State from which part a part takes something; None takes the link out. Written by `save`.

        Raises:
            JobError: an unknown part, a link that the page does not take, or parts that would take each other.
        """
        part, takes = self._resolver.part(part_id), self._resolver.takes(part_id)
        if name not in takes:
            hint = near_misses(name, list(takes)) or f"; it takes {', '.join(takes) or 'nothing'}"
            raise JobError(f"{part.model} does not take {name!r}{hint}")
        if other is not None:
            way = self._resolver.way(self._resolver.part(other).id, part_id)
            if way:
                raise JobError(f"{' → '.join((part_id, *way))} would be linked in a circle; link another part")
        self._change(part, {(name,): ABSENT if other is None else other})

    def set_from(self, part_id: str, name: str, link: str) -> None:
        """State that a given is taken from another part or the machine, such as "frame.tilt". Written by `save`.

        Raises:
            KitError: an unknown part or given, a link to nothing that fits, or one that closes a circle.
        """
        part, old = self._resolver.part(part_id), edit.look(self._data, ("parts", part_id, "givens", name))
        note = {"note": old["note"]} if isinstance(old, Mapping) and "note" in old else {}
        self._change(part, {("givens", name): {"from": link} | note})

    def set_beyond(self, part_id: str, names: Sequence[str]) -> None:
        """State which givens of a part may leave their span knowingly.

        Raises:
            JobError: an unknown part or given.
        """
        part, known = self._resolver.part(part_id), list(self._resolver.model(part_id).free)
        for name in names:
            if name not in known:
                raise JobError(f"{part.model} has no given {name!r}{near_misses(name, known)}")
        self._change(part, {("beyond",): list(names) or ABSENT})

    @contextmanager
    def trial(self) -> Iterator[None]:
        """Take back the changes made within where an error leaves it: either all of them hold or none."""
        before = {**vars(self), "_changes": dict(self._changes)}
        try:
            yield
        except Exception:
            vars(self).update(before)
            raise

    # -- saving --------------------------------------------------------------------------------------

    def save(self, *, force: bool = False) -> None:
        """Write the changes, and only these, into the file as it is on the disk now.

        What was changed by hand meanwhile stays. With `force` our changes win where both changed the same.

        Raises:
            JobChanged: a key was changed by hand and here; nothing is written.
            JobError: the file is not readable as a job any more; nothing is written.
            OSError: the folder cannot be written; nothing is written.

        >>> from kit import open_job
        >>> job = open_job("boatshed.toml")
        >>> job.set("floor_strips", "wanted", 42)
        >>> job.save()
        >>> job.changed
        False
        """
        with alone(self.path):
            while self._changes:
                disk = on_disk(self.path, self._source, force=force)
                source = merged(self.path.name, self._source, disk, self._changes, force=force)
                if force or read(self.path).digest == disk.digest:  # else an editor was quicker: look again
                    layout = sound(read_layout(source.data), source.text, self.path.name)
                    write_atomic(self.path, source.encode(source.text))
                    self._take(source, layout)

    def rewrite(self, change: Callable[[str], str]) -> None:
        """Write at once what `change` makes of the file's text as it is on the disk now, what was set here included.

        Raises:
            JobChanged: as `save`; nothing is written.
            JobError: what comes out is no job; nothing is written.
            OSError: the folder cannot be written; nothing is written.
        """
        with alone(self.path):
            disk = read(self.path)
            source = merged(self.path.name, self._source, disk, self._changes, force=False)
            wanted = to_write(source.encode(change(source.text)), self.path.name)
            layout = sound(read_layout(wanted.data), wanted.text, self.path.name)
            write_atomic(self.path, wanted.encode(wanted.text))
            self._take(wanted, layout)

    def reload(self) -> None:
        """Read the file anew and drop the changes made here. Raises as `open`."""
        source = read(self.path)
        self._take(source, sound(read_layout(source.data), source.text, self.path.name))

    # -- inside --------------------------------------------------------------------------------------

    def _take(self, source: Source, layout: Layout) -> None:
        self._changes.clear()
        self._source, self._data = source, source.data
        self._layout, self._resolver = layout, Resolver(layout)

    def _change(self, part: JobPart, values: Mapping[tuple[str, ...], Any]) -> None:
        """Change what stands under a part, if the job can then be read and the model takes what is stated."""
        self._put({("parts", part.id, *inner): value for inner, value in values.items()})

    def _put(self, values: Mapping[places.Path, Any]) -> None:
        data = self._data
        for path, value in values.items():
            data = edit.placed(data, path, value)
        layout = sound(read_layout(data), self._source.text, self.path.name)
        resolver = Resolver(layout)
        for path in (path for path in values if path[0] == "parts"):
            resolver.try_one(str(path[1]), str(path[-1]))
        self._data, self._layout, self._resolver = data, layout, resolver
        for path, value in values.items():
            if edit.look(self._source.data, path) == value:
                self._changes.pop(path, None)
            else:
                self._changes[path] = value
