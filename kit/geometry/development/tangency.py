"""How far the two tangent planes along a ruling disagree, and the strain that this means.

A ruled surface between two curves is developable exactly where one plane touches it all along each ruling: the plane
of the ruling and the tangent of the first curve is the plane of the ruling and the tangent of the second. At a corner
of a curve the surface may turn round the corner, so every plane between its two tangents counts.
"""

from dataclasses import dataclass

import numpy as np

from kit.geometry.development.arrays import Floats, cross, dot, norm, unit_rows
from kit.geometry.development.curves import Curve

AGREE = 1e-6  # rad, a defect below which two planes are one but for rounding


@dataclass(frozen=True)
class Tangents:
    """Points and one-sided tangents of a curve at chosen parameters, each (n, 3)."""

    at: Floats
    before: Floats
    after: Floats

    @classmethod
    def of(cls, curve: Curve, t: Floats) -> "Tangents":
        """Read a curve at parameters t (n,).

        At the free ends of an open curve, round which the surface may turn as it likes, the tangents are zero.
        """
        found = cls.through(curve, t)
        return cls(found.at, *(_but_free(curve, t, tangent) for tangent in (found.before, found.after)))

    @classmethod
    def ahead(cls, curve: Curve, t: Floats) -> "Tangents":
        """Read a curve at parameters t (n,) as `of` does, but with the tangent after each on both sides."""
        after = _but_free(curve, t, curve.derivative(t))
        return cls(curve.at(t), after, after)

    @classmethod
    def through(cls, curve: Curve, t: Floats) -> "Tangents":
        """Read a curve at parameters t (n,), its free ends too as if it ran on straight."""
        return cls(curve.at(t), curve.derivative(t, after=False), curve.derivative(t))


def _but_free(curve: Curve, t: Floats, tangents: Floats) -> Floats:
    """Return tangents (n, 3), zero at the free ends of an open curve."""
    if curve.closed:
        return tangents
    return np.where(((t <= 0) | (t >= curve.end))[:, None], 0.0, tangents)


def defects(a: Tangents, b: Tangents) -> Floats:
    """Return the twist defect of each ruling a → b: the angle (rad, 0 to π) between the two tangent planes, shape (n,).

    Zero where the planes agree, at a corner for any plane in the corner's fan, at a free end and at an apex.
    """
    along = unit_rows(b.at - a.at)
    side = unit_rows(a.after - dot(a.after, along)[:, None] * along)
    other = cross(along, side)
    low_a, high_a = _fan(a, along, side, other)
    low_b, high_b = _fan(b, along, side, other)
    # Angles count modulo a full turn: bring the middle of the second fan within half a turn of the first.
    shift = 2 * np.pi * np.rint((low_a + high_a - low_b - high_b) / (4 * np.pi))
    gap = np.maximum(low_a - (high_b + shift), (low_b + shift) - high_a)
    pointed = (norm(a.after) == 0) | (norm(b.after) == 0)
    return np.where(pointed, 0.0, np.clip(gap, 0.0, np.pi))


def _fan(c: Tangents, along: Floats, side: Floats, other: Floats) -> tuple[Floats, Floats]:
    """Return the least and greatest angle of the curve's tangents round the ruling."""
    angles = []
    for tangent in (c.before, c.after):
        angles.append(np.arctan2(dot(tangent, other), dot(tangent, side)))
    turn = np.mod(angles[1] - angles[0] + np.pi, 2 * np.pi) - np.pi
    end = angles[0] + turn
    return np.minimum(angles[0], end), np.maximum(angles[0], end)


def planes_apart(a: Tangents, b: Tangents) -> Floats:
    """Return the signed mismatch det(tangent a, tangent b, ruling) (n,), mm, zero where one plane touches both."""
    return dot(cross(unit_rows(a.after), unit_rows(b.after)), unit_rows(b.at - a.at))


def strain_of_twist(defect: Floats) -> Floats:
    """Return the strain that the middle of a ruling asks for when its tangent planes disagree by defect (rad).

    Between two near rulings let both ends be w apart, in directions that differ by the defect δ. Halfway along the
    ruling the gap is the length of the mean of two vectors of length w at angle δ, w cos(δ/2), while flat cloth is
    w wide there: the strain is 1 - cos(δ/2), about δ²/8.
    """
    return np.asarray(np.where(defect < AGREE, 0.0, 1 - np.cos(defect / 2)))
