"""What is asked about a bend before it is shown."""

from kit.core.question import SAME, Bench, Option, Question, named, same


def outside_legs(bench: Bench) -> Question:
    """Ask how the flat length compares with the legs."""
    ratio = bench.case.base["flat_length"] / (bench.case.base["leg_a"] + bench.case.base["leg_b"])
    return Question(
        "both legs are measured over the outside. Is the flat piece as long as the two legs together?",
        (
            Option("longer", ratio > 1, "the corner is counted twice in the legs, not left out"),
            Option("exactly as long", ratio == 1, "the sheet does not go out into the sharp corner"),
            Option("shorter", ratio < 1, "the sheet would have to go out into the sharp corner"),
        ),
        f"The sheet cuts the corner along its arc: {bench.show('flat_length')}, which is {bench.show('deduction')} "
        "less "
        "than the legs together.",
    )


def rounder(bench: Bench) -> Question:
    """Ask what a larger radius does to the flat length."""
    wide = bench.case.with_(inside_radius="6 mm")
    change = wide.base["flat_length"] - bench.case.base["flat_length"]
    return Question(
        "set the inside radius to 6 mm, legs as before. What happens to the flat length?",
        (
            Option("it grows: a larger arc is longer", change > 0, "the arc grows, but the straight legs lose more"),
            Option("it shrinks: a rounder corner is cut shorter", change < 0, "the radius became smaller, not larger"),
            Option("it stays", change == 0, "arc and straight legs do not change by the same length"),
        ),
        f"The arc grows, but the setbacks grow more: {bench.show('flat_length')} becomes "
        f"{bench.show('flat_length', wide)}.",
    )


def trial_piece(bench: Bench) -> Question:
    """Ask what a trial piece tells about the neutral fiber."""
    found = bench.case.find("shop_factor", "flat_length", "64.3 mm")
    ratio = found.values[0] / bench.case.base["neutral_factor"]
    return Question(
        "your trial piece of the tray needs a flat length of 64.3 mm where the kit said less. Did its fiber lie "
        "farther "
        "in or farther out than assumed?",
        (
            Option(
                "farther in", ratio < SAME[0], "on a smaller radius the arc would be shorter, and less stock needed"
            ),
            Option("farther out", ratio > SAME[1], "on a larger radius the arc is longer, and more stock needed"),
            Option("just where it was", same(ratio), "then the flat length would have come out as computed"),
        ),
        f"More flat stock is needed, so the fiber ran on a larger radius; in fact {found.words(bench.display)}.",
    )


QUESTIONS = named(outside_legs, rounder, trial_piece)
