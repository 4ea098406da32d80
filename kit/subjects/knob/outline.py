"""Which arcs and straight flanks make a star knob, how do they meet, and can a router follow them?

The question in the trade's words: I want a knob of five lobes, this size over the lobes, with hollows for the
fingers. Where do I set the compass, with which radius, where do arcs and straight flanks meet, and does the bit get
into the hollows?

The picture: lobes are arcs about centers on a circle round the knob's middle. Between two lobes, on the line that
halves their angle, lies the center of a hollow, drawn with the compass from outside. A straight flank joins hollow
and lobe and touches both; where the hollow is as large as it can be, the flank has no length and the arcs touch
each other. Take the line through two neighboring lobe centers as level, its middle as the origin.

Assumptions: all lobes and all hollows are alike; the outline turns smoothly everywhere.

Sources: tangent arcs and belts round pulleys (plane geometry); length and area of a curve at a constant distance
(J. Steiner), from memory.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import KNOB

M = Model(
    "knob.outline",
    title="Outline of a star knob from arcs and tangents",
    question="Which arcs and straight flanks make a star knob, how do they meet, and can a router follow them?",
    picture="Lobes drawn about centers on a circle; between them hollows, drawn about centers outside; straight "
    "flanks that touch both.",
    assumptions=(
        "all lobes are alike and evenly spaced, and so are the hollows",
        "lobe, flank and hollow meet without a corner",
        "the bit's center keeps its distance from the outline all the way round",
    ),
    sources=(
        "plane geometry: tangent circles, belt round two pulleys",
        "length of a curve at a constant distance (J. Steiner), from memory",
    ),
)
n = M.count("lobes", "n", 5, span=(3, 9), meaning="lobes")
R = M.given("outer_radius", "R", "mm", 30, span=(20, 60), meaning="from the middle to the top of a lobe")
r = M.given("lobe_radius", "r", "mm", 9, span=(3, 12), meaning="radius of a lobe")
e = M.given("hollow_depth", "e", "mm", 3, span=(0.3, 5),
    meaning="depth of a hollow below a straightedge over two lobes", how="straightedge and calipers")  # fmt: skip
wish = M.given("hollow_wish", r"w_{0}", "mm", 10, span=(2, 40), meaning="radius wanted for the hollow")
B = M.given(
    "bit", "D_{b}", "mm", 12, span=(1, 40), meaning="diameter of the router bit or spindle", how="calipers"
)
well = M.given("well", "D_{n}", "mm", 15.3, span=(5, 40), meaning="hole for the nut")
wall = M.given("wall_wanted", r"g_{\mathrm{min}}", "mm", 4, span=(1, 20),
    meaning="wood wanted between the nut's hole and a hollow")  # fmt: skip
phi = M.relation("half_angle", r"\varphi", "deg", sp.pi / n, meaning="half the angle from lobe to lobe",
    resolution=0.01, because="n lobes share the full turn")  # fmt: skip
a = M.result("lobe_circle", "a", "mm", R - r, meaning="radius of the circle of the lobe centers", resolution=0.01,
             because="the lobe reaches beyond its center by its own radius")  # fmt: skip
c = M.relation("half_chord", "c", "mm", a * sp.sin(phi), resolution=0.01,
    meaning="half the way between neighboring lobe centers",
    because="the line that halves the angle meets their chord square")  # fmt: skip
largest_ = sp.Symbol("hollow_largest", real=True)
largest = M.result("hollow_largest", r"w_{t}", "mm", (c**2 + e**2) / (2 * e) - r, resolution=0.01,
    meaning="largest hollow, which touches the lobes without a flank", because="solved for the hollow",
    lines=[(equal((r + largest_) ** 2, c**2 + (r + largest_ - e) ** 2),
            "the arcs touch when their centers are both radii apart: half chord and height above it make "
                "the triangle; the hollow's bottom lies e below the lobes' tops, r over the chord")])  # fmt: skip
w = M.result("hollow_radius", "w", "mm", sp.Min(wish, largest), resolution=0.01, meaning="radius of the hollow",
             because="a larger one than that cannot touch both lobes")  # fmt: skip
h = M.relation("hollow_height", "h", "mm", r + w - e, resolution=0.01, meaning="hollow's center over the chord",
               because="up to the straightedge, down by the depth, up by the hollow's radius")  # fmt: skip
square = M.relation("flank_square", r"s^{2}", "mm^2", 2 * e * (largest - w), resolution=0.1,
    meaning="square of a straight flank's length", because="the rest falls out against the largest hollow",
    lines=[(c**2 + h**2 - (r + w) ** 2,
            "the flank is square to both radii, so centers' distance, sum of radii and flank make a right triangle")],
)  # fmt: skip
s_, t_ = sp.Symbol("flank", real=True), sp.Symbol("slope", real=True)
flank = M.result("flank", "s", "mm", sp.sqrt(square), resolution=0.01, meaning="length of a straight flank",
    because="it is the root of its square")  # fmt: skip
theta = M.result("slope", r"\theta", "deg", sp.atan2(r + w, flank) - sp.atan2(h, c), resolution=0.01,
    meaning="slope of the flank against the chord",
    because="in that triangle, less the slope of the line of centers",
    lines=[(equal(sp.Matrix([c, h]),
                sp.Matrix([s_ * sp.cos(t_) + (r + w) * sp.sin(t_), (r + w) * sp.cos(t_) - s_ * sp.sin(t_)])),
            "from center to center go both radii, square to the flank, and the flank")])  # fmt: skip
waist = M.result("waist", "R_{i}", "mm", a * sp.cos(phi) + r - e, resolution=0.01,
    meaning="from the middle to the bottom of a hollow",
    because="out to the chord, up to the straightedge, down by the depth")  # fmt: skip
center = M.result("hollow_circle", "q", "mm", waist + w, resolution=0.01,
    meaning="radius of the circle of the hollow centers",
    because="the hollow's center lies its radius beyond the bottom",
    lines=[(a * sp.cos(phi) + h, "or over the chord")])  # fmt: skip
lobe = M.result("lobe_angle", r"\alpha", "deg", 2 * (theta + phi), meaning="arc of a lobe", resolution=0.01,
    because="from a hollow's bottom to a lobe's top the outline turns by half the angle between lobes in "
        "all; what the hollow turns back, the lobe turns more")  # fmt: skip
U = M.result("perimeter", "U", "mm", 2 * n * (r * (theta + phi) + flank + w * theta), resolution=0.1,
    meaning="length of the outline", because="2 n halves, each of half a lobe, a flank and half a hollow",
    lines=[(n * (r * lobe + 2 * flank + 2 * w * theta), "lobe by lobe")])  # fmt: skip
A = M.result("area", "A", "mm^2",
    n * (c * (a * sp.cos(phi) + h) + flank * (r - w) + r**2 * (theta + phi) - w**2 * theta), resolution=1,
    meaning="area inside the outline", because="2 n such parts",
    lines=[(2 * n * (c * center / 2 + flank * r / 2 - flank * w / 2 + r**2 * lobe / 4 - w**2 * theta / 2),
            "triangle from the middle over a lobe's center to a hollow's center; with the flank, a strip as "
                "wide as the lobe more and one as wide as the hollow less; half a lobe's sector more, half "
                "a hollow's less")])  # fmt: skip
path = M.result("path", r"U_{b}", "mm", U + sp.pi * B, resolution=0.1,
    meaning="way of the bit's center round the outline",
    because="outside corners take more way, hollows less: a full turn more in all",
    lines=[(2 * n * ((r + B / 2) * (theta + phi) + flank + (w - B / 2) * theta),
            "lobes larger, hollows smaller by half the bit, flanks as before")])  # fmt: skip
rest = M.result("wall", "g", "mm", waist - well / 2, resolution=0.1,
    meaning="wood between the nut's hole and a hollow", because="both are measured from the middle")  # fmt: skip
M.limit("bit", "half the bit is", value=B / 2, allowed=w, in_unit="mm",
    mend="take a smaller bit or a larger or shallower hollow")  # fmt: skip
M.limit("wall", "between nut and hollow are", value=rest, allowed=wall, sense=">=",
    mend="make the hollows shallower or the knob larger")  # fmt: skip
M.limit("lobes_apart", "half a lobe is", value=r, allowed=c,
    mend="take smaller lobes or fewer: neighbors run into each other")  # fmt: skip
M.limit("wish", "the hollow wanted is", value=wish, allowed=largest,
    mend="take the largest that touches, or a shallower hollow")  # fmt: skip
M.caution(*KNOB)
M.caution(
    "Rout small blanks on a template screwed to a board, never in the hand; feed against the turn of the bit."
)
M.caution("Grain runs out on some lobes: take light passes there, or the bit tears them off.")
MODEL = M.done()
