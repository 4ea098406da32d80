"""Plies of a knob with a captured nut.

How many plies does the knob take, which hole goes into which, and does the stud reach?

In the trade's words: I glue a knob up from drilled plies, with a nut caught inside. Which ply gets which hole, how
thick does the knob get, and is the stud long enough for the nut but not for the roof?

Picture: Cut through the knob: foot plies with a hole for the stud, plies with a well for the nut, plies with a hole for
the stud's end, and closed plies as a roof.

Assumptions:
- all plies are equally thick, glue lines included
- the nut lies on the foot plies, or on a washer no wider than the well
- the first turn of the stud is chamfered and carries nothing
- the nut's hexagon is sharp: no nut is wider over its corners

Sources:
- ISO 4032 and ASME B18.2.2: hexagon nuts, by the table of fasteners
- ISO 273 and ASME B18.2.8: clearance holes, by the table of fasteners
- a nut full of thread: common practice, no source

Notes: A stud stands up from the block. The nut, pulled down by the stud, presses on the foot plies.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.drawing.paper import PAPER
from kit.subjects.knob.thread import pick_thread, state_thread, thread_limit
from kit.subjects.safety import KNOB

M = Model("knob.plies", __doc__)
t = M.given("ply", "t", "6 ± 0.1 mm", (2, 30), "thickness of a ply")
M.measured("calipers on ten plies, pressed together, over ten")
d, p = state_thread(M)
s = M.given("flats", "s", "13 mm", (5, 32), "nut, across flats")
M.measured("calipers")
M.source("table of fasteners")
m = M.given("nut_height", "m", "6.8 mm", (2, 20), "height of the nut")
M.measured("calipers")
M.source("table of fasteners")
d_h = M.given("stud_hole", "d_{h}", "9 mm", (3, 24), "hole for the stud")
M.source("table of fasteners")
c = M.given("nut_fit", "c", "0.3 mm", (-1, 2), "well over the nut's corners; below zero the corners bite into the wood")
w = M.given("washer", "w", "1.6 mm", (0, 5), "washer under the nut, no wider than the well; 0 if none")
M.measured("calipers")
b = M.given("foot", "b", "10 mm", (1, 60), "wood wanted below the nut")
a = M.given("room", "a", "2 mm", (0, 20), "room wanted over the stud's end")
roof = M.count("roof_plies", "n_{4}", 1, (0, 5), "closed plies on top; 0 leaves the knob open")
L = M.given("stud", "L", "28 ± 0.5 mm", (5, 120), "stud over the face that the knob presses")
M.measured("rule")
u = M.given("face_washer", "u", "1.6 mm", (0, 10), "washer between knob and face; 0 if none")
M.measured("calipers")
tallest = M.given("allowed_height", r"H_{\mathrm{max}}", "40 mm", (10, 150), "allowed height of the knob")
pick_thread(M, flats="across_flats", nut_height="nut_height", stud_hole="clearance_hole")

e = M.relation("corners", "e", "mm", "nut over its corners", resolution=0.1)
M.step(equal(e / 2 * sp.cos(sp.pi / 6), s / 2), "the way from the middle to a flat, seen from a corner")
M.equals(2 * s / sp.sqrt(3), "a corner lies half the flats over the cosine of 30° from the middle")
well = M.result("well", "D_{n}", "mm", "hole of the nut's plies", resolution=0.1)
M.equals(e + c, "a round hole goes round the corners, with the fit that is wanted")
foot = M.result("foot_plies", "n_{1}", "", "plies with the stud's hole, below the nut", whole=True)
M.equals(sp.ceiling(b / t), "a ply begun is a whole ply")
deep = M.result("well_plies", "n_{2}", "", "plies with the nut's hole", whole=True)
M.equals(sp.ceiling((w + m) / t), "washer and nut must go in whole")
low = M.result("foot_height", "b_{1}", "mm", "wood below the nut", resolution=0.1)
M.equals(foot * t, "so many plies")
seat = M.result("seat", "z_{n}", "mm", "underside of the nut over the knob's underside", resolution=0.1)
M.equals(low + w, "the nut stands on the foot plies and the washer")
tip = M.relation("tip", r"z_{\ell}", "mm", "end of the stud over the knob's underside", resolution=0.1)
M.equals(L - u, "the washer on the face lifts the knob")
end = M.result("end_plies", "n_{3}", "", "plies with the stud's hole, above the nut", whole=True)
M.step(sp.ceiling(sp.Max(tip + a - (foot + deep) * t, 0) / t), "what stands out of the well and its room, in plies")
M.equals(sp.Max(0, sp.ceiling((tip + a) / t - foot - deep)), "the stud's end and its room, in plies, less those below")
plies = M.result("plies", "n", "", "plies of the knob", whole=True)
M.equals(foot + deep + end + roof, "layer upon layer")
height = M.result("height", "H", "mm", "height of the knob", resolution=0.1)
M.equals(plies * t, "all plies are alike")
M.result("counterbore", "h_{n}", "mm", "depth of a counterbore that does the same in a solid block", resolution=0.1)
M.equals(deep * t, "the nut's plies lie on the foot plies")
lift = M.result("lift", r"\Delta z", "mm", "how far the nut can lift in its well", resolution=0.1)
M.step((foot + deep) * t - seat - m, "from the nut's top to the end of its well")
M.equals(deep * t - w - m, "plies come whole, nuts do not")
engaged = M.result("engaged", r"\ell_{e}", "mm", "thread in the nut", resolution=0.1)
M.equals(
    sp.Max(0, sp.Min(m, tip - p - seat)),
    "full turns begin a pitch below the stud's end; the nut holds no more than its height",
)
M.result("turns", "N", "", "whole turns of thread in the nut", whole=True)
M.equals(sp.floor(engaged / p), "each turn rises by the pitch")
M.result("shortest", r"L_{\mathrm{min}}", "mm", "shortest stud that fills the nut", resolution=0.1)
M.equals(u + seat + m + p, "face washer, all below the nut, the nut, and the chamfered turn")
M.result("longest", r"L_{\mathrm{max}}", "mm", "stud that touches the roof", resolution=0.1)
M.equals(u + (foot + deep + end) * t, "that is where the holes end")
thread_limit(M, d, p)
M.limit("engaged", "the thread in the nut is", engaged, ">=", m)
M.mend("take a longer stud or fewer foot plies")
M.limit("height", "the knob is high", height, "<=", tallest)
M.mend("shorten the stud or take thinner plies")
M.limit("stud_hole", "the stud is thick", d, "<=", d_h)
M.mend("drill the clearance hole of the table")
M.limit("nut_seat", "the stud's hole is wide", d_h, "<=", s)
M.mend("drill a smaller hole, or the nut falls through")
M.caution(*KNOB)
M.caution("The nut is loose in a round well: glue it, or it turns with the stud.", when=sp.Ge(c, 0))
M.caution(
    "The nut can lift by more than a turn: lay washers over it, or it comes off its seat.",
    when=sp.Gt(lift, p),
)
M.caution(
    "Turn the stud in until the washer is tight, then look: its end must not touch the roof before the knob presses.",
    when=sp.Gt(roof, 0),
)
M.ask(
    *PAPER,
)

MODEL = M.done()
