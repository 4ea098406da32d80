"""What the groove models share: the router's cautions, and what a bit off the base's center does."""

import sympy as sp


def off_center(eccentricity: sp.Expr, angle: sp.Expr) -> sp.Expr:
    """Return how far a bit off the base's center lies away from the guide; `angle`: from the travel, to that side."""
    return eccentricity * sp.sin(angle)


def guide_offset(running: sp.Expr, bit: sp.Expr) -> sp.Expr:
    """Return the distance from a guide to the nearer edge of the cut; `running`: diameter that runs on the guide."""
    return (running - bit) / 2
