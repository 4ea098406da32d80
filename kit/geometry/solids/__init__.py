"""Convex solids with named faces."""
