"""What a swept scan is to the builds that take it: what moves, what stands, and the swept envelope."""

from __future__ import annotations

from dataclasses import dataclass

from kit.geometry.clearance import Body
from kit.geometry.envelope.envelope import Envelope
from kit.geometry.mesh import Scan
from kit.geometry.motion import Chain


@dataclass(frozen=True)
class Sweep:
    """A machine that moves, in millimeters: x to the right, y to the back, z up from the bed, 0 on the swing axis.

    `body` moves with the whole chain; `carried` are the parts that ride on its first joints only, each with these;
    `still` stands (base, fence), or is None where nothing does. The envelope holds all that moves. Every surface may
    be off by `error` [mm]: what the scale leaves open at the farthest point, the scan's noise, and thinning.
    """

    body: Body
    chain: Chain
    carried: tuple[tuple[Body, Chain], ...]
    still: Body | None
    envelope: Envelope
    error: float
    moving: Scan  # for display: all that moves, in the position in which it was scanned
    standing: Scan | None

    @property
    def moves(self) -> tuple[tuple[Body, Chain], ...]:
        """All that moves, each with the joints it rides on: the clearance is the least of all."""
        return ((self.body, self.chain), *self.carried)
