"""Where a value comes from: exactly one origin each, and what is known of how it came about."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import date, datetime, timedelta
from typing import Any, Literal

from kit.core.errors import near_misses

Kind = Literal["example", "default", "chosen", "measured", "table", "part", "solved"]

STATES: Mapping[Kind, str] = {
    "example": "example",
    "default": "default",
    "chosen": "chosen",
    "measured": "measured",
    "table": "from a table",
    "part": "from another part",
    "solved": "found by solving",
}
"""The origins with their words for people. An example stands for a value that a person has yet to state; a default
is a figure of a source or of common practice, which may stay."""

STATED: tuple[Kind, ...] = ("example", "chosen", "measured", "table", "solved")
"""The origins that a person can state: the model knows its defaults, and a link says from which part it takes."""

KEYS = ("origin", "measured", "how", "by", "source", "note")
"""The keys by which a job file states an origin."""


@dataclass(frozen=True, slots=True)
class ValueOrigin:
    """The origin of a value: its kind, the ISO date on which it was measured, how, by whom, from which source, a note.

    What stands beside an example belongs to the example: it says nothing of the reader's own workshop.
    """

    kind: Kind
    measured: str = ""
    how: str = ""
    by: str = ""
    source: str = ""
    note: str = ""

    @property
    def state(self) -> str:
        """The origin in a word or two, as a sheet prints it."""
        return STATES[self.kind]

    @property
    def detail(self) -> str:
        """All else that is known, joined; empty where nothing is."""
        when = f"on {self.measured}" if self.measured else ""
        who = f"by {self.by}" if self.by else ""
        known = "; ".join(filter(None, (self.source, self.how, " ".join(filter(None, (when, who))))))
        if known and self.kind == "example":
            known = f"in the example: {known}"
        return "; ".join(filter(None, (known, self.note)))

    @property
    def words(self) -> str:
        """The origin in one line."""
        return "; ".join(filter(None, (self.state, self.detail)))

    def keys(self, *, example: bool = False) -> dict[str, Any]:
        """Return the origin as the keys of a job's file, the date as TOML's own; a date tells that it is measured.

        With `example` it does not: all values of the file are a demo's unless they say otherwise.
        """
        day = date.fromisoformat(self.measured) if self.measured else None
        kind = "" if day and self.kind == "measured" and not example else self.kind
        values = (kind, day, self.how, self.by, self.source, self.note)
        return {key: told for key, told in zip(KEYS, values, strict=True) if told}

    def record(self) -> dict[str, str]:
        """Return the origin as plain data: its kind, and what is known beside it; a text is empty where nothing is."""
        return asdict(self)


EXAMPLE, CHOSEN = ValueOrigin("example"), ValueOrigin("chosen")


_AHEAD = timedelta(days=1)  # somewhere it is tomorrow already


@dataclass(frozen=True, slots=True)
class OriginFault:
    """What is wrong with a stated origin, at one of its keys."""

    key: str
    message: str
    remedy: str


def read_origin(told: Mapping[str, Any], *, example: bool = False) -> tuple[ValueOrigin, list[OriginFault]]:
    """Return the origin that the keys of a value state, and what is wrong with them; other keys are left alone.

    What states no origin is measured if it has a date, and chosen if it has none, whatever method it names; with
    `example`, where all values of a file are a demo's, it is an example.
    """
    faults: list[OriginFault] = []
    texts = {key: _text(key, told[key], faults) for key in ("how", "by", "source", "note") if key in told}
    day = _day(told["measured"], faults) if "measured" in told else ""
    usual: Kind = "example" if example else "measured" if day else "chosen"
    kind = _kind(told["origin"], faults) if "origin" in told else usual
    if day and kind not in ("measured", "example"):
        message = f"the origin is {kind!r}, and a date of measurement stands beside it"
        faults.append(OriginFault("origin", message, 'write origin = "measured", or take the date out'))
    return ValueOrigin(kind, day, **texts), faults


def value_of(raw: Any) -> Any:
    """Return the value of a cell that is written with its origin, { value = …, measured = … }, or the cell itself."""
    return raw["value"] if isinstance(raw, Mapping) and "value" in raw else raw


def _kind(told: Any, faults: list[OriginFault]) -> Kind:
    for kind in STATED:
        if told == kind:
            return kind
    near = near_misses(str(told), list(STATED)).removeprefix("; ")
    faults.append(OriginFault("origin", f"origin is {told!r}", near or f"write one of {', '.join(STATED)}"))
    return "chosen"


def _text(key: str, told: Any, faults: list[OriginFault]) -> str:
    if isinstance(told, str):
        return told
    faults.append(OriginFault(key, f"{key} is {told!r}, but must be a text", "put it in quotes"))
    return ""


def _day(told: Any, faults: list[OriginFault]) -> str:
    try:
        day = date.fromisoformat(told) if isinstance(told, str) else told
    except ValueError:
        day = None
    if isinstance(day, datetime):
        day = day.date()
    if not isinstance(day, date):
        faults.append(OriginFault("measured", "measured is not a date", "write it such as measured = 2026-05-02"))
        return ""
    if day > date.today() + _AHEAD:
        message = f"measured on {day.isoformat()}, which is yet to come"
        faults.append(OriginFault("measured", message, "write the day on which it was measured"))
    return day.isoformat()
