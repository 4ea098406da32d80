"""Closed outlines of lines and arcs: as polygons, rounded, traced from a picture."""
