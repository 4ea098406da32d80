"""Relief cuts in a curved hem.

How many cuts does a curved hem need, how deep, and how near to the fold may they come?

Picture: A quarter of a ring: the fold line as an arc, the hem outside it, cuts from its edge toward the fold, ending at
the free depth.

Assumptions:
- The edge is an arc, and the hem is as deep all along it.
- The hem is folded flat onto the panel; threads parallel to the fold keep their lengths unless strained.
- A cut frees the cloth beside it as far as it is away: between two cuts the hem is strained like one half their
  distance deep.

Sources:
- lengths of parallel arcs: angle times radius
- Saint-Venant's principle: the disturbance of a free edge dies out over the width that it balances (textbook, from
  memory)
- slits on concave and notches on convex edges: common practice, no source

Notes: The corner of a panel with a curved edge, the hem still flat outside the fold line. On a convex edge the hem is
longer than the line that it is folded to, and puckers: notches take the surplus out. On a concave edge it is shorter
and must stretch: slits let it open. Close to the fold the cloth eases as much as it tolerates. Also: the reach of a cut
is taken after Saint-Venant's principle.
"""

import math

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.cloth.geometry.relief_cuts import (
    cut_spacing,
    free_depth,
    notch_slope,
    strain_of_fold,
    turn_per_cut,
)
from kit.subjects.safety import CLOTH_KNIFE

M = Model("cloth.relief", __doc__)

kind = M.choice("edge", "k", ("convex", "concave"), "convex", "which way the edge of the panel bends")
R = M.given("radius", "R", "160 ± 1 mm", (20, 2000), "radius of the edge on the flat panel")
M.measured("from the pattern, or chord and rise of the edge")
beta = M.given("turn", r"\beta", "75 ± 1 deg", (5, 360), "angle through which the edge turns on the flat panel")
M.measured("bevel gauge between the tangents at its ends")
b = M.given("depth", "b", "18 ± 0.5 mm", (3, 60), "depth of the hem, flat, from fold to cut edge")
M.measured("rule; both turns of a double hem")
epsilon = M.given(
    "tolerated",
    r"\varepsilon",
    "10 ± 2 %",
    (1, 40),
    "strain that the folded hem may keep, as small puckers or by stretching",
)
M.measured("fold a curved offcut and look")
M.source("common practice, no source")
clear = M.given("clear", "q", "3 ± 0.5 mm", (0, 15), "least distance of a cut from the fold line")
M.measured("a stitch line's width and a margin against tearing")
M.source("common practice, no source")
angle = sp.Symbol("alpha", positive=True)
sign = 1 - 2 * kind  # +1 on a convex edge, whose hem lies on the larger radius; -1 on a concave one


def by_kind(form: object, *arguments: sp.Expr) -> sp.Expr:
    """Return what a formula of the shapes says for a convex and for a concave edge."""
    return sp.Piecewise((form(*arguments, False), sp.Eq(kind, 0)), (form(*arguments, True), True))  # type: ignore[operator]


flat = M.relation("flat_length", r"\ell_{\mathrm{flat}}", "mm", "length of the hem's cut edge, flat", resolution=0.1)
M.step(sp.Integral(R + sign * b, (angle, 0, beta)), "each step of angle takes the radius times that step")
M.equals(
    beta * (R + sign * b),
    "before folding the cut edge of the hem is an arc one hem depth outside the fold line, or inside it",
)
folded = M.relation(
    "folded_length", r"\ell_{\mathrm{fold}}", "mm", "length of the arc on which the folded edge lies", resolution=0.1
)
M.equals(beta * (R - sign * b), "folded over, it lies as far on the other side")
bare = M.result(
    "bare_strain",
    r"\varepsilon_0",
    "%",
    "strain of the hem's edge if it is not cut: surplus (convex) or stretch (concave)",
    resolution=0.1,
    within=(0, math.inf),
)
M.step(sign * (flat - folded) / flat, "lengths flat and folded")
M.equals(by_kind(strain_of_fold, b, R), "strain is the change of length over the length before")
free = M.result(
    "free_depth", "y_0", "mm", "distance from the fold up to which the hem needs no cut; cuts end here", resolution=0.1
)
M.step(equal(2 * free, epsilon * (R + sign * free)), "the strain 2 y / (R ± y) set to ε; the angle cancels")
M.equals(by_kind(free_depth, R, epsilon), "up to this distance from the fold the strain stays below what is tolerated")
deep = M.result("cut_depth", "t", "mm", "length of each cut, from the hem's edge", resolution=0.1)
M.equals(sp.Max(b - free, 0), "a cut runs from the hem's edge to the free depth; a hem that is no deeper needs none")
gap = M.relation(
    "greatest_gap", r"g_{\mathrm{max}}", "mm", "greatest distance of the cuts along the fold line", resolution=0.1
)
M.step(2 * free, "a free depth to each side")
M.equals(
    by_kind(cut_spacing, R, epsilon),
    "midway between two cuts the hem may be strained like one free depth deep: half the distance is y₀",
)
M.source("Saint-Venant's principle, a rule of thumb here")
each = M.relation("turn_each", r"\beta_1", "deg", "greatest turn that one cut relieves", resolution=0.1)
M.step(gap / R, "arc over radius")
M.equals(
    by_kind(turn_per_cut, epsilon), "seen from the middle of the arc the distance is an angle, and the radius cancels"
)
count = M.result("cuts", "n", "", "number of cuts", resolution=1, whole=True)
M.equals(
    sp.Piecewise((0, b <= free), (sp.ceiling(beta / each), True)),
    "whole cuts, so that none relieves more than its share",
)
share = M.relation("turn_of_cut", r"\beta_2", "deg", "turn that each cut relieves", resolution=0.1)
M.equals(beta / sp.Max(count, 1), "the cuts share the turn evenly")
spacing = M.result(
    "spacing", "g", "mm", "distance of the cuts along the fold line (half of it at both ends)", resolution=0.1
)
M.equals(R * share, "measured along the fold line")
mouth = M.result("mouth", "m", "mm", "width of each notch at the hem's edge", resolution=0.1)
M.step(
    sp.Piecewise((share * ((R + b) - (R - b) / (1 - epsilon)), sp.And(sp.Eq(kind, 0), b > free)), (0, True)),
    "the hem's own edge less the folded arc that may be strained by ε, for one cut's share of the turn",
)
M.equals(
    sp.Piecewise((deep * notch_slope(share, epsilon), sp.Eq(kind, 0)), (0, True)),
    "what is left of the hem's edge may be longer than the arc on which it comes to lie, by the tolerated strain and "
    "no more; a slit has no width",
)
M.result("notch", r"\nu", "deg", "opening angle of each notch; zero for a slit", resolution=0.1)
M.step(sp.Piecewise((2 * sp.atan(mouth / (2 * deep)), mouth > 0), (0, True)), "half the mouth over the depth")
M.equals(
    sp.Piecewise((2 * sp.atan(notch_slope(share, epsilon) / 2), mouth > 0), (0, True)),
    "the sides of the V part evenly from its root, where nothing need be taken out",
)
left = M.result("left_strain", r"\varepsilon_{1}", "%", "strain that is left in the hem", resolution=0.1)
M.step(
    sp.Piecewise(
        (bare, b <= free),
        (1 - share * (R - b) / (share * (R + b) - mouth), sp.Eq(kind, 0)),
        (spacing / (R - spacing / 2), True),
    ),
    "what is left of the hem's own edge, and the arc on which it comes to lie",
)
M.equals(
    sp.Piecewise((bare, b <= free), (epsilon, sp.Eq(kind, 0)), (strain_of_fold(spacing / 2, R, True), True)),
    "uncut, the hem's own edge is strained most; notched, it keeps what the notches leave, from their roots to its "
    "edge; slit, the strips part, and between two roots they are strained like half their distance deep",
)
M.limit("eased", "the strain left in the hem is", left, "<=", epsilon)
M.mend("cut more often, or make the hem narrower")
M.limit("room", "the radius of the edge is", R, ">=", b, in_unit="mm", resolution=1)
M.mend("make the hem narrower than the radius, or bind the edge with a facing")
nearest = M.relation("nearest", "y_1", "mm", "how near the cuts come to the fold line", resolution=0.1)
M.equals(sp.Piecewise((clear, b <= free), (free, True)), "without cuts nothing comes near the fold")
M.limit("clear", "the cuts keep away from the fold by", nearest, ">=", clear)
M.mend("finish this edge with a facing, allow more strain, or widen the bend")
M.caution(*CLOTH_KNIFE[:2])
M.caution(
    "Seal or zigzag the sides of slits in woven cloth: a slit that points at the fold tears on.", when=sp.Eq(kind, 1)
)
MODEL = M.done()
