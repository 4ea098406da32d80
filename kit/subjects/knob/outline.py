"""Outline of a star knob from arcs and tangents.

Which arcs and straight flanks make a star knob, how do they meet, and can a router follow them?

In the trade's words: I want a knob of five lobes, this size over the lobes, with hollows for the fingers. Where do I
set the compass, with which radius, where do arcs and straight flanks meet, and does the bit get into the hollows?

Picture: Lobes drawn about centers on a circle; between them hollows, drawn about centers outside; straight flanks that
touch both.

Assumptions:
- all lobes are alike and evenly spaced, and so are the hollows
- lobe, flank and hollow meet without a corner
- the bit's center keeps its distance from the outline all the way round

Sources:
- plane geometry: tangent circles, belt round two pulleys
- length of a curve at a constant distance (J. Steiner), from memory

Notes: Lobes are arcs about centers on a circle round the knob's middle. Between two lobes, on the line that halves
their angle, lies the center of a hollow, drawn with the compass from outside. Where the hollow is as large as it can
be, the flank has no length and the arcs touch each other. Take the line through two neighboring lobe centers as level,
its middle as the origin. The outline turns smoothly everywhere.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.core.model.input_terms import amount
from kit.drawing.paper import PAPER
from kit.subjects.safety import KNOB

M = Model("knob.outline", __doc__)
n = M.count("lobes", "n", 5, (3, 9), "lobes")
R = M.given("outer_radius", "R", "30 mm", (20, 60), "from the middle to the top of a lobe")
r = M.given("lobe_radius", "r", "9 mm", (3, 12), "radius of a lobe")
e = M.given("hollow_depth", "e", "3 mm", (0.3, 5), "depth of a hollow below a straightedge over two lobes")
M.measured("straightedge and calipers")
wish = M.given("hollow_wish", r"w_{0}", "10 mm", (2, 40), "radius wanted for the hollow")
B = M.given("bit", "D_{b}", "12 mm", (1, 40), "diameter of the router bit or spindle")
M.measured("calipers")
rho = M.given("density", r"\varrho", "680 ± 60 kg/m^3", (300, 1400), "density of the plies")
M.measured("weigh an offcut")
M.source("birch plywood, common practice, no source")
well = M.given("well", "D_{n}", "15.3 mm", (5, 40), "hole for the nut")
wall = M.given("wall_wanted", r"g_{\mathrm{min}}", "4 mm", (1, 20), "wood wanted between the nut's hole and a hollow")
phi = M.relation("half_angle", r"\varphi", "deg", "half the angle from lobe to lobe", resolution=0.01)
M.equals(sp.pi / n, "n lobes share the full turn")
a = M.result("lobe_circle", "a", "mm", "radius of the circle of the lobe centers", resolution=0.01)
M.equals(R - r, "the lobe reaches beyond its center by its own radius")
c = M.relation("half_chord", "c", "mm", "half the way between neighboring lobe centers", resolution=0.01)
M.equals(a * sp.sin(phi), "the line that halves the angle meets their chord square")
largest = M.result(
    "hollow_largest", r"w_{t}", "mm", "largest hollow, which touches the lobes without a flank", resolution=0.01
)
M.step(
    equal((r + largest) ** 2, c**2 + (r + largest - e) ** 2),
    "the arcs touch when their centers are both radii apart: half chord and height above it make the triangle; the "
    "hollow's bottom lies e below the lobes' tops, r over the chord",
)
M.equals((c**2 + e**2) / (2 * e) - r, "solved for the hollow")
w = M.result("hollow_radius", "w", "mm", "radius of the hollow", resolution=0.01)
M.equals(sp.Min(wish, largest), "a larger one than that cannot touch both lobes")
h = M.relation("hollow_height", "h", "mm", "hollow's center over the chord", resolution=0.01)
M.equals(r + w - e, "up to the straightedge, down by the depth, up by the hollow's radius")
square = M.relation("flank_square", r"s^{2}", "mm^2", "square of a straight flank's length", resolution=0.1)
M.step(
    c**2 + h**2 - (r + w) ** 2,
    "the flank is square to both radii, so centers' distance, sum of radii and flank make a right triangle",
)
M.equals(2 * e * (largest - w), "the rest falls out against the largest hollow")
flank = M.result("flank", "s", "mm", "length of a straight flank", resolution=0.01)
M.equals(sp.sqrt(square), "it is the root of its square")
theta = M.result("slope", r"\theta", "deg", "slope of the flank against the chord", resolution=0.01)
along, up = flank * sp.cos(theta) + (r + w) * sp.sin(theta), (r + w) * sp.cos(theta) - flank * sp.sin(theta)
M.step(
    equal(sp.Matrix([c, h]), sp.Matrix([along, up])),
    "from center to center go both radii, square to the flank, and the flank",
)
M.equals(sp.atan2(r + w, flank) - sp.atan2(h, c), "in that triangle, less the slope of the line of centers")
waist = M.result("waist", "R_{i}", "mm", "from the middle to the bottom of a hollow", resolution=0.01)
M.equals(a * sp.cos(phi) + r - e, "out to the chord, up to the straightedge, down by the depth")
center = M.result("hollow_circle", "q", "mm", "radius of the circle of the hollow centers", resolution=0.01)
M.step(a * sp.cos(phi) + h, "or over the chord")
M.equals(waist + w, "the hollow's center lies its radius beyond the bottom")
lobe = M.result("lobe_angle", r"\alpha", "deg", "arc of a lobe", resolution=0.01)
M.equals(
    2 * (theta + phi),
    "from a hollow's bottom to a lobe's top the outline turns by half the angle between lobes in all; what the hollow "
    "turns back, the lobe turns more",
)
U = M.result("perimeter", "U", "mm", "length of the outline", resolution=0.1)
M.step(n * (r * lobe + 2 * flank + 2 * w * theta), "lobe by lobe")
M.equals(2 * n * (r * (theta + phi) + flank + w * theta), "2 n halves, each of half a lobe, a flank and half a hollow")
A = M.result("area", "A", "mm^2", "area inside the outline", resolution=1)
M.step(
    2 * n * (c * center / 2 + flank * r / 2 - flank * w / 2 + r**2 * lobe / 4 - w**2 * theta / 2),
    "triangle from the middle over a lobe's center to a hollow's center; with the flank, a strip as wide as the lobe "
    "more and one as wide as the hollow less; half a lobe's sector more, half a hollow's less",
)
M.equals(n * (c * (a * sp.cos(phi) + h) + flank * (r - w) + r**2 * (theta + phi) - w**2 * theta), "2 n such parts")
M.result(
    "height_mass",
    r"q_{m}",
    "g/mm",
    "mass of the knob for each millimeter of height, holes not taken off",
    resolution=0.01,
)
M.equals(A * rho, "area times density")
path = M.result("path", r"U_{b}", "mm", "way of the bit's center round the outline", resolution=0.1)
M.step(
    2 * n * ((r + B / 2) * (theta + phi) + flank + (w - B / 2) * theta),
    "lobes larger, hollows smaller by half the bit, flanks as before",
)
M.equals(U + sp.pi * B, "outside corners take more way, hollows less: a full turn more in all")
rest = M.result("wall", "g", "mm", "wood between the nut's hole and a hollow", resolution=0.1)
M.equals(waist - well / 2, "both are measured from the middle")
M.limit("bit", "half the bit is", B / 2, "<=", w, in_unit="mm")
M.mend("take a smaller bit or a larger or shallower hollow")
M.limit("wall", "between nut and hollow are", rest, ">=", wall)
M.mend("make the hollows shallower or the knob larger")
M.limit("lobes_apart", "half a lobe is", r, "<=", c)
M.mend("take smaller lobes or fewer: neighbors run into each other")
M.limit("wish", "the hollow wanted is", wish, "<=", largest)
M.mend("take the largest that touches, or a shallower hollow")
M.caution(*KNOB)
M.caution("Rout small blanks on a template screwed to a board, never in the hand; feed against the turn of the bit.")
M.caution("Grain runs out on some lobes: take light passes there, or the bit tears them off.")
M.ask(
    *PAPER,
    amount(
        "beside", "how far outside the outline a template for a guide bush lies; below zero: inside", span=(-50, 50)
    ),
)

MODEL = M.done()
