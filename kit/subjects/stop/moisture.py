"""Moisture that wood comes to in the air of a room; other models take it in, once for each climate.

Source: Wood Handbook, FPL-GTR-190, equation 4-5; W. T. Simpson, Equilibrium moisture content of wood in outdoor
locations, FPL-RN-0268 (1998), with the coefficients for degrees Celsius.
"""

from kit.core.model import Model

M = Model(
    "stop.moisture",
    title="Equilibrium moisture of wood",
    question="What moisture does wood come to in air of a given humidity and temperature?",
    picture="A board in a room, left until it gains and loses nothing.",
    assumptions=("the board has come to rest with the air", "one curve serves all woods"),
    sources=("Wood Handbook, FPL-GTR-190, equation 4-5; FPL-RN-0268 (1998)",),
)
H = M.given(
    "humidity", "H", "%", 50, span=(5, 95), half=3,
    meaning="relative humidity of the air", how="hygrometer, checked over wet salt",
)  # fmt: skip
T = M.given(
    "temperature", "T", "degC", 20, span=(0, 60), half=1, meaning="temperature of the air", how="thermometer",
)  # fmt: skip
zero = M.constant(
    "ice", "T_{0}", "K", 273.15, meaning="zero of the Celsius scale", source="definition of the scale"
)
degree = M.constant("degree", r"\mathrm{K}", "K", 1, meaning="one degree", source="unit")

t = M.relation(
    "celsius", r"\vartheta", "", (T - zero) / degree, because="the equation takes bare degrees Celsius"
)
W = M.relation("mass_term", "W", "", 349 + 1.29 * t + 0.0135 * t**2, because="so the fit runs")
K = M.relation("vapor_term", "K", "", 0.805 + 0.000736 * t - 0.00000273 * t**2, because="so the fit runs")
K1 = M.relation("first_term", "K_{1}", "", 6.27 - 0.00938 * t - 0.000303 * t**2, because="so the fit runs")
K2 = M.relation("second_term", "K_{2}", "", 1.91 + 0.0407 * t - 0.000293 * t**2, because="so the fit runs")
KH = K * H
M.result(
    "moisture", "u", "%",
    18 / W * (KH / (1 - KH) + (K1 * KH + 2 * K1 * K2 * KH**2) / (1 + K1 * KH + K1 * K2 * KH**2)),
    meaning="moisture content of the wood, of its ovendry mass", resolution=0.1,
    because="water held loosely and water bound to the wood add up",
)  # fmt: skip
MODEL = M.done()
