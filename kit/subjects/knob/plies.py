"""How many plies does a knob with a captured nut take, which hole goes into which, and does the stud reach?

The question in the trade's words: I glue a knob up from drilled plies, with a nut caught inside. Which ply gets
which hole, how thick does the knob get, and is the stud long enough for the nut but not for the roof?

The picture, cut through the middle: a stud stands up from the block. From below, the knob has foot plies with a
hole for the stud, then plies with a wide well in which the nut lies, perhaps on a washer, then plies with a hole
for the stud's end, then closed plies as a roof. The nut, pulled down by the stud, presses on the foot plies.

Assumptions: all plies are equally thick; the nut lies on the foot plies or on a washer no wider than the well; the
stud's first turn is chamfered and carries nothing.

Sources: ISO 4032 and ASME B18.2.2 (nuts), ISO 273 and ASME B18.2.8 (clearance holes), by the table of fasteners;
a nut full of thread is common practice.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.knob.thread import pick_thread, state_thread, thread_limit
from kit.subjects.safety import KNOB

M = Model(
    "knob.plies",
    title="Plies of a knob with a captured nut",
    question="How many plies does the knob take, which hole goes into which, and does the stud reach?",
    picture="Cut through the knob: foot plies with a hole for the stud, plies with a well for the nut, plies with a "
    "hole for the stud's end, and closed plies as a roof.",
    assumptions=(
        "all plies are equally thick, glue lines included",
        "the nut lies on the foot plies, or on a washer no wider than the well",
        "the first turn of the stud is chamfered and carries nothing",
        "the nut's hexagon is sharp: no nut is wider over its corners",
    ),
    sources=(
        "ISO 4032 and ASME B18.2.2: hexagon nuts, by the table of fasteners",
        "ISO 273 and ASME B18.2.8: clearance holes, by the table of fasteners",
        "a nut full of thread: common practice, no source",
    ),
)
t = M.given("ply", "t", "mm", 6, span=(2, 30), half=0.1, meaning="thickness of a ply",
            how="calipers on ten plies, pressed together, over ten")  # fmt: skip
d, p = state_thread(M)
s = M.given("flats", "s", "mm", 13, span=(5, 32), meaning="nut, across flats", how="calipers",
    source="table of fasteners")  # fmt: skip
m = M.given("nut_height", "m", "mm", 6.8, span=(2, 20), meaning="height of the nut", how="calipers",
            source="table of fasteners")  # fmt: skip
d_h = M.given(
    "stud_hole", "d_{h}", "mm", 9, span=(3, 24), meaning="hole for the stud", source="table of fasteners"
)
c = M.given("nut_fit", "c", "mm", 0.3, span=(-1, 2),
            meaning="well over the nut's corners; below zero the corners bite into the wood")  # fmt: skip
w = M.given("washer", "w", "mm", 1.6, span=(0, 5), meaning="washer under the nut, no wider than the well; 0 if none",
            how="calipers")  # fmt: skip
b = M.given("foot", "b", "mm", 10, span=(1, 60), meaning="wood wanted below the nut")
a = M.given("room", "a", "mm", 2, span=(0, 20), meaning="room wanted over the stud's end")
roof = M.count("roof_plies", "n_{4}", 1, span=(0, 5), meaning="closed plies on top; 0 leaves the knob open")
L = M.given("stud", "L", "mm", 28, span=(5, 120), half=0.5, meaning="stud over the face that the knob presses",
    how="rule")  # fmt: skip
u = M.given("face_washer", "u", "mm", 1.6, span=(0, 10), meaning="washer between knob and face; 0 if none",
    how="calipers")  # fmt: skip
tallest = M.given("allowed_height", r"H_{\mathrm{max}}", "mm", 40, span=(10, 150),
    meaning="allowed height of the knob")  # fmt: skip
pick_thread(M, flats="across_flats", nut_height="nut_height", stud_hole="clearance_hole")

e = M.relation(
    "corners", "e", "mm", 2 * s / sp.sqrt(3), resolution=0.1, meaning="nut over its corners",
    because="a corner lies half the flats over the cosine of 30° from the middle",
    lines=[(equal(sp.Symbol("corners", real=True) / 2 * sp.cos(sp.pi / 6), s / 2),
            "the way from the middle to a flat, seen from a corner")],
)  # fmt: skip
well = M.result("well", "D_{n}", "mm", e + c, meaning="hole of the nut's plies", resolution=0.1,
                because="a round hole goes round the corners, with the fit that is wanted")  # fmt: skip
foot = M.result("foot_plies", "n_{1}", "", sp.ceiling(b / t), meaning="plies with the stud's hole, below the nut",
                because="a ply begun is a whole ply")  # fmt: skip
deep = M.result("well_plies", "n_{2}", "", sp.ceiling((w + m) / t), meaning="plies with the nut's hole",
                because="washer and nut must go in whole")  # fmt: skip
low = M.result("foot_height", "b_{1}", "mm", foot * t, meaning="wood below the nut", resolution=0.1,
    because="so many plies")  # fmt: skip
seat = M.result("seat", "z_{n}", "mm", low + w, meaning="underside of the nut over the knob's underside",
    resolution=0.1, because="the nut stands on the foot plies and the washer")  # fmt: skip
tip = M.relation("tip", r"z_{\ell}", "mm", L - u, meaning="end of the stud over the knob's underside", resolution=0.1,
                 because="the washer on the face lifts the knob")  # fmt: skip
end = M.result("end_plies", "n_{3}", "", sp.Max(0, sp.ceiling((tip + a) / t - foot - deep)),
    meaning="plies with the stud's hole, above the nut",
    because="the stud's end and its room, in plies, less those below",
    lines=[(sp.ceiling(sp.Max(tip + a - (foot + deep) * t, 0) / t),
            "what stands out of the well and its room, in plies")])  # fmt: skip
plies = M.result(
    "plies", "n", "", foot + deep + end + roof, meaning="plies of the knob", because="layer upon layer"
)
height = M.result("height", "H", "mm", plies * t, meaning="height of the knob", resolution=0.1,
    because="all plies are alike")  # fmt: skip
M.result("counterbore", "h_{n}", "mm", deep * t, meaning="depth of a counterbore that does the same in a solid block",
         resolution=0.1, because="the nut's plies lie on the foot plies")  # fmt: skip
lift = M.result("lift", r"\Delta z", "mm", deep * t - w - m, meaning="how far the nut can lift in its well",
    resolution=0.1, because="plies come whole, nuts do not",
    lines=[((foot + deep) * t - seat - m, "from the nut's top to the end of its well")])  # fmt: skip
engaged = M.result(
    "engaged", r"\ell_{e}", "mm", sp.Max(0, sp.Min(m, tip - p - seat)), meaning="thread in the nut", resolution=0.1,
    because="full turns begin a pitch below the stud's end; the nut holds no more than its height",
)  # fmt: skip
M.result("turns", "N", "", sp.floor(engaged / p), meaning="whole turns of thread in the nut",
         because="each turn rises by the pitch")  # fmt: skip
M.result("shortest", r"L_{\mathrm{min}}", "mm", u + seat + m + p, meaning="shortest stud that fills the nut",
    resolution=0.1, because="face washer, all below the nut, the nut, and the chamfered turn")  # fmt: skip
M.result("longest", r"L_{\mathrm{max}}", "mm", u + (foot + deep + end) * t,
    meaning="stud that touches the roof", resolution=0.1, because="that is where the holes end")  # fmt: skip
thread_limit(M, d, p)
M.limit("engaged", "the thread in the nut is", value=engaged, allowed=m, sense=">=",
        mend="take a longer stud or fewer foot plies")  # fmt: skip
M.limit(
    "height", "the knob is high", value=height, allowed=tallest, mend="shorten the stud or take thinner plies"
)
M.limit("stud_hole", "the stud is thick", value=d, allowed=d_h, mend="drill the clearance hole of the table")
M.limit("nut_seat", "the stud's hole is wide", value=d_h, allowed=s,
    mend="drill a smaller hole, or the nut falls through")  # fmt: skip
M.caution(*KNOB)
M.caution("The nut is loose in a round well: glue it, or it turns with the stud.", when=sp.Ge(c, 0))
M.caution(
    "The nut can lift by more than a turn: lay washers over it, or it comes off its seat.",
    when=sp.Gt(lift, p),
)
M.caution("Turn the stud in until the washer is tight, then look: its end must not touch the roof before "
        "the knob presses.", when=sp.Gt(roof, 0))  # fmt: skip
MODEL = M.done()
