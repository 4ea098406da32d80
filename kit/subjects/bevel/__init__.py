"""Bevels for frame fitting."""
