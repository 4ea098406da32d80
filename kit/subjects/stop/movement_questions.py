"""What is asked about a block and its key over the seasons before it is shown."""

from kit.core.question import Bench, Option, Question, named


def width_or_length(bench: Bench) -> Question:
    """Ask which of the two moves more."""
    base = bench.case.base
    ratio = abs(base["width_change"] / base["length_change"])
    return Question(
        f"the block is {bench.show('length')} long, its key {bench.show('width')} wide. Which moves more between "
        "spring and "
        "a wet week?",
        (
            Option("the key's width, by far", ratio > 2, "across the grain wood moves more, but the key is narrow"),
            Option("both about alike, within a factor of two", 0.5 <= ratio <= 2, "one of them moves more than twice"),
            Option(
                "the block's length, by far", ratio < 0.5, "the block is long, but along the grain wood hardly moves"
            ),
        ),
        f"Across the grain wood moves {bench.show('across_over_along')} times as much for its size, but the block "
        "is some "
        f"{base['length'] / base['width']:.0f} times as long: {bench.show('width_change')} in width, "
        f"{bench.show('length_change')} in length.",
    )


QUESTIONS = named(width_or_length)
