"""Bars with an even bow, for figures."""

from kit.drawing.primitives import Point

_STEPS = 24


def bar(length: float, low: float, high: float, rise: float) -> list[Point]:
    """Return the outline of a bar from `low` to `high` whose middle is raised by `rise` over its ends, mm."""
    places = [length * (i / _STEPS - 0.5) for i in range(_STEPS + 1)]
    under = [(x, low + rise * (1 - (2 * x / length) ** 2)) for x in places]
    return under + [(x, y + high - low) for x, y in reversed(under)]
