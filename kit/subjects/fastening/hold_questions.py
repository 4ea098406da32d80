"""What is asked about a machine's hold-down before it is shown."""

from kit.core.question import Bench, Option, Question, named, same


def farther_row(bench: Bench) -> Question:
    """Ask what bolts twice as far from the edge have to pull."""
    far = bench.case.with_(row=2 * bench.case["row"].value)
    share = far.base["each"] / bench.case.base["each"] if bench.case.base["each"] > 0 else 1.0
    return Question(
        "the far row of bolts is set twice as far from the tipping edge, all else as it is. What has each to pull?",
        (
            Option("half as much", 0.45 < share < 0.55, "the arm would have to count for less, or nothing to be held"),
            Option("a quarter", 0.2 < share < 0.3, "the arm counts once"),
            Option("as much as before", same(share), "the same moment is held by a longer arm"),
        ),
        f"The moment stays, its arm is doubled: {bench.show('each')} become {bench.show('each', far)}.",
    )


QUESTIONS = named(farther_row)
