"""The plane through measured depths, by weighted least squares, what it says of any other place, and feet on it."""

from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import ArrayLike, NDArray

from kit.core.errors import KitError
from kit.geometry.ties import first_largest, first_least

Floats = NDArray[np.float64]

LINE = 1e-6  # of the spread along the longest way: places that spread less across it lie in one line


@dataclass(frozen=True)
class Plane:
    """A fitted plane z = z0 + sx (x - x0) + sy (y - y0) about the places' weighted middle (x0, y0).

    middle : (2,) mm. terms : (3,) z0 [mm], sx, sy [mm/mm]. covariance : (3, 3) of the terms, from the stated standard
    uncertainties alone. residuals : (n,) mm, measured less fitted. misfit: their weighted sum of squares, about n - 3
    where the uncertainties are true and the bed is flat.
    """

    middle: Floats
    terms: Floats
    covariance: Floats
    residuals: Floats
    misfit: float

    @property
    def slopes(self) -> Floats:
        """Slopes along x and y : (2,), mm/mm."""
        return self.terms[1:]

    @property
    def free(self) -> int:
        """How many depths are left over to judge the fit by."""
        return len(self.residuals) - 3

    def depth(self, at: ArrayLike) -> Floats:
        """Return the depth of the plane, mm, at places : (..., 2), mm."""
        return np.asarray(self._rows(at) @ self.terms)

    def u(self, at: ArrayLike) -> Floats:
        """Return the standard uncertainty of the depth, mm, at places : (..., 2), mm."""
        rows = self._rows(at)
        return np.asarray(np.sqrt(np.einsum("...i,ij,...j->...", rows, self.covariance, rows)))

    def _rows(self, at: ArrayLike) -> Floats:
        offset = np.asarray(at, dtype=float) - self.middle
        return np.concatenate([np.ones((*offset.shape[:-1], 1)), offset], axis=-1)


def fit_plane(places: ArrayLike, depths: ArrayLike, u: ArrayLike) -> Plane:
    """Fit a plane to depths measured at three places or more, each weighted by its own uncertainty.

    places : (n, 2) mm; depths : (n,) mm; u : (n,) or one for all, standard uncertainties, mm.
    Raises: KitError for fewer than three places, places in one line, numbers that are not finite, or an uncertainty
    that is not above zero.
    Source: weighted least squares, covariance (AᵀWA)⁻¹; e.g. JCGM 100:2008, H.3 for the line.
    """
    at, z = np.asarray(places, dtype=float), np.asarray(depths, dtype=float)
    if at.ndim != 2 or at.shape[1] != 2 or z.shape != at.shape[:1]:
        raise KitError(
            f"the places come as an array {at.shape} and the depths as {z.shape}; give places (n, 2), depths (n,)"
        )
    if len(at) < 3:
        raise KitError(f"{len(at)} gaps do not fix a plane; measure at three places or more, not in one line")
    spread = np.broadcast_to(np.asarray(u, dtype=float), z.shape)
    if not (np.isfinite(at).all() and np.isfinite(z).all() and np.isfinite(spread).all()):
        raise KitError("a place, a depth or an uncertainty is not a finite number; measure it again")
    if spread.min() <= 0:
        raise KitError(f"a depth has a standard uncertainty of {spread.min():g} mm; give a number above 0 for each")
    weight = 1 / spread**2
    middle = weight @ at / weight.sum()
    offset = at - middle
    along, across = np.linalg.svd(offset, compute_uv=False)
    if across <= LINE * along:
        raise KitError(
            f"the {len(at)} places lie in one line, about which the bed may lean as it likes; measure one well "
            f"beside it"
        )
    size = along / np.sqrt(len(at))  # brings all three columns to one size
    rows = np.column_stack([np.ones(len(at)), offset / size]) / spread[:, None]
    q, r = np.linalg.qr(rows)
    back = np.linalg.inv(r) * np.array([1, 1 / size, 1 / size])[:, None]
    terms = back @ (q.T @ (z / spread))
    residuals = z - np.column_stack([np.ones(len(at)), offset]) @ terms
    return Plane(middle, terms, back @ back.T, residuals, float(((residuals / spread) ** 2).sum()))


def balance(places: ArrayLike) -> Floats:
    """Return the weights : (4,) in which the heights over four places : (4, 2), mm, cancel where they lie in a plane.

    The largest, the first of equal ones, is 1; for the corners of a rectangle in turn they are 1, -1, 1, -1. Weighted
    so, heights that lie in no plane leave the twist: how far a foot of weight 1 hangs when the three others stand.
    Raises: KitError for another number of places, or places in one line.
    """
    at = np.asarray(places, dtype=float)
    if at.shape != (4, 2) or not np.isfinite(at).all():
        raise KitError(f"{len(at)} feet are given; a twist is that of four feet, each with x and y")
    offset = at - at.mean(axis=0)
    along, across = np.linalg.svd(offset, compute_uv=False)
    if across <= LINE * along:
        raise KitError("the four feet stand in one line; measure where they stand again")
    x, y = offset.T
    # Cramer's rule: the weight of each place is the triangle of the three others, with signs by turns.
    twice = [
        (x[j] - x[i]) * (y[k] - y[i]) - (x[k] - x[i]) * (y[j] - y[i])
        for i, j, k in ((1, 2, 3), (0, 2, 3), (0, 1, 3), (0, 1, 2))
    ]
    weights = np.array(twice) * [1, -1, 1, -1]
    return np.asarray(weights / weights[first_largest(np.abs(weights))])


def stepped(wanted: ArrayLike, step: float, weights: ArrayLike | None = None) -> Floats:
    """Return heights in whole steps, mm, next above or below those wanted : (n,), mm.

    Each is the nearest. With the `weights` of `balance`, of all ways to round up or down that leave a twist of half a
    step at most (or, where none does, the least) it is the one that moves the heights least.
    Raises: KitError for a step that is not above zero.
    """
    if not step > 0:
        raise KitError(f"the step is {step:g} mm; give a number above 0")
    parts = np.asarray(wanted, dtype=float) / step
    if weights is None:
        return np.asarray(step * np.floor(parts + 0.5 + LINE))
    ways = np.floor(parts) + np.array(list(product((0, 1), repeat=len(parts))))
    twist, moved = np.abs(ways @ np.asarray(weights)), ((ways - parts) ** 2).sum(axis=1)
    fit = twist <= max(0.5, twist.min()) + LINE
    return np.asarray(step * ways[first_least(np.where(fit, moved, np.inf))])
