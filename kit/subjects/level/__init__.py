"""Leveling a machine: gaps, planes, pads, weight on feet, and how well it comes back to its place."""
