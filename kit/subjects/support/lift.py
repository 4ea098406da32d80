"""Lifting it by hand.

May one person lift this, or how many does it take?

In the trade's words: the saw goes up onto its bench, the hood comes off for a blade change. How heavy may it be, so far
from the body, from so low, by that handle, and what do two of us manage?

Picture: From the side: a person stands before the load; the hands hold it so far before the ankles, and lift it from
one height to another.

Assumptions:
- lifts are few and far between: at most one in five minutes, for less than an hour
- smooth, with two hands, standing on firm ground, with room to move; nobody carries it far
- grown, healthy people; the load is not hot, not moving, and hides no sight of the floor
- people who lift together are alike, lift together, and each has a hold

Sources:
- NIOSH, Applications Manual for the Revised Lifting Equation, publication 94-110; the equation in its metric form read
  in Fundamentals and Assessment Tools for Occupational Ergonomics, section 46.2.1
- HSE, guidance to the Manual Handling Operations Regulations 1992: what a team manages, read as quoted in a railway's
  safety pages

Notes: A recommendation for work, no proof of safety. What hurts is too heavy, whatever the number says.
"""

import sympy as sp

from kit.core.lists import ONE_PERSON, TEAM
from kit.core.model import Model
from kit.subjects.safety import LIFTING

M = Model("support.lift", __doc__)
EQUATION = "NIOSH 94-110, as read in Occupational Ergonomics, section 46.2.1"
m = M.given("mass", "m", "15 ± 0.5 kg", (0.1, 500), "what is lifted")
M.measured("bathroom scale: with it in your arms, less you alone")
people = M.choice("people", "n", ("one", "two", "three"), "two", "how many lift it together")
H = M.given("reach", "H", "400 ± 30 mm", (100, 630), "from between the ankles to between the hands, level")
M.measured("tape on the floor below the hands")
V = M.given("height", "V", "700 ± 20 mm", (0, 1750), "height of the hands where the lift begins")
M.measured("tape")
D = M.given("travel", "D", "250 ± 20 mm", (0, 1750), "how far up or down it is lifted")
M.measured("tape")
A = M.given("turn", "A", "0 deg", (0, 135), "how far the body turns with it, from straight ahead")
hold = M.choice("hold", "c", ("handles", "edges", "poor"), "edges", "what the hands hold")
LC = M.given(
    "best", r"m_{0}", f"{1000 * ONE_PERSON:g} kg", (5, 25), "what one person may lift under the best conditions"
)
M.source(f"{EQUATION}; take less for pupils and for whoever has been ill")
near = M.constant("near", r"H_{0}", "250 mm", "nearest that hands are to the ankles", EQUATION)
easy = M.constant("easy", r"V_{0}", "750 mm", "height at which hands lift best", EQUATION)
slope = M.constant("per_height", "k_{V}", "0.0003 1/mm", "what a height off that costs", EQUATION)
short = M.constant("short", r"D_{0}", "250 mm", "travel below which none is counted", EQUATION)
part = M.constant("per_travel", r"k_{D}", "45 mm", "what travel costs", EQUATION)
highest = M.constant("highest", r"V_{\mathrm{max}}", "1750 mm", "height above which hands do not lift", EQUATION)
twist = M.constant("per_turn", r"k_{A}", "0.0032 1/deg", "what turning costs", EQUATION)

HM = M.result("reach_factor", r"f_{H}", "", "what the reach leaves", resolution=0.01)
M.equals(near / sp.Max(near, H), "twice as far out, half as much")
VM = M.result("height_factor", r"f_{V}", "", "what the height leaves", resolution=0.01)
M.equals(1 - slope * sp.Abs(V - easy), "knuckle height is best; lower and higher cost alike")
DM = M.result("travel_factor", r"f_{D}", "", "what the travel leaves", resolution=0.01)
M.equals(sp.Rational(82, 100) + part / sp.Max(short, D), "a long lift costs up to a sixth")
AM = M.result("turn_factor", r"f_{A}", "", "what turning leaves", resolution=0.01)
M.equals(1 - twist * A, "square before the load is best")
CM = M.result("hold_factor", r"f_{c}", "", "what the hold leaves", resolution=0.01)
low = sp.Lt(V, easy)
M.equals(
    sp.Piecewise(
        (1, sp.Eq(hold, 0)),
        (sp.Rational(90, 100), sp.Eq(hold, 2)),
        (sp.Rational(95, 100), sp.And(sp.Eq(hold, 1), low)),
        (1, True),
    ),
    "handles cost nothing, edges something below knuckle height, a poor hold a tenth",
)
alone = M.result("alone", r"m_{1}", "kg", "what one person may lift so", resolution=0.1)
M.step(
    LC * near * (1 - twist * A) * VM * DM * CM / sp.Max(near, H), "reach and turn in full, the others as worked above"
)
M.equals(LC * HM * VM * DM * AM * CM, "each makes it less, and they multiply")
M.mistake(LC, "the 23 kg of the best conditions were taken for any lift")
M.mistake(LC * H / near * VM * DM * AM * CM, "the reach was put in upside down")
share = M.relation("share", "s", "", "how much more people manage together", resolution=0.01)
M.equals(
    sp.Piecewise(*((sp.Rational(each), sp.Eq(people, k)) for k, each in enumerate(TEAM[:-1])), (TEAM[-1], True)),
    "two manage two thirds of what both manage alone, three a half",
)
M.source("HSE, guidance to the Manual Handling Operations Regulations 1992, on team handling")
M.mistake(people + 1, "people were counted as if each managed as much together as alone")
most = M.result("together", r"m_{\mathrm{max}}", "kg", "what so many may lift so", resolution=0.1)
M.equals(share * alone, "for people who are alike")
M.result("index", r"\lambda", "", "load over what is recommended", resolution=0.01)
M.equals(m / most, "above 1 some people are at risk, above 3 many are")

M.limit("mass", "the load is", m, "<=", most)
M.mend("come nearer, lift from knuckle height, give it handles, take another person or a hoist")
M.limit("travel", "it is lifted by", D, "<=", sp.Max(V, highest - V))
M.mend("measure again: so far, the lift would end below the floor or above reach")
M.caution(*LIFTING)
M.caution("More than one lifts: one gives the word, and all have a hold of their own.", when=sp.Gt(people, 0))
MODEL = M.done()
