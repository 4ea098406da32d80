"""The bevel along a curved edge against an upright wall: it changes along the curve, the saw does not.

The question in the trade's words: the brow of a hood is a flat board that leans over; its edge is cut to an arc and
must lie close on an upright wall bent to the same arc. What bevel does the edge need where, which single tilt of
the saw is best, and what gap is left?

The picture: looking square at the board one sees the arc with its chord and rise, the chord level. Looking along
the chord one sees the wall upright and the board leaning away from it by the lean. In the middle of the arc the
edge needs most bevel, toward the ends less.

The same numbers hold where the wall is flat, the arc is drawn on it, and the leaning face is bent to the arc:
what counts is the angle between the plane of the arc and the lines of the bent face.

Sources: vector geometry. tan(bevel) = cos(direction) / tan(lean) is the rule of apparent dip in geology.
"""

from __future__ import annotations

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.bevel.planes import square_of, times, unknown
from kit.subjects.safety import SAW

M = Model(
    "bevel.wall",
    title="Bevel along a curved edge against a wall",
    question="What bevel does a curved edge need that leans against an upright wall, and how well does one tilt do?",
    picture=(
        "A flat board leans from an upright wall. Its edge is an arc with a level chord; the wall follows the arc. "
        "Across the edge one sees the board's thickness and the wall at the bevel of that place."
    ),
    assumptions=(
        "the board is flat and the wall upright; the wall is bent to the arc of the edge",
        "the arc is measured on the board, its chord is level, and it is at most a half circle",
        "the bevel is counted from a square edge, which is the tilt of the blade from vertical",
        "the outside arris of the edge is cut to the line; a gap opens or wood stands proud at the inside",
    ),
    sources=("vector geometry; circle through chord and rise",),
)

lam = M.given("lean", r"\lambda", "deg", 55, span=(20, 85), meaning="lean of the board, from the upright wall",
              how="bevel gauge between wall and face, in the middle", half=0.2)  # fmt: skip
c = M.given("chord", "c", "mm", 900, span=(300, 3000), meaning="chord of the arc", how="tape", half=1)
h = M.given("rise", "h", "mm", 130, span=(5, 140), meaning="rise of the arc over its chord",
            how="rule from a straightedge on the chord", half=0.5)  # fmt: skip
t = M.given("thickness", "t", "mm", 18, span=(3, 60), meaning="thickness of the board", how="caliper",
            half=0.1)  # fmt: skip
x = M.given("station", "x", "mm", 300, span=(0, 1500), meaning="place along the edge, from its middle",
            how="tape bent along the edge")  # fmt: skip
beta0 = M.given(
    "tilt",
    r"\beta_{0}",
    "deg",
    33,
    span=(0, 60),
    meaning="tilt at which the saw is set, from vertical",
    how="bevel gauge at the blade",
    half=0.1,
)
allowed = M.given("gap_allowed", r"g_{\mathrm{max}}", "mm", 1, span=(0.05, 5),
                  meaning="gap that filler or a bead hides")  # fmt: skip
tilt_most = M.given("tilt_reach", r"\beta_{\mathrm{max}}", "deg", 45, span=(0, 60),
                    meaning="greatest tilt of the saw, from vertical", how="saw's stop")  # fmt: skip

R = M.result(
    "radius",
    "R",
    "mm",
    c**2 / (8 * h) + h / 2,
    resolution=0.1,
    meaning="radius of the arc",
    because="half the chord, the radius less the rise, and the radius make a right triangle",
    lines=[(equal((unknown("radius") - h) ** 2 + (c / 2) ** 2, unknown("radius") ** 2), "that triangle")],
)
alpha = M.relation(
    "half_arc",
    r"\alpha",
    "deg",
    2 * sp.atan(2 * h / c),
    meaning="half the arc's angle",
    because="the chord of half the arc makes half that angle with the chord",
    lines=[(equal(R * sp.sin(unknown("half_arc")), c / 2), "half the chord, from the center")],
)
edge = M.result("half_edge", "e", "mm", R * alpha, resolution=0.1, meaning="length of the edge, middle to end",
                because="an arc is radius times angle")  # fmt: skip
tau = M.relation(
    "direction",
    r"\tau",
    "deg",
    x / R,
    because="along an arc the direction turns by length over radius",
    meaning="direction of the edge at the station, from the chord",
)

beta = unknown("bevel")
face = sp.Matrix([0, sp.cos(lam), sp.sin(lam)])  # the board looks outward (y) and up
normal = sp.Matrix([-sp.sin(tau) * sp.sin(lam), sp.cos(tau), 0])
along = sp.Matrix([sp.cos(tau), sp.sin(tau) * sp.sin(lam), -sp.sin(tau) * sp.cos(lam)])
M.result(
    "bevel",
    r"\beta",
    "deg",
    sp.atan(sp.cos(tau) / sp.tan(lam)),
    resolution=0.01,
    meaning="bevel that the edge needs at the station, from square",
    because="the bevel leans the square edge into the wall: its sine is the product of the two unit normals",
    lines=[
        (
            times(sp.Matrix.vstack(along.T, sp.Matrix([[0, 0, 1]])), normal, sp.zeros(2, 1)),
            "the wall holds the edge's direction and the upright, so its normal is square to both",
        ),
        (
            times(face.T, normal, sp.Matrix([[sp.cos(lam) * sp.cos(tau)]])),
            "the board's normal times that one",
        ),
        (
            equal(
                sp.sin(beta),
                sp.cos(lam) * sp.cos(tau) / sp.sqrt(sp.cos(tau) ** 2 + sp.sin(tau) ** 2 * sp.sin(lam) ** 2),
            ),
            "divided by the length of the wall's normal",
        ),
    ],
)
most = M.result("bevel_most", r"\beta_{1}", "deg", square_of(lam), resolution=0.01,
                meaning="greatest bevel, in the middle of the edge", because="there the edge runs level, τ = 0",
                lines=[(sp.atan(1 / sp.tan(lam)), "the bevel with cos τ = 1")])  # fmt: skip
least = M.result(
    "bevel_least",
    r"\beta_{2}",
    "deg",
    sp.atan(sp.cos(alpha) / sp.tan(lam)),
    resolution=0.01,
    meaning="least bevel, at the ends of the edge",
    because="there the edge has turned most, τ = α",
)

M.result(
    "gap",
    "g",
    "mm",
    t * sp.sin(beta0 - beta) / sp.cos(beta0),
    resolution=0.01,
    meaning="gap to the wall at the station; below 0 the inside stands proud and must be planed",
    because="the cut crosses the thickness over t / cos(tilt) and misses the wall by the difference of the angles",
    lines=[
        (
            t * sp.cos(beta) * (sp.tan(beta0) - sp.tan(beta)),
            "also: the difference along the face, turned square to the wall",
        )
    ],
)
worst = M.result(
    "gap_worst", "g_{1}", "mm", t * sp.Max(sp.sin(most - beta0), sp.sin(beta0 - least)) / sp.cos(beta0),
    resolution=0.01, meaning="greatest misfit along the whole edge with the saw as set",
    because="the misfit grows toward the middle one way and toward the ends the other way",
)  # fmt: skip
best = M.result(
    "best_tilt",
    r"\beta_{*}",
    "deg",
    (most + least) / 2,
    resolution=0.01,
    meaning="single tilt with the smallest misfit, from vertical",
    because="more tilt helps the middle and harms the ends; best is where both misfits are equal",
    lines=[
        (
            equal(sp.sin(most - unknown("best_tilt")), sp.sin(unknown("best_tilt") - least)),
            "both misfits equal",
        )
    ],
)
left = M.result(
    "best_gap", "g_{*}", "mm", t * sp.sin((most - least) / 2) / sp.cos(best), resolution=0.01,
    meaning="misfit left at the best single tilt: proud in the middle, open at the ends",
    because="half the range of the bevel is missed at the middle and at the ends",
    lines=[(t * sp.sin(most - best) / sp.cos(best), "the misfit in the middle"),
           (t * sp.sin(best - least) / sp.cos(best), "the misfit at the ends")],
)  # fmt: skip
M.result(
    "undercut_gap", "g_{2}", "mm", t * sp.sin(most - least) / sp.cos(most), resolution=0.01,
    meaning="gap at the inside of the ends if the saw is set to the greatest bevel",
    because="set so, the outside arris touches everywhere and nothing stands proud",
)  # fmt: skip

M.limit("gap", "at the tilt as set the edge misses the wall by", value=worst, allowed=allowed,
        mend="set the best tilt, or cut in sections with a tilt for each")  # fmt: skip
M.limit("best", "at the best tilt the edge misses the wall by", value=left, allowed=allowed,
        mend="cut in sections with a tilt for each, or pare the edge to the wall by hand")  # fmt: skip
M.limit("station", "the station is", value=x, allowed=edge, resolution=1,
        mend="choose a station on the edge: it ends there")  # fmt: skip
M.limit(
    "reach",
    "the middle of the edge needs a tilt of",
    value=most,
    allowed=tilt_most,
    resolution=0.1,
    mend="lean the board farther from the wall, or cut with a hand-held jigsaw and plane the bevel",
)
M.caution(*SAW)
M.caution("A curve is cut on the band saw or with a jigsaw, never on the table saw.")
M.caution("Less tilt than the middle needs leaves wood proud at the inside: plane it before fitting.",
          when=sp.Lt(beta0, most))  # fmt: skip

MODEL = M.done()
