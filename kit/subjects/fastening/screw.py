"""Screws between two boards.

How much do these screws hold, pulled out and pushed aside, and where and how deep must they sit?

In the trade's words: so many screws through this board into that one, perhaps with a pad between. How hard may one pull
and push, how long must they be, how wide is the pilot hole, and how far from edge and end do they stay?

Picture: A section along a screw: its head lies in the board that is held, its thread in the board that holds; between
them there may be a pad.

Assumptions:
- wood is dry and stays so, screws are of steel with a rolled thread, below 6.35 mm (1/4 in), each shares alike
- a screw that is pushed aside crushes the wood and bends until it yields in the easiest of six ways; a gap bends it
  more
- the threads are in the side grain; in end grain nothing may be hung on them, and aside they hold two thirds
- density is that of the kit's tables at 12 % of moisture, some percent below that of the standard: on the safe side
- a plug of screws close together, or a board that is half split already, is not counted

Sources:
- ANSI/AWC NDS-2018, 12.2.2 withdrawal, 12.3 yield modes and their reduction, 12.3.3 bearing, 12.4.1 both together,
  12.5.2 end grain, tables L3 and I1: read in a transcription with page numbers
- AWC TR-12, General dowel equations: yield modes with a gap, from memory; without a gap they are those of the NDS
- NDS-2018, 12.2.5 head pull-through; 12.1.5 lead holes; commentary, edge and end distances of wood screws: from memory

Notes: The numbers are those for structures in buildings, with safety in them. This page proves no compliance.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.fastening.wood import DENSER, NDS, state_bearing, state_withdrawal
from kit.subjects.safety import SCREWS

M = Model("fastening.screw", __doc__)

D = M.given("diameter", "D", "4.826 mm", (3.4, 6.3), "diameter of the screw over its thread")
M.measured("caliper; or the screw's number")
M.source(f"{NDS}, table L3")
D_r = M.given("root", r"D_{\mathrm{r}}", "3.861 mm", (2.6, 5.2), "diameter at the root of the thread")
M.measured("caliper between the threads")
M.source(f"{NDS}, table L3")
D_h = M.given("head", r"D_{\mathrm{h}}", "9.22 mm", (5, 16), "diameter of the head")
M.measured("caliper")
M.source(f"{NDS}, table L3")
F_y = M.given("bend_yield", r"F_{\mathrm{y}}", "551.6 MPa", (300, 1000), "stress at which the screw yields in bending")
M.source(f"{NDS}, table I1")
M.pick(
    "screw",
    "wood_screws",
    "No. 10",
    {"diameter": "diameter", "root": "root", "head": "head", "bend_yield": "bend_yield"},
    "screw",
)
L = M.given("length", "L", "50 ± 0.5 mm", (12, 150), "length of the screw")
M.measured("rule, from under the head")
T = M.given("thread", "T", "33 ± 1 mm", (8, 150), "length of its thread")
M.measured("rule; two thirds of the length at least")
n = M.count("count", "n", 4, (1, 200), "screws that share the load")
t_s = M.given("side", r"t_{\mathrm{s}}", "18 ± 0.3 mm", (3, 60), "thickness of the board that is held, under the head")
M.measured("caliper, less what the head is sunk")
gap = M.given("gap", "g", "0 ± 0.1 mm", (0, 20), "pad or gap between the boards")
M.measured("caliper")
t_m = M.given("main", r"t_{\mathrm{m}}", "40 ± 0.5 mm", (6, 200), "depth of the board that holds, along the screw")
M.measured("caliper")
G_s = M.given("side_gravity", r"G_{\mathrm{s}}", "0.5", (0.31, 0.73), "density of the held board, over that of water")
M.source("Wood Handbook, FPL-GTR-190, table 12-1, from memory")
M.pick("side_board", "sheet_goods", "plywood", {"side_gravity": "specific_gravity"}, "board that is held")
G_m = M.given(
    "main_gravity", r"G_{\mathrm{m}}", "0.63", (0.31, 0.73), "density of the holding board, over that of water"
)
M.source("Wood Handbook, table 5-3b, read in a transcription")
M.pick("main_wood", "woods", "hard maple", {"main_gravity": "specific_gravity"}, "wood of the board that holds")
grain = M.choice(
    "grain", "w", ("side grain", "end grain"), "side grain", "where the thread sits in the board that holds"
)
bored = M.choice("bored", "b", ("bored", "not bored"), "bored", "whether pilot holes are bored")
e = M.given("edge", "e", "20 ± 1 mm", (1, 500), "from a screw to the nearest edge beside the grain")
a = M.given("end", "a", "60 ± 2 mm", (1, 2000), "from a screw to the nearest end of the grain")
s = M.given("spacing", "s", "80 ± 2 mm", (1, 2000), "from screw to screw along the grain")
M.measured("rule")
P_w = M.given("pull", r"P_{\mathrm{w}}", "300 ± 50 N", (0, 50000), "pull on all screws together, along them")
M.measured("weighed, or from a part that pulls")
P_l = M.given("push", r"P_{\mathrm{l}}", "400 ± 50 N", (1, 50000), "push on all screws together, across them")
M.measured("weighed, or from a part that pushes")
C_D = M.given("duration", r"C_{\mathrm{D}}", "0.9", (0.9, 1.6), "factor for how long the load stays")
M.measured("0.9 for good, 1 ten years in all, 1.25 a week, 1.6 some minutes")
M.source(f"{NDS}, table 2.3.2")
skin = M.given("skin", "c", "3 mm", (0, 50), "wood that must be left before the tip")
M.source("common practice, no source")
h_0 = M.constant("head_base", r"h_{0}", "690 psi", "base of the pull-through value", "NDS-2018, 12.2.5, from memory")
f_0 = state_bearing(M)
trace = D / 100
inch = M.constant("inch", "i", "1 in", "an inch", "definition")

p = M.result("penetration", "p", "mm", "how deep the screw sits in the board that holds", resolution=0.1)
M.equals(sp.Max(L - t_s - gap, 0), "what is left of its length, nothing where it is too short")
p_t = M.relation("thread_depth", r"p_{\mathrm{t}}", "mm", "length of thread in that board", resolution=0.1)
M.equals(sp.Min(T, sp.Max(p, trace)), "the thread ends below the shank; a screw too short is counted with a trace")
W = state_withdrawal(M, r"W_{\mathrm{t}}", G_m, D, p_t, "pull that draws one screw out")
H = M.relation("head_one", r"W_{\mathrm{h}}", "N", "pull that draws one head through", resolution=1)
M.equals(
    sp.pi * h_0 * G_s**2 * D_h * sp.Min(t_s, sp.Rational(5, 2) * D_h),
    "the wood shears round the head; more than two and a half heads deep it helps no more",
)
W_n = M.result("pull_strength", "W", "N", "pull that all screws together hold", resolution=1)
M.equals(
    sp.Piecewise((n * C_D * sp.Min(W, H), sp.Eq(grain, 0)), (0, True)),
    "thread or head, whichever gives way first; in end grain nothing counts",
)

q_s = M.relation("side_bearing", r"q_{\mathrm{s}}", "N/mm", "what the held board bears, over the screw's length")
M.equals(f_0 * G_s**DENSER * D_r, "bearing strength of its wood, over the width of the screw's root")
q_m = M.relation("main_bearing", r"q_{\mathrm{m}}", "N/mm", "what the holding board bears, over the screw's length")
M.equals(f_0 * G_m**DENSER * D_r, "the same there")
m = M.relation("bending", r"M_{\mathrm{y}}", "N*mm", "moment at which the screw yields", resolution=1)
M.equals(F_y * D_r**3 / 6, "a round bar that is plastic all through")
l_m = M.relation("bearing_length", r"\ell_{\mathrm{m}}", "mm", "length that bears in the holding board", resolution=0.1)
M.equals(sp.Max(p - D, trace), "the tip, two diameters long, counts half; of one not as deep a trace is counted")
Z_1 = M.relation("crush_main", r"Z_{\mathrm{I,m}}", "N", "push that crushes the holding board", resolution=1)
M.equals(q_m * l_m, "all along the screw")
Z_2 = M.relation("crush_side", r"Z_{\mathrm{I,s}}", "N", "push that crushes the held board", resolution=1)
M.equals(q_s * t_s, "all along the screw")


def yields(name: str, tex: str, meaning: str, soft: sp.Expr, arm: sp.Expr, held: sp.Expr, why: str) -> sp.Symbol:
    """State the push of a way to yield: the moments of its crushed lengths and its arm against those that hold."""
    Z = M.relation(name, rf"Z_{{\mathrm{{{tex}}}}}", "N", meaning, resolution=1)
    M.step(equal(soft * Z**2 + arm * Z, held), why)
    M.equals((sp.sqrt(arm**2 + 4 * soft * held) - arm) / (2 * soft), "solved for the push")
    return Z


Z_3 = yields(
    "turn",
    "II",
    "push that turns the stiff screw in both boards",
    1 / (4 * q_s) + 1 / (4 * q_m),
    t_s / 2 + gap + l_m / 2,
    q_s * t_s**2 / 4 + q_m * l_m**2 / 4,
    "it turns about a point in each board, and the wood is crushed either side of it",
)
Z_4 = yields(
    "bend_side",
    r"III,m",
    "push that bends the screw in the held board",
    1 / (2 * q_s) + 1 / (4 * q_m),
    gap + l_m / 2,
    m + q_m * l_m**2 / 4,
    "it yields in the held board and turns in the other",
)
Z_5 = yields(
    "bend_main",
    r"III,s",
    "push that bends the screw in the holding board",
    1 / (4 * q_s) + 1 / (2 * q_m),
    t_s / 2 + gap,
    q_s * t_s**2 / 4 + m,
    "it yields in the holding board and turns in the other",
)
Z_6 = yields(
    "bend_both",
    "IV",
    "push that bends the screw in both boards",
    1 / (2 * q_s) + 1 / (2 * q_m),
    gap,
    2 * m,
    "it yields in both boards",
)
R = M.relation("reduction", r"R_{\mathrm{d}}", "", "reduction from yielding to what may be used", resolution=0.01)
M.equals(
    sp.Piecewise((sp.Rational(11, 5), D_r <= sp.Rational(17, 100) * inch), (10 * D_r / inch + sp.Rational(1, 2), True)),
    "safety, and what a load that stays takes off",
)
M.source(f"{NDS}, table 12.3.1B")
Z_n = M.result("push_strength", "Z", "N", "push that all screws together hold", resolution=1)
M.equals(
    n
    * C_D
    * sp.Piecewise((1, sp.Eq(grain, 0)), (sp.Rational(67, 100), True))
    * sp.Min(Z_1, Z_2, Z_3, Z_4, Z_5, Z_6)
    / R,
    "the easiest of the six ways, for each screw",
)
used = M.result("used", "u", "%", "share of both that is used, together", resolution=1, within=(0, 1e9))
M.step(
    (P_l / sp.sqrt(P_l**2 + P_w**2) * P_l / Z_n + P_w / sp.sqrt(P_l**2 + P_w**2) * P_w / (n * C_D * sp.Min(W, H))),
    "the load over what holds in its direction, between push and pull after Hankinson",
)
M.equals((P_l**2 / Z_n + P_w**2 / (n * C_D * sp.Min(W, H))) / sp.sqrt(P_l**2 + P_w**2), "cosine and sine put in")
M.result("pilot", r"D_{\mathrm{p}}", "mm", "pilot hole in the holding board", resolution=0.1, setting=True)
M.equals(
    D_r * sp.Piecewise((sp.Rational(9, 10), G_m > sp.Rational(3, 5)), (sp.Rational(7, 10), True)),
    "nine tenths of the root in hard wood, seven tenths in softer",
)
M.source("NDS-2018, 12.1.5.2, lead holes, from memory")
M.result("best_length", r"L_{10}", "mm", "length that puts ten diameters into the holding board", resolution=1)
M.equals(t_s + gap + 10 * D, "more helps little")
k = M.relation("apart", "k", "", "diameters to the end and to the next screw")
M.equals(sp.Piecewise((10, sp.Eq(bored, 0)), (15, True)), "a pilot hole keeps the wood from splitting")
M.source("NDS-2018, commentary to 12.1.5, from memory")

M.limit("pull", "all screws are pulled by", P_w, "<=", W_n)
M.mend("take more or longer screws, a wider head or a washer; never hang anything on screws in end grain")
M.limit("used", "pull and push together use", used, "<=", sp.Integer(100), in_unit="%", resolution=1)
M.mend("take more, thicker or longer screws")
M.limit("penetration", "the screw sits deep by", p, ">=", 6 * D)
M.mend("take a longer screw, or sink its head no deeper")
M.limit("thread", "its thread is long by", T, "<=", L)
M.mend("measure again: a screw is no shorter than its thread")
M.limit("root", "the root of its thread is thick by", D_r, "<=", D)
M.mend("measure again: the root lies inside the thread")
M.limit("inside", "head to tip is", L, "<=", t_s + gap + t_m - skin)
M.mend("take a shorter screw: its tip would come out")
M.limit("edge", "from the edge it stays", e, ">=", sp.Rational(5, 2) * D)
M.mend("move the screw inward, or the board splits")
M.limit("end", "from the end it stays", a, ">=", k * D)
M.mend("move the screw away from the end, bore a pilot hole, or take a thinner screw")
M.limit("spacing", "from screw to screw it is", s, ">=", k * D)
M.mend("set the screws apart, or off one line of the grain")
M.caution(*SCREWS)
M.caution(
    "Over a gap a screw is bent as well: clamp the boards together, or let the pad be hard and wide.",
    when=sp.Gt(gap, D),
)
M.wish("least used", used)
MODEL = M.done()
