"""Errors of the stop block's end.

What do the block's length, the squareness of its face and dust in its corner do to the part?

In the trade's words: the block is a hair longer than the number I add, its end is not quite square, and after ten cuts
the corner is full of dust. What of that is in the part?

Picture: From above: part against fence and block, the block's face leaning, a chamfer at its corner with dust in it,
the heap's toe at the fence.

Assumptions:
- the part's end is square and does not give way
- dust lies loose at 45° and is not pressed: the worst it can do
- every cut sweeps the same amount of dust into the corner
- errors lie along the fence and add

Sources:
- plane trigonometry; areas of right triangles
- relief chamfer at a stop's corner: common practice, no source

Notes: A face that leans touches the part with one edge only, near the fence or at the part's far corner. A chamfer on
the block gives it room until it is full, then the heap's toe holds the part off.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import SCALE

M = Model("reading.error", __doc__)
way = M.choice(
    "way", "j", ("direct", "over the block"), "over the block", "whether the block's length is in the reading"
)
B_0 = M.given("nominal", "B_{0}", "400 mm", (50, 1500), "block's length that is added to the target")
B = M.given("block", "B", "400.08 ± 0.03 mm", (50, 1500), "block's true length, face to face")
M.measured("calipers against a checked rule, where the part touches")
gamma = M.given(
    "lean",
    r"\gamma",
    "0.05 ± 0.02 deg",
    (-2, 2),
    "lean of the face in plan: plus, its far edge is nearer to the blade than its foot at the fence",
)
M.measured("square on the fence, feeler gauge at the far edge")
depth = M.given("face_depth", "D", "60 ± 0.5 mm", (20, 200), "depth of the block's face from the fence")
M.measured("rule")
W = M.given("part_width", "W", "90 mm", (30, 600), "width of the part, from the fence out")
y_0 = M.given("measured_at", "y_{0}", "30 mm", (0, 100), "distance from the fence at which block or zero were measured")
M.measured("where the calipers sat")
c = M.given("chamfer", "c", "4 ± 0.2 mm", (0, 15), "legs of the relief chamfer at the fence")
M.measured("rule")
A = M.given(
    "dust",
    r"A_{\mathrm{d}}",
    "0.6 ± 0.3 mm^2",
    (0.01, 20),
    "dust that one cut sweeps into the corner, as an area in plan",
)
M.measured("heap's leg after ten cuts without chamfer, squared, over twenty")
m = M.count("cuts", "m", 10, (0, 200), "cuts since the corner was last brushed out")
allowed = M.given("allowed", r"\delta_{\mathrm{max}}", "0.2 mm", (0.01, 5), "allowed error of the part")
y = sp.Symbol("y", real=True)

length = M.result(
    "length_error", r"\delta_{B}", "mm", "part longer (plus) by the block's length", resolution=0.01, signed=True
)
M.equals(
    sp.Piecewise((0, sp.Eq(way, 0)), (B_0 - B, True)),
    "reading is target plus nominal block, part is reading less true block",
)
far = M.relation("far_touch", r"y_{\mathrm{f}}", "mm", "farthest point at which face and part can touch", resolution=1)
M.equals(sp.Min(W, depth), "the narrower of the two ends it")
foot = M.relation("foot", r"y_{\mathrm{n}}", "mm", "foot of the face, where the chamfer ends", resolution=0.1)
M.equals(sp.Min(c, far), "nearer to the fence there is no face")
touch = M.relation("touch", "y", "mm", "distance from the fence at which the part touches", resolution=1)
M.equals(
    sp.Piecewise((far, sp.Gt(gamma, 0)), (foot, True)),
    "a face that leans toward the blade touches with its far edge, one that leans back with its foot",
)
face = M.result(
    "face_error", r"\delta_{\gamma}", "mm", "part longer (plus) by the lean of the face", resolution=0.01, signed=True
)
M.step(sp.Integral(-sp.tan(gamma), (y, y_0, touch)), "each step along the face takes its slope from the part")
M.equals(
    (y_0 - touch) * sp.tan(gamma),
    "between where it was measured and where it touches, the face comes nearer by the tangent",
)
room = M.relation("room", r"A_{c}", "mm^2", "room in the chamfer", resolution=0.1)
M.step(sp.Integral(c - y, (y, 0, c)), "slices along the fence, each as deep as the chamfer is there")
M.equals(c**2 / 2, "half of the square of its legs")
heap = M.relation("heap", r"A_{\mathrm{h}}", "mm^2", "dust for which the chamfer has no room", resolution=0.1)
M.equals(sp.Max(0, m * A - room), "what the cuts have swept in, less what the chamfer takes")
toe = M.result("toe", "p", "mm", "what the dust holds the part off", resolution=0.01)
M.step(equal(toe**2 / 2, heap), "the part's square corner slides along the fence until it meets the toe")
M.equals(
    sp.Piecewise((sp.sqrt(2 * heap), sp.Gt(heap, 0)), (0, True)),
    "a heap at 45° is half the square of its leg, and the part's corner meets its toe at the fence",
)
M.result("cuts_free", r"m_{0}", "", "cuts until the chamfer is full", whole=True)
M.equals(sp.floor(room / A), "whole cuts that its room takes")
dirt = M.result(
    "dust_error",
    r"\delta_{\mathrm{d}}",
    "mm",
    "part shorter (minus) by dust in the corner",
    resolution=0.01,
    signed=True,
)
M.step(
    -sp.Max(toe + (foot - y_0) * sp.tan(gamma), -face) - face,
    "from where the face was measured, the toe or the touching edge stops the part; less what the edge took",
)
M.equals(
    -sp.Max(0, toe - (touch - foot) * sp.tan(gamma)),
    "the part stops at what comes first: the toe at the face's foot, or the edge nearer to the blade",
)
total = M.result(
    "part_error", r"\delta", "mm", "part longer (plus) or shorter (minus) than set", resolution=0.01, signed=True
)
M.equals(length + face + dirt, "the three lie along one line and add")
M.limit("error", "the part is off by", sp.Abs(total), "<=", allowed, in_unit="mm", resolution=0.01)
M.mend("brush the corner out, true the block's face, or add the block's measured length")
M.limit(
    "clean",
    "just brushed out, the part is off by",
    sp.Abs(length + face),
    "<=",
    allowed,
    in_unit="mm",
    resolution=0.01,
)
M.mend("true the block's face, or add the block's measured length: dust only hides what they do")
M.limit("chamfer", "the chamfer takes of the face", c, "<=", far / 4, resolution=0.1)
M.mend("make the chamfer smaller: most of the face must meet the part")
M.caution(*SCALE)
M.caution("Brush the corner with the blade at rest, never with fingers or an air jet: connect the dust extraction.")
M.caution("The chamfer is full: brush out the corner before the next cut.", when=sp.Gt(heap, 0))
M.caution(
    "A leaning face makes narrow and wide parts come out unequal: true it before you correct the scale.",
    when=sp.Gt(sp.Abs(face), allowed / 2),
)
MODEL = M.done()
