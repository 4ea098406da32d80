"""Equilibrium moisture of wood.

What moisture does wood come to in air of a given humidity and temperature?

Picture: A board in a room, left until it gains and loses nothing.

Assumptions:
- the board has come to rest with the air
- one curve serves all woods

Sources:
- Wood Handbook, FPL-GTR-190, equation 4-5; FPL-RN-0268 (1998)

Notes: Also: W. T. Simpson, Equilibrium moisture content of wood in outdoor locations, FPL-RN-0268 (1998), with the
coefficients for degrees Celsius.
"""

from kit.core.model import Model

M = Model("stop.moisture", __doc__)
H = M.given("humidity", "H", "50 ± 3 %", (5, 95), "relative humidity of the air")
M.measured("hygrometer, checked over wet salt")
T = M.given("temperature", "T", "20 ± 1 degC", (0, 60), "temperature of the air")
M.measured("thermometer")
zero = M.constant("ice", "T_{0}", "273.15 K", "zero of the Celsius scale", "definition of the scale")
degree = M.constant("degree", r"\mathrm{K}", "1 K", "one degree", "unit")

t = M.relation("celsius", r"\vartheta", "")
M.equals((T - zero) / degree, "the equation takes bare degrees Celsius")
W = M.relation("mass_term", "W", "")
M.equals(349 + 1.29 * t + 0.0135 * t**2, "so the fit runs")
K = M.relation("vapor_term", "K", "")
M.equals(0.805 + 0.000736 * t - 0.00000273 * t**2, "so the fit runs")
K1 = M.relation("first_term", "K_{1}", "")
M.equals(6.27 - 0.00938 * t - 0.000303 * t**2, "so the fit runs")
K2 = M.relation("second_term", "K_{2}", "")
M.equals(1.91 + 0.0407 * t - 0.000293 * t**2, "so the fit runs")
KH = K * H
M.result("moisture", "u", "%", "moisture content of the wood, of its ovendry mass", resolution=0.1)
M.equals(
    18 / W * (KH / (1 - KH) + (K1 * KH + 2 * K1 * K2 * KH**2) / (1 + K1 * KH + K1 * K2 * KH**2)),
    "water held loosely and water bound to the wood add up",
)
MODEL = M.done()
