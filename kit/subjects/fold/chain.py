"""A chain of folds: how long is the flat strip that folds up to a tray, and where do its fold lines go?

The picture: the end view of a tray for the drop chute, walked along from one edge to the other: leg, bend, leg,
bend … Bends to the left count positive, bends to the right negative. A profile with fewer legs has legs of zero
and bends of 0°: an angle has one bend, a channel two, a hat four.

Assumptions: all bends on one tool (same inside radius), otherwise as for one bend.
Sources: shop formulas of Machinery's Handbook; DIN 6935.
"""

from itertools import pairwise

import sympy as sp

from kit.core.model import Model
from kit.subjects.fold.neutral_axis import DIN, MACHINERY, allowance, setback_factor, state_sheet

M = Model(
    "fold.chain",
    title="A chain of folds",
    question="How long is the flat strip that folds up to this profile, and where do its fold lines go?",
    picture="End view of a folded tray: five legs joined by four bends, every leg measured over its outside; below "
    "it the flat strip with four fold lines.",
    assumptions=(
        "All bends have the same inside radius and the same neutral-axis factor.",
        "Every leg is measured over the outside of its bends, as a caliper reads it.",
        "A bend to the left is positive, to the right negative; bends of 0° and legs of zero leave a shorter profile.",
    ),
    sources=(
        MACHINERY,
        DIN,
        "stretched length of a part with several bends: sum of the legs less the deductions, "
        "einfachnurfet.wordpress.com/gestreckte-laenge",
    ),
)  # fmt: skip

T, R, K = state_sheet(M)
CALIPER = "caliper or square, over the outside of the bends"
legs = [
    M.given(
        f"leg_{i}", f"l_{i}", "mm", size, span=(0, 1000), half=0.3, meaning=f"leg {i} {what}", how=CALIPER
    )
    for i, (size, what) in enumerate(
        [(15, "(lip)"), (80, "(side)"), (220, "(bottom)"), (80, "(side)"), (15, "(lip)")], start=1
    )
]
turns = [
    M.given(
        f"angle_{i}", rf"\alpha_{i}", "deg", turn, span=(-180, 180), half=0.5,
        meaning=f"bend {i}, to the left positive", how="protractor: 180° less the angle between the legs",
    )
    for i, turn in enumerate([-90, 90, 90, -90], start=1)
]  # fmt: skip
blank = M.given(
    "blank", r"L_{\mathrm{blank}}", "mm", 400, span=(10, 5000), half=0.5,
    meaning="length of the sheet at hand, across the folds", how="tape measure",
)  # fmt: skip

setbacks, arcs, takes = [], [], []
for i, turn in enumerate(turns, start=1):
    S = M.relation(
        f"setback_{i}", f"S_{i}", "mm", setback_factor(sp.Abs(turn)) * (R + T),
        because=f"the outside face of bend {i} has radius R + T, whichever way it turns",
        source=DIN, meaning=f"outside setback of bend {i}", resolution=0.01,
    )  # fmt: skip
    A = M.relation(
        f"allowance_{i}", f"A_{i}", "mm", allowance(sp.Abs(turn), R, K, T),
        because=f"bend {i} takes as much flat stock as its neutral fiber is long",
        source=MACHINERY, meaning=f"bend allowance {i}", resolution=0.01,
    )  # fmt: skip
    v = M.relation(
        f"deduction_{i}", f"v_{i}", "mm", 2 * S - A,
        because=f"way round corner {i} less the arc of the neutral fiber",
        source=DIN, meaning=f"bend deduction {i}", resolution=0.01,
    )  # fmt: skip
    setbacks.append(S)
    arcs.append(A)
    takes.append(v)
given_up = pairwise([0, *setbacks, 0])
straights = [leg - before - after for leg, (before, after) in zip(legs, given_up, strict=True)]
flat = M.result(
    "flat_length", "L", "mm", sum(legs) - sum(takes),
    because="each bend saves its deduction from the sum of the outside legs",
    lines=[(sp.Add(*straights, *arcs), "straight parts and bends laid end to end")],
    meaning="length of the flat strip", resolution=0.1,
)  # fmt: skip
for i in range(1, 5):
    M.result(
        f"fold_line_{i}", f"x_{i}", "mm", sum(legs[:i]) - sum(takes[: i - 1]) - takes[i - 1] / 2,
        because=f"everything before bend {i} laid flat, and half of the bend",
        lines=[(sp.Add(*straights[:i], *arcs[: i - 1], arcs[i - 1] / 2),
                f"straight parts and bends up to the middle of bend {i}")],
        meaning=f"middle of bend {i}, from the edge of leg 1 on the flat strip", resolution=0.1,
    )  # fmt: skip
M.result(
    "spare", r"\Delta L", "mm", blank - flat,
    because="what the sheet has more than the strip needs", meaning="sheet left over", resolution=0.1,
)  # fmt: skip
shortest = M.relation(
    "shortest_straight", r"s_{\mathrm{min}}", "mm", sp.Min(*straights),
    because="a leg shorter than its setbacks would make two bends run into each other",
    meaning="shortest straight part between bends", resolution=0.1,
)  # fmt: skip
M.limit(
    "blank", "the flat strip takes", value=flat, allowed=blank,
    mend="shorten a leg, take a wider sheet, or join two strips on a leg",
)  # fmt: skip
M.limit(
    "straight", "the shortest straight part is", value=shortest, allowed=0, sense=">=",
    mend="lengthen the leg between the bends or bend to a smaller radius",
)  # fmt: skip
M.caution(
    "Plan the order of bends from the edges inward, and check that the part clears the machine at every step."
)
MODEL = M.done()
