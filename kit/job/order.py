"""The order in which parts that rest on each other are computed, however many of them stand in a row."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator


def upstream_first(start: Iterable[str], upstream: Callable[[str], Iterable[str]]) -> tuple[list[str], list[str]]:
    """Return the parts of `start` and all they rest on, each after what it rests on, and the first circle found.

    The circle begins and ends with the same part; it is empty where there is none. A circle is cut where it closes.
    """
    order: list[str] = []
    circle: list[str] = []
    done: set[str] = set()
    for first in start:
        if first in done:
            continue
        way: dict[str, Iterator[str]] = {first: iter(upstream(first))}  # the parts being looked at, outermost first
        while way:
            part, others = next(reversed(way.items()))
            other = next(others, None)
            if other is None:
                del way[part]
                done.add(part)
                order.append(part)
            elif other in way:
                ahead = list(way)
                circle = circle or [*ahead[ahead.index(other) :], other]
            elif other not in done:
                way[other] = iter(upstream(other))
    return order, circle
