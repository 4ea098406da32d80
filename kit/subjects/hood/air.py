"""Air through a hood, hose and collector.

Does the air come in fast enough at the hood, does the hose carry the dust, and how much may stay open?

In the trade's words: this collector, that hose, this hood. How fast does air come in where the hood is open, how fast
does it run in the hose, and how large an opening can the collector hold?

Picture: Air comes in through the free opening of the hood, gathers at the mouth of the hose and runs through its bends
to the collector. Below it the fan's pressure over the flow, falling, and what the way needs, rising; they cross where
the collector runs.

Assumptions:
- air comes in through the free opening evenly, and nowhere else
- the flow is turbulent and steady; losses grow with the square of the speed, that of the filter stays as given
- the fan's pressure falls from its shut-off value with the square of the flow to nothing at free flow
- friction in the hose is taken at the target speed; at the real one it differs by a few percent
- before the opening the air slows down as before a suction opening with no walls near it (DallaValle)

Sources:
- Darcy and Weisbach: loss in a pipe, textbook of fluid mechanics, from memory
- P. K. Swamee, A. K. Jain, Explicit equations for pipe-flow problems, J. Hydraulics Div. ASCE 102 (1976): friction
  factor, checked against a published value
- J. M. DallaValle, Exhaust Hoods: speed before an opening, Q = v (10 x² + A), flanged 0.75 of it; read in a handbook on
  the web, the 0.75 from memory
- ACGIH, Industrial Ventilation: entry losses, velocity pressure, from memory; duct speeds for wood dust read in a duct
  maker's table after it

Notes: The collector's fan gives less pressure the more air passes. The way needs more. Where both are equal, there it
runs.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.air.capture import FRONTS, SOURCE, flow_before, share
from kit.subjects.air.entries import MOUTH_SOURCE, MOUTHS
from kit.subjects.hood.offcut import state_offcut
from kit.subjects.safety import DUST

M = Model("hood.air", __doc__)

known = M.choice("known", "q", ("fan curve", "measured flow"), "fan curve", "what is known of the collector")
Q0 = M.given("free_flow", "Q_{0}", "1150 ± 60 m^3/h", (100, 10000), "fan: flow with nothing connected")
M.measured("maker's curve, where the pressure is nothing")
p0 = M.given("shut_pressure", "p_{0}", "1900 ± 50 Pa", (500, 10000), "fan: pressure with the inlet shut")
M.measured("maker's curve, or U-tube at the shut inlet")
Qm = M.given(
    "measured_flow", r"Q_{\mathrm{m}}", "650 ± 60 m^3/h", (10, 10000), "flow measured with hood and hose connected"
)
M.measured("anemometer across the opening, in squares")
pf = M.given("filter_drop", r"\Delta p_{\mathrm{f}}", "150 ± 30 Pa", (0, 450), "pressure lost in filter and collector")
M.measured("U-tube before and behind, filter in use")
A = M.given("inlet", "A", "2435 ± 20 cm^2", (10, 20000), "free area through which air comes into the hood")
M.measured("hood's opening and notches, from its model")
D = M.given("diameter", "D", "100 ± 0.5 mm", (30, 400), "inside diameter of the hose")
M.measured("caliper")
L = M.given("length", r"\ell", "2500 ± 20 mm", (100, 15000), "length of the hose, drawn straight")
M.measured("tape")
eps = M.given("roughness", r"\varepsilon", "1 ± 0.4 mm", (0.001, 3), "roughness inside the hose")
M.measured("0.15 mm spiral duct, about 1 mm ribbed hose drawn straight, more if pushed together")
M.source("duct 0.15 mm: textbooks, from memory; ribbed hose: from a ventilation table's loss per foot")
n = M.count("bends", "n", 2, (0, 12), "right-angled bends in the hose")
zb = M.given("bend_loss", r"\zeta_{\mathrm{b}}", "0.4 ± 0.15", (0.1, 1.5), "loss of one bend, in velocity pressures")
M.measured("0.2 to 0.4 at a radius of 2 diameters, 1.2 sharp")
M.source("ventilation handbooks, from memory")
mouth = M.choice("mouth", "e", tuple(MOUTHS), "flanged end", "how the hose begins in the hood")
free = M.choice("front", "w", FRONTS, FRONTS[1], "what is round the hood's opening")
rho = M.given("density", r"\rho", "1.2 ± 0.03 kg/m^3", (0.9, 1.4), "density of the air")
M.measured("1.20 at 20 °C and sea level")
M.source("gas law, standard air, from memory")
nu = M.given("viscosity", r"\nu", "15.1 ± 0.5 mm^2/s", (12, 20), "kinematic viscosity of the air")
M.measured("15.1 at 20 °C")
M.source("textbook of fluid mechanics, from memory")
vw = M.given("face_wished", r"v_{\mathrm{w}}", "0.75 m/s", (0.1, 5), "target speed where air comes in")
M.measured("0.5 to 1 m/s for booths and enclosing hoods")
M.source("ventilation handbooks, 100 to 200 ft/min, from memory")
vt = M.given("transport", r"v_{\mathrm{t}}", "20 m/s", (8, 35), "speed that keeps chips and dust moving")
M.measured("18 to 20 m/s dry dust and shavings, 20 to 24 heavy or damp, 28 wet chips")
M.source("a duct maker's table after ACGIH, read; EN 12779: 20 and 28 m/s, from memory")
vc = M.given("capture", r"v_{\mathrm{c}}", "0.5 m/s", (0.1, 5), "speed that still turns floating dust round")
M.measured("0.25 to 0.5 m/s in still air; nothing turns what the blade throws")
M.source("ventilation handbooks, from memory")

a = M.relation("hose_area", "a", "mm^2")
M.equals(sp.pi * D**2 / 4, "the hose is round")
Re = M.relation("reynolds", r"\mathrm{Re}", "", resolution=100)
M.equals(vt * D / nu, "inertia against viscosity, at the target speed")
lam = M.result("friction", r"\lambda", "", "friction factor of the hose", resolution=0.0001)
M.equals(
    0.25 / sp.log(eps / D / sp.Rational(37, 10) + 5.74 / Re**0.9, 10) ** 2,
    "roughness holds the air back at high speed, viscosity at low; this formula joins both",
)
M.source("Swamee and Jain, 1976")
ze = M.relation("entry_loss", r"\zeta_{\mathrm{e}}", "")
*shapes, last = MOUTHS.values()
M.equals(
    sp.Piecewise(*((loss, sp.Eq(mouth, number)) for number, loss in enumerate(shapes)), (last, True)),
    "the air contracts behind the edge of the mouth, the less the rounder it is",
)
M.source(MOUTH_SOURCE)
zeta = M.result("loss", r"\zeta", "", "loss of hood, hose and bends, in velocity pressures", resolution=0.01)
M.equals(
    1 + ze + n * zb + lam * L / D,
    "accelerating the air takes one velocity pressure; entry, bends and friction add theirs",
)
Qf = M.relation(
    "fan_flow", r"Q_{\mathrm{f}}", "m^3/h", "flow at which the fan gives what the system needs", resolution=1
)
M.step(
    equal(p0 * (1 - (Qf / Q0) ** 2), pf + zeta * rho / 2 * (Qf / a) ** 2),
    "on the left what the fan gives, on the right what the system needs",
)
M.equals(
    sp.sqrt((p0 - pf) / (p0 / Q0**2 + zeta * rho / (2 * a**2))),
    "the collector runs where the falling curve of the fan crosses the rising one of the system",
)
Q = M.result("flow", "Q", "m^3/h", "flow through hood and hose", resolution=1)
M.equals(sp.Piecewise((Qf, sp.Eq(known, 0)), (Qm, True)), "from the fan's curve, or as measured")
v = M.result("hose_speed", "v", "m/s", "speed in the hose", resolution=0.1)
M.equals(Q / a, "the flow spreads over the hose's area")
vf = M.result("face_speed", r"v_{\mathrm{A}}", "m/s", "speed where air comes in", resolution=0.01)
M.step(v * a / A, "what runs in the hose has come in at the opening")
M.equals(Q / A, "the same flow spreads over the free opening")
most = M.result(
    "largest_opening", r"A_{\mathrm{max}}", "cm^2", "largest free opening that this flow can hold", resolution=10
)
M.equals(Q / vw, "at that area the air comes in just at the target speed")
k = M.relation("around", "k", "")
M.equals(share(free), "a flange or wall keeps out the air from behind, a quarter of the whole")
M.source(SOURCE)
spare = M.relation("reach_area", "S", "cm^2", resolution=1)
M.step(equal(Q, flow_before(k, vc, spare, A)), "solved for x²")
M.equals(
    (Q / (k * vc) - A) / 10,
    "before the opening the flow passes through a surface that grows with the distance, 10 x² + A",
)
x = M.result("capture_reach", "x", "mm", "how far before the opening floating dust is still drawn in", resolution=1)
M.equals(
    sp.Piecewise((sp.sqrt(sp.Max(spare, 0)), sp.Ge(Q, vc * A)), (0, True)),
    "the distance at which the air has slowed to the capture speed; nothing if it is not as fast in the opening",
)
pv = M.relation("velocity_pressure", r"p_{\mathrm{v}}", "Pa", "velocity pressure in the hose", resolution=1)
M.equals(rho * v**2 / 2, "the work that accelerates the air, for each volume")
M.result(
    "hood_pressure",
    r"p_{\mathrm{h}}",
    "Pa",
    "suction that a U-tube shows at the hose close behind the hood",
    resolution=1,
)
M.equals((1 + ze) * pv, "accelerating the air and the loss at the entry are paid there")
dp = M.result("total_loss", r"\Delta p", "Pa", "pressure that the whole system needs", resolution=1)
M.equals(zeta * pv + pf, "the losses of hood, hose and bends, and the filter's")
M.result("needed_flow", r"Q_{\mathrm{t}}", "m^3/h", "flow that this hose needs to stay clean", resolution=1)
M.equals(vt * a, "the target speed over the hose's area")

M.limit("face", "where it comes in the air runs at", vf, ">=", vw, resolution=0.01)
M.mend("close part of the opening, shorten or widen the hose, or take a stronger collector")
M.limit("transport", "in the hose the air runs at", v, ">=", vt, resolution=0.1)
M.mend("take a narrower hose, or shorten it; else dust settles and can smolder")

M.limit(
    "fan",
    "hood, hose and filter need",
    dp,
    "<=",
    sp.Piecewise((dp, sp.Eq(known, 0)), (sp.Max(0, p0 * (1 - (Q / Q0) ** 2)), True)),
    in_unit="Pa",
    resolution=1,
)
M.mend("measure flow and filter again: the fan does not give such a pressure at such a flow")
state_offcut(M, D)

M.caution(*DUST)
M.caution("Guards stay on; no hood replaces one. Unplug the machine and switch the collector off before reaching in.")
M.caution(
    "The air runs more than half as fast again as the hose needs: it is loud and wears the bends; a wider hose "
    "would take less.",
    when=sp.Gt(v, sp.Rational(3, 2) * vt),
)
M.caution(
    "The opening is slow enough for a draft in the room to blow dust out.",
    when=sp.Lt(vf, sp.Rational(1, 2) * vw),
)

MODEL = M.done()
