"""What each piece of a path costs the air: loss coefficients, in velocity pressures at its narrow end.

Lengths are in mm, angles in rad; the rest are plain numbers.

Sources: D. C. Rennels, H. M. Hudson, Pipe Flow (2012): rounded bend and conical contraction, read in the library
fluids, which states them; C. F. Colebrook (1939) and J.-C. Borda: textbooks of fluid mechanics, from memory; ACGIH,
Industrial Ventilation, branch entry losses, from memory; B. Abushakra, I. S. Walker, M. H. Sherman, Compression
Effects on Pressure Loss in Flexible HVAC Ducts: that compression multiplies the loss, read; ASHRAE's formula of it,
from memory.
"""

from math import atan, exp, log10, pi, sin, sqrt

import numpy as np

BRANCH_ANGLES = (10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 90)  # deg
BRANCH_LOSSES = (0.06, 0.09, 0.12, 0.15, 0.18, 0.21, 0.25, 0.28, 0.32, 0.44, 1.00)
LAMINAR = 2300  # Reynolds number below which air creeps; textbook of fluid mechanics, from memory
SETTLED = 1e-13  # relative change of 1/√λ at which Colebrook's equation counts as solved
INCH = 25.4


def friction(reynolds: float, roughness: float) -> float:
    """Return the friction factor for a `roughness` relative to the diameter: by Colebrook, below `LAMINAR` as 64/Re."""
    if reynolds < LAMINAR:
        return 64.0 / reynolds
    root = 8.0
    while True:
        better = -2.0 * log10(roughness / 3.7 + 2.51 * root / reynolds)
        if abs(better - root) <= SETTLED * root:
            return 1.0 / better**2
        root = better


def bend(angle: float, radius: float, lam: float) -> float:
    """Return the loss of a rounded bend through `angle`, its axis `radius` diameters from its center, after Rennels."""
    half = sin(angle / 2)
    turn: float = 6.6 * lam * (sqrt(half) + half) / pow(radius, 4 * angle / pi)
    return lam * angle * radius + (0.10 + 2.4 * lam) * half + turn


def contraction(wide: float, narrow: float, length: float, lam: float) -> float:
    """Return the loss of a cone from the diameter `wide` to `narrow` within `length`, after Rennels."""
    beta, angle = narrow / wide, 2 * atan((wide - narrow) / (2 * length))
    jet: float = 1 + 0.622 * pow(angle / pi, 0.8) * (1 - 0.215 * beta**2 - 0.785 * beta**5)
    rubbing = lam * (1 - beta**4) / (8 * sin(angle / 2))
    return rubbing + 0.0696 * sin(angle / 2) * (1 - beta**5) * jet**2 + (jet - 1) ** 2


def widening(narrow: float, wide: float) -> float:
    """Return the loss of a sudden widening, after Borda and Carnot; a slender cone costs less."""
    return (1 - (narrow / wide) ** 2) ** 2


def branch_entry(angle: float) -> float:
    """Return what a branch loses where it enters a main at `angle`."""
    return float(np.interp(angle * 180 / pi, BRANCH_ANGLES, BRANCH_LOSSES))


def pushed_together(share: float, diameter: float) -> float:
    """Return by how much more a flexible hose costs that is drawn out to `share` of its full length."""
    return 1 + 0.58 * 100 * (1 - share) * exp(-0.126 * diameter / INCH)
