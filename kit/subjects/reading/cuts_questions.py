"""What is asked about repeated cuts before it is shown."""

from kit.core.question import Bench, Option, Question, named, near


def four_times(bench: Bench) -> Question:
    """Ask how bias and scatter of a stack grow."""
    four = bench.case.with_(wanted=4 * round(bench.case.base["wanted"]))
    bias, scatter = (abs(four.base[name] / bench.case.base[name]) for name in ("stack_bias", "stack_u"))
    return Question(
        "four times as many parts are laid end to end. How much more does the stack scatter, and how much more is "
        "its bias?",
        (
            Option(
                "both four times", near(scatter, 4) and near(bias, 4), "what each part has of its own partly cancels"
            ),
            Option(
                "the scatter twice, the bias four times",
                near(scatter, 2) and near(bias, 4),
                "scatter would have to add up like a bias, or a bias to cancel",
            ),
            Option("both twice", near(scatter, 2) and near(bias, 2), "what all parts share never cancels"),
        ),
        f"What parts share adds up: {bench.show('stack_bias')} becomes {bench.show('stack_bias', four)}. What each "
        "has of "
        f"its own adds by squares: {bench.show('stack_u')} becomes {bench.show('stack_u', four)}.",
    )


QUESTIONS = named(four_times)
