"""What is asked about a glued miter before it is shown."""

from kit.core.question import Bench, Option, Question, named, same


def wider_boards(bench: Bench) -> Question:
    """Ask what boards twice as wide do to a corner that is levered open."""
    wide = bench.case.with_(width=2 * bench.case["width"].value)
    share = wide.base["line"] / bench.case.base["line"]
    return Question(
        "the boards are twice as wide; the same pull passes as far beside the middle. How hard is the worse end of the "
        "miter pulled then?",
        (
            Option("half as hard", 0.45 < share < 0.55, "it is levered, and leverage counts with the length squared"),
            Option(
                "less than half as hard",
                0.2 < share < 0.45,
                "the pull would have to pass through the middle, or nearly",
            ),
            Option("as hard", same(share), "there is more miter to hold"),
        ),
        f"Twice the length takes half the even pull, and a quarter of what the lever adds: {bench.show('line')} become "
        f"{bench.show('line', wide)}.",
    )


QUESTIONS = named(wider_boards)
