"""How far a moving part comes in one direction over every position of the joints, with a proven bound.

What is farthest out is a corner of the part's convex hull, at any position: few points are looked at, not a surface.
"""

import time
from dataclasses import dataclass

import numpy as np

from kit.geometry.clearance.body import Body
from kit.geometry.clearance.distance import Array
from kit.geometry.motion import Chain
from kit.geometry.motion.rigid import unit_vector

MOST_PIECES = 1_000_000
EXACT = 1e-12  # of a unit vector: what rounding leaves


@dataclass(frozen=True)
class Farthest:
    """A position that was met: the point `here` lies `found` [mm] out; no position reaches farther than `sure` [mm]."""

    found: float
    sure: float
    joints: Array  # joint values of the position
    here: Array  # (3,) [mm] the point of the part, where it is at that position


def farthest(body: Body, chain: Chain, way: Array, tolerance: float, seconds: float) -> Farthest:
    """Return how far the part reaches along the unit vector `way`, proven to `tolerance` [mm].

    Points in boxes of joint values are halved along the joint that moves them most, until none can reach farther
    by more than the tolerance. If `seconds` are over first, `sure` is the bound reached.
    """
    end = time.process_time() + seconds
    count = len(body.corners)
    center = np.tile((chain.low + chain.high) / 2.0, (count, 1))
    half = np.tile(np.where(_idle(chain, way), 0.0, (chain.high - chain.low) / 2.0), (count, 1))
    points, found, sure = body.corners, -np.inf, -np.inf
    joints, here = center[0], points[0]
    while len(points):
        reach = chain.reach(points, center, half)
        slope = np.einsum("nkj,j->nk", reach.jacobian, way)
        each = reach.first * np.abs(slope) + reach.second
        bound = reach.place @ way + each.sum(axis=1)
        ahead = center + np.sign(slope) * half  # the corner of the box toward which the point goes farther out
        for values, places in ((center, reach.place), (ahead, chain.reach(points, ahead, np.zeros_like(half)).place)):
            out = places @ way
            best = int(np.argmax(out))
            if out[best] > found:
                found, joints, here = float(out[best]), values[best], places[best]
        open_ = bound > found + tolerance
        if time.process_time() > end or open_.sum() > MOST_PIECES:
            return Farthest(found, max(found, sure, float(bound.max())), joints, here)
        sure = max(sure, float(bound[~open_].max(initial=-np.inf)))
        points, center, half, joint = points[open_], center[open_], half[open_], np.argmax(each[open_], axis=1)
        row = np.arange(len(points))
        half[row, joint] /= 2.0
        step = np.zeros_like(half)
        step[row, joint] = half[row, joint]
        points, half = np.concatenate([points, points]), np.concatenate([half, half])
        center = np.concatenate([center - step, center + step])
    return Farthest(found, max(found, sure), joints, here)


def _idle(chain: Chain, way: Array) -> list[bool]:
    """Return which joints take nothing along `way`: the first ones that turn about it or slide across it."""
    idle: list[bool] = []
    for joint in chain.joints:
        axis = unit_vector(joint.direction)
        off = np.linalg.norm(np.cross(axis, way)) if joint.kind == "turn" else abs(axis @ way)
        idle.append(all(idle) and bool(off < EXACT))
    return idle
