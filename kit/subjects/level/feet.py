"""Four feet, rocking and weight.

How much does a machine on four feet rock, which foot hangs, and how is that to be mended?

In the trade's words: the machine stands on four pads and rocks. How far out is it, which foot is off, which pads do I
change and by how much, and what weight does each foot carry once it stands?

Picture: From above: feet 1 to 4 counterclockwise at the corners of a rectangle, 1 at the near left, and the center of
mass near the middle; the machine rocks about the line between two opposite feet.

Assumptions:
- the base is stiff and its feet end in one plane
- the twist is small against the base
- rubber feet give way in proportion to their weight, all alike, and do not pull

Sources:
- J. L. Meriam and L. G. Kraige, Statics: equilibrium of a rigid body, from memory
- JCGM 100:2008 (GUM), 5.1.2, for the uncertainty of the twist

Notes: On hard feet the machine stands on the higher pair of opposite feet and on that foot of the other pair toward
which its weight lies. Rubber feet under more weight give way more, and so take up a small twist. A foot does not pull.
Also: least squares.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.level.places import gravity
from kit.subjects.safety import HEAVY_MACHINE

M = Model("level.feet", __doc__)
a = M.given("length", "a", "420 ± 1 mm", (100, 2000), "between feet, along x")
M.measured("tape")
b = M.given("depth", "b", "360 ± 1 mm", (100, 2000), "between feet, along y")
M.measured("tape")
corners = ("near left", "near right", "far right", "far left")
h = []
for i, (where, value) in enumerate(zip(corners, (2.7, 2.9, 3.3, 2.9), strict=True), start=1):
    h_i = M.given(
        f"height_{i}",
        f"h_{{{i}}}",
        f"{value} ± 0.05 mm",
        (0, 60),
        f"top of the pad at foot {i}, {where}, above one reference",
    )
    M.measured("calipers on pad and bench")
    h.append(h_i)
u_h = M.given("u_height", r"u_{\mathrm{h}}", "0.03 mm", (0, 1), "standard uncertainty of each height")
m = M.given("mass", "m", "28 ± 1 kg", (2, 500), "mass of the machine")
M.measured("bathroom scale")
e_x = M.given("center_x", r"e_{x}", "25 ± 5 mm", (-50, 50), "center of mass from the middle, along x")
M.measured("weigh one end on a scale, or balance it on a batten")
e_y = M.given("center_y", r"e_{y}", "40 ± 5 mm", (-50, 50), "center of mass from the middle, along y")
M.measured("weigh one end on a scale, or balance it on a batten")
k = M.given("stiffness", "k", "80 ± 20 N/mm", (5, 20000), "stiffness of one foot: weight over how far it gives way")
M.measured("calipers on the foot, free and loaded")
H = M.given("blade_height", "H", "180 ± 5 mm", (0, 1500), "height of the cut above the feet")
M.measured("tape")
allowed = M.given(
    "allowed",
    r"r_{\mathrm{max}}",
    "0.3 mm",
    (0.01, 20),
    "movement at the cut that you can allow, should the feet be hard",
)
g = gravity(M)
signs = (1, -1, 1, -1)
x = [-a / 2, a / 2, a / 2, -a / 2]
y = [-b / 2, -b / 2, b / 2, b / 2]

W = M.relation("weight", "W", "N", "weight of the machine", resolution=1)
M.equals(m * g, "mass times free fall")
twist = M.result(
    "twist",
    r"\delta",
    "mm",
    "twist of the four heights: how far one foot hangs; above zero, 1 and 3 are the higher pair",
    resolution=0.01,
    signed=True,
)
M.equals(
    h[0] - h[1] + h[2] - h[3],
    "of four heights in one plane the two opposite pairs have the same sum; what is left is the twist",
)
M.result("u_twist", r"u_{\delta}", "mm", "standard uncertainty of the twist", resolution=0.01)
M.equals(2 * u_h, "four independent heights, each counted once, add by their squares")
M.source("JCGM 100:2008, 5.1.2")
hangs = M.result("hanging", r"i_{\mathrm{hang}}", "", "foot that hangs on hard pads; 0 for none", whole=True)
M.equals(
    sp.Piecewise(
        (sp.Piecewise((4, sp.Gt(b * e_x, a * e_y)), (2, True)), sp.Gt(twist, 0)),
        (sp.Piecewise((1, sp.Gt(b * e_x, -a * e_y)), (3, True)), sp.Lt(twist, 0)),
        (0, True),
    ),
    "the weight falls to one side of the line between the higher pair and holds the foot on that side down; the other "
    "hangs",
)
split = M.result(
    "split",
    r"\Delta h",
    "mm",
    "take so much off the pads at 1 and 3, and add it at 2 and 4",
    resolution=0.01,
    signed=True,
)
M.step(equal(h[0] + h[2] - 2 * split, h[1] + h[3] + 2 * split), "afterwards both pairs have the same sum")
M.equals(
    twist / 4,
    "a quarter of the twist, up and down in turn, is what no plane can follow: it has neither a mean nor a lean",
)
arm = M.relation("arm", "d", "mm", "distance of a foot from the line that the machine rocks about", resolution=1)
M.equals(a * b / sp.sqrt(a**2 + b**2), "twice the area of half the rectangle over its diagonal")
phi = M.relation("rock", r"\varphi", "deg", "angle of rocking on hard feet", resolution=0.001)
M.equals(sp.Abs(twist) / arm, "as one foot comes down by the twist, the machine turns about that line")
sway = M.result("sway", "r", "mm", "movement at the cut as the machine rocks, on hard feet", resolution=0.01)
M.equals(phi * H, "a small turn moves the cut by the turn times its height")
static = []
for i, (x_i, y_i) in enumerate(zip(x, y, strict=True), start=1):
    share = M.relation(f"share_{i}", f"W_{{{i}}}", "N", f"weight on foot {i} if there were no twist", resolution=0.1)
    M.equals(
        W / 4 * (1 + 4 * e_x * x_i / a**2 + 4 * e_y * y_i / b**2),
        "springs alike under a stiff base share the weight evenly but for the center's place: a level slope along x "
        "and y that makes up its moments",
    )
    static.append(share)
F: list[sp.Symbol] = []
for i, (share, sign) in enumerate(zip(static, signs, strict=True), start=1):
    force = M.result(
        f"force_{i}",
        f"F_{{{i}}}",
        "N",
        f"weight on foot {i}",
        resolution=0.1,
    )
    if i == 4:
        M.step(
            equal(
                sp.Matrix([[1] * 4, x, y, list(signs)]) * sp.Matrix([*F, force]),
                sp.Matrix([W, W * e_x, W * e_y, k * twist]),
            ),
            "they carry the weight and its moments about the middle, and after giving way by F/k the feet lie in one "
            "plane",
        )
    M.equals(
        share + sign * k * twist / 4,
        "a higher pair takes more and a lower pair less, each foot a quarter of what the twist would press out of one "
        "spring",
    )
    F.append(force)
sinks = []
for i, force in enumerate(F, start=1):
    sink = M.result(f"sink_{i}", f"y_{{{i}}}", "mm", f"how far foot {i} gives way", resolution=0.01)
    M.equals(force / k, "weight over stiffness")
    sinks.append(sink)
along, across = sinks[1] + sinks[2] - sinks[0] - sinks[3], sinks[2] + sinks[3] - sinks[0] - sinks[1]
M.result("lean", r"\theta", "mm/m", "lean of the machine as its feet give way", resolution=0.01)
M.step(W / k * sp.sqrt(e_x**2 / a**4 + e_y**2 / b**4), "the twist falls out: only the center's place leans it")
M.equals(
    sp.sqrt((along / (2 * a)) ** 2 + (across / (2 * b)) ** 2),
    "its slopes along x and y are the differences of the ends' means over the feet's distances, and add by their "
    "squares",
)
taken = M.result(
    "twist_taken", r"\delta_{\mathrm{max}}", "mm", "twist that the rubber takes up before a foot hangs", resolution=0.01
)
M.equals(
    4 / k * sp.Piecewise((sp.Min(static[1], static[3]), sp.Gt(twist, 0)), (sp.Min(static[0], static[2]), True)),
    "the lightest foot of the low pair lets go first",
)
M.result("sink", "y", "mm", "how far the feet give way on average", resolution=0.01)
M.step(sum(F) / (4 * k), "the mean of weight over stiffness; the rest falls out")
M.equals(W / (4 * k), "four springs side by side carry the weight")

M.limit("stands", "the feet are out of plane by", sp.Abs(twist), "<=", taken, in_unit="mm", resolution=0.01)
M.mend("take the split off the pads of the higher pair and add it at the lower pair")
M.limit("upright", "without twist the lightest foot carries", sp.Min(*static), ">=", 0, in_unit="N", resolution=0.1)
M.mend("set the feet farther apart, or the machine's weight nearer to their middle: it falls over")
M.limit("sway", "on hard feet, rocking moves the cut by", sway, "<=", allowed)
M.mend("split the twist over the four pads, or use three feet")
M.caution(*HEAVY_MACHINE)
M.caution("Try for rocking by hand at each corner with the machine unplugged, and once more after a week of work.")
M.caution(
    "The center of mass leaves one foot with less than a tenth of the weight: it lifts easily.",
    when=sp.Lt(sp.Min(*static), W / 10),
)
MODEL = M.done()
