"""What the file says of a given after it was stated anew: its quantity, and what is still true of that."""

from __future__ import annotations

import math
from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

from kit.core.errors import KitError
from kit.core.quantity import Quantity, parse
from kit.core.quantity.origin import KEYS
from kit.job.errors import JobError
from kit.job.positions import Path
from kit.job.schema import HEAD_KEYS
from kit.job.toml_edit import ABSENT

if TYPE_CHECKING:
    from kit.core.model import Given


def restated(
    given: Given, now: Any, saved: Any, text: str | float, more: Mapping[str, Any], *, example: bool = False
) -> Any:
    """Return a given's entry with `text` for its value and `more` keys, where None takes one out.

    `now` is its entry as it stands, `saved` as it stands in the file; either may be ABSENT. Another quantity (value,
    unit, ±) takes out all that was known of the old one, except the note; the same, however typed, keeps it, and what
    the file says comes back with its quantity. With `example`, where all values of the file are a demo's, what is
    stated here says that it is no longer one.
    """
    known = next((raw for raw in (now, saved) if _same(given, raw, text)), ABSENT)
    entry = _table(known)
    if known is ABSENT:
        entry = {"value": text} | {key: told for key, told in _table(now).items() if key == "note"}
    elif not _alike(given, entry["value"], text):
        entry["value"] = text  # the same length in another unit
    entry |= {key: _day(told) if key == "measured" else told for key, told in more.items()}
    entry = {key: told for key, told in entry.items() if told is not None}
    told_anew = known is ABSENT or any(key in KEYS for key in more)
    if example and told_anew and "origin" not in entry:
        entry["origin"] = "measured" if "measured" in entry else "chosen"
    return entry["value"] if len(entry) == 1 and not isinstance(now, Mapping) else entry


def repicked(now: Any, row: str, more: Mapping[str, Any], *, example: bool = False) -> Any:
    """Return a pick's entry with a row of its table and `more` keys of its origin, where None takes one out.

    Another row takes out what was known of the old one. With `example`, what is stated says that it is no longer one.
    """
    known = _table(now)
    if known.get("value") == row and not more:
        return now
    entry = known if known.get("value") == row else {"value": row}
    entry |= {key: _day(told) if key == "measured" else told for key, told in more.items()}
    entry = {key: told for key, told in entry.items() if told is not None}
    if example and "origin" not in entry:
        entry["origin"] = "measured" if "measured" in entry else "chosen"
    return row if len(entry) == 1 else entry


def _table(raw: Any) -> dict[str, Any]:
    if raw is ABSENT:
        return {}
    return dict(raw) if isinstance(raw, Mapping) else {"value": raw}


def _same(given: Given, raw: Any, text: str | float) -> bool:
    """Return whether an entry states the quantity that a text does, in whatever unit."""
    value = _table(raw).get("value")
    if value is None:
        return False
    one, other = _read(given, value), _read(given, text)
    if one is None or other is None:
        return str(value) == str(text)
    return all(
        math.isclose(mine or 0.0, theirs or 0.0, rel_tol=1e-12, abs_tol=1e-15)
        for mine, theirs in ((one.base, other.base), (one.half_base, other.half_base))
    ) and (one.half is None) == (other.half is None)


def _alike(given: Given, value: Any, text: str | float) -> bool:
    one, other = _read(given, value), _read(given, text)
    return one is None or other is None or one.same(other)


def _read(given: Given, value: Any) -> Quantity | None:
    """Return the quantity that a text or a number states for a given; None where it states none."""
    if given.kind == "choice":
        return None
    try:
        return parse(str(value), given.unit)
    except KitError:
        return None


def _day(told: Any) -> Any:
    """Return an ISO date as TOML's own date; what is none is left for the layout to refuse."""
    try:
        return date.fromisoformat(told)
    except (TypeError, ValueError):
        return told


def restated_head(texts: Mapping[str, str | None]) -> dict[Path, Any]:
    """Return what is put where for a sheet's head that is stated anew; a key whose text is None goes.

    Raises:
        JobError: another key than those of a head.
    """
    for key in texts.keys() - set(HEAD_KEYS):
        raise JobError(f"{key!r} is not in the head of a sheet; it has {', '.join(HEAD_KEYS)}")
    return {("job", key): ABSENT if text is None else text for key, text in texts.items()}
