"""The smooth pieces of which a curve is made: straight line, arc of a circle or ellipse, spline, single point."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, fields
from functools import cached_property
from typing import Protocol

import numpy as np
from scipy.interpolate import CubicSpline

from kit.geometry.development.arrays import Floats, Ints, norm


class Piece(Protocol):
    """A smooth piece of a curve over u = 0 … 1."""

    def at(self, u: Floats) -> Floats:
        """Return the points at u, shape (n, 3), mm."""

    def derivative(self, u: Floats) -> Floats:
        """Return the derivatives by u, shape (n, 3), mm."""

    @property
    def bend(self) -> float:
        """The largest length of the second derivative by u, mm: a chord over du is off by at most bend du²/8."""

    def reversed(self) -> "Piece":
        """Return the piece run through backward."""

    def moved(self, matrix: Floats, shift: Floats) -> "Piece":
        """Return the piece under p → matrix (3, 3) p + shift (3,), mm."""


@dataclass(frozen=True)
class Line:
    """A straight piece between two points (3,)."""

    begin: Floats
    end: Floats

    def at(self, u: Floats) -> Floats:
        """Return the points (n, 3), mm, at u (n,)."""
        return (1 - u)[:, None] * self.begin + u[:, None] * self.end

    def derivative(self, u: Floats) -> Floats:
        """Return the derivatives (n, 3), mm, by u (n,)."""
        return np.broadcast_to(self.end - self.begin, (len(u), 3))

    @property
    def bend(self) -> float:
        """Zero: a chord of a line is the line."""
        return 0.0

    def reversed(self) -> "Line":
        """Return the line run through backward."""
        return Line(self.end, self.begin)

    def moved(self, matrix: Floats, shift: Floats) -> "Line":
        """Return the line under p → matrix p + shift."""
        return Line(matrix @ self.begin + shift, matrix @ self.end + shift)


@dataclass(frozen=True)
class Arc:
    """The piece center + cos φ · major + sin φ · minor, φ = begin … begin + sweep (rad), of a circle or ellipse."""

    center: Floats
    major: Floats
    minor: Floats
    begin: float
    sweep: float

    def at(self, u: Floats) -> Floats:
        """Return the points (n, 3), mm, at u (n,)."""
        angle = self.begin + self.sweep * u
        return self.center + np.cos(angle)[:, None] * self.major + np.sin(angle)[:, None] * self.minor

    def derivative(self, u: Floats) -> Floats:
        """Return the derivatives (n, 3), mm, by u (n,)."""
        angle = self.begin + self.sweep * u
        turned = -np.sin(angle)[:, None] * self.major + np.cos(angle)[:, None] * self.minor
        return np.asarray(np.asarray(self.sweep)[..., None] * turned)

    @cached_property
    def bend(self) -> float:
        """The half axis of the ellipse times the square of the swept angle."""
        return float(np.linalg.norm(np.stack((self.major, self.minor)), ord=2)) * self.sweep**2

    def reversed(self) -> "Arc":
        """Return the arc run through backward."""
        return Arc(self.center, self.major, self.minor, self.begin + self.sweep, -self.sweep)

    def moved(self, matrix: Floats, shift: Floats) -> "Arc":
        """Return the arc under p → matrix p + shift; an affine map makes an ellipse of a circle."""
        return Arc(matrix @ self.center + shift, matrix @ self.major, matrix @ self.minor, self.begin, self.sweep)


@dataclass(frozen=True)
class Spline:
    """A cubic spline over u = 0 … 1, with two continuous derivatives."""

    cubic: CubicSpline

    def at(self, u: Floats) -> Floats:
        """Return the points (n, 3), mm, at u (n,)."""
        return np.asarray(self.cubic(u))

    def derivative(self, u: Floats) -> Floats:
        """Return the derivatives (n, 3), mm, by u (n,)."""
        return np.asarray(self.cubic(u, 1))

    @property
    def bend(self) -> float:
        """The largest second derivative, mm: it is linear between knots, so it is largest at one of them."""
        return float(norm(self.cubic(self.cubic.x, 2)).max())

    def reversed(self) -> "Spline":
        """Return the spline run through backward."""
        return Spline(CubicSpline(1 - self.cubic.x[::-1], self.cubic(self.cubic.x[::-1]), bc_type=self._ends(-1)))

    def moved(self, matrix: Floats, shift: Floats) -> "Spline":
        """Return the spline under p → matrix (3, 3) p + shift (3,), mm."""
        through = self.cubic(self.cubic.x) @ matrix.T + shift
        return Spline(CubicSpline(self.cubic.x, through, bc_type=self._ends(1, matrix)))

    def _ends(self, direction: int, matrix: Floats | None = None) -> tuple[tuple[int, Floats], tuple[int, Floats]]:
        """Return the first derivatives at both ends, which with the points fix the same cubic."""
        rotate = np.eye(3) if matrix is None else matrix
        first, last = (direction * rotate @ self.cubic(end, 1) for end in (0.0, 1.0)[::direction])
        return (1, first), (1, last)


@dataclass(frozen=True)
class Dot:
    """A single point (3,), the apex of a cone or pyramid."""

    point: Floats

    def at(self, u: Floats) -> Floats:
        """Return the point, once for each u."""
        return np.broadcast_to(self.point, (len(u), 3))

    def derivative(self, u: Floats) -> Floats:
        """Return zeros: a point has no direction."""
        return np.zeros((len(u), 3))

    @property
    def bend(self) -> float:
        """Zero."""
        return 0.0

    def reversed(self) -> "Dot":
        """Return the point."""
        return self

    def moved(self, matrix: Floats, shift: Floats) -> "Dot":
        """Return the point under p → matrix p + shift."""
        return Dot(matrix @ self.point + shift)


Picked = tuple[Ints, Callable[[Ints], Piece]]


def families(pieces: Sequence[Piece]) -> list[Picked]:
    """Return the pieces by kind, so that many are read at once: which of its kind each piece is (n,), -1 for others.

    Beside it what gives, for numbers (k,) of its kind, a piece to be read at u (k,), each number at its own u.
    """
    found: list[Picked] = []
    for kind in (Line, Arc):
        here = np.array([isinstance(piece, kind) for piece in pieces])
        if here.any():
            alike = [piece for piece in pieces if isinstance(piece, kind)]
            stacks = [np.array([getattr(piece, each.name) for piece in alike]) for each in fields(kind)]
            found.append(
                (np.where(here, np.cumsum(here) - 1, -1), lambda k, kind=kind, s=stacks: kind(*(each[k] for each in s)))  # type: ignore[misc]
            )
    for number, piece in enumerate(pieces):
        if not isinstance(piece, Line | Arc):
            at = np.arange(len(pieces))
            found.append((np.where(at == number, 0, -1), lambda _k, piece=piece: piece))  # type: ignore[misc]
    return found
