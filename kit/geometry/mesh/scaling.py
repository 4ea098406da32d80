"""The scale of a scan from lengths measured on the machine."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import chdtri

from kit.core.errors import KitError
from kit.geometry.mesh.mesh import Array


@dataclass(frozen=True)
class Scale:
    """Millimeters per unit of the scan, its standard uncertainty, and how the lengths agree."""

    factor: float
    uncertainty: float
    residuals: Array  # (n,) [mm] measured less scaled
    agree: bool
    warning: str  # a sentence if the lengths disagree, else empty


def fit_scale(scanned: ArrayLike, measured: ArrayLike, uncertainties: ArrayLike) -> Scale:
    """Return the scale that brings `scanned` (n,) lengths nearest to `measured` (n,) [mm].

    `uncertainties` (n,) [mm] are the standard uncertainties of the measured lengths, with what picking the ends on
    the scan adds. Weighted least squares through zero; if chi-square exceeds its 95 % point, the lengths disagree
    and the uncertainty is enlarged by the root of chi-square over its degrees of freedom (Birge's ratio).
    Source: JCGM 100:2008, and R. T. Birge, Phys. Rev. 40 (1932) 207; from memory.

    Raises:
        KitError: no length, or lengths and uncertainties that are not positive numbers.
    """
    scan, real, spread = (np.atleast_1d(np.asarray(part, dtype=float)) for part in (scanned, measured, uncertainties))
    if not scan.shape == real.shape == spread.shape or scan.ndim != 1 or len(scan) == 0:
        raise KitError(
            f"{len(scan)} lengths on the scan, {len(real)} measured and {len(spread)} uncertainties are given; "
            "give all three for each length, and at least one length."
        )
    for name, part in (("length on the scan", scan), ("measured length", real), ("uncertainty", spread)):
        if not (np.isfinite(part) & (part > 0.0)).all():
            raise KitError(f"A {name} is {part.min():g}; every one must be a number above 0.")
    weight = 1.0 / spread**2
    factor = float((weight * scan * real).sum() / (weight * scan**2).sum())
    uncertainty = float((weight * scan**2).sum() ** -0.5)
    residuals = real - factor * scan
    free = len(scan) - 1
    square = float((weight * residuals**2).sum())
    agree = free == 0 or square <= float(chdtri(free, 0.05))
    warning = ""
    if not agree:
        uncertainty *= (square / free) ** 0.5
        worst = int(np.argmax(np.abs(residuals) / spread))
        warning = (
            f"The lengths disagree: after scaling, the one measured as {real[worst]:.5g} mm is off by "
            f"{residuals[worst]:+.3g} mm, {abs(residuals[worst]) / spread[worst]:.1f} times its uncertainty; "
            "measure or pick it again."
        )
    return Scale(factor, uncertainty, residuals, agree, warning)
