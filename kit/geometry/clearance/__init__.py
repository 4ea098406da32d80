"""How near a moving scan comes to an obstacle and how far out, at poses or certified over the continuous motion."""

from kit.geometry.clearance.answer import Clearance
from kit.geometry.clearance.body import Body
from kit.geometry.clearance.certify import certified
from kit.geometry.clearance.field import Field
from kit.geometry.clearance.obstacle import Obstacle
from kit.geometry.clearance.outward import farthest
from kit.geometry.clearance.sample import sampled

__all__ = ["Body", "Clearance", "Field", "Obstacle", "certified", "farthest", "sampled"]
