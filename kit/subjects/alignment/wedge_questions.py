"""What is asked about a wedge before it is shown."""

from kit.core.question import Bench, Option, Question, named, near


def longer_face(bench: Bench) -> Question:
    """Ask what a longer face asks of its wedge."""
    twice = bench.case.with_(face=2 * bench.case["face"].value)
    ratio = twice.base["rise"] / bench.case.base["rise"] if bench.case.base["rise"] else 2
    return Question(
        "the face is twice as long and is turned by the same angle. How much more does its wedge rise?",
        (
            Option("half as much", near(ratio, 1 / 2), "over a longer way the same slope rises more"),
            Option("as much", near(ratio, 1), "the slope would have to be half of that"),
            Option("twice as much", near(ratio, 2), "the angle would have to be another one"),
        ),
        f"{bench.show('rise')} become {bench.show('rise', twice)}.",
    )


QUESTIONS = named(longer_face)
