"""How near a moving scan comes to a hood: sampled at poses, or certified over the continuous motion."""

from .answer import Clearance
from .body import Body
from .certifying import certified
from .field import Field
from .hood import Hood
from .intrusion import Intrusion, intrusion
from .sampling import sampled

__all__ = ["Body", "Clearance", "Field", "Hood", "Intrusion", "certified", "intrusion", "sampled"]
