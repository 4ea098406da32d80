"""Which of several equally good ones counts: a rule, where the last bits of a sum would decide.

Those bits differ from one processor and one linear algebra library to the next, and so do the signs of the vectors
that a decomposition returns and the order in which a sort leaves equal numbers.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

TIED = 1e-9
"""Numbers count as equal if they differ by no more than this share of the largest of them."""


def first_least(values: ArrayLike, tied: float = TIED) -> int:
    """Return the number of the first of `values` (n,) that is as small as the least one.

    tied: share of the largest finite size by which equal values may differ. Infinite values are never as small.
    """
    return int(first_least_each(np.asarray(values, dtype=float)[:, None], tied)[0])


def first_least_each(values: NDArray[np.float64], tied: float = TIED) -> NDArray[np.int64]:
    """Return for each column of `values` (n, m) the row (m,) that `first_least` finds."""
    size = np.max(np.abs(values), axis=0, where=np.isfinite(values), initial=0.0)
    return np.asarray(np.argmax(values <= values.min(axis=0) + tied * size, axis=0))


def first_largest(values: ArrayLike, tied: float = TIED) -> int:
    """Return the number of the first of `values` (n,) that is as large as the largest one; `tied` as `first_least`."""
    return first_least(-np.asarray(values, dtype=float), tied)


def rough(value: float) -> float:
    """Return nine digits of a number, in its own unit, so that equals sort alike whatever their last bits are."""
    return float(f"{value:.9g}")


def signed(vector: ArrayLike) -> NDArray[np.float64]:
    """Return a vector (n,) or its negative: the one whose largest part, the first of equal ones, is positive."""
    given = np.asarray(vector, dtype=float)
    return given if given[first_largest(np.abs(given))] >= 0.0 else -given


def least_few(values: NDArray[np.float64], count: int) -> NDArray[np.bool_]:
    """Return which of `values` (n,) are the `count` least ones (n,); of equal ones the first."""
    limit = np.partition(values, count - 1)[count - 1]
    chosen: NDArray[np.bool_] = values < limit
    chosen[np.flatnonzero(values == limit)[: count - int(chosen.sum())]] = True
    return chosen
