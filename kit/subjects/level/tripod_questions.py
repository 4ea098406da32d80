"""What is asked about three feet before it is shown."""

from kit.core.question import Bench, Option, Question, named, near, same


def higher_push(bench: Bench) -> Question:
    """Ask what a push higher up takes."""
    high = bench.case.with_(push_height=2 * bench.case["push_height"].base)
    left = high.base["tip"] / bench.case.base["tip"]
    return Question(
        "somebody leans on it twice as high up. What push tips it over?",
        (
            Option("the same", same(left), "the arm of the push is twice as long now"),
            Option("half of it", near(left, 1 / 2), "push times height would have to be another moment than before"),
            Option("a quarter of it", near(left, 1 / 4), "the height counts once, not squared"),
        ),
        f"Push times height must lift the weight over the near side: {bench.show('tip')} becomes "
        f"{bench.show('tip', high)}, and work pushes with {bench.show('push')}.",
    )


QUESTIONS = named(higher_push)
