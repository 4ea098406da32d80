"""The placing of a folded sheet, against positions known from plane geometry."""

from math import pi

import pytest

from kit.subjects.fold.folded_drawing import fold_up


def area(ring: list[tuple[float, float]]) -> float:
    return abs(sum(x * v - u * y for (x, y), (u, v) in zip(ring, ring[1:] + ring[:1], strict=True))) / 2


@pytest.mark.parametrize("side", [1, -1])
def test_right_angle(side: int) -> None:
    sheet = fold_up([10, 20], [(side * pi / 2, 3)], 2, 0.5)
    reach = 5 if side > 0 else 3  # of the right face from the center
    (x, y), heading = sheet.ends[-1]
    assert heading == pytest.approx(side * pi / 2)
    assert (x, y) == pytest.approx((10 + reach, side * (reach + 20)))
    assert sheet.centers == [pytest.approx((10, side * reach))]


def test_full_turn_is_a_ring() -> None:
    sheet = fold_up([0, 0], [(2 * pi, 4)], 1, 0.5)
    assert sheet.right[-1] == pytest.approx(sheet.right[0], abs=1e-12)
    assert area(sheet.outline) == pytest.approx(pi * (25 - 16), rel=0.01)  # chords of 6 degrees


@pytest.mark.parametrize("factor", [0.0, 0.5, 1.0])
def test_neutral_fiber_lies_off_the_inside_face(factor: float) -> None:
    for side, faces in ((1, ("left", "right")), (-1, ("right", "left"))):
        sheet = fold_up([5, 5], [(side * pi / 3, 2)], 1.5, factor)
        inside, outside = (getattr(sheet, name) for name in faces)
        for p, q, n in zip(inside, outside, sheet.neutral, strict=True):
            expected = tuple(a + factor * (b - a) for a, b in zip(p, q, strict=True))
            assert n == pytest.approx(expected)


def test_no_bend_is_a_bar() -> None:
    sheet = fold_up([7, 5], [(0.0, 2)], 1, 0.5)
    assert area(sheet.outline) == pytest.approx(12)
    assert sheet.right[-1] == pytest.approx((12, 0))
