"""Cloth wrapped round a rail.

How much cloth must hang over the rail’s front corner to go round the edges and be stapled?

Picture: A rail on end, wrapped by cloth that turns 90° at each edge and ends in a tail from the last corner.

Assumptions:
- The cloth lies tight on the rail, keeps its thickness and neither stretches nor eases along its middle.
- All edges of the rail are square corners rounded to the same radius; zero is a sharp arris.
- Corners are where the flat faces of the rail would meet; cloth is counted from the first of them.

Sources:
- plane geometry: a curve at distance e outside a convex one is longer by e times the angle turned
- stretched length of gentle bends with the neutral fiber in the middle, as in DIN 6935 above r = 5 s

Notes: A rail seen on end, a rectangle with rounded edges (radius zero is a sharp arris). The cloth comes down the front
face, turns round one edge after another and ends in a tail that is stapled. Each ply follows the rail at its own
distance: half a cloth thickness for the inner ply, one and a half for the next. Also: DIN 6935 with its factor 1 for
gentle bends gives the same.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.fold.neutral_axis import allowance, outer_strain, state_cloth

M = Model("fold.wrap", __doc__)

h = M.given(
    "rail_thickness", "h", "20 ± 0.3 mm", (5, 100), "thickness of the rail: the first face behind the front corner"
)
M.measured("caliper")
w = M.given("rail_width", "w", "60 ± 0.5 mm", (5, 300), "width of the rail: the face behind the second corner")
M.measured("caliper or rule")
r = M.given("edge_radius", "r", "3 ± 0.5 mm", (0, 20), "radius of the rail’s edges, zero for a sharp arris")
M.measured("radius gauge, or the cutter that rounded them")
n = M.count("edges", "n", 2, (1, 4), "edges that the cloth turns round, 90° each")
c = state_cloth(M, "wrapped")
p = M.count("plies", "p", 2, (1, 6), "plies that go round together, two for a single hem")
tail = M.given("tail", "t", "30 ± 1 mm", (5, 200), "staple tail, from the last corner to the cut edge")
M.measured("rule")
hold = M.given(
    "least_tail", r"t_{\mathrm{least}}", "20 mm", (5, 60), "flat cloth that the staples and the cut edge need"
)
M.measured("crown of the staple and a margin each side")
tolerated = M.given(
    "coating_strain",
    r"\varepsilon_{\mathrm{c}}",
    "15 %",
    (1, 60),
    "strain that the face of the cloth stands for years without cracking",
)
M.measured("fold a scrap round rods of several sizes, leave it in the cold, look for cracks")

theta = M.result("wrap_angle", r"\theta", "deg", "angle through which the cloth is turned", resolution=1)
M.equals(n * sp.pi / 2, "the cloth turns a right angle at each edge")
faces = M.relation("faces", "F", "mm", "faces of the rail from the first corner to the last")
M.equals(
    sp.floor(n / 2) * h + sp.floor((n - 1) / 2) * w,
    "between the corners lie the thickness, then the width, then the thickness again",
)
sharp = M.relation("sharp_path", r"\ell_{\mathrm{sharp}}", "mm", "way along a sharp-edged rail")
M.equals(faces + tail, "on a sharp-edged rail the face of the wood is followed corner by corner, then along the tail")
cut = M.relation("corner_cut", "q", "mm", "way saved at each rounded edge", resolution=0.01)
M.step((2 - sp.pi / 2) * r, "0.43 of the radius")
M.equals(2 * r - sp.pi * r / 2, "a rounded edge replaces two straight parts of length r by a quarter circle")
path = M.relation("rail_path", r"\ell", "mm", "way along the face of the rail")
M.equals(sharp - n * cut, "every edge turned saves the same")
phi, i = sp.Symbol("phi", real=True), sp.Symbol("i", integer=True)
inner = M.result("inner_cloth", r"C_{\mathrm{in}}", "mm", "cloth beyond the first corner, inner ply", resolution=0.1)
M.step(path + sp.Integral((r + c / 2) - r, (phi, 0, theta)), "each step of angle dφ is longer by c/2 times dφ")
M.step(
    sharp - n * (2 * r - allowance(sp.pi / 2, r, sp.Rational(1, 2), c)),
    "corner by corner, as one counts a bend in sheet: two straights less the arc of the neutral fiber",
)
M.equals(
    path + allowance(theta, 0, sp.Rational(1, 2), c),
    "the middle of the inner ply runs c/2 outside the wood and so on a longer arc at every edge",
)
step = M.result(
    "step",
    r"\Delta C",
    "mm",
    "how much farther the cut edge of the inner ply reaches than that of the outer",
    resolution=0.1,
)
M.step(sp.Sum(theta * c, (i, 1, p - 1)), "every ply needs θ c more than the one below it")
M.equals(theta * (p - 1) * c, "each further ply lies one cloth thickness farther out all the way round")
M.result("outer_cloth", r"C_{\mathrm{out}}", "mm", "cloth beyond the first corner, outer ply: cut this", resolution=0.1)
M.step(path + theta * (p - sp.Rational(1, 2)) * c, "the middle of the outer ply lies p - 1/2 thicknesses out")
M.equals(inner + step, "all plies are to end together at the tail")
face = M.result("face_strain", r"\varepsilon", "%", "strain of the cloth’s outer face at an edge", resolution=0.1)
M.step(1 / (2 * r / c + 1), "the textbook’s form for a neutral fiber in the middle")
M.equals(
    outer_strain(r, sp.Rational(1, 2), c),
    "the face of the inner ply lies c/2 outside its middle, which turns on radius r + c/2",
)
flat = M.relation("flat_tail", r"t_{\mathrm{flat}}", "mm", "flat part of the tail", resolution=0.1)
M.equals(tail - r, "the rounding of the last edge is no ground for a staple")
M.limit("tail", "the flat part of the tail is", flat, ">=", hold)
M.mend("cut a longer tail or round the edges less")
ground = M.relation("last_face", "f", "mm", "face of the rail on which the tail lies")
M.equals(
    sp.Piecewise((h, sp.Eq(sp.Mod(n, 2), 1)), (w, True)),
    "beyond an odd number of edges the tail lies on the thickness, else on the width of the rail",
)
M.limit("ground", "the tail is", tail, "<=", ground, in_unit="mm", resolution=0.5)
M.mend("cut a shorter tail, or turn it round one edge more")
M.limit("coating", "the face of the cloth is drawn by", face, "<=", tolerated)
M.mend("round the edges more or take thinner cloth")
M.limit("edge", "the edge radius is", r, "<=", sp.Min(h, w) / 2, in_unit="mm", resolution=0.1)
M.mend("round the edges less: two roundings do not fit on one face")
M.caution("Round a sharp arris before wrapping: it cracks coatings and chafes through woven cloth.", when=r < c)
M.caution("Wear eye protection when stapling, and keep the other hand out of the line of the stapler.")
M.caution(
    "Wrap a scrap first and mark the corners on it; cloth that stretches under the pull needs less than computed here."
)
MODEL = M.done()
