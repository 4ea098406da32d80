"""What do the block's own length, its face and the dust in its corner do to the part?

The question in the trade's words: the block is a hair longer than the number I add, its end is not quite square, and
after ten cuts the corner is full of dust. What of that is in the part?

The picture, seen from above: the part lies against fence and block. A face that leans touches the part with one edge
only, near the fence or at the part's far corner. In the corner a heap of dust; a chamfer on the block gives it room
until it is full, then the heap's toe holds the part off.

Assumptions: the part's end is square and stiff; the dust lies loose at 45° and is not pressed (the worst it can do);
each cut sweeps the same amount into the corner; errors along the fence add.

Sources: plane trigonometry; areas of right triangles; common practice for the relief chamfer, no source.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import SCALE

M = Model(
    "reading.error",
    title="Errors of the stop block's end",
    question="What do the block's length, the squareness of its face and dust in its corner do to the part?",
    picture="From above: part against fence and block, the block's face leaning, a chamfer at its corner with dust "
    "in it, the heap's toe at the fence.",
    assumptions=(
        "the part's end is square and does not give way",
        "dust lies loose at 45° and is not pressed: the worst it can do",
        "every cut sweeps the same amount of dust into the corner",
        "errors lie along the fence and add",
    ),
    sources=(
        "plane trigonometry; areas of right triangles",
        "relief chamfer at a stop's corner: common practice, no source",
    ),
)
way = M.choice("way", "j", ("direct", "over the block"), "over the block",
               meaning="whether the block's length is in the reading")  # fmt: skip
B_0 = M.given(
    "nominal", "B_{0}", "mm", 400, span=(50, 1500), meaning="block's length that is added to the target"
)
B = M.given("block", "B", "mm", 400.08, span=(50, 1500), half=0.03, meaning="block's true length, face to face",
            how="calipers against a checked rule, where the part touches")  # fmt: skip
gamma = M.given(
    "lean", r"\gamma", "deg", 0.05, span=(-2, 2), half=0.02,
    meaning="lean of the face in plan: plus, its far edge is nearer to the blade than its foot at the fence",
    how="square on the fence, feeler gauge at the far edge",
)  # fmt: skip
depth = M.given("face_depth", "D", "mm", 60, span=(20, 200), half=0.5,
                meaning="depth of the block's face from the fence",
                how="rule")  # fmt: skip
W = M.given("part_width", "W", "mm", 90, span=(30, 600), meaning="width of the part, from the fence out")
y_0 = M.given(
    "measured_at", "y_{0}", "mm", 30, span=(0, 100),
    meaning="distance from the fence at which block or zero were measured", how="where the calipers sat",
)  # fmt: skip
c = M.given(
    "chamfer",
    "c",
    "mm",
    4,
    span=(0, 15),
    half=0.2,
    meaning="legs of the relief chamfer at the fence",
    how="rule",
)
A = M.given(
    "dust", r"A_{\mathrm{d}}", "mm^2", 0.6, span=(0.01, 20), half=0.3,
    meaning="dust that one cut sweeps into the corner, as an area in plan",
    how="heap's leg after ten cuts without chamfer, squared, over twenty", source="invented demo value",
)  # fmt: skip
m = M.count("cuts", "m", 10, span=(0, 200), meaning="cuts since the corner was last brushed out")
allowed = M.given(
    "allowed", r"\delta_{\mathrm{max}}", "mm", 0.2, span=(0.01, 5), meaning="allowed error of the part"
)
y, p_ = sp.Symbol("y", real=True), sp.Symbol("toe", real=True)

length = M.result(
    "length_error", r"\delta_{B}", "mm", sp.Piecewise((0, sp.Eq(way, 0)), (B_0 - B, True)), resolution=0.01,
    meaning="part longer (plus) by the block's length",
    because="reading is target plus nominal block, part is reading less true block",
)  # fmt: skip
far = M.relation(
    "far_touch", r"y_{\mathrm{f}}", "mm", sp.Min(W, depth), meaning="farthest point at which face and part can touch",
    because="the narrower of the two ends it", resolution=1,
)  # fmt: skip
foot = M.relation(
    "foot", r"y_{\mathrm{n}}", "mm", sp.Min(c, far), meaning="foot of the face, where the chamfer ends", resolution=0.1,
    because="nearer to the fence there is no face",
)  # fmt: skip
touch = M.relation(
    "touch", "y", "mm", sp.Piecewise((far, sp.Gt(gamma, 0)), (foot, True)), resolution=1,
    meaning="distance from the fence at which the part touches",
    because="a face that leans toward the blade touches with its far edge, one that leans back with its foot",
)  # fmt: skip
face = M.result(
    "face_error", r"\delta_{\gamma}", "mm", (y_0 - touch) * sp.tan(gamma), resolution=0.01,
    meaning="part longer (plus) by the lean of the face",
    because="between where it was measured and where it touches, the face comes nearer by the tangent",
    lines=[(sp.Integral(-sp.tan(gamma), (y, y_0, touch)), "each step along the face takes its slope from the part")],
)  # fmt: skip
room = M.relation(
    "room", r"A_{c}", "mm^2", c**2 / 2, meaning="room in the chamfer", resolution=0.1,
    because="half of the square of its legs",
    lines=[(sp.Integral(c - y, (y, 0, c)), "slices along the fence, each as deep as the chamfer is there")],
)  # fmt: skip
heap = M.relation(
    "heap", r"A_{\mathrm{h}}", "mm^2", sp.Max(0, m * A - room), meaning="dust for which the chamfer has no room",
    because="what the cuts have swept in, less what the chamfer takes", resolution=0.1,
)  # fmt: skip
toe = M.result(
    "toe", "p", "mm", sp.Piecewise((sp.sqrt(2 * heap), sp.Gt(heap, 0)), (0, True)),
    meaning="what the dust holds the part off", resolution=0.01,
    because="a heap at 45° is half the square of its leg, and the part's corner meets its toe at the fence",
    lines=[(equal(p_**2 / 2, heap), "the part's square corner slides along the fence until it meets the toe")],
)  # fmt: skip
M.result(
    "cuts_free", r"m_{0}", "", sp.floor(room / A), meaning="cuts until the chamfer is full",
    because="whole cuts that its room takes",
)  # fmt: skip
dirt = M.result(
    "dust_error", r"\delta_{\mathrm{d}}", "mm", -sp.Max(0, toe - (touch - foot) * sp.tan(gamma)), resolution=0.01,
    meaning="part shorter (minus) by dust in the corner",
    because="the part stops at what comes first: the toe at the face's foot, or the edge nearer to the blade",
    lines=[(-sp.Max(toe + (foot - y_0) * sp.tan(gamma), -face) - face,
            "from where the face was measured, the toe or the touching edge stops the part; less what the edge took")],
)  # fmt: skip
total = M.result(
    "part_error", r"\delta", "mm", length + face + dirt, resolution=0.01,
    meaning="part longer (plus) or shorter (minus) than set",
    because="the three lie along one line and add",
)  # fmt: skip
M.limit("error", "the part is off by", value=sp.Abs(total), allowed=allowed, in_unit="mm", resolution=0.01,
        mend="brush the corner out, true the block's face, or add the block's measured length")  # fmt: skip
M.limit("chamfer", "the chamfer takes of the face", value=c, allowed=far / 4, resolution=0.1,
        mend="make the chamfer smaller: most of the face must meet the part")  # fmt: skip
M.caution(*SCALE)
M.caution(
    "Brush the corner with the blade at rest, never with fingers or an air jet: connect the dust extraction."
)
M.caution("The chamfer is full: brush out the corner before the next cut.", when=sp.Gt(heap, 0))
M.caution("A leaning face makes narrow and wide parts come out unequal: true it before you correct the scale.",
          when=sp.Gt(sp.Abs(face), allowed / 2))  # fmt: skip
MODEL = M.done()
