"""How a machine moves: a chain of named joints, its poses, and axes found from points or from scans."""

from .axis import Axis, Fit, circle_axis, turn_axis
from .chain import Chain, Joint, Reach
from .register import Match, register
from .rigid import apply, inverse, motion_of, slide, turn

__all__ = [
    "Axis",
    "Chain",
    "Fit",
    "Joint",
    "Match",
    "Reach",
    "apply",
    "circle_axis",
    "inverse",
    "motion_of",
    "register",
    "slide",
    "turn",
    "turn_axis",
]
