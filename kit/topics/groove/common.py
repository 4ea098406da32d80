"""What the groove models share: the router's cautions, and what a bit off the base's center does."""

import sympy as sp

ROUTER_CAUTIONS = (
    "Unplug the router before you change the bit, set the depth or measure at the bit.",
    "Clamp the work and every straightedge; keep both hands on the handles and the base flat until the bit stands.",
    "Keep hands 150 mm (6 in) from the bit; rout no piece too short to be clamped clear of it.",
    "Routing makes dust: connect the extraction and wear eye, ear and breathing protection.",
    "The router's manual and the rules of your shop come before anything printed here.",
)


def off_center(eccentricity: sp.Expr, angle: sp.Expr) -> sp.Expr:
    """Return how far a bit off the base's center lies away from the guide; `angle`: from the travel, to that side."""
    return eccentricity * sp.sin(angle)


def guide_offset(running: sp.Expr, bit: sp.Expr) -> sp.Expr:
    """Return the distance from a guide to the nearer edge of the cut; `running`: diameter that runs on the guide."""
    return (running - bit) / 2
