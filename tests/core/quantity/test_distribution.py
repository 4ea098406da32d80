"""The distributions of a half-width, against the formulas of NIST TN 1297 and GUM 4.3."""

import math

import numpy as np
import pytest

from kit.core.errors import KitError
from kit.core.model import Spread


@pytest.mark.parametrize(
    ("spread", "u"),
    [
        (Spread(3.0, "rectangular"), 3 / math.sqrt(3)),  # TN 1297, 4.6
        (Spread(3.0, "triangular"), 3 / math.sqrt(6)),  # TN 1297, 4.6
        (Spread(3.0, "normal", 2), 1.5),  # TN 1297, 4.3: U/k
        (Spread(75e-6, "normal", 3), 25e-6),  # GUM H.1.3.1
        (Spread(0.0), 0.0),
    ],
)
def test_standard_uncertainty(spread: Spread, u: float) -> None:
    assert spread.u == pytest.approx(u, rel=1e-15)


# The fourth moment over u⁴: 9/5 for the rectangle, 12/5 for the triangle, 3 for the normal (any table).
@pytest.mark.parametrize(("shape", "kurtosis"), [("rectangular", 1.8), ("triangular", 2.4), ("normal", 3.0)])
@pytest.mark.parametrize("way", ["draw", "from_normal"])
def test_moments_of_the_draws(shape: str, kurtosis: float, way: str) -> None:
    spread, rng, n = Spread(2.0, shape), np.random.default_rng(11), 400_000  # type: ignore[arg-type]
    sample = spread.draw(rng, n) if way == "draw" else spread.from_normal(rng.standard_normal(n))
    assert sample.shape == (n,)
    assert abs(sample.mean()) < 5 * spread.u / math.sqrt(n)
    # the variance of a variance is (kurtosis - 1) u⁴/n
    assert sample.var() == pytest.approx(spread.u**2, rel=5 * math.sqrt((kurtosis - 1) / n))
    assert (sample**4).mean() / spread.u**4 == pytest.approx(kurtosis, rel=0.02)
    if shape != "normal":
        assert np.abs(sample).max() <= 2.0
        assert np.abs(sample).max() > 1.98


def test_quantiles_from_normal() -> None:
    """P(triangle < -a/2) = 1/8; P(rectangle < a/2) = 3/4."""
    from scipy.special import ndtri

    assert Spread(2.0, "triangular").from_normal(np.array([ndtri(1 / 8)])) == pytest.approx([-1.0], rel=1e-12)
    assert Spread(2.0, "triangular").from_normal(np.array([ndtri(7 / 8)])) == pytest.approx([1.0], rel=1e-12)
    assert Spread(2.0, "rectangular").from_normal(np.array([ndtri(3 / 4)])) == pytest.approx([1.0], rel=1e-12)


@pytest.mark.parametrize("shape", ["rectangular", "triangular", "normal"])
def test_nothing_spreads_nothing(shape: str) -> None:
    spread = Spread(0.0, shape)  # type: ignore[arg-type]
    assert not spread.draw(np.random.default_rng(1), 5).any()


@pytest.mark.parametrize(
    ("fault", "said"),
    [
        ({"half": 1.0, "dof": 0}, "0 degrees of freedom are not allowed; give 1 or more"),
        ({"half": 1.0, "dof": math.nan}, "nan degrees of freedom"),
        ({"half": 1.0, "shape": "triangle"}, "'triangle' is not one of .*; did you mean 'triangular'"),
        ({"half": -1.0}, "-1 is not a half-width"),
        ({"half": math.nan}, "nan is not a half-width"),
        ({"half": math.inf}, "inf is not a half-width"),
        ({"half": 1.0, "k": 0.0}, "coverage factor of 0 is not allowed"),
        ({"half": 1.0, "k": math.inf}, "coverage factor of inf is not allowed"),
    ],
)
def test_refused(fault: dict[str, object], said: str) -> None:
    with pytest.raises(KitError, match=said):
        Spread(**fault)  # type: ignore[arg-type]
