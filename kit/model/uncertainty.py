"""What the uncertainties of the givens make of a result: a first-order budget, and Monte Carlo beside it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING

from kit.errors import KitError
from kit.model.gradient import Gradient

if TYPE_CHECKING:
    import numpy as np

    from kit.model.case import Case, Entry
    from kit.model.statement import Model

Correlations = Mapping[tuple[str, str], float]


@dataclass(frozen=True, slots=True)
class BudgetRow:
    """One given's part in a result's uncertainty; `sensitivity` and `contribution` are in base units."""

    entry: Entry
    sensitivity: float
    contribution: float
    share: float


@dataclass(frozen=True, slots=True)
class Budget:
    """The first-order uncertainty of a result, in base units, with its rows, largest first."""

    result: str
    value: float
    u: float
    rows: tuple[BudgetRow, ...]
    k: float = 2.0

    @property
    def expanded(self) -> float:
        """k times the standard uncertainty; with k = 2 about 95 % where the result is near normal."""
        return self.k * self.u


def budget(case: Case, result: str, correlations: Correlations | None = None) -> Budget:
    """Return the budget of `result`: the law of propagation of uncertainty, first order.

    `correlations` maps pairs of givens to correlation coefficients. A row's share is the part of u² that it
    brings alone, its correlations left aside.
    Source: JCGM 100:2008 (GUM), equations (10) and (16).

    Raises:
        KitError: a correlation that no set of quantities can have, or a result without a slope at this point.
    """
    slopes = _gradient(case.model, result).at(case.value)
    parts = {name: slope * case.entries[name].u for name, slope in slopes.items() if case.entries[name].u > 0}
    variance = math.fsum(part**2 for part in parts.values())
    for (a, b), r in _checked(case, correlations).items():
        variance += 2.0 * r * parts.get(a, 0.0) * parts.get(b, 0.0)
    variance = max(variance, 0.0)
    rows = [
        BudgetRow(case.entries[name], slopes[name], abs(part), part**2 / variance if variance else 0.0)
        for name, part in parts.items()
    ]
    rows.sort(key=lambda row: -row.contribution)
    return Budget(result, case.value[result], math.sqrt(variance), tuple(rows))


@lru_cache(maxsize=256)
def _gradient(model: Model, result: str) -> Gradient:
    return Gradient(model, result)


@dataclass(frozen=True, slots=True)
class Draws:
    """A result's Monte Carlo sample, in base units. `lost` draws had no value and are left out."""

    result: str
    sample: np.ndarray = field(repr=False)
    lost: int

    @property
    def mean(self) -> float:
        """The sample's mean."""
        return float(self.sample.mean())

    @property
    def u(self) -> float:
        """The sample's standard deviation."""
        return float(self.sample.std(ddof=1)) if self.sample.size > 1 else 0.0

    def interval(self, coverage: float = 0.95) -> tuple[float, float]:
        """Return the probabilistically symmetric coverage interval (JCGM 101:2008, 7.7)."""
        import numpy as np

        tail = (1.0 - coverage) / 2.0
        low, high = np.quantile(self.sample, [tail, 1.0 - tail])
        return float(low), float(high)


def monte_carlo(
    case: Case,
    results: Sequence[str],
    *,
    draws: int = 200_000,
    seed: int = 1,
    correlations: Correlations | None = None,
) -> dict[str, Draws]:
    """Return samples of `results` with every uncertain given drawn from its own distribution.

    The same seed gives the same sample. Correlated givens are drawn through a Gaussian copula; of those that
    are not normal the correlation comes out a little smaller, by 0.02 at most.
    Source: JCGM 101:2008.
    """
    import numpy as np

    rng = np.random.default_rng(seed)
    values: dict[str, object] = {name: entry.base for name, entry in case.entries.items()}
    uncertain = [name for name, entry in case.entries.items() if entry.u > 0]
    linked = _checked(case, correlations)
    together = [name for name in uncertain if any(name in pair for pair in linked)]
    if together:
        deviates = _root(together, linked) @ rng.standard_normal((len(together), draws))
        for name, z in zip(together, deviates, strict=True):
            values[name] = case.entries[name].base + case.entries[name].spread.from_normal(z)
    for name in uncertain:
        if name not in together:
            values[name] = case.entries[name].base + case.entries[name].spread.draw(rng, draws)
    found = case.model.compute(values, tuple(results))
    kept = {name: sample[np.isfinite(sample)] for name, sample in found.items()}
    for name, sample in kept.items():
        if sample.size < draws / 2 and uncertain:
            raise KitError(
                f"{name} has no value at most of the points drawn; narrow the givens' uncertainties"
            )
    return {name: Draws(name, sample, int(found[name].size - sample.size)) for name, sample in kept.items()}


def _checked(case: Case, correlations: Correlations | None) -> Correlations:
    for pair, r in (correlations or {}).items():
        for name in pair:
            if name not in case.entries:
                raise KitError(f"a correlation names {name!r}, but {case.model.name} has no such given")
        if not -1.0 <= r <= 1.0:
            raise KitError(f"the correlation of {pair[0]} and {pair[1]} is {r:g}; it must lie from -1 to 1")
    linked = dict(correlations or {})
    if len({frozenset(pair) for pair in linked if pair[0] != pair[1]}) < len(linked):
        raise KitError("a correlation is of two different givens; name each pair once")
    if linked:
        _root(sorted({name for pair in linked for name in pair}), linked)
    return linked


def _root(names: list[str], correlations: Correlations) -> np.ndarray:
    """Return a root of the correlation matrix of `names`.

    Raises:
        KitError: it has none, as no set of quantities can be so correlated.
    """
    import numpy as np

    matrix = np.eye(len(names))
    for (a, b), r in correlations.items():
        if a in names and b in names:
            i, j = names.index(a), names.index(b)
            matrix[i, j] = matrix[j, i] = r
    values, vectors = np.linalg.eigh(matrix)
    if values.min() < -1e-12:
        raise KitError("the correlations contradict each other; no set of quantities can have them all")
    return np.asarray(vectors * np.sqrt(np.clip(values, 0.0, None)))
