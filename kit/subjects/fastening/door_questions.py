"""What is asked about a door before it is shown."""

from kit.core.question import Bench, Option, Question, named, near


def thicker(bench: Bench) -> Question:
    """Ask what a door of twice the thickness asks of its gap."""
    twice = bench.case.with_(thickness=2 * bench.case["thickness"].value, axis="0 mm")
    once = bench.case.with_(axis="0 mm")
    ratio = twice.base["gap_needed"] / once.base["gap_needed"]
    return Question(
        "the hinge's axis lies in the door's outer face. The door becomes twice as thick. How much more gap does its "
        "square edge need?",
        (
            Option("as much as before", near(ratio, 1), "a thicker door reaches farther back from the axis"),
            Option("twice as much", near(ratio, 2), "the corner's way grows faster than the thickness"),
            Option(
                "nearly four times as much", near(ratio, 4, 0.1), "the gap would have to grow with the thickness alone"
            ),
        ),
        f"{bench.show('gap_needed', once)} become {bench.show('gap_needed', twice)}: it goes with the square.",
    )


def hinges_apart(bench: Bench) -> Question:
    """Ask what hinges half as far apart do."""
    half = bench.case.with_(hinges=bench.case["hinges"].value / 2)
    ratio = half.base["pull"] / bench.case.base["pull"]
    return Question(
        "the hinges are set half as far apart. What does the pull at the upper one become?",
        (
            Option("half as much", near(ratio, 1 / 2), "the lever that holds the door has become shorter"),
            Option("the same", near(ratio, 1), "the door's weight would have to pull straight down"),
            Option("twice as much", near(ratio, 2), "the lever would have to count for nothing"),
        ),
        f"{bench.show('pull')} become {bench.show('pull', half)}.",
    )


QUESTIONS = named(thicker, hinges_apart)
