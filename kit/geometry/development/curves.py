"""Edge curves of a surface: smooth pieces end to end, read at a running parameter, sampled to a chord error."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from kit.core.errors import KitError
from kit.geometry.development.arrays import CLOSE, Bools, Floats, angle_between, cross, norm
from kit.geometry.development.segments import Dot, Picked, Piece, families

CORNER = 1e-4  # rad, a smaller turn between two pieces counts as smooth


@dataclass(frozen=True)
class Curve:
    """Smooth pieces end to end; parameter t runs from 0 to the number of pieces, whole numbers at the joints."""

    pieces: tuple[Piece, ...]
    closed: bool
    name: str = "curve"

    def __post_init__(self) -> None:
        ends = np.array([piece.at(np.array([0.0, 1.0])) for piece in self.pieces])
        for number, piece in enumerate(self.pieces):
            if not isinstance(piece, Dot) and self._span(piece) < CLOSE:
                raise KitError(
                    f"Edge {number + 1} of the {self.name} has no length; "
                    "leave out one of its two end points, or move it"
                )
        gaps = norm(ends[:, 1] - np.roll(ends[:, 0], -1, axis=0))
        if not self.closed:
            gaps = gaps[:-1]
        if gaps.size and gaps.max() > 1e-6:
            raise KitError(
                f"The {self.name} is broken after edge {int(gaps.argmax()) + 1}: the next edge begins "
                f"{gaps.max():.3g} mm away; let both have the same end point"
            )

    @staticmethod
    def _span(piece: Piece) -> float:
        return float(norm(piece.at(np.linspace(0, 1, 5)) - piece.at(np.zeros(5))).max())

    @property
    def end(self) -> int:
        """The parameter at the end: the number of pieces."""
        return len(self.pieces)

    @property
    def is_point(self) -> bool:
        """Whether the curve is a single point, the apex of a cone."""
        return isinstance(self.pieces[0], Dot)

    def _located(self, t: Floats, after: bool = True) -> tuple[Floats, Floats]:
        """Return piece number and u; at a joint the piece after it, or the piece before it."""
        t = np.asarray(t, dtype=np.float64)
        if self.closed:
            t = np.where((t < 0) | (t > self.end), np.mod(t, self.end), t)
        whole = np.floor(t) if after else np.ceil(t) - 1
        if self.closed:
            number = np.mod(whole, self.end)
        else:
            number = np.clip(whole, 0, self.end - 1)
            whole = number
        return number, t - whole

    def _read(self, t: Floats, after: bool, what: str) -> Floats:
        number, u = self._located(t, after)
        number = number.astype(int)
        found = np.empty((len(u), 3))
        for places, picked in self._families:
            place = places[number]
            chosen = place >= 0
            if chosen.any():
                found[chosen] = getattr(picked(place[chosen]), what)(u[chosen])
        return found

    @cached_property
    def _families(self) -> list[Picked]:
        return families(self.pieces)

    def at(self, t: Floats) -> Floats:
        """Return the points at parameters t (n,), shape (n, 3), mm; a closed curve goes round and round."""
        return self._read(t, True, "at")

    def derivative(self, t: Floats, after: bool = True) -> Floats:
        """Return the derivatives by t, shape (n, 3); at a joint that of the piece after it, or before it."""
        return self._read(t, after, "derivative")

    @cached_property
    def corners(self) -> Bools:
        """Whether each joint is a corner, shape (end + 1,); the ends of an open curve and a point count as such."""
        joints = np.arange(self.end + 1, dtype=np.float64)
        turn = angle_between(self.derivative(joints, after=False), self.derivative(joints))
        sharp = turn > CORNER
        if not self.closed or self.is_point:
            sharp[[0, -1]] = True
        return np.asarray(sharp)

    def at_corner(self, t: Floats) -> Bools:
        """Whether each parameter is that of a corner, shape (n,)."""
        joint = np.rint(t)
        found = self.corners[np.mod(joint, self.end).astype(int) if self.closed else joint.astype(int)]
        return np.asarray(found & (np.abs(t - joint) < 1e-9))

    def is_bent(self, t: Floats) -> Bools:
        """Whether each parameter lies on a piece that is not straight, shape (n,)."""
        number, _ = self._located(t)
        return np.asarray(np.array([piece.bend > 0 for piece in self.pieces])[number.astype(int)])

    def grid(self, chord: float, least: int = 1) -> Floats:
        """Return parameters, joints included, so that no chord between neighbors is off by more than chord (mm).

        least: number of steps along each piece.
        """
        counts = [max(least, int(np.ceil(np.sqrt(piece.bend / (8 * chord))))) for piece in self.pieces]
        parts = [k + np.arange(n) / n for k, n in enumerate(counts)]
        return np.concatenate([*parts, [float(self.end)]])

    def even_grid(self, count: int) -> Floats:
        """Return parameters (n,), joints included, with count steps over the whole curve shared by length."""
        share = np.maximum(1, np.rint(count * self.lengths / max(self.lengths.sum(), CLOSE))).astype(int)
        parts = [k + np.arange(n) / n for k, n in enumerate(share)]
        return np.concatenate([*parts, [float(self.end)]])

    def chord_errors(self, t: Floats) -> Floats:
        """Return a bound on the chord error between neighboring parameters t (n,), shape (n - 1,), mm."""
        number, _ = self._located((t[:-1] + t[1:]) / 2)
        bends = np.array([piece.bend for piece in self.pieces])
        return np.asarray(bends[number.astype(int)] * np.diff(t) ** 2 / 8)

    @cached_property
    def lengths(self) -> Floats:
        """The length of each piece, mm, by Gauss-Legendre quadrature on eight parts."""
        node, weight = np.polynomial.legendre.leggauss(12)
        u = ((node + 1) / 2 + np.arange(8)[:, None]).ravel() / 8
        return np.array([np.tile(weight / 16, 8) @ norm(piece.derivative(u)) for piece in self.pieces])

    @cached_property
    def plane(self) -> tuple[Floats, Floats] | None:
        """A point and the unit normal (right-handed to the running direction), or None if not a plane loop."""
        through = self.at(self.even_grid(64 + 4 * self.end))
        middle = through.mean(axis=0)
        arms = through - middle
        normal = cross(arms, np.roll(arms, -1, axis=0)).sum(axis=0)
        size = float(np.abs(arms).max())
        if np.linalg.norm(normal) < 1e-9 * size**2 or size == 0:
            return None
        normal = normal / np.linalg.norm(normal)
        return (middle, normal) if np.abs(arms @ normal).max() < 1e-7 * size else None

    def reversed(self) -> "Curve":
        """Return the curve run through backward from the same start."""
        return Curve(tuple(piece.reversed() for piece in reversed(self.pieces)), self.closed, self.name)

    def moved(self, matrix: Floats, shift: Floats) -> "Curve":
        """Return the curve under p → matrix (3, 3) p + shift (3,), mm."""
        return Curve(tuple(piece.moved(matrix, shift) for piece in self.pieces), self.closed, self.name)
