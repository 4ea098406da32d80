"""A table for the wall: for each target the safest way of the block, the reading to set, and where the hand is."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor
from typing import TYPE_CHECKING

from kit.core.errors import KitError
from kit.core.model import Case
from kit.core.quantity import Display, Quantity, parse, show
from kit.core.verdict import Check

if TYPE_CHECKING:
    from collections.abc import Iterator

MOST = 2000
"""Rows of one table."""
MODEL = "reading.block"


@dataclass(frozen=True, slots=True)
class WallRow:
    """One target, mm; without a way that is safe, `way`, `reading` and `hand` are None, `failed` is a limit missed."""

    target: float
    way: str | None
    reading: float | None
    hand: float | None
    failed: Check | None = None

    def why(self, display: Display | None = None) -> str:
        """Return why no way is safe, and what would mend it; empty where one is."""
        return self.failed.words(display) if self.failed else ""

    def cells(self, display: Display | None = None) -> tuple[str, str, str, str]:
        """Return target, way, reading and hand as a person reads them; dashes where there is no safe way."""
        target = show(self.target, "mm", display)
        if self.way is None or self.reading is None or self.hand is None:
            return target, "no safe way", "–", "–"
        return (
            target,
            self.way,
            show(self.reading, "mm", display, resolution=0.1),
            show(self.hand, "mm", display, resolution=1),
        )


def wall_rows(
    case: Case, step: str | Quantity, first: str | Quantity | None = None, last: str | Quantity | None = None
) -> tuple[WallRow, ...]:
    """Return rows for the targets that are whole steps from `first` to `last`, both included.

    `case` is one of `reading.block`; its target and way are left aside, and of the ways that meet every limit the
    one with the hand farther from the blade is taken. `step` and the ends are lengths such as "25 mm" or "1/2 in"
    (a bare number is in mm); without ends the table runs from the shortest to the longest part that either way
    reaches.

    Raises:
        KitError: a case of another model, a step that is not above 0, more than 2,000 rows, or a block longer than
            the scale.
    """
    if case.model.name != MODEL:
        raise KitError(f"A table for the wall was asked for of {case.model.name!r}; it takes a case of {MODEL!r}.")
    block = next(state for state in case.checks if state.name == "block")
    if not block.ok:
        raise KitError(block.words())
    stride = _length(step)
    if not stride > 0:
        raise KitError(f"The step of the table is {step}; it must be above 0 mm.")
    low, high = case.model.givens["target"].span
    reach = [case.base[name] for name in ("over_from", "direct_from", "over_to", "direct_to")]
    start = max(low, min(reach[:2])) if first is None else _length(first)
    end = min(high, max(reach[2:])) if last is None else _length(last)
    least, most = _whole(start / stride, up=True), _whole(end / stride, up=False)
    if most - least >= MOST:
        raise KitError(
            f"The table would have {most - least + 1} rows from {start:g} to {end:g} mm; take a longer step, at most "
            f"{MOST}."
        )
    return tuple(_row(case, number * stride) for number in range(least, most + 1))


def _row(case: Case, target: float) -> WallRow:
    tried = list(_tried(case, target))
    safe = [(worked.base["hand"], way, worked) for way, worked in tried if worked.ok]
    if safe:
        hand, way, worked = max(safe, key=lambda found: found[0])
        return WallRow(target, way, worked.base["reading"], hand)
    # What the way fails that fails least is what a person can mend.
    worked = min((worked for _, worked in tried), key=lambda case: sum(not state.ok for state in case.checks))
    return WallRow(target, None, None, None, next(state for state in worked.checks if not state.ok))


def _tried(case: Case, target: float) -> Iterator[tuple[str, Case]]:
    givens = case.model.givens
    for way in givens["way"].options:
        yield way, case.with_(target=Quantity.from_base(target, givens["target"].unit), way=way)


def _length(given: str | Quantity) -> float:
    quantity = parse(given, "mm") if isinstance(given, str) else given
    return quantity.to("mm").value


def _whole(steps: float, *, up: bool) -> int:
    """Return the next whole number of steps, a hair over counting as whole."""
    return ceil(steps - 1e-9) if up else floor(steps + 1e-9)
