"""What the uncertainties of the givens make of a result: a first-order budget, and Monte Carlo beside it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING

from kit.core.errors import KitError
from kit.core.model.compiled import BLOCK, each_block
from kit.core.model.gradient import Gradient
from kit.core.summary import some, summary

if TYPE_CHECKING:
    import numpy as np

    from kit.core.model.calculation import Calculation
    from kit.core.model.case import Case, Entry

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
    """The first-order uncertainty of a result, in base units, with its rows, largest first.

    `dof` are the effective degrees of freedom, infinite where no half-width rests on few readings.
    """

    result: str
    base: float
    u: float
    rows: tuple[BudgetRow, ...]
    k: float = 2.0
    dof: float = math.inf

    @property
    def expanded(self) -> float:
        """k times the standard uncertainty; with k = 2 about 95 % where the result is near normal."""
        return self.k * self.u

    def k_for(self, coverage: float = 0.95) -> float:
        """Return the coverage factor for a required coverage, by Student's t with the degrees of freedom cut to whole.

        Source: JCGM 100:2008 (GUM), G.4.1.

        Raises:
            KitError: a coverage that is not between 0 and 1.
        """
        from scipy.special import ndtri, stdtrit

        if not 0 < coverage < 1:
            raise KitError(f"a coverage of {coverage:g} is not allowed; give a number between 0 and 1, as 0.95")
        p = (1 + coverage) / 2
        return float(ndtri(p) if math.isinf(self.dof) else stdtrit(math.floor(self.dof), p))

    def __repr__(self) -> str:
        shares = some(f"{row.entry.given.name} {100 * row.share:.0f} %" for row in self.rows)
        return summary(f"Budget of {self.result}: {self.base:.6g}, u {self.u:.3g} (base units)", shares=shares)


def budget(case: Case, result: str, correlations: Correlations | None = None) -> Budget:
    """Return the budget of `result`: the law of propagation of uncertainty, first order.

    `correlations` maps pairs of givens to correlation coefficients. A row's share is the part of u² that it
    brings alone, its correlations left aside. The effective degrees of freedom are those of Welch and
    Satterthwaite; with correlations their formula does not hold, and the least of the rows stand for it.
    Source: JCGM 100:2008 (GUM), equations (10), (16) and (G.2b).

    Raises:
        KitError: a correlation that no set of quantities can have, or a result without a slope at this point.

    >>> from kit import model
    >>> case = model("scale.cursor").at(eye_height="500 mm", eye_offset="50 ± 5 mm", gap="1 ± 0.3 mm")
    >>> [row.entry.given.name for row in budget(case, "parallax").rows][0]
    'gap'
    """
    slopes = _gradient(case.model, result).at(case.base)
    parts = {name: slope * case.entries[name].u for name, slope in slopes.items() if case.entries[name].u > 0}
    variance = math.fsum(part**2 for part in parts.values())
    linked = _checked(case, correlations)
    for (a, b), r in linked.items():
        variance += 2.0 * r * parts.get(a, 0.0) * parts.get(b, 0.0)
    variance = max(variance, 0.0)
    rows = [
        BudgetRow(case.entries[name], slopes[name], abs(part), part**2 / variance if variance else 0.0)
        for name, part in parts.items()
    ]
    rows.sort(key=lambda row: -row.contribution)
    dof = min((row.entry.spread.dof for row in rows), default=math.inf) if linked else _effective(rows, variance)
    return Budget(result, case.base[result], math.sqrt(variance), tuple(rows), dof=dof)


def _effective(rows: Sequence[BudgetRow], variance: float) -> float:
    shaky = math.fsum((row.contribution**2 / variance) ** 2 / row.entry.spread.dof for row in rows if variance)
    return 1 / shaky if shaky else math.inf


@lru_cache(maxsize=256)
def _gradient(model: Calculation, result: str) -> Gradient:
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

    Raises:
        KitError: an impossible correlation, or a result without a value at most of the points drawn.

    >>> from kit import model
    >>> case = model("scale.cursor").at(eye_height="500 mm", eye_offset="50 ± 5 mm", gap="1 ± 0.3 mm")
    >>> drawn = monte_carlo(case, ["parallax"], draws=1000, seed=1)["parallax"]
    >>> len(drawn.sample), drawn.lost
    (1000, 0)
    """
    import numpy as np

    fixed = {name: entry.base for name, entry in case.entries.items()}
    uncertain = [name for name, entry in case.entries.items() if entry.u > 0]
    linked = _checked(case, correlations)
    together = [name for name in uncertain if any(name in pair for pair in linked)]
    root = _root(together, linked) if together else None
    found = {name: np.empty(draws) for name in results}

    def block(start: int, source: np.random.SeedSequence) -> None:
        rng = np.random.default_rng(source)
        count = min(BLOCK, draws - start)
        values: dict[str, object] = {}
        if root is not None:
            deviates = root @ rng.standard_normal((len(together), count))
            for name, z in zip(together, deviates, strict=True):
                values[name] = fixed[name] + case.entries[name].spread.from_normal(z)
        for name in uncertain:
            if name not in together:
                drawn = case.entries[name].spread.draw(rng, count)
                if fixed[name]:
                    drawn += fixed[name]
                values[name] = drawn
        for name, sample in case.compute(values, tuple(results)).items():
            found[name][start : start + count] = sample

    case.compute({}, tuple(results))  # compiles once, before the cores share the work
    starts = range(0, draws, BLOCK)
    # each block has a stream of its own, so that the sample does not depend on how many cores share the work
    each_block(block, starts, np.random.SeedSequence(seed).spawn(len(starts)))
    kept = {name: sample[np.isfinite(sample)] for name, sample in found.items()}
    for name, sample in kept.items():
        if sample.size < draws / 2 and uncertain:
            raise KitError(f"{name} has no value at most of the points drawn; narrow the givens' uncertainties")
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
    """Return the root of the correlation matrix of `names` that is itself symmetric.

    It is the only such root without a negative eigenvalue, whatever signs and order the eigenvectors come in.

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
    return np.asarray(vectors * np.sqrt(np.where(values > 1e-12, values, 0.0)) @ vectors.T)
