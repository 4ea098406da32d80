"""What is asked about a reversible block before it is shown."""

from kit.core.question import Bench, Option, Question, named


def which_way(bench: Bench) -> Question:
    """Ask which way keeps the hand farther from the blade."""
    direct, over = (bench.case.with_(way=way, target="300 mm") for way in ("direct", "over the block"))
    gain = over.base["hand"] - direct.base["hand"]
    return Question(
        "a part of 300 mm can be set either way. Which way keeps the hand farther from the blade?",
        (
            Option("direct", gain < 0, "direct, the stop itself stands at the part's end, and so does the hand"),
            Option("over the block", gain > 0, "the block would have to bring the hand nearer"),
            Option("no difference", gain == 0, "the block lies between the hand and the part's end"),
        ),
        f"Direct the hand is at {bench.show('hand', direct)}, over the block at {bench.show('hand', over)}. The "
        "gain of "
        f"{bench.show('hand_gain')} does not depend on the target.",
    )


QUESTIONS = named(which_way)
