"""Sensitivities along the tape, against complex steps and central differences of the same function by hand."""

import cmath
import math

import numpy as np
import pytest
import sympy as sp

from kit.core.model import Model
from kit.core.model.gradient import Gradient
from tests.core.model.small import blank, one


@pytest.fixture(scope="module")
def chained() -> Model:
    m = blank()
    x = m.given("x", "x", "3 mm", (1, 10), "x")
    y = m.given("y", "y", "4 mm", (1, 10), "y")
    z = m.given("z", "z", "0.3", (0, 1), "z")
    a = m.relation("a", "a", "mm^2")
    m.equals(x * y + x**2 * sp.exp(-z), "one")
    b = m.relation("b", "b", "mm")
    m.equals(a / (x + y) * sp.cos(z), "two, over one")
    m.result("c", "c", "mm^2")
    m.equals(sp.sqrt(a) * b + a * sp.log(b / x), "three, over both")
    return m.done()


def by_hand(x: complex, y: complex, z: complex) -> complex:
    a = x * y + x**2 * cmath.exp(-z)
    b = a / (x + y) * cmath.cos(z)
    return cmath.sqrt(a) * b + a * cmath.log(b / x)


@pytest.mark.parametrize("seed", range(5))
def test_against_complex_steps(chained: Model, seed: int) -> None:
    """f'(x) = Im f(x + i h)/h, free of cancellation (Squire and Trapp 1998)."""
    rng = np.random.default_rng(seed)
    at = {"x": rng.uniform(1, 10), "y": rng.uniform(1, 10), "z": rng.uniform(0, 1)}
    slopes = Gradient(chained, "c").at(chained.at(**at).base)
    h = 1e-30
    for name in at:
        stepped = {key: complex(value, h if key == name else 0) for key, value in at.items()}
        assert slopes[name] == pytest.approx(by_hand(**stepped).imag / h, rel=1e-11)


@pytest.mark.parametrize(
    ("expr", "x", "slope"),
    [
        (lambda x: sp.Abs(x - 5), 3.0, -1),
        (lambda x: sp.Max(x**2, 4), 3.0, 6),
        (lambda x: sp.Max(x**2, 4), 1.0, 0),
        (lambda x: sp.Min(x, 10 - x), 7.0, -1),
        (lambda x: sp.Piecewise((x**2, x < 5), (10 * x, True)), 4.0, 8),
        (lambda x: sp.Piecewise((x**2, x < 5), (10 * x, True)), 6.0, 10),
        (lambda x: sp.ceiling(x) * x, 2.5, 3),  # flat but for the factor
        (lambda x: sp.floor(x / 2) + x / 4, 2.5, 0.25),
        (lambda x: sp.Mod(x, 3), 7.0, 1),
        (lambda x: sp.Abs(sp.ceiling(x) - x), 2.5, -1),
        (lambda x: sp.atan2(x, 2), 2.0, 0.25),  # 2/(x² + 4)
        (lambda x: sp.sign(x - 5) * x, 7.0, 1),
        (lambda x: sp.acos(x / 10), 6.0, -1 / 8),  # -1/√(100 - 36)
        (lambda x: x**x, 2.0, 4 * (math.log(2) + 1)),
    ],
)
def test_slopes_by_hand(expr: object, x: float, slope: float) -> None:
    m = one(expr)  # type: ignore[arg-type]
    assert Gradient(m, "y").at(m.at(x=x).base)["x"] == pytest.approx(slope, rel=1e-12)


def test_only_what_a_result_rests_on(bar: Model) -> None:
    slopes = Gradient(bar, "screws").at(bar.at().base)
    assert slopes == {"length": 0.0, "pitch": 0.0}
    tip = Gradient(bar, "tip").at(bar.at().base)
    assert {name for name, slope in tip.items() if slope} == {"push", "length", "width", "height", "modulus"}
    # δ = 4 F L³/(E b h³): the exponents times δ over the given
    assert tip["height"] == pytest.approx(-3 * (10 / 3) / 30, rel=1e-12)
    assert tip["length"] == pytest.approx(3 * (10 / 3) / 600, rel=1e-12)
    assert tip["push"] == pytest.approx((10 / 3) / 50, rel=1e-12)


def test_a_given_is_its_own_slope(bar: Model) -> None:
    assert Gradient(bar, "length").at(bar.at().base) == {"length": 1.0}


def test_remainder_inside_a_chain() -> None:
    """d/dx of (x mod 3)·x at 7 is x + 1·(x mod 3) = 8."""
    m = one(lambda x: sp.Mod(x, 3) * x)
    assert Gradient(m, "y").at(m.at(x=7).base)["x"] == pytest.approx(8, rel=1e-12)


def test_a_power_with_a_count_has_a_slope_at_zero() -> None:
    """d(xⁿ)/dx = n·xⁿ⁻¹, at 0 as well; the count itself does not move a little."""
    m = blank()
    x = m.given("x", "x", "0 ± 0.1", (0, 1), "x")
    n = m.count("n", "n", 2, (1, 9), "n")
    m.result("y", "y", "")
    m.equals(x**n + 3 * x, "a power and a line")
    m.done()
    assert Gradient(m, "y").at(m.at().base) == {"x": 3.0, "n": 0.0}
    assert Gradient(m, "y").at(m.at(x=0.5, n=3).base)["x"] == pytest.approx(3 * 0.25 + 3)
    assert Gradient(m, "y").at(m.at(n=1).base)["x"] == 4.0
