"""What is asked about a glued tape before it is shown."""

from kit.core.question import Bench, Option, Question, named


def stretched(bench: Bench) -> Question:
    """Ask what a tape that was glued under tension does."""
    free = bench.case.with_(laid="free")
    more = bench.case.base["stretch_error"] - free.base["stretch_error"]
    return Question(
        "the tape was pulled straight while its glue took. What does that do, for as long as it sticks?",
        (
            Option("nothing, it springs back", more == 0, "the glue does not let it"),
            Option(
                "marks stand too far apart, parts come out long", more > 0, "a pulled tape has no marks that are close"
            ),
            Option("parts come out short", more < 0, "so it is if the marks stand too close"),
        ),
        f"The glue keeps the stretch: {bench.show('stretch_error')} at this reading. A free tape springs back to "
        f"{bench.show('stretch_error', free)}.",
    )


QUESTIONS = named(stretched)
