"""From the hand's torque to the clamp's force.

How hard does a hand turn a knob of this size, and with what force does its screw then clamp?

In the trade's words: with a knob of this size on this stud, how many newtons press on the block: by a strong hand and
by a weak one, with a greased thread and a dry one?

Picture: A hand twists a knob on a stud; the twist is spent on rubbing under the knob, rubbing on the thread's flanks
and, for the smallest part, on pulling the stud up.

Assumptions:
- the torque picked, measured on a knob whose size is not stated, holds for one of 50 mm and does not grow beyond
- below, it falls to two thirds at 25 mm, then with the square of the diameter
- a lobed knob gains over a smooth round one as an elliptic handle does
- friction is the same all the way, and pressure is even under the knob
- threads of 60°, as ISO and unified threads have

Sources:
- J. G. Kreifeldt, Proc. Human Factors Society 29(3), 1985: men on a product knob, 36 in-lbf (read)
- E. M. Replogle, Proc. Human Factors Society 27(5), 1983, 412: torque and diameter
- elliptic handles 25 % over round ones: PMC8856563, abstract (read)
- J. E. Shigley, Mechanical Engineering Design: screw with collar, nut factor, from memory
- proof strength of class 4.8, 310 MPa: ISO 898-1, from memory

Notes: Half of the twist goes into rubbing between knob and washer, most of the rest into rubbing on the flanks of the
thread, and a tenth or so up the thread's slope: that is what pulls. Below, they shrink as in Replogle's study, whose
three points a square and a parabola join. A woman's torque is 40 % (Replogle) to 66 % (Y. C. Shih and others, Human
Factors 39(3), 1997) of a man's. Torques of handwheels, some 210 mm across, say nothing of a knob and are not used. Both
frictions go up and down together by the same part. Profile of the thread: ISO 68-1, from memory.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.knob.thread import pick_thread, state_thread, thread_limit
from kit.subjects.safety import KNOB

M = Model("knob.torque", __doc__)
hand = M.choice("hand", "i", ("man", "woman"), "woman", "whose hand must be able to set it")
T_m = M.given("strength_men", "T_{m}", "4.07 N*m", (0.5, 15), "a man's greatest torque, knob of 50 mm")
M.source("table of hand torques")
T_w = M.given("strength_women", "T_{w}", "2.15 ± 0.56 N*m", (0.5, 15), "a woman's greatest torque, knob of 50 mm")
M.source("table of hand torques")
D = M.given("knob_size", "D", "60 ± 0.5 mm", (9.5, 88.9), "diameter of the knob")
M.measured("calipers; within the handles of the study")
f = M.given("shape", "f_{s}", "1.25", (1, 1.6), "gain of the knob's shape over smooth and round")
M.source("PMC8856563: elliptic over round, 25 %")
eta = M.given("effort", r"\eta", "60 ± 20 %", (5, 100), "part of the greatest torque, as one tightens all day")
M.measured("weigh: spring scale at a lever")
M.source("common practice, no source")
d, p = state_thread(M)
d_2 = M.given("pitch_diameter", "d_{2}", "7.188 mm", (2.5, 19), "pitch diameter", resolution=0.001)
M.source("table of fasteners")
A_s = M.given("stress_area", "A_{s}", "36.6 mm^2", (4, 260), "stress area")
M.source("table of fasteners")
D_h = M.given("hole", "d_{h}", "9 mm", (3, 22), "hole through the washer's face")
M.source("table of fasteners")
D_w = M.given("washer_size", "D_{w}", "24 mm", (23, 80), "outside of the face that rubs and presses")
M.measured("calipers")
mu = M.given("thread_friction", r"\mu", "0.15 ± 0.05", (0.04, 0.4), "friction in the thread")
M.source("dry or lightly oiled steel, typical value, from memory")
mu_c = M.given("face_friction", r"\mu_{c}", "0.3 ± 0.1", (0.04, 0.8), "friction under the knob")
M.measured("tilt the pair of faces until one slides")
M.source("waxed wood on steel, estimate, no source")
q = M.given("friction_spread", "q", "30 %", (0, 60), "how far both frictions may be off, either way")
M.source("scatter of load at one torque, 30 %, via mobiletechengineering.com")
proof = M.given("proof", "S_{p}", "310 MPa", (150, 900), "proof strength of the stud")
M.source("ISO 898-1, class 4.8, from memory")
bearing = M.given("wood_strength", r"f_{90}", "10.14 MPa", (1, 40), "pressure that the wood bears across its grain")
M.source("table of woods")
M.pick(
    "strength",
    "hand_torques",
    "product knob",
    {"strength_men": "men", "strength_women": "women"},
    "grip that was measured",
)
pick_thread(M, pitch_diameter="pitch_diameter", stress_area="stress_area", hole="clearance_hole")
M.pick("wood", "woods", "hard maple", {"wood_strength": "compression_across"}, "wood under the washer")
D_g = M.constant(
    "grip_span", "D_{g}", "25 mm", "handle that fingers and palm just close round", "Replogle 1983: about 2.5 cm"
)
D_0 = M.constant("best_size", "D_{0}", "50 mm", "handle of greatest torque", "Replogle 1983: about 5 cm")
gain = M.constant("best_gain", "g", "1.5", "greatest torque over that at the grip span", "Replogle 1983")
beta = M.constant("flank", r"\beta", "30 deg", "flank of the thread, from square to the axis", "ISO 68-1")
x, r = sp.symbols("x r", positive=True)

size = M.relation(
    "size_factor", "f_{D}", "", "part of the greatest torque that a knob of this size lets through", resolution=0.01
)
M.step(
    sp.Piecewise(
        (sp.Integral(2 * x / (D_g**2 * gain), (x, 0, D)), sp.Le(D, D_g)),
        (1 - sp.Integral(2 * (1 - 1 / gain) * (D_0 - x) / (D_0 - D_g) ** 2, (x, D, D_0)), sp.Le(D, D_0)),
        (1, True),
    ),
    "grip and lever both grow until the hand closes round; from there the growth dies off to none",
)
M.equals(
    sp.Piecewise(
        ((D / D_g) ** 2 / gain, sp.Le(D, D_g)),
        (1 - (1 - 1 / gain) * ((D_0 - D) / (D_0 - D_g)) ** 2, sp.Le(D, D_0)),
        (1, True),
    ),
    "as the square up to the grip span, then level at the best size",
)
T = M.result("hand_torque", "T", "N*m", "torque at the knob", resolution=0.01)
M.equals(
    eta * f * size * sp.Piecewise((T_m, sp.Eq(hand, 0)), (T_w, True)),
    "the study's torque, for this size, shape and effort",
)
lead = M.relation("lead", r"\lambda", "deg", "slope of the thread", resolution=0.01)
M.equals(sp.atan(p / (sp.pi * d_2)), "a turn unrolled is as long as the pitch circle and rises by the pitch")
rho = M.relation("friction_angle", r"\varrho", "deg", "friction angle of the thread", resolution=0.01)
M.equals(sp.atan(mu / sp.cos(beta)), "leaning flanks press harder by one over the cosine")
d_m = M.relation("rub_diameter", "d_{m}", "mm", "mean diameter of the rubbing face", resolution=0.1)
M.equals((D_w + D_h) / 2, "the rubbing is taken at the middle of the ring")
arm = M.result("arm", r"\ell", "mm", "torque over clamp force", resolution=0.01)
M.step(
    d_2 / 2 * (p + sp.pi * mu / sp.cos(beta) * d_2) / (sp.pi * d_2 - mu / sp.cos(beta) * p) + mu_c * d_m / 2,
    "with the tangents of both angles written out",
)
M.equals(d_2 / 2 * sp.tan(lead + rho) + mu_c * d_m / 2, "thread and face rub on their radii, both for a unit force")


def arm_at(factor: sp.Expr) -> sp.Expr:
    """Return the torque over the force when both frictions are `factor` times as large."""
    return d_2 / 2 * sp.tan(lead + sp.atan(factor * mu / sp.cos(beta))) + factor * mu_c * d_m / 2


arm_low = M.result("arm_low", r"\ell_{1}", "mm", "torque over clamp force, slippery", resolution=0.01)
M.equals(arm_at(1 - q), "both frictions at their least")
arm_high = M.result("arm_high", r"\ell_{2}", "mm", "torque over clamp force, rough", resolution=0.01)
M.equals(arm_at(1 + q), "both frictions at their greatest")
K = M.result("nut_factor", "K", "", "nut factor", resolution=0.001)
M.step(d_2 / (2 * d) * sp.tan(lead + rho) + mu_c * d_m / (2 * d), "it sums up slope, thread and face")
M.equals(arm / d, "handbooks write T = K F d")
F = M.result("axial_force", "F", "N", "clamp force", resolution=1)
M.step(T / (K * d), "or by the nut factor")
M.equals(T / arm, "torque over its arm")
least = M.result("axial_low", "F_{1}", "N", "clamp force, rough", resolution=1)
M.equals(T / arm_high, "the longer arm")
most = M.result("axial_high", "F_{2}", "N", "clamp force, slippery", resolution=1)
M.equals(T / arm_low, "the shorter arm")
M.result("efficiency", r"\varepsilon", "%", "part of the work that clamps", resolution=0.1)
M.step(F * p / (2 * sp.pi * T), "work out over work in, for a turn")
M.equals(p / (2 * sp.pi * arm), "the force rises by the pitch in a turn")
stress = M.result("stud_stress", r"\sigma", "MPa", "pull in the stud, slippery", resolution=0.1)
M.equals(most / A_s, "force over stress area")
pressure = M.result("pressure", r"p_{w}", "MPa", "pressure under the washer, slippery", resolution=0.01)
M.step(most / sp.Integral(2 * sp.pi * r, (r, D_h / 2, D_w / 2)), "ring upon ring, from the hole outward")
M.equals(most / (sp.pi / 4 * (D_w**2 - D_h**2)), "force over the ring")
off = M.relation(
    "thread_off",
    r"\Delta d_{2}",
    "mm",
    "how far the pitch diameter is from what diameter and pitch ask for",
    resolution=0.001,
)
M.equals(
    sp.Abs(d_2 - (d - 3 * sp.sqrt(3) / 8 * p)),
    "the flanks' triangle is √3/2 pitches high; the pitch line lies 3/8 of it below the crest, on each side",
)
M.source("ISO 68-1")
M.limit("thread", "the pitch diameter is off by", off, "<=", p / 20)
M.mend("take the whole thread from one row of the table")
thread_limit(M, d, p)
M.limit("stud", "the stud is pulled by", stress, "<=", sp.Rational(3, 4) * proof)
M.mend("take a thicker or stronger stud")
M.limit("bearing", "the wood is pressed with", pressure, "<=", bearing)
M.mend("use a larger washer or harder wood")
M.caution(*KNOB)
M.caution("Beyond 50 mm the study shows no more torque; the figure stays level there.", when=sp.Gt(D, D_0))
M.caution("One hand in two is weaker than the mean: let the weakest user try it.")
M.caution("The screw does not hold itself: slope beats friction.", when=sp.Gt(lead, rho))
MODEL = M.done()
