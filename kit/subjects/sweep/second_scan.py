"""The axis of a joint, found by laying two scans of the machine on each other, beside the axis that the job states."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from math import acos, radians

import numpy as np
from numpy.typing import NDArray

from kit.core.build import BuildInput, Number
from kit.core.errors import KitError, near_misses
from kit.geometry.mesh import Scan, moving_part
from kit.geometry.motion import Axis, Chain, Joint, Match, register, turn_axis
from kit.subjects.sweep import scan_inputs as scanned

Array = NDArray[np.float64]
LEVEL = radians(0.25)  # a smaller lean is noise: the stated direction is kept
BEYOND = 1.2  # of the usual edge: a face nearer than this to the other scan stood still
OVERLAP = 0.8  # share of the points that the other scan is taken to have as well


@dataclass(frozen=True, eq=False)
class Second:
    """What the two scans say of a joint: what moved in each, the axis, and how far it is off the stated one [mm]."""

    joint: Joint
    first: Scan
    then: Scan
    match: Match
    axis: Axis
    moved: float  # [rad] or [mm]
    off: float
    lean: float  # [rad]

    @property
    def numbers(self) -> tuple[Number, ...]:
        """The numbers of the comparison."""
        kind = ("deg", 1e-3) if self.joint.kind == "turn" else ("mm", 0.1)
        return (
            Number(
                "residual",
                "root mean square distance of one scan from the other, laid on it",
                self.match.residual,
                resolution=0.01,
            ),
            Number("moved", f"{self.joint.name} between the scans", self.moved, kind[0], resolution=kind[1]),
            Number(
                "axis_off",
                f"axis of the {self.joint.name} as scanned from the entered one, along the part",
                self.off,
                resolution=0.01,
            ),
            Number("axis_lean", "angle between them", self.lean, "deg", resolution=1e-4),
        )

    def taken(self, joint: Joint) -> Joint:
        """Return a joint with the axis that the scans show, if it is the one that moved, else as it is."""
        if joint.name != self.joint.name:
            return joint
        stated_way = np.array(joint.direction) / np.linalg.norm(joint.direction)
        way = self.axis.direction * np.sign(stated_way @ self.axis.direction) if self.lean > LEVEL else stated_way
        # The point of the axis in the middle of what moved.
        along = (self.first.vertices - self.axis.point) @ self.axis.direction
        place = self.axis.point + (along.min() + along.max()) / 2.0 * self.axis.direction
        (x, y, z), (a, b, c) = place, way
        return replace(joint, point=(float(x), float(y), float(z)), direction=(float(a), float(b), float(c)))


def joints(inputs: BuildInput) -> tuple[Chain, Second | None]:
    """Return the joints, one of them with the axis that the scans show if the job says so, and what they show.

    Raises:
        KitError: as `second`, or a limit that does not fit its joint.
    """
    chain = scanned.chain(inputs)
    check = second(inputs, chain)
    if check and inputs.stated["second"]["take"]:
        chain = Chain(tuple(check.taken(joint) for joint in chain.joints))
    return chain, check


def second(inputs: BuildInput, chain: Chain) -> Second | None:
    """Return what the second scan says, None where none is stated.

    Raises:
        KitError: an unknown joint, a scan that cannot be read, or one in which nothing moved.
    """
    stated, given = inputs.stated, inputs.stated["second"]
    if given is None:
        return None
    name, known = given["joint"], {joint.name: joint for joint in chain.joints}
    if name not in known:
        raise KitError(f"the second scan is said to move {name!r}, which is no joint{near_misses(name, list(known))}")
    joint = known[name]
    about = scanned.base_way(given["turned"], joint.kind, f"what the second scan says of the {name}")
    _, first = scanned.prepared(stated["scan"], stated["recipe"], stated["picks"], inputs.folder)
    _, then = scanned.prepared(given["scan"], stated["recipe"], given["picks"] or stated["picks"], inputs.folder)
    axis = (joint.point, joint.direction)
    return _compared(
        first.scan, then.scan, Joint(joint.name, joint.kind, *axis, min(about, 0.0), max(about, 0.0)), about
    )


@lru_cache(maxsize=4)
def _compared(first: Scan, then: Scan, joint: Joint, about: float) -> Second:
    edges = first.vertices[first.faces[:, 0]] - first.vertices[first.faces[:, 1]]
    beyond = BEYOND * float(np.median(np.linalg.norm(edges, axis=1)))
    here, there = moving_part(first, then, beyond), moving_part(then, first, beyond)
    match = register(here.vertices, there.vertices, start=joint.moves([about])[0], overlap=OVERLAP)
    fit = turn_axis(match.move[None], here.vertices)
    stated_way = np.array(joint.direction) / np.linalg.norm(joint.direction)
    along = (here.vertices - joint.point) @ stated_way
    ends = np.array(joint.point) + np.array([[along.min()], [along.max()]]) * stated_way
    lean = acos(min(1.0, abs(float(stated_way @ fit.axis.direction))))
    off = np.linalg.norm(np.cross(ends - fit.axis.point, fit.axis.direction), axis=1).max()
    if fit.kind == "slide":
        off = abs(fit.values[0]) * np.sin(lean)
    return Second(joint, here, there, match, fit.axis, abs(float(fit.values[0])), float(off), lean)
