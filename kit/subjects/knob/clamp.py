"""How tight is tight enough: between a stop that a board knocks away and a track, nut or wood that gives?

The question in the trade's words: the knob clamps the stop block on its track. A board slides into the stop: does it
stay? And if someone leans into the knob: what gives first, the wood round the nut, the lips of the track or the
screws that hold the track?

The picture, cut across the track: a bolt's head hangs under the two lips of the track, the nut sits on the plies of
the knob; screws hold the track down in the bench. The board comes from the side and is stopped over a short way by
the stop's stiffness. On a scale of torque, slipping ends where damage has not yet begun: or it does not.

Assumptions: the board's whole motion goes into bending the stop (nothing into the board, nothing kept from the
friction below it), so the bump is overrated; slipping is judged at the roughest screw, damage at the most slippery;
each lip is a cantilever plate that spreads the head's force at 45° and yields at its root; the plug is sheared
along the whole edge of the nut's seat at the strength along the grain; screws share evenly.

Sources: Wood Handbook, FPL-GTR-190, equations 8-1 (nails), 8-10 (wood screws), 8-14 (lag screws), from memory: all
ultimate values, side grain; energy of a bump and plate strip: S. P. Timoshenko, Strength of Materials, from memory.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import KNOB

HANDBOOK = "Wood Handbook, FPL-GTR-190, equations 8-1, 8-10 and 8-14, from memory"

M = Model(
    "knob.clamp",
    title="How tight is tight enough",
    question="Between which torques does the stop neither slip at a bump nor spoil nut, track or screws?",
    picture="Cut across the track: the bolt's head hangs under the lips, the nut sits on the knob's plies, screws "
    "hold the track in the bench; a board bumps into the stop from the side.",
    assumptions=(
        "the board's whole motion bends the stop, so the bump is overrated",
        "slip is judged at the roughest screw, damage at the most slippery",
        "each lip is a plate held at its root; the head's force spreads along it at 45°",
        "the plug below the nut shears all round at the strength along the grain: an estimate",
        "screws or prongs sit in side grain, pull straight and share evenly",
    ),
    sources=(HANDBOOK, "S. P. Timoshenko, Strength of Materials: impact, plate strip, from memory"),
)
T = M.given("torque", "T", "N*m", 2.6, span=(0.1, 15), half=0.8, meaning="torque at the knob",
    how="spring scale at a lever")  # fmt: skip
arm_1 = M.given("arm_low", r"\ell_{1}", "mm", 2.4, span=(0.5, 6), meaning="torque over clamp force, slippery",
                source="'From the hand's torque to the clamp's force'")  # fmt: skip
arm_2 = M.given("arm_high", r"\ell_{2}", "mm", 4.2, span=(1, 12), meaning="torque over clamp force, rough",
                source="'From the hand's torque to the clamp's force'")  # fmt: skip
mu = M.given("friction", r"\mu", "", 0.6, span=(0.05, 1.2), half=0.2, meaning="friction under the block",
             how="tilt the pair of faces until one slides", source="table of friction")  # fmt: skip
mass = M.given("mass", "m", "kg", 3, span=(0.05, 60), half=1, meaning="the board that bumps", how="scale")
speed = M.given("speed", "v", "m/s", 0.15, span=(0.01, 2), half=0.05, meaning="its speed at the stop",
    how="way over time, by a watch")  # fmt: skip
k = M.given("stiffness", "k", "N/mm", 40, span=(1, 3000), half=10,
    meaning="push over movement of the stop where it is hit",
    how="spring scale and dial gauge, or 'Tip error of a long stop block'")  # fmt: skip
nu = M.given("safety", r"\nu", "", 3, span=(1, 6), meaning="factor kept from what breaks wood",
    source="common practice, no source")  # fmt: skip
D_s = M.given("seat", "D_{s}", "mm", 15, span=(5, 60), meaning="diameter of what presses on the knob's plies",
    how="nut or washer")  # fmt: skip
d_h = M.given("hole", "d_{h}", "mm", 9, span=(3, 24), meaning="hole through those plies", how="calipers")
b = M.given("foot", "b", "mm", 12, span=(2, 60), meaning="thickness of those plies", how="calipers")
tau = M.given("shear_strength", r"\tau", "MPa", 16.06, span=(2, 25),
    meaning="shear strength of the plies' wood", source="table of woods")  # fmt: skip
f_c = M.given("wood_strength", r"f_{90}", "MPa", 10.14, span=(1, 40),
    meaning="pressure that it bears across its grain", source="table of woods")  # fmt: skip
t = M.given("lip", "t", "mm", 2.5, span=(0.5, 12), meaning="thickness of a lip of the track", how="calipers")
c = M.given("overhang", "c", "mm", 4, span=(0.5, 20),
    meaning="from the root of a lip to where the head presses", how="calipers")  # fmt: skip
B = M.given("head", "B", "mm", 14, span=(4, 80), meaning="length of the head along the track", how="calipers")
E = M.given("modulus", "E", "GPa", 68.9, span=(5, 220), meaning="elastic modulus of the track",
    source="table of metals")  # fmt: skip
kappa = M.given("poisson", r"\nu_{P}", "", 0.33, span=(0, 0.45), meaning="Poisson's ratio of the track",
    source="table of metals")  # fmt: skip
f_y = M.given("yield_strength", "f_{y}", "MPa", 145, span=(20, 700), meaning="yield strength of the track",
    source="table of metals")  # fmt: skip
kind = M.choice("anchor", "j", ("nails or prongs", "wood screws", "lag screws"), "wood screws",
                meaning="what holds the track, or a T-nut, in the wood")  # fmt: skip
n = M.count("screws", "n", 2, span=(1, 8), meaning="screws or prongs that share the pull at the bolt")
D = M.given(
    "screw_size", "D", "mm", 3.5, span=(1, 12), meaning="diameter of a screw or prong", how="calipers"
)
L = M.given("penetration", "L", "mm", 20, span=(3, 80), half=1,
    meaning="length of its thread or shank in the wood", how="rule")  # fmt: skip
G = M.given("gravity", "G", "", 0.63, span=(0.28, 0.8), meaning="specific gravity of the bench's wood",
    source="table of woods")  # fmt: skip
M.pick("faces", table="friction", row="wood on wood, dry", fills={"friction": "static"},
    meaning="faces under the block")  # fmt: skip
M.pick("knob_wood", table="woods", row="hard maple",
    fills={"shear_strength": "shear_along", "wood_strength": "compression_across"},
    meaning="wood of the knob's plies")  # fmt: skip
M.pick("track", table="metals", row="aluminum 6063-T5",
    fills={"modulus": "modulus", "poisson": "poisson", "yield_strength": "yield_strength"},
    meaning="metal of the track")  # fmt: skip
M.pick("bench_wood", table="woods", row="hard maple", fills={"gravity": "specific_gravity"},
    meaning="wood of the bench")  # fmt: skip
p_n = M.constant(
    "nail_factor", "p_{n}", "MPa", 54.12, meaning="factor for nails", source="equation 8-1, metric"
)
p_s = M.constant("screw_factor", "p_{s}", "MPa", 108.25, meaning="factor for wood screws",
    source="equation 8-10, metric")  # fmt: skip
p_l = M.constant("lag_factor", r"p_{\ell}", "MPa", 125.4, meaning="factor for lag screws of 1 mm",
    source="equation 8-14, metric")  # fmt: skip
mm = M.constant(
    "millimeter", "D_{1}", "mm", 1, meaning="diameter for which that factor is stated", source="a unit"
)
x = sp.Symbol("x", positive=True)

bump_ = sp.Symbol("bump", real=True)
bump = M.result("bump", "F_{b}", "N", speed * sp.sqrt(k * mass), meaning="greatest push of the bump", resolution=1,
                because="solved for the push at the greatest way, F over k",
                lines=[(equal(sp.Integral(k * x, (x, 0, bump_ / k)), mass * speed**2 / 2),
                        "the stop gives way until its spring has taken up all of the motion")])  # fmt: skip
give = M.result("give", r"\delta_{b}", "mm", bump / k, meaning="how far the stop gives at the bump",
    resolution=0.01, because="push over stiffness",
    lines=[(speed * sp.sqrt(mass / k), "or the speed over the pace of swinging")])  # fmt: skip
need = M.result("force_needed", "F_{n}", "N", bump / mu, meaning="clamp force that the bump needs", resolution=1,
                because="friction must hold the whole push")  # fmt: skip
sure = M.result("clamp_force", "F", "N", T / arm_2, meaning="clamp force that is sure", resolution=1,
    because="the roughest screw gives least")  # fmt: skip
slip = M.result("slip_force", "F_{s}", "N", mu * sure, meaning="push at which the block surely does not slip",
    resolution=1, because="friction of one face holds it")  # fmt: skip
crush = M.result("crush_force", "F_{c}", "N", f_c * sp.pi / 4 * (D_s**2 - d_h**2),
    meaning="force that dents the plies below the nut", resolution=1,
    because="the ring under the nut bears its pressure")  # fmt: skip
plug = M.result("plug_force", "F_{p}", "N", tau * sp.pi * D_s * b / nu,
    meaning="force that the plug below the nut may carry, over an open hole", resolution=1,
    because="the nut would shear out a round plug: its edge times the plies, with the factor kept")  # fmt: skip
wide = M.relation("lip_width", "b_{e}", "mm", B + 2 * c, meaning="length of lip that carries", resolution=0.1,
                  because="the force spreads at 45° to the root, on both sides of the head")  # fmt: skip
lip = M.result("lip_force", "F_{y}", "N", f_y * wide * t**2 / (3 * c),
    meaning="clamp force at which the lips yield", resolution=1, because="solved for the force",
    source="beam theory",
    lines=[(equal(sp.Symbol("lip_force", real=True) / 2 * c, f_y * wide * t**2 / 6),
            "half the force on its arm is the moment at a root, and yield times the section's modulus bears "
                "it")])  # fmt: skip
most = M.relation("force_most", "F_{m}", "N", T / arm_1, meaning="clamp force that may be", resolution=1,
                  because="the most slippery screw gives most")  # fmt: skip
M.result("lip_rise", r"\delta_{y}", "mm", 2 * most * c**3 * (1 - kappa**2) / (E * wide * t**3),
    resolution=0.001, meaning="how far a lip bends up, at most",
    because="a plate strip is stiffer than a bar, as it cannot narrow",
    lines=[(sp.Integral(most / 2 * (c - x) ** 2 / (E / (1 - kappa**2) * wide * t**3 / 12), (x, 0, c)),
            "slice after slice, x from the root, bends by moment over stiffness and swings the edge on the "
                "arm that is left")])  # fmt: skip
each = M.result(
    "withdrawal", "F_{1}", "N", sp.Piecewise(
        (p_n * G ** sp.Rational(5, 2) * D * L, sp.Eq(kind, 0)), (p_s * G**2 * D * L, sp.Eq(kind, 1)),
        (p_l * G ** sp.Rational(3, 2) * D * (D / mm) ** sp.Rational(-1, 4) * L, True)),
    meaning="ultimate pull of one screw or prong", resolution=1, source=HANDBOOK,
    because="tests fit these powers of gravity and diameter; the pull grows with the length",
)  # fmt: skip
anchor = M.result("anchor_force", "F_{a}", "N", n * each / nu, meaning="pull that the screws may carry", resolution=1,
                  because="they share evenly, with the factor kept")  # fmt: skip
damage = M.result("force_allowed", "F_{d}", "N", sp.Min(crush, plug, lip, anchor),
    meaning="clamp force that nothing minds", resolution=1, because="what is weakest decides")  # fmt: skip
low = M.result("torque_slip", "T_{1}", "N*m", arm_2 * need,
    meaning="least torque: no slip, however rough the screw", resolution=0.01,
    because="the longer arm asks for more torque")  # fmt: skip
high = M.result("torque_damage", "T_{2}", "N*m", arm_1 * damage,
    meaning="greatest torque: no damage, however slippery", resolution=0.01,
    because="the shorter arm makes more force")  # fmt: skip
M.result("window", "W", "", high / low, meaning="greatest torque over least", resolution=0.01,
    because="above 1 there is room between them",
    lines=[(arm_1 / arm_2 * (damage / need), "the screw's spread eats into what the parts leave")])  # fmt: skip
M.limit("slip", "against the bump, the knob is turned by", value=T, allowed=low, sense=">=",
        mend="tighten more, use rougher faces, or slow the board down")  # fmt: skip
M.limit("damage", "against damage, the knob is turned by", value=T, allowed=high,
    mend="tighten less, or strengthen the weakest part")  # fmt: skip
M.limit("window", "the least torque is", value=low, allowed=high,
    mend="use more screws, thicker lips, a larger washer or rougher faces")  # fmt: skip
M.limit("seat", "the hole in the plies is wide", value=d_h, allowed=D_s, mend="put a washer under the nut")
M.caution(*KNOB)
M.caution("These formulas give ultimate values of clean wood: keep the factor, and pull-test a scrap joint.")
M.caution("Prongs hold only while the pull seats them; a T-nut pulled from its own side works loose.",
    when=sp.Eq(kind, 0))  # fmt: skip
M.caution("The bump alone moves the stop by more than half a millimeter: bring the board up slowly.",
    when=sp.Gt(give, mm / 2))  # fmt: skip
MODEL = M.done()
