"""What the pages on cloth share of rulings."""

import sympy as sp


def tolerated_twist(strain: sp.Expr) -> sp.Expr:
    """Return the twist of a ruling whose strain 1 - cos(δ/2) is the one tolerated."""
    return 2 * sp.acos(1 - strain)
