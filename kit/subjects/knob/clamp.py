"""How tight is tight enough.

Between which torques does the stop neither slip at a bump nor spoil nut, track or screws?

In the trade's words: the knob clamps the stop block on its track. A board slides into the stop: does it stay? And if
someone leans into the knob: what gives first, the wood round the nut, the lips of the track or the screws that hold the
track?

Picture: Cut across the track: the bolt's head hangs under the lips, the nut sits on the knob's plies, screws hold the
track in the bench; a board bumps into the stop from the side.

Assumptions:
- the board's whole motion bends the stop, so the bump is overrated
- slip is judged at the roughest screw and the least friction, damage at the most slippery screw
- each lip is a plate held at its root; the head's force spreads along it at 45°
- the plug below the nut shears all round at the strength along the grain: an estimate
- screws or prongs sit in side grain, pull straight and share evenly

Sources:
- S. P. Timoshenko, Strength of Materials: impact, plate strip, from memory

Notes: The board comes from the side and is stopped over a short way by the stop's stiffness. On a scale of torque,
slipping ends where damage has not yet begun: or it does not. Also: Wood Handbook, FPL-GTR-190, equations 8-1 (nails),
8-10 (wood screws), 8-14 (lag screws), from memory: all ultimate values, side grain. Two bases are in print for nails:
54.12 MPa (7,850 psi) goes with the gravity on the volume at 12 % moisture, as the table of woods has it; 47.57 MPa
(6,900 psi, FPL Research Note FPL-093, 1965) with that on the ovendry volume, which is larger. Never mix them.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import KNOB

HANDBOOK = "Wood Handbook, FPL-GTR-190, equations 8-1, 8-10 and 8-14, from memory"

M = Model("knob.clamp", __doc__, sources=(HANDBOOK,))
T = M.given("torque", "T", "2.6 ± 0.8 N*m", (0.1, 15), "torque at the knob")
M.measured("spring scale at a lever")
arm_1 = M.given("arm_low", r"\ell_{1}", "2.4 mm", (0.5, 6), "torque over clamp force, slippery")
M.source("'From the hand's torque to the clamp's force'")
arm_2 = M.given("arm_high", r"\ell_{2}", "4.2 mm", (1, 12), "torque over clamp force, rough")
M.source("'From the hand's torque to the clamp's force'")
mu = M.given("friction", r"\mu", "0.25", (0.05, 1.2), "friction under the block, the low end of what is known")
M.measured("tilt the pair of faces until one slides, ten times, and take the least")
M.source("table of friction")
mass = M.given("mass", "m", "3 ± 1 kg", (0.05, 60), "the board that bumps")
M.measured("scale")
speed = M.given("speed", "v", "0.15 ± 0.05 m/s", (0.01, 2), "its speed at the stop")
M.measured("way over time, by a watch")
k = M.given("stiffness", "k", "40 ± 10 N/mm", (1, 3000), "push over movement of the stop where it is hit")
M.measured("spring scale and dial gauge, or 'Tip error of a long stop block'")
nu = M.given("safety", r"\nu", "3", (1, 6), "factor kept from what breaks wood")
M.source("common practice, no source")
D_s = M.given("seat", "D_{s}", "15 mm", (5, 60), "diameter of what presses on the knob's plies")
M.measured("nut or washer")
d_h = M.given("hole", "d_{h}", "9 mm", (3, 24), "hole through those plies")
M.measured("calipers")
b = M.given("foot", "b", "12 mm", (2, 60), "thickness of those plies")
M.measured("calipers")
tau = M.given("shear_strength", r"\tau", "16.06 MPa", (2, 25), "shear strength of the plies' wood")
M.source("table of woods")
f_c = M.given("wood_strength", r"f_{90}", "10.14 MPa", (1, 40), "pressure that it bears across its grain")
M.source("table of woods")
t = M.given("lip", "t", "2.5 mm", (0.5, 12), "thickness of a lip of the track")
M.measured("calipers")
c = M.given("overhang", "c", "4 mm", (0.5, 20), "from the root of a lip to where the head presses")
M.measured("calipers")
B = M.given("head", "B", "14 mm", (4, 80), "length of the head along the track")
M.measured("calipers")
E = M.given("modulus", "E", "68.9 GPa", (5, 220), "elastic modulus of the track")
M.source("table of metals")
kappa = M.given("poisson", r"\nu_{P}", "0.33", (0, 0.45), "Poisson's ratio of the track")
M.source("table of metals")
f_y = M.given("yield_strength", "f_{y}", "145 MPa", (20, 700), "yield strength of the track")
M.source("table of metals")
kind = M.choice(
    "anchor",
    "j",
    ("nails or prongs", "wood screws", "lag screws"),
    "wood screws",
    "what holds the track, or a T-nut, in the wood",
)
n = M.count("screws", "n", 2, (1, 8), "screws or prongs that share the pull at the bolt")
D = M.given("screw_size", "D", "3.5 mm", (1, 12), "diameter of a screw or prong")
M.measured("calipers")
L = M.given("penetration", "L", "20 ± 1 mm", (3, 80), "length of its thread or shank in the wood")
M.measured("rule")
G = M.given("gravity", "G", "0.63", (0.28, 0.8), "specific gravity of the bench's wood, ovendry over 12 % volume")
M.source("table of woods")
M.pick("faces", "friction", "wood on wood, dry", {"friction": "low"}, "faces under the block")
M.pick(
    "knob_wood",
    "woods",
    "hard maple",
    {"shear_strength": "shear_along", "wood_strength": "compression_across"},
    "wood of the knob's plies",
)
M.pick(
    "track",
    "metals",
    "aluminum 6063-T5",
    {"modulus": "modulus", "poisson": "poisson", "yield_strength": "yield_strength"},
    "metal of the track",
)
M.pick("bench_wood", "woods", "hard maple", {"gravity": "specific_gravity"}, "wood of the bench")
p_n = M.constant(
    "nail_factor",
    "p_{n}",
    "54.12 MPa",
    "factor for nails, gravity on the volume at 12 % moisture",
    "equation 8-1, metric",
)
p_0 = M.constant(
    "nail_factor_dry",
    "p_{0}",
    "47.57 MPa",
    "factor for nails, gravity on the ovendry volume",
    "FPL Research Note FPL-093 (1965), 6,900 psi, from memory",
)
p_s = M.constant("screw_factor", "p_{s}", "108.25 MPa", "factor for wood screws", "equation 8-10, metric")
p_l = M.constant("lag_factor", r"p_{\ell}", "125.4 MPa", "factor for lag screws of 1 mm", "equation 8-14, metric")
mm = M.constant("millimeter", "D_{1}", "1 mm", "diameter for which that factor is stated", "a unit")
x = sp.Symbol("x", positive=True)

bump = M.result("bump", "F_{b}", "N", "greatest push of the bump", resolution=1)
M.step(
    equal(sp.Integral(k * x, (x, 0, bump / k)), mass * speed**2 / 2),
    "the stop gives way until its spring has taken up all of the motion",
)
M.equals(speed * sp.sqrt(k * mass), "solved for the push at the greatest travel, F over k")
give = M.result("give", r"\delta_{b}", "mm", "how far the stop gives at the bump", resolution=0.01)
M.step(speed * sp.sqrt(mass / k), "or the speed over the pace of swinging")
M.equals(bump / k, "push over stiffness")
need = M.result("force_needed", "F_{n}", "N", "clamp force that the bump needs", resolution=1)
M.equals(bump / mu, "friction must hold the whole push")
sure = M.result("clamp_force", "F", "N", "clamp force that is sure", resolution=1)
M.equals(T / arm_2, "the roughest screw gives least")
slip = M.result("slip_force", "F_{s}", "N", "push at which the block surely does not slip", resolution=1)
M.equals(mu * sure, "friction of one face holds it")
crush = M.result("crush_force", "F_{c}", "N", "force that dents the plies below the nut", resolution=1)
M.equals(f_c * sp.pi / 4 * (D_s**2 - d_h**2), "the ring under the nut bears its pressure")
plug = M.result(
    "plug_force", "F_{p}", "N", "force that the plug below the nut may carry, over an open hole", resolution=1
)
M.equals(
    tau * sp.pi * D_s * b / nu, "the nut would shear out a round plug: its edge times the plies, with the factor kept"
)
wide = M.relation("lip_width", "b_{e}", "mm", "length of lip that carries", resolution=0.1)
M.equals(B + 2 * c, "the force spreads at 45° to the root, on both sides of the head")
lip = M.result("lip_force", "F_{y}", "N", "clamp force at which the lips yield", resolution=1)
M.step(
    equal(lip / 2 * c, f_y * wide * t**2 / 6),
    "half the force on its arm is the moment at a root, and yield times the section's modulus bears it",
)
M.equals(f_y * wide * t**2 / (3 * c), "solved for the force")
M.source("beam theory")
most = M.relation("force_most", "F_{m}", "N", "clamp force that may be", resolution=1)
M.equals(T / arm_1, "the most slippery screw gives most")
M.result("lip_rise", r"\delta_{y}", "mm", "how far a lip bends up, at most", resolution=0.001)
M.step(
    sp.Integral(most / 2 * (c - x) ** 2 / (E / (1 - kappa**2) * wide * t**3 / 12), (x, 0, c)),
    "slice after slice, x from the root, bends by moment over stiffness and swings the edge on the arm that is left",
)
M.equals(
    2 * most * c**3 * (1 - kappa**2) / (E * wide * t**3), "a plate strip is stiffer than a bar, as it cannot narrow"
)
each = M.result("withdrawal", "F_{1}", "N", "ultimate pull of one screw or prong", resolution=1)
M.equals(
    sp.Piecewise(
        (p_n * G ** sp.Rational(5, 2) * D * L, sp.Eq(kind, 0)),
        (p_s * G**2 * D * L, sp.Eq(kind, 1)),
        (p_l * G ** sp.Rational(3, 2) * D * (D / mm) ** sp.Rational(-1, 4) * L, True),
    ),
    "tests fit these powers of gravity and diameter; the pull grows with the length",
)
M.source(HANDBOOK)
dry = M.relation("gravity_dry", "G_{0}", "", "the same wood's gravity on its ovendry volume", resolution=0.001)
M.equals(
    G / (1 - sp.Rational(106, 1000) * G),
    "from 12 % to none the volume shrinks in proportion to the gravity: by 0.265 G of the green volume in all, 0.6 of "
    "that down to 12 %",
)
M.source("Wood Handbook, FPL-GTR-190, chapter 4, relation of gravities, from memory")
M.result("nail_other", "F_{0}", "N", "ultimate pull of one nail or prong by the other basis in print", resolution=1)
M.equals(
    p_0 * dry ** sp.Rational(5, 2) * D * L,
    "the older factor goes with the gravity on the ovendry volume; mixed up, the two would be off by a fifth",
)
M.source("FPL Research Note FPL-093 (1965): 6,900 psi, from memory")
anchor = M.result("anchor_force", "F_{a}", "N", "pull that the screws may carry", resolution=1)
M.equals(n * each / nu, "they share evenly, with the factor kept")
damage = M.result("force_allowed", "F_{d}", "N", "clamp force that every part withstands", resolution=1)
M.equals(sp.Min(crush, plug, lip, anchor), "what is weakest decides")
low = M.result("torque_slip", "T_{1}", "N*m", "least torque: no slip, however rough the screw", resolution=0.01)
M.equals(arm_2 * need, "the longer arm asks for more torque")
high = M.result("torque_damage", "T_{2}", "N*m", "greatest torque: no damage, however slippery", resolution=0.01)
M.equals(arm_1 * damage, "the shorter arm makes more force")
M.result("window", "W", "", "greatest torque over least", resolution=0.01)
M.step(arm_1 / arm_2 * (damage / need), "the screw's spread eats into what the parts leave")
M.equals(high / low, "above 1 there is room between them")
M.limit("slip", "against the bump, the knob is turned by", T, ">=", low)
M.mend("tighten more, use rougher faces, or slow the board down")
M.limit("damage", "against damage, the knob is turned by", T, "<=", high)
M.mend("tighten less, or strengthen the weakest part")
M.limit("window", "the least torque is", low, "<=", high)
M.mend("use more screws, thicker lips, a larger washer or rougher faces")
M.limit("seat", "the hole in the plies is wide", d_h, "<=", D_s)
M.mend("put a washer under the nut")
M.caution(*KNOB)
M.caution("These formulas give ultimate values of clean wood: keep the factor, and pull-test a scrap joint.")
M.caution(
    "Prongs hold only while the pull seats them; a T-nut pulled from its own side works loose.", when=sp.Eq(kind, 0)
)
M.caution(
    "The bump alone moves the stop by more than half a millimeter: bring the board up slowly.", when=sp.Gt(give, mm / 2)
)
MODEL = M.done()
