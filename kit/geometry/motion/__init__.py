"""How a machine moves: a chain of named joints, its poses, and axes found from points or from scans."""

from kit.geometry.motion.axis import Axis, Fit, circle_axis, turn_axis
from kit.geometry.motion.joint_chain import Chain, Joint, Reach
from kit.geometry.motion.registration import Match, register
from kit.geometry.motion.rigid import apply, inverse, motion_of, slide, turn

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
