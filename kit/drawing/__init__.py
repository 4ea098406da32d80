"""Drawings: scenes rendered as SVG, DXF and PDF, plots, and views in space."""
