"""Taken away and put back: how far from its old place does the machine land, at the blade?

The question in the trade's words: pads with lips hold the machine by its feet, with a little clearance so that it
can be lifted out. How far can the cut shift, how far can the blade turn, each time the machine comes back?

The picture, from above: two pads with lips stand the distance D apart along x. Each foot may lie anywhere in its
clearance. The blade is the distance R from the middle between the pads, along the same line, and S beside it. If both
feet move alike the machine shifts; if one moves up and the other down, it twists. Pushed home against the lips each
time, only dust and burrs are left of the clearance.

Assumptions: feet and lips are stiff and square; any place within the clearance is as likely as any other; the two
feet land independently; the twist is small.

Sources: plane kinematics of a rigid body; JCGM 100:2008 (GUM), 4.3.7 (rectangular) and 5.1.2.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import HEAVY_MACHINE

M = Model(
    "level.register",
    title="Coming back to the same place",
    question="How far can the cut shift and the blade turn when a machine is taken away and put back?",
    picture="From above: two pads with lips stand apart along x, each foot free within its clearance; the blade is off "
    "the middle between them, along the line of the pads and beside it.",
    assumptions=(
        "feet and lips are stiff and square",
        "any place within the clearance is as likely as any other, and the two feet land independently",
        "the twist is small",
    ),
    sources=(
        "plane kinematics of a rigid body: a small turn about a point plus a shift",
        "JCGM 100:2008 (GUM), 4.3.7 and 5.1.2: rectangular errors, independent errors",
    ),
)
way = M.choice("way", "w", ("dropped in", "pushed home"), "pushed home",
               meaning="how the machine is put back: anywhere in the clearance, or against the lips")  # fmt: skip
c_0 = M.given("clearance", r"c_{0}", "mm", 0.6, span=(0, 5), half=0.1,
              meaning="clearance between foot and lips, both sides together", how="feeler gauges")  # fmt: skip
c_1 = M.given("dirt", r"c_{1}", "mm", 0.1, span=(0, 2), half=0.05,
              meaning="what dust, burrs and soft feet leave when the machine is pushed home",
              how="put it back ten times, dial gauge")  # fmt: skip
D = M.given(
    "apart", "D", "mm", 420, span=(50, 2000), half=1, meaning="between the two pads, along x", how="tape"
)
R = M.given(
    "along", "R", "mm", 60, span=(-1500, 1500), half=1,
    meaning="blade from the middle between the pads, along x", how="tape",
)  # fmt: skip
S = M.given(
    "beside", "S", "mm", 150, span=(-1500, 1500), half=1, meaning="blade beside the line of the pads",
    how="tape",
)  # fmt: skip
L = M.given("cut", "L", "mm", 300, span=(10, 1500), half=1, meaning="length of the cut", how="tape")
allowed = M.given(
    "allowed", r"s_{\mathrm{max}}", "mm", 0.3, span=(0.01, 5), meaning="shift of the cut that you can allow"
)
square = M.given("square_allowed", r"q_{\mathrm{max}}", "mm", 0.15, span=(0.01, 5),
                 meaning="out of square over the cut that you can allow")  # fmt: skip
v = sp.Symbol("v", real=True)

c = M.relation("play", "c", "mm", sp.Piecewise((c_0, sp.Eq(way, 0)), (c_1, True)), resolution=0.01,
               because="pushed home, the clearance itself does not count", meaning="play that counts")  # fmt: skip
near = M.relation("near", r"\lambda_{1}", "", sp.Rational(1, 2) - R / D, resolution=0.01,
                  because="the far foot has no part in a place over the near one",
                  meaning="part of the first foot's movement at the blade")  # fmt: skip
one, two = sp.symbols("y_1 y_2", real=True)
far = M.relation("far", r"\lambda_{2}", "", sp.Rational(1, 2) + R / D, resolution=0.01,
                 because="what the one foot has not, the other has",
                 meaning="part of the second foot's movement at the blade",
                 lines=[(1 - near, "the parts are one in all"),
                        (equal(-near * D / 2 + sp.Symbol("far", real=True) * D / 2, R),
                        "and weigh the feet's places to the blade's")])  # fmt: skip
shift = M.result("shift", r"s_{y}", "mm", c / 2 * (sp.Abs(near) + sp.Abs(far)), resolution=0.01,
                 meaning="largest shift at the blade across the line of the pads, either way",
                 because="each foot moves half the play either way; the worst is both to the blade's harm",
                 lines=[(c / 2 * sp.Max(1, 2 * sp.Abs(R) / D),
                         "between the pads that is half the play; beyond them it grows as a lever")])  # fmt: skip
twist = M.result("twist", r"\theta", "deg", c / D, resolution=0.001, meaning="largest turn of the blade, either way",
                 because="one foot half the play up, the other half the play down, over their distance")  # fmt: skip
beside = M.result("shift_x", r"s_{x}", "mm", c / 2 + twist * sp.Abs(S), resolution=0.01,
                  meaning="largest shift at the blade along the line of the pads, either way",
                  because="both feet move together along their line, and a turn swings the blade by its distance "
                  "beside it")  # fmt: skip
out = M.result("out_of_square", "q", "mm", twist * L, resolution=0.01,
               meaning="largest error of squareness over the cut",
               because="the turn times the length of the cut")  # fmt: skip
u_foot = M.relation("u_foot", r"u_{\mathrm{f}}", "mm", c / sp.sqrt(12), resolution=0.001, source="JCGM 100:2008, 4.3.7",
                    because="a rectangular distribution over the play",
                    meaning="standard uncertainty of a foot's place",
                    lines=[(equal(sp.Symbol("u_foot", real=True) ** 2 * c, sp.Integral(v**2, (v, -c / 2, c / 2))),
                            "the mean square distance from the middle of the play")])  # fmt: skip
M.result("u_shift", r"u_{y}", "mm", u_foot * sp.sqrt(near**2 + far**2), resolution=0.001, source="JCGM 100:2008, 5.1.2",
         meaning="standard uncertainty of the shift at the blade",
         because="the two feet land independently, each with its part",
         lines=[(u_foot * sp.sqrt(sp.Rational(1, 2) + 2 * R**2 / D**2),
         "least between the pads, in their middle")])  # fmt: skip
M.result("u_square", r"u_{q}", "mm", sp.sqrt(2) * u_foot * L / D, resolution=0.001, source="JCGM 100:2008, 5.1.2",
         meaning="standard uncertainty of squareness over the cut",
         because="the difference of two independent feet turns the blade")  # fmt: skip

M.limit("shift", "put back, the cut shifts by up to", value=sp.Max(shift, beside), allowed=allowed, in_unit="mm",
        resolution=0.01,
        mend="push the machine home against the lips, keep them clean, or make the clearance smaller")  # fmt: skip
M.limit("square", "over the cut, squareness changes by up to", value=out, allowed=square,
        mend="set the pads farther apart or make the clearance smaller")  # fmt: skip
M.caution(*HEAVY_MACHINE)
M.caution(
    "Check the fence against the blade after each return: lips bring the machine near its place, a square proves it."
)
M.caution("Without a clearance the machine jams in its lips as the shop gets damp: leave at least a card's thickness.",
          when=sp.Le(c_0, 0))  # fmt: skip
MODEL = M.done()
