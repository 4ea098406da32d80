"""Many roots at once: the zero of a function in each of n brackets."""

from collections.abc import Callable

import numpy as np

from kit.geometry.development.arrays import Bools, Floats


def roots(function: Callable[[Floats], Floats], low: Floats, high: Floats) -> tuple[Floats, Bools]:
    """Return x (n,) with function(x) = 0 between low and high, and whether a change of sign was there to find one.

    The rule of false position with halved weights (Illinois): superlinear, and it never leaves the bracket.
    """
    low, high = low.copy(), high.copy()
    at_low, at_high = function(low), function(high)
    found = at_low * at_high <= 0
    x = np.where(np.abs(at_low) <= np.abs(at_high), low, high)
    for _ in range(40 if found.any() else 0):
        spread = at_high - at_low
        x = np.where(found & (spread != 0), (low * at_high - high * at_low) / np.where(spread == 0, 1, spread), x)
        here = function(x)
        if np.abs(here[found]).max() < 1e-14:
            break
        same = here * at_high > 0
        at_low = np.where(same, at_low / 2, at_high)
        low = np.where(same, low, high)
        high, at_high = x, here
    return x, found
