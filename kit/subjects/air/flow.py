"""Air that a hood needs.

How much air must a hood draw, and what decides it: to catch the dust, to keep it in, or to carry it away?

In the trade's words: the dust comes free so far before the hood, the hood is open so wide, the hose is so thick. How
many cubic meters an hour must go through all three, and which of them asks for most?

Picture: A hood from the side, with the place where dust comes free before its opening and the hose behind it. Below,
three bars: the flow that each of the three tasks asks for. The longest decides.

Assumptions:
- before the opening the air slows down as before a suction opening in a still room (DallaValle)
- the formula is that of a round or nearly square opening, near to it: no farther than one and a half diameters
- close to an opening with a flange the air is as fast as in it, and no faster
- air comes in through the free opening evenly; what the blade throws is faster than any air and is caught by walls
- dust that floats at the transport speed stays afloat; what lies in the hose already needs more to be lifted

Sources:
- J. M. DallaValle, Exhaust Hoods: flow before an opening, Q = v (10 x² + A), flanged 0.75 of it; read in a handbook on
  the web, the 0.75 from memory; that it holds to 1.5 diameters from memory
- ACGIH, Industrial Ventilation: ranges of capture and of transport speeds, each read in a transcription of its table

Notes: Capture acts on dust that floats. A cut-off saw throws most of its chips; for these a wall that they fly
against, open to the hose, does more than any flow.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.air.capture import FRONTS, SOURCE, filled_at, flow_before, share
from kit.subjects.safety import DUST, HOSE

M = Model("air.flow", __doc__)

x = M.given("distance", "x", "150 ± 20 mm", (0, 1500), "from the hood's opening to where the dust comes free")
M.measured("tape, to the farthest point of the cut")
A = M.given("opening", "A", "1200 ± 20 cm^2", (10, 20000), "free area through which air comes into the hood")
M.measured("width times height, less what stands in it")
front = M.choice("front", "w", FRONTS, FRONTS[1], "what is round the hood's opening")
D = M.given("diameter", "D", "100 ± 0.5 mm", (30, 500), "inside diameter of the hose")
M.measured("caliper")
vc = M.given("capture", r"v_{\mathrm{c}}", "0.5 ± 0.1 m/s", (0.1, 10), "speed of the air that catches the dust")
M.measured("0.5 to 1 m/s slow dust in still air, 1 to 2.5 lively, 2.5 to 10 grinding")
M.source("ACGIH, Industrial Ventilation, range of capture velocities, read in a transcription")
vf = M.given("face", r"v_{\mathrm{f}}", "0.75 ± 0.25 m/s", (0.1, 5), "speed into the opening that keeps dust in")
M.measured("0.5 to 1 m/s for booths and enclosing hoods")
M.source("ventilation handbooks, 100 to 200 ft/min, from memory")
vt = M.given("transport", r"v_{\mathrm{t}}", "17.78 ± 2.54 m/s", (5, 40), "speed in the hose that carries the dust")
M.measured("by the kind of dust, from the table")
M.source("ACGIH, Industrial Ventilation, minimum duct design velocities, read in a transcription")
M.pick("dust", "dusts", "dry dust and light shavings", {"transport": "transport"}, "dust that is carried")
most = M.given("most", r"v_{\mathrm{max}}", "30 m/s", (10, 60), "speed in the hose that is still bearable")
M.source("noise and wear of the bends: common practice, no source")

k = M.relation("around", "k", "", "share that the hood's front leaves of the flow")
M.equals(share(front), "a flange or wall keeps out the air from behind, a quarter of the whole")
M.source(SOURCE)
a = M.relation("hose_area", "a", "cm^2", "clear area of the hose", resolution=0.1)
r = sp.Symbol("r", real=True)
M.step(sp.Integral(2 * sp.pi * r, (r, 0, D / 2)), "ring by ring from the middle, r from 0 to half the diameter")
M.equals(sp.pi * D**2 / 4, "the hose is round")
S = M.relation("shell", "S", "cm^2", "area through which the air comes at the distance of the dust", resolution=1)
M.equals(10 * x**2 + A, "at the opening it is the opening itself; farther out it grows with the distance squared")
Qc = M.result(
    "capture_flow", r"Q_{\mathrm{c}}", "m^3/h", "flow that catches the dust where it comes free", resolution=1
)
M.step(vc * sp.Max(A, k * S), "at the capture speed through the share of that area, at least through the opening")
M.equals(sp.Max(vc * A, flow_before(k, vc, x**2, A)), "with the area written out")
M.mistake(k * vc * 10 * x**2, "the opening itself was left out")
Qf = M.result("face_flow", r"Q_{\mathrm{f}}", "m^3/h", "flow that keeps the dust in the hood", resolution=1)
M.equals(vf * A, "at every place of the opening the air comes in at the face speed")
Qt = M.result("transport_flow", r"Q_{\mathrm{t}}", "m^3/h", "flow that carries the dust through the hose", resolution=1)
M.equals(vt * a, "the transport speed over the hose's area")
M.mistake(vt * sp.pi * D**2, "diameter and radius were confused")
Qh = M.result("hood_flow", r"Q_{\mathrm{h}}", "m^3/h", "flow that the hood asks for, whatever the hose", resolution=1)
M.equals(sp.Max(Qc, Qf), "it must catch the dust and keep it in")
Q = M.result("flow", "Q", "m^3/h", "flow that is needed", resolution=1)
M.step(sp.Max(Qc, Qf, Qt), "the same air goes through all three places; the greatest need decides")
M.equals(sp.Max(Qh, Qt), "hood and hose")
for name, tex, need, words in (
    ("capture_part", "c", Qc, "what catching asks for, of the flow needed"),
    ("face_part", "f", Qf, "what keeping in asks for, of the flow needed"),
    ("transport_part", "t", Qt, "what carrying asks for, of the flow needed; 100 % decides"),
):
    M.result(name, rf"p_{{\mathrm{{{tex}}}}}", "%", words, resolution=1)
    M.equals(need / Q, "its share")
v = M.result("hose_speed", "v", "m/s", "speed in the hose at that flow", resolution=0.1)
M.equals(Q / a, "the flow spreads over the hose's area")
M.result("face_speed", r"v_{\mathrm{A}}", "m/s", "speed into the opening at that flow", resolution=0.01)
M.equals(Q / A, "the flow spreads over the opening")
vx = M.result(
    "dust_speed", r"v_{x}", "m/s", "speed of the air where the dust comes free, at that flow", resolution=0.01
)
M.step(equal(Q, sp.Max(vx * A, flow_before(k, vx, x**2, A))), "the same at the flow needed")
M.equals(Q / sp.Max(A, k * S), "solved for the speed")
Db = M.result(
    "best_diameter", r"D^{*}", "mm", "hose in which the air that the hood asks for just carries the dust", resolution=1
)
M.step(equal(Qh, vt * sp.pi * Db**2 / 4), "its area times the transport speed is the hood's flow")
M.equals(filled_at(Qh, vt), "solved for the diameter; a wider hose needs more air, a narrower pulls more")
De = M.relation("equal_diameter", r"D_{\mathrm{A}}", "mm", "diameter of a round opening as large", resolution=1)
M.equals(sp.sqrt(4 * A / sp.pi), "a circle of the opening's area")

M.limit("reach", "the dust comes free before the opening by", x, "<=", sp.Rational(3, 2) * De, resolution=1)
M.mend("bring the hood nearer or make its opening larger: farther out no formula holds, and any draft wins")
M.limit("bearable", "in the hose the air runs at", v, "<=", most, resolution=0.1)
M.mend("take a wider hose, or bring the hood nearer")
M.caution(
    "To catch the dust decides: bring the hood nearer or set walls round the cut before you buy a larger fan.",
    when=sp.And(sp.Ge(Qc, Qf), sp.Gt(Qc, Qt)),
)
M.caution(
    "To keep the dust in decides: close what need not be open before you buy a larger fan.",
    when=sp.And(sp.Gt(Qf, Qc), sp.Gt(Qf, Qt)),
)
M.caution(
    "To carry the dust decides: the hood is served with less air, but in this hose dust would settle. A narrower hose "
    "would do with less air and ask for more pressure.",
    when=sp.And(sp.Ge(Qt, Qc), sp.Ge(Qt, Qf)),
)
M.caution(*DUST, *HOSE)
M.wish("least flow", Q)
MODEL = M.done()
