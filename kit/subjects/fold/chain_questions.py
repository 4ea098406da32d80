"""What is asked about a chain of bends before it is shown."""

from kit.core.question import Bench, Option, Question, named

LEGS = range(1, 6)


def right_and_left(bench: Bench) -> Question:
    """Ask whether deductions of bends to the right and to the left cancel."""
    base = bench.case.base
    off = sum(base[f"leg_{number}"] for number in LEGS) - base["flat_length"]
    return Question(
        "bends 1 and 4 turn to the right, bends 2 and 3 to the left. Do their deductions cancel?",
        (
            Option("yes, right and left cancel", abs(off) < 1e-6, "a bend takes from its own two legs, whichever way"),
            Option("no, all four are taken off", off > 1e-6, "then the flat piece would be as long as all legs"),
        ),
        f"Each leg is measured over the outside of its own bends: all deductions add, {off:.1f} mm in all.",
    )


QUESTIONS = named(right_and_left)
