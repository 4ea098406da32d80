"""What is asked about a printed pad before it is shown."""

from kit.core.question import SAME, Bench, Option, Question, named, same


def square_corners(bench: Bench) -> Question:
    """Ask whether round corners save area of a lip."""
    square = bench.case.with_(radius="0 mm")
    ratio = square.base["lip_area"] / bench.case.base["lip_area"]
    return Question(
        "the foot has square corners instead of rounded ones. How does the lip's area change?",
        (
            Option("it grows", ratio > SAME[1], "what a corner wins outside, the lip loses inside"),
            Option("it stays", same(ratio), "length and width of the outline would have to change"),
            Option("it shrinks", ratio < SAME[0], "what a corner loses inside, the lip wins outside"),
        ),
        "Moved to the right and to the far side, any outline of that length and width sweeps the same area: "
        f"{bench.show('lip_area', square)} with square corners, {bench.show('lip_area')} with round ones.",
    )


QUESTIONS = named(square_corners)
