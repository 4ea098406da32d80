"""What is asked about pocket screws before it is shown."""

from kit.core.question import Bench, Option, Question, named, same


def steeper(bench: Bench) -> Question:
    """Ask what a pocket at twice the angle does to the pull of the joint."""
    steep = bench.case.with_(slant=2 * bench.case["slant"].value)
    share = steep.base["pull_strength"] / bench.case.base["pull_strength"]
    return Question(
        "the pocket is bored at twice the angle, the screw as deep. How hard may the joint be pulled then?",
        (
            Option("half as hard", 0.45 < share < 0.55, "only the cosine of the angle counts, and it falls slowly"),
            Option("a little less hard", 0.7 < share < 0.98, "the slant takes something off each screw's pull"),
            Option("as hard", same(share), "the screw then pulls less along the joint's pull"),
        ),
        f"It goes with the cosine: {bench.show('pull_strength')} become {bench.show('pull_strength', steep)}.",
    )


QUESTIONS = named(steeper)
