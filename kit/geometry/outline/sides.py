"""How much room an outline takes, lying as it does."""

import numpy as np
from numpy.typing import ArrayLike


def sides(outline: ArrayLike) -> tuple[float, float]:
    """Return the extents (mm) of points (n, 2) along x and along y."""
    x, y = np.ptp(np.asarray(outline, dtype=float), axis=0)
    return float(x), float(y)
