"""What is asked about a blade's run-out before it is shown."""

from kit.core.question import Bench, Option, Question, named, near


def shorter(bench: Bench) -> Question:
    """Ask how much of the run-out a part loses."""
    case = bench.case
    share = case.base["shorter"] / case.base["wobble"] if case.base["wobble"] else 1 / 2
    return Question(
        "a blade wobbles. How much of the run-out at its teeth does a part lose, beside a blade that runs true?",
        (
            Option("all of it", near(share, 1), "the teeth go as far to the other side, into the offcut"),
            Option("half of it", near(share, 1 / 2), "the kerf would have to grow on one side alone"),
            Option("nothing", near(share, 0), "the kerf is wider, so both sides give some of it"),
        ),
        f"{bench.show('shorter')} of {bench.show('wobble')}: the kerf grows on both sides.",
    )


QUESTIONS = named(shorter)
