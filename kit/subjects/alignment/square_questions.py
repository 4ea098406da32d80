"""What is asked about squareness before it is shown."""

from kit.core.question import Bench, Option, Question, named, near


def strip(bench: Bench) -> Question:
    """Ask how much of the strip's taper belongs to one cut."""
    one = bench.case.base["across"] / bench.case.base["board"] * bench.case.base["length"]
    share = one / bench.case.base["taper"] if bench.case.base["taper"] else 1 / 4
    return Question(
        "the strip of the fifth cut is wider at one end than at the other. How much of that does a single cut miss, "
        "over the same length?",
        (
            Option("all of it", near(share, 1), "the strip lies between two edges, and both are off"),
            Option("a quarter", near(share, 1 / 4), "the errors of the corners before it would have to cancel"),
            Option("a fifth, as there are five cuts", near(share, 1 / 5), "five cuts make four corners that add up"),
        ),
        f"The strip tapers by {bench.show('taper')}, each cut is off by {bench.show('out_of_square')}: three corners "
        "are cut alike, the fourth takes what is left, and the fifth cut misses that one by four errors.",
    )


def turned(bench: Bench) -> Question:
    """Ask what the fence's move becomes with a longer arm."""
    twice = bench.case.with_(arm=2 * bench.case["arm"].value)
    ratio = twice.base["move"] / bench.case.base["move"] if bench.case.base["move"] else 2
    return Question(
        "the fence is moved twice as far from its pivot. What does the move become for the same correction?",
        (
            Option("half as much", near(ratio, 1 / 2), "the angle would have to be four times smaller"),
            Option("the same", near(ratio, 1), "an angle opens wider the farther one is from its pivot"),
            Option(
                "twice as much, so it is set more finely", near(ratio, 2), "the arm would have to count for nothing"
            ),
        ),
        f"{bench.show('move')} become {bench.show('move', twice)}: a long arm makes a fine adjustment.",
    )


QUESTIONS = named(strip, turned)
