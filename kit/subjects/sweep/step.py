"""What can hide between two positions, and how many positions make the answer as sure as you wish?

The question in the trade's words: I looked at the machine in so many positions. In between it moved, and I did not
look. By how many millimeters may the hood be nearer than I saw, and how many positions must I take so that it is
less than I wish?

The picture: a point at the end of its arm goes along an arc from one position to the next. Half-way it is farthest
from both: the straight line to the nearer one is the chord of half the step. Measured outward it stands proud of
what was seen only by the sagitta of that arc, which is far less; but a corner of the hood may lie beside the arc.

Each joint's range is cut into equal parts, with a position in the middle of each, so that no position is farther than
half a part from the nearest. Joints are moved to the nearest position one after the other: each moves the point
along its own arc or way, and the straight way is not longer than all these together.

Assumptions: the arms are the longest of any point of the moving part, in every position.

Sources: chord and sagitta of a circle, 2R sin(θ/2) and R (1 - cos(θ/2)); the triangle inequality.
"""

from __future__ import annotations

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import MOVING_MACHINE

M = Model(
    "sweep.step",
    title="What hides between the positions",
    question="How much nearer may the machine come than it was seen, and how many positions make that small enough?",
    picture="A point goes along an arc from one position to the next; the chord of half a step is how far it can be "
    "from the nearer one, the sagitta how far it stands proud of both.",
    assumptions=(
        "each range is cut into equal parts, with a position in the middle of each",
        "no point of the moving part is farther from an axis than the arm stated for it, in any position",
        "the nearest position of each joint is taken, all joints together",
        "a cell that the part touches counts as full",
    ),
    sources=(
        "chord 2R sin(θ/2) and sagitta R (1 - cos(θ/2)) of an arc: plane trigonometry",
        "triangle inequality: a straight way is not longer than a way around",
    ),
)

Q_l = M.given("swing_left", r"Q_{\mathrm{l}}", "deg", 50, span=(0, 180), half=0.2, meaning="swing to the left stop",
              how="the machine's own scale")  # fmt: skip
Q_r = M.given("swing_right", r"Q_{\mathrm{r}}", "deg", 50, span=(0, 180), half=0.2, meaning="swing to the right stop",
              how="the machine's own scale")  # fmt: skip
Q_t = M.given("tilt_most", r"Q_{\mathrm{t}}", "deg", 40, span=(0, 90), half=0.3,
              meaning="tilt or plunge from stop to stop", how="bevel gauge at the arm")  # fmt: skip
Q_e = M.given("slide_most", r"Q_{\mathrm{e}}", "mm", 0, span=(0, 600), half=0.5, meaning="slide from stop to stop",
              how="rule along the rails")  # fmt: skip
R_s = M.given("arm_swing", r"R_{\mathrm{s}}", "mm", 280, span=(20, 2000),
              meaning="farthest point of the moving part from the swing axis, in any position",
              how="from the scan, or the greatest reach")  # fmt: skip
R_t = M.given("arm_tilt", r"R_{\mathrm{t}}", "mm", 470, span=(20, 2000),
              meaning="farthest point of the moving part from the tilt axis", how="from the scan, or tape")  # fmt: skip
N_s = M.count("poses_swing", r"N_{\mathrm{s}}", 140, span=(1, 5000), meaning="positions of the swing")
N_t = M.count("poses_tilt", r"N_{\mathrm{t}}", 110, span=(1, 5000), meaning="positions of the tilt")
N_e = M.count("poses_slide", r"N_{\mathrm{e}}", 1, span=(1, 5000), meaning="positions of the slide")
thinned = M.given("thinning", r"\tau", "mm", 1, span=(0, 20),
                  meaning="by how much thinning may have moved the surface", how="told by the thinning")  # fmt: skip
scanned = M.given("scan_error", r"\sigma", "mm", 0.5, span=(0, 20),
                  meaning="by how much the scan may be off at its farthest point",
                  how="uncertainty of its scale times that distance, and its noise")  # fmt: skip
cell = M.given(
    "cell", "q", "mm", 4, span=(0.5, 50), meaning="size of the cells in which the swept room is counted"
)
loss = M.given(
    "loss", r"c_{\mathrm{max}}", "mm", 15, span=(0.5, 100), meaning="room that cells may take in vain"
)
wish = M.given("wish", "B", "mm", 5, span=(0.1, 100), meaning="bound wished for", source="your choice")

theta_s = M.relation("half_swing", r"\theta_{\mathrm{s}}", "deg", (Q_l + Q_r) / (2 * N_s), resolution=0.01,
                     meaning="swing from the nearest position, at most",
                     because="from the middle of a part to its end is half of it")  # fmt: skip
theta_t = M.relation("half_tilt", r"\theta_{\mathrm{t}}", "deg", Q_t / (2 * N_t), resolution=0.01,
                     meaning="tilt from the nearest position, at most", because="half a part of its range")  # fmt: skip
d_s = M.result(
    "chord_swing", r"d_{\mathrm{s}}", "mm", 2 * R_s * sp.sin(theta_s / 2), resolution=0.01,
    meaning="how far the swing alone takes a point from where it was seen",
    because="the chord of the arc is two sines of half its angle",
    lines=[
        (sp.sqrt((R_s * sp.cos(theta_s) - R_s) ** 2 + (R_s * sp.sin(theta_s)) ** 2),
         "the point goes back by one and aside by the other; their right triangle has the chord as its long side"),
        (equal(sp.Symbol("chord_swing", real=True) ** 2 + 2 * R_s**2 * sp.cos(theta_s), 2 * R_s**2),
         "multiplied out, the squares of sine and cosine make one: the law of cosines"),
    ],
)  # fmt: skip
d_t = M.result("chord_tilt", r"d_{\mathrm{t}}", "mm", 2 * R_t * sp.sin(theta_t / 2), resolution=0.01,
               meaning="how far the tilt alone takes a point from where it was seen",
               because="the chord of its own arc, in the same way")  # fmt: skip
d_e = M.result("way_slide", r"d_{\mathrm{e}}", "mm", Q_e / (2 * N_e), resolution=0.01,
               meaning="how far the slide alone takes a point from where it was seen",
               because="a slide is straight: half a part of its range")  # fmt: skip
d = M.result("motion", "d", "mm", d_s + d_t + d_e, resolution=0.01,
             meaning="farthest that any point can be from its place in the nearest position",
             because="one joint after the other is moved to the nearest position; the straight way is not longer than "
             "these ways together")  # fmt: skip
s = M.result(
    "sagitta", "s", "mm", 2 * R_s * sp.sin(theta_s / 2) ** 2, resolution=0.001,
    meaning="how much farther the swing reaches between two positions than in them",
    because="a cosine is one less two squares of the sine of half the angle",
    lines=[
        (equal(R_s * sp.cos(theta_s) + sp.Symbol("sagitta", real=True), R_s),
         "at the height of its arc the point stands its whole arm out, in the positions beside it the arm's cosine"),
        (d_s * sp.sin(theta_s / 2), "a small part of the chord, and the smaller the finer the step"),
    ],
)  # fmt: skip
c = M.result("cell_part", "c", "mm", sp.sqrt(3) * cell, resolution=0.1,
             meaning="room that a touched cell takes in vain, at most",
             because="a cell that is touched counts as full: that errs to the safe side, by no more than its diagonal",
             lines=[(equal(sp.Symbol("cell_part", real=True) ** 2, 3 * cell**2),
                    "Pythagoras twice: one edge along each of three axes")])  # fmt: skip
rest = M.relation("rest", "w", "mm", thinned + scanned, resolution=0.01,
                  meaning="what does not come from the motion",
                  because="both may move the surface toward the hood, so they add plainly")  # fmt: skip
bound = M.result("bound", r"\Delta", "mm", d + rest, resolution=0.01,
                 meaning="guaranteed bound: nowhere does the machine come nearer than it was seen by more than this",
                 because="motion, thinning and scan may all err the same way")  # fmt: skip
M.result("poses", "N", "", N_s * N_t * N_e, resolution=1, meaning="positions in all",
         because="each position of one joint is met with all of the others")  # fmt: skip
J = M.relation("joints", "J", "", sp.Max(1, sp.sign(Q_l + Q_r) + sp.sign(Q_t) + sp.sign(Q_e)), resolution=1,
               meaning="joints that move", because="a range of 0 takes no share of the wish")  # fmt: skip
left = M.relation("left", "v", "mm", wish - rest, resolution=0.01, meaning="what the wish leaves to the motion",
                  because="the rest is spent before anything moves")  # fmt: skip
share = M.relation("share", "p", "mm", sp.Max(left, wish / 10) / J, resolution=0.01,
                   meaning="what each joint may take",
                   because="joints share alike; never less than a tenth of the wish: thin less then")  # fmt: skip


def parts(name: str, tex: str, range_: sp.Expr, arm: sp.Expr, joint: str) -> sp.Symbol:
    """State how many positions a turn needs to stay within its share."""
    half = M.relation(f"allowed_{name}", rf"\theta_{{{tex}}}^{{*}}", "deg",
                      2 * sp.asin(sp.Min(1, share / (2 * arm))), resolution=0.01,
                      meaning=f"half step that the {joint} may take",
                      because="the chord turned round for its angle; a chord is at most two arms",
                      lines=[(equal(2 * arm * sp.sin(sp.Symbol(f"allowed_{name}", real=True) / 2),
                                    sp.Min(2 * arm, share)), "its chord is the share")])  # fmt: skip
    return M.result(f"needed_{name}", rf"N_{{{tex}}}^{{*}}", "", sp.Max(1, sp.ceiling(range_ / (2 * half))),
                    resolution=1, meaning=f"positions that the {joint} needs for the wish",
                    because="so many parts of twice that angle cover the range")  # fmt: skip


needed_s = parts("swing", r"\mathrm{s}", Q_l + Q_r, R_s, "swing")
needed_t = parts("tilt", r"\mathrm{t}", Q_t, R_t, "tilt")
needed_e = M.result("needed_slide", r"N_{\mathrm{e}}^{*}", "", sp.Max(1, sp.ceiling(Q_e / (2 * share))), resolution=1,
                    meaning="positions that the slide needs for the wish",
                    because="so many parts of twice the share cover the range")  # fmt: skip
M.result("needed", r"N^{*}", "", needed_s * needed_t * needed_e, resolution=1, meaning="positions needed in all",
         because="each with all of the others")  # fmt: skip

M.limit("bound", "the bound is", value=bound, allowed=wish,
        mend="take more positions or thin less")  # fmt: skip
M.limit("left", "the wish leaves to the motion", value=left, allowed=wish / 10, sense=">=",
        mend="thin less, or measure the scale more surely")  # fmt: skip
M.limit("cells", "a cell takes in vain up to", value=c, allowed=loss, mend="make the cells smaller")
M.caution(*MOVING_MACHINE)
M.caution(
    "'Sampled' is what was seen at the positions; 'certified' is that less the bound. Build to the latter."
)
MODEL = M.done()
