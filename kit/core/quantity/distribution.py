"""How a stated half-width spreads: the distributions of the GUM that a workshop meets."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, get_args

from kit.core.errors import KitError, near_misses

if TYPE_CHECKING:
    import numpy as np

Shape = Literal["rectangular", "triangular", "normal"]
SHAPES: tuple[Shape, ...] = get_args(Shape)


@dataclass(frozen=True, slots=True)
class Spread:
    """A symmetric distribution around an estimate, known by its shape and its half-width.

    `half` is in base units. For a normal shape it is `k` standard uncertainties (a certificate's expanded
    uncertainty has k = 2); the other shapes end at the half-width. `dof` states on how many degrees of freedom the
    half-width itself rests: n - 1 for one estimated from n readings, infinite where it is known.
    Source: JCGM 100:2008 (GUM) 4.3.4, 4.3.7, 4.3.9 and G.3; JCGM 101:2008, 6.4.9.2 for the draws.
    """

    half: float
    shape: Shape = "rectangular"
    k: float = 2.0
    dof: float = math.inf

    def __post_init__(self) -> None:
        if self.shape not in SHAPES:
            known = near_misses(self.shape, list(SHAPES))
            raise KitError(f"spread {self.shape!r} is not one of {', '.join(SHAPES)}{known}")
        if not (math.isfinite(self.half) and self.half >= 0):
            raise KitError(f"an uncertainty of {self.half:g} is not a half-width; give a number of 0 or more")
        if not (math.isfinite(self.k) and self.k > 0):
            raise KitError(f"a coverage factor of {self.k:g} is not allowed; give a number above 0")
        if not self.dof >= 1:
            raise KitError(
                f"{self.dof:g} degrees of freedom are not allowed; give 1 or more, one less than the readings"
            )

    @property
    def u(self) -> float:
        """The standard uncertainty, in base units."""
        divisor = {"rectangular": math.sqrt(3.0), "triangular": math.sqrt(6.0), "normal": self.k}
        return self.half / divisor[self.shape]

    def from_normal(self, z: np.ndarray) -> np.ndarray:
        """Turn standard normal deviates into deviations from the estimate, in base units.

        Correlated inputs are drawn as correlated normal deviates and then given their own shape (a Gaussian
        copula), so one path serves both cases.
        """
        import numpy as np
        from scipy.special import ndtr, stdtrit

        if self.shape == "normal":
            return np.asarray(self.u * (z if math.isinf(self.dof) else stdtrit(self.dof, ndtr(z))))
        p = ndtr(z)
        if self.shape == "rectangular":
            return np.asarray(self.half * (2.0 * p - 1.0))
        lower = np.sqrt(2.0 * p) - 1.0
        upper = 1.0 - np.sqrt(2.0 * (1.0 - p))
        return np.asarray(self.half * np.where(p < 0.5, lower, upper))

    def draw(self, rng: np.random.Generator, count: int) -> np.ndarray:
        """Draw `count` independent deviations from the estimate, in base units."""
        import numpy as np

        if self.shape == "normal":
            if math.isfinite(self.dof):
                return np.asarray(self.u * rng.standard_t(self.dof, count))
            return np.asarray(rng.normal(0.0, self.u, count))
        if self.shape == "rectangular":
            drawn = rng.random(count)
            drawn *= 2.0 * self.half
            drawn -= self.half
            return np.asarray(drawn)
        if self.half == 0.0:
            return np.zeros(count)
        return np.asarray(rng.triangular(-self.half, 0.0, self.half, count))
