"""The parts of a job computed: rows of its own tables, links from part to part, cases and their digests."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import replace
from functools import cached_property
from math import isfinite
from typing import TYPE_CHECKING, Any

from kit import subjects
from kit.core.errors import KitError, near_misses
from kit.core.quantity.origin import ValueOrigin, read_origin, value_of
from kit.job.errors import JobError
from kit.job.order import upstream_first
from kit.job.schema import MACHINE, GivenEntry, JobPart, Layout

if TYPE_CHECKING:
    from kit.core.model import Case, Model, Stated
    from kit.core.model.inputs import Fault
    from kit.core.tables import Table


class Resolver:
    """One state of a job with the cases computed in it so far, each once.

    `tables` are the kit's with the job's rows; they are made from the layout unless given.
    """

    def __init__(self, layout: Layout, tables: Mapping[str, Table] | None = None) -> None:
        self.layout = layout
        if tables is not None:
            self.tables = dict(tables)
        self._cases: dict[str, Case] = {}

    @cached_property
    def tables(self) -> dict[str, Table]:
        """The tables to which the job adds rows, with these rows.

        Raises:
            KitError: an unknown table, or rows that are wrong.
        """
        from kit.core.tables import table, with_rows

        return {
            name: with_rows(table(name), [{**cells, "id": id} for id, cells in rows.items()])
            for name, rows in self.layout.tables.items()
        }

    def part(self, id: str) -> JobPart:
        """Return the part of that id.

        Raises:
            JobError: the job has no such part; the nearest are listed.
        """
        parts = self.layout.parts
        if id not in parts:
            hint = near_misses(id, list(parts)) or f"; its parts are {', '.join(parts) or 'none yet'}"
            raise JobError(f"the job has no part {id!r}{hint}")
        return parts[id]

    def model(self, id: str) -> Model:
        """Return the model of a part."""
        return subjects.model(self.part(id).model)

    def raw_inputs(self, id: str) -> dict[str, Any]:
        """Return what a part states beyond givens and picks, as it stands in the file, without its links."""
        part, page = self.part(id), subjects.subject(self.part(id).model)
        texts = {name: raw for name, raw in part.picks.items() if name in page.model.inputs}
        return texts | {name: raw for name, raw in part.lists.items() if name not in (*page.takes, *page.model.picks)}

    def rows(self, id: str) -> dict[str, Stated]:
        """Return the rows of tables that a part picks, by name.

        Raises:
            JobError: a row is no text, or something is wrong with its origin.
        """
        part = self.part(id)
        own = {**part.picks, **part.lists}
        return {name: self._row(id, name, own[name]) for name in self.model(id).picks if name in own}

    def _row(self, id: str, name: str, raw: Any) -> Stated:
        from kit.core.model import Stated

        row, told = value_of(raw), raw if isinstance(raw, Mapping) else {}
        if not isinstance(row, str):
            raise JobError(f"part {id}: {name} is no row of a table; write its name in quotes")
        origin, faults = read_origin(told, example=self.layout.example)
        if faults:
            raise JobError(f"part {id}: {faults[0].message}; {faults[0].remedy}")
        return Stated(row, origin=origin)

    def cell_origins(self, id: str) -> dict[tuple[str | int, ...], ValueOrigin]:
        """Return where each value of a part's inputs comes from, by its place below the part."""
        from kit.core.model.input_origins import cell_origins

        return cell_origins(self.model(id).inputs, self.raw_inputs(id), example=self.layout.example)

    def takes(self, id: str) -> Mapping[str, str]:
        """Return what a part can take of other parts' builds, each with its kind."""
        return subjects.subject(self.part(id).model).takes

    def links(self, id: str) -> dict[str, Any]:
        """Return the parts whose builds a part takes, by what it takes of them, as it stands in the file."""
        part, takes = self.part(id), self.takes(id)
        own = {**part.picks, **part.lists}
        return {name: raw for name, raw in own.items() if name in takes}

    def way(self, id: str, goal: str, ahead: tuple[str, ...] = ()) -> tuple[str, ...]:
        """Return the parts from one to another along what each takes, both ends included; none where no way leads."""
        if id == goal:
            return (*ahead, id)
        if id in ahead:
            return ()
        onward = (other for other in self.links(id).values() if other in self.layout.parts)
        return next(filter(None, (self.way(other, goal, (*ahead, id)) for other in onward)), ())

    def read_inputs(self, id: str) -> tuple[dict[str, Any], list[Fault]]:
        """Return a part's inputs as its page reads them, and every fault with its place below the part."""
        from kit.core.model.inputs import read_inputs

        model = self.model(id)
        return read_inputs(model.inputs, self.raw_inputs(id), model.givens)

    def inputs(self, id: str) -> dict[str, Any]:
        """Return a part's inputs as its page reads them.

        Raises:
            JobError: something cannot be read; every fault is listed.
        """
        found, faults = self.read_inputs(id)
        if faults:
            raise JobError("\n".join(f"part {id}: {each.words}" for each in faults))
        return found

    def case(self, id: str) -> Case:
        """Return a part computed, its links resolved.

        Raises:
            JobError: the part or one that it is linked to cannot be computed; the error below it is its cause.
        """
        if id not in self._cases:
            order, circle = upstream_first([self.part(id).id], self._to_compute)
            if circle:
                round_ = " → ".join(circle)
                raise JobError(f"the links of the parts run in a circle, {round_}; state one of them as a quantity")
            for each in order:
                self._cases[each] = self._computed(self.part(each))
        return self._cases[id]

    def linked(self, id: str) -> Iterator[str]:
        """Yield the parts of the job to which a part's givens are linked, in their order."""
        part = self.layout.parts.get(id)
        if part is not None:
            links = (entry.link[0] for entry in part.givens.values() if entry.link)
            yield from (other for other in links if other in self.layout.parts)

    def _to_compute(self, id: str) -> Iterator[str]:
        return (other for other in self.linked(id) if other not in self._cases)

    def _computed(self, part: JobPart) -> Case:
        """Return a part's case, computed anew from those that its links need."""
        try:
            model = self.model(part.id)
            typed = {name: self.stated(part.id, name) for name in part.givens}
            return model.at(beyond=part.beyond, tables=self.tables, **typed, **self.rows(part.id))
        except JobError:
            raise
        except KitError as error:
            raise JobError(f"part {part.id}: {error}") from error

    def stated(self, id: str, name: str) -> Stated:
        """Return a given of a part as its model takes it; a link brings the other part's value and uncertainty.

        A result comes with its first-order standard uncertainty as a normal spread, a given with its own.
        What two parts share through links is treated as independent.

        Raises:
            KitError: a link to a part or quantity that is not there, or that leads back to its own part.
        """
        entry = self.part(id).givens[name]
        return entry.stated if entry.link is None else self._linked(id, name, entry, *entry.link)

    def _linked(self, id: str, name: str, entry: GivenEntry, other: str, wanted: str) -> Stated:
        from kit.core.model import Stated, in_words
        from kit.core.quantity import Quantity
        from kit.core.uncertainty import budget

        where = f"{other}.{wanted}"
        if other == MACHINE:
            known = self.layout.machine
            if wanted not in known:
                hint = near_misses(wanted, list(known)) or f"; there are {', '.join(known) or 'none'}"
                raise JobError(f"part {id}: {name} is linked to {where}, but the machine has no {wanted!r}{hint}")
            found = known[wanted].stated
            source = found.origin.source or f"the machine's {in_words(wanted)}"
            return replace(found, origin=replace(found.origin, source=source))
        self.check_link(id, name)
        case = self.case(other)
        if wanted in case.entries:
            spread = case.entries[wanted].spread
            half, shape, k, dof = spread.half, spread.shape, spread.k, spread.dof
        else:
            worked = budget(case, wanted)
            half, shape, k, dof = worked.u, "normal", 1.0, worked.dof
        if not isfinite(half):
            raise JobError(
                f"part {id}: {where} has no finite uncertainty there; state {name} as a quantity instead of a link"
            )
        text = str(Quantity.from_base(case.base[wanted], case.model.part(wanted).unit, half))
        source = entry.origin.source or f"part {other}: {in_words(wanted)}"
        return Stated(text, shape, k, dof, replace(entry.origin, source=source))

    def try_one(self, id: str, name: str) -> None:
        """See whether a part's model takes one given or pick as the job states it, whatever the others are.

        A pick is tried with what the job states for the givens that it fills. A name that is not stated is fine.

        Raises:
            KitError: it does not; a `SpanError` where the value is outside the span and not said to be beyond.
        """
        from kit.core.model import NoValueError

        part, model = self.part(id), self.model(id)
        typed: dict[str, str | Stated] = {}
        names = [name]
        if name in model.picks:
            typed |= {row: stated for row, stated in self.rows(id).items() if row == name}
            names += model.picks[name].fills
        typed |= {given: self.stated(id, given) for given in names if given in part.givens}
        beyond = [given for given in part.beyond if given in model.free]
        if typed:
            with suppress(NoValueError):  # the others may be what leaves it without a value
                model.at(beyond=beyond, tables=self.tables, **typed)

    def check_link(self, id: str, name: str) -> None:
        """See whether a given's link to a part leads somewhere, without computing it.

        Raises:
            JobError: an unknown part or quantity, or one of another dimension.
        """
        other, wanted = self.part(id).givens[name].link or ("", "")
        where = f"part {id}: {name} is linked to {other}.{wanted}"
        if other not in self.layout.parts:
            hint = near_misses(other, list(self.layout.parts)) or "; link to a part of this job or to the machine"
            raise JobError(f"{where}, but the job has no part {other!r}{hint}")
        theirs = self.model(other)
        known = [*theirs.relations, *theirs.givens]
        if wanted not in known:
            hint = near_misses(wanted, known) or f"; its results are {', '.join(theirs.results)}"
            raise JobError(f"{where}, but {theirs.name} has no {wanted!r}{hint}")
        own, far = self.model(id).free.get(name), theirs.part(wanted)
        if own is None:
            return
        if "choice" in (own.kind, getattr(far, "kind", "")):
            raise JobError(f"{where}, but a choice cannot be linked; write its option")
        if not own.unit.takes(far.unit):
            raise JobError(
                f"{where}, which is {far.unit.kind}, but must be {own.unit.kind}; link it to another quantity"
            )
