"""A scale calibrated by any number of test cuts: weighted least squares of part on reading, with its covariance.

The line is part = zero + scale · reading. Lengths in mm. Sources: least squares of a straight line as in JCGM
100:2008 (GUM), H.3; Student's factor after its annex G; the sum of weighted squares judged by chi-square.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import chdtrc, ndtri, stdtrit

from kit.core.errors import KitError

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Calibration:
    """The line through test cuts and how surely it is known."""

    zero: float  # [mm] part at reading zero
    scale: float  # part for each unit read
    covariance: Array  # (2, 2) of zero [mm] and scale
    middle: float  # [mm] weighted mean of the readings, where the line is surest
    middle_u: float  # [mm] standard uncertainty of the line there
    residuals: Array  # (n,) [mm] parts less the line
    spread: float  # [mm] standard deviation of one cut about the line, from the scatter; NaN for two cuts
    freedom: float  # degrees of freedom of the uncertainties: n − 2, or infinite where those of the cuts are given
    chance: float  # of a scatter as large as this one, if the given uncertainties are right; NaN where none tells
    rule: float = 0.0  # standard uncertainty, for each unit of length, of the one rule by which all parts were measured

    @property
    def zero_u(self) -> float:
        """Standard uncertainty of the zero, mm."""
        return float(np.sqrt(self.covariance[0, 0]))

    @property
    def scale_u(self) -> float:
        """Standard uncertainty of the scale, mm for each mm."""
        return float(np.hypot(np.sqrt(self.covariance[1, 1]), self.rule))

    @property
    def correlation(self) -> float:
        """Correlation of zero and scale."""
        return float(self.covariance[0, 1] / (self.zero_u * self.scale_u))

    def part(self, reading: ArrayLike) -> Array:
        """Return the parts (n,) [mm] that the line gives for readings (n,) [mm]."""
        return self.zero + self.scale * np.asarray(reading, dtype=float)

    def reading(self, part: ArrayLike) -> Array:
        """Return the readings (n,) [mm] to set for parts (n,) [mm]."""
        return (np.asarray(part, dtype=float) - self.zero) / self.scale

    def u(self, reading: ArrayLike) -> Array:
        """Return the standard uncertainty (n,) [mm] of the line at readings (n,) [mm]."""
        away = np.asarray(reading, dtype=float) - self.middle
        scale = self.covariance[1, 1]
        common = self.rule * np.asarray(reading, dtype=float)
        return np.asarray(np.sqrt(self.middle_u**2 + scale * away**2 + common**2))

    def factor(self, coverage: float = 0.95) -> float:
        """Return the factor that makes an interval of this coverage of a standard uncertainty.

        Raises:
            KitError: the coverage is not between 0 and 1.
        """
        if not 0 < coverage < 1:
            raise KitError(f"The coverage is {coverage:g}; it must be between 0 and 1, such as 0.95.")
        upper = (1 + coverage) / 2
        return float(ndtri(upper) if np.isinf(self.freedom) else stdtrit(self.freedom, upper))

    def band(self, reading: ArrayLike, coverage: float = 0.95) -> Array:
        """Return the half-width (n,) [mm] of the line's band at readings (n,) [mm]."""
        return self.factor(coverage) * self.u(reading)

    def next_band(self, reading: ArrayLike, cut_u: float | None = None, coverage: float = 0.95) -> Array:
        """Return the half-width (n,) [mm] within which the next part falls; `cut_u` [mm] is the next cut's own.

        Raises:
            KitError: no `cut_u` is given and two cuts cannot tell it.
        """
        own = self.spread if cut_u is None else cut_u
        if not own >= 0:
            raise KitError("Two test cuts do not show how cuts scatter; give the standard uncertainty of the next cut.")
        return np.asarray(self.factor(coverage) * np.sqrt(self.u(reading) ** 2 + own**2))

    def trusted(self, allowed: float, coverage: float = 0.95) -> tuple[float, float] | None:
        """Return the readings [mm] from which to which the band is at most `allowed` [mm]; None if nowhere."""
        scale, common = self.covariance[1, 1], self.rule**2
        best = scale * self.middle / (scale + common)  # where both together are least
        room = (allowed / self.factor(coverage)) ** 2 - self.middle_u**2 - best * self.middle * common
        if room < 0:
            return None
        reach = float(np.sqrt(room / (scale + common)))
        return best - reach, best + reach


def calibrate(readings: ArrayLike, parts: ArrayLike, u: ArrayLike | None = None, *, rule: float = 0.0) -> Calibration:
    """Return the line through test cuts: `readings` (n,), `parts` (n,) [mm].

    `u` is the standard uncertainty of the cuts [mm], one for all or (n,); cuts are weighted by 1/u², and the
    uncertainties of the line follow from it. Without it the scatter about the line tells it, as in GUM H.3. `rule` is
    as in `Calibration`; the scatter does not show it.

    Raises:
        KitError: lengths that differ or are not finite, uncertainties not above 0, fewer than two cuts (three
            without `u`), or all at one reading.
    """
    R, L = (np.atleast_1d(np.asarray(given, dtype=float)) for given in (readings, parts))
    if R.shape != L.shape or R.ndim != 1:
        raise KitError(f"There are {R.size} readings and {L.size} parts; give one measured part for each reading.")
    if not (np.isfinite(R).all() and np.isfinite(L).all()):
        raise KitError("A reading or part of the test cuts is not a finite number; leave that cut out.")
    least = 2 if u is not None else 3
    if R.size < least:
        words = "" if u is not None else ", or two and the standard uncertainty of a cut"
        raise KitError(f"There are {R.size} test cuts; a calibration needs at least {least}{words}.")
    if np.ptp(R) <= 1e-9 * np.abs(R).max():
        raise KitError(
            f"All test cuts were made at reading {R[0]:g} mm; a calibration needs at least two readings, far apart."
        )
    sigma = np.broadcast_to(np.asarray(1.0 if u is None else u, dtype=float), R.shape)
    if not (np.isfinite(sigma).all() and (sigma > 0).all()):
        raise KitError(f"A test cut's standard uncertainty is {float(np.nanmin(sigma)):g} mm; it must be above 0 mm.")
    return _line(R, L, sigma, u is not None, rule)


def _line(R: Array, L: Array, sigma: Array, known: bool, rule: float) -> Calibration:
    weight = 1 / sigma**2
    total = weight.sum()
    middle, mean = (float((weight * given).sum() / total) for given in (R, L))
    away = R - middle  # about the middle the two normal equations part
    square = float((weight * away**2).sum())
    scale = float((weight * away * (L - mean)).sum() / square)
    residuals = L - mean - scale * away
    freedom = R.size - 2
    squares = float((weight * residuals**2).sum())
    variance = 1.0 if known else squares / freedom
    covariance = variance * np.array(
        [[1 / total + middle**2 / square, -middle / square], [-middle / square, 1 / square]]
    )
    spread = float(np.sqrt((residuals**2).sum() / freedom)) if freedom else float("nan")
    chance = float(chdtrc(freedom, squares)) if known and freedom else float("nan")
    return Calibration(
        zero=mean - scale * middle,
        scale=scale,
        covariance=covariance,
        middle=middle,
        middle_u=float(np.sqrt(variance / total)),
        residuals=residuals,
        spread=spread,
        freedom=float("inf") if known else float(freedom),
        chance=chance,
        rule=rule,
    )
