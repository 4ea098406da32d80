"""Relief cuts in a curved hem: how far apart, how deep, and how wide must notches be?

The picture: the corner of a panel with a curved edge, the hem still flat outside the fold line. On a convex edge the
hem is longer than the line that it is folded to, and puckers: notches take the surplus out. On a concave edge it is
shorter and must stretch: slits let it open.

Assumptions: the edge is an arc; the hem is folded flat; close to the fold the cloth eases as much as it tolerates.
Sources: lengths of parallel arcs (geometry); the reach of a cut is taken after Saint-Venant's principle.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.cloth.geometry.relief_cuts import cut_spacing, free_depth, strain_of_fold, turn_per_cut
from kit.subjects.cloth.ruling import unknown
from kit.subjects.safety import CLOTH_KNIFE

M = Model(
    "cloth.relief",
    title="Relief cuts in a curved hem",
    question="How many cuts does a curved hem need, how deep, and how near to the fold may they come?",
    picture="A quarter of a ring: the fold line as an arc, the hem outside it, cuts from its edge toward the fold, "
    "ending at the free depth.",
    assumptions=(
        "The edge is an arc, and the hem is as deep all along it.",
        "The hem is folded flat onto the panel; threads parallel to the fold keep their lengths unless strained.",
        "A cut frees the cloth beside it as far as it is away: between two cuts the hem is strained "
        "like one half their distance deep.",
    ),
    sources=(
        "lengths of parallel arcs: angle times radius",
        "Saint-Venant's principle: the disturbance of a free edge dies out over the width that it balances (textbook, "
        "from memory)",
        "slits on concave and notches on convex edges: common practice, no source",
    ),
)  # fmt: skip

kind = M.choice("edge", "k", ("convex", "concave"), "convex", meaning="which way the edge of the panel bends")
R = M.given(
    "radius", "R", "mm", 160, span=(20, 2000), half=1,
    meaning="radius of the edge on the flat panel", how="from the pattern, or chord and rise of the edge",
)  # fmt: skip
beta = M.given(
    "turn", r"\beta", "deg", 75, span=(5, 360), half=1,
    meaning="angle through which the edge turns on the flat panel", how="bevel gauge between the tangents at its ends",
)  # fmt: skip
b = M.given("depth", "b", "mm", 18, span=(3, 60), half=0.5, meaning="depth of the hem, flat, from fold to cut edge",
            how="rule; both turns of a double hem")  # fmt: skip
epsilon = M.given(
    "tolerated", r"\varepsilon", "%", 10, span=(1, 40), half=2,
    meaning="strain that the folded hem may keep, as small puckers or by stretching",
    how="fold a curved offcut and look",
    source="common practice, no source",
)  # fmt: skip
clear = M.given(
    "clear", "q", "mm", 3, span=(0, 15), half=0.5,
    meaning="least distance of a cut from the fold line", how="a stitch line's width and a margin against tearing",
    source="common practice, no source",
)  # fmt: skip
angle = sp.Symbol("alpha", positive=True)
sign = 1 - 2 * kind  # +1 on a convex edge, whose hem lies on the larger radius; -1 on a concave one


def by_kind(form: object, *arguments: sp.Expr) -> sp.Expr:
    """Return what a formula of the shapes says for a convex and for a concave edge."""
    return sp.Piecewise((form(*arguments, False), sp.Eq(kind, 0)), (form(*arguments, True), True))  # type: ignore[operator]


flat = M.relation(
    "flat_length", r"\ell_{\mathrm{flat}}", "mm", beta * (R + sign * b),
    because="before folding the cut edge of the hem is an arc one hem depth outside the fold line, or inside it",
    lines=[(sp.Integral(R + sign * b, (angle, 0, beta)), "each step of angle takes the radius times that step")],
    meaning="length of the hem's cut edge, flat", resolution=0.1,
)  # fmt: skip
folded = M.relation(
    "folded_length", r"\ell_{\mathrm{fold}}", "mm", beta * (R - sign * b),
    because="folded over, it lies as far on the other side",
    meaning="length of the arc on which the folded edge lies", resolution=0.1,
)  # fmt: skip
bare = M.result(
    "bare_strain", r"\varepsilon_0", "%", by_kind(strain_of_fold, b, R),
    because="strain is the change of length over the length before",
    lines=[(sign * (flat - folded) / flat, "lengths flat and folded")],
    meaning="strain of the hem's edge if it is not cut: surplus (convex) or stretch (concave)", resolution=0.1,
)  # fmt: skip
free = M.result(
    "free_depth", "y_0", "mm", by_kind(free_depth, R, epsilon),
    because="up to this distance from the fold the strain stays below what is tolerated",
    lines=[(equal(2 * unknown("free_depth"), epsilon * (R + sign * unknown("free_depth"))),
            "the strain 2 y / (R ± y) set to ε; the angle cancels")],
    meaning="distance from the fold up to which the hem needs no cut; cuts end here", resolution=0.1,
)  # fmt: skip
deep = M.result(
    "cut_depth", "t", "mm", sp.Max(b - free, 0),
    because="a cut runs from the hem's edge to the free depth; a hem that is no deeper needs none",
    meaning="length of each cut, from the hem's edge", resolution=0.1,
)  # fmt: skip
gap = M.relation(
    "greatest_gap", r"g_{\mathrm{max}}", "mm", by_kind(cut_spacing, R, epsilon),
    because="midway between two cuts the hem may be strained like one free depth deep: half the distance is y₀",
    lines=[(2 * free, "a free depth to each side")], source="Saint-Venant's principle, a rule of thumb here",
    meaning="greatest distance of the cuts along the fold line", resolution=0.1,
)  # fmt: skip
each = M.relation(
    "turn_each", r"\beta_1", "deg", by_kind(turn_per_cut, epsilon),
    because="seen from the middle of the arc the distance is an angle, and the radius cancels",
    lines=[(gap / R, "arc over radius")], meaning="greatest turn that one cut relieves", resolution=0.1,
)  # fmt: skip
count = M.result(
    "cuts", "n", "", sp.Piecewise((0, b <= free), (sp.ceiling(beta / each), True)),
    because="whole cuts, so that none relieves more than its share", meaning="number of cuts", resolution=1,
)  # fmt: skip
share = M.relation(
    "turn_of_cut", r"\beta_2", "deg", beta / sp.Max(count, 1),
    because="the cuts share the turn evenly", meaning="turn that each cut relieves", resolution=0.1,
)  # fmt: skip
spacing = M.result(
    "spacing", "g", "mm", R * share, because="measured along the fold line",
    meaning="distance of the cuts along the fold line (half of it at both ends)", resolution=0.1,
)  # fmt: skip
mouth = M.result(
    "mouth", "m", "mm", sp.Piecewise((2 * deep * share, sp.Eq(kind, 0)), (0, True)),
    because="the hem's arc is too long by what it loses when folded, less what is left to the cloth inside the root; "
    "a slit has no width",
    lines=[(sp.Piecewise((share * ((R + b) - (R - b)) - share * ((R + free) - (R - free)),
                          sp.And(sp.Eq(kind, 0), b > free)), (0, True)),
            "surplus of one cut's share of the arc, at the hem's edge less at the root")],
    meaning="width of each notch at the hem's edge", resolution=0.1,
)  # fmt: skip
M.result(
    "notch", r"\nu", "deg", sp.Piecewise((2 * sp.atan(share), mouth > 0), (0, True)),
    because="the sides of the V part by twice the cut's turn for each step out: folded, they just meet",
    lines=[(sp.Piecewise((2 * sp.atan(mouth / (2 * deep)), mouth > 0), (0, True)), "half the mouth over the depth")],
    meaning="opening angle of each notch; zero for a slit", resolution=0.1,
)  # fmt: skip
left = M.result(
    "left_strain", r"\varepsilon_{1}", "%",
    sp.Piecewise((bare, b <= free), (by_kind(strain_of_fold, spacing / 2, R), True)),
    because="between two cuts the hem is strained like one half their distance deep; uncut, like the whole depth",
    meaning="strain that is left in the hem", resolution=0.1,
)  # fmt: skip
M.limit("eased", "the strain left in the hem is", value=left, allowed=epsilon,
        mend="cut more often, or make the hem narrower")  # fmt: skip
M.limit("room", "the radius of the edge is", value=R, allowed=b, sense=">=", in_unit="mm", resolution=1,
        mend="make the hem narrower than the radius, or bind the edge with a facing")  # fmt: skip
nearest = M.relation(
    "nearest", "y_1", "mm", sp.Piecewise((clear, b <= free), (free, True)),
    because="without cuts nothing comes near the fold",
    meaning="how near the cuts come to the fold line", resolution=0.1,
)  # fmt: skip
M.limit("clear", "the cuts keep away from the fold by", value=nearest, allowed=clear, sense=">=",
        mend="finish this edge with a facing, allow more strain, or widen the bend")  # fmt: skip
M.caution(*CLOTH_KNIFE[:2])
M.caution("Seal or zigzag the sides of slits in woven cloth: a slit that points at the fold tears on.",
          when=sp.Eq(kind, 1))  # fmt: skip
MODEL = M.done()
