"""Chances and intervals by a library of statistics."""

from collections.abc import Mapping

import numpy as np
from scipy import stats
from uncertainties import ufloat

Values = Mapping[str, float]
SHARED, ANEW = ("tape", "zero"), ("blade",)  # what the checks do not set to nothing


def _spread(v: Values, names: tuple[str, ...]) -> float:
    """Return the standard deviation of errors that each lie anywhere within their half-widths, mm."""
    return float(np.sqrt(sum(stats.uniform(0, 2 * v[n]).var() for n in names if v[n])))


def mean_of_parts(v: Values) -> dict[str, float]:
    """Half the interval of 95 percent about a mean of 20 parts."""
    ends = stats.t.interval(0.95, 20 - 1, scale=v["deviation"] / np.sqrt(20))
    return {"bias_expanded": float(ends[1] - ends[0]) / 2}


def root_of_squares(v: Values) -> dict[str, float]:
    """Errors anywhere within their half-widths, propagated."""
    shared, anew = ([ufloat(0, stats.uniform(0, 2 * v[n]).std()) for n in names] for names in (SHARED, ANEW))
    return {"u": sum([*shared, *anew]).std_dev, "common_u": sum(shared).std_dev, "each_u": sum(anew).std_dev}


def chance_of_one(v: Values) -> dict[str, float]:
    """The normal distribution between both ends of the tolerance."""
    spread = _spread(v, SHARED + ANEW)
    within = float(np.diff(stats.norm(0, spread).cdf([-v["tolerance"], v["tolerance"]]))[0])
    return {"u": spread, "one_within": within, "batch_within": within, "batch_alone": within}


def chance_of_two(v: Values) -> dict[str, float]:
    """Two parts that share the tape's and the zero's error: a normal distribution of two with a correlation."""
    common, anew = _spread(v, SHARED) ** 2, _spread(v, ANEW) ** 2
    bell = stats.multivariate_normal([0, 0], [[common + anew, common], [common, common + anew]])
    ends = [v["tolerance"]] * 2
    return {"batch_within": float(bell.cdf(ends, lower_limit=[-e for e in ends]))}
