"""The machine under the hood as the hood's build needs it: what moves at sampled poses, and what stands."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np

from kit.core.build import BuildInput
from kit.core.errors import KitError
from kit.core.quantity.digits import fixed
from kit.geometry.clearance import Body
from kit.geometry.envelope.surface import surface
from kit.geometry.motion import Chain, Joint
from kit.geometry.solids.convex import Array, Index
from kit.subjects.hood.geometry.gaps import TOUCH, Swept, swept
from kit.subjects.hood.geometry.proposal import cell_corners
from kit.subjects.hood.hood_boards import machine_boxes
from kit.subjects.sweep.swept import Sweep

POSES = 150  # at about so many poses the live clearance is sampled
GHOST = 60.0  # [mm] facets of the swept envelope as it is shown


@dataclass(frozen=True, eq=False)
class Machine:
    """What moves, each part with its joints and at sampled poses; what stands, or None."""

    moving: tuple[Swept, ...]
    chains: tuple[Chain, ...]
    standing: Swept | None
    reached: Array  # (n, 3) [mm] the convex hull of these points holds all that is swept
    ghost: tuple[Array, Index]  # vertices and triangles of the swept envelope, for display
    error: float  # [mm] by how much the surfaces may be off

    @property
    def poses(self) -> int:
        """At how many positions the clearance is sampled."""
        return max(len(part.poses) for part in self.moving)

    @property
    def faces(self) -> int:
        """How many triangles move."""
        return sum(len(part.body.triangles) for part in self.moving)

    @property
    def joined(self) -> float:
        """How far apart [mm] two pieces of its surface may lie that hang together: they touch within the error."""
        return TOUCH + 2.0 * self.error

    def words(self, part: int, pose: int) -> str:
        """Return the joint values of a sampled pose as words: degrees for a turn, mm for a slide."""
        return self.position(part, self.values(part, pose))

    def values(self, part: int, pose: int) -> Array:
        """Return the joint values (joints,) [rad or mm] of a sampled pose."""
        return np.asarray(_grid(self.chains[part])[pose])

    def position(self, part: int, values: Array) -> str:
        """Return joint values (joints,) [rad or mm] of a part as words: degrees for a turn, mm for a slide."""
        chain = self.chains[part]
        label = [
            f"{joint.name} {fixed(np.degrees(value), 0)}°"
            if joint.kind == "turn"
            else f"{joint.name} {fixed(value, 0)} mm"
            for joint, value in zip(chain.joints, values, strict=True)
            if joint.low < joint.high
        ]
        return ", ".join(label) or "it stands"


def machine(inputs: BuildInput) -> Machine | None:
    """Return the machine that is taken from a swept scan or stated by boxes, None if it is neither, or not yet swept.

    Raises:
        KitError: what is taken is no swept scan, or a box has its low corner above its high one.
    """
    if "envelope" in inputs.takes:
        made = inputs.takes["envelope"]
        if made.data is None:
            return None
        if not isinstance(made.data, Sweep):
            raise KitError("the hood takes its envelope from a part that has no swept envelope; name one that has")
        return _taken(_Keyed(made.inputs or str(id(made)), made.data))
    boxes = machine_boxes(inputs.stated["boxes"])
    return _boxed(tuple((tuple(low.tolist()), tuple(high.tolist())) for low, high in boxes)) if boxes else None


@dataclass(frozen=True)
class _Keyed:
    """A sweep that is the same if its inputs are."""

    key: str
    sweep: Sweep = field(compare=False)


def _grid(chain: Chain) -> Array:
    moved = [joint.low < joint.high for joint in chain.joints]
    each = max(2, round(POSES ** (1.0 / max(1, sum(moved)))))
    return chain.grid([each if moves else 1 for moves in moved])


@lru_cache(maxsize=4)
def _taken(keyed: _Keyed) -> Machine:
    sweep = keyed.sweep
    return Machine(
        tuple(swept(body, chain.poses(_grid(chain))) for body, chain in sweep.moves),
        tuple(chain for _, chain in sweep.moves),
        None if sweep.still is None else swept(sweep.still, np.eye(4)[None]),
        cell_corners(sweep.envelope),
        surface(sweep.envelope, GHOST),
        sweep.error,
    )


@lru_cache(maxsize=4)
def _boxed(boxes: tuple[tuple[tuple[float, ...], tuple[float, ...]], ...]) -> Machine:
    pieces = [_box(np.array(low), np.array(high)) for low, high in boxes]
    points = np.concatenate([part for part, _ in pieces])
    faces = np.concatenate([part + 8 * number for number, (_, part) in enumerate(pieces)])
    stands = Chain((Joint("stand", "slide", (0.0, 0.0, 0.0), (0.0, 0.0, 1.0), 0.0, 0.0),))
    body = swept(Body.of(points, faces), np.eye(4)[None])
    return Machine((body,), (stands,), None, points, (points, faces), 0.0)


def _box(low: Array, high: Array) -> tuple[Array, Index]:
    from scipy.spatial import ConvexHull

    corners = np.stack(np.meshgrid(*zip(low, high, strict=True), indexing="ij"), axis=-1).reshape(-1, 3)
    return corners, ConvexHull(corners).simplices.astype(np.int64)
