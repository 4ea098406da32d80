"""Air of the room that a collector empties.

Where does the air come from that a collector blows out, how hard does it pull on the room, and how dense is it here?

In the trade's words: so many cubic meters an hour leave through the wall. As many must come in again. If the door and
the gaps are too small for it, the room is under suction, the collector moves less, and a stove draws its smoke back.

Picture: A room from the side: the collector blows out through the wall, air comes in through openings, and a stove
stands in it.

Assumptions:
- air that is blown out comes in again through openings whose areas add; they are sharp-edged
- the weather's pressure is that at sea level; above it the air thins out as in the standard atmosphere
- air is dry; moist air is up to a hundredth lighter
- a collector that blows back into the room takes nothing out of it, but leaves its finest dust there

Sources:
- ISO 2533, standard atmosphere: 101325 Pa and 288.15 K at sea level, 6.5 K less for each kilometer, from memory
- gas law and Sutherland's formula for the viscosity of air: textbooks of fluid mechanics, from memory
- 4 Pa as the most suction for a room with a stove or an open flue: rule of chimney inspection, from memory

Notes: A stove or heater with an open flue in the same room is the reason for the limit: its smoke carries carbon
monoxide. Where there is none, state a higher suction.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.air.capture import through_hole
from kit.subjects.safety import DUST

M = Model("air.room", __doc__)

Q = M.given("flow", "Q", "700 ± 50 m^3/h", (5, 20000), "flow that the collector moves")
M.measured("from the path of its air, filter clean")
out = M.choice("outlet", "o", ("outdoors", "back into the room"), "outdoors", "where the collector blows")
V = M.given("volume", "V", "120 ± 5 m^3", (5, 10000), "volume of the room")
M.measured("length, width and height, tape")
A = M.given(
    "openings", "A", "1500 ± 200 cm^2", (10, 200000), "clear area of all openings and gaps through which air comes"
)
M.measured("window ajar, grille, gap under the door: width times height")
C = M.given("contraction", "C", "0.62 ± 0.05", (0.5, 1), "share of an opening's area that the jet fills")
M.source("sharp-edged opening: textbook of fluid mechanics, from memory")
p_max = M.given("allowed", r"\Delta p_{\mathrm{max}}", "4 Pa", (0.5, 100), "suction that the room may have")
M.source("4 Pa with a stove or open flue in the room: rule of chimney inspection, from memory")
h = M.given("altitude", "h", "200 ± 20 m", (-400, 5000), "height of the shop above the sea")
M.measured("map")
T = M.given("temperature", "T", "20 ± 3 °C", (-20, 45), "temperature of the air in the shop")
M.measured("thermometer")
p_s = M.given("weather", r"p_{\mathrm{s}}", "101325 ± 1500 Pa", (95000, 106000), "pressure of the day at sea level")
M.measured("weather report; 1013 hPa on average")
ISO = "ISO 2533, standard atmosphere, from memory"
T_0 = M.constant("sea_temperature", r"T_{0}", "288.15 K", "standard temperature at sea level", ISO)
lapse = M.constant("lapse", r"\gamma", "0.0065 K/m", "fall of the temperature with the height", ISO)
R = M.constant("gas", "R", "287.05287 N*m/(kg*K)", "gas constant of dry air", ISO)
g = M.constant("gravity", "g", "9.80665 m/s^2", "standard gravity", "3rd CGPM, 1901")
mu_0 = M.constant("sea_viscosity", r"\mu_{0}", "1.7894e-5 N*s/m^2", "viscosity of air at sea level", ISO)
hour = M.constant("hour", r"t_{\mathrm{h}}", "1 h", "an hour", "definition")
S = M.constant("sutherland", "S", "110.4 K", "Sutherland's temperature of air", ISO)

t = sp.Symbol("t", positive=True)
T_h = M.relation("standard_temperature", r"T_{\mathrm{h}}", "K", "standard temperature at this height", resolution=0.1)
M.equals(T_0 - lapse * h, "it falls evenly with the height")
p = M.result("pressure", "p", "Pa", "pressure of the air at this height", resolution=10)
M.step(
    p_s * sp.exp(-g / (R * lapse) * sp.Integral(1 / t, (t, T_h, T_0))),
    "each layer carries those above it and is as dense as its pressure and its temperature t make it",
)
M.equals(p_s * (T_h / T_0) ** (g / (R * lapse)), "the integral, carried out")
rho = M.result("density", r"\rho", "kg/m^3", "density of the air in the shop", resolution=0.001)
M.equals(p / (R * T), "the gas law")
nu = M.result("viscosity", r"\nu", "mm^2/s", "kinematic viscosity of the air in the shop", resolution=0.1)
M.equals(mu_0 * (T / T_0) ** sp.Rational(3, 2) * (T_0 + S) / (T + S) / rho, "Sutherland's formula over the density")
Q_o = M.relation("leaving", r"Q_{\mathrm{o}}", "m^3/h", "flow that leaves the room", resolution=1)
M.equals(sp.Piecewise((Q, sp.Eq(out, 0)), (0, True)), "what is blown back does not leave")
dp = M.result("suction", r"\Delta p", "Pa", "suction of the room", resolution=0.1)
M.step(equal(Q_o, A * through_hole(C, dp, rho)), "as much as leaves comes in through the openings")
M.equals(rho / 2 * (Q_o / (C * A)) ** 2, "solved for the suction")
M.mistake(rho / 2 * (Q_o / A) ** 2, "the jet was taken as wide as the opening")
M.result("needed", r"A_{\mathrm{min}}", "cm^2", "openings that keep the suction at what is allowed", resolution=10)
M.equals(Q_o / through_hole(C, p_max, rho), "at that suction the air comes in just so fast")
M.result("changes", "n", "1/h", "how often the collector moves the room's air in an hour", resolution=0.1)
M.equals(Q / V, "flow over volume")

M.limit("suction", "the room is under a suction of", dp, "<=", p_max, resolution=0.1)
M.mend("open a window or a grille while the collector runs, or let it blow back through a filter that is fine enough")
M.caution(*DUST)
M.caution(
    "A stove or heater with an open flue may draw its smoke back into the room while the collector runs, with carbon "
    "monoxide in it. Never run both without an opening; ask the chimney inspector, and hang an alarm.",
    when=sp.Eq(out, 0),
)
M.caution(
    "What the filter lets through stays in the room: use one rated for fine dust, and measure the air.",
    when=sp.Eq(out, 1),
)
M.caution(
    "The collector blows out the room's whole air in less than three minutes: in winter the warmth goes with it.",
    when=sp.Gt(Q_o * hour, 20 * V),
)
MODEL = M.done()
