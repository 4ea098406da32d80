"""What comes after what, laid out in rows: each box below all that it follows, lines past the boxes between."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

Node = str | tuple[str, str, int]
"""A box by its name, or the place where a line from one box to another passes a row."""
Place = tuple[float, float]
"""The middle of a node across the page, and half of its width."""

SWEEPS = 4
"""How often rows are ordered by their neighbors, down and up; more changes little."""


@dataclass(frozen=True)
class Layered:
    """The rows from the top, and of each line its nodes from box to box."""

    rows: tuple[tuple[Node, ...], ...]
    ways: Mapping[tuple[str, str], tuple[Node, ...]]


def layered(after: Mapping[str, Sequence[str]], *, most: int) -> Layered:
    """Return boxes in rows of at most `most`; `after` names those that each follows, and comes in a possible order.

    A box stands in the first row below all that it follows that has room. Within a row nodes stand by the mean place
    of their neighbors, so that lines cross little.
    """
    row_of: dict[str, int] = {}
    filled: list[int] = []
    for name, others in after.items():
        row = max((row_of[other] + 1 for other in others), default=0)
        while row < len(filled) and filled[row] >= most:
            row += 1
        filled += [0] * (row + 1 - len(filled))
        filled[row] += 1
        row_of[name] = row
    rows: list[list[Node]] = [[] for _ in filled]
    for name, row in row_of.items():
        rows[row].append(name)
    ways: dict[tuple[str, str], tuple[Node, ...]] = {}
    for name, others in after.items():
        for other in others:
            between = range(row_of[other] + 1, row_of[name])
            passing: list[Node] = [(other, name, row) for row in between]
            for row, node in zip(between, passing, strict=True):
                rows[row].append(node)
            ways[other, name] = (other, *passing, name)
    return Layered(tuple(map(tuple, _ordered(rows, list(ways.values())))), ways)


def _ordered(rows: list[list[Node]], ways: Sequence[Sequence[Node]]) -> list[list[Node]]:
    above: dict[Node, list[Node]] = {}
    below: dict[Node, list[Node]] = {}
    for way in ways:
        for one, other in pairwise(way):
            above.setdefault(other, []).append(one)
            below.setdefault(one, []).append(other)
    for sweep in range(2 * SWEEPS):
        down = sweep % 2 == 0
        beside = above if down else below
        for row in range(1, len(rows)) if down else range(len(rows) - 2, -1, -1):
            near = rows[row - 1 if down else row + 1]
            place = {node: (k + 0.5) / len(near) for k, node in enumerate(near)}
            own = {node: (k + 0.5) / len(rows[row]) for k, node in enumerate(rows[row])}
            mean = {
                node: sum(place[each] for each in beside[node]) / len(beside[node]) if node in beside else own[node]
                for node in rows[row]
            }
            rows[row] = sorted(rows[row], key=lambda node: (round(mean[node], 9), own[node]))
    return rows


def placed(
    row: Sequence[Node], half: Mapping[Node, float], wish: Mapping[Node, float], wide: float
) -> dict[Node, Place]:
    """Return where the nodes of a row stand on a page `wide`, each as near to its wish as its neighbors let it.

    `half` is half of what each takes, its gap with it; together they take no more than `wide`.
    """
    at: dict[Node, float] = {}
    free = 0.0
    for node in row:
        at[node] = max(wish[node], free + half[node])
        free = at[node] + half[node]
    free = wide
    for node in reversed(row):
        at[node] = min(at[node], free - half[node])
        free = at[node] - half[node]
    return {node: (at[node], half[node]) for node in row}
