"""Scales along the fence: zero, tape, cursor, calibration."""
