"""The air's path by a library of fluid mechanics."""

from collections.abc import Mapping
from math import pi, sin, sqrt, tan

from fluids import ATMOSPHERE_1976, Reynolds, dP_from_K
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


def standard_air(v: Values) -> dict[str, float]:
    """The library's standard air at a height; it works in meters and pascals, with its own standard temperature."""
    air = ATMOSPHERE_1976(v["altitude"] / 1e3)
    return {"pressure": air.P * 1e-6, "density": air.rho * 1e-12, "viscosity": air.mu / air.rho * 1e6}


def openings(v: Values) -> dict[str, float]:
    """The loss of 1/C² at the speed through the openings, in standard air at sea level."""
    density = ATMOSPHERE_1976(0.0).rho * 1e-12
    return {"suction": dP_from_K(K=1 / v["contraction"] ** 2, rho=density, V=v["flow"] / v["openings"])}


def slack_arc(v: Values) -> dict[str, float]:
    """The sagitta of an arc that is longer than its chord by the slack."""
    half = brentq(lambda angle: angle / sin(angle) - 1 - v["slack"], 1e-6, 1.5)
    return {"slack_sag": v["span"] / 2 * tan(half / 2)}


def stretched_arc(v: Values) -> dict[str, float]:
    """Sagitta and pull of an arc, slack and stretched by its pull: pressure times radius."""

    def lacking(angle: float) -> float:
        radius = v["span"] / 2 / sin(angle)
        return float(angle / sin(angle) - (1 + v["slack"]) * (1 + v["suction"] * radius / v["stiffness"]))

    half = brentq(lacking, 1e-6, 1.5)
    return {"sag": v["span"] / 2 * tan(half / 2), "pull": v["suction"] * v["span"] / 2 / sin(half)}
