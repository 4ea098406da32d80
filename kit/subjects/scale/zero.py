"""Where must a scale be cut or laid so that it reads from the blade, and what does another blade change?

The question in the trade's words: the tape lies in a recess beside the fence. At which of its marks do I cut it so
that the cursor reads the length of the part? And what do I lose when I put on a blade with another kerf?

The picture, seen from above: the saw plate, its teeth wider than the plate by the same overhang on both sides. One
face of the plate always lies against the arbor's flange. On one side of the blade the stop; the part lies between
the kerf's face and the stop's face. The cursor line stands a little farther out than the stop's face.

Assumptions: teeth stand out equally on both sides; the plate lies flat against the flange; run-out swings the teeth
as far to the left as to the right, so that the kerf is wider than the teeth by the whole run-out.

Sources: lengths along one line, added up; run-out as the full movement of an indicator's needle (common practice).
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import SCALE, TEST_CUT

M = Model(
    "scale.zero",
    title="Zero of a scale beside the blade",
    question="At which mark must a tape be cut so that it reads from the blade, and what does another blade change?",
    picture="From above: the saw plate against its flange, teeth standing out on both sides, the part between the "
    "kerf's face and the stop, the cursor line beyond the stop's face, the tape in its recess.",
    assumptions=(
        "the teeth stand out by the same amount on both sides of the plate",
        "the plate always lies against the flange with the same face, whatever blade is on",
        "run-out swings the teeth equally to both sides; the full movement of the needle is given",
        "scale, fence and stop run along one line square to the blade",
    ),
    sources=("lengths along one line, added up", "run-out as the full indicator movement: common practice, no source"),
)  # fmt: skip
side = M.choice(
    "stop_side", "s", ("left", "right"), "right", meaning="side of the blade on which the stop stands"
)
flange = M.choice(
    "flange_side", "q", ("left", "right"), "left", meaning="side of the blade on which the flange lies"
)
ref = M.choice(
    "reference", "r", ("kerf face", "tooth tip"), "kerf face",
    meaning="what the scale is to read from: the face that the cut leaves, or a tooth's tip at rest",
)  # fmt: skip
k = M.given(
    "kerf", "k", "mm", 3.2, span=(1.5, 6), half=0.05,
    meaning="width over the teeth", how="calipers over a left and a right tooth",
)  # fmt: skip
t = M.given(
    "plate", "t", "mm", 2.2, span=(0.8, 5), half=0.02, meaning="thickness of the saw plate", how="micrometer"
)  # fmt: skip
w = M.given(
    "runout", "w", "mm", 0.1, span=(0, 1), half=0.02,
    meaning="run-out of the teeth, full movement", how="dial gauge at the rim, blade turned by hand",
)  # fmt: skip
D = M.given(
    "datum", "D", "mm", 252, span=(5, 2000), half=0.2,
    meaning="from the plate's face to the recess's end at which the tape begins",
    how="rule from the plate, between teeth",
)  # fmt: skip
c = M.given(
    "cursor", "c", "mm", 32, span=(0, 300), half=0.1,
    meaning="from the stop's face outward to the cursor line", how="calipers",
)  # fmt: skip
k_2 = M.given(
    "new_kerf", "k_{2}", "mm", 3.0, span=(1.5, 6), half=0.05, meaning="width over the teeth of another blade",
    how="calipers",
)  # fmt: skip
t_2 = M.given(
    "new_plate", "t_{2}", "mm", 2.2, span=(0.8, 5), half=0.02, meaning="plate thickness of the other blade",
    how="micrometer",
)  # fmt: skip
allowed = M.given(
    "allowed", r"\delta_{\mathrm{max}}", "mm", 0.2, span=(0.01, 3), meaning="allowed error from the blade"
)


def overhang(kerf: sp.Expr, plate: sp.Expr) -> sp.Expr:
    """Return how far teeth stand out on each side."""
    return (kerf - plate) / 2


flanged = sp.Eq(side, flange)
g = M.result(
    "overhang", "g", "mm", overhang(k, t), resolution=0.01, meaning="how far the teeth stand out on each side",
    because="what the teeth are wider than the plate stands out in halves",
    lines=[(equal(t + 2 * sp.Symbol("overhang", real=True), k),
    "plate and two overhangs make the width over the teeth")],
)  # fmt: skip
kerf = M.result(
    "kerf_cut", "K", "mm", k + w, resolution=0.01, meaning="width of the kerf that is cut",
    because="run-out widens the kerf by its full movement",
)  # fmt: skip
face = M.relation(
    "kerf_face", "f", "mm", g + w / 2, meaning="kerf's face out from the plate's face", resolution=0.01,
    because="the tooth that swings farthest cuts the face",
    lines=[((kerf - t) / 2, "or half of what the kerf is wider than the plate")],
)  # fmt: skip
zero = M.relation(
    "reference_out", "z", "mm", sp.Piecewise((face, sp.Eq(ref, 0)), (g, True)),
    because="the scale is to read from the kerf's face, or from a tooth's tip at rest, half the run-out short of it",
    meaning="where the scale reads from, out from the plate's face", resolution=0.01,
)  # fmt: skip
mark = M.result(
    "cut_mark", "m", "mm", D - zero - c, resolution=0.1,
    meaning="mark at which the tape is cut, to lie at the recess's end",
    because="with the cursor line over the recess's end the stop's face is this far from where the scale reads from",
    lines=[(equal(zero + sp.Symbol("cut_mark", real=True) + c, D),
            "from the plate: the reference, the part's length, the cursor's offset, and that is the recess's end")],
)  # fmt: skip
start = M.relation(
    "plate_out", "p", "mm", sp.Piecewise((0, flanged), (t, True)), meaning="plate's face out from the flange",
    because="on the flange's side the plate begins at the flange, on the other side its thickness lies between",
)  # fmt: skip
M.result(
    "zero_place", "x_{0}", "mm", sp.Piecewise((-1, sp.Eq(side, 0)), (1, True)) * (start + zero + c), resolution=0.01,
    meaning="place of the scale's zero mark from the flange's face, plus to the right",
    because="at reading zero the stop's face would lie at the reference, the cursor line its offset farther out",
)  # fmt: skip
M.result(
    "zeros_apart", "a", "mm", t + 2 * zero + 2 * c, resolution=0.01,
    meaning="distance of the two zero marks, had the bench a scale on both sides",
    because="each zero lies its reference and a cursor's offset out from its face of the plate",
)  # fmt: skip
tip = M.result(
    "reading_error", r"\delta_{\mathrm{r}}", "mm", zero - face, resolution=0.01,
    meaning="what a part is longer (plus) than its reading with the blade that the scale was laid for",
    because="a part begins at the kerf's face, its reading at the reference",
    lines=[(sp.Piecewise((0, sp.Eq(ref, 0)), (-w / 2, True)),
            "read from a tooth's tip, parts come out short by half the run-out")],
)  # fmt: skip
drift = M.result(
    "drift", "d", "mm", sp.Piecewise((overhang(k_2, t_2) - g, flanged), (t_2 + overhang(k_2, t_2) - t - g, True)),
    resolution=0.01, meaning="how far the kerf's face moves toward the stop with the other blade",
    because="on the flange's side only the overhang counts, on the other side the plate as well",
    lines=[(sp.Piecewise(((k_2 - t_2) / 2 - (k - t) / 2, flanged), ((k_2 + t_2) / 2 - (k + t) / 2, True)),
            "half of teeth less plate, or half of teeth and plate; the run-out stays")],
)  # fmt: skip
change = M.result(
    "part_change", r"\delta_{\mathrm{n}}", "mm", tip - drift, resolution=0.01,
    meaning="what a part is longer (plus) than its reading with the other blade",
    because="the stop stays where it is, and what the face gains the part loses",
)  # fmt: skip
M.result(
    "cursor_new", "c_{2}", "mm", c + change, resolution=0.01,
    meaning="offset of the cursor line that makes the scale true for the other blade",
    because="where parts come out long, the line moves out by as much: the stop then stands nearer for each reading",
    lines=[(zero + c - (face + drift), "the zero mark stays; what lies between it and the new face is the offset")],
)  # fmt: skip
M.limit(
    "mark", "the tape is to be cut at its mark", value=mark, allowed=0, sense=">=", in_unit="mm",
    mend="begin the recess farther from the blade, or bring the cursor line nearer to the stop's face",
)  # fmt: skip
M.limit(
    "drift", "with the other blade parts are off by", value=sp.Abs(change), allowed=allowed, in_unit="mm",
    resolution=0.01, mend="move the cursor line, or mark a second line for that blade",
)  # fmt: skip
M.limit(
    "teeth", "the teeth are wide", value=k, allowed=t, sense=">=", in_unit="mm", resolution=0.01,
    mend="measure again: no blade cuts with teeth narrower than its plate",
)  # fmt: skip
M.caution(*SCALE)
M.caution(TEST_CUT)
M.caution(
    "The run-out is large: look for dust on the flange or a bent plate before you lay a scale.",
    when=sp.Gt(w, sp.Rational(1, 10) * k),
)
MODEL = M.done()
