"""Tip error of a long stop block.

How far does the tip of a long stop block move when the work is pushed against it?

In the trade's words: the block reaches out from its track over the bench. When the board meets its tip, how much of the
set length is lost, and to what: play of the key, bending, shear, or the clamp giving way?

Picture: From above: a block stands square across a track, guided by a key and held by one clamp; the work pushes its
tip sideways. Turned end for end, the short end serves short work.

Assumptions:
- movements are small against the block
- the whole play of the key counts, from straight in the track to the corners touching
- beyond the clamp the block is a cantilever, straight at the clamp's middle
- below friction the clamp gives way in proportion to the push; above it the block slides
- the section is as in 'Stop block with a rib': no slip in the glue line, no twist

Sources:
- Wood Handbook, FPL-GTR-190, equation 9-2 and table 9-1: deflection of beams with shear, from memory
- S. P. Timoshenko, Strength of Materials I: cantilever, shear deflection by energy, from memory

Notes: A key under the block fits the track with some play. A clamp over the middle of the key holds the block. Also:
whether friction holds is judged at its low end; its usual figures stand in the table.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.stop.play import play_at_tip
from kit.subjects.stop.section import MODEL as SECTION

M = Model("stop.deflection", __doc__, sources=SECTION.sources)
end = M.choice("end", "e", ("long end", "short end"), "long end", "end of the block that meets the work")
a_1 = M.given("long_reach", "a_{1}", "600 ± 1 mm", (100, 2500), "from the clamp's middle to the tip of the long end")
M.measured("tape")
a_2 = M.given("short_reach", "a_{2}", "200 ± 1 mm", (50, 1500), "from the clamp's middle to the tip of the short end")
M.measured("tape")
F = M.given("push", "F", "60 ± 20 N", (0, 500), "sideways push of the work at the tip")
M.measured("spring scale, pushing as at work")
c = M.given("key_play", "c", "0.1 ± 0.02 mm", (0, 2), "width of the track less width of the key")
M.measured("feeler gauge, or calipers on both")
k = M.given("key_length", r"\ell_{\mathrm{k}}", "300 ± 0.5 mm", (20, 1000), "length of the key in the track")
M.measured("rule")
N = M.given("clamp_force", "N", "400 ± 100 N", (10, 5000), "force of the clamp")
M.measured("known from the clamp, or pull the block with a spring scale and divide by friction")
mu = M.given("friction", r"\mu", "0.25", (0.05, 1.2), "friction under the clamp, the low end of what is known")
M.measured("tilt the pair of faces until one slides, ten times, and take the least")
M.source("table of friction")
stiff = M.given(
    "clamp_stiffness", r"k_{\mathrm{c}}", "2000 ± 800 N/mm", (100, 50000), "push at the clamp over how far it gives way"
)
M.measured("push at the clamp by a spring scale, read a dial gauge")
allowed = M.given("allowed", r"\delta_{\mathrm{max}}", "0.5 mm", (0.01, 5), "allowed tip error")
M.pick("faces", "friction", "wood on wood, dry", {"friction": "low"}, "faces under the clamp")
section = M.include(SECTION, prefix="", label="")
EI, GA = section["bending_stiffness"], section["shear_stiffness"]
x = sp.Symbol("x", real=True)

a = M.relation("reach", "a", "mm")
M.equals(sp.Piecewise((a_1, sp.Eq(end, 0)), (a_2, True)), "the end that meets the work makes the lever")
_, rigid = play_at_tip(M, c, k, a, meaning="tip movement from the key's play")
bend = M.result("bending_tip", r"\delta_{\mathrm{b}}", "mm", "tip movement from bending", resolution=0.001)
M.step(
    sp.Integral(F * (a - x) / EI * (a - x), (x, 0, a)),
    "each slice, x from the clamp, bends by moment over stiffness and swings the tip on the arm that is left",
)
M.equals(F * a**3 / (3 * EI), "the sum is a third of the cube of the reach")
M.mistake(F * a**3 / (48 * EI), "the block was taken as a beam on two supports, but it is held at one end")
M.mistake(F * a**3 / (8 * EI), "the push was taken as spread over the block, but it stands at the tip")
shear = M.result("shear_tip", r"\delta_{\mathrm{s}}", "mm", "tip movement from shear", resolution=0.001)
M.step(sp.Integral(F / GA, (x, 0, a)), "each slice is sheared by push over shear stiffness")
M.equals(F * a / GA, "all slices carry the same push")
slip = M.result("slip_tip", r"\delta_{\mathrm{c}}", "mm", "tip movement from the clamp giving way", resolution=0.001)
M.equals(F / stiff, "below friction the clamp gives way in proportion to the push")
hold = M.result("holding_force", r"F_{\mathrm{h}}", "N", "push at which the clamp slides", resolution=1)
M.equals(mu * N, "friction of the one face under the clamp is all that holds the block along the track")
tip = M.result("tip_error", r"\delta", "mm", "tip error in all", resolution=0.001)
M.equals(rigid + bend + shear + slip, "small movements of one tip in one direction add")
share = M.result(
    "shear_share", r"\sigma_{\mathrm{s}}", "%", "part of shear in what the block itself gives way", resolution=0.1
)
M.step(a / GA / (a**3 / (3 * EI) + a / GA), "shear over bending and shear, both for a unit push")
M.equals(1 / (1 + GA * a**2 / (3 * EI)), "the push cancels")
M.result("tip_stiffness", r"k_{\mathrm{t}}", "N/mm", "push over elastic tip movement", resolution=0.1)
M.equals(
    1 / (a**3 / (3 * EI) + a / GA + 1 / stiff),
    "bending, shear and clamp give way one after the other, like springs in a row",
)

M.limit("tip", "the tip moves", tip, "<=", allowed)
M.mend("make the rib higher, the key longer or its play smaller")
M.limit("hold", "the work pushes with", F, "<=", hold)
M.mend("clamp harder or put a rougher face under the clamp")
M.limit("rib_fits", "the rib is wide", section["rib_width"], "<=", section["face_width"])
M.mend("make the rib narrower or the block larger")
M.wish("least tip movement", tip)
M.wish("least section", section["area"])
M.wish("most reach", a_1)
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
M.caution("The key is short for this reach: its play counts more than fourfold at the tip.", when=sp.Gt(a, 4 * k))
M.caution(
    "Shear is more than a tenth of what the block gives way: bending alone would mislead.",
    when=sp.Gt(share, sp.Rational(1, 10)),
)
MODEL = M.done()
