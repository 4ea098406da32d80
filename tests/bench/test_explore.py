"""How fast the room round a design is: medians of maps, borders, searches and ranges, printed for reading.

Run with ``python -m pytest -m bench -s tests/bench/test_explore.py``.
"""

from collections.abc import Callable, Iterator
from statistics import median
from time import perf_counter

import pytest

from kit.core.model import Given
from kit.core.model.grid import axes_of, grid, least_chance
from kit.core.quantity import Display
from kit.core.search import best
from kit.core.uncertainty import sensitivity
from kit.drawing.map_svg import map_svg
from kit.subjects import model, names
from kit.ui.explore.room import MAP
from kit.ui.panel import Panel, panel

pytestmark = pytest.mark.bench


def timed(does: Callable[[], object], times: int = 7) -> float:
    """Return the median of some runs in ms, after one that is not counted."""
    does()
    spent = []
    for _ in range(times):
        begin = perf_counter()
        does()
        spent.append(perf_counter() - begin)
    return 1e3 * median(spent)


def test_the_map_of_the_largest_model() -> None:
    largest = max(names(), key=lambda name: len(model(name).relations))
    case = model(largest).at()
    across, up = axes_of(case)[:2]
    result = next(iter(case.model.results))
    made = grid(case, across, up, result, points=400)
    print(f"\n{largest}: {len(case.model.relations)} relations, {len(case.model.limits)} limits, 400 × 400 points")
    for what, does in (
        ("result and all margins", lambda: grid(case, across, up, result, points=400)),
        ("chances", lambda: least_chance(case, made)),
        ("picture", lambda: map_svg(case, made, Display())),
    ):
        print(f"  {what}: {timed(does):.0f} ms")


def test_a_panels_map_after_a_control_moved() -> None:
    for name in ("stop.deflection", "hood.shape", "accuracy.batch"):
        made = panel(name)
        made.room.unfold(MAP)
        given = next(each for each in made.model.free.values() if each.kind == "real")
        places = iter(range(1, 1000))

        def move(made: Panel = made, given: Given = given, places: Iterator[int] = places) -> None:
            low, high = given.span
            made.change(given.name, given.show(low + (0.3 + 0.001 * next(places)) * (high - low)))

        print(f"\n{name}: panel with its map after a control moved: {timed(move):.0f} ms")


def test_searches() -> None:
    case = model("stop.deflection").at()
    print(f"\nbest of two: {timed(lambda: best(case, 'least section', ['rib_height', 'block_width']), 3):.0f} ms")
    print(f"shares of variance over the range: {timed(lambda: sensitivity(case, 'tip_error'), 3):.0f} ms")
