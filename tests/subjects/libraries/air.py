"""The air's path by a library of fluid mechanics."""

from collections.abc import Mapping
from math import pi, sqrt

from fluids import Reynolds, dP_from_K
from scipy.optimize import brentq

Values = Mapping[str, float]


def duct_that_carries(v: Values) -> dict[str, float]:
    """The duct that a flow fills at a speed; the library takes any coherent units."""
    wide = sqrt(4 * v["wanted"] / v["transport"] / pi)
    return {
        "largest_duct": wide,
        "reynolds": Reynolds(V=v["transport"], D=wide, nu=v["viscosity"]),
        "velocity_pressure": dP_from_K(K=1.0, rho=v["density"], V=v["transport"]),
    }


def leak(v: Values) -> dict[str, float]:
    """The speed at which a loss of 1/C² takes up the whole suction."""

    def lacking(speed: float) -> float:
        return float(dP_from_K(K=1 / v["orifice"] ** 2, rho=v["density"], V=speed)) - v["stands"]

    return {"leak_speed": brentq(lacking, 1.0, 1e6, xtol=1e-9)}
