"""What the pages on cloth share: cautions, and vectors of circles and lines."""

import sympy as sp


def unknown(name: str) -> sp.Symbol:
    """Return the symbol of a relation that is about to be stated, for its own lines."""
    return sp.Symbol(name, real=True)


def tolerated_twist(strain: sp.Expr) -> sp.Expr:
    """Return the twist of a ruling whose strain 1 - cos(δ/2) is the one tolerated."""
    return 2 * sp.acos(1 - strain)
