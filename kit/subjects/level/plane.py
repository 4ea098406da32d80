"""Three gaps give the plane of the bed: how deep does it lie at any other place, and how surely?

The question in the trade's words: I measured the gap under the straightedge at three places. How does the bed
lean, and how far is it below the line at the foot, where I cannot measure?

The picture, from above: three measured places make a triangle; the foot lies in it or beyond it. A plane through
the three gaps passes under every other place. A place inside takes its height from the three in shares, each
share the area of the triangle on the opposite side; beyond the triangle one share falls below zero and the others
grow, and so do the errors.

Assumptions: the bed is flat; the line over it is one true plane (straightedge on the same supports, both ways);
the gaps' uncertainties are independent and small against the bed. More than three gaps are fitted by weighted
least squares in kit.subjects.level.plane_fit; for three both give the same.

Sources: area coordinates of a triangle (A. F. Möbius), plane geometry; JCGM 100:2008 (GUM), 5.1.2.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.level.places import opposite, state_place, twice_area
from kit.subjects.safety import HEAVY_MACHINE

M = Model(
    "level.plane",
    title="Plane of the bed from three gaps",
    question="How deep does the bed lie at a foot, if the gap is known at three other places?",
    picture="From above: three measured places make a triangle, and the foot lies in it or beyond it. Each gap counts "
    "at the foot by the area of the triangle on its opposite side.",
    assumptions=(
        "the bed is flat",
        "all gaps are measured from one true plane",
        "the errors of the gaps are independent",
        "the bed leans so little that lengths along it are lengths in plan",
    ),
    sources=(
        "area coordinates of a triangle (A. F. Möbius, 1827): plane geometry",
        "JCGM 100:2008 (GUM), 5.1.2: independent errors add by their squares",
    ),
)
SPANS = (((0, 300), (0, 300), 60, 40), ((500, 2000), (0, 300), 640, 40), ((0, 2000), (500, 2000), 350, 520))
places, gaps, spreads = [], [], []
for i, (place, depth) in enumerate(zip(SPANS, (2.62, 2.31, 3.05), strict=True), start=1):
    ways = ("along the straightedge", "across")
    places.append(state_place(M, i, place, what="place", ways=ways, how="tape from one corner of the bed"))
    gaps.append(M.given(f"gap_{i}", f"z_{{{i}}}", "mm", depth, span=(-20, 50), half=0.13, spread="normal",
                        meaning=f"depth of the bed at place {i}; below zero: the bed stands proud",
                        how="cards under a straightedge, or feeler gauges"))  # fmt: skip
for i in (1, 2, 3):
    spreads.append(M.given(f"u_{i}", f"u_{{{i}}}", "mm", 0.065, span=(0.001, 2),
                           meaning=f"standard uncertainty of the depth at place {i}",
                           how="from the cards"))  # fmt: skip
X = M.given(
    "foot_x", "X", "mm", 100, span=(-500, 2500), half=1, meaning="foot, along the straightedge", how="tape"
)
Y = M.given("foot_y", "Y", "mm", 450, span=(-500, 2500), half=1, meaning="foot, across", how="tape")
allowed = M.given("allowed", r"u_{\mathrm{max}}", "mm", 0.1, span=(0.001, 2),
                  meaning="standard uncertainty at the foot that you can allow")  # fmt: skip
least = M.given("least_width", r"d_{\mathrm{min}}", "mm", 150, span=(10, 1000),
                meaning="least width of the triangle of places that you accept")  # fmt: skip

A = M.relation(
    "twice_area", "A", "mm^2", twice_area(*places), because="the vector product of two sides is twice the triangle",
    lines=[(sp.Determinant(sp.Matrix([[1, *place] for place in places])).doit(), "also the determinant of the places")],
    meaning="twice the area of the triangle of places",
)  # fmt: skip
told = "share of gap {} at the foot; three places in one line fix no plane"
shares = [
    M.relation(
        f"share_{i + 1}",
        rf"\lambda_{{{i + 1}}}",
        "",
        opposite(places, i, (X, Y)) / A,
        resolution=0.001,
        because=f"place {i + 1} counts by the triangle between the foot and the two other places",
        meaning=told.format(i + 1),
    )
    for i in range(2)
]
own = sp.symbols("share_1 share_2 share_3", real=True)
shares.append(M.relation(
    "share_3", r"\lambda_{3}", "", 1 - shares[0] - shares[1], resolution=0.001, meaning=told.format(3),
    because="the shares are one in all, so that a level bed stays level",
    lines=[(opposite(places, 2, (X, Y)) / A, "the same by areas"),
           (equal(sp.Matrix([[p[axis] for p in places] for axis in (0, 1)]) * sp.Matrix(own), sp.Matrix([X, Y])),
            "weighted by their shares, the three places meet at the foot")],
))  # fmt: skip
z = M.result(
    "depth", "z", "mm", sum(share * gap for share, gap in zip(shares, gaps, strict=True)), resolution=0.001,
    because="a plane takes its height from three places in the shares that give the place itself",
    meaning="depth of the bed at the foot",
)  # fmt: skip
u = M.result(
    "u", "u", "mm", sp.sqrt(sum((share * u_i) ** 2 for share, u_i in zip(shares, spreads, strict=True))),
    resolution=0.001, because="independent errors come with their shares and add by their squares",
    source="JCGM 100:2008, 5.1.2", meaning="standard uncertainty of the depth at the foot",
)  # fmt: skip
rises = {
    "x": (gaps[0] * (places[1][1] - places[2][1]) + gaps[1] * (places[2][1] - places[0][1])
          + gaps[2] * (places[0][1] - places[1][1])) / A,
    "y": (gaps[0] * (places[2][0] - places[1][0]) + gaps[1] * (places[0][0] - places[2][0])
          + gaps[2] * (places[1][0] - places[0][0])) / A,
}  # fmt: skip
lean = {
    axis: M.result(
        f"slope_{axis}", f"s_{{{axis}}}", "mm/m", rises[axis], resolution=0.01,
        because="only the shares change with the foot's place, each by a side of the triangle over its area",
        lines=[(sp.Derivative(sum(opposite(places, i, (X, Y)) * gaps[i] for i in range(3)) / A, foot),
                f"how the depth changes as the foot is moved along {axis}")],
        meaning=f"how much deeper the bed gets along {axis}",
    )
    for axis, foot in (("x", X), ("y", Y))
}  # fmt: skip
base = M.result(
    "depth_corner", "z_{0}", "mm", gaps[0] - lean["x"] * places[0][0] - lean["y"] * places[0][1], resolution=0.001,
    because="back from place 1 to the corner from which x and y are measured", meaning="depth at the corner, x = y = 0",
    lines=[(z - lean["x"] * X - lean["y"] * Y, "the same from the foot: it lies on the same plane"),
           (equal(sp.Matrix([[1, *p] for p in places]) * sp.Matrix([sp.Symbol("depth_corner", real=True),
           lean["x"], lean["y"]]),
                  sp.Matrix(gaps)), "and the plane passes through all three gaps")],
)  # fmt: skip
M.result("lean", r"\theta", "deg", sp.atan(sp.sqrt(lean["x"] ** 2 + lean["y"] ** 2)), resolution=0.01,
         because="the steepest slope is the root of the sum of both squares",
         meaning="lean of the bed from the line's plane")  # fmt: skip
sides = [
    sp.sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2)
    for a, b in ((places[0], places[1]), (places[1], places[2]), (places[2], places[0]))
]
width = M.result(
    "width", "d", "mm", sp.Abs(A) / sp.Max(*sides), resolution=1,
    meaning="width of the triangle of places, square to its longest side",
    because="twice the area over the longest side is the height over it",
)  # fmt: skip

M.limit("sure", "the depth at the foot is known to", value=u, allowed=allowed,
        mend="measure nearer to the foot or with thinner cards")  # fmt: skip
M.limit("spread_out", "the triangle of places is wide by", value=width, allowed=least, sense=">=",
        mend="move one place well away from the line through the other two")  # fmt: skip
M.caution(*HEAVY_MACHINE)
M.caution("The foot lies beyond the triangle of places, where errors grow fast: measure nearer to it.",
          when=sp.Lt(sp.Min(*shares), 0))  # fmt: skip
MODEL = M.done()
