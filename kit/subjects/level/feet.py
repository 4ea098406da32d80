"""Four feet that do not lie in one plane: which one hangs, how much does the machine rock, and does rubber take it up?

The question in the trade's words: the machine stands on four pads and rocks. How far out is it, which foot is off,
which pads do I change and by how much, and what weight does each foot carry once it stands?

The picture, from above: feet 1 to 4 counterclockwise at the corners of a rectangle, 1 at the near left; the center of
mass near the middle. On hard feet the machine stands on the higher pair of opposite feet and on that foot of the
other pair toward which its weight lies; it rocks about the line between the higher pair. Rubber feet under more
weight give way more, and so take up a small twist.

Assumptions: the machine's base is stiff, and its feet end in one plane; the twist is small; rubber feet give way in
proportion to weight, all alike; a foot does not pull.

Sources: statics (sums of forces and moments), e.g. J. L. Meriam and L. G. Kraige, Statics, from memory; least squares.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.level.places import gravity
from kit.subjects.safety import HEAVY_MACHINE

M = Model(
    "level.feet",
    title="Four feet, rocking and weight",
    question="How much does a machine on four feet rock, which foot hangs, and how is that to be mended?",
    picture="From above: feet 1 to 4 counterclockwise at the corners of a rectangle, 1 at the near left, and the "
    "center of mass near the middle; the machine rocks about the line between two opposite feet.",
    assumptions=(
        "the base is stiff and its feet end in one plane",
        "the twist is small against the base",
        "rubber feet give way in proportion to their weight, all alike, and do not pull",
    ),
    sources=(
        "J. L. Meriam and L. G. Kraige, Statics: equilibrium of a rigid body, from memory",
        "JCGM 100:2008 (GUM), 5.1.2, for the uncertainty of the twist",
    ),
)
a = M.given("length", "a", "mm", 420, span=(100, 2000), half=1, meaning="between feet, along x", how="tape")
b = M.given("depth", "b", "mm", 360, span=(100, 2000), half=1, meaning="between feet, along y", how="tape")
corners = ("near left", "near right", "far right", "far left")
h = [
    M.given(
        f"height_{i}",
        f"h_{{{i}}}",
        "mm",
        value,
        span=(0, 60),
        half=0.05,
        meaning=f"top of the pad at foot {i}, {where}, above one reference",
        how="calipers on pad and bench",
    )
    for i, (where, value) in enumerate(zip(corners, (2.7, 2.9, 3.3, 2.9), strict=True), start=1)
]
u_h = M.given(
    "u_height", r"u_{\mathrm{h}}", "mm", 0.03, span=(0, 1), meaning="standard uncertainty of each height"
)
m = M.given("mass", "m", "kg", 28, span=(2, 500), half=1, meaning="mass of the machine", how="bathroom scale")
e_x = M.given("center_x", r"e_{x}", "mm", 25, span=(-50, 50), half=5, meaning="center of mass from the middle, along x",
              how="weigh one end on a scale, or balance it on a batten")  # fmt: skip
e_y = M.given("center_y", r"e_{y}", "mm", 40, span=(-50, 50), half=5, meaning="center of mass from the middle, along y",
              how="weigh one end on a scale, or balance it on a batten")  # fmt: skip
k = M.given("stiffness", "k", "N/mm", 80, span=(5, 20000), half=20,
            meaning="stiffness of one foot: weight over how far it gives way",
            how="calipers on the foot, free and loaded", source="invented demo value")  # fmt: skip
H = M.given(
    "blade_height", "H", "mm", 180, span=(0, 1500), half=5, meaning="height of the cut above the feet",
    how="tape",
)  # fmt: skip
allowed = M.given("allowed", r"r_{\mathrm{max}}", "mm", 0.3, span=(0.01, 20),
                  meaning="movement at the cut that you can allow, should the feet be hard")  # fmt: skip
g = gravity(M)
signs = (1, -1, 1, -1)
x = [-a / 2, a / 2, a / 2, -a / 2]
y = [-b / 2, -b / 2, b / 2, b / 2]

W = M.relation(
    "weight", "W", "N", m * g, because="mass times free fall", resolution=1, meaning="weight of the machine"
)
twist = M.result(
    "twist", r"\delta", "mm", h[0] - h[1] + h[2] - h[3], resolution=0.01,
    meaning="twist of the four heights: how far one foot hangs; above zero, 1 and 3 are the higher pair",
    because="of four heights in one plane the two opposite pairs have the same sum; what is left is the twist",
)  # fmt: skip
M.result("u_twist", r"u_{\delta}", "mm", 2 * u_h, resolution=0.01, source="JCGM 100:2008, 5.1.2",
         meaning="standard uncertainty of the twist", because="four independent heights, each counted once, add "
         "by their squares")  # fmt: skip
hangs = M.result(
    "hanging", r"i_{\mathrm{hang}}", "", sp.Piecewise(
        (sp.Piecewise((4, sp.Gt(b * e_x, a * e_y)), (2, True)), sp.Gt(twist, 0)),
        (sp.Piecewise((1, sp.Gt(b * e_x, -a * e_y)), (3, True)), sp.Lt(twist, 0)),
        (0, True)),
    meaning="foot that hangs on hard pads; 0 for none",
    because="the weight falls to one side of the line between the higher pair and holds the foot on that side down; "
    "the other hangs",
)  # fmt: skip
change = sp.Symbol("split", real=True)
split = M.result(
    "split", r"\Delta h", "mm", twist / 4, resolution=0.01,
    meaning="take so much off the pads at 1 and 3, and add it at 2 and 4",
    because="a quarter of the twist, up and down in turn, is what no plane can follow: it has neither a mean nor "
    "a lean",
    lines=[(equal(h[0] + h[2] - 2 * change, h[1] + h[3] + 2 * change), "afterwards both pairs have the same sum")],
)  # fmt: skip
arm = M.relation(
    "arm", "d", "mm", a * b / sp.sqrt(a**2 + b**2), because="twice the area of half the rectangle over its diagonal",
    meaning="distance of a foot from the line that the machine rocks about", resolution=1,
)  # fmt: skip
phi = M.relation("rock", r"\varphi", "deg", sp.Abs(twist) / arm, resolution=0.001,
                 meaning="angle of rocking on hard feet",
                 because="as one foot comes down by the twist, the machine turns about that line")  # fmt: skip
sway = M.result("sway", "r", "mm", phi * H, resolution=0.01,
                meaning="movement at the cut as the machine rocks, on hard feet",
                because="a small turn moves the cut by the turn times its height")  # fmt: skip
static = [
    M.relation(
        f"share_{i}", f"W_{{{i}}}", "N", W / 4 * (1 + 4 * e_x * x_i / a**2 + 4 * e_y * y_i / b**2), resolution=0.1,
        meaning=f"weight on foot {i} if there were no twist",
        because="springs alike under a stiff base share the weight evenly but for the center's place: a level slope "
        "along x and y that makes up its moments",
    )
    for i, (x_i, y_i) in enumerate(zip(x, y, strict=True), start=1)
]  # fmt: skip
F_i = sp.Matrix(sp.symbols("force_1 force_2 force_3 force_4", real=True))
balance = equal(sp.Matrix([[1] * 4, x, y, list(signs)]) * F_i, sp.Matrix([W, W * e_x, W * e_y, k * twist]))
told = "they carry the weight and its moments about the middle, and after giving way by F/k the feet lie in one plane"
F = [
    M.result(
        f"force_{i}", f"F_{{{i}}}", "N", share + sign * k * twist / 4, resolution=0.1,
        meaning=f"weight on foot {i}; below zero: it hangs, and the others carry differently",
        because="a higher pair takes more and a lower pair less, each foot a quarter of what the twist would press out "
        "of one spring", lines=[(balance, told)] if i == 4 else [],
    )
    for i, (share, sign) in enumerate(zip(static, signs, strict=True), start=1)
]  # fmt: skip
sinks = [
    M.result(
        f"sink_{i}", f"y_{{{i}}}", "mm", force / k, resolution=0.01, meaning=f"how far foot {i} gives way",
        because="weight over stiffness",
    )
    for i, force in enumerate(F, start=1)
]  # fmt: skip
along, across = sinks[1] + sinks[2] - sinks[0] - sinks[3], sinks[2] + sinks[3] - sinks[0] - sinks[1]
M.result(
    "lean", r"\theta", "mm/m", sp.sqrt((along / (2 * a)) ** 2 + (across / (2 * b)) ** 2), resolution=0.01,
    meaning="lean of the machine as its feet give way", because="its slopes along x and y are the differences of the "
    "ends' means over the feet's distances, and add by their squares",
    lines=[(W / k * sp.sqrt(e_x**2 / a**4 + e_y**2 / b**4), "the twist falls out: only the center's place leans it")],
)  # fmt: skip
taken = M.result(
    "twist_taken", r"\delta_{\mathrm{max}}", "mm",
    4 / k * sp.Piecewise((sp.Min(static[1], static[3]), sp.Gt(twist, 0)), (sp.Min(static[0], static[2]), True)),
    resolution=0.01,
    meaning="twist that the rubber takes up before a foot hangs",
    because="the lightest foot of the low pair lets go first",
)  # fmt: skip
M.result("sink", "y", "mm", W / (4 * k), resolution=0.01, meaning="how far the feet give way on average",
         because="four springs side by side carry the weight",
         lines=[(sum(F) / (4 * k), "the mean of weight over stiffness; the rest falls out")])  # fmt: skip

M.limit("stands", "the feet are out of plane by", value=sp.Abs(twist), allowed=taken, in_unit="mm", resolution=0.01,
        mend="take the split off the pads of the higher pair and add it at the lower pair")  # fmt: skip
M.limit(
    "sway", "on hard feet, rocking moves the cut by", value=sway, allowed=allowed,
    mend="split the twist over the four pads, or use three feet",
)  # fmt: skip
M.caution(*HEAVY_MACHINE)
M.caution(
    "Try for rocking by hand at each corner with the machine unplugged, and once more after a week of work."
)
M.caution("The center of mass leaves one foot with less than a tenth of the weight: it lifts easily.",
          when=sp.Lt(sp.Min(*static), W / 10))  # fmt: skip
MODEL = M.done()
