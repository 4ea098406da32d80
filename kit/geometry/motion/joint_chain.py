"""A chain of named joints, and how far a point can go while the joints move inside a box of values."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from kit.core.errors import KitError, near_misses
from kit.geometry.motion.rigid import Array, apply, cross_matrix, slide, turn, unit_vector

MOST_POSES = 1_000_000


@dataclass(frozen=True)
class Joint:
    """One joint: a turn about an axis [rad] or a slide along it [mm], between two limits.

    The axis is stated for the machine as it was scanned, when every joint stands at 0.
    """

    name: str
    kind: Literal["turn", "slide"]
    point: tuple[float, float, float]
    direction: tuple[float, float, float]
    low: float
    high: float

    def __post_init__(self) -> None:
        if self.kind not in ("turn", "slide"):
            raise KitError(f"The joint {self.name!r} is of the kind {self.kind!r}; a joint is a 'turn' or a 'slide'.")
        unit_vector(self.direction, f"The direction of the joint {self.name!r}")
        unit = "rad" if self.kind == "turn" else "mm"
        if not (math.isfinite(self.low) and math.isfinite(self.high) and self.low <= self.high):
            raise KitError(
                f"The joint {self.name!r} goes from {self.low:g} to {self.high:g} {unit}; the first limit must "
                "not be above the second."
            )
        if self.kind == "turn" and self.high - self.low > 2.0 * math.pi + 1e-9:
            raise KitError(
                f"The joint {self.name!r} turns through {self.high - self.low:g} rad; give at most one full "
                "turn, 6.2832 rad."
            )

    def moves(self, values: ArrayLike) -> Array:
        """Return the motions (n, 4, 4) at the joint values (n,) [rad or mm]."""
        if self.kind == "turn":
            return turn(values, self.point, self.direction)
        return slide(values, self.direction)


class Reach(NamedTuple):
    """How far points move while every joint stays within its half-width of the center of a box.

    The displacement along a unit vector n is in size at most the sum over the joints of  first · |J n| + second,
    its length at most the sum of `each`.
    """

    place: Array  # (n, 3) [mm] where the point is at the center of the box
    jacobian: Array  # (n, joints, 3): its velocity there per unit of each joint
    first: Array  # (n, joints): what multiplies |J n|: sin Δ for a turn, Δ for a slide
    second: Array  # (n, joints) [mm]: the part of second order
    each: Array  # (n, joints) [mm]: the longest way by each joint alone


@dataclass(frozen=True)
class Chain:
    """Joints from the bench outward: the last one moves only what it carries, the first moves all."""

    joints: tuple[Joint, ...]

    def __post_init__(self) -> None:
        names = [joint.name for joint in self.joints]
        if not names:
            raise KitError("The machine has no joint; state at least one turn or slide.")
        twice = sorted({name for name in names if names.count(name) > 1})
        if twice:
            raise KitError(f"Two joints are called {twice[0]!r}; every joint needs a name of its own.")

    @property
    def low(self) -> Array:
        """The lower limits (joints,)."""
        return np.array([joint.low for joint in self.joints])

    @property
    def high(self) -> Array:
        """The upper limits (joints,)."""
        return np.array([joint.high for joint in self.joints])

    def first(self, count: int) -> "Chain":
        """Return the chain of the first `count` joints: what a part nearer to the bench rides on."""
        return Chain(self.joints[:count])

    def poses(self, values: ArrayLike) -> Array:
        """Return the motions (n, 4, 4) of what the last joint carries, at the joint values (n, joints).

        Raises:
            KitError: not one value for each joint.
        """
        table = np.asarray(values, dtype=float)
        if table.ndim != 2 or table.shape[1] != len(self.joints):
            raise KitError(
                f"Joint values of shape {table.shape} are given; the machine has {len(self.joints)} joints, so "
                f"each pose needs {len(self.joints)} values."
            )
        moves = self.joints[0].moves(table[:, 0])
        for number, joint in enumerate(self.joints[1:], 1):
            moves = moves @ joint.moves(table[:, number])
        return moves

    def grid(self, counts: Sequence[int]) -> Array:
        """Return joint values (n, joints) on a regular grid, limits included; a count of 1 is the middle.

        Raises:
            KitError: not one count for each joint, a count below 1, or too many poses.
        """
        if len(counts) != len(self.joints) or min(counts) < 1:
            raise KitError(
                f"The counts {list(counts)} are given; each of the {len(self.joints)} joints needs one of at least 1."
            )
        if math.prod(counts) > MOST_POSES:
            raise KitError(f"{math.prod(counts):,} poses are asked for; at most {MOST_POSES:,} are allowed.")
        ticks = [
            np.linspace(joint.low, joint.high, count) if count > 1 else np.array([(joint.low + joint.high) / 2])
            for joint, count in zip(self.joints, counts, strict=True)
        ]
        return np.stack(np.meshgrid(*ticks, indexing="ij"), axis=-1).reshape(-1, len(ticks))

    def values(self, named: Mapping[str, float]) -> Array:
        """Return the joint values (joints,) by name; a joint that is not named stands at 0.

        Raises:
            KitError: a name that no joint has.
        """
        names = [joint.name for joint in self.joints]
        for name in named:
            if name not in names:
                raise KitError(f"No joint is called {name!r}{near_misses(name, names)}.")
        return np.array([named.get(name, 0.0) for name in names])

    def ways(self, points: ArrayLike, center: ArrayLike, half: ArrayLike) -> tuple[Array, Array]:
        """Move `points` (n, 3) to the joint values `center` (joints,), and bound how far each joint can take them.

        Returns the places (n, 3) and, for each joint (n, joints) [mm], the longest way while it stays within
        `half` (joints,) of its value: the chord 2 ρ sin(Δ/2) of a turn, Δ of a slide. The way of all joints
        together is at most the sum.
        """
        place = np.asarray(points, dtype=float)
        middle, within = np.asarray(center, dtype=float), np.asarray(half, dtype=float)
        chord = np.zeros((len(place), len(self.joints)))
        for number in reversed(range(len(self.joints))):
            joint = self.joints[number]
            delta = min(float(within[number]), math.pi) if joint.kind == "turn" else float(within[number])
            if delta > 0.0 and joint.kind == "slide":
                chord[:, number] = delta
            elif delta > 0.0:
                across = (place - joint.point) @ cross_matrix(unit_vector(joint.direction)).T
                chord[:, number] = 2.0 * math.sin(delta / 2.0) * np.sqrt(np.einsum("ij,ij->i", across, across))
            if middle[number] != 0.0:
                place = apply(joint.moves(middle[number : number + 1])[0], place)
        return place, chord

    def reach(self, points: ArrayLike, centers: ArrayLike, halves: ArrayLike) -> Reach:
        """Bound the motion of `points` (n, 3), each in a box `centers` ± `halves` (n, joints).

        A point's motion is taken apart joint by joint: those nearer to the bench already moved, those further
        out still at the center. Each joint then moves a known point about a known axis along an arc of chord
        2 ρ sin(Δ/2), of which ρ sin Δ lies along the velocity and ρ (1 − cos Δ) across it; what moved before
        turns that by at most the sum of the turns Δ nearer to the bench.
        """
        y = np.array(points, dtype=float)
        center, half = np.asarray(centers, dtype=float), np.asarray(halves, dtype=float)
        chord, along, across = np.zeros((3, *center.shape))
        jacobian = np.zeros((*center.shape, 3))
        for number in reversed(range(len(self.joints))):
            joint = self.joints[number]
            axis = unit_vector(joint.direction)
            if joint.kind == "slide":
                chord[:, number] = along[:, number] = half[:, number]
                jacobian[:, number] = axis
                y += center[:, number, None] * axis
                continue
            angle, delta = center[:, number], np.minimum(half[:, number], math.pi)
            sine, cosine = np.sin(angle)[:, None], np.cos(angle)[:, None]
            arm = y - np.asarray(joint.point)
            jacobian[:, number] = arm @ cross_matrix(axis).T
            radius = np.sqrt(np.einsum("ij,ij->i", jacobian[:, number], jacobian[:, number]))
            chord[:, number] = 2.0 * radius * np.sin(delta / 2.0)
            along[:, number] = np.where(delta < math.pi / 2.0, np.sin(delta), 1.0)
            across[:, number] = radius * (1.0 - np.cos(delta))
            y = np.asarray(joint.point) + _turned(arm, axis, sine, cosine)
            for carried in range(number, len(self.joints)):
                jacobian[:, carried] = _turned(jacobian[:, carried], axis, sine, cosine)
        turns = np.array([joint.kind == "turn" for joint in self.joints])
        nearer = np.cumsum(half * turns, axis=1) - half * turns
        across += chord * 2.0 * np.sin(np.minimum(nearer, math.pi) / 2.0)
        return Reach(y, jacobian, along, across, chord)


def _turned(vectors: Array, axis: Array, sine: Array, cosine: Array) -> Array:
    cross = cross_matrix(axis)
    turned: Array = vectors + sine * (vectors @ cross.T) + (1.0 - cosine) * (vectors @ (cross @ cross).T)
    return turned
