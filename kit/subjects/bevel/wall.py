"""Bevel along a curved edge against a wall.

What bevel does a curved edge need that leans against an upright wall, and how well does one tilt do?

In the trade's words: the brow of a hood is a flat board that leans over; its edge is cut to an arc and must lie close
on an upright wall bent to the same arc. What bevel does the edge need where, which single tilt of the saw is best, and
what gap is left?

Picture: A flat board leans from an upright wall. Its edge is an arc with a level chord; the wall follows the arc.
Across the edge one sees the board's thickness and the wall at the bevel of that place.

Assumptions:
- the board is flat and the wall upright; the wall is bent to the arc of the edge
- the arc is measured on the board, its chord is level, and it is at most a half circle
- the bevel is counted from a square edge, which is the tilt of the blade from vertical
- the outside arris of the edge is cut to the line; a gap opens or wood stands proud at the inside

Sources:
- vector geometry; circle through chord and rise

Notes: In the middle of the arc the edge needs most bevel, toward the ends less. The same numbers hold where the wall is
flat, the arc is drawn on it, and the leaning face is bent to the arc: what counts is the angle between the plane of the
arc and the lines of the bent face. Also: vector geometry. tan(bevel) = cos(direction) / tan(lean) is the rule of
apparent dip in geology.
"""

from __future__ import annotations

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.bevel.planes import square_of, times
from kit.subjects.safety import SAW

M = Model("bevel.wall", __doc__)

lam = M.given("lean", r"\lambda", "55 ± 0.2 deg", (20, 85), "lean of the board, from the upright wall")
M.measured("bevel gauge between wall and face, in the middle")
c = M.given("chord", "c", "900 ± 1 mm", (300, 3000), "chord of the arc")
M.measured("tape")
h = M.given("rise", "h", "130 ± 0.5 mm", (5, 140), "rise of the arc over its chord")
M.measured("rule from a straightedge on the chord")
t = M.given("thickness", "t", "18 ± 0.1 mm", (3, 60), "thickness of the board")
M.measured("caliper")
x = M.given("station", "x", "300 mm", (0, 1500), "place along the edge, from its middle")
M.measured("tape bent along the edge")
beta0 = M.given("tilt", r"\beta_{0}", "33 ± 0.1 deg", (0, 60), "tilt at which the saw is set, from vertical")
M.measured("bevel gauge at the blade")
allowed = M.given("gap_allowed", r"g_{\mathrm{max}}", "1 mm", (0.05, 5), "gap that filler or a bead hides")
tilt_most = M.given("tilt_reach", r"\beta_{\mathrm{max}}", "45 deg", (0, 60), "greatest tilt of the saw, from vertical")
M.measured("saw's stop")

R = M.result("radius", "R", "mm", "radius of the arc", resolution=0.1)
M.step(equal((R - h) ** 2 + (c / 2) ** 2, R**2), "that triangle")
M.equals(c**2 / (8 * h) + h / 2, "half the chord, the radius less the rise, and the radius make a right triangle")
alpha = M.relation("half_arc", r"\alpha", "deg", "half the arc's angle")
M.step(equal(R * sp.sin(alpha), c / 2), "half the chord, from the center")
M.equals(2 * sp.atan(2 * h / c), "the chord of half the arc makes half that angle with the chord")
edge = M.result("half_edge", "e", "mm", "length of the edge, middle to end", resolution=0.1)
M.equals(R * alpha, "an arc is radius times angle")
tau = M.relation("direction", r"\tau", "deg", "direction of the edge at the station, from the chord")
M.equals(x / R, "along an arc the direction turns by length over radius")

face = sp.Matrix([0, sp.cos(lam), sp.sin(lam)])  # the board looks outward (y) and up
normal = sp.Matrix([-sp.sin(tau) * sp.sin(lam), sp.cos(tau), 0])
along = sp.Matrix([sp.cos(tau), sp.sin(tau) * sp.sin(lam), -sp.sin(tau) * sp.cos(lam)])
beta = M.result("bevel", r"\beta", "deg", "bevel that the edge needs at the station, from square", resolution=0.01)
M.step(
    times(sp.Matrix.vstack(along.T, sp.Matrix([[0, 0, 1]])), normal, sp.zeros(2, 1)),
    "the wall holds the edge's direction and the upright, so its normal is square to both",
)
M.step(times(face.T, normal, sp.Matrix([[sp.cos(lam) * sp.cos(tau)]])), "the board's normal times that one")
M.step(
    equal(
        sp.sin(beta),
        sp.cos(lam) * sp.cos(tau) / sp.sqrt(sp.cos(tau) ** 2 + sp.sin(tau) ** 2 * sp.sin(lam) ** 2),
    ),
    "divided by the length of the wall's normal",
)
M.equals(
    sp.atan(sp.cos(tau) / sp.tan(lam)),
    "the bevel leans the square edge into the wall: its sine is the product of the two unit normals",
)
most = M.result("bevel_most", r"\beta_{1}", "deg", "greatest bevel, in the middle of the edge", resolution=0.01)
M.step(sp.atan(1 / sp.tan(lam)), "the bevel with cos τ = 1")
M.equals(square_of(lam), "there the edge runs level, τ = 0")
least = M.result("bevel_least", r"\beta_{2}", "deg", "least bevel, at the ends of the edge", resolution=0.01)
M.equals(sp.atan(sp.cos(alpha) / sp.tan(lam)), "there the edge has turned most, τ = α")

M.result(
    "gap",
    "g",
    "mm",
    "gap to the wall at the station; below 0 the inside stands proud and must be planed",
    resolution=0.01,
    signed=True,
)
M.step(
    t * sp.cos(beta) * (sp.tan(beta0) - sp.tan(beta)), "also: the difference along the face, turned square to the wall"
)
M.equals(
    t * sp.sin(beta0 - beta) / sp.cos(beta0),
    "the cut crosses the thickness over t / cos(tilt) and misses the wall by the difference of the angles",
)
worst = M.result(
    "gap_worst", "g_{1}", "mm", "greatest misfit along the whole edge with the saw as set", resolution=0.01
)
M.equals(
    t * sp.Max(sp.sin(most - beta0), sp.sin(beta0 - least)) / sp.cos(beta0),
    "the misfit grows toward the middle one way and toward the ends the other way",
)
best = M.result(
    "best_tilt",
    r"\beta_{*}",
    "deg",
    "single tilt with the smallest misfit, from vertical",
    resolution=0.01,
    setting=True,
)
M.step(equal(sp.sin(most - best), sp.sin(best - least)), "both misfits equal")
M.equals((most + least) / 2, "more tilt helps the middle and harms the ends; best is where both misfits are equal")
left = M.result(
    "best_gap",
    "g_{*}",
    "mm",
    "misfit left at the best single tilt: proud in the middle, open at the ends",
    resolution=0.01,
)
M.step(t * sp.sin(most - best) / sp.cos(best), "the misfit in the middle")
M.step(t * sp.sin(best - least) / sp.cos(best), "the misfit at the ends")
M.equals(
    t * sp.sin((most - least) / 2) / sp.cos(best), "half the range of the bevel is missed at the middle and at the ends"
)
M.result(
    "undercut_gap",
    "g_{2}",
    "mm",
    "gap at the inside of the ends if the saw is set to the greatest bevel",
    resolution=0.01,
)
M.equals(
    t * sp.sin(most - least) / sp.cos(most), "set so, the outside arris touches everywhere and nothing stands proud"
)

M.limit("gap", "at the tilt as set the edge misses the wall by", worst, "<=", allowed)
M.mend("set the best tilt, or cut in sections with a tilt for each")
M.limit("best", "at the best tilt the edge misses the wall by", left, "<=", allowed)
M.mend("cut in sections with a tilt for each, or pare the edge to the wall by hand")
M.limit("station", "the station is", x, "<=", edge, resolution=1)
M.mend("choose a station on the edge: it ends there")
M.limit("reach", "the middle of the edge needs a tilt of", most, "<=", tilt_most, resolution=0.1)
M.mend("lean the board farther from the wall, or cut with a hand-held jigsaw and plane the bevel")
M.caution(*SAW)
M.caution("A curve is cut on the band saw or with a jigsaw, never on the table saw.")
M.caution(
    "Less tilt than the middle needs leaves wood proud at the inside: plane it before fitting.", when=sp.Lt(beta0, most)
)

MODEL = M.done()
