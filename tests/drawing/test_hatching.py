"""Hatch lines. The outside check is Cavalieri's principle: line length times spacing is the area."""

from math import cos, dist, pi, sin, sqrt

import pytest

from kit.drawing.hatching import MOST, hatch_lines

SQUARE = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]


def _area(rings: list[list[tuple[float, float]]], angle: float, spacing: float) -> float:
    return spacing * sum(dist(p, q) for p, q in hatch_lines(rings, angle, spacing))


def test_a_square_at_45_degrees() -> None:
    # Lines y = x + k·5√2/... at spacing 5/√2 cross a 10 mm square on y − x = −5, 0, 5 (and touch it at ±10).
    lines = hatch_lines([SQUARE], pi / 4, 5 / sqrt(2))
    found = sorted(sorted((round(x, 9), round(y, 9)) for x, y in line) for line in lines if dist(*line) > 1e-9)
    assert found == [[(0, 0), (10, 10)], [(0, 5), (5, 10)], [(5, 0), (10, 5)]]


@pytest.mark.parametrize("angle", [0.0, pi / 4, 3 * pi / 4, 1.0])
def test_length_times_spacing_is_the_area(angle: float) -> None:
    circle = [(20 * cos(k * pi / 180), 20 * sin(k * pi / 180)) for k in range(360)]
    assert _area([circle], angle, 0.1) == pytest.approx(pi * 20**2, rel=2e-3)
    hole = [(x * 0.5, y * 0.5) for x, y in circle]
    assert _area([circle, hole], angle, 0.1) == pytest.approx(pi * (20**2 - 10**2), rel=2e-3)


def test_a_notched_outline_is_left_out_where_it_is_notched() -> None:
    notched = [
        (0.0, 0.0),
        (10.0, 0.0),
        (10.0, 10.0),
        (6.0, 10.0),
        (6.0, 2.0),
        (4.0, 2.0),
        (4.0, 10.0),
        (0.0, 10.0),
    ]
    pieces = hatch_lines([notched], 0.0, 3.0)
    assert [(round(p[0], 9), round(q[0], 9), round(p[1], 9)) for p, q in pieces] == [
        (0, 10, 0), (0, 4, 3), (6, 10, 3), (0, 4, 6), (6, 10, 6), (0, 4, 9), (6, 10, 9),
    ]  # fmt: skip


def test_lines_stand_still_while_the_region_grows() -> None:
    wider = [(x * 1.1, y) for x, y in SQUARE]
    small = {round(p[1], 9) for p, _ in hatch_lines([SQUARE], 0.0, 3.0)}
    assert small == {round(p[1], 9) for p, _ in hatch_lines([wider], 0.0, 3.0)} == {0, 3, 6, 9}


def test_a_huge_region_is_not_hatched_solid() -> None:
    huge = [(x * 1e6, y * 1e6) for x, y in SQUARE]
    assert MOST / 2 - 1 <= len(hatch_lines([huge], 0.0, 2.5)) <= MOST + 1


def test_nothing_to_hatch() -> None:
    assert hatch_lines([], pi / 4, 2.5) == []
    assert hatch_lines([[(1.0, 1.0)] * 3], pi / 4, 2.5) == []
