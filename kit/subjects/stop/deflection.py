"""How far does the tip of a long stop block move when the work is pushed against it?

The question in the trade's words: the block reaches out from its track over the bench. When the board meets its
tip, how much of the set length is lost, and to what: play of the key, bending, shear, or the clamp giving way?

The picture, seen from above: the track runs across the picture from left to right, the block stands square to
it. A key under the block fits the track with some play; a clamp over the middle of the key holds the block. The
work pushes the tip sideways, along the track. Turned end for end, the block offers its short end for short work.

Assumptions: small movements; the whole play counts, from the block standing straight to the key's corners
touching; beyond the clamp the block is a cantilever, held straight at the clamp's middle; below the friction of
one face the clamp gives way in proportion to the push (a linear contact), above it the block slides.

Sources: cantilever and shear deflection as in the Wood Handbook, FPL-GTR-190, equation 9-2 and table 9-1, and
S. P. Timoshenko, Strength of Materials I, all from memory; friction as in the Wood Handbook, chapter 4.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.stop.play import play_at_tip
from kit.subjects.stop.section import MODEL as SECTION

M = Model(
    "stop.deflection",
    title="Tip error of a long stop block",
    question="How far does the tip of a long stop block move when the work is pushed against it?",
    picture="From above: a block stands square across a track, guided by a key and held by one clamp; the work "
    "pushes its tip sideways. Turned end for end, the short end serves short work.",
    assumptions=(
        "movements are small against the block",
        "the whole play of the key counts, from straight in the track to the corners touching",
        "beyond the clamp the block is a cantilever, straight at the clamp's middle",
        "below friction the clamp gives way in proportion to the push; above it the block slides",
        "the section is as in 'Stop block with a rib': no slip in the glue line, no twist",
    ),
    sources=(
        "Wood Handbook, FPL-GTR-190, equation 9-2 and table 9-1: deflection of beams with shear, from memory",
        "S. P. Timoshenko, Strength of Materials I: cantilever, shear deflection by energy, from memory",
        *SECTION.sources,
    ),
)
end = M.choice(
    "end", "e", ("long end", "short end"), "long end", meaning="end of the block that meets the work"
)
a_1 = M.given(
    "long_reach", "a_{1}", "mm", 600, span=(100, 2500), half=1,
    meaning="from the clamp's middle to the tip of the long end", how="tape",
)  # fmt: skip
a_2 = M.given(
    "short_reach", "a_{2}", "mm", 200, span=(50, 1500), half=1,
    meaning="from the clamp's middle to the tip of the short end", how="tape",
)  # fmt: skip
F = M.given(
    "push", "F", "N", 60, span=(0, 500), half=20,
    meaning="sideways push of the work at the tip", how="spring scale, pushing as at work",
)  # fmt: skip
c = M.given(
    "key_play", "c", "mm", 0.1, span=(0, 2), half=0.02,
    meaning="width of the track less width of the key", how="feeler gauge, or calipers on both",
)  # fmt: skip
k = M.given(
    "key_length", r"\ell_{\mathrm{k}}", "mm", 300, span=(20, 1000), half=0.5,
    meaning="length of the key in the track", how="rule",
)  # fmt: skip
N = M.given(
    "clamp_force", "N", "N", 400, span=(10, 5000), half=100,
    meaning="force of the clamp",
    how="known from the clamp, or pull the block with a spring scale and divide by friction",
)  # fmt: skip
mu = M.given(
    "friction", r"\mu", "", 0.6, span=(0.05, 1.2), half=0.2,
    meaning="friction coefficient under the clamp", how="tilt the pair of faces until one slides",
    source="Wood Handbook, FPL-GTR-190, chapter 4, from memory",
)  # fmt: skip
stiff = M.given(
    "clamp_stiffness", r"k_{\mathrm{c}}", "N/mm", 2000, span=(100, 50000), half=800,
    meaning="push at the clamp over how far it gives way",
    how="push at the clamp by a spring scale, read a dial gauge", source="invented demo value",
)  # fmt: skip
allowed = M.given("allowed", r"\delta_{\mathrm{max}}", "mm", 0.5, span=(0.01, 5), meaning="allowed tip error")
M.pick(
    "faces", table="friction", row="wood on wood, dry", fills={"friction": "static"},
    meaning="faces under the clamp",
)  # fmt: skip
section = M.include(SECTION, prefix="", label="")
EI, GA = section["bending_stiffness"], section["shear_stiffness"]
x = sp.Symbol("x", real=True)

a = M.relation(
    "reach", "a", "mm", sp.Piecewise((a_1, sp.Eq(end, 0)), (a_2, True)),
    because="the end that meets the work makes the lever",
)  # fmt: skip
_, rigid = play_at_tip(M, c, k, a, meaning="tip movement from the key's play")
bend = M.result(
    "bending_tip", r"\delta_{\mathrm{b}}", "mm", F * a**3 / (3 * EI), meaning="tip movement from bending",
    resolution=0.001,
    because="the sum is a third of the cube of the reach",
    lines=[(sp.Integral(F * (a - x) / EI * (a - x), (x, 0, a)),
            "each slice, x from the clamp, bends by moment over stiffness and swings the tip on the arm that is left")],
)  # fmt: skip
shear = M.result(
    "shear_tip", r"\delta_{\mathrm{s}}", "mm", F * a / GA, meaning="tip movement from shear", resolution=0.001,
    because="all slices carry the same push",
    lines=[(sp.Integral(F / GA, (x, 0, a)), "each slice is sheared by push over shear stiffness")],
)  # fmt: skip
slip = M.result(
    "slip_tip", r"\delta_{\mathrm{c}}", "mm", F / stiff, resolution=0.001,
    meaning="tip movement from the clamp giving way",
    because="below friction the clamp gives way in proportion to the push",
)  # fmt: skip
hold = M.result(
    "holding_force", r"F_{\mathrm{h}}", "N", mu * N, meaning="push at which the clamp slides", resolution=1,
    because="friction of the one face under the clamp is all that holds the block along the track",
)  # fmt: skip
tip = M.result(
    "tip_error", r"\delta", "mm", rigid + bend + shear + slip, meaning="tip error in all", resolution=0.001,
    because="small movements of one tip in one direction add",
)  # fmt: skip
share = M.result(
    "shear_share", r"\sigma_{\mathrm{s}}", "%", 1 / (1 + GA * a**2 / (3 * EI)), resolution=0.1,
    meaning="part of shear in what the block itself gives way", because="the push falls out",
    lines=[(a / GA / (a**3 / (3 * EI) + a / GA), "shear over bending and shear, both for a unit push")],
)  # fmt: skip
M.result(
    "tip_stiffness", r"k_{\mathrm{t}}", "N/mm", 1 / (a**3 / (3 * EI) + a / GA + 1 / stiff), resolution=0.1,
    meaning="push over elastic tip movement",
    because="bending, shear and clamp give way one after the other, like springs in a row",
)  # fmt: skip

M.limit(
    "tip", "the tip moves", value=tip, allowed=allowed,
    mend="make the rib higher, the key longer or its play smaller",
)  # fmt: skip
M.limit(
    "hold", "the work pushes with", value=F, allowed=hold,
    mend="clamp harder or put a rougher face under the clamp",
)  # fmt: skip
M.limit(
    "rib_fits", "the rib is wide", value=section["rib_width"], allowed=section["face_width"],
    mend="make the rib narrower or the block larger",
)  # fmt: skip
M.caution("Unplug the machine before you measure or set the stop.")
M.caution(
    "Keep guards on and hands at least 150 mm (6 in) from the blade; the machine's manual and local rules come first."
)
M.caution("Let the cut-off end run free of the stop: work trapped between blade and stop is thrown.")
M.caution(
    "Short work: cut no piece that cannot be held from 150 mm (6 in) away; clamp it or cut it from a longer piece.",
    when=sp.Eq(end, 1),
)
M.caution(
    "The push is more than friction holds: the block slides, and the tip error shown leaves that out.",
    when=sp.Gt(F, hold),
)
M.caution(
    "The key is short for this reach: its play counts more than fourfold at the tip.", when=sp.Gt(a, 4 * k)
)
M.caution(
    "Shear is more than a tenth of what the block gives way: bending alone would mislead.",
    when=sp.Gt(share, sp.Rational(1, 10)),
)
MODEL = M.done()
