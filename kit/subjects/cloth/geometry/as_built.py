"""What the sewn piece shows to be off: measured edges and diagonals against the polygon that was meant."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import least_squares

from kit.core.errors import KitError, near_misses
from kit.geometry.development.arrays import Floats
from kit.geometry.remembered import remembered

Pair = tuple[str, str]


@dataclass(frozen=True)
class AsBuilt:
    """The polygon that fits the measures best, laid on the meant one.

    corners (n, 2): mm; off (n, 2): how far each corner is from where it was meant; misfit: what is left of each
    measure (mm), large where two measures contradict each other.
    """

    names: tuple[str, ...]
    corners: Floats
    off: Floats
    misfit: dict[Pair, float]

    @property
    def worst(self) -> str:
        """The name of the corner that is farthest off."""
        return self.names[int(np.hypot(*self.off.T).argmax())]

    def words(self) -> str:
        """Say in one sentence which corner is off, how far and to which side."""
        k = self.names.index(self.worst)
        far = float(np.hypot(*self.off[k]))
        if far < 0.05:
            return "Nothing is off by more than 0.05 mm."
        toward = np.degrees(np.arctan2(self.off[k, 1], self.off[k, 0])) % 360
        return f"Corner {self.worst} is {far:.1f} mm off, toward {toward:.0f}° from the x direction of the pattern."


@remembered(most=16)
def as_built(
    corners: Floats,
    names: Sequence[str],
    measured: Mapping[Pair, float],
    *,
    half: float = 0.5,
    trust: float = 2.0,
) -> AsBuilt:
    """Fit a polygon (n, 2), mm, to measured distances between its named corners.

    measured: distance (mm) of pairs of corners, edges or diagonals. half: uncertainty of a measure; trust: by how
    much an edge that was not measured may be off, mm. Least squares over the corners' places, each measure weighted
    by its uncertainty; edges not measured count as meant, but only weakly. The fit is then laid on the meant
    polygon with least squares of the distances (shift and turn).
    Raises: KitError for an unknown corner, a distance that is not above zero, or no measure at all.
    """
    corners, names = np.asarray(corners, dtype=np.float64), tuple(names)
    place = {name: k for k, name in enumerate(names)}
    if not measured:
        raise KitError("Nothing was measured; type at least one diagonal or edge of the sewn piece")
    pairs, goals, weights = [], [], []
    for pair, distance in measured.items():
        for name in pair:
            if name not in place:
                raise KitError(f"The piece has no corner {name!r}{near_misses(name, list(names))}")
        meant = float(np.linalg.norm(corners[place[pair[0]]] - corners[place[pair[1]]]))
        if not 0.5 * meant < distance < 1.5 * meant:
            raise KitError(
                f"The distance {pair[0]}-{pair[1]} is given as {distance:g} mm but meant to be {meant:.1f} mm; "
                "check which corners were measured"
            )
        pairs.append((place[pair[0]], place[pair[1]]))
        goals.append(distance)
        weights.append(1 / half)
    taken = {frozenset(pair) for pair in pairs}
    for k in range(len(names)):
        edge = (k, (k + 1) % len(names))
        if frozenset(edge) not in taken:
            pairs.append(edge)
            goals.append(float(np.linalg.norm(corners[edge[0]] - corners[edge[1]])))
            weights.append(1 / trust)
    i, j = np.array(pairs).T
    goal, weight = np.array(goals), np.array(weights)

    def misses(flat: Floats) -> Floats:
        at = flat.reshape(-1, 2)
        distance = np.hypot(*(at[i] - at[j]).T)
        # A hair's weight on the meant places settles what no measure does.
        return np.concatenate([weight * (distance - goal), 1e-4 * (flat - corners.ravel())])

    def slopes(flat: Floats) -> Floats:
        at = flat.reshape(-1, 2)
        way = at[i] - at[j]
        toward = weight[:, None] * way / np.maximum(np.hypot(*way.T), 1e-9)[:, None]
        row, rows = np.arange(len(i)), np.zeros((len(i), len(at), 2))
        rows[row, i], rows[row, j] = toward, -toward
        return np.vstack([rows.reshape(len(i), -1), 1e-4 * np.eye(flat.size)])

    found = least_squares(misses, corners.ravel(), jac=slopes, xtol=1e-14, ftol=1e-14, gtol=1e-14).x.reshape(-1, 2)
    laid = _laid_on(found, corners)
    left = np.hypot(*(laid[i] - laid[j]).T) - goal
    misfit = {pair: float(left[k]) for k, pair in enumerate(measured)}
    return AsBuilt(names, laid, laid - corners, misfit)


def _laid_on(points: Floats, goal: Floats) -> Floats:
    """Shift and turn points (n, 2) onto a goal with the least squares of the distances (Kabsch)."""
    middle, aim = points.mean(axis=0), goal.mean(axis=0)
    u, _, v = np.linalg.svd((points - middle).T @ (goal - aim))
    turn = u @ np.diag([1.0, np.sign(np.linalg.det(u @ v))]) @ v
    return np.asarray((points - middle) @ turn + aim)
