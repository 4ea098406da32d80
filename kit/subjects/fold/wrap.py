"""Cloth wrapped round a rail: how much cloth does the way round the edges and the staple tail take?

The picture: a rail seen on end, a rectangle with rounded edges (radius zero is a sharp arris). The cloth comes
down the front face, turns round one edge after another and ends in a tail that is stapled. Each ply follows the
rail at its own distance: half a cloth thickness for the inner ply, one and a half for the next.

Assumptions: the cloth lies tight, keeps its thickness, and its middle keeps its length (K = 1/2).
Sources: length of a parallel curve (geometry); DIN 6935 with its factor 1 for gentle bends gives the same.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.fold.neutral_axis import allowance, outer_strain, state_cloth

M = Model(
    "fold.wrap",
    title="Cloth wrapped round a rail",
    question="How much cloth must hang over the rail’s front corner to go round the edges and be stapled?",
    picture="A rail on end, wrapped by cloth that turns 90° at each edge and ends in a tail from the last corner.",
    assumptions=(
        "The cloth lies tight on the rail, keeps its thickness and neither stretches nor eases along its middle.",
        "All edges of the rail are square corners rounded to the same radius; zero is a sharp arris.",
        "Corners are where the flat faces of the rail would meet; cloth is counted from the first of them.",
    ),
    sources=(
        "plane geometry: a curve at distance e outside a convex one is longer by e times the angle turned",
        "stretched length of gentle bends with the neutral fiber in the middle, as in DIN 6935 above r = 5 s",
    ),
)  # fmt: skip

h = M.given(
    "rail_thickness", "h", "mm", 20, span=(5, 100), half=0.3,
    meaning="thickness of the rail: the first face behind the front corner", how="caliper",
)  # fmt: skip
w = M.given(
    "rail_width", "w", "mm", 60, span=(5, 300), half=0.5,
    meaning="width of the rail: the face behind the second corner", how="caliper or rule",
)  # fmt: skip
r = M.given(
    "edge_radius", "r", "mm", 3, span=(0, 20), half=0.5,
    meaning="radius of the rail’s edges, zero for a sharp arris", how="radius gauge, or the cutter that rounded them",
)  # fmt: skip
n = M.count("edges", "n", 2, span=(1, 4), meaning="edges that the cloth turns round, 90° each")
c = state_cloth(M, "wrapped")
p = M.count("plies", "p", 2, span=(1, 6), meaning="plies that go round together, two for a single hem")
tail = M.given(
    "tail", "t", "mm", 30, span=(5, 200), half=1,
    meaning="staple tail, from the last corner to the cut edge", how="rule",
)  # fmt: skip
hold = M.given(
    "least_tail", r"t_{\mathrm{least}}", "mm", 20, span=(5, 60),
    meaning="flat cloth that the staples and the cut edge need", how="crown of the staple and a margin each side",
)  # fmt: skip
tolerated = M.given(
    "coating_strain", r"\varepsilon_{\mathrm{c}}", "%", 15, span=(1, 60),
    meaning="strain that the face of the cloth stands for years without cracking", source="invented demo value",
    how="fold a scrap round rods of several sizes, leave it in the cold, look for cracks",
)  # fmt: skip

theta = M.result(
    "wrap_angle", r"\theta", "deg", n * sp.pi / 2,
    because="the cloth turns a right angle at each edge",
    meaning="angle through which the cloth is turned", resolution=1,
)  # fmt: skip
faces = M.relation(
    "faces", "F", "mm", sp.floor(n / 2) * h + sp.floor((n - 1) / 2) * w,
    because="between the corners lie the thickness, then the width, then the thickness again",
    meaning="faces of the rail from the first corner to the last",
)  # fmt: skip
sharp = M.relation(
    "sharp_path", r"\ell_{\mathrm{sharp}}", "mm", faces + tail,
    because="on a sharp-edged rail the face of the wood is followed corner by corner, then along the tail",
    meaning="way along a sharp-edged rail",
)  # fmt: skip
cut = M.relation(
    "corner_cut", "q", "mm", 2 * r - sp.pi * r / 2,
    because="a rounded edge replaces two straight parts of length r by a quarter circle",
    lines=[((2 - sp.pi / 2) * r, "0.43 of the radius")], meaning="way saved at each rounded edge", resolution=0.01,
)  # fmt: skip
path = M.relation(
    "rail_path", r"\ell", "mm", sharp - n * cut,
    because="every edge turned saves the same", meaning="way along the face of the rail",
)  # fmt: skip
phi, i = sp.Symbol("phi", real=True), sp.Symbol("i", integer=True)
inner = M.result(
    "inner_cloth", r"C_{\mathrm{in}}", "mm", path + allowance(theta, 0, sp.Rational(1, 2), c),
    because="the middle of the inner ply runs c/2 outside the wood and so on a longer arc at every edge",
    lines=[
        (path + sp.Integral((r + c / 2) - r, (phi, 0, theta)), "each step of angle dφ is longer by c/2 times dφ"),
        (sharp - n * (2 * r - allowance(sp.pi / 2, r, sp.Rational(1, 2), c)),
         "corner by corner, as one counts a bend in sheet: two straights less the arc of the neutral fiber"),
    ],
    meaning="cloth beyond the first corner, inner ply", resolution=0.1,
)  # fmt: skip
step = M.result(
    "step", r"\Delta C", "mm", theta * (p - 1) * c,
    because="each further ply lies one cloth thickness farther out all the way round",
    lines=[(sp.Sum(theta * c, (i, 1, p - 1)), "every ply needs θ c more than the one below it")],
    meaning="how much farther the cut edge of the inner ply reaches than that of the outer", resolution=0.1,
)  # fmt: skip
M.result(
    "outer_cloth", r"C_{\mathrm{out}}", "mm", inner + step,
    because="all plies are to end together at the tail",
    lines=[(path + theta * (p - sp.Rational(1, 2)) * c, "the middle of the outer ply lies p - 1/2 thicknesses out")],
    meaning="cloth beyond the first corner, outer ply: cut this", resolution=0.1,
)  # fmt: skip
face = M.result(
    "face_strain", r"\varepsilon", "%", outer_strain(r, sp.Rational(1, 2), c),
    because="the face of the inner ply lies c/2 outside its middle, which turns on radius r + c/2",
    lines=[(1 / (2 * r / c + 1), "the textbook’s form for a neutral fiber in the middle")],
    meaning="strain of the cloth’s outer face at an edge", resolution=0.1,
)  # fmt: skip
flat = M.relation(
    "flat_tail", r"t_{\mathrm{flat}}", "mm", tail - r,
    because="the rounding of the last edge is no ground for a staple", meaning="flat part of the tail", resolution=0.1,
)  # fmt: skip
M.limit(
    "tail", "the flat part of the tail is", value=flat, allowed=hold, sense=">=",
    mend="cut a longer tail or round the edges less",
)  # fmt: skip
M.limit(
    "coating", "the face of the cloth is drawn by", value=face, allowed=tolerated,
    mend="round the edges more or take thinner cloth",
)  # fmt: skip
M.limit(
    "edge", "the edge radius is", value=r, allowed=sp.Min(h, w) / 2, in_unit="mm", resolution=0.1,
    mend="round the edges less: two roundings do not fit on one face",
)  # fmt: skip
M.caution(
    "Round a sharp arris before wrapping: it cracks coatings and chafes through woven cloth.", when=r < c
)
M.caution("Wear eye protection when stapling, and keep the other hand out of the line of the stapler.")
M.caution(
    "Wrap a scrap first and mark the corners on it; cloth that stretches under the pull needs less than is worked here."
)
MODEL = M.done()
