"""What a case takes for what is typed: nothing that was known of another quantity stays, and what was comes back."""

from __future__ import annotations

import math
from collections.abc import Sequence

from kit.core.errors import KitError
from kit.core.model import Case, Entry, Typed
from kit.core.quantity import Display, parse

Changes = dict[str, Typed | None]


def given_anew(befores: Sequence[Case], name: str, text: str, display: Display) -> Changes:
    """Return what changes when `text` is typed for a given: at the value of a case before, all that it knew of it.

    None is what the model itself says, which is so where nobody stated the value before. A link that was saved over
    does not come back.
    """
    for number, before in enumerate(befores):
        entry = before.entries[name]
        if _back(entry, text, display) and (number == 0 or entry.origin.kind != "part"):
            return {name: before.typed.get(name)}
    return {name: text}


def picked_anew(start: Case, name: str, row: str) -> Changes:
    """Return what changes with a pick: at its old row, what was typed at `start` for the givens that it fills too."""
    if row != start.picks[name]:
        return {name: row}
    return {each: start.typed.get(each) for each in (name, *start.model.picks[name].fills)}


def half_text(entry: Entry) -> str:
    """Return a value's half-width in the unit in which it is stated; empty where it has none."""
    of, half = entry.unit or entry.given.unit, entry.spread.half
    return f"{half / of.factor:.6g} {of.text}".strip() if half else ""


def _back(entry: Entry, text: str, display: Display) -> bool:
    """Return whether a text states a value as it was; a half-width need not be typed again, but must not differ."""
    given = entry.given
    if text in (entry.show(display), given.show(entry.base, display)):
        return True
    if given.kind == "choice":
        return False
    try:
        found = parse(text, given.unit)
    except KitError:
        return False
    same_half = found.half_base is None or math.isclose(found.half_base, entry.spread.half, rel_tol=1e-9)
    return same_half and math.isclose(found.base, entry.base, rel_tol=1e-12, abs_tol=1e-12)
