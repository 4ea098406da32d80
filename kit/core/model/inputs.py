"""Structured inputs: what a person states of a part beyond single numbers, stated once.

A page names them after its givens, and everything else derives from that one statement: reading with units, spans
and ± cell by cell, the list of models, the check of a job with each fault at its own place, tables to edit, and the
sheet's table of what is given:

    M.inputs(
        rows(
            "gaps",
            "gaps beyond the three of this page",
            amount("x", "place along the bed", span=(-5000, 5000)),
            amount("depth", "depth below the straightedge", span=(0, 50), sure=True),
        ),
    )

What is read are plain values: a `Quantity`, text, a tuple, or a mapping by name.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from kit.core.errors import KitError, near_misses
from kit.core.quantity import Display
from kit.core.quantity.origin import KEYS, read_origin

Path = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong at a place below a part: what was given, and what to do."""

    at: Path
    message: str
    remedy: str

    @property
    def words(self) -> str:
        """The fault in one sentence, with its place where it stands inside a list or table."""
        named = bool(self.at) and isinstance(self.at[-1], str) and self.at[-1] in self.message
        inner = self.at[:-1] if named else self.at
        place = ", ".join(f"number {key + 1}" if isinstance(key, int) else str(key) for key in inner)
        return f"{place}: {self.message}; {self.remedy}" if place else f"{self.message}; {self.remedy}"


@dataclass
class Reading:
    """One reading of a part's inputs: the faults found on the way, and the names that bounds may use."""

    names: Collection[str] = ()
    faults: list[Fault] = field(default_factory=list)

    def fault(self, at: Path, message: str, remedy: str) -> None:
        """Note a fault and read on."""
        self.faults.append(Fault(at, message, remedy))


def read_keys(raw: Mapping[str, Any], known: Sequence[str], at: Path, reading: Reading) -> None:
    """Note the keys of a table that are neither `known` nor state its origin, and what is wrong with that."""
    for key in raw:
        if key not in known and key not in KEYS:
            near = near_misses(str(key), list(known)).removeprefix("; ")
            reading.fault((*at, key), f"unknown input {key!r}", near or f"the entries here are {', '.join(known)}")
    for fault in read_origin({key: told for key, told in raw.items() if key not in known})[1]:
        reading.fault((*at, fault.key), fault.message, fault.remedy)


def bare(name: str, raw: Any, at: Path, reading: Reading, such_as: str) -> Any:
    """Return a value that may stand in a table with its origin; None, with a fault, where the table has no value."""
    if not isinstance(raw, Mapping):
        return raw
    read_keys(raw, ("value",), at, reading)
    if "value" not in raw:
        reading.fault(at, f"{name} has no value", f"write such as {{ value = {such_as} }}")
    return raw.get("value")


@dataclass(frozen=True, kw_only=True)
class Input:
    """Something that can be stated: its key, its meaning, and whether it must be.

    `together` are the inputs of a page of which none is stated without this one.
    """

    name: str
    meaning: str
    needed: bool = False
    together: tuple[str, ...] = ()

    kind = "input"

    def read(self, raw: Any, at: Path, reading: Reading) -> Any:
        """Return what `raw` says; what is wrong goes to `reading`, and None is returned in its place."""
        raise NotImplementedError

    def missing(self) -> Any:
        """Return what stands where nothing is stated."""
        return None

    def schema(self) -> dict[str, Any]:
        """Return the input as plain data."""
        data = {"name": self.name, "kind": self.kind, "meaning": self.meaning, "needed": self.needed}
        return data | ({"together": list(self.together)} if self.together else {})

    def words(self, value: Any, display: Display | None = None) -> str:
        """Return what was read as a person reads it."""
        return str(value)


def read_inputs(
    inputs: Mapping[str, Input], raw: Mapping[str, Any], names: Collection[str] = ()
) -> tuple[dict[str, Any], list[Fault]]:
    """Return what `raw` states of `inputs`, defaults where it states nothing, and every fault with its place.

    `names` are the givens that a bound may name.
    """
    reading = Reading(names)
    for key in raw:
        if key not in inputs:
            near = near_misses(str(key), list(inputs)).removeprefix("; ")
            remedy = near or (f"the inputs are {', '.join(inputs)}" if inputs else "this page takes none; take it out")
            reading.fault((key,), f"unknown input {key!r}", remedy)
    found = {
        name: each.read(raw[name], (name,), reading) if name in raw else each.missing() for name, each in inputs.items()
    }
    for name, each in inputs.items():
        if name in raw:
            continue
        stated = [other for other in each.together if other in raw]
        if each.needed or stated:
            message = f"{name} is not stated" + (f", which {stated[0]} needs" if stated else "")
            reading.fault((), message, f"add its {each.meaning}")
    return found, reading.faults


def stated_inputs(inputs: Mapping[str, Input], raw: Mapping[str, Any], names: Collection[str] = ()) -> dict[str, Any]:
    """Return what `raw` states of `inputs`.

    Raises:
        KitError: something cannot be read; all faults are listed.
    """
    found, faults = read_inputs(inputs, raw, names)
    if faults:
        raise KitError("\n".join(each.words for each in faults))
    return found


def short(raw: Any) -> str:
    """Return raw data in a few words, for a sentence."""
    text = repr(raw)
    return text if len(text) < 60 else f"{text[:56]} …"
