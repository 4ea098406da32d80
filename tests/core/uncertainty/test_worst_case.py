"""Worst case and root sum of squares of half-widths, against stacks added up by hand and scipy's minimizer."""

import math

import numpy as np
import pytest
import sympy as sp
from scipy.optimize import minimize

from kit.core.errors import KitError
from kit.core.model import Model
from kit.core.uncertainty import budget, corners, monte_carlo, root_sum_square, worst_case
from tests.core.model.small import blank


def stack(*halves: float, signs: tuple[int, ...] = ()) -> Model:
    m = blank("test.stack")
    terms = [
        sign * m.given(f"x{i}", f"x_{i}", f"10 ± {half} mm", (0, 99), "x")
        for i, (half, sign) in enumerate(zip(halves, signs or (1,) * len(halves), strict=True))
    ]
    m.result("gap", "g", "mm")
    m.equals(sp.Add(*terms), "dimensions in a row add")
    return m.done()


def test_a_stack_by_hand() -> None:
    """A gap of three parts of ± 0.3, 0.4 and 1.2 mm: worst ± 1.9 mm, root of 0.09 + 0.16 + 1.44: 1.3 mm."""
    case = stack(0.3, 0.4, 1.2, signs=(1, -1, 1)).at()
    found = budget(case, "gap")
    assert worst_case(found) == pytest.approx(1.9, rel=1e-12)
    assert root_sum_square(found) == pytest.approx(1.3, rel=1e-12)
    tried = corners(case, "gap")
    assert (tried.low, tried.high) == pytest.approx((10 - 1.9, 10 + 1.9), rel=1e-12)
    assert tried.at_high == pytest.approx({"x0": 10.3, "x1": 9.6, "x2": 11.2})


def test_three_sigma_ends_cover_99_73_percent() -> None:
    """Half-widths of three standard deviations of a normal part: their root of squares covers 99.73 %."""
    m = blank()
    stated = []
    for n, h in (("x", 3), ("y", 1)):
        stated_i = m.given(n, n, f"0 ± {h}", (-9, 9), n)
        m.measured(spread="normal", k=3)
        stated.append(stated_i)
    x, y = stated
    m.result("z", "z", "")
    m.equals(x + y, "sum")
    case = m.done().at()
    end = root_sum_square(budget(case, "z"))
    drawn = monte_carlo(case, ("z",), draws=1_000_000)["z"].sample
    assert (np.abs(drawn) <= end).mean() == pytest.approx(0.9973, abs=0.0003)


def test_corners_find_what_slopes_miss() -> None:
    m = blank()
    stated = []
    for n, v, h in (("a", 3, 2), ("b", 5, 1)):
        stated_i = m.given(n, n, f"{v} ± {h} mm", (0, 99), n)
        stated.append(stated_i)
    a, b = stated
    m.given("idle", "i", "1 ± 0.5", (0, 9), "enters another result")
    m.result("other", "o", "")
    m.equals(m.givens["idle"].symbol + 1, "alone")
    m.result("y", "y", "mm")
    m.equals(a**3 / b**2 - b, "curved")
    case = m.done().at()

    def of(p: np.ndarray, sign: float) -> float:
        return float(sign * (p[0] ** 3 / p[1] ** 2 - p[1]))

    low, high = (sign * minimize(of, (3, 5), args=(sign,), bounds=((1, 5), (4, 6)), tol=1e-12).fun for sign in (1, -1))
    tried = corners(case, "y")
    assert (tried.low, tried.high) == pytest.approx((low, high), rel=1e-9)
    assert tried.at_low.keys() == {"a", "b"}
    assert not math.isclose(tried.high - case.base["y"], worst_case(budget(case, "y")), rel_tol=0.1)


def test_nothing_uncertain_has_one_corner() -> None:
    case = stack(0.0, 0.0).at()
    tried = corners(case, "gap")
    assert (tried.low, tried.high, tried.at_low) == (20, 20, {})
    assert worst_case(budget(case, "gap")) == 0


def test_too_many_corners_are_refused() -> None:
    with pytest.raises(KitError, match="rests on 17 uncertain givens; every corner is tried for at most 16"):
        corners(stack(*[1.0] * 17).at(), "gap")


def test_a_corner_without_value_is_said() -> None:
    m = blank()
    x = m.given("x", "x", "1 ± 2", (0, 9), "x")
    m.result("y", "y", "")
    m.equals(sp.sqrt(x), "root")
    with pytest.raises(KitError, match="y has no value at some corners"):
        corners(m.done().at(), "y")
