"""Arcs found in polygons: cone sectors and circles exactly, and none where corners lie on a circle by chance."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.geometry.outline.arc_outline import Arc, Line
from kit.geometry.outline.arcs import parts_of


def sector(outer: float, inner: float, begin: float, end: float, count: int) -> np.ndarray:
    t = np.linspace(begin, end, count)
    ring = np.column_stack([np.cos(t), np.sin(t)])
    return np.vstack([outer * ring, inner * ring[::-1]])


@settings(deadline=None, max_examples=60)
@given(
    st.floats(50, 2000),
    st.floats(0.1, 0.9),
    st.floats(-3, 3),
    st.floats(0.3, 5.5),
    st.integers(40, 200),
    st.integers(0, 79),
    st.booleans(),
)
def test_a_cone_sector_comes_back_as_two_arcs_and_two_lines(
    outer: float, share: float, begin: float, sweep: float, count: int, roll: int, backward: bool
) -> None:
    ring = np.roll(sector(outer, share * outer, begin, begin + sweep, count), roll, axis=0) + np.array([700.0, -300.0])
    parts = parts_of(ring[::-1] if backward else ring, closed=True, chord=10.0)
    arcs = [part for part in parts if isinstance(part, Arc)]
    lines = [part for part in parts if isinstance(part, Line)]
    assert (len(arcs), len(lines)) == (2, 2)
    radii, turns = zip(*sorted((arc.radius, abs(arc.sweep)) for arc in arcs), strict=True)
    assert radii == pytest.approx((share * outer, outer), abs=1e-6)
    assert turns == pytest.approx((sweep, sweep), abs=1e-9)
    for part, after in zip(parts, [*parts[1:], parts[0]], strict=True):
        assert part.point(1.0) == pytest.approx(after.point(0.0), abs=1e-9)


def test_a_whole_circle_comes_back_as_two_halves() -> None:
    t = np.linspace(0, 2 * np.pi, 60, endpoint=False)
    parts = parts_of(30 * np.column_stack([np.cos(t), np.sin(t)]), closed=True)
    assert [type(part) for part in parts] == [Arc, Arc]
    assert sum(part.length for part in parts) == pytest.approx(2 * np.pi * 30, abs=1e-9)


def test_corners_that_lie_on_a_circle_by_chance_stay_corners() -> None:
    t = np.linspace(0, 2 * np.pi, 8, endpoint=False)
    for ring in (
        np.array([[0, 0], [60, 0], [60, 40], [0, 40.0]]),
        50 * np.column_stack([np.cos(t), np.sin(t)]),
    ):
        parts = parts_of(ring, closed=True)
        assert [type(part) for part in parts] == [Line] * len(ring)


def test_a_round_corner_between_straight_edges() -> None:
    t = np.linspace(0, np.pi / 2, 12)
    corner = np.column_stack([80 + 20 * np.cos(t), 30 + 20 * np.sin(t)])
    line = np.vstack([[100, -50], corner, [-40, 50]])
    first, arc, last = parts_of(line)
    assert isinstance(arc, Arc)
    assert (arc.radius, arc.center) == (pytest.approx(20), pytest.approx((80, 30)))
    assert (first.point(0.0), last.point(1.0)) == ((100, -50), (-40, 50))


def test_an_ellipse_is_no_arc_and_every_arc_holds_its_points() -> None:
    t = np.linspace(0, 2, 81)
    line = np.column_stack([200 * np.cos(t), 120 * np.sin(t)])
    assert not [part for part in parts_of(line) if isinstance(part, Arc)]


def test_short_and_repeated_points() -> None:
    assert parts_of(np.array([[0, 0], [0, 0], [5, 0.0]])) == [Line((0, 0), (5, 0))]
