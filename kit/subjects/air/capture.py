"""The air before a suction opening, in its hose and in a leak: stated once for all pages that need it."""

import sympy as sp

FRONTS = ("free", "flange or wall around")
"""What is round an opening."""

SOURCE = "DallaValle; 0.75 from memory"


def share(front: sp.Symbol) -> sp.Expr:
    """Return the part of the flow of a free opening that one with this front needs."""
    return sp.Piecewise((sp.Integer(1), sp.Eq(front, 0)), (sp.Rational(3, 4), True))


def flow_before(part: sp.Expr, speed: sp.Expr, distance_squared: sp.Expr, opening: sp.Expr) -> sp.Expr:
    """Return the flow that draws air at `speed` so far before an opening of area `opening`."""
    return part * speed * (10 * distance_squared + opening)


def filled_at(flow: sp.Expr, speed: sp.Expr) -> sp.Expr:
    """Return the diameter of the hose that a flow fills at a speed."""
    return sp.sqrt(4 * flow / (sp.pi * speed))


def through_hole(share: sp.Expr, pressure: sp.Expr, density: sp.Expr) -> sp.Expr:
    """Return the speed over the whole area of a hole, of which the jet fills a share."""
    return share * sp.sqrt(2 * pressure / density)
