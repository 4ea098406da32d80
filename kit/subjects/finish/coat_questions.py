"""What is asked about coats before it is shown."""

from kit.core.question import Bench, Option, Question, named, near


def waits(bench: Bench) -> Question:
    """Ask how many waits lie between the coats."""
    three = bench.case.with_(coats=3)
    waits = (three.base["ready"] - three.base["last"]) / three.base["between"]
    return Question(
        "three coats are put on. How often is the wait between two coats waited?",
        (
            Option("twice", near(waits, 2), "count the gaps between three fingers"),
            Option("three times", near(waits, 3), "after the last coat another wait begins"),
            Option("four times", near(waits, 4), "there are fewer gaps than coats"),
        ),
        f"There is one less than coats; with the last wait it is ready after {bench.show('ready', three)}.",
    )


QUESTIONS = named(waits)
