"""Knobs built up from plies: their nut, their outline, the hand's torque and what it clamps."""
