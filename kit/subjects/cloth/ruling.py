"""What the pages on cloth share of rulings."""

import sympy as sp


def tolerated_twist(strain: sp.Expr) -> sp.Expr:
    """Return the twist of a ruling whose strain 1 - cos(δ/2) is the one tolerated."""
    return 2 * sp.acos(1 - strain)


def simpson(first: sp.Expr, middle: sp.Expr, last: sp.Expr) -> sp.Expr:
    """Return the mean of what is stated at both ends and in the middle, by Simpson's rule."""
    return (first + 4 * middle + last) / 6
