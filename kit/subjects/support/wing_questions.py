"""What is asked about a wing before it is shown."""

from kit.core.question import Bench, Option, Question, named


def a_leg(bench: Bench) -> Question:
    """Ask what a leg leaves of the sag."""
    free, leg = (bench.case.with_(end=how) for how in ("free", "on a leg"))
    left = leg.base["sag"] / free.base["sag"]
    return Question(
        "a leg is set under the wing's free end. How much of the sag is left, now in the middle?",
        (
            Option("about half", left > 0.3, "the middle of a held wing hangs far less than its end"),
            Option("about a fifth", 0.12 < left <= 0.3, "work it out: the leg takes more than that away"),
            Option("less than an eighth", left <= 0.12, "the middle would have to be much stiffer"),
        ),
        f"{bench.show('sag', free)} become {bench.show('sag', leg)}; the leg carries {bench.show('leg', leg)}.",
    )


QUESTIONS = named(a_leg)
