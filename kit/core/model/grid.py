"""A model over two of its givens: results, the margin of every limit, and how sure all of them are, on a grid."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from kit.core.errors import KitError, near_misses
from kit.core.model.margins import margins_over, spread_over

if TYPE_CHECKING:
    import numpy as np

    from kit.core.model.case import Case

Ends = tuple[float, float]


@dataclass(frozen=True, eq=False)
class Grid:
    """What a model has at the points of a grid, all else as in a case; arrays are in base units.

    `x` (n,) are the values of the given `across`, `y` (m,) those of `up`. `result` and each of `margins` (m, n) are
    NaN where there is no value; a margin below zero fails.
    """

    across: str
    up: str
    name: str
    x: np.ndarray[Any, Any]
    y: np.ndarray[Any, Any]
    result: np.ndarray[Any, Any]
    margins: dict[str, np.ndarray[Any, Any]]


def axes_of(case: Case) -> list[str]:
    """Return the givens that can be an axis: the measures and counts that a person sets."""
    return [name for name, given in case.model.free.items() if given.kind in ("real", "count")]


def grid(
    case: Case,
    across: str,
    up: str,
    name: str,
    *,
    points: int = 200,
    ends: tuple[Ends | None, Ends | None] = (None, None),
) -> Grid:
    """Return result `name` and all margins over the givens `across` and `up`, at `points` each way.

    The axes reach over the givens' spans unless the `ends` of each [base units] are stated; a count takes whole
    numbers alone.

    Raises:
        KitError: a given that cannot be an axis, the same one twice, an unknown result, or ends without a length.
    """
    known = axes_of(case)
    for axis in (across, up):
        if axis not in known:
            raise KitError(
                f"{axis!r} cannot be an axis{near_misses(axis, known) or '; take one of ' + ', '.join(known)}"
            )
    if across == up:
        raise KitError(f"both axes are {across}; take another given for one of them")
    if name not in case.model.relations:
        hint = near_misses(name, list(case.model.relations)) or f"; it has {', '.join(case.model.relations)}"
        raise KitError(f"{case.model.name} has no result {name!r}{hint}")
    x, y = (_axis(case, axis, each, points) for axis, each in zip((across, up), ends, strict=True))
    values = {across: x[None, :], up: y[:, None]}
    shape = (len(y), len(x))
    result = _whole(case.compute(values, [name])[name], shape)
    margins = {limit: _whole(margin, shape) for limit, margin in margins_over(case, values).items()}
    return Grid(across, up, name, x, y, result, margins)


def least_chance(case: Case, made: Grid) -> np.ndarray[Any, Any]:
    """Return how likely all limits hold at least, at each point of a grid (m, n); NaN where a margin has no value.

    Each limit to first order: its margin is taken as normal, with the givens' uncertainties as in the case and slopes
    at the point (JCGM 106:2012, 7.2). Together at least 1 less what each lacks (Boole's inequality), however they hang
    together.
    """
    import numpy as np
    from scipy.special import ndtr

    values = {made.across: made.x[None, :], made.up: made.y[:, None]}
    spread = spread_over(case, values)
    lacking = np.zeros_like(made.result)
    for limit, margin in made.margins.items():
        u = spread[limit]
        with np.errstate(divide="ignore", invalid="ignore"):
            chance = np.where(u > 0, ndtr(margin / u), np.where(margin >= 0, 1.0, 0.0))
        lacking = lacking + np.where(np.isnan(margin), np.nan, 1.0 - chance)
    return np.maximum(1.0 - lacking, 0.0)


def _axis(case: Case, name: str, ends: Ends | None, points: int) -> np.ndarray[Any, Any]:
    import numpy as np

    given = case.model.givens[name]
    low, high = ends or given.span
    if not (math.isfinite(low) and math.isfinite(high) and low < high):
        raise KitError(f"the axis of {name} has no length; its smaller end comes first")
    if given.kind == "count":
        return np.arange(math.ceil(low), math.floor(high) + 1.0)
    return np.linspace(low, high, points)


def _whole(values: Any, shape: tuple[int, int]) -> np.ndarray[Any, Any]:
    """Return values over the whole grid, NaN where they are not finite."""
    import numpy as np

    wide = np.broadcast_to(np.asarray(values, dtype=float), shape)
    return np.where(np.isfinite(wide), wide, np.nan)
