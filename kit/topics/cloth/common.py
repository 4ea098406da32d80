"""What the pages on cloth share: cautions, and vectors of circles and lines."""

import sympy as sp

CUTTING_CAUTIONS = (
    "Close or cover the blade whenever it is not cutting, cut away from the hand that holds the ruler, and keep that "
    "hand behind the edge.",
    "Never cut PVC or cloth coated with it by laser or hot wire: its smoke is poisonous and eats metal.",
    "Make the piece in paper first, and fold it up, before you cut cloth.",
)

SEWING_CAUTIONS = (
    "Coated cloth sticks under the foot and drags, so that plies creep: lay a strip of paper under the foot, tear it "
    "off afterward, and test on an offcut first.",
    "Keep fingers off the needle's way: switch the machine off to thread it, and turn it by hand over thick places.",
    "Wear eye protection when stapling, never point the stapler at anyone, and keep the other hand off its line.",
)


def unknown(name: str) -> sp.Symbol:
    """Return the symbol of a relation that is about to be stated, for its own lines."""
    return sp.Symbol(name, real=True)


def tolerated_twist(strain: sp.Expr) -> sp.Expr:
    """Return the twist of a ruling whose strain 1 - cos(δ/2) is the one tolerated."""
    return 2 * sp.acos(1 - strain)
