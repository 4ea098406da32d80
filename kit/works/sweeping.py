"""What a swept scan is to the works that take it: the moving part, its joints, and the room it sweeps."""

from __future__ import annotations

from dataclasses import dataclass

from kit.shapes.clearance import Body
from kit.shapes.envelope import Envelope
from kit.shapes.motion import Chain
from kit.shapes.scan import Scan


@dataclass(frozen=True)
class Sweep:
    """A machine that moves, in millimeters: x to the right, y to the back, z up from the bed, 0 on the swing axis.

    `body` moves with the whole chain; `still` stands (table, fence), or is None where nothing does. Their surfaces
    may each be off by `error` [mm]: what the scale leaves open at the farthest point, and what thinning moved.
    """

    body: Body
    still: Body | None
    chain: Chain
    envelope: Envelope
    moving: Scan  # for display, at the pose in which it was scanned
    standing: Scan | None
    error: float
