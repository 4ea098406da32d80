"""Cloth on its frame: staples and seam.

How many staples hold this cloth on its frame, how close do they stand, and does its seam hold?

In the trade's words: the air or a load pulls at the cloth's edge. How many staples, how long, in which wood? Does the
cloth tear at them first, or the seam open?

Picture: Along the edge: staples in a row over the folded cloth. In section, a staple whose legs are bent by a pull
across them.

Assumptions:
- the pull is spread evenly along the edge, and each staple takes that of half the way to its neighbors
- cloth is thin: at the wood's face it holds a leg from being pushed, and not from turning
- a leg that is pulled across crushes the wood before it and yields in bending below; that is all it may do
- a leg that is pulled along draws out as a plain nail does, at once; later, as wood dries, it holds less
- a seam of woven cloth breaks at its loops; both threads are alike

Sources:
- Forest Products Laboratory, Technical Note 236, nail-withdrawal resistance, 6900 G^(5/2) D for each inch: read
- ANSI/AWC NDS-2018, table 12.3.3, note 2, bearing of thin dowels, and table I1: read in a transcription
- seam strength of woven cloth, stitches times thread times 1.5 for lockstitch, 1.7 for chainstitch: a thread maker's
  bulletin, read

Notes: A strip of the cloth stapled to scrap of the same wood and pulled by a spring scale says more than any table.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.fastening.wood import DENSER, NDS, state_bearing
from kit.subjects.safety import SEWING

M = Model("fastening.cloth", __doc__)

N = M.given("pull", "N", "0.6 ± 0.1 N/mm", (0.001, 100), "pull at the cloth's edge, over its length")
M.measured("from the pull of the air, or weight over length")
ell = M.given("edge", r"\ell", "900 ± 2 mm", (30, 10000), "length of the edge")
M.measured("tape")
way = M.choice("way", "w", ("across the legs", "along the legs"), "across the legs", "how the staples are pulled")
d = M.given("wire", "d", "1.2 ± 0.05 mm", (0.5, 2), "thickness of a leg")
M.measured("caliper")
c = M.given("crown", "c", "10 ± 0.2 mm", (4, 30), "width of the crown")
M.measured("caliper")
p = M.given("depth", "p", "10 ± 0.5 mm", (2, 50), "how deep the legs sit in the wood")
M.measured("leg, less cloth and batten")
G = M.given("gravity", "G", "0.42", (0.31, 0.73), "density of the frame's wood, over that of water")
M.source("Wood Handbook, table 5-3b, read in a transcription")
M.pick("wood", "woods", "yellow-poplar", {"gravity": "specific_gravity"}, "wood of the frame")
F_y = M.given("bend_yield", r"F_{\mathrm{y}}", "690 MPa", (300, 1500), "stress at which a leg yields in bending")
M.source(f"{NDS}, table I1, its thinnest nails")
f = M.given("strength", "f", "20 ± 5 N/mm", (0.5, 500), "pull over its width at which the cloth tears at a staple")
M.measured("spring scale at a strip stapled to scrap: pull over the crown's width")
a_most = M.given("most", r"a_{\mathrm{max}}", "40 mm", (5, 200), "widest spacing at which the edge lies flat")
M.source("common practice, no source")
stitch = M.choice("stitch", "m", ("lockstitch", "chainstitch"), "lockstitch", "stitch of the seam")
q = M.given("stitches", "q", "0.3 ± 0.02 1/mm", (0.05, 1), "stitches of the seam over its length")
M.measured("count those along a rule")
T = M.given("thread", "T", "40 ± 4 N", (2, 500), "pull at which the thread breaks")
M.measured("maker's table, or a spring scale")
S = M.given("safety", "S", "3", (1, 20), "least strength over pull")
M.source("wood that moves, cloth that ages, staples that miss: common practice, no source")
h_0 = M.constant(
    "withdrawal_base", r"h_{0}", "6900 psi", "base of a nail's withdrawal", "FPL, Technical Note 236, read"
)
f_0 = state_bearing(M)

qb = M.relation("bearing", r"q_{\mathrm{b}}", "N/mm", "what the wood bears, over a leg's depth", resolution=0.1)
M.equals(f_0 * G**DENSER * d, "bearing strength of the wood over the leg's width")
M_y = M.relation("bending", r"M_{\mathrm{y}}", "N*mm", "moment at which a leg yields", resolution=1)
M.equals(F_y * d**3 / 6, "a round bar that is plastic all through")
x = sp.Symbol("x", real=True)
z = M.relation("yield_depth", "z", "mm", "depth at which a leg yields", resolution=0.1)
M.step(equal(M_y, sp.Integral(qb * x, (x, 0, z))), "above it the wood pushes back all along, x from the face")
M.equals(sp.sqrt(2 * M_y / qb), "solved for the depth")
across = M.relation("across", r"F_{\perp}", "N", "pull across that bends both legs of a staple", resolution=1)
M.step(2 * sp.Integral(qb, (x, 0, z)), "so much the wood pushes back above that depth, on each leg")
M.equals(2 * sp.sqrt(2 * M_y * qb), "with the depth put in")
M.mistake(sp.sqrt(2 * M_y * qb), "only one leg was counted")
along = M.relation("along", r"F_{\parallel}", "N", "pull along that draws both legs of a staple", resolution=1)
M.equals(2 * h_0 * G ** sp.Rational(5, 2) * d * p, "two plain nails as thick and as deep")
tear = M.relation("tear", r"F_{\mathrm{t}}", "N", "pull at which the cloth tears at a staple", resolution=1)
M.equals(f * c, "the cloth hangs on the width of the crown")
F = M.result("staple", "F", "N", "pull that one staple may take", resolution=0.1)
M.equals(
    sp.Min(sp.Piecewise((across, sp.Eq(way, 0)), (along, True)), tear) / S,
    "wood, wire or cloth, whichever gives way first, with safety",
)
a_0 = M.relation("holding", r"a_{0}", "mm", "spacing at which the staples just hold", resolution=0.1)
M.equals(F / N, "each takes the pull of its spacing")
n = M.result("count", "n", "", "staples along the edge", resolution=1, whole=True)
M.equals(sp.ceiling(ell / sp.Min(a_0, a_most)) + 1, "spacings that are close enough, and one staple more")
a = M.result("spacing", "a", "mm", "spacing to mark", resolution=0.5, setting=True)
M.equals(ell / (n - 1), "the edge divided evenly")
seam = M.result("seam", r"f_{\mathrm{s}}", "N/mm", "pull over its length at which the seam opens", resolution=0.1)
M.equals(
    q * T * sp.Piecewise((sp.Rational(3, 2), sp.Eq(stitch, 0)), (sp.Rational(17, 10), True)),
    "each stitch holds by the loops of two threads, which are weaker than the threads",
)

M.limit("apart", "staples stand apart by", a, ">=", sp.Rational(5, 4) * c)
M.mend("take longer or stronger staples, a batten over the edge, or a second row: so close they split the wood")
M.limit("deep", "the legs sit deep by", p, ">=", 2 * z)
M.mend("take longer legs: these are levered out before they bend")
M.limit("seam", "the seam is pulled by", N, "<=", seam / S)
M.mend("sew it twice, shorter stitches, or take a stronger thread")
M.limit("cloth", "the cloth is pulled by", N, "<=", f / S)
M.mend("fold the edge over twice, or take stronger cloth")
M.caution(*SEWING)
M.caution(
    "Staples pulled along their legs come out by themselves as the wood dries: turn the edge so that they are pulled "
    "across, or hold it under a screwed batten.",
    when=sp.Eq(way, 1),
)
MODEL = M.done()
