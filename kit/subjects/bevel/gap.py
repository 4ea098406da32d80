"""Gap of a joint and accuracy of the saw.

How wide does a mitered joint gape if the saw is set wrongly, and how well must it be set?

In the trade's words: my tilt is off by 0.1°. How wide do the joints gape, and how wide the last one if all the others
are pulled tight? How well must I set the saw for a gap of 0.2 mm?

Picture: Two ends meet at a joint, each off by the same small angle: a wedge opens. In a ring all joints but one are
pulled tight, and the last one gapes by the sum.

Assumptions:
- every end is cut with the same settings, so that all errors are equal, unless said otherwise
- the boards are rigid and equally long; a joint touches along one edge and opens at the other
- an error above 0 means too much tilt or too much miter
- the accuracy needed is computed for small errors

Sources:
- rotations in space: product of half turns
- plane trigonometry of a wedge

Notes: At a joint two ends meet, each off by the same error, so the joint opens by twice the error: across the thickness
for a wrong tilt, along the corner line for a wrong miter. In a ring of N joints all cut with the same settings, 2 N
errors add up: N - 1 tight joints leave the whole sum to the last one. Boards cut alike but wrongly still lie in a
perfect ring about one axis, only of N' sides instead of N: the last gap is that ring's opening. Also: rotations in
space (two half-turn cosines multiply, Rodrigues' formula).
"""

from __future__ import annotations

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.bevel.planes import ring_miter, ring_tilt
from kit.subjects.safety import SAW

M = Model("bevel.gap", __doc__)

N = M.count("sides", "N", 6, (3, 24), "number of boards in the ring")
s = M.given("slope", "s", "70 deg", (5, 90), "slope of the boards, from the horizontal")
L = M.given("side", "L", "360 mm", (50, 3000), "bottom edge of a board, outside")
M.measured("tape")
w = M.given("width", "w", "180 mm", (20, 600), "width of the boards, up the slope")
M.measured("rule")
t = M.given("thickness", "t", "15 mm", (3, 60), "thickness of the boards")
M.measured("caliper")
eb = M.given("tilt_error", r"\varepsilon_{\beta}", "0.1 deg", (-1, 1), "error of the blade tilt")
M.measured("what the setting tool can resolve")
em = M.given("miter_error", r"\varepsilon_{\mu}", "0.03 deg", (-1, 1), "error of the miter")
M.measured("what the setting tool can resolve")
g = M.given("gap_allowed", r"g_{\mathrm{max}}", "0.2 mm", (0.02, 3), "gap that glue still fills")
M.source("common practice, no source")
tenth = M.constant("tenth", r"\varepsilon_{0}", "0.1 deg", "a tenth of a degree", "the usual step of a setting")

psi = M.relation("half_turn", r"\psi", "deg")
M.equals(sp.pi / N, "each joint takes its share of the full turn, half on each side")
mu = M.relation("miter", r"\mu", "deg", "miter from a square cut")
M.equals(ring_miter(s, psi), "tangent rule of the splayed ring")
beta = M.relation("tilt", r"\beta", "deg", "blade tilt from vertical")
M.equals(ring_tilt(s, psi), "sine rule of the splayed ring")
across = M.relation("across", "d", "mm")
M.equals(t / sp.cos(beta), "the cut crosses the thickness at the tilt")
seam = M.relation("seam", "f", "mm")
M.equals(w / sp.cos(mu), "the corner line crosses the width at the miter")

swing = M.relation("seam_reach", "f'", "mm")
M.equals(
    seam * sp.cos(beta),
    "an end that is off in its miter swings in its own face; only the part square to the joint opens it",
)

wedge = "two ends, each off by the error, make a wedge of twice the error; its opening is a chord"
gap_tilt = M.result(
    "gap_tilt", "g_{1}", "mm", "gap of every joint, across the thickness, from the tilt's error", resolution=0.01
)
M.step(2 * across * sp.sin(2 * sp.Abs(eb) / 2), "chord of the wedge")
M.equals(2 * across * sp.sin(sp.Abs(eb)), wedge)
gap_miter = M.result(
    "gap_miter", "g_{2}", "mm", "gap of every joint, along the corner line, from the miter's error", resolution=0.01
)
M.equals(2 * swing * sp.sin(sp.Abs(em)), wedge)
M.result("gap_tilt_tenth", "g_{3}", "mm", "gap across the thickness for each 0.1° of tilt", resolution=0.001)
M.equals(2 * across * sp.sin(tenth), "the same at a tenth of a degree")
M.result("gap_miter_tenth", "g_{4}", "mm", "gap along the corner line for each 0.1° of miter", resolution=0.001)
M.equals(2 * swing * sp.sin(tenth), "the same at a tenth of a degree")

turn = M.relation("half_turn_cut", r"\psi'", "deg", "half the turn from one board to the next, as cut")
M.step(equal(sp.cos(psi), sp.cos(beta) * sp.cos(mu)), "without errors that gives back the half turn")
M.equals(
    sp.acos(sp.cos(beta + eb) * sp.cos(mu + em)),
    "from board to board one turns by the miter about the face, by twice the tilt about the corner line, and by the "
    "miter again; the cosines of half turns about axes square to each other multiply",
)
omega = M.result(
    "closing_error",
    r"\Omega",
    "deg",
    "angle of the wedge at the last joint; above 0 the ring closes before its last board is in",
    resolution=0.01,
)
M.step(2 * N * turn - 2 * sp.pi, "what the ring as cut turns more than a full turn")
M.equals(2 * N * (turn - psi), "2 N ends each add their error to the full turn")
gap_last = M.result(
    "gap_last",
    "g_{5}",
    "mm",
    "misfit of the last corner, at the outside of the bottom, if all other joints are tight",
    resolution=0.01,
)
M.step(2 * (L / (2 * sp.sin(turn))) * sp.sin(sp.Abs(omega) / 2), "chord of the closing error on that circle")
M.equals(
    L * sp.Abs(sp.sin(N * turn)) / sp.sin(turn),
    "the corners lie on a circle about the axis of the ring as cut; the misfit is a chord of it",
)
qb = M.relation("rate_tilt", r"q_{\beta}", "", "share of a tilt's error that turns in plan")
M.step(sp.sin(beta) * sp.cos(mu) / sp.sin(psi), "also the slope of the cosine product along the tilt")
M.equals(
    sp.sin(s) * sp.cos(mu), "a tilt's error turns about the corner line; only its upright part adds up round the ring"
)
qm = M.relation("rate_miter", r"q_{\mu}", "", "share of a miter's error that turns in plan")
M.step(sp.cos(beta) * sp.sin(mu) / sp.sin(psi), "also the slope of the cosine product along the miter")
M.equals(sp.cos(s), "a miter's error turns about the face's normal; only its upright part adds up round the ring")
M.result(
    "closing_u",
    r"u_{\Omega}",
    "deg",
    "standard uncertainty of the closing angle if every end is set anew, the errors being standard ones",
    resolution=0.01,
)
M.equals(sp.sqrt(2 * N * ((qb * eb) ** 2 + (qm * em) ** 2)), "2 N independent errors add by their squares")
M.source("JCGM 100:2008, 5.1.2")
M.result(
    "tilt_accuracy",
    r"\varepsilon_{1}",
    "deg",
    "tilt's error that leaves the allowed gap in every joint",
    resolution=0.001,
)
M.equals(sp.asin(g / (2 * across)), "the wedge across the thickness, solved for its angle")
M.result(
    "miter_accuracy",
    r"\varepsilon_{2}",
    "deg",
    "miter's error that leaves the allowed gap in every joint",
    resolution=0.001,
)
M.equals(sp.asin(g / (2 * swing)), "the wedge along the corner line, solved for its angle")
M.result(
    "ring_accuracy",
    r"\varepsilon_{3}",
    "deg",
    "error of both settings that leaves the allowed gap at the last joint",
    resolution=0.0001,
)
M.step(g / (2 * N * (L / (2 * sp.sin(psi))) * (qb + qm)), "gap over number of cuts, radius and both shares")
M.equals(
    g * sp.sin(psi) / (N * L * (qb + qm)),
    "on the circle of the corners the closing error of 2 N equal small errors spans the gap",
)

M.limit("tilt", "the tilt's error opens every joint by", gap_tilt, "<=", g)
M.mend("set the tilt by rise over a long base, or against a test joint")
M.limit("miter", "the miter's error opens every joint by", gap_miter, "<=", g)
M.mend("set the miter by rise over a long base, or against a test joint")
M.caution(*SAW)
M.caution(
    "Dry-fit the whole ring before any glue, and draw all joints up together with a band: pulled tight one after "
    "the other they leave more than the allowed gap to the last.",
    when=sp.Gt(gap_last, g),
)

MODEL = M.done()
