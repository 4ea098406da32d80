"""Mitered tube or prism cut flat.

Along which curve is a tube cut so that it ends in a slanting plane?

Picture: The tube from the side, cut off by a slanting plane, throat in front; beside it the flat panel with its
stations and the curve of the cut.

Assumptions:
- The tube is a straight cylinder, or a regular prism with the throat in the middle of one face.
- Cloth lies on a form of the given size; its middle, half a thickness out, keeps its length.
- The seam lies at the throat, where the cut is lowest; allowances come on top.

Sources:
- parallel-line development: a line of the tube keeps its plain length (descriptive geometry)
- geometry of the circle and of the regular polygon

Notes: An upright tube, round or with flat sides, cut by a slanting plane as for one half of a mitered elbow. Laid flat
the tube is a rectangle. The plane makes a cosine curve of its upper edge, or a row of straight lines from corner to
corner.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.fold.neutral_axis import state_cloth
from kit.subjects.safety import CLOTH_KNIFE

M = Model("cloth.miter", __doc__)

kind = M.choice("kind", "k", ("round", "flat sides"), "round", "shape of the tube")
D = M.given("size", "D", "100 ± 0.5 mm", (20, 1500), "size of the form: diameter, or distance between opposite sides")
M.measured("caliper, or tape divided by π")
N = M.count("stations", "N", 12, (4, 48), "stations round the tube, or flat sides of the prism")
i = M.count("station", "i", 3, (0, 48), "station asked for, from the seam; on a prism its i-th corner")
mu = M.given(
    "miter", r"\mu", "22.5 ± 0.2 deg", (0, 75), "miter of the cut, from a square cut: half the angle of an elbow"
)
M.measured("bevel gauge on the tube")
a = M.given("throat", "a", "60 ± 0.5 mm", (0, 1000), "plain length at the throat, the shortest")
M.measured("rule, along the tube")
c = state_cloth(M, "cut")

r = M.relation("radius", "r", "mm", "distance of the cloth's middle from the axis", resolution=0.1)
M.equals(D / 2 + c / 2, "the middle of the cloth lies half its thickness outside the form")
beta = M.relation("half_side", r"\beta", "deg", resolution=0.01)
M.equals(sp.pi / N, "half a side is seen from the axis under half its share")
side = M.result(
    "spacing", "b", "mm", "distance of the stations on the flat panel; width of a flat side", resolution=0.01
)
M.equals(
    sp.Piecewise((2 * sp.pi * r / N, sp.Eq(kind, 0)), (2 * r * sp.tan(beta), True)),
    "the stations share the rim; a flat side spans the tangent of half its angle twice",
)
U = M.result("girth", "U", "mm", "length of the flat panel round the tube", resolution=0.1)
M.step(sp.Piecewise((2 * sp.pi * r, sp.Eq(kind, 0)), (2 * N * r * sp.tan(sp.pi / N), True)), "rim or polygon")
M.equals(N * side, "as many stations as make the round")
phi = M.relation("turn", r"\varphi", "deg", "angle of the station from the throat", resolution=0.1)
M.equals(
    sp.Piecewise((2 * sp.pi * i / N, sp.Eq(kind, 0)), ((2 * i - 1) * beta, True)),
    "the stations share the full circle; corners stand half a side beside the throat",
)
s = M.result(
    "along", "s", "mm", "place of the station along the flat panel, from the seam", resolution=0.1, signed=True
)
M.step(sp.Piecewise((i * side, sp.Eq(kind, 0)), (i * side - side / 2, True)), "station by station")
M.equals(
    sp.Piecewise((r * phi, sp.Eq(kind, 0)), ((i - sp.Rational(1, 2)) * side, True)),
    "on the flat panel the arc, or the sides up to that corner, run along the straight edge",
)
rho = M.relation("reach", r"\rho", "mm", "distance of the station from the axis")
M.step(sp.sqrt(r**2 + sp.Piecewise((0, sp.Eq(kind, 0)), (side**2 / 4, True))), "half a side across, Pythagoras")
M.equals(
    sp.Piecewise((r, sp.Eq(kind, 0)), (r / sp.cos(beta), True)), "a corner of a prism stands farther out than its sides"
)
x = M.relation("run", "x", "mm", "how far the station lies behind the throat")
M.equals(
    r - rho * sp.cos(phi),
    "from the throat back to the station, square to the axis, in the direction in which the plane climbs",
)
y = M.result("length", "y", "mm", "plain length of the tube at the station", resolution=0.1)
M.step(
    sp.Piecewise((a + r * (1 - sp.cos(s / r)) * sp.tan(mu), sp.Eq(kind, 0)), (a + x * sp.tan(mu), True)),
    "on a round tube a cosine curve over the flat edge, since φ = s / r",
)
M.step(
    equal(y * sp.cos(mu) - x * sp.sin(mu), a * sp.cos(mu)),
    "station and throat lie in one plane with the normal (-sin μ, 0, cos μ)",
)
M.equals(a + x * sp.tan(mu), "the plane climbs by tan μ for each step back")
back = M.relation("depth", "x_{\\mathrm{back}}", "mm", "how far the back lies behind the throat")
M.equals(
    sp.Piecewise(
        (2 * r, sp.Eq(kind, 0)), (r + r * sp.Piecewise((1, sp.Eq(sp.Mod(N, 2), 0)), (1 / sp.cos(beta), True)), True)
    ),
    "opposite the throat lies the rim, a face, or with an odd number of sides a corner",
)
longest = M.result("longest", r"y_{\mathrm{max}}", "mm", "plain length at the back, the longest", resolution=0.1)
M.equals(a + back * sp.tan(mu), "the plane climbs as far as the tube is deep")
v = sp.Symbol("v", real=True)
M.result("area", "A", "m^2", "area of the flat panel without allowances", resolution=0.0001)
M.step(
    sp.Piecewise(
        (sp.Integral(r * (a + r * (1 - sp.cos(v)) * sp.tan(mu)), (v, 0, 2 * sp.pi)), sp.Eq(kind, 0)),
        (U * (a + longest) / 2 + U * (2 * r - back) * sp.tan(mu) / 2, True),
    ),
    "strips of width r dv on a round tube",
)
M.equals(
    U * (a + r * sp.tan(mu)),
    "the plane climbs as much behind the axis as it falls before it: on the whole round the mean length is that over "
    "the axis",
)
slope = M.result(
    "slope",
    r"\sigma",
    "deg",
    "slope of the cut curve at the station (round tube), to lay a french curve by",
    resolution=0.1,
)
M.step(
    equal(
        1 / sp.cos(slope) ** 2,
        sp.Piecewise((1 + sp.Derivative(a + r * (1 - sp.cos(s / r)) * sp.tan(mu), s) ** 2, sp.Eq(kind, 0)), (1, True)),
    ),
    "length of a step along the curve per step along the edge, squared: 1 + y′²",
)
M.equals(
    sp.Piecewise((sp.atan(sp.tan(mu) * sp.sin(phi)), sp.Eq(kind, 0)), (0, True)),
    "the slope of the cosine curve is its derivative by s; a quarter round it is the miter itself",
)
W = M.given("cloth_width", "W", "1500 ± 5 mm", (100, 3500), "usable width of the cloth", changes="often")
M.measured("tape across the roll, without selvages")
M.limit("fits", "the longest line of the panel is", longest, "<=", W)
M.mend("lay the tube along the roll, or part the panel by a seam")
M.limit("station", "the station's number is", i, "<=", N, resolution=1)
M.mend("count stations from the seam round to the seam")
M.caution(*CLOTH_KNIFE)
MODEL = M.done()
