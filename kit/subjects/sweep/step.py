"""What hides between the positions.

How much nearer may the machine come than it was seen, and how many positions make that small enough?

In the trade's words: I looked at the machine in so many positions. In between it moved, and I did not look. By how many
millimeters may the hood be nearer than I saw, and how many positions must I take so that it is less than I allow?

Picture: A point goes along an arc from one position to the next; the chord of half a step is how far it can be from the
nearer one, the sagitta how far it stands proud of both.

Assumptions:
- each range is cut into equal parts, with a position in the middle of each
- no point of the moving part is farther from an axis than the arm stated for it, in any position
- the nearest position of each joint is taken, all joints together
- a cell that the part touches counts as full

Sources:
- chord 2R sin(θ/2) and sagitta R (1 - cos(θ/2)) of an arc: plane trigonometry
- triangle inequality: a straight way is not longer than a way around

Notes: Measured outward it stands proud of what was seen only by the sagitta of that arc, which is far less. But a
corner of the hood may lie beside the arc. Each joint's range is cut into equal parts, with a position in the middle of
each, so that no position is farther than half a part from the nearest. Joints are moved to the nearest position one
after the other: each moves the point along its own arc or way, and the straight way is not longer than all these
together. The arms are the longest of any point of the moving part, in every position.
"""

from __future__ import annotations

import sympy as sp

from kit.core.model import Model, equal
from kit.core.model.input_terms import (
    amount,
    bound,
    box,
    choice,
    direction,
    file,
    flag,
    many,
    named,
    needed_by,
    point,
    record,
    rows,
    steps,
    text,
    together,
)
from kit.subjects.safety import MOVING_MACHINE
from kit.subjects.sweep.formats import SCANS

M = Model("sweep.step", __doc__)

Q_l = M.given("swing_left", r"Q_{\mathrm{l}}", "50 ± 0.2 deg", (0, 180), "swing to the left stop")
M.measured("the machine's own scale")
Q_r = M.given("swing_right", r"Q_{\mathrm{r}}", "50 ± 0.2 deg", (0, 180), "swing to the right stop")
M.measured("the machine's own scale")
Q_t = M.given("tilt_most", r"Q_{\mathrm{t}}", "40 ± 0.3 deg", (0, 90), "tilt or plunge from stop to stop")
M.measured("bevel gauge at the arm")
Q_e = M.given("slide_most", r"Q_{\mathrm{e}}", "0 ± 0.5 mm", (0, 600), "slide from stop to stop")
M.measured("rule along the rails")
R_s = M.given(
    "arm_swing",
    r"R_{\mathrm{s}}",
    "280 mm",
    (20, 2000),
    "farthest point of the moving part from the swing axis, in any position",
)
M.measured("from the scan, or the greatest reach")
R_t = M.given(
    "arm_tilt", r"R_{\mathrm{t}}", "470 mm", (20, 2000), "farthest point of the moving part from the tilt axis"
)
M.measured("from the scan, or tape")
N_s = M.count("poses_swing", r"N_{\mathrm{s}}", 140, (1, 5000), "positions of the swing")
N_t = M.count("poses_tilt", r"N_{\mathrm{t}}", 110, (1, 5000), "positions of the tilt")
N_e = M.count("poses_slide", r"N_{\mathrm{e}}", 1, (1, 5000), "positions of the slide")
thinned = M.given("thinning", r"\tau", "1 mm", (0, 20), "by how much thinning may have moved the surface")
M.measured("as reported by the thinning")
scanned = M.given("scan_error", r"\sigma", "0.5 mm", (0, 20), "by how much the scan may be off at its farthest point")
M.measured("uncertainty of its scale times that distance, and its noise")
cell = M.given("cell", "q", "4 mm", (0.5, 50), "size of the cells in which the swept envelope is counted")
loss = M.given("loss", r"c_{\mathrm{max}}", "15 mm", (0.5, 100), "excess that cells may add to the envelope")
wish = M.given("wish", "B", "5 mm", (0.1, 100), "required bound")

theta_s = M.relation(
    "half_swing", r"\theta_{\mathrm{s}}", "deg", "swing from the nearest position, at most", resolution=0.01
)
M.equals((Q_l + Q_r) / (2 * N_s), "from the middle of a part to its end is half of it")
theta_t = M.relation(
    "half_tilt", r"\theta_{\mathrm{t}}", "deg", "tilt from the nearest position, at most", resolution=0.01
)
M.equals(Q_t / (2 * N_t), "half a part of its range")
d_s = M.result(
    "chord_swing",
    r"d_{\mathrm{s}}",
    "mm",
    "how far the swing alone takes a point from where it was seen",
    resolution=0.01,
)
M.step(
    sp.sqrt((R_s * sp.cos(theta_s) - R_s) ** 2 + (R_s * sp.sin(theta_s)) ** 2),
    "the point goes back by one and aside by the other; their right triangle has the chord as its long side",
)
M.step(
    equal(d_s**2 + 2 * R_s**2 * sp.cos(theta_s), 2 * R_s**2),
    "multiplied out, the squares of sine and cosine make one: the law of cosines",
)
M.equals(2 * R_s * sp.sin(theta_s / 2), "the chord of the arc is two sines of half its angle")
d_t = M.result(
    "chord_tilt",
    r"d_{\mathrm{t}}",
    "mm",
    "how far the tilt alone takes a point from where it was seen",
    resolution=0.01,
)
M.equals(2 * R_t * sp.sin(theta_t / 2), "the chord of its own arc, in the same way")
d_e = M.result(
    "way_slide",
    r"d_{\mathrm{e}}",
    "mm",
    "how far the slide alone takes a point from where it was seen",
    resolution=0.01,
)
M.equals(Q_e / (2 * N_e), "a slide is straight: half a part of its range")
d = M.result(
    "motion", "d", "mm", "farthest that any point can be from its place in the nearest position", resolution=0.01
)
M.equals(
    d_s + d_t + d_e,
    "one joint after the other is moved to the nearest position; the straight way is not longer than these ways "
    "together",
)
s = M.result(
    "sagitta", "s", "mm", "how much farther the swing reaches between two positions than in them", resolution=0.001
)
M.step(
    equal(R_s * sp.cos(theta_s) + s, R_s),
    "at the height of its arc the point stands its whole arm out, in the positions beside it the arm's cosine",
)
M.step(d_s * sp.sin(theta_s / 2), "a small part of the chord, and the smaller the finer the step")
M.equals(2 * R_s * sp.sin(theta_s / 2) ** 2, "a cosine is one less two squares of the sine of half the angle")
c = M.result("cell_part", "c", "mm", "excess that a touched cell adds, at most", resolution=0.1)
M.step(equal(c**2, 3 * cell**2), "Pythagoras twice: one edge along each of three axes")
M.equals(
    sp.sqrt(3) * cell, "a cell that is touched counts as full: that errs to the safe side, by no more than its diagonal"
)
rest = M.relation("rest", "w", "mm", "what does not come from the motion", resolution=0.01)
M.equals(thinned + scanned, "both may move the surface toward the hood, so they add plainly")
Delta = M.result(
    "bound",
    r"\Delta",
    "mm",
    "guaranteed bound: nowhere does the machine come nearer than it was seen by more than this",
    resolution=0.01,
)
M.equals(d + rest, "motion, thinning and scan may all err the same way")
M.result("poses", "N", "", "positions in all", resolution=1, whole=True)
M.equals(N_s * N_t * N_e, "each position of one joint is met with all of the others")
J = M.relation("joints", "J", "", "joints that move", resolution=1)
M.equals(
    sp.Max(1, sp.sign(Q_l + Q_r) + sp.sign(Q_t) + sp.sign(Q_e)), "a range of 0 takes no share of the required bound"
)
left = M.relation("left", "v", "mm", "what the required bound leaves to the motion", resolution=0.01)
M.equals(wish - rest, "the rest is spent before anything moves")
share = M.relation("share", "p", "mm", "what each joint may take", resolution=0.01)
M.equals(
    sp.Max(left, wish / 10) / J,
    "split equally between the joints; never less than a tenth of the required bound: thin less then",
)


def parts(name: str, tex: str, range_: sp.Expr, arm: sp.Expr, joint: str) -> sp.Symbol:
    """State how many positions a turn needs to stay within its share."""
    half = M.relation(
        f"allowed_{name}", rf"\theta_{{{tex}}}^{{*}}", "deg", f"half step that the {joint} may take", resolution=0.01
    )
    M.step(equal(2 * arm * sp.sin(half / 2), sp.Min(2 * arm, share)), "its chord is the share")
    M.equals(2 * sp.asin(sp.Min(1, share / (2 * arm))), "the chord solved for its angle; a chord is at most two arms")
    needed = M.result(
        f"needed_{name}",
        rf"N_{{{tex}}}^{{*}}",
        "",
        f"positions that the {joint} needs for the required bound",
        resolution=1,
    )
    M.equals(sp.Max(1, sp.ceiling(range_ / (2 * half))), "so many parts of twice that angle cover the range")
    return needed


needed_s = parts("swing", r"\mathrm{s}", Q_l + Q_r, R_s, "swing")
needed_t = parts("tilt", r"\mathrm{t}", Q_t, R_t, "tilt")
needed_e = M.result(
    "needed_slide",
    r"N_{\mathrm{e}}^{*}",
    "",
    "positions that the slide needs for the required bound",
    resolution=1,
    whole=True,
)
M.equals(sp.Max(1, sp.ceiling(Q_e / (2 * share))), "so many parts of twice the share cover the range")
M.result("needed", r"N^{*}", "", "positions needed in all", resolution=1, whole=True)
M.equals(needed_s * needed_t * needed_e, "each with all of the others")

M.limit("bound", "the bound is", Delta, "<=", wish)
M.mend("take more positions or thin less")
M.limit("left", "the required bound leaves to the motion", left, ">=", wish / 10)
M.mend("thin less, or measure the scale more surely")
M.limit("cells", "the excess of a cell is up to", c, "<=", loss)
M.mend("make the cells smaller")
M.caution(*MOVING_MACHINE)
M.caution("'Sampled' is what was seen at the positions; 'certified' is that less the bound. Build to the latter.")
NAME = text("pick", "name of a spot on the scan", refers="picks")
FROM = text("from", "name of the spot at one end", needed=True, refers="picks")
TO = text("to", "name of the spot at the other end", needed=True, refers="picks")
LENGTH = amount("length", "length measured on the machine", span=(0.1, 10_000), needed=True, sure=True)
PICKS = named("picks", "spots on the scan by name, in its own units and axes", direction("spot", "x, y and z"))
MOVED = (
    amount("tolerance", "by how much a point of the bed may be off its plane", span=(0.001, 100)),
    many("bed", "names of spots on the bed; its largest plane where none are stated", NAME, least=3),
    text("up", "name of a spot above the bed", refers="picks"),
    text("front", "name of a spot before the axis", needed=True, refers="picks"),
    text("axis", "name of the spot on the swing axis", needed=True, refers="picks"),
)
LOW = point("low", "its left, front and lower corner", needed=True)
HIGH = point("high", "its right, back and upper corner", needed=True)
RECIPE = {
    "scale": (rows("lengths", "measured lengths between spots", FROM, TO, LENGTH, needed=True),),
    "upright": MOVED,
    "crop": (LOW, HIGH),
    "brush": (
        many("spots", "names of spots round which the scan is taken away", NAME, needed=True),
        amount("radius", "how far round each spot", span=(0.1, 2000), needed=True),
    ),
    "drop": (amount("smaller", "pieces smaller than this are taken out", span=(0, 10_000), needed=True),),
    "thin": (amount("tolerance", "by how much the surface may move", span=(0, 20), needed=True),),
}
JOINTS = rows(
    "joints",
    "what moves, from the bench outward, at 0 as it was scanned",
    text("name", "name of the joint", needed=True),
    choice("kind", "how it moves", "turn", "slide", needed=True),
    point("point", "a point of its axis"),
    direction("direction", "direction of its axis; it turns counterclockwise seen against it"),
    many("touched", "one spot of what moves, touched in three or more positions", point("spot", "the spot"), least=3),
    bound("low", "least angle or way: a quantity, or a given's name with or without a minus", "deg", other_unit="mm"),
    bound("high", "greatest angle or way, as the least", "deg", other_unit="mm"),
    key="name",
    one_of=(("point", "direction"), ("touched",)),
)
PARTS = rows(
    "parts",
    "which faces of the scan ride on which joint; the rest stands still",
    text("name", "name of the part", needed=True),
    text("rides", "the joint farthest from the bench on which it rides", needed=True, refers="joints"),
    many("pieces", "names of spots; what is connected to one of them belongs to the part", NAME),
    many("inside", "boxes in one of which the middle of a face lies", box("box", "low and high corner")),
    many("outside", "boxes in none of which it lies", box("box", "low and high corner")),
    key="name",
)
SECTION = record(
    "section",
    "a plane at which the swept envelope is cut",
    point("point", "a point of the plane", needed=True),
    direction("normal", "direction square to it", needed=True),
)
SECOND = record(
    "second",
    "a second scan with one joint moved, which shows where its axis is",
    file("scan", "the same machine, scanned again", *SCANS, needed=True),
    PICKS,
    text("joint", "the joint that was moved", needed=True, refers="joints"),
    amount("turned", "about how far, an angle or a way", "deg", other_unit="mm", needed=True),
    flag("take", "take the axis that the scans show"),
)
BLOCKS = rows(
    "blocks",
    "the machine as measured boxes and cylinders, where it is not scanned",
    text("name", "name of the block", needed=True),
    text("rides", "the joint farthest from the bench on which it rides; it stands still where none is stated"),
    point("low", "of a box, its left, front and lower corner"),
    point("high", "of a box, its right, back and upper corner"),
    point("start", "of a cylinder, the middle of one end"),
    point("end", "of a cylinder, the middle of the other end"),
    amount("diameter", "of a cylinder", span=(0.1, 5000)),
    key="name",
    one_of=(("low", "high"), ("start", "end", "diameter")),
)
M.ask(
    *together(
        file("scan", "the machine as scanned, square and at its lowest", *SCANS),
        steps("recipe", "what is done to the scan, in order", "do", RECIPE),
        PICKS,
        PARTS,
        with_them=(SECOND,),
    ),
    BLOCKS,
    needed_by(JOINTS, "scan", "blocks"),
    SECTION,
)
MODEL = M.done()
