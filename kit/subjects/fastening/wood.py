"""What wood does to screws and staples: stated once for the pages of this chapter."""

import sympy as sp

from kit.core.model import Model

NDS = "ANSI/AWC NDS-2018, read in a transcription"


def state_withdrawal(
    model: Model, tex: str, gravity: sp.Expr, diameter: sp.Expr, thread: sp.Expr, meaning: str
) -> sp.Symbol:
    """State the pull that draws one wood screw out of side grain: 2850 psi times G² D for each length of thread.

    Source: ANSI/AWC NDS-2018, equation 12.2-2.
    """
    base = model.constant(
        "withdrawal_base", r"w_{0}", "2850 psi", "base of the withdrawal value", f"{NDS}, equation 12.2-2"
    )
    z = sp.Symbol("z", real=True)
    one = model.relation("withdrawal_one", tex, "N", meaning, resolution=1)
    model.step(sp.Integral(base * gravity**2 * diameter, (z, 0, thread)), "every length of thread holds alike")
    model.equals(base * gravity**2 * diameter * thread, "denser wood holds with the square of its density")
    model.mistake(base * gravity * diameter * thread, "the density was not squared")
    return one


def state_bearing(model: Model) -> sp.Symbol:
    """State the base of the strength with which wood bears a thin round pin; it goes with the density to 1.84.

    Source: ANSI/AWC NDS-2018, table 12.3.3, note 2.
    """
    return model.constant(
        "bearing_base", r"f_{0}", "16600 psi", "base of the bearing strength", f"{NDS}, table 12.3.3, note 2"
    )


DENSER = sp.Rational(46, 25)
"""Power of the density in the bearing strength."""
