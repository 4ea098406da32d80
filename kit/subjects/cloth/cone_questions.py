"""What is asked about a cone before it is shown."""

from kit.core.question import SAME, Bench, Option, Question, named, near, same


def twice_as_high(bench: Bench) -> Question:
    """Ask what a higher cone does to its sector."""
    high = bench.case.with_(height=2 * bench.case["height"].value)
    times = high.base["sector"] / bench.case.base["sector"]
    return Question(
        "a cone twice as high on the same ring: is its sector twice as large?",
        (
            Option("yes", near(times, 2), "the sector's arc is the ring, which stays; its radius grows"),
            Option("no, it is smaller", times < SAME[0], "the slant did not grow"),
            Option("no, it stays", same(times), "ring and slant would have to grow alike"),
        ),
        f"A higher cone is steeper, and a steeper one opens less: {bench.show('sector')} becomes "
        f"{bench.show('sector', high)}.",
    )


QUESTIONS = named(twice_as_high)
