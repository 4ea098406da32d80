"""What is asked about a drop chute before it is shown."""

from math import isclose

from kit.core.question import SAME, Bench, Option, Question, named

EQUAL = "equal shares of both edges"
CORNERS = ("right_back", "back_left", "left_front", "front_right")


def long_edge(bench: Bench) -> Question:
    """Ask what a rectangle with round corners becomes in the flat pattern."""
    turned = sum(bench.case[f"turn_{corner}"].value for corner in CORNERS)
    return Question(
        "the flat pattern's long edge was a rectangle with round corners. What is it on the table?",
        (
            Option("the same rectangle, cut open", isclose(turned, 360, abs_tol=1), "only upright walls keep no bend"),
            Option("a straight line", isclose(turned, 0, abs_tol=1), "so it is if every wall stands upright"),
            Option(
                "a curve that turns only where the corners are",
                1 < turned < 359,
                "the walls would have to stand upright, or to lie flat",
            ),
        ),
        "Between the corners each wall is flat, so its edge stays straight. At a corner the edge keeps of its bend "
        "only "
        f"the part that lies in the wall: the cosine of the wall's slope. Here {turned:.0f}° are left of 360°.",
    )


def equal_shares(bench: Bench) -> Question:
    """Ask whether kept lengths prove a pattern."""
    holds = _folds(bench)[EQUAL] < SAME[0]
    return Question(
        "equal shares of both edges were joined, and no edge of the flat piece is off by more than a billionth of a "
        "millimeter. Is it right?",
        (
            Option(
                "yes, all lengths are kept", holds, "lengths of edges say nothing of the folds between the triangles"
            ),
            Option(
                "no: it is a crumpled surface that happens to have the same edges",
                not holds,
                "its folds would not fall when the rulings are doubled",
            ),
        ),
        "Along its rulings the tangent planes at both ends differ: the surface is twisted, and cloth would have to "
        "stretch or pleat. The second map below says where, and by how much.",
    )


def doubled_rulings(bench: Bench) -> Question:
    """Ask what doubling the rulings does to the folds of both ways of joining."""
    left = _folds(bench)
    right, equal = (ratio <= 0.6 for ratio in (left["right rulings"], left[EQUAL]))
    proved = bench.best().check("proved")
    return Question(
        "double the rulings, and double them again. What happens to the largest fold between facets?",
        (
            Option("it halves both ways of joining", right and equal, "equal shares give a twisted surface"),
            Option("it halves with right rulings only", right and not equal, "the twist does not share out"),
            Option("it stays in both", not right and not equal, "along right rulings the turn is shared out"),
        ),
        f"With right rulings {proved.words(bench.display)}. With equal shares it stays, as the plot shows.",
    )


def two_panels(bench: Bench) -> Question:
    """Ask what a second seam costs in cloth."""
    ratio = bench.build(panels="2").number("cloth").base / bench.build().number("cloth").base
    return Question(
        "two panels instead of one. Does the chute take more cloth or less, cut from its outlines?",
        (
            Option("more: one more seam allowance", ratio > 1, "the allowance would have to be nothing"),
            Option("less: smaller pieces", ratio < 1, "smaller pieces pack better, but their outlines hold no less"),
            Option("the same", ratio == 1, "a seam takes two allowances, and there is one seam more"),
        ),
        "Each seam takes two allowances. Smaller pieces pack better on the roll, though; the cutting notebook says how "
        "much.",
    )


def _folds(bench: Bench) -> dict[str, float]:
    """Return what the last doubling of the rulings leaves of the largest fold, by the way of joining."""
    folds: dict[str, list[float]] = {}
    for name, _, fold in bench.best().rows("Refined").rows:
        folds.setdefault(name, []).append(float(fold.rstrip("°")))
    return {name: found[-1] / found[-2] for name, found in folds.items()}


QUESTIONS = named(long_edge, equal_shares, doubled_rulings, two_panels)
