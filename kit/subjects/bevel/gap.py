"""The gap that a wrong setting leaves, in one joint and in a closed ring, and how well the saw must be set.

The question in the trade's words: my tilt is off by 0.1°. How wide do the joints gape, and how wide the last one if
all the others are pulled tight? How well must I set the saw for a gap of 0.2 mm?

The picture: at a joint two ends meet, each off by the same error, so the joint opens by twice the error: across the
thickness for a wrong tilt, along the corner line for a wrong miter. In a ring of N joints all cut with the same
settings, 2 N errors add up: N - 1 tight joints leave the whole sum to the last one.

Boards cut alike but wrongly still lie in a perfect ring about one axis, only of N' sides instead of N: the last gap
is that ring's opening.

Sources: rotations in space (two half-turn cosines multiply, Rodrigues' formula); see lines.
"""

from __future__ import annotations

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.bevel.planes import ring_miter, ring_tilt
from kit.subjects.safety import SAW

M = Model(
    "bevel.gap",
    title="Gap of a joint and accuracy of the saw",
    question="How wide does a mitered joint gape if the saw is set wrongly, and how well must it be set?",
    picture=(
        "Two ends meet at a joint, each off by the same small angle: a wedge opens. In a ring all joints but one are "
        "pulled tight, and the last one gapes by the sum."
    ),
    assumptions=(
        "every end is cut with the same settings, so that all errors are equal, unless said otherwise",
        "the boards are rigid and equally long; a joint touches along one edge and opens at the other",
        "an error above 0 means too much tilt or too much miter",
        "the accuracy needed is worked for small errors",
    ),
    sources=("rotations in space: product of half turns", "plane trigonometry of a wedge"),
)

N = M.count("sides", "N", 6, span=(3, 24), meaning="number of boards in the ring", source="demo: hood frame")
s = M.given("slope", "s", "deg", 70, span=(5, 90), meaning="slope of the boards, from the horizontal")
L = M.given("side", "L", "mm", 360, span=(50, 3000), meaning="bottom edge of a board, outside", how="tape")
w = M.given("width", "w", "mm", 180, span=(20, 600), meaning="width of the boards, up the slope", how="rule")
t = M.given("thickness", "t", "mm", 15, span=(3, 60), meaning="thickness of the boards", how="caliper")
eb = M.given("tilt_error", r"\varepsilon_{\beta}", "deg", 0.1, span=(-1, 1), meaning="error of the blade tilt",
             how="what the setting tool can tell")  # fmt: skip
em = M.given("miter_error", r"\varepsilon_{\mu}", "deg", 0.03, span=(-1, 1), meaning="error of the miter",
             how="what the setting tool can tell")  # fmt: skip
g = M.given("gap_allowed", r"g_{\mathrm{max}}", "mm", 0.2, span=(0.02, 3), meaning="gap that glue still fills",
            source="common practice, no source")  # fmt: skip
tenth = M.constant("tenth", r"\varepsilon_{0}", "deg", 0.1, meaning="a tenth of a degree",
                   source="the usual step of a setting")  # fmt: skip

psi = M.relation(
    "half_turn",
    r"\psi",
    "deg",
    sp.pi / N,
    because="each joint takes its share of the full turn, half on each side",
)
mu = M.relation("miter", r"\mu", "deg", ring_miter(s, psi), meaning="miter from a square cut",
                because="tangent rule of the splayed ring")  # fmt: skip
beta = M.relation("tilt", r"\beta", "deg", ring_tilt(s, psi), meaning="blade tilt from vertical",
                  because="sine rule of the splayed ring")  # fmt: skip
across = M.relation(
    "across", "d", "mm", t / sp.cos(beta), because="the cut crosses the thickness at the tilt"
)
seam = M.relation("seam", "f", "mm", w / sp.cos(mu), because="the corner line crosses the width at the miter")

swing = M.relation(
    "seam_reach",
    "f'",
    "mm",
    seam * sp.cos(beta),
    because="an end that is off in its miter swings in its own face; only the part square to the joint opens it",
)

wedge = "two ends, each off by the error, make a wedge of twice the error; its opening is a chord"
gap_tilt = M.result(
    "gap_tilt", "g_{1}", "mm", 2 * across * sp.sin(sp.Abs(eb)), resolution=0.01, because=wedge,
    meaning="gap of every joint, across the thickness, from the tilt's error",
    lines=[(2 * across * sp.sin(2 * sp.Abs(eb) / 2), "chord of the wedge")],
)  # fmt: skip
gap_miter = M.result(
    "gap_miter", "g_{2}", "mm", 2 * swing * sp.sin(sp.Abs(em)), resolution=0.01, because=wedge,
    meaning="gap of every joint, along the corner line, from the miter's error",
)  # fmt: skip
M.result(
    "gap_tilt_tenth", "g_{3}", "mm", 2 * across * sp.sin(tenth), resolution=0.001,
    because="the same at a tenth of a degree", meaning="gap across the thickness for each 0.1° of tilt",
)  # fmt: skip
M.result(
    "gap_miter_tenth", "g_{4}", "mm", 2 * swing * sp.sin(tenth), resolution=0.001,
    because="the same at a tenth of a degree", meaning="gap along the corner line for each 0.1° of miter",
)  # fmt: skip

turn = M.relation(
    "half_turn_cut",
    r"\psi'",
    "deg",
    sp.acos(sp.cos(beta + eb) * sp.cos(mu + em)),
    meaning="half the turn from one board to the next, as cut",
    because="from board to board one turns by the miter about the face, by twice the tilt about the corner line, "
    "and by the miter again; the cosines of half turns about axes square to each other multiply",
    lines=[(equal(sp.cos(psi), sp.cos(beta) * sp.cos(mu)), "without errors that gives back the half turn")],
)
omega = M.result(
    "closing_error", r"\Omega", "deg", 2 * N * (turn - psi), resolution=0.01,
    meaning="angle of the wedge at the last joint; above 0 the ring closes before its last board is in",
    because="2 N ends each add their error to the full turn",
    lines=[(2 * N * turn - 2 * sp.pi, "what the ring as cut turns more than a full turn")],
)  # fmt: skip
gap_last = M.result(
    "gap_last",
    "g_{5}",
    "mm",
    L * sp.Abs(sp.sin(N * turn)) / sp.sin(turn),
    resolution=0.01,
    meaning="misfit of the last corner, at the outside of the bottom, if all other joints are tight",
    because="the corners lie on a circle about the axis of the ring as cut; the misfit is a chord of it",
    lines=[
        (
            2 * (L / (2 * sp.sin(turn))) * sp.sin(sp.Abs(omega) / 2),
            "chord of the closing error on that circle",
        )
    ],
)
qb = M.relation(
    "rate_tilt",
    r"q_{\beta}",
    "",
    sp.sin(s) * sp.cos(mu),
    meaning="share of a tilt's error that turns in plan",
    because="a tilt's error turns about the corner line; only its upright part adds up round the ring",
    lines=[(sp.sin(beta) * sp.cos(mu) / sp.sin(psi), "also the slope of the cosine product along the tilt")],
)
qm = M.relation(
    "rate_miter",
    r"q_{\mu}",
    "",
    sp.cos(s),
    meaning="share of a miter's error that turns in plan",
    because="a miter's error turns about the face's normal; only its upright part adds up round the ring",
    lines=[(sp.cos(beta) * sp.sin(mu) / sp.sin(psi), "also the slope of the cosine product along the miter")],
)
M.result(
    "closing_u",
    r"u_{\Omega}",
    "deg",
    sp.sqrt(2 * N * ((qb * eb) ** 2 + (qm * em) ** 2)),
    resolution=0.01,
    meaning="standard uncertainty of the closing angle if every end is set anew, the errors being standard ones",
    because="2 N independent errors add by their squares",
    source="JCGM 100:2008, 5.1.2",
)
M.result(
    "tilt_accuracy",
    r"\varepsilon_{1}",
    "deg",
    sp.asin(g / (2 * across)),
    resolution=0.001,
    meaning="tilt's error that leaves the allowed gap in every joint",
    because="the wedge across the thickness, turned round",
)
M.result(
    "miter_accuracy",
    r"\varepsilon_{2}",
    "deg",
    sp.asin(g / (2 * swing)),
    resolution=0.001,
    meaning="miter's error that leaves the allowed gap in every joint",
    because="the wedge along the corner line, turned round",
)
M.result(
    "ring_accuracy",
    r"\varepsilon_{3}",
    "deg",
    g * sp.sin(psi) / (N * L * (qb + qm)),
    resolution=0.0001,
    meaning="error of both settings that leaves the allowed gap at the last joint",
    because="on the circle of the corners the closing error of 2 N equal small errors spans the gap",
    lines=[
        (g / (2 * N * (L / (2 * sp.sin(psi))) * (qb + qm)), "gap over number of cuts, radius and both shares")
    ],
)

M.limit("tilt", "the tilt's error opens every joint by", value=gap_tilt, allowed=g,
        mend="set the tilt by rise over a long base, or against a test joint")  # fmt: skip
M.limit("miter", "the miter's error opens every joint by", value=gap_miter, allowed=g,
        mend="set the miter by rise over a long base, or against a test joint")  # fmt: skip
M.caution(*SAW)
M.caution(
    "Dry-fit the whole ring before any glue, and draw all joints up together with a band: pulled tight one after "
    "the other they leave more than the allowed gap to the last.",
    when=sp.Gt(gap_last, g),
)

MODEL = M.done()
