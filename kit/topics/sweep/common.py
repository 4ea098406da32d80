"""What the models of a moving machine share: their cautions."""

from __future__ import annotations

from kit.model import Model

CAUTIONS = (
    "Unplug the machine and let the blade stand still before you measure at it, scan it or move it by hand.",
    "Guards stay on while you measure and scan; a hood must never hinder a guard or its return.",
    "When the machine runs again, keep both hands 150 mm (6 in) or more from the blade or bit.",
    "Swing, tilt and slide the machine by hand through all its positions in the finished hood before it runs.",
    "The machine's manual and the rules of your shop come before anything printed here.",
)


def warn(M: Model) -> None:
    """State the cautions of measuring at a machine that moves."""
    for text in CAUTIONS:
        M.caution(text)
