"""What a clearance computation answers."""

from dataclasses import dataclass
from typing import Literal

from kit.geometry.clearance.distance import Array


@dataclass(frozen=True)
class Clearance:
    """How near the moving part comes to the obstacle or to one board of it.

    `found` [mm] is the distance at a pose that was met: the clearance is at most this. `least` [mm] is what the
    clearance is at least: over the poses given if `kind` is 'sampled', over every position within the limits
    of the joints if it is 'certified'. A `found` of 0 is a collision.
    """

    board: str
    found: float
    least: float
    kind: Literal["sampled", "certified"]
    pose: int | None  # which of the sampled poses
    joints: Array | None  # joint values of the pose, if certified
    here: Array  # (3,) [mm] the point of the moving part, where it is at that pose
    there: Array  # (3,) [mm] the point of the obstacle
    seconds: float = 0.0
    complete: bool = True  # False: the time limit came first, and `least` is the bound reached

    @property
    def collides(self) -> bool:
        """Whether surfaces touch or cross at a pose that was met."""
        return self.found == 0.0
