"""What the pages on cloth share: cautions, and vectors of circles and lines."""

import sympy as sp

CUTTING_CAUTIONS = (
    "Close or cover the blade whenever it is not cutting, cut away from the hand that holds the ruler, and keep that "
    "hand behind the edge.",
    "Never cut PVC or cloth coated with it by laser or hot wire: its smoke is poisonous and eats metal.",
    "Make the piece in paper first, and fold it up, before you cut cloth.",
)


def unknown(name: str) -> sp.Symbol:
    """Return the symbol of a relation that is about to be stated, for its own lines."""
    return sp.Symbol(name, real=True)
