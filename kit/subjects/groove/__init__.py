"""Grooves, tracks in them, and keys that run in tracks."""
