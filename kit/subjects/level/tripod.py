"""Three feet and their weight.

What does each of three feet carry, how far does it sink, and what push lifts one?

In the trade's words: a machine on three feet never rocks. But how is its weight shared, how does it lean when its
rubber feet give way, and how hard may one push at the top before a foot lifts?

Picture: From above: three feet make a triangle round the center of mass; each carries by the triangle on its opposite
side.

Assumptions:
- the base is stiff and the floor does not give way
- the feet are alike and give way in proportion to their weight
- the push is level and the machine does not slide

Sources:
- J. L. Meriam and L. G. Kraige, Statics: equilibrium of a rigid body, from memory
- area coordinates of a triangle (A. F. Möbius, 1827): plane geometry

Notes: Each foot carries the share that the triangle on its opposite side has in the whole. A foot right under the
center would carry all.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.level.places import gravity, opposite, state_place, twice_area
from kit.subjects.safety import HEAVY_MACHINE

M = Model("level.tripod", __doc__)
START = (
    ((-200, 100), (-200, 100), 0, 0),
    ((250, 1500), (-200, 100), 420, 0),
    ((-200, 1500), (250, 1500), 210, 380),
)
feet = [
    state_place(M, i, place, what="foot", ways=("along", "across"), how="tape")
    for i, place in enumerate(START, start=1)
]
X = M.given("center_x", "X", "215 ± 5 mm", (0, 1500), "center of mass, along")
M.measured("weigh two feet on scales, or balance it on a batten")
Y = M.given("center_y", "Y", "140 ± 5 mm", (0, 1500), "center of mass, across")
M.measured("weigh two feet on scales, or balance it on a batten")
m = M.given("mass", "m", "28 ± 1 kg", (2, 500), "mass of the machine")
M.measured("bathroom scale")
k = M.given("stiffness", "k", "80 ± 20 N/mm", (5, 20000), "stiffness of one foot: weight over how far it gives way")
M.measured("calipers on the foot, free and loaded")
H = M.given("push_height", "H", "300 ± 10 mm", (10, 2000), "height of the push above the feet")
M.measured("tape")
P = M.given("push", "P", "60 ± 20 N", (0, 1000), "hardest level push or jerk at work")
M.measured("spring scale")
nu = M.given("tip_factor", r"\nu", "1.5", (1, 4), "factor kept from tipping")
M.source("common practice, no source")
allowed = M.given("allowed", r"\theta_{\mathrm{max}}", "3 mm/m", (0.01, 50), "lean that you can allow")
g = gravity(M)

W = M.relation("weight", "W", "N", "weight of the machine", resolution=1)
M.equals(m * g, "mass times free fall")
A = M.relation("twice_area", "A", "mm^2", "twice the area between the feet")
M.equals(twice_area(*feet), "the vector product of two sides is twice the triangle")
F: list[sp.Symbol] = []
for i in range(3):
    force = M.result(
        f"force_{i + 1}",
        f"F_{{{i + 1}}}",
        "N",
        f"weight on foot {i + 1}; below zero: the machine falls over",
        resolution=0.1,
    )
    if i == 2:
        arms = sp.Matrix([[1] * 3, [f[0] for f in feet], [f[1] for f in feet]])
        M.step(
            equal(arms * sp.Matrix([*F, force]), W * sp.Matrix([1, X, Y])),
            "the three carry the weight and its moments about both axes",
        )
    M.equals(
        W * opposite(feet, i, (X, Y)) / A,
        "moments about the line through the two other feet: the foot's arm and the center's arm are as the triangles "
        "over that line",
    )
    F.append(force)
sinks = []
for i, force in enumerate(F, start=1):
    sink = M.result(f"sink_{i}", f"s_{{{i}}}", "mm", f"how far foot {i} gives way", resolution=0.01)
    M.equals(force / k, "weight over stiffness")
    sinks.append(sink)
edges = [(feet[1], feet[2]), (feet[2], feet[0]), (feet[0], feet[1])]
rise_x = sum(y_i * (p[1] - q[1]) for y_i, (p, q) in zip(sinks, edges, strict=True)) / A
rise_y = sum(y_i * (q[0] - p[0]) for y_i, (p, q) in zip(sinks, edges, strict=True)) / A
lean = M.result("lean", r"\theta", "mm/m", "lean of the machine as its feet give way", resolution=0.01)
M.equals(sp.sqrt(rise_x**2 + rise_y**2), "the plane through the three sunk feet: its slopes along x and y, together")
tips = []
for i, (p, q) in enumerate(edges):
    push = M.relation(f"tip_{i + 1}", f"P_{{{i + 1}}}", "N", f"push that lifts foot {i + 1}", resolution=1)
    M.equals(
        F[i] * A / (H * sp.sqrt((p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2)),
        "push times height is then the foot's weight times its arm, the height of the triangle over the other two",
    )
    tips.append(push)
tip = M.result("tip", r"P_{\mathrm{tip}}", "N", "push that lifts the first foot", resolution=1)
M.step(
    sp.Min(
        *(
            W * opposite(feet, i, (X, Y)) / (H * sp.sqrt((p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2))
            for i, (p, q) in enumerate(edges)
        )
    ),
    "also weight times the center's distance from that side, over the height",
)
M.equals(sp.Min(*tips), "the machine tips over the side that resists least")

M.limit("stands", "work pushes with", P, "<=", tip / nu, in_unit="N", resolution=1)
M.mend("move the feet apart, push lower down, or bolt the machine to its bench")
M.limit("lean", "the feet let the machine lean by", lean, "<=", allowed)
M.mend("use stiffer feet, or make the pads higher where the machine sinks more")
M.caution(*HEAVY_MACHINE)
M.caution(
    "The center of mass lies outside the feet: the machine falls over. Do not let go of it.",
    when=sp.Lt(sp.Min(*F), 0),
)
M.caution("A machine that can be pushed over must be bolted down before it is used.", when=sp.Gt(P, tip / nu))
MODEL = M.done()
