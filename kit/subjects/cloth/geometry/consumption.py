"""How much cloth a flat piece takes from a roll: its narrowest band, and its rectangle with the grain."""

from dataclasses import dataclass

import numpy as np
from scipy.spatial import ConvexHull

from kit.core.errors import KitError
from kit.geometry.development.arrays import Floats


@dataclass(frozen=True)
class Rectangle:
    """The rectangle of least area round a piece whose side across is at most the cloth's width.

    along, across: its sides, mm; angle: direction of `along` on the piece, rad.
    """

    along: float
    across: float
    angle: float

    @property
    def area(self) -> float:
        """The cloth it takes, mm²."""
        return self.along * self.across


def extent(outline: Floats, angle: float) -> tuple[float, float]:
    """Return how far an outline (n, 2) reaches along a direction (rad) and across it, mm."""
    c, s = np.cos(angle), np.sin(angle)
    return float(np.ptp(outline @ [c, s])), float(np.ptp(outline @ [-s, c]))


def rectangle_round(outline: Floats, width: float = np.inf, margin: float = 0.0) -> Rectangle | None:
    """Return the least rectangle round an outline (n, 2) that fits a cloth of given width (mm), or None if none does.

    margin is added on every side. One side of the least rectangle lies on a side of the convex hull; where the width
    decides, the piece may lie at any of these angles, along or across.
    """
    hull = outline[ConvexHull(outline).vertices]
    side = np.roll(hull, -1, axis=0) - hull
    direction = np.arctan2(side[:, 1], side[:, 0])
    direction = np.concatenate([direction, direction + np.pi / 2])
    ahead = np.stack([np.cos(direction), np.sin(direction)])
    beside = np.stack([-np.sin(direction), np.cos(direction)])
    along, across = (np.ptp(hull @ axis, axis=0) + 2 * margin for axis in (ahead, beside))
    area = np.where(across <= width + 1e-9, along * across, np.inf)
    best = int(area.argmin())
    if not np.isfinite(area[best]):
        return None
    return Rectangle(float(along[best]), float(across[best]), float(direction[best]))


def check_width(name: str, outline: Floats, width: float, grain: float | None = None) -> None:
    """Refuse a piece that a cloth of given width (mm) cannot hold, with its grain (rad on the piece) along the roll.

    Raises: KitError that names the piece and says how much is missing.
    """
    if grain is None:
        if rectangle_round(outline, width) is not None:
            return
        hull = outline[ConvexHull(outline).vertices]
        side = np.roll(hull, -1, axis=0) - hull
        needs = min(extent(hull, float(angle))[1] for angle in np.arctan2(side[:, 1], side[:, 0]))
        mend = "part it by a seam, or take wider cloth"
    else:
        needs = extent(outline, grain)[1]
        if needs <= width + 1e-9:
            return
        mend = "turn its grain, part it by a seam, or take wider cloth"
    raise KitError(f"The {name} is {needs:.0f} mm wide but the cloth only {width:.0f} mm; {mend}")
