"""What a result depends on over a range of its givens, not only at a point: Sobol' indices, first and total order."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from kit.core.errors import KitError, near_misses
from kit.core.summary import some, summary

if TYPE_CHECKING:
    import numpy as np

    from kit.core.model.case import Case

BLOCK = 8192  # points that are worked at once, between two looks at who waits
SAMPLES = 4096  # a power of two; each given takes as many again
_SEED = 1
_NOISE = 0.05  # by so much an estimated share may lie outside of 0 to 1


@dataclass(frozen=True, slots=True)
class Influence:
    """A given's part in a result's variance over the range: alone (first order), and with all it works with (total)."""

    name: str
    first: float
    total: float


@dataclass(frozen=True)
class Sensitivity:
    """The influences on a result, the largest total first; `low` and `high` hold 90 % of what it comes to.

    Base units.
    """

    result: str
    rows: tuple[Influence, ...]
    low: float
    high: float

    @property
    def settled(self) -> bool:
        """Whether the shares are what shares can be; else a few corners of the range outweigh all else."""
        return all(row.first > -_NOISE and row.total < 1 + _NOISE for row in self.rows)

    def __repr__(self) -> str:
        shares = some(f"{row.name} {100 * row.first:.0f} % alone, {100 * row.total:.0f} % in all" for row in self.rows)
        return summary(f"Sensitivity of {self.result} over the range", of=shares)


def sensitivity(
    case: Case,
    result: str,
    ranges: Mapping[str, tuple[float, float]] | None = None,
    *,
    samples: int = SAMPLES,
    watch: Callable[[str], bool] | None = None,
) -> Sensitivity:
    """Return how much of a result's variance each given brings while all of them roam their ranges, evenly.

    `ranges` are the ends of some givens in base units; without them, the spans of all measures.
    All else is as in the case. The same question has the same answer. `watch` is told how far it is; False ends it.
    Source: A. Saltelli et al., Computer Physics Communications 181 (2010), 259; as carried out by scipy.

    Raises:
        KitError: an unknown result or given, a range of no width, a result that does not change or has no value
            somewhere in the range; or `watch` ended it.

    >>> from kit import model
    >>> found = sensitivity(model("scale.cursor").at(), "parallax")
    >>> found.rows[0].name
    'eye_height'
    """
    import numpy as np
    from scipy.stats import sobol_indices, uniform

    model = case.model
    if result not in model.relations:
        raise KitError(f"{model.name} has no result {result!r}{near_misses(result, list(model.relations))}")
    rests = {name for link in model.needed([result]) for name in link.rests_on}
    roaming = ranges or {name: given.span for name, given in model.free.items() if given.kind == "real"}
    names = [name for name in roaming if name in rests]
    for name, (low, high) in roaming.items():
        if name not in model.free:
            raise KitError(f"{model.name} has no given {name!r}{near_misses(name, list(model.free))}")
        if not (math.isfinite(low) and math.isfinite(high) and low < high):
            raise KitError(f"the range of {name} has no width; give it another, or leave it out")
    if not names:
        raise KitError(f"{result} rests on none of the givens that roam; choose others")

    def at(points: np.ndarray[Any, Any]) -> np.ndarray[Any, Any]:
        flat = points.reshape(len(names), -1)
        answer = np.empty(flat.shape[1])  # scipy changes it
        for start in range(0, answer.size, BLOCK):
            if watch is not None and not watch(f"letting the givens roam: {start / answer.size:.0%}"):
                raise KitError("stopped; nothing has changed")
            block = slice(start, start + BLOCK)
            answer[block] = case.compute(dict(zip(names, flat[:, block], strict=True)), [result])[result]
        return answer.reshape(points.shape[1:])

    trial = uniform(0, 1).rvs(size=(len(names), 4096), random_state=np.random.default_rng(_SEED))
    ends = np.array([roaming[name] for name in names])
    tried = at(ends[:, :1] + trial * (ends[:, 1:] - ends[:, :1]))
    lost = float(np.mean(~np.isfinite(tried)))
    if lost:
        share = "less than 1 %" if lost < 0.01 else f"{100 * lost:.0f} %"
        raise KitError(f"{result} has no value in {share} of the range; take a narrower range about the design")
    if np.ptp(tried) <= 1e-12 * float(np.max(np.abs(tried))):
        raise KitError(f"{result} does not change over the range; take a wider range or other givens")
    spread = [uniform(low, high - low) for low, high in ends]
    found = sobol_indices(func=lambda x: at(x)[None, :], n=samples, dists=spread, rng=np.random.default_rng(_SEED))
    rows = [
        Influence(name, float(first), float(total))
        for name, first, total in zip(names, np.ravel(found.first_order), np.ravel(found.total_order), strict=True)
    ]
    low, high = (float(each) for each in np.percentile(tried, (5, 95)))
    return Sensitivity(result, tuple(sorted(rows, key=lambda row: -row.total)), low, high)


def about(case: Case, names: Sequence[str], share: float) -> dict[str, tuple[float, float]]:
    """Return ranges about a design: a share of each given's span, kept within it; base units."""
    found = {}
    for name in names:
        (low, high), here = case.model.givens[name].span, case.base[name]
        wide = share * (high - low)
        begin = min(max(here - wide / 2, low), high - wide)
        found[name] = (begin, begin + wide)
    return found
