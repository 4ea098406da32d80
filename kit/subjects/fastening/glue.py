"""A glued miter, plain or with a spline.

Does this glued corner hold, plain or with a spline, and how many clamps does it take?

In the trade's words: a frame's corner is mitered and glued. Mitered ends are half end grain, and end grain drinks the
glue. Is a spline needed, how deep, and how hard must it be clamped?

Picture: A frame's corner from above: two boards that meet on the miter, a spline across it, and a clamp whose pressure
spreads at 45 degrees from its pad. Beside it, the section across the joint.

Assumptions:
- both boards are alike, and the miter halves the corner
- the pull is square to the miter; where it passes beside the middle, the bond is pulled unevenly, as a stiff bar
- glue breaks without yielding: bond of the miter and spline do not share, the stronger of the two counts
- a spline runs along the whole miter, its grain or that of its outer plies across it
- blocks turn the clamps' force square to the miter; their pressure spreads at 45 degrees
- good joints: dry wood, fresh close faces, the glue that its maker names for the use

Sources:
- end-grain butt joints cannot be made strong enough for ordinary service: Wood Handbook, FPL-GTR-190, chapter 10,
  end-grain joints, read
- strength at an angle to the grain after Hankinson: Wood Handbook, chapter 5, from memory
- rolling shear 18 to 28 % of shear along the grain: Wood Handbook, chapter 5, from memory
- pressure 700 kPa for light woods to 1700 kPa for the densest: Wood Handbook, chapter 10, from memory
- pressure spreads at 45 degrees from a pad: common practice, no source

Notes: A corner glued from scrap of the same wood and broken over the knee says more than any table: wood fibers must
cling to the broken glue line.
"""

import sympy as sp

from kit.core.model import Model, equal

M = Model("fastening.glue", __doc__)

b = M.given("width", "b", "60 ± 0.2 mm", (10, 500), "width of the boards")
M.measured("caliper")
t = M.given("thickness", "t", "20 ± 0.2 mm", (3, 100), "thickness of the boards")
M.measured("caliper")
beta = M.given("corner", r"\beta", "90 ± 0.1 °", (30, 180), "angle between the boards, inside")
M.measured("protractor")
joint = M.choice("joint", "v", ("plain", "with a spline"), "with a spline", "how the miter is joined")
s = M.given("spline", "s", "4 ± 0.1 mm", (1, 30), "thickness of the spline")
M.measured("caliper")
h = M.given("depth", "h", "15 ± 0.3 mm", (2, 100), "depth of its slot in each board, square to the miter")
M.measured("depth gauge")
F = M.given("pull", "F", "150 ± 30 N", (1, 50000), "pull across the miter")
M.measured("spring scale, or weighed")
r = M.given("arm", "r", "80 ± 5 mm", (0, 3000), "how far the pull passes beside the miter's middle")
M.measured("rule")
G = M.given("gravity", "G", "0.42", (0.31, 0.73), "density of the wood, over that of water")
M.source("Wood Handbook, table 5-3b, read in a transcription")
tau_w = M.given("wood_shear", r"\tau_{\mathrm{w}}", "8.2 MPa", (2, 30), "shear strength of the wood along its grain")
M.source("Wood Handbook, table 5-3b, read in a transcription")
M.pick("wood", "woods", "yellow-poplar", {"gravity": "specific_gravity", "wood_shear": "shear_along"}, "the wood")
tau_g = M.given("glue_shear", r"\tau_{\mathrm{g}}", "10 MPa", (0.5, 40), "shear strength of the glue")
M.source("about what good wood glue reaches: its maker's sheet comes first; common practice, no source")
q = M.given("end_share", "q", "0.1", (0.01, 0.5), "what end grain holds, over side grain")
M.source("end grain drinks the glue: common practice, no source")
k = M.given("rolling_share", "k", "0.18", (0.05, 0.5), "shear that rolls the fibers, over shear along them")
M.source("Wood Handbook, chapter 5, 18 to 28 %, from memory")
f_t = M.given(
    "spline_strength", r"f_{\mathrm{t}}", "30 MPa", (2, 150), "strength of the spline, pulled across the joint"
)
M.source("plywood, half its plies across: common practice, no source")
S = M.given("safety", "S", "3", (1, 20), "least strength over pull")
M.source("starved spots, wood that moves, loads that stay: common practice, no source")
N_a = M.given("clamp", r"N_{\mathrm{a}}", "1000 ± 200 N", (20, 50000), "force that one clamp gives")
M.measured("its maker's rating, or a bathroom scale between its jaws")
w = M.given("pad", "w", "25 ± 1 mm", (5, 500), "width of its pad along the miter")
M.measured("rule")
y = M.given("block", "y", "35 ± 2 mm", (0, 500), "block and wood between pad and miter")
M.measured("rule")
p_l = M.constant("light", r"p_{1}", "700 kPa", "pressure for light wood", "Wood Handbook, chapter 10, from memory")
p_d = M.constant("dense", r"p_{2}", "1700 kPa", "pressure for the densest", "Wood Handbook, chapter 10, from memory")

alpha = beta / 2
c = M.result("miter", "c", "mm", "length of the miter", resolution=0.1)
M.equals(b / sp.sin(alpha), "the board's width, cut at half the corner")
slot = M.relation("slot", r"t_{\mathrm{s}}", "mm", "thickness that the slot takes", resolution=0.1)
M.equals(sp.Piecewise((0, sp.Eq(joint, 0)), (s, True)), "none without a spline")
A = M.result("area", "A", "mm^2", "glued area of the miter", resolution=1)
M.equals((t - slot) * c, "the face less the slot")
A_s = M.result("spline_area", r"A_{\mathrm{s}}", "mm^2", "area that holds the spline in each board", resolution=1)
M.equals(sp.Piecewise((0, sp.Eq(joint, 0)), (2 * h * c, True)), "two walls of the slot, along the miter")
tau = M.relation("shear", r"\tau", "MPa", "shear strength of a bond along the grain", resolution=0.1)
M.equals(sp.Min(tau_w, tau_g), "wood or glue, whichever is weaker")
f_m = M.relation("miter_strength", r"f_{\mathrm{m}}", "MPa", "strength of the bond on the miter", resolution=0.01)
M.step(
    equal(1 / f_m, sp.cos(alpha) ** 2 / tau + sp.sin(alpha) ** 2 / (q * tau)),
    "between side grain and end grain after Hankinson: the miter leaves the grain at half the corner",
)
M.equals(q * tau / (sp.sin(alpha) ** 2 + q * sp.cos(alpha) ** 2), "solved for the strength")
M.mistake(tau * (sp.cos(alpha) ** 2 + q * sp.sin(alpha) ** 2), "the strengths were averaged by share")
f_s = M.relation("slot_strength", r"f_{\mathrm{s}}", "MPa", "strength of the bond in the slot", resolution=0.01)
M.step(
    equal(1 / f_s, sp.sin(alpha) ** 2 / tau + sp.cos(alpha) ** 2 / (k * tau)),
    "the spline pulls on side grain, yet askew, so that it rolls fibers as well",
)
M.equals(k * tau / (sp.cos(alpha) ** 2 + k * sp.sin(alpha) ** 2), "solved for the strength")
n_m = M.relation("miter_line", r"n_{\mathrm{m}}", "N/mm", "pull over length at which the miter opens", resolution=0.1)
M.equals(f_m * (t - slot), "its bond over the glued thickness")
n_s = M.relation("spline_line", r"n_{\mathrm{s}}", "N/mm", "pull over length at which the spline gives", resolution=0.1)
M.equals(
    sp.Piecewise((0, sp.Eq(joint, 0)), (sp.Min(2 * h * f_s, s * f_t), True)),
    "both walls let go, or the spline breaks",
)
x = sp.Symbol("x", real=True)
n = M.relation("line", "n", "N/mm", "pull over length at the worse end of the miter", resolution=0.1)
M.step(
    F / c + F * r * (c / 2) / sp.Integral(x**2, (x, -c / 2, c / 2)),
    "spread evenly, and its moment by the distance from the middle",
)
M.equals(F / c * (1 + 6 * r / c), "with the integral carried out")
M.mistake(F / c, "the arm of the pull was left out")
used = M.result("used", "u", "%", "share of the strength that is used, with safety", resolution=1, within=(0, 1e9))
M.equals(S * n / sp.Max(n_m, n_s), "the stronger of miter and spline")
p = M.result("pressure", "p", "kPa", "clamping pressure", resolution=10)
M.equals(
    p_l + (p_d - p_l) * sp.Max(0, sp.Min(1, (G - sp.Rational(7, 20)) / sp.Rational(3, 10))),
    "denser wood is stiffer and takes more to close; in between, straight from 0.35 to 0.65",
)
M.source("the pressures: Wood Handbook, from memory; the densities: common practice, no source")
N = M.result("force", "N", "N", "clamping force in all", resolution=10)
M.equals(p * t * c, "pressure times the joint's whole face")
a = M.relation("spread", "a", "mm", "length of miter that one clamp reaches", resolution=1)
M.equals(w + 2 * y, "45 degrees to either side of its pad")
m = M.result("clamps", "m", "", "clamps for this joint", resolution=1, whole=True)
M.equals(sp.Max(sp.ceiling(N / N_a), sp.ceiling(c / a)), "enough for the force, and near enough for the length")

M.limit("used", "the pull uses", used, "<=", sp.Integer(100), in_unit="%", resolution=1)
M.mend("add a spline or make it deeper, take thicker or wider boards, or hold the corner with screws or a gusset")
M.limit("slot", "the slot takes", slot, "<=", t / 3)
M.mend("take a thinner spline: the boards' cheeks beside it would split")
M.limit("deep", "the slot is deep by", sp.Piecewise((0, sp.Eq(joint, 0)), (h, True)), "<=", b / 2, in_unit="mm")
M.mend("cut the slot shallower: the corner would be cut to pieces")
M.caution(
    "An estimate, and no proof that any rule is kept: what carries people, or hangs over them, is for a qualified "
    "person and the local code, and is never held by a glued miter alone.",
    "Glue skins over within its open time, a few minutes, fewer when it is warm and dry: put the corner together dry "
    "first, with all clamps set, and glue only what you can clamp within the time on the maker's sheet.",
    "Air the room, wear gloves, and keep to the maker's temperatures: cold glue turns to chalk and holds nothing.",
    "Cut slots with the frame or board held in a carrier or jig, never by hand along a fence; unplug the machine "
    "before you set it, guards on, hands 150 mm (6 in) from the cutter.",
)
M.caution(
    "A plain glued miter opens as the wood swells and shrinks: trust it only where little pulls.", when=sp.Eq(joint, 0)
)
M.wish("least used", used)
MODEL = M.done()
