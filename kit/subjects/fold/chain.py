"""A chain of folds.

How long is the flat strip that folds up to this profile, and where do its fold lines go?

Picture: End view of a folded tray: five legs joined by four bends, every leg measured over its outside; below it the
flat strip with four fold lines.

Assumptions:
- All bends have the same inside radius and the same neutral-axis factor.
- Every leg is measured over the outside of its bends, as a caliper reads it.
- A bend to the left is positive, to the right negative; bends of 0° and legs of zero leave a shorter profile.

Sources:
- stretched length of a part with several bends: sum of the legs less the deductions,
  einfachnurfet.wordpress.com/gestreckte-laenge

Notes: The end view of a tray for the drop chute, walked along from one edge to the other: leg, bend, leg, bend … Bends
to the left count positive, bends to the right negative. A profile with fewer legs has legs of zero and bends of 0°: an
angle has one bend, a channel two, a hat four. Also: shop formulas of Machinery's Handbook; DIN 6935.
"""

from itertools import pairwise

import sympy as sp

from kit.core.model import Model
from kit.subjects.fold.neutral_axis import DIN, MACHINERY, allowance, setback_factor, state_sheet

HAIR = sp.Rational(1, 1000)  # of the thickness, by which legs that only touch may seem to cross

M = Model(
    "fold.chain",
    __doc__,
    sources=(
        MACHINERY,
        DIN,
    ),
)

T, R, K = state_sheet(M)
CALIPER = "caliper or square, over the outside of the bends"
legs = []
for i, (size, what) in enumerate(
    [(15, "(lip)"), (80, "(side)"), (220, "(bottom)"), (80, "(side)"), (15, "(lip)")], start=1
):
    leg = M.given(f"leg_{i}", f"l_{i}", f"{size} ± 0.3 mm", (0, 1000), f"leg {i} {what}")
    M.measured(CALIPER)
    legs.append(leg)
turns = []
for i, turn in enumerate([-90, 90, 90, -90], start=1):
    angle = M.given(f"angle_{i}", rf"\alpha_{i}", f"{turn} ± 0.5 deg", (-180, 180), f"bend {i}, to the left positive")
    M.measured("protractor: 180° less the angle between the legs")
    turns.append(angle)
blank = M.given(
    "blank", r"L_{\mathrm{blank}}", "400 ± 0.5 mm", (10, 5000), "length of the sheet at hand, across the folds"
)
M.measured("tape measure")

setbacks, arcs, takes = [], [], []
for i, turn in enumerate(turns, start=1):
    S = M.relation(f"setback_{i}", f"S_{i}", "mm", f"outside setback of bend {i}", resolution=0.01)
    M.equals(
        setback_factor(sp.Abs(turn)) * (R + T), f"the outside face of bend {i} has radius R + T, whichever way it turns"
    )
    M.source(DIN)
    A = M.relation(f"allowance_{i}", f"A_{i}", "mm", f"bend allowance {i}", resolution=0.01)
    M.equals(allowance(sp.Abs(turn), R, K, T), f"bend {i} takes as much flat stock as its neutral fiber is long")
    M.source(MACHINERY)
    v = M.relation(f"deduction_{i}", f"v_{i}", "mm", f"bend deduction {i}", resolution=0.01)
    M.equals(2 * S - A, f"way round corner {i} less the arc of the neutral fiber")
    M.source(DIN)
    setbacks.append(S)
    arcs.append(A)
    takes.append(v)
given_up = pairwise([0, *setbacks, 0])
straights = [leg - before - after for leg, (before, after) in zip(legs, given_up, strict=True)]
flat = M.result("flat_length", "L", "mm", "length of the flat strip", resolution=0.1)
M.step(sp.Add(*straights, *arcs), "straight parts and bends laid end to end")
M.equals(sum(legs) - sum(takes), "each bend saves its deduction from the sum of the outside legs")
for i in range(1, 5):
    M.result(
        f"fold_line_{i}",
        f"x_{i}",
        "mm",
        f"middle of bend {i}, from the edge of leg 1 on the flat strip",
        resolution=0.1,
    )
    M.step(
        sp.Add(*straights[:i], *arcs[: i - 1], arcs[i - 1] / 2),
        f"straight parts and bends up to the middle of bend {i}",
    )
    M.equals(
        sum(legs[:i]) - sum(takes[: i - 1]) - takes[i - 1] / 2,
        f"everything before bend {i} laid flat, and half of the bend",
    )
M.result("spare", r"\Delta L", "mm", "sheet left over", resolution=0.1)
M.equals(blank - flat, "what the sheet has more than the strip needs")
shortest = M.relation(
    "shortest_straight", r"s_{\mathrm{min}}", "mm", "shortest straight part between bends", resolution=0.1
)
M.equals(sp.Min(*straights), "a leg shorter than its setbacks would make two bends run into each other")
headings, corners = [sp.Integer(0)], [(sp.Integer(0), sp.Integer(0)), (legs[0], sp.Integer(0))]
for i in range(2, 6):
    heading = M.relation(f"heading_{i}", rf"\varphi_{i}", "deg", f"direction of leg {i} from leg 1", resolution=0.1)
    M.equals(headings[-1] + turns[i - 2], f"bend {i - 1} turns it from the leg before")
    headings.append(heading)
    (x, y), leg = corners[-1], legs[i - 1]
    across = M.relation(f"x_{i}", f"X_{i}", "mm", f"end of leg {i}, along leg 1", resolution=0.1)
    M.equals(x + leg * sp.cos(heading), "from the end of the leg before, along its own direction")
    up = M.relation(f"y_{i}", f"Y_{i}", "mm", f"end of leg {i}, square to leg 1", resolution=0.1)
    M.equals(y + leg * sp.sin(heading), "from the end of the leg before, along its own direction")
    corners.append((across, up))


def parted(one: int, other: int) -> sp.Symbol:
    """State on which sides of a leg's line another's ends lie: below zero where they lie on both."""
    (x, y), heading = corners[one - 1], headings[one - 1]
    sides = [(v - y) * sp.cos(heading) - (u - x) * sp.sin(heading) for u, v in corners[other - 1 : other + 1]]
    apart = M.relation(
        f"sides_{one}{other}",
        f"q_{{{one}{other}}}",
        "mm^2",
        f"sides of leg {one} on which leg {other} ends",
        resolution=1,
    )
    M.equals(sides[0] * sides[1], "the distances of both ends from the line differ in sign where it parts them")
    return apart


crossed = []
for i, j in ((1, 3), (1, 4), (1, 5), (2, 4), (2, 5), (3, 5)):
    first, second = parted(i, j), parted(j, i)
    pair = M.relation(f"crossed_{i}{j}", f"n_{{{i}{j}}}", "", f"1 where legs {i} and {j} pass through each other")
    touching = -((HAIR * T) ** 2)
    M.equals(
        sp.Piecewise((1, sp.And(first < touching, second < touching)), (0, True)),
        "two legs cross where each is parted by the line of the other, by more than a hair of the thickness",
    )
    crossed.append(pair)
crossing = M.relation("crossing", r"n_{\times}", "", "pairs of legs that pass through each other", resolution=1)
M.equals(sp.Add(*crossed), "all pairs that do not meet at a bend")
M.limit("crossing", "the pairs of legs that pass through each other are", crossing, "<=", 0)
M.mend("shorten a leg, or bend it less")
M.limit("blank", "the flat strip takes", flat, "<=", blank)
M.mend("shorten a leg, take a wider sheet, or join two strips on a leg")
M.limit("straight", "the shortest straight part is", shortest, ">=", 0)
M.mend("lengthen the leg between the bends or bend to a smaller radius")
M.caution("Plan the order of bends from the edges inward, and check that the part clears the machine at every step.")
MODEL = M.done()
