"""Coming back to the same place.

How far can the cut shift and the blade turn when a machine is taken away and put back?

In the trade's words: pads with lips hold the machine by its feet, with a little clearance so that it can be lifted out.
How far can the cut shift, how far can the blade turn, each time the machine comes back?

Picture: From above: two pads with lips stand apart along x, each foot free within its clearance; the blade is off the
middle between them, along the line of the pads and beside it.

Assumptions:
- feet and lips are stiff and square
- any place within the clearance is as likely as any other, and the two feet land independently
- the twist is small

Sources:
- plane kinematics of a rigid body: a small turn about a point plus a shift
- JCGM 100:2008 (GUM), 4.3.7 and 5.1.2: rectangular errors, independent errors

Notes: If both feet move alike the machine shifts. If one moves up and the other down, it twists. Pushed home against
the lips each time, only dust and burrs are left of the clearance.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import HEAVY_MACHINE

M = Model("level.register", __doc__)
way = M.choice(
    "way",
    "w",
    ("dropped in", "pushed home"),
    "pushed home",
    "how the machine is put back: anywhere in the clearance, or against the lips",
)
c_0 = M.given("clearance", r"c_{0}", "0.6 ± 0.1 mm", (0, 5), "clearance between foot and lips, both sides together")
M.measured("feeler gauges")
c_1 = M.given(
    "dirt", r"c_{1}", "0.1 ± 0.05 mm", (0, 2), "what dust, burrs and soft feet leave when the machine is pushed home"
)
M.measured("put it back ten times, dial gauge")
D = M.given("apart", "D", "420 ± 1 mm", (50, 2000), "between the two pads, along x")
M.measured("tape")
R = M.given("along", "R", "60 ± 1 mm", (-1500, 1500), "blade from the middle between the pads, along x")
M.measured("tape")
S = M.given("beside", "S", "150 ± 1 mm", (-1500, 1500), "blade beside the line of the pads")
M.measured("tape")
L = M.given("cut", "L", "300 ± 1 mm", (10, 1500), "length of the cut")
M.measured("tape")
allowed = M.given("allowed", r"s_{\mathrm{max}}", "0.3 mm", (0.01, 5), "shift of the cut that you can allow")
square = M.given(
    "square_allowed", r"q_{\mathrm{max}}", "0.15 mm", (0.01, 5), "out of square over the cut that you can allow"
)
v = sp.Symbol("v", real=True)

c = M.relation("play", "c", "mm", "play that counts", resolution=0.01)
M.equals(sp.Piecewise((c_0, sp.Eq(way, 0)), (c_1, True)), "pushed home, the clearance itself does not count")
near = M.relation("near", r"\lambda_{1}", "", "part of the first foot's movement at the blade", resolution=0.01)
M.equals(sp.Rational(1, 2) - R / D, "the far foot has no part in a place over the near one")
one, two = sp.symbols("y_1 y_2", real=True)
far = M.relation("far", r"\lambda_{2}", "", "part of the second foot's movement at the blade", resolution=0.01)
M.step(1 - near, "the parts are one in all")
M.step(equal(-near * D / 2 + far * D / 2, R), "and weigh the feet's places to the blade's")
M.equals(sp.Rational(1, 2) + R / D, "what the one foot has not, the other has")
shift = M.result(
    "shift", r"s_{y}", "mm", "largest shift at the blade across the line of the pads, either way", resolution=0.01
)
M.step(c / 2 * sp.Max(1, 2 * sp.Abs(R) / D), "between the pads that is half the play; beyond them it grows as a lever")
M.equals(
    c / 2 * (sp.Abs(near) + sp.Abs(far)),
    "each foot moves half the play either way; the worst is both to the blade's harm",
)
twist = M.result("twist", r"\theta", "deg", "largest turn of the blade, either way", resolution=0.001)
M.equals(c / D, "one foot half the play up, the other half the play down, over their distance")
beside = M.result(
    "shift_x", r"s_{x}", "mm", "largest shift at the blade along the line of the pads, either way", resolution=0.01
)
M.equals(
    c / 2 + twist * sp.Abs(S),
    "both feet move together along their line, and a turn swings the blade by its distance beside it",
)
out = M.result("out_of_square", "q", "mm", "largest error of squareness over the cut", resolution=0.01)
M.equals(twist * L, "the turn times the length of the cut")
u_foot = M.relation("u_foot", r"u_{\mathrm{f}}", "mm", "standard uncertainty of a foot's place", resolution=0.001)
M.step(
    equal(u_foot**2 * c, sp.Integral(v**2, (v, -c / 2, c / 2))), "the mean square distance from the middle of the play"
)
M.equals(c / sp.sqrt(12), "a rectangular distribution over the play")
M.source("JCGM 100:2008, 4.3.7")
M.result("u_shift", r"u_{y}", "mm", "standard uncertainty of the shift at the blade", resolution=0.001)
M.step(u_foot * sp.sqrt(sp.Rational(1, 2) + 2 * R**2 / D**2), "least between the pads, in their middle")
M.equals(u_foot * sp.sqrt(near**2 + far**2), "the two feet land independently, each with its part")
M.source("JCGM 100:2008, 5.1.2")
M.result("u_square", r"u_{q}", "mm", "standard uncertainty of squareness over the cut", resolution=0.001)
M.equals(sp.sqrt(2) * u_foot * L / D, "the difference of two independent feet turns the blade")
M.source("JCGM 100:2008, 5.1.2")

M.limit(
    "shift", "put back, the cut shifts by up to", sp.Max(shift, beside), "<=", allowed, in_unit="mm", resolution=0.01
)
M.mend("push the machine home against the lips, keep them clean, or make the clearance smaller")
M.limit("square", "over the cut, squareness changes by up to", out, "<=", square)
M.mend("set the pads farther apart or make the clearance smaller")
M.caution(*HEAVY_MACHINE)
M.caution(
    "Check the fence against the blade after each return: lips bring the machine near its place, a square proves it."
)
M.caution(
    "Without a clearance the machine jams in its lips as the shop gets damp: leave at least a card's thickness.",
    when=sp.Le(c_0, 0),
)
MODEL = M.done()
