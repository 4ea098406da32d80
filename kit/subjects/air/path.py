"""Path of the air to the collector.

How much air does this collector pull through this path, and is it enough at the hood and fast enough in the hose?

In the trade's words: hood, chute, hose, gate, wye, duct, cyclone, bag. Each takes its part of the suction. What is left
for the saw when its gate is open, when the bag is full, when the joints leak?

Picture: The path from the hood to the fan, and the fan's curve as its maker drew it beside the same curve at the speed
and in the air of this shop.

Assumptions:
- the flow is steady and turbulent, and air is as dense everywhere as in the room; at 5 kPa of suction it is 5 % thinner
- each piece loses its own share of the velocity pressure; pieces close to each other disturb each other and cost more
- where branches join they share one total pressure; what a branch loses there is the entry at its own end
- a hose or duct costs what Colebrook's equation says for its roughness, a bag what grows with the flow
- each piece's loss is off by up to a fifth, unless it states its own, and a curve's pressures by up to 5 %, each on
  its own; what a cell states as ± counts too, and flows and speeds are as sure as these leave them
- a fan with the same blades at another speed, or in other air, follows the fan laws; its curve is that of clean air

Sources:
- ISO 13348: a fan's pressure may be off by 5 % (grade AN3), from memory; a fifth for losses: common practice, no source
- Colebrook's equation, Borda and Carnot's widening, fan laws: textbooks of fluid mechanics, from memory
- D. C. Rennels, H. M. Hudson, Pipe Flow, 2012: bends and cones, as stated in the library fluids, read
- ACGIH, Industrial Ventilation: entries and branch entries in velocity pressures, from memory; transport speeds, read
  in a transcription
- B. Abushakra, I. S. Walker, M. H. Sherman, Compression Effects on Pressure Loss in Flexible HVAC Ducts: a hose that is
  pushed together costs several times as much, read; its formula, after ASHRAE, from memory

Notes: Branches and pieces are typed as rows, in the order in which the air runs. A branch that others join begins
where they meet; one that none joins begins at a hood. The curve is the suction at the collector's inlet over the
flow, from the shut inlet on.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.core.model.input_terms import amount, choice, many, rows, steps, text
from kit.subjects.air.capture import filled_at, through_hole
from kit.subjects.air.entries import MOUTHS
from kit.subjects.safety import DUST, HOSE

M = Model("air.path", __doc__)

Qw = M.given("wanted", r"Q_{\mathrm{w}}", "600 m^3/h", (5, 20000), "flow wanted at a hood that states no other")
M.measured("what the hood needs, by its own page")
vt = M.given(
    "transport", r"v_{\mathrm{t}}", "17.78 ± 2.54 m/s", (5, 40), "speed in hose and duct that carries the dust"
)
M.measured("by the kind of dust, from the table")
M.source("ACGIH, Industrial Ventilation, minimum duct design velocities, read in a transcription")
M.pick("dust", "dusts", "dry dust and light shavings", {"transport": "transport"}, "dust that is carried")
n = M.given("fan_speed", "n", "90 %", (20, 150), "speed of the fan, of that at which its curve was drawn")
M.measured("tachometer, or the frequency at the drive")
most_power = M.given(
    "motor", r"P_{\mathrm{max}}", "115 %", (100, 150), "power that the motor bears, of that at the curve"
)
M.source("service factor of motors: common practice, no source")
pm = M.given(
    "stands", r"p_{\mathrm{max}}", "5000 Pa", (500, 40000), "suction that hose, bag and hood stand without collapsing"
)
M.measured("maker's rating of the weakest of them")
C = M.given("orifice", "C", "0.62 ± 0.05", (0.5, 1), "share of a leak's area through which the air really runs")
M.source("sharp-edged opening: textbook of fluid mechanics, from memory")
rho = M.given("density", r"\rho", "1.2 ± 0.03 kg/m^3", (0.7, 1.5), "density of the air in the shop")
M.measured("1.20 at 20 °C and sea level, a tenth less for each 900 m up")
M.source("gas law, standard air, from memory")
nu = M.given("viscosity", r"\nu", "15.1 ± 0.5 mm^2/s", (10, 30), "kinematic viscosity of the air")
M.measured("15.1 at 20 °C")
M.source("textbook of fluid mechanics, from memory")
rho_0 = M.constant(
    "curve_density", r"\rho_{0}", "1.2 kg/m^3", "density for which fans' curves are stated", "ISO 5801, from memory"
)

phi = M.result("flow_factor", r"\varphi", "", "flow of the fan here, of that on its curve", resolution=0.001)
M.equals(n, "each turn of the wheel moves the same volume, whatever the air")
psi = M.result("pressure_factor", r"\psi", "", "suction of the fan here, of that on its curve", resolution=0.001)
M.step(rho * phi**2 / rho_0, "pressure goes with the velocity pressure at the wheel, and its speed with the flow")
M.equals(n**2 * rho / rho_0, "the second fan law")
M.mistake(n * rho / rho_0, "the speed was not squared")
power = M.result(
    "power_factor", "P", "%", "power of the fan here, of that on its curve", resolution=1, within=(0, 1000)
)
M.step(phi * psi, "power is flow times pressure")
M.equals(n**3 * rho / rho_0, "the third fan law")
M.mistake(n**2 * rho / rho_0, "the speed was only squared")
M.result("velocity_pressure", r"p_{\mathrm{t}}", "Pa", "velocity pressure at the speed that carries", resolution=1)
M.equals(rho * vt**2 / 2, "the work that accelerates the air, for each volume; losses are counted in it")
Dm = M.result(
    "largest_duct", r"D_{\mathrm{max}}", "mm", "widest hose or duct in which the flow wanted carries", resolution=1
)
M.step(equal(Qw, vt * sp.pi * Dm**2 / 4), "its area times the speed that carries is the flow")
M.equals(filled_at(Qw, vt), "solved for the diameter: in anything wider dust settles, unless more air comes")
Re = M.relation("reynolds", r"\mathrm{Re}", "", "inertia of the air in it against its viscosity", resolution=100)
M.equals(vt * Dm / nu, "speed and width over the viscosity")
uL = M.result(
    "leak_speed", r"u_{\mathrm{L}}", "m/s", "speed through a leak, over its whole area, at that suction", resolution=0.1
)
M.step(equal(pm, rho * (uL / C) ** 2 / 2), "all the pressure becomes speed, and the jet is narrower than its hole")
M.equals(through_hole(C, pm, rho), "solved for the speed; at a lower suction it falls with the root")

M.limit("wheel", "the fan turns at", n, "<=", sp.Integer(100), in_unit="%", resolution=1)
M.mend("never drive a wheel faster than its plate says: it can burst")
M.limit("motor", "the motor gives", power, "<=", most_power, resolution=1)
M.mend("let the fan run slower: in cold, dense air it asks for more")
M.limit("turbulent", "in it the Reynolds number is", Re, ">=", sp.Integer(4000), resolution=100)
M.mend("look at the flow and the speed again: no path for dust is that small and slow")
M.caution(*DUST, *HOSE)
M.caution(
    "The air is thinner than that of the curve: it moves as many liters, but carries dust less well. Ask for a higher "
    "speed.",
    when=sp.Lt(rho, sp.Rational(9, 10) * rho_0),
)
M.caution(
    "Tables of losses differ by a fifth: each piece is taken to be off by up to that, independently of the others, "
    "unless it states its own; pieces close to each other are off together. Measure flow and suction once it is "
    "built, and type what you measured."
)

ON = text("branch", "branch on which it lies", needed=True, refers="branches")
WIDE = amount("diameter", "inside diameter", span=(20, 1000), needed=True)
LONG = amount("length", "its length", span=(1, 50_000), needed=True)
ROUGH = amount("roughness", "roughness inside: 0.15 mm sheet-metal duct, 1 mm ribbed hose", span=(0, 5), needed=True)
AT = amount("at", "the flow at which that was measured", "m^3/h", span=(1, 50_000), needed=True)
HOLE = amount("area", "clear area of the leak", "mm^2", span=(0, 1e6), needed=True)

BRANCHES = rows(
    "branches",
    "branches of the path; one of them runs into the collector",
    text("name", "name of the branch", needed=True),
    text("joins", "branch into whose beginning it runs; none: the collector", refers="branches"),
    amount("wanted", "flow wanted at its hood, if another than above", "m^3/h", span=(1, 20_000)),
    key="name",
)
OFF_BY = amount("off", "how far its loss may be off, of it; a fifth unless stated", "%", span=(0, 100))

PIECES = steps(
    "pieces",
    "pieces of the path, in the order in which the air runs",
    "piece",
    {
        "entry": (ON, WIDE, choice("mouth", "how it begins", *MOUTHS, needed=True), OFF_BY),
        "chute": (
            ON,
            amount("width", "width of its wide end", span=(20, 3000), needed=True),
            amount("height", "height of its wide end", span=(20, 3000), needed=True),
            WIDE,
            LONG,
            OFF_BY,
        ),
        "cone": (
            ON,
            amount("from", "diameter at which the air comes in", span=(20, 1000), needed=True),
            WIDE,
            LONG,
            OFF_BY,
        ),
        "hose": (
            ON,
            WIDE,
            LONG,
            ROUGH,
            amount("drawn", "how far it is drawn out, of its full length", "%", span=(55, 100), needed=True),
            OFF_BY,
        ),
        "duct": (ON, WIDE, LONG, ROUGH, OFF_BY),
        "bend": (
            ON,
            WIDE,
            amount("angle", "angle through which it turns", "deg", span=(1, 180), needed=True),
            amount("radius", "radius of its axis", span=(20, 5000), needed=True),
            ROUGH,
            OFF_BY,
        ),
        "wye": (
            ON,
            WIDE,
            amount("angle", "angle to the run that it enters", "deg", span=(10, 90), needed=True),
            OFF_BY,
        ),
        "gate": (ON, WIDE, amount("slit", "area that stays open when it is shut", "mm^2", span=(0, 1e5), needed=True)),
        "leak": (ON, HOLE),
        "cyclone": (ON, amount("drop", "pressure that it costs", "Pa", span=(0, 10_000), needed=True), AT, OFF_BY),
        "filter": (
            ON,
            amount("clean", "pressure that it costs when clean", "Pa", span=(0, 10_000), needed=True),
            amount("loaded", "pressure that it costs when it must be shaken", "Pa", span=(0, 10_000), needed=True),
            AT,
            OFF_BY,
        ),
        "other": (ON, WIDE, amount("loss", "loss in velocity pressures", "", span=(0, 1000), needed=True), OFF_BY),
    },
)
CURVE = rows(
    "curve",
    "the collector's curve, from the shut inlet on",
    amount("flow", "flow", "m^3/h", span=(0, 50_000), needed=True),
    amount("pressure", "suction at the inlet", "Pa", span=(0, 30_000), needed=True),
)
POSITIONS = rows(
    "positions",
    "positions of the gates; all are open where none is stated",
    text("name", "name of the position", needed=True),
    many("open", "branches whose gates are open", text("branch", "a branch", refers="branches"), least=1, needed=True),
    key="name",
)
M.ask(BRANCHES, PIECES, CURVE, POSITIONS)
MODEL = M.done()
