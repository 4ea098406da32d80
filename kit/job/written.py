"""What a case says, as a job file is to say it: the texts of its values, and the keys of their origins."""

from __future__ import annotations

from typing import TYPE_CHECKING

from kit.core.quantity import Quantity

if TYPE_CHECKING:
    from kit.core.model import Case, Entry
    from kit.core.quantity import ValueOrigin


def written(case: Case, name: str) -> str:
    """Return a given or pick as a file is to say it: as typed, or with all its digits where it was found."""
    if name in case.picks:
        return case.picks[name]
    entry = case.entries[name]
    if entry.text is not None:
        return entry.text
    return plain(entry, half=None if entry.usual else entry.spread.half)


def plain(entry: Entry, half: float | None = None) -> str:
    """Return a given's value with all its digits, in the unit in which it was typed; `half` is in base units."""
    if entry.given.kind in ("choice", "count"):
        return entry.given.show(entry.base)
    return str(Quantity.from_base(entry.base, entry.unit or entry.given.unit, half or None))


def keys_of(origin: ValueOrigin) -> dict[str, str | None]:
    """Return an origin as the keys of a job's given; what its other keys tell anyway is not said."""
    told = origin.kind == "chosen" or (origin.kind == "measured" and bool(origin.measured))
    known = origin.record()
    kind = known.pop("kind")
    return {"origin": None if told else kind} | {key: text or None for key, text in known.items()}
