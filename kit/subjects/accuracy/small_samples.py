"""Small samples done right: what a few measured parts say about their mean and scatter, and a batch's chances.

Plain arrays and floats, in any one unit.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.integrate import quad
from scipy.special import chdtri, ndtr, stdtrit

from kit.core.errors import KitError


@dataclass(frozen=True, slots=True)
class Sample:
    """A few measured parts: how many, mean, standard deviation, and the limits at the coverage asked for.

    `mean_half` is the half-width of the mean's confidence interval, `low` and `high` end that of the true standard
    deviation, `next_half` is how far one more part may lie from the mean.
    """

    count: int
    mean: float
    deviation: float
    coverage: float
    mean_half: float
    low: float
    high: float
    next_half: float

    @property
    def dof(self) -> int:
        """Degrees of freedom of the standard deviation."""
        return self.count - 1

    @property
    def mean_u(self) -> float:
        """Standard deviation of the mean."""
        return self.deviation / math.sqrt(self.count)


def sample(lengths: Sequence[float], coverage: float = 0.95) -> Sample:
    """Return what measured `lengths`, (n,), say about a normal population.

    Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.2 (Student's t) and 1.3.5.8 (chi-square).

    Raises:
        KitError: fewer than two parts, a length that is not finite, or a coverage not between 0 and 1.
    """
    parts = np.asarray(lengths, dtype=float)
    if parts.ndim != 1 or parts.size < 2:
        raise KitError(f"{parts.size} measured part shows no scatter; cut and measure two or more")
    if not np.isfinite(parts).all():
        raise KitError("a measured part has no finite length; take it out of the list")
    return of_summary(parts.size, float(parts.mean()), float(parts.std(ddof=1)), coverage)


def of_summary(count: int, mean: float, deviation: float, coverage: float = 0.95) -> Sample:
    """Return the same from the number of parts, their mean and their standard deviation.

    Raises as `sample`.
    """
    if count < 2:
        raise KitError(f"{count} measured part shows no scatter; cut and measure two or more")
    if not 0 < coverage < 1:
        raise KitError(f"a coverage of {coverage:g} is not allowed; give a number between 0 and 1, as 0.95")
    tail, dof = (1 - coverage) / 2, count - 1
    t = float(stdtrit(dof, 1 - tail))
    low, high = (deviation * math.sqrt(dof / chdtri(dof, p)) for p in (tail, 1 - tail))
    mean_half = t * deviation / math.sqrt(count)
    return Sample(count, mean, deviation, coverage, mean_half, low, high, t * deviation * math.sqrt(1 + 1 / count))


def all_within(tolerance: float, bias: float, shared: float, each: float, count: int) -> float:
    """Return the probability that all `count` parts lie within ± `tolerance`, by quadrature.

    Every part is `bias` off, plus one normal error of standard deviation `shared` for the whole batch, plus its own of
    standard deviation `each`.

    Raises:
        KitError: a tolerance or scatter below 0, both kinds of scatter nothing, or no part.
    """
    if min(tolerance, shared, each) < 0 or shared + each == 0 or count < 1:
        raise KitError("a batch has 1 part or more, a tolerance, and some scatter, none of them below 0")

    def one(center: float) -> float:
        if each == 0:
            return float(abs(center) <= tolerance)
        return float(ndtr((tolerance - center) / each) - ndtr((-tolerance - center) / each))

    if shared == 0:
        return one(bias) ** count
    edges = [z for z in ((-tolerance - bias) / shared, (tolerance - bias) / shared) if abs(z) < 9]

    def slice_(z: float) -> float:
        return math.exp(-z * z / 2) * one(bias + shared * z) ** count

    found, _ = quad(slice_, -9, 9, points=edges or None, limit=400, epsabs=1e-12)
    return float(found) / math.sqrt(2 * math.pi)
