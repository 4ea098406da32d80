"""Pocket screws.

How deep do these pocket screws sit, where must the pocket's shoulder lie, and how hard may the joint be pulled?

In the trade's words: a pocket is bored at a slant into the face of a board, and a screw goes through its end into the
edge of another. How long a screw, where does the stop collar of the bit sit, and does the tip stay inside?

Picture: A section along the screw: from the shoulder of the pocket through the end of the held board, at the middle of
its thickness, slanting into the board that holds.

Assumptions:
- the screw leaves the held board at the middle of its thickness; both boards lie flush on the side away from the pocket
- the thread sits in the edge of the holding board, its slant lying across that board's grain
- the joint is pulled square; each screw is counted for its part along that pull, with no help of friction or glue
- the head bears flat on the shoulder and holds more than the thread does; push across is for the page of screws

Sources:
- ANSI/AWC NDS-2018, equation 12.2-2, withdrawal of wood screws: read in a transcription
- pocket bored at 15 degrees: common practice, no source

Notes: Bore one pocket in scrap of the same thickness, drive a screw, and saw the joint open along it.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.fastening.wood import NDS, state_withdrawal
from kit.subjects.safety import SCREWS

M = Model("fastening.pocket", __doc__)

L = M.given("length", "L", "32 ± 0.5 mm", (10, 120), "length of the screw under its head")
M.measured("caliper")
T = M.given("thread", "T", "25 ± 1 mm", (3, 120), "length of its thread")
M.measured("caliper")
D = M.given("diameter", "D", "4.2 ± 0.05 mm", (2, 6.35), "diameter over its thread")
M.measured("caliper")
D_h = M.given("head", r"D_{\mathrm{h}}", "9 ± 0.2 mm", (4, 25), "diameter of its head")
M.measured("caliper")
theta = M.given("slant", r"\theta", "15 ± 0.5 °", (5, 45), "angle of the pocket to the board's face")
M.source("common practice, no source")
a = M.given("seat", "a", "16 ± 0.5 mm", (3, 100), "wood from the pocket's shoulder to the joint, along the screw")
M.measured("rod in the pocket, from the end of the board")
t = M.given("thickness", "t", "19 ± 0.2 mm", (8, 60), "thickness of both boards")
M.measured("caliper")
b = M.given("main", "b", "50 ± 0.5 mm", (8, 500), "width of the holding board, square to the joint")
M.measured("caliper")
n = M.count("count", "n", 2, (1, 40), "screws of the joint")
G = M.given("gravity", "G", "0.42", (0.31, 0.73), "density of the holding board, over that of water")
M.source("Wood Handbook, table 5-3b, read in a transcription")
M.pick("wood", "woods", "yellow-poplar", {"gravity": "specific_gravity"}, "wood of the board that holds")
P = M.given("pull", "P", "150 ± 30 N", (1, 50000), "pull that opens the joint")
M.measured("spring scale, or weighed")
C_D = M.given("duration", r"C_{\mathrm{D}}", "0.9", (0.9, 1.6), "factor for how long the load stays")
M.source(f"{NDS}, table 2.3.2")
skin = M.given("skin", "c", "3 mm", (0, 20), "wood that must be left round the tip and over the head")
M.source("common practice, no source")
k = M.given("least", "k", "3", (1, 12), "least depth in the holding board, in diameters of the screw")
M.source("what holds in a cabinet: common practice, no source; the standard for structures asks for six")

p = M.result("penetration", "p", "mm", "length of screw in the holding board", resolution=0.1)
M.equals(sp.Max(L - a, 0), "what the wood before the joint leaves")
x = M.result("deep", "x", "mm", "how deep the tip sits, square to the joint", resolution=0.1)
M.equals(p * sp.cos(theta), "along the slant")
M.mistake(p, "the slant was left out")
y = M.relation("drift", "y", "mm", "how far the tip drifts from the middle of the thickness", resolution=0.1)
M.step(sp.sqrt(p**2 - x**2), "the screw is the long side of a right triangle")
M.equals(p * sp.sin(theta), "across the slant")
s = M.result(
    "shoulder", "s", "mm", "from the end of the board to the shoulder, along its face", resolution=0.5, setting=True
)
M.equals(a * sp.cos(theta), "the pocket's bit is stopped so far from the end")
o = M.relation("cover", "o", "mm", "from the middle of the shoulder to the far face", resolution=0.1)
M.equals(t / 2 + a * sp.sin(theta), "half the thickness, and what the slant rises")
p_t = M.relation("thread_depth", r"p_{\mathrm{t}}", "mm", "length of thread in the holding board", resolution=0.1)
M.equals(sp.Min(T, p), "the thread ends below the shank")
W = state_withdrawal(M, "W", G, D, p_t, "pull along a screw that draws it out")
F = M.result("pull_strength", "F", "N", "pull that the joint may take", resolution=1)
M.equals(n * C_D * W * sp.cos(theta), "the part of each screw's hold that lies along the pull")

M.limit("pull", "the joint is pulled by", P, "<=", F)
M.mend("take more or longer screws, or glue the joint as well")
M.limit("penetration", "the screw sits in the holding board by", p, ">=", k * D)
M.mend("take a longer screw, or bore the pocket deeper: its shoulder then lies closer to the joint")
M.limit("thread", "its thread is long by", T, "<=", L)
M.mend("measure again: a screw is no shorter than its thread")
M.limit("inside", "the tip sits deep by", x, "<=", b - skin)
M.mend("take a shorter screw: its tip would come out")
M.limit("face", "the tip drifts by", y, "<=", t / 2 - skin)
M.mend("take a shorter screw or thicker boards: its tip would come out of the face")
M.limit("head", "the shoulder's middle lies from the far face by", o, "<=", t - D_h / 2 * sp.cos(theta))
M.mend("move the shoulder closer to the joint: the head would stand out of the board")
M.caution(*SCREWS)
M.caution(
    "The screw sits less than six diameters deep: for furniture only; the standard for structures counts none such.",
    when=sp.Lt(p, 6 * D),
)
M.caution("Clamp both boards flat before you drive: a slanted screw pushes them out of line as it draws them together.")
MODEL = M.done()
