"""A tube cut off at an angle: what curve is the cut edge when the tube is laid flat?

The picture: an upright tube, round or with flat sides, cut by a slanting plane as for one half of a mitered elbow.
Laid flat the tube is a rectangle; the plane makes a cosine curve of its upper edge, or a row of straight lines from
corner to corner.

Assumptions: the tube is straight, its sides are upright and alike; the middle of the cloth keeps its length.
Sources: parallel-line development of a cut tube (geometry): every line of the tube keeps its plain length.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.cloth.ruling import unknown
from kit.subjects.fold.neutral_axis import state_cloth
from kit.subjects.safety import CLOTH_KNIFE

M = Model(
    "cloth.miter",
    title="Mitered tube or prism cut flat",
    question="Along which curve is a tube cut so that it ends in a slanting plane?",
    picture="The tube from the side, cut off by a slanting plane, throat in front; beside it the flat panel with its "
    "stations and the curve of the cut.",
    assumptions=(
        "The tube is a straight cylinder, or a regular prism with the throat in the middle of one face.",
        "Cloth lies on a form of the given size; its middle, half a thickness out, keeps its length.",
        "The seam lies at the throat, where the cut is lowest; allowances come on top.",
    ),
    sources=(
        "parallel-line development: a line of the tube keeps its plain length (descriptive geometry)",
        "geometry of the circle and of the regular polygon",
    ),
)  # fmt: skip

kind = M.choice("kind", "k", ("round", "flat sides"), "round", meaning="shape of the tube")
D = M.given(
    "size", "D", "mm", 100, span=(20, 1500), half=0.5,
    meaning="size of the form: diameter, or distance between opposite sides", how="caliper, or tape divided by π",
)  # fmt: skip
N = M.count("stations", "N", 12, span=(4, 48), meaning="stations round the tube, or flat sides of the prism")
i = M.count(
    "station", "i", 3, span=(0, 48), meaning="station asked for, from the seam; on a prism its i-th corner"
)
mu = M.given(
    "miter", r"\mu", "deg", 22.5, span=(0, 75), half=0.2,
    meaning="miter of the cut, from a square cut: half the angle of an elbow", how="bevel gauge on the tube",
)  # fmt: skip
a = M.given(
    "throat", "a", "mm", 60, span=(0, 1000), half=0.5,
    meaning="plain length at the throat, the shortest", how="rule, along the tube",
)  # fmt: skip
c = state_cloth(M, "cut")

r = M.relation(
    "radius", "r", "mm", D / 2 + c / 2,
    because="the middle of the cloth lies half its thickness outside the form",
    meaning="distance of the cloth's middle from the axis", resolution=0.1,
)  # fmt: skip
beta = M.relation(
    "half_side", r"\beta", "deg", sp.pi / N, because="half a side is seen from the axis under half its share",
    resolution=0.01,
)  # fmt: skip
side = M.result(
    "spacing", "b", "mm", sp.Piecewise((2 * sp.pi * r / N, sp.Eq(kind, 0)), (2 * r * sp.tan(beta), True)),
    because="the stations share the rim; a flat side spans the tangent of half its angle twice",
    meaning="distance of the stations on the flat panel; width of a flat side", resolution=0.01,
)  # fmt: skip
U = M.result(
    "girth", "U", "mm", N * side, because="as many stations as make the round",
    lines=[(sp.Piecewise((2 * sp.pi * r, sp.Eq(kind, 0)), (2 * N * r * sp.tan(sp.pi / N), True)), "rim or polygon")],
    meaning="length of the flat panel round the tube", resolution=0.1,
)  # fmt: skip
phi = M.relation(
    "turn", r"\varphi", "deg", sp.Piecewise((2 * sp.pi * i / N, sp.Eq(kind, 0)), ((2 * i - 1) * beta, True)),
    because="the stations share the full circle; corners stand half a side beside the throat",
    meaning="angle of the station from the throat", resolution=0.1,
)  # fmt: skip
s = M.result(
    "along", "s", "mm", sp.Piecewise((r * phi, sp.Eq(kind, 0)), ((i - sp.Rational(1, 2)) * side, True)),
    because="on the flat panel the arc, or the sides up to that corner, run along the straight edge",
    lines=[(sp.Piecewise((i * side, sp.Eq(kind, 0)), (i * side - side / 2, True)), "station by station")],
    meaning="place of the station along the flat panel, from the seam", resolution=0.1,
)  # fmt: skip
rho = M.relation(
    "reach", r"\rho", "mm", sp.Piecewise((r, sp.Eq(kind, 0)), (r / sp.cos(beta), True)),
    because="a corner of a prism stands farther out than its sides",
    lines=[(sp.sqrt(r**2 + sp.Piecewise((0, sp.Eq(kind, 0)), (side**2 / 4, True))), "half a side across, Pythagoras")],
    meaning="distance of the station from the axis",
)  # fmt: skip
x = M.relation(
    "run", "x", "mm", r - rho * sp.cos(phi),
    because="from the throat back to the station, square to the axis, in the direction in which the plane climbs",
    meaning="how far the station lies behind the throat",
)  # fmt: skip
y = M.result(
    "length", "y", "mm", a + x * sp.tan(mu),
    because="the plane climbs by tan μ for each step back",
    lines=[
        (sp.Piecewise((a + r * (1 - sp.cos(s / r)) * sp.tan(mu), sp.Eq(kind, 0)), (a + x * sp.tan(mu), True)),
         "on a round tube a cosine curve over the flat edge, since φ = s / r"),
        (equal(unknown("length") * sp.cos(mu) - x * sp.sin(mu), a * sp.cos(mu)),
         "station and throat lie in one plane with the normal (-sin μ, 0, cos μ)"),
    ],
    meaning="plain length of the tube at the station", resolution=0.1,
)  # fmt: skip
back = M.relation(
    "depth", "x_{\\mathrm{back}}", "mm", sp.Piecewise((2 * r, sp.Eq(kind, 0)), (r + r * sp.Piecewise(
        (1, sp.Eq(sp.Mod(N, 2), 0)), (1 / sp.cos(beta), True)), True)),
    because="opposite the throat lies the rim, a face, or with an odd number of sides a corner",
    meaning="how far the back lies behind the throat",
)  # fmt: skip
longest = M.result(
    "longest", r"y_{\mathrm{max}}", "mm", a + back * sp.tan(mu),
    because="the plane climbs as far as the tube is deep",
    meaning="plain length at the back, the longest", resolution=0.1,
)  # fmt: skip
v = sp.Symbol("v", real=True)
M.result(
    "area", "A", "m^2", U * (a + r * sp.tan(mu)),
    because="the plane climbs as much behind the axis as it falls before it: on the whole round the mean length is "
    "that over the axis",
    lines=[
        (sp.Piecewise((sp.Integral(r * (a + r * (1 - sp.cos(v)) * sp.tan(mu)), (v, 0, 2 * sp.pi)), sp.Eq(kind, 0)),
                      (U * (a + longest) / 2 + U * (2 * r - back) * sp.tan(mu) / 2, True)),
         "strips of width r dv on a round tube"),
    ],
    meaning="area of the flat panel without allowances", resolution=0.0001,
)  # fmt: skip
M.result(
    "slope", r"\sigma", "deg", sp.Piecewise((sp.atan(sp.tan(mu) * sp.sin(phi)), sp.Eq(kind, 0)), (0, True)),
    because="the slope of the cosine curve is its derivative by s; a quarter round it is the miter itself",
    lines=[(equal(1 / sp.cos(unknown("slope")) ** 2,
                  sp.Piecewise((1 + sp.Derivative(a + r * (1 - sp.cos(s / r)) * sp.tan(mu), s) ** 2, sp.Eq(kind, 0)),
                               (1, True))),
            "length of a step along the curve per step along the edge, squared: 1 + y′²")],
    meaning="slope of the cut curve at the station (round tube), to lay a french curve by", resolution=0.1,
)  # fmt: skip
W = M.given(
    "cloth_width", "W", "mm", 1500, span=(100, 3500), half=5,
    meaning="usable width of the cloth", how="tape across the roll, without selvages",
)  # fmt: skip
M.limit("fits", "the longest line of the panel is", value=longest, allowed=W,
        mend="lay the tube along the roll, or part the panel by a seam")  # fmt: skip
M.limit("station", "the station's number is", value=i, allowed=N, resolution=1,
        mend="count stations from the seam round to the seam")  # fmt: skip
M.caution(*CLOTH_KNIFE)
MODEL = M.done()
