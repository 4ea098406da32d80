"""Zero of a scale beside the blade.

At which mark must a tape be cut so that it reads from the blade, and what does another blade change?

In the trade's words: the tape lies in a recess beside the fence. At which of its marks do I cut it so that the cursor
reads the length of the part? And what do I lose when I put on a blade with another kerf?

Picture: From above: the saw plate against its flange, teeth standing out on both sides, the part between the kerf's
face and the stop, the cursor line beyond the stop's face, the tape in its recess.

Assumptions:
- the teeth stand out by the same amount on both sides of the plate
- the plate always lies against the flange with the same face, whatever blade is on
- run-out swings the teeth equally to both sides; the full movement of the needle is given
- scale, fence and stop run along one line square to the blade

Sources:
- lengths along one line, added up
- run-out as the full indicator movement: common practice, no source

Notes: The saw plate, its teeth wider than the plate by the same overhang on both sides. One face of the plate always
lies against the arbor's flange. The cursor line stands a little farther out than the stop's face. Run-out swings the
teeth as far to the left as to the right, so that the kerf is wider than the teeth by the whole run-out.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.core.model.input_terms import amount, count
from kit.drawing.paper import PAPER
from kit.subjects.safety import SCALE, TEST_CUT

M = Model("scale.zero", __doc__)
side = M.choice("stop_side", "s", ("left", "right"), "right", "side of the blade on which the stop stands")
flange = M.choice("flange_side", "q", ("left", "right"), "left", "side of the blade on which the flange lies")
ref = M.choice(
    "reference",
    "r",
    ("kerf face", "tooth tip"),
    "kerf face",
    "what the scale is to read from: the face that the cut leaves, or a tooth's tip at rest",
)
k = M.given("kerf", "k", "3.2 ± 0.05 mm", (1.5, 6), "width over the teeth")
M.measured("calipers over a left and a right tooth")
t = M.given("plate", "t", "2.2 ± 0.02 mm", (0.8, 5), "thickness of the saw plate")
M.measured("micrometer")
w = M.given("runout", "w", "0.1 ± 0.02 mm", (0, 1), "run-out of the teeth, full movement")
M.measured("dial gauge at the rim, blade turned by hand")
D = M.given(
    "datum", "D", "252 ± 0.2 mm", (5, 2000), "from the plate's face to the recess's end at which the tape begins"
)
M.measured("rule from the plate, between teeth")
c = M.given("cursor", "c", "32 ± 0.1 mm", (0, 300), "from the stop's face outward to the cursor line")
M.measured("calipers")
k_2 = M.given("new_kerf", "k_{2}", "3.0 ± 0.05 mm", (1.5, 6), "width over the teeth of another blade")
M.measured("calipers")
t_2 = M.given("new_plate", "t_{2}", "2.2 ± 0.02 mm", (0.8, 5), "plate thickness of the other blade")
M.measured("micrometer")
allowed = M.given("allowed", r"\delta_{\mathrm{max}}", "0.2 mm", (0.01, 3), "allowed error from the blade")


def overhang(kerf: sp.Expr, plate: sp.Expr) -> sp.Expr:
    """Return how far teeth stand out on each side."""
    return (kerf - plate) / 2


flanged = sp.Eq(side, flange)
g = M.result("overhang", "g", "mm", "how far the teeth stand out on each side", resolution=0.01)
M.step(equal(t + 2 * g, k), "plate and two overhangs make the width over the teeth")
M.equals(overhang(k, t), "what the teeth are wider than the plate stands out in halves")
M.mistake(k - t, "what the teeth are wider was put on one side: each side has half")
kerf = M.result("kerf_cut", "K", "mm", "width of the kerf that is cut", resolution=0.01)
M.equals(k + w, "run-out widens the kerf by its full movement")
face = M.relation("kerf_face", "f", "mm", "kerf's face out from the plate's face", resolution=0.01)
M.step((kerf - t) / 2, "or half of what the kerf is wider than the plate")
M.equals(g + w / 2, "the tooth that swings farthest cuts the face")
zero = M.relation("reference_out", "z", "mm", "where the scale reads from, out from the plate's face", resolution=0.01)
M.equals(
    sp.Piecewise((face, sp.Eq(ref, 0)), (g, True)),
    "the scale is to read from the kerf's face, or from a tooth's tip at rest, half the run-out short of it",
)
mark = M.result("cut_mark", "m", "mm", "mark at which the tape is cut, to lie at the recess's end", resolution=0.1)
M.step(
    equal(zero + mark + c, D),
    "from the plate: the reference, the part's length, the cursor's offset, and that is the recess's end",
)
M.equals(
    D - zero - c,
    "with the cursor line over the recess's end the stop's face is this far from where the scale reads from",
)
M.mistake(D - zero + c, "the cursor was put on the wrong side of the stop's face")
M.mistake(D - c, "the blade was forgotten: the tape is counted from the plate's face")
start = M.relation("plate_out", "p", "mm", "plate's face out from the flange")
M.equals(
    sp.Piecewise((0, flanged), (t, True)),
    "on the flange's side the plate begins at the flange, on the other side its thickness lies between",
)
M.result(
    "zero_place",
    "x_{0}",
    "mm",
    "place of the scale's zero mark from the flange's face, plus to the right",
    resolution=0.01,
    signed=True,
)
M.equals(
    sp.Piecewise((-1, sp.Eq(side, 0)), (1, True)) * (start + zero + c),
    "at reading zero the stop's face would lie at the reference, the cursor line its offset farther out",
)
M.result(
    "zeros_apart", "a", "mm", "distance of the two zero marks, had the bench a scale on both sides", resolution=0.01
)
M.equals(t + 2 * zero + 2 * c, "each zero lies its reference and a cursor's offset out from its face of the plate")
tip = M.result(
    "reading_error",
    r"\delta_{\mathrm{r}}",
    "mm",
    "what a part is longer (plus) than its reading with the blade that the scale was laid for",
    resolution=0.01,
    signed=True,
)
M.step(
    sp.Piecewise((0, sp.Eq(ref, 0)), (-w / 2, True)),
    "read from a tooth's tip, parts come out short by half the run-out",
)
M.equals(zero - face, "a part begins at the kerf's face, its reading at the reference")
drift = M.result(
    "drift",
    "d",
    "mm",
    "how far the kerf's face moves toward the stop with the other blade",
    resolution=0.01,
    signed=True,
)
M.step(
    sp.Piecewise(((k_2 - t_2) / 2 - (k - t) / 2, flanged), ((k_2 + t_2) / 2 - (k + t) / 2, True)),
    "half of teeth less plate, or half of teeth and plate; the run-out stays",
)
M.equals(
    sp.Piecewise((overhang(k_2, t_2) - g, flanged), (t_2 + overhang(k_2, t_2) - t - g, True)),
    "on the flange's side only the overhang counts, on the other side the plate as well",
)
change = M.result(
    "part_change",
    r"\delta_{\mathrm{n}}",
    "mm",
    "what a part is longer (plus) than its reading with the other blade",
    resolution=0.01,
    signed=True,
)
M.equals(tip - drift, "the stop stays where it is, and what the face gains the part loses")
M.result(
    "cursor_new",
    "c_{2}",
    "mm",
    "offset of the cursor line that makes the scale true for the other blade",
    resolution=0.01,
    signed=True,
)
M.step(zero + c - (face + drift), "the zero mark stays; what lies between it and the new face is the offset")
M.equals(
    c + change, "where parts come out long, the line moves out by as much: the stop then stands nearer for each reading"
)
M.limit("mark", "the tape is to be cut at its mark", mark, ">=", 0, in_unit="mm")
M.mend("begin the recess farther from the blade, or bring the cursor line nearer to the stop's face")
M.limit("drift", "with the other blade parts are off by", sp.Abs(change), "<=", allowed, in_unit="mm", resolution=0.01)
M.mend("move the cursor line, or mark a second line for that blade")
M.limit("teeth", "the teeth are wide", k, ">=", t, in_unit="mm", resolution=0.01)
M.mend("measure again: no blade cuts with teeth narrower than its plate")
M.limit("new_teeth", "the other blade's teeth are wide", k_2, ">=", t_2, in_unit="mm", resolution=0.01)
M.mend("measure again: no blade cuts with teeth narrower than its plate")
M.caution(*SCALE)
M.caution(TEST_CUT)
M.caution(
    "The run-out is large: look for dust on the flange or a bent plate before you lay a scale.",
    when=sp.Gt(w, sp.Rational(1, 10) * k),
)
M.ask(
    *PAPER,
    amount("to", "the strip's last reading; a meter or 40 in beyond its first where none is stated", span=(1, 100_000)),
    count("division", "parts of a millimeter or an inch; 1 or 16 where none is stated", span=(1, 64)),
    amount("width", "width of the strip", span=(3, 100), default="13 mm"),
)

MODEL = M.done()
