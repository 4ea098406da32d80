"""Plane of the bed from three gaps.

How deep does the bed lie at a foot, if the gap is known at three other places?

In the trade's words: I measured the gap under the straightedge at three places. How does the bed lean, and how far is
it below the line at the foot, where I cannot measure?

Picture: From above: three measured places make a triangle, and the foot lies in it or beyond it. Each gap counts at the
foot by the area of the triangle on its opposite side.

Assumptions:
- the bed is flat
- all gaps are measured from one true plane
- the gaps' own errors are independent; that of their straightedge is common to all
- the bed leans so little that lengths along it are lengths in plan

Sources:
- area coordinates of a triangle (A. F. Möbius, 1827): plane geometry
- JCGM 100:2008 (GUM), 5.1.2: independent errors add by their squares

Notes: A plane through the three gaps passes under every other place. Beyond the triangle one share falls below zero and
the others grow, and so do the errors. The line over it is one true plane (straightedge on the same supports, both
ways). The gaps' own uncertainties are independent and small against the bed; that of their straightedge is common to
all. More than three gaps are fitted by weighted least squares in kit.subjects.level.plane_fit. For three both give the
same.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.core.model.input_terms import amount, rows
from kit.subjects.level.places import opposite, state_place, twice_area
from kit.subjects.safety import HEAVY_MACHINE

M = Model("level.plane", __doc__)
SPANS = (((0, 300), (0, 300), 60, 40), ((500, 2000), (0, 300), 640, 40), ((0, 2000), (500, 2000), 350, 520))
places, gaps, spreads = [], [], []
for i, (place, depth) in enumerate(zip(SPANS, (2.62, 2.31, 3.05), strict=True), start=1):
    ways = ("along the straightedge", "across")
    places.append(state_place(M, i, place, what="place", ways=ways, how="tape from one corner of the bed"))
    gap = M.given(
        f"gap_{i}",
        f"z_{{{i}}}",
        f"{depth} ± 0.13 mm",
        (-20, 50),
        f"depth of the bed at place {i}; below zero: the bed stands proud",
    )
    M.measured("cards under a straightedge, or feeler gauges", spread="normal")
    gaps.append(gap)
for i in (1, 2, 3):
    spread = M.given(f"u_{i}", f"u_{{{i}}}", "0.065 mm", (0.001, 2), f"standard uncertainty of the depth at place {i}")
    M.measured("from the cards, without the straightedge's error")
    spreads.append(spread)
common = M.given(
    "u_edge",
    r"u_{\mathrm{e}}",
    "0.012 mm",
    (0, 1),
    "standard uncertainty that all gaps share, as of one straightedge on the same supports",
)
M.measured("straightedge turned end for end and over")
X = M.given("foot_x", "X", "100 ± 1 mm", (-500, 2500), "foot, along the straightedge")
M.measured("tape")
Y = M.given("foot_y", "Y", "450 ± 1 mm", (-500, 2500), "foot, across")
M.measured("tape")
allowed = M.given(
    "allowed", r"u_{\mathrm{max}}", "0.1 mm", (0.001, 2), "standard uncertainty at the foot that you can allow"
)
least = M.given(
    "least_width", r"d_{\mathrm{min}}", "150 mm", (10, 1000), "least width of the triangle of places that you accept"
)

A = M.relation("twice_area", "A", "mm^2", "twice the area of the triangle of places")
M.step(sp.Determinant(sp.Matrix([[1, *place] for place in places])).doit(), "also the determinant of the places")
M.equals(twice_area(*places), "the vector product of two sides is twice the triangle")
words = "share of gap {} at the foot; three places in one line fix no plane"
shares = []
for i in range(2):
    share = M.relation(f"share_{i + 1}", rf"\lambda_{{{i + 1}}}", "", words.format(i + 1), resolution=0.001)
    M.equals(
        opposite(places, i, (X, Y)) / A,
        f"place {i + 1} counts by the triangle between the foot and the two other places",
    )
    shares.append(share)
share_3 = M.relation("share_3", r"\lambda_{3}", "", words.format(3), resolution=0.001)
M.step(opposite(places, 2, (X, Y)) / A, "the same by areas")
M.step(
    equal(sp.Matrix([[p[axis] for p in places] for axis in (0, 1)]) * sp.Matrix([*shares, share_3]), sp.Matrix([X, Y])),
    "weighted by their shares, the three places meet at the foot",
)
M.equals(1 - shares[0] - shares[1], "the shares are one in all, so that a level bed stays level")
shares.append(share_3)
z = M.result("depth", "z", "mm", "depth of the bed at the foot", resolution=0.001, signed=True)
M.equals(
    sum(share * gap for share, gap in zip(shares, gaps, strict=True)),
    "a plane takes its height from three places in the shares that give the place itself",
)
u = M.result("u", "u", "mm", "standard uncertainty of the depth at the foot", resolution=0.001)
M.step(
    sp.sqrt(sum((share * u_i) ** 2 for share, u_i in zip(shares, spreads, strict=True)) + (sum(shares) * common) ** 2),
    "independent errors come with their shares and add by their squares; one that all gaps share comes with the sum of "
    "the shares",
)
M.equals(
    sp.sqrt(sum((share * u_i) ** 2 for share, u_i in zip(shares, spreads, strict=True)) + common**2),
    "the shares are one in all, so no number of gaps makes the shared error less",
)
M.source("JCGM 100:2008, 5.1.2 and 5.2.2")
rises = {
    "x": (
        gaps[0] * (places[1][1] - places[2][1])
        + gaps[1] * (places[2][1] - places[0][1])
        + gaps[2] * (places[0][1] - places[1][1])
    )
    / A,
    "y": (
        gaps[0] * (places[2][0] - places[1][0])
        + gaps[1] * (places[0][0] - places[2][0])
        + gaps[2] * (places[1][0] - places[0][0])
    )
    / A,
}
lean = {}
for axis, foot in (("x", X), ("y", Y)):
    lean[axis] = M.result(
        f"slope_{axis}",
        f"s_{{{axis}}}",
        "mm/m",
        f"how much deeper the bed gets along {axis}; below zero: shallower",
        resolution=0.01,
        signed=True,
    )
    M.step(
        sp.Derivative(sum(opposite(places, i, (X, Y)) * gaps[i] for i in range(3)) / A, foot),
        f"how the depth changes as the foot is moved along {axis}",
    )
    M.equals(rises[axis], "only the shares change with the foot's place, each by a side of the triangle over its area")
base = M.result("depth_corner", "z_{0}", "mm", "depth at the corner, x = y = 0", resolution=0.001, signed=True)
M.step(z - lean["x"] * X - lean["y"] * Y, "the same from the foot: it lies on the same plane")
M.step(
    equal(sp.Matrix([[1, *p] for p in places]) * sp.Matrix([base, lean["x"], lean["y"]]), sp.Matrix(gaps)),
    "and the plane passes through all three gaps",
)
M.equals(
    gaps[0] - lean["x"] * places[0][0] - lean["y"] * places[0][1],
    "back from place 1 to the corner from which x and y are measured",
)
M.result("lean", r"\theta", "deg", "lean of the bed from the line's plane", resolution=0.01)
M.equals(sp.atan(sp.sqrt(lean["x"] ** 2 + lean["y"] ** 2)), "the steepest slope is the root of the sum of both squares")
sides = [
    sp.sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2)
    for a, b in ((places[0], places[1]), (places[1], places[2]), (places[2], places[0]))
]
width = M.result("width", "d", "mm", "width of the triangle of places, square to its longest side", resolution=1)
M.equals(sp.Abs(A) / sp.Max(*sides), "twice the area over the longest side is the height over it")

M.limit("sure", "the depth at the foot is known to", u, "<=", allowed)
M.mend("measure nearer to the foot or with thinner cards")
M.limit("spread_out", "the triangle of places is wide by", width, ">=", least)
M.mend("move one place well away from the line through the other two")
M.caution(*HEAVY_MACHINE)
M.caution(
    "The foot lies beyond the triangle of places, where errors grow fast: measure nearer to it.",
    when=sp.Lt(sp.Min(*shares), 0),
)
M.ask(
    rows(
        "gaps",
        "gaps beyond the three of this page",
        amount("x", "place along the bed", span=(-5000, 5000), needed=True),
        amount("y", "place across the bed", span=(-5000, 5000), needed=True),
        amount("depth", "depth below the line of the supports; its ± for 95 % where u is not stated", needed=True),
        amount("u", "standard uncertainty of the depth", span=(0.001, 10)),
    ),
)

MODEL = M.done()
