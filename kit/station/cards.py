"""The settings of machines of a whole job, one after the other so that little is set anew from card to card."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from kit.core.lists import Setting

SAME = {"deg": 0.0005, "mm": 0.05}
"""rad, mm: values that differ by less are one setting, finer than a scale is read."""


@dataclass(frozen=True, slots=True)
class Card:
    """One setting of a machine, and all that is cut at it, each with the part it is for."""

    machine: str
    values: tuple[tuple[str, float, str], ...]
    cuts: tuple[tuple[str, str], ...]


def cards(settings: Iterable[tuple[str, Setting]]) -> list[Card]:
    """Return a card for each setting that the parts ask for; those of a machine stand together.

    From every card the next one is that which changes the fewest values; of all cards to begin with, that is taken
    after which the fewest are changed in all.
    """
    found: dict[tuple[str, tuple[tuple[str, int], ...]], Card] = {}
    for part, setting in settings:
        key = setting.machine, tuple((name, round(base / SAME[unit])) for name, base, unit in setting.values)
        old = found.get(key)
        cuts = tuple((part, cut) for cut in setting.cuts)
        found[key] = Card(setting.machine, setting.values, (*old.cuts, *cuts) if old else cuts)
    machines = dict.fromkeys(card.machine for card in found.values())
    return [card for name in machines for card in _ordered([each for each in found.values() if each.machine == name])]


def changes(made: list[Card]) -> int:
    """Return how many values are set anew from card to card."""
    return sum(_differ(one, other) for one, other in pairwise(made))


def _ordered(made: list[Card]) -> list[Card]:
    made = sorted(made, key=lambda card: [(name, base) for name, base, _ in card.values])
    return min((_chain(made, first) for first in range(len(made))), key=changes)


def _chain(made: list[Card], first: int) -> list[Card]:
    left = [*made]
    chain = [left.pop(first)]
    while left:
        nearest = min(range(len(left)), key=lambda k: _differ(chain[-1], left[k]))
        chain.append(left.pop(nearest))
    return chain


def _differ(one: Card, other: Card) -> int:
    mine = {name: round(base / SAME[unit]) for name, base, unit in one.values}
    theirs = {name: round(base / SAME[unit]) for name, base, unit in other.values}
    return sum(mine.get(name) != theirs.get(name) for name in mine.keys() | theirs.keys())
