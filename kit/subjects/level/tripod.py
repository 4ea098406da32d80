"""Three feet: what weight does each carry, how far does it sink, and what push tips the machine over?

The question in the trade's words: a machine on three feet never rocks. But how is its weight shared, how does it lean
when its rubber feet give way, and how hard may one push at the top before a foot lifts?

The picture, from above: three feet make a triangle, and the center of mass lies in it. Each foot carries the share
that the triangle on its opposite side has in the whole; a foot right under the center would carry all.

Assumptions: the base is stiff, the floor does not give way, the feet are alike and give way in proportion to their
weight, the lean is small, and the push is level.

Sources: statics (sums of forces and moments), e.g. J. L. Meriam and L. G. Kraige, Statics, from memory; area
coordinates of a triangle.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.level.places import gravity, opposite, state_place, twice_area
from kit.subjects.safety import HEAVY_MACHINE

M = Model(
    "level.tripod",
    title="Three feet and their weight",
    question="What does each of three feet carry, how far does it sink, and what push lifts one?",
    picture="From above: three feet make a triangle round the center of mass; each carries by the triangle on its "
    "opposite side.",
    assumptions=(
        "the base is stiff and the floor does not give way",
        "the feet are alike and give way in proportion to their weight",
        "the push is level and the machine does not slide",
    ),
    sources=(
        "J. L. Meriam and L. G. Kraige, Statics: equilibrium of a rigid body, from memory",
        "area coordinates of a triangle (A. F. Möbius, 1827): plane geometry",
    ),
)
START = (
    ((-200, 100), (-200, 100), 0, 0),
    ((250, 1500), (-200, 100), 420, 0),
    ((-200, 1500), (250, 1500), 210, 380),
)
feet = [
    state_place(M, i, place, what="foot", ways=("along", "across"), how="tape")
    for i, place in enumerate(START, start=1)
]
X = M.given("center_x", "X", "mm", 215, span=(0, 1500), half=5, meaning="center of mass, along",
            how="weigh two feet on scales, or balance it on a batten")  # fmt: skip
Y = M.given("center_y", "Y", "mm", 140, span=(0, 1500), half=5, meaning="center of mass, across",
            how="weigh two feet on scales, or balance it on a batten")  # fmt: skip
m = M.given("mass", "m", "kg", 28, span=(2, 500), half=1, meaning="mass of the machine", how="bathroom scale")
k = M.given("stiffness", "k", "N/mm", 80, span=(5, 20000), half=20,
            meaning="stiffness of one foot: weight over how far it gives way",
            how="calipers on the foot, free and loaded", source="invented demo value")  # fmt: skip
H = M.given(
    "push_height", "H", "mm", 300, span=(10, 2000), half=10, meaning="height of the push above the feet",
    how="tape",
)  # fmt: skip
P = M.given(
    "push", "P", "N", 60, span=(0, 1000), half=20, meaning="hardest level push or jerk at work",
    how="spring scale",
)  # fmt: skip
allowed = M.given(
    "allowed", r"\theta_{\mathrm{max}}", "mm/m", 3, span=(0.01, 50), meaning="lean that you can allow"
)
g = gravity(M)

W = M.relation(
    "weight", "W", "N", m * g, because="mass times free fall", resolution=1, meaning="weight of the machine"
)
A = M.relation("twice_area", "A", "mm^2", twice_area(*feet),
               because="the vector product of two sides is twice the triangle",
               meaning="twice the area between the feet")  # fmt: skip
forces = sp.Matrix(sp.symbols("force_1 force_2 force_3", real=True))
moments = equal(
    sp.Matrix([[1] * 3, [f[0] for f in feet], [f[1] for f in feet]]) * forces, W * sp.Matrix([1, X, Y])
)
told = "the three carry the weight and its moments about both axes"
F = [
    M.result(
        f"force_{i + 1}", f"F_{{{i + 1}}}", "N", W * opposite(feet, i, (X, Y)) / A, resolution=0.1,
        meaning=f"weight on foot {i + 1}; below zero: the machine falls over",
        lines=[(moments, told)] if i == 2 else [],
        because="moments about the line through the two other feet: the foot's arm and the center's arm are as the "
        "triangles over that line",
    )
    for i in range(3)
]  # fmt: skip
sinks = [
    M.result(
        f"sink_{i}", f"s_{{{i}}}", "mm", force / k, resolution=0.01, meaning=f"how far foot {i} gives way",
        because="weight over stiffness",
    )
    for i, force in enumerate(F, start=1)
]  # fmt: skip
edges = [(feet[1], feet[2]), (feet[2], feet[0]), (feet[0], feet[1])]
rise_x = sum(y_i * (p[1] - q[1]) for y_i, (p, q) in zip(sinks, edges, strict=True)) / A
rise_y = sum(y_i * (q[0] - p[0]) for y_i, (p, q) in zip(sinks, edges, strict=True)) / A
lean = M.result("lean", r"\theta", "mm/m", sp.sqrt(rise_x**2 + rise_y**2), resolution=0.01,
                meaning="lean of the machine as its feet give way",
                because="the plane through the three sunk feet: its slopes along x and y, together")  # fmt: skip
tips = [
    M.relation(
        f"tip_{i + 1}",
        f"P_{{{i + 1}}}",
        "N",
        F[i] * A / (H * sp.sqrt((p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2)),
        resolution=1,
        meaning=f"push that lifts foot {i + 1}",
        because="push times height is then the foot's weight times its arm, the height of the triangle over the "
        "other two",
    )
    for i, (p, q) in enumerate(edges)
]
tip = M.result("tip", r"P_{\mathrm{tip}}", "N", sp.Min(*tips), resolution=1, meaning="push that lifts the first foot",
               because="the machine tips over the side that resists least",
               lines=[(sp.Min(*(W * opposite(feet, i, (X, Y)) / (H * sp.sqrt((p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2))
                                for i, (p, q) in enumerate(edges))),
                       "also weight times the center's distance from that side, over the height")])  # fmt: skip

M.limit("stands", "work pushes with", value=P, allowed=tip, in_unit="N",
        mend="move the feet apart, push lower down, or bolt the machine to its bench")  # fmt: skip
M.limit("lean", "the feet let the machine lean by", value=lean, allowed=allowed,
        mend="use stiffer feet, or make the pads higher where the machine sinks more")  # fmt: skip
M.caution(*HEAVY_MACHINE)
M.caution(
    "The center of mass lies outside the feet: the machine falls over. Do not let go of it.",
    when=sp.Lt(sp.Min(*F), 0),
)
M.caution("A machine that can be pushed over must be bolted down before it is used.", when=sp.Gt(P, tip))
MODEL = M.done()
