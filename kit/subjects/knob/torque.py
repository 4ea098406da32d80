"""How hard does a hand turn a knob, and with what force does its screw then clamp?

The question in the trade's words: with a knob of this size on this stud, how many newtons press on the block: by a
strong hand and by a weak one, with a greased thread and a dry one?

The picture: a hand twists the knob. Half of the twist goes into rubbing between knob and washer, most of the rest
into rubbing on the flanks of the thread, and a tenth or so up the thread's slope: that is what pulls.

Assumptions: the study's torques hold for a knob of 50 mm and more; below, they shrink as in Replogle's study, whose
three points a square and a parabola join; friction is the same on the way; pressure is even under the knob; both
frictions go up and down together by the same part.

Sources: E. M. Replogle, Proc. Human Factors Society 27(5), 1983, 412 (knob size), via scilit.com; Y. C. Shih and
others 1997 (torques), by the table; elliptic over round handles, PMC8856563 (read); screw and collar: J. E. Shigley,
Mechanical Engineering Design, power screws, from memory; profile of the thread: ISO 68-1, from memory.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.knob.thread import pick_thread, state_thread, thread_limit
from kit.subjects.safety import KNOB

M = Model(
    "knob.torque",
    title="From the hand's torque to the clamp's force",
    question="How hard does a hand turn a knob of this size, and with what force does its screw then clamp?",
    picture="A hand twists a knob on a stud; the twist is spent on rubbing under the knob, rubbing on the thread's "
    "flanks and, for the smallest part, on pulling the stud up.",
    assumptions=(
        "the torque picked holds for a knob of 50 mm and does not grow beyond",
        "below, it falls to two thirds at 25 mm, then with the square of the diameter",
        "a lobed knob gains over a smooth round one as an elliptic handle does",
        "friction is the same all the way, and pressure is even under the knob",
        "threads of 60°, as ISO and unified threads have",
    ),
    sources=(
        "E. M. Replogle, Proc. Human Factors Society 27(5), 1983, 412: torque and diameter, via scilit.com",
        "elliptic handles 25 % over round ones: PMC8856563, abstract (read)",
        "J. E. Shigley, Mechanical Engineering Design: screw with collar, nut factor, from memory",
        "proof strength of class 4.8, 310 MPa: ISO 898-1, from memory",
    ),
)
hand = M.choice("hand", "i", ("man", "woman"), "woman", meaning="whose hand must be able to set it")
T_m = M.given("strength_men", "T_{m}", "N*m", 5.15, span=(0.5, 15), meaning="a man's greatest torque, knob of 50 mm",
              source="table of hand torques")  # fmt: skip
T_w = M.given("strength_women", "T_{w}", "N*m", 3.46, span=(0.5, 15),
    meaning="a woman's greatest torque, knob of 50 mm", source="table of hand torques")  # fmt: skip
D = M.given("knob_size", "D", "mm", 60, span=(9.5, 88.9), half=0.5, meaning="diameter of the knob", how="calipers",
            source="your choice, within the handles of the study")  # fmt: skip
f = M.given("shape", "f_{s}", "", 1.25, span=(1, 1.6), meaning="gain of the knob's shape over smooth and round",
            source="PMC8856563: elliptic over round, 25 %")  # fmt: skip
eta = M.given("effort", r"\eta", "%", 60, span=(5, 100), half=20,
    meaning="part of the greatest torque, as one tightens all day", how="weigh: spring scale at a lever",
    source="common practice, no source")  # fmt: skip
d, p = state_thread(M)
d_2 = M.given("pitch_diameter", "d_{2}", "mm", 7.188, span=(2.5, 19), meaning="pitch diameter",
    source="table of fasteners")  # fmt: skip
A_s = M.given(
    "stress_area", "A_{s}", "mm^2", 36.6, span=(4, 260), meaning="stress area", source="table of fasteners"
)
D_h = M.given("hole", "d_{h}", "mm", 9, span=(3, 22), meaning="hole through the washer's face",
    source="table of fasteners")  # fmt: skip
D_w = M.given("washer_size", "D_{w}", "mm", 24, span=(23, 80),
    meaning="outside of the face that rubs and presses", how="calipers")  # fmt: skip
mu = M.given("thread_friction", r"\mu", "", 0.15, span=(0.04, 0.4), half=0.05, meaning="friction in the thread",
             source="dry or lightly oiled steel, typical value, from memory")  # fmt: skip
mu_c = M.given("face_friction", r"\mu_{c}", "", 0.3, span=(0.04, 0.8), half=0.1,
    meaning="friction under the knob", how="tilt the pair of faces until one slides",
    source="waxed wood on steel, estimate, no source")  # fmt: skip
q = M.given("friction_spread", "q", "%", 30, span=(0, 60), meaning="how far both frictions may be off, either way",
            source="scatter of load at one torque, 30 %, via mobiletechengineering.com")  # fmt: skip
proof = M.given("proof", "S_{p}", "MPa", 310, span=(150, 900), meaning="proof strength of the stud",
                source="ISO 898-1, class 4.8, from memory")  # fmt: skip
bearing = M.given("wood_strength", r"f_{90}", "MPa", 10.14, span=(1, 40),
    meaning="pressure that the wood bears across its grain", source="table of woods")  # fmt: skip
M.pick("strength", table="hand_torques", row="smooth handwheel, precision grasp",
       fills={"strength_men": "men", "strength_women": "women"}, meaning="grip that was measured")  # fmt: skip
pick_thread(M, pitch_diameter="pitch_diameter", stress_area="stress_area", hole="clearance_hole")
M.pick("wood", table="woods", row="hard maple", fills={"wood_strength": "compression_across"},
    meaning="wood under the washer")  # fmt: skip
D_g = M.constant("grip_span", "D_{g}", "mm", 25, meaning="handle that fingers and palm just close round",
                 source="Replogle 1983: about 2.5 cm")  # fmt: skip
D_0 = M.constant("best_size", "D_{0}", "mm", 50, meaning="handle of greatest torque",
    source="Replogle 1983: about 5 cm")  # fmt: skip
gain = M.constant("best_gain", "g", "", 1.5, meaning="greatest torque over that at the grip span",
    source="Replogle 1983")  # fmt: skip
beta = M.constant("flank", r"\beta", "deg", 30, meaning="flank of the thread, from square to the axis",
    source="ISO 68-1")  # fmt: skip
x, r = sp.symbols("x r", positive=True)

size = M.relation("size_factor", "f_{D}", "",
    sp.Piecewise(((D / D_g) ** 2 / gain, sp.Le(D, D_g)),
        (1 - (1 - 1 / gain) * ((D_0 - D) / (D_0 - D_g)) ** 2, sp.Le(D, D_0)), (1, True)), resolution=0.01,
    meaning="part of the greatest torque that a knob of this size lets through",
    because="as the square up to the grip span, then level at the best size",
    lines=[(sp.Piecewise((sp.Integral(2 * x / (D_g**2 * gain), (x, 0, D)), sp.Le(D, D_g)),
                (1 - sp.Integral(2 * (1 - 1 / gain) * (D_0 - x) / (D_0 - D_g) ** 2, (x, D, D_0)), sp.Le(D, D_0)),
                (1, True)),
            "grip and lever both grow until the hand closes round; from there the growth dies off to none")],
)  # fmt: skip
T = M.result("hand_torque", "T", "N*m", eta * f * size * sp.Piecewise((T_m, sp.Eq(hand, 0)), (T_w, True)),
    resolution=0.01, meaning="torque at the knob",
    because="the study's torque, for this size, shape and effort")  # fmt: skip
lead = M.relation("lead", r"\lambda", "deg", sp.atan(p / (sp.pi * d_2)), resolution=0.01,
    meaning="slope of the thread",
    because="a turn unrolled is as long as the pitch circle and rises by the pitch")  # fmt: skip
rho = M.relation("friction_angle", r"\varrho", "deg", sp.atan(mu / sp.cos(beta)), resolution=0.01,
    meaning="friction angle of the thread", because="leaning flanks press harder by one over the cosine")  # fmt: skip
d_m = M.relation("rub_diameter", "d_{m}", "mm", (D_w + D_h) / 2, meaning="mean diameter of the rubbing face",
    resolution=0.1, because="the rubbing is taken at the middle of the ring")  # fmt: skip
arm = M.result(
    "arm", r"\ell", "mm", d_2 / 2 * sp.tan(lead + rho) + mu_c * d_m / 2, resolution=0.01,
    meaning="torque over clamp force", because="thread and face rub on their radii, both for a unit force",
    lines=[(d_2 / 2 * (p + sp.pi * mu / sp.cos(beta) * d_2) / (sp.pi * d_2 - mu / sp.cos(beta) * p) + mu_c * d_m / 2,
            "with the tangents of both angles written out")],
)  # fmt: skip


def arm_at(factor: sp.Expr) -> sp.Expr:
    """Return the torque over the force when both frictions are `factor` times as large."""
    return d_2 / 2 * sp.tan(lead + sp.atan(factor * mu / sp.cos(beta))) + factor * mu_c * d_m / 2


arm_low = M.result("arm_low", r"\ell_{1}", "mm", arm_at(1 - q), resolution=0.01,
    because="both frictions at their least", meaning="torque over clamp force, slippery")  # fmt: skip
arm_high = M.result("arm_high", r"\ell_{2}", "mm", arm_at(1 + q), resolution=0.01,
    because="both frictions at their greatest", meaning="torque over clamp force, rough")  # fmt: skip
K = M.result(
    "nut_factor", "K", "", arm / d, resolution=0.001, meaning="nut factor", because="handbooks write T = K F d",
    lines=[(d_2 / (2 * d) * sp.tan(lead + rho) + mu_c * d_m / (2 * d), "it sums up slope, thread and face")],
)  # fmt: skip
F = M.result(
    "axial_force", "F", "N", T / arm, meaning="clamp force", resolution=1, because="torque over its arm",
    lines=[(T / (K * d), "or by the nut factor")],
)  # fmt: skip
least = M.result("axial_low", "F_{1}", "N", T / arm_high, meaning="clamp force, rough", resolution=1,
    because="the longer arm")  # fmt: skip
most = M.result("axial_high", "F_{2}", "N", T / arm_low, meaning="clamp force, slippery", resolution=1,
    because="the shorter arm")  # fmt: skip
M.result("efficiency", r"\varepsilon", "%", p / (2 * sp.pi * arm), meaning="part of the work that clamps",
    resolution=0.1, because="the force rises by the pitch in a turn",
    lines=[(F * p / (2 * sp.pi * T), "work out over work in, for a turn")])  # fmt: skip
stress = M.result("stud_stress", r"\sigma", "MPa", most / A_s, meaning="pull in the stud, slippery", resolution=0.1,
                  because="force over stress area")  # fmt: skip
pressure = M.result("pressure", r"p_{w}", "MPa", most / (sp.pi / 4 * (D_w**2 - D_h**2)),
    meaning="pressure under the washer, slippery", resolution=0.01, because="force over the ring",
    lines=[(most / sp.Integral(2 * sp.pi * r, (r, D_h / 2, D_w / 2)), "ring upon ring, from the hole outward")],
)  # fmt: skip
off = M.relation("thread_off", r"\Delta d_{2}", "mm", sp.Abs(d_2 - (d - 3 * sp.sqrt(3) / 8 * p)),
    resolution=0.001, meaning="how far the pitch diameter is from what diameter and pitch ask for",
    source="ISO 68-1",
    because="the flanks' triangle is √3/2 pitches high; the pitch line lies 3/8 of it below the crest, on "
        "each side")  # fmt: skip
M.limit("thread", "the pitch diameter is off by", value=off, allowed=p / 20,
    mend="take the whole thread from one row of the table")  # fmt: skip
thread_limit(M, d, p)
M.limit("stud", "the stud is pulled by", value=stress, allowed=sp.Rational(3, 4) * proof,
    mend="take a thicker or stronger stud")  # fmt: skip
M.limit("bearing", "the wood is pressed with", value=pressure, allowed=bearing,
    mend="use a larger washer or harder wood")  # fmt: skip
M.caution(*KNOB)
M.caution("Beyond 50 mm the study shows no more torque; the figure stays level there.", when=sp.Gt(D, D_0))
M.caution("One hand in two is weaker than the mean: let the weakest user try it.")
M.caution("The screw does not hold itself: slope beats friction.", when=sp.Gt(lead, rho))
MODEL = M.done()
