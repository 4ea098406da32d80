"""Small samples, against scipy.stats and examples with printed digits."""

import math

import numpy as np
import pytest
from scipy import stats

from kit.core.errors import KitError
from kit.subjects.accuracy.small_samples import all_within, of_summary, sample


def test_limits_of_the_mean_as_printed() -> None:
    """NIST/SEMATECH e-Handbook, 1.3.5.2, ZARR13.DAT (from memory): 195 readings of mean 9.261460 and s = 0.022789.

    The 95 percent limits printed are 9.258242 and 9.264679.
    """
    found = of_summary(195, 9.261460, 0.022789)
    assert found.mean - found.mean_half == pytest.approx(9.258242, abs=1e-6)
    assert found.mean + found.mean_half == pytest.approx(9.264679, abs=1e-6)


def test_limits_of_the_deviation_as_printed() -> None:
    """GEAR.DAT as worked in the Boost math library's examples (read): s = 0.0062789, 100 parts: 0.00551 to 0.00729."""
    found = of_summary(100, 0, 0.0062789)
    assert (round(found.low, 5), round(found.high, 5)) == (0.00551, 0.00729)


@pytest.mark.parametrize(
    ("parts", "low", "high"),
    [(2, 0.4461, 31.9102), (3, 0.5207, 6.2847), (5, 0.5991, 2.8736), (10, 0.6878, 1.8256), (1000, 0.9580, 1.0459)],
)  # fmt: skip
def test_factors_of_the_deviation_as_printed(parts: int, low: float, high: float) -> None:
    """The table of the same examples (read), for a standard deviation of 1."""
    found = of_summary(parts, 0, 1)
    assert (round(found.low, 4), round(found.high, 4)) == (low, high)


@pytest.mark.parametrize("count", [2, 3, 6, 40])
@pytest.mark.parametrize("coverage", [0.68, 0.95, 0.99])
def test_against_scipy(count: int, coverage: float) -> None:
    lengths = np.random.default_rng(count).normal(600, 0.1, count)
    found = sample(lengths.tolist(), coverage)
    low, high = stats.t.interval(coverage, count - 1, loc=lengths.mean(), scale=stats.sem(lengths))
    assert (found.mean - found.mean_half, found.mean + found.mean_half) == pytest.approx((low, high), rel=1e-12)
    squares = ((lengths - lengths.mean()) ** 2).sum()
    ends = [math.sqrt(squares / q) for q in stats.chi2.interval(coverage, count - 1)]
    assert (found.high, found.low) == pytest.approx(ends, rel=1e-9)
    assert (found.dof, found.mean_u) == (count - 1, pytest.approx(stats.sem(lengths)))


def test_intervals_hold_what_they_promise() -> None:
    """20,000 samples of four: the true mean, the true deviation and the next part lie inside in 95 percent of them."""
    rng = np.random.default_rng(5)
    drawn = rng.normal(10, 2, (20_000, 5))
    held = np.zeros(3)
    for row in drawn:
        found = sample(row[:4].tolist())
        held += (
            abs(found.mean - 10) <= found.mean_half,
            found.low <= 2 <= found.high,
            abs(found.mean - row[4]) <= found.next_half,
        )
    assert held / len(drawn) == pytest.approx(0.95, abs=0.006)


@pytest.mark.parametrize(
    ("tolerance", "bias", "shared", "each", "count"),
    [
        (1, 0, 0.5, 0.3, 10),
        (1, 0.4, 0.6, 0.1, 30),
        (0.5, -0.2, 0.3, 0.001, 200),
        (1, 0, 0.2, 0.5, 5),
        (1, 3, 0.1, 0.1, 4),
    ],
)
def test_a_batch_against_the_multivariate_normal(
    tolerance: float, bias: float, shared: float, each: float, count: int
) -> None:
    """A million batches drawn; for a few parts also scipy's integral of the joint distribution."""
    found = all_within(tolerance, bias, shared, each, count)
    rng = np.random.default_rng(count)
    size = 200_000
    center = bias + shared * rng.standard_normal(size)
    each_one = stats.norm.cdf(tolerance, center, each) - stats.norm.cdf(-tolerance, center, each)
    drawn = each_one**count
    assert found == pytest.approx(drawn.mean(), abs=5 * drawn.std() / math.sqrt(size) + 1e-9)
    if count <= 10:
        joint = stats.multivariate_normal(
            mean=[bias] * count, cov=shared**2 * np.ones((count, count)) + each**2 * np.eye(count), seed=1
        )
        box = joint.cdf([tolerance] * count, lower_limit=[-tolerance] * count)
        assert found == pytest.approx(float(box), abs=2e-4)


def test_ends_of_a_batch() -> None:
    assert all_within(1, 0, 0, 0.5, 3) == pytest.approx(math.erf(2 / math.sqrt(2)) ** 3, rel=1e-12)
    assert all_within(1, 0, 0.5, 0, 3) == pytest.approx(math.erf(2 / math.sqrt(2)), abs=1e-6)
    assert all_within(1, 2, 0, 0.1, 3) == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: sample([600.0]), "1 measured part shows no scatter; cut and measure two or more"),
        (lambda: sample([]), "0 measured part"),
        (lambda: sample([600.0, math.nan]), "no finite length; take it out"),
        (lambda: sample([1.0, 2.0], 95), "a coverage of 95 is not allowed"),
        (lambda: of_summary(1, 0, 1), "shows no scatter"),
        (lambda: all_within(-1, 0, 1, 1, 1), "none of them below 0"),
        (lambda: all_within(1, 0, 0, 0, 1), "some scatter"),
        (lambda: all_within(1, 0, 1, 1, 0), "1 part or more"),
    ],
)
def test_bad_input(call: object, said: str) -> None:
    with pytest.raises(KitError, match=said):
        call()  # type: ignore[operator]
