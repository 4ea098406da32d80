"""Relief cuts of a curved hem: how far apart and how deep, from the radius, the hem and what the cloth tolerates.

The picture: a hem is folded flat along a curved edge of radius R. A thread at distance y from the fold line ran along
an arc of radius R ± y and comes to lie on one of radius R ∓ y. On a concave edge (the cloth lies outside the arc) the
hem lies at R - y and is folded to R + y: it must stretch, so it is slit. On a convex edge it lies at R + y and is
folded to R - y: there is too much of it, so notches are taken out.
"""

import numpy as np

from kit.geometry.development.arrays import Floats


def strain_of_fold(distance: float, radius: float, concave: bool) -> float:
    """Return the size of the strain of an uncut hem at a distance from the fold line, lengths in mm.

    Concave: an arc of angle φ has length (R - y) φ and must become (R + y) φ: strain 2 y / (R - y).
    Convex: (R + y) φ must become (R - y) φ: strain -2 y / (R + y), returned as a positive number.
    """
    return 2 * distance / (radius - distance if concave else radius + distance)


def free_depth(radius: float, tolerated: float, concave: bool) -> float:
    """Return how far from the fold line (mm) a hem needs no cut: where strain_of_fold reaches what is tolerated.

    2 y / (R ∓ y) = ε solved for y: y = ε R / (2 ± ε), with + on a concave edge.
    """
    return tolerated * radius / (2 + tolerated if concave else 2 - tolerated)


def cut_spacing(radius: float, tolerated: float, concave: bool) -> float:
    """Return the greatest distance of cuts along the fold line (mm).

    A cut frees the cloth beside it about as far as it is from the cut (the disturbance of a free edge dies out over
    the width that it balances, Saint-Venant). In the middle between two cuts w apart the hem is therefore strained as
    if it were only w/2 deep: w/2 may be free_depth, w = 2 ε R / (2 ± ε).
    """
    return 2 * free_depth(radius, tolerated, concave)


def turn_per_cut(tolerated: float, concave: bool) -> float:
    """Return the turn of the edge (rad) that one cut relieves: cut_spacing / R = 2 ε / (2 ± ε), free of the radius."""
    return 2 * tolerated / (2 + tolerated if concave else 2 - tolerated)


def notch_slope(turn: float, left: float) -> float:
    """Return by how much a notch on a convex edge widens for each mm of depth, free of the unit.

    turn: what the notch relieves, φ, rad; left: the strain ε that the hem may keep. At y from the fold the hem's arc
    (R + y) φ, less the notch, lies on an arc of (R - y) φ when folded. Strained by ε it may be (R - y) φ / (1 - ε)
    long, so the notch is (R + y) φ - (R - y) φ / (1 - ε) wide: nothing at the free depth, and φ (2 - ε) / (1 - ε)
    more for each mm. Of a notch that only makes its sides meet, 2 φ for each mm, too much cloth would be left: the same
    surplus, as at its root, on an arc that is shorter and shorter.
    """
    return turn * (2 - left) / (1 - left)


def notch_angle(turn: float, left: float) -> float:
    """Return the opening angle (rad) of a notch on a convex edge that relieves a turn (rad) but for a strain."""
    return float(2 * np.arctan(notch_slope(turn, left) / 2))


def turns_along(line: Floats) -> tuple[Floats, Floats]:
    """Return arc lengths (n,) and the running turn (n,), rad, of a line (m, 2), positive to the left.

    The turn of each vertex is spread over the halves of both facets beside it: the curvature of the smooth edge that
    the facets stand for.
    """
    step = np.diff(line, axis=0)
    length = np.hypot(step[:, 0], step[:, 1])
    middle = np.concatenate([[0.0], np.cumsum(length)[:-1]]) + length / 2
    heading = np.unwrap(np.arctan2(step[:, 1], step[:, 0]))
    total = float(length.sum())
    return np.concatenate([[0.0], middle, [total]]), np.concatenate([heading[:1], heading, heading[-1:]]) - heading[0]
